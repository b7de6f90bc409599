"""A verdict stands open on the student's sheet, and is told for every set on the key."""

import re
from collections.abc import Callable
from math import hypot

import pytest

from coursepack.pages import compose
from coursepack.quantity import Quantity
from coursepack.record import LessonRecord
from coursepack.solve import Solved
from tests.sheets.printed_course import REAL, Prepared, prepared


@pytest.fixture(scope="module", params=["demo", "metric"])
def real(request: pytest.FixtureRequest) -> Prepared:
    return prepared(REAL, request.param)


@pytest.fixture(scope="module")
def choosing(real: Prepared) -> LessonRecord:
    return real.record("choosing-wood")


def number(solved: Solved, name: str, unit: str) -> float:
    value = solved.values[name]
    assert isinstance(value, Quantity)
    return float(value.number(unit))


def slope_passes(solved: Solved) -> bool:
    """AC 43.13-1B, Table 1-1: 1 in 15 at most, over face and edge together (ANC-19, section 2.3022)."""
    run, *rises = (number(solved, name, "mm") for name in ("run", "rise_face", "rise_edge"))
    return run / hypot(*rises) >= 15


def knot_stays(solved: Solved) -> bool:
    """AC 43.13-1B, Table 1-1, notes 1c and 1d: in the center third, and 20 in clear for a knot of 3/8 in."""
    height, edge, knot, clear = (number(solved, name, "in") for name in ("height", "edge", "knot", "next"))
    return edge >= height / 3 and clear >= 20 * knot / 0.375


@pytest.mark.parametrize(
    ("exercise", "word", "is_so"),
    [
        ("slope-faded", "passes", slope_passes),
        ("slope-alone", "passes", slope_passes),
        ("knot-faded", "stays", knot_stays),
        ("knot-alone", "stays", knot_stays),
    ],
)
def test_the_verdict_of_every_set_is_what_the_limits_say(
    choosing: LessonRecord, exercise: str, word: str, is_so: Callable[[Solved], bool]
) -> None:
    found = [one for row in choosing.sets for one in row if one.exercise.id == exercise]
    assert [one.verdict == word for one in found] == [is_so(one) for one in found]
    assert len(found) == len(choosing.sets)


def test_both_words_stand_open_on_the_sheet_and_the_right_one_boxed_on_the_key(
    real: Prepared, choosing: LessonRecord
) -> None:
    sheet = compose.exercises(
        real.course, real.term, choosing.lesson, 1, choosing.sets[0], choosing.mark
    ).html
    key = compose.key(real.course, real.term, choosing.lesson, choosing.sets, choosing.mark).html
    asked = [one for one in choosing.sets[0] if one.exercise.verdicts]
    lines = re.findall(r"Circle \(1 mark\):&#8194;(.*?)</span>\n", sheet)
    assert lines == ["\u2002/\u2002".join(each.word for each in one.exercise.verdicts) for one in asked]
    boxed = re.findall(r'<span class="circled">(.*?)</span>', key)
    assert boxed == [one.verdict for one in asked]
    assert len(asked) == 6


def test_the_key_tells_the_verdict_of_every_set(real: Prepared, choosing: LessonRecord) -> None:
    key = compose.key(real.course, real.term, choosing.lesson, choosing.sets, choosing.mark).html
    asked = [one for row in choosing.sets for one in row if one.exercise.verdicts]
    told = re.findall(r'<td class="asked">([a-z][a-z ]*)</td></tr>', key)
    assert sorted(told) == sorted(one.verdict for one in asked)
