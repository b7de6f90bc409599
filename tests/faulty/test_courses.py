"""One bad place in the course or its term, and what its author is told."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.faulty.desk import Edit, after

COURSE, TERM = "course.toml", "terms/spring.toml"


class Case(NamedTuple):
    edits: Sequence[Edit]
    told: Sequence[str]


CASES: Mapping[str, Case] = {
    "a machine without cautions": Case(
        [
            (
                COURSE,
                'cautions = [{ level = "danger", do = "Keep the guard on.", otherwise = "The knives take a finger." }]\n',
                "",
            )
        ],
        [
            'course.toml:11: the machine \'jointer\' has no cautions; add cautions = [{ level = "warning", do = "…", otherwise = "…" }]'
        ],
    ),
    "a machine with an empty list of cautions": Case(
        [
            (
                COURSE,
                '[{ level = "danger", do = "Keep the guard on.", otherwise = "The knives take a finger." }]',
                "[]",
            )
        ],
        [
            'course.toml:11: the machine \'jointer\' has no cautions; add cautions = [{ level = "warning", do = "…", otherwise = "…" }]'
        ],
    ),
    "a caution that is only a text": Case(
        [
            (
                COURSE,
                '[{ level = "danger", do = "Keep the guard on.", otherwise = "The knives take a finger." }]',
                '["Take care."]',
            )
        ],
        ['course.toml:13: a caution is not a table; write { level = "…", do = "…", otherwise = "…" }'],
    ),
    "a caution that lacks what happens otherwise": Case(
        [(COURSE, ', otherwise = "The blade wanders."', "")],
        ["course.toml:8: a caution of 'band saw' has no 'otherwise'; add otherwise = \"…\""],
    ),
    "a machine that stands twice": Case(
        [(COURSE, '"jointer"', '"band saw"')],
        ["course.toml:11: the machine 'band saw' stands twice; join the two"],
    ),
    "a machine without a name": Case(
        [(COURSE, 'name = "jointer"\n', "")],
        ["course.toml:11: the machine has no 'name'; add name = \"…\""],
    ),
    "an unknown key of the course": Case(
        [(COURSE, 'class = "Evening class"', 'class = "Evening class"\nroom = 3')],
        ["course.toml:3: the course has no key 'room'; known: class, machine, paper, title, units"],
    ),
    "an unknown key of a machine": Case(
        [(COURSE, 'name = "jointer"', 'name = "jointer"\nmaker = "x"')],
        ["course.toml:13: the machine 'jointer' has no key 'maker'; known: cautions, name"],
    ),
    "a course without a title": Case(
        [(COURSE, 'title = "Wood shop"\n', "")],
        ["course.toml: the course has no 'title'; add title = \"…\""],
    ),
    "a paper that no shop sells": Case(
        [(COURSE, "class =", 'paper = "A5"\nclass =')],
        ["course.toml:2: 'paper' cannot be 'A5'; known: A4, letter"],
    ),
    "an unknown key of a term": Case(
        [(TERM, "draw =", "drawn = 3\ndraw =")],
        ["terms/spring.toml:2: the term has no key 'drawn'; did you mean 'draw'?"],
    ),
    "a term without a draw number": Case(
        [(TERM, "draw = 7\n", "")],
        ["terms/spring.toml: the term has no 'draw'; add draw = 1"],
    ),
    "an unknown measure": Case(
        [(TERM, '"inch"', '"inches"')],
        ["terms/spring.toml:3: 'measure' cannot be 'inches'; did you mean 'inch'?"],
    ),
    "too many benches": Case(
        [(TERM, "benches = 3", "benches = 300")],
        ["terms/spring.toml:4: 'benches' is 300; it goes from 1 to 60"],
    ),
    "more sets than benches": Case(
        [(TERM, '"one each"', "4")],
        [
            'terms/spring.toml:5: \'sets\' cannot be 4; write "one each", "all alike" or a number up to the benches'
        ],
    ),
    "a printer that is said to be too far off": Case(
        [(TERM, '"one each"', '"one each"\n[printer]\nalong = "200.4 mm"\nacross = "140 mm"')],
        [
            "terms/spring.toml:8: the bar of 150 mm is said to measure 140 mm; no printer is so far off; print at 100 %, with no fitting to the page, and measure again"
        ],
    ),
    "a printer measured in the wrong unit, one way only": Case(
        [(TERM, '"one each"', '"one each"\n[printer]\nalong = "2 deg"\nup = "1 in"')],
        [
            "terms/spring.toml:6: the printer's table has no 'across'; add across = \"…\"",
            "terms/spring.toml:7: 'along' is 2 deg, not a length; write what the bar measured, as \"200 mm\"",
            "terms/spring.toml:8: the printer's table has no key 'up'; known: across, along",
        ],
    ),
    "sets by another word": Case(
        [(TERM, '"one each"', '"some"')],
        [
            "terms/spring.toml:5: 'sets' cannot be 'some'; write \"one each\", \"all alike\" or a number up to the benches"
        ],
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_bad_course_is_told_where_what_is_wrong_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    assert after(tmp_path, CASES[name].edits) == [f"lessons/{line}" for line in CASES[name].told]
