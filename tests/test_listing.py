"""The list of functions for the bench calculator."""

import re
import subprocess
import sys

import pytest

from coursepack.drafting.catalogue import FIGURES
from coursepack.formula import Argument, Function, Functions
from coursepack.listing import answer, figure_listing, listing
from coursepack.quantity import Quantity
from coursepack.shoptext import parse
from coursepack.trade.catalogue import FUNCTIONS

TWICE: Functions = {
    "twice": Function(
        "twice", lambda length, _side="left": length + length,
        (Argument("length", "in"), Argument("side", "word", ("left", "right"))), "in",
        "Twice a length.", "common practice", 'twice("1 1/2 in")', optional=1,
    ),
}  # fmt: skip


def test_an_entry_shows_what_is_taken_an_example_with_its_answer_and_the_source() -> None:
    assert listing(TWICE).splitlines() == [
        "twice(length: in, [side: word]) → in",
        "    Twice a length.",
        "    side: left, right",
        '    twice("1 1/2 in") = 3 in',
        "    source: common practice",
    ]


def test_every_function_is_in_the_list_that_reckon_prints() -> None:
    run = [sys.executable, "-m", "coursepack", "reckon", "--list"]
    shown = subprocess.run(run, capture_output=True, text=True, check=True, timeout=60).stdout
    assert re.findall(r"^([a-z_]+)\(", shown, re.MULTILINE) == list(FUNCTIONS)
    assert shown.count("    source: ") == len(FUNCTIONS)


def test_a_figure_shows_what_it_takes_what_it_letters_and_that_it_can_be_cut() -> None:
    entry = figure_listing({"spar section": FIGURES["spar section"]})
    assert entry.splitlines() == [
        "spar section",
        "    takes front: length, width: length, top: angle, bottom: angle, [blank: length]",
        "    dimensions: front, width, top, bottom, rear, blank, drop, rise",
        "    its parts can be printed at full size",
    ]


def test_every_figure_is_in_the_list_that_draft_prints() -> None:
    run = [sys.executable, "-m", "coursepack", "draft", "--list"]
    shown = subprocess.run(run, capture_output=True, text=True, check=True, timeout=60).stdout
    assert re.findall(r"^(\w.*)$", shown, re.MULTILINE) == list(FIGURES)


@pytest.mark.parametrize(
    ("value", "text"),
    [(True, "yes"), (False, "no"), ((parse("1 1/2 in"), Quantity.of(3)), "1 1/2 in, 3"), ("white ash", "white ash")],
    ids=str,
)  # fmt: skip
def test_a_value_reads_as_a_line(value: object, text: str) -> None:
    assert answer(value) == text  # type: ignore[arg-type]
