"""Each figure, as a sheet and as its key, is the one that was looked at and accepted."""

from difflib import unified_diff

import pytest

from coursepack.drafting.catalogue import FIGURES
from tests.drafting.accept import GOLD, STATES, gold, inked


@pytest.mark.parametrize("state", STATES)
@pytest.mark.parametrize("name", FIGURES)
def test_a_figure_is_the_accepted_one(name: str, state: str) -> None:
    kept, now = gold(name, state).read_text(encoding="utf-8"), inked(name, state)
    differ = "\n".join(unified_diff(kept.splitlines(), now.splitlines(), "accepted", "now", lineterm="", n=1))
    assert kept == now, (
        f"{differ}\nlook at the figure; if it is right, accept it with `python -m tests.drafting.accept`"
    )


def test_every_gold_drawing_belongs_to_a_figure() -> None:
    assert set(GOLD.glob("*.svg")) == {gold(name, state) for name in FIGURES for state in STATES}
