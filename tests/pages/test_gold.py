from collections.abc import Mapping
from difflib import unified_diff

import pytest

from tests.pages.gold import GOLD, PAGES, pages


@pytest.fixture(scope="module")
def made() -> Mapping[str, str]:
    return pages()


@pytest.mark.parametrize("name", PAGES)
def test_a_sheet_is_what_was_looked_at_and_accepted(name: str, made: Mapping[str, str]) -> None:
    accepted = (GOLD / f"{name}.html").read_text("utf-8")
    changes = unified_diff(
        accepted.splitlines(), made[name].splitlines(), "accepted", "made now", lineterm="", n=1
    )
    told = "\n".join(changes)
    assert not told, f"{told}\nlook at the page; if the change is meant: python -m tests.pages.gold"


def test_every_gold_page_belongs_to_a_sheet() -> None:
    assert sorted(path.stem for path in GOLD.glob("*.html")) == sorted(PAGES)
