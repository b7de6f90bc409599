"""A table to fill in stands open on the student's sheet and is filled in on the key and in the record."""

import re
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from coursepack.drafting.catalogue import FIGURES
from coursepack.formula import Argument, Function
from coursepack.lesson import Lesson
from coursepack.pages import compose
from coursepack.pages.views import folded
from coursepack.place import LessonFault
from coursepack.quantity import Quantity, plain, printed, printed_at
from coursepack.reading.course import read_course
from coursepack.record import entry
from coursepack.shoptext import parse
from coursepack.solve import Solved, SolvedTable, solve
from coursepack.trade.catalogue import FUNCTIONS
from tests.faulty.desk import sound_copy, spoil
from tests.published.test_airfoil_ordinates import TABLES
from tests.sheets.leaks import DYE, dyed_but_for_sizes
from tests.sheets.printed_course import REAL, Prepared, prepared

CHORD = {"demo": (24, 64), "metric": (600, 10)}  # lesson 7's practice rib, and the marks in its unit


@pytest.fixture(scope="module", params=["demo", "metric"])
def real(request: pytest.FixtureRequest) -> Prepared:
    return prepared(REAL, request.param)


def loft(real: Prepared, of_set: int = 0) -> tuple[Lesson, Solved, SolvedTable]:
    record = real.record("lofting-a-rib")
    solved = record.sets[of_set][-1]
    (table,) = solved.tables
    return record.lesson, solved, table


def test_the_loft_of_the_practice_rib_is_the_published_table_times_its_chord(real: Prepared) -> None:
    """Clark Y: second-hand copy of the published table, as in test_airfoil_ordinates."""
    chord, marks = CHORD[real.term.name]
    clark = next(table for table in TABLES if table.section == "Clark Y")
    expected = [
        tuple(
            Fraction(int(Fraction(str(cell)) / 100 * chord * marks + Fraction(1, 2)), marks)
            for cell in row  # a station and two ordinates, none below zero
        )
        for row in clark.rows()
    ]
    for of_set in range(real.term.sets):
        rows = loft(real, of_set)[2].rows
        assert [tuple(cell.value for cell in cells) for _, cells in rows] == expected
        assert [str(value) for value, _ in rows] == [f"{float(at):g} %" for at in clark.stations.split()]


def test_the_table_is_open_on_the_sheet_and_filled_in_on_the_key(real: Prepared) -> None:
    record = real.record("lofting-a-rib")
    lesson, solved, table = loft(real)
    sheet = compose.exercises(real.course, real.term, lesson, 1, record.sets[0], record.mark).html
    key = compose.key(real.course, real.term, lesson, record.sets, record.mark).html
    assert cells(sheet, bold=True) == []
    told = [cell for line in folded(table) for row in line if row for cell in row[1]]
    unit = f"\u00a0{table.mark.unit_name}"
    assert [text + unit for text in cells(key, bold=True)] == [printed_at(cell, table.mark) for cell in told]
    assert f"to the nearest {printed(table.mark)}<" in sheet
    assert cells(sheet)[0::4] == cells(key)[0::4] != []
    assert solved.exercise.stage == "bench"


def cells(html: str, *, bold: bool = False) -> list[str]:
    table = html[html.index('<table class="fill">') :].partition("</table>")[0]
    return re.findall(r"<td[^>]*><b>(.*?)</b></td>" if bold else r"<td[^>]*>(.*?)</td>", table)


def test_nothing_of_the_table_leaks_onto_the_sheet(real: Prepared) -> None:
    record = dyed_but_for_sizes(real.record("lofting-a-rib"))
    sheet = compose.exercises(real.course, real.term, record.lesson, 1, record.sets[0], record.mark).html
    bench = sheet[sheet.index('<table class="fill">') :]
    assert DYE not in bench
    assert DYE in compose.key(real.course, real.term, record.lesson, record.sets, record.mark).html


def test_the_record_holds_every_row(real: Prepared) -> None:
    table = loft(real)[2]
    told = entry(real.record("lofting-a-rib"), {})["exercises"]
    (written,) = next(one for one in told if one["exercise"] == "bench-loft")["tables"]
    assert [row["upper"] for row in written] == [plain(cells[1]) for _, cells in table.rows]
    assert written[1]["station"] == "1.25 %"


@pytest.mark.parametrize(
    ("rows", "columns", "lines", "halves"), [(10, 3, 10, 1), (11, 3, 6, 2), (17, 3, 9, 2), (17, 4, 17, 1)]
)
def test_a_long_table_stands_in_two_halves_where_they_have_room(
    real: Prepared, rows: int, columns: int, lines: int, halves: int
) -> None:
    _, _, table = loft(real)
    names = ("aft", "upper", "lower", "front_height")[:columns]
    made = tuple((Quantity.of(row), (Quantity.of(row),) * columns) for row in range(rows))
    shape = replace(table, table=replace(table.table, columns=names), rows=made)
    stood = folded(shape)
    assert (len(stood), len(stood[0])) == (lines, halves)
    down = [line[half] for half in range(halves) for line in stood if line[half]]
    assert down == list(shape.rows)


def test_a_cell_that_depends_on_the_unit_it_is_worked_in_is_a_fault(tmp_path: Path) -> None:
    """A function that takes the bare number of a length differs in inches and millimetres."""
    bare = Function(
        "bare",
        lambda length: Quantity.of(length.value),
        (Argument("length", "in"),),
        "",
        "",
        "",
        'bare("1 in")',
    )
    like = 'like  = "bevels/rear"\n```\n'
    block = """
```given
width = { both = "1 in" }
```

```working
drop = width * tan(top)      # The bevel takes this off.
odd  = drop * bare(width)    # A number has lost its unit.
rear = front - drop          # This is left.
```

```table
title   = "Slopes"
rows    = { top = "4 deg | 8 deg" }
columns = ["odd"]
nearest = { inch = "1/64 in", metric = "0.1 mm" }
```
"""
    folder = spoil(sound_copy(tmp_path), ("02-guides.md", like, like + block))
    exercise = read_course(folder, {**FUNCTIONS, "bare": bare}, FIGURES).lessons[1].exercises[0]
    draw = {"front": parse("4 1/2 in"), "width": parse("1 in"), "top": parse("8 deg")}
    with pytest.raises(LessonFault, match=r"'odd' comes out as .* worked in other units"):
        solve(exercise, draw, "inch", 1)
