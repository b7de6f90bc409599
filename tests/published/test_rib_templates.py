"""Printed rib templates against published ordinates: measured off the finished PDF, taped as a student would.

The tables are those of `test_airfoil_ordinates`: Clark Y from a second-hand copy of the published table, USA 35-B and
M-6 from the UIUC airfoil coordinate collection. The sheets are laid on each other by their cross-hairs alone.
"""

import re
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import dist
from pathlib import Path

import pytest

from coursepack.easel import Order, drawn
from tests.press.pdf_reading import opened, read
from tests.press.ruler import Point, polylines
from tests.published.test_airfoil_ordinates import TABLES, Ordinates

INCH = 25.4
ROUNDING = 0.5e-4  # of the chord: half of the last place of a table with two decimals of a percent
IN_THE_FILE_MM = 0.05
HAIR_MM = 8.0  # length of each line of a cross-hair
TICK_MM = 5.0
ZERO_MM = 12.0  # the tick at station 0
LONG_MM = 30.0  # longer than jig blocks and ticks
BELOW_MM = 8.0  # of the taping line under a flat underside

Line = tuple[Point, ...]


@dataclass(frozen=True)
class Taped:
    """A set of sheets laid on each other: its lines with station 0 on the datum as the origin, and its sheets."""

    lines: list[Line]
    sheets: int
    taping: list[float]  # the height of the line to tape along, on each sheet
    mismatch: float  # the most that cross-hairs of two sheets differ once the first ones lie on each other


RIBS = {
    "Clark Y practice rib": ("Clark Y", 24 * INCH, "24 in"),
    "Clark Y metric practice rib": ("Clark Y", 600.0, "600 mm"),
    "Clark Y whole rib": ("Clark Y", 60 * INCH, "60 in"),
    "USA 35-B whole rib": ("USA 35-B", 60 * INCH, "60 in"),
    "M-6 rib": ("M-6", 1250.0, "1250 mm"),
}


@cache
def taped(section: str, chord: str) -> Taped:
    order = Order(
        "rib outline",
        {"section": f'airfoil("{section}")', "chord": chord, "front_station": chord_share(chord, 15),
         "rear_station": chord_share(chord, 60), "spar_width": "3/4 in", "capstrip": "1/4 in", "bays": "4"},
        "full size",
    )  # fmt: skip
    with opened(drawn(order, ".pdf")) as pdf:
        sheets = [page for page in pdf.pages if "Assembly map" not in read(page).whole]
        pages = [polylines(page) for page in sheets]
        on_end = "sheet B1" in read(sheets[1]).whole
    return together([laid_level(page) for page in reversed(pages)] if on_end else pages)


def laid_level(page: list[Line]) -> list[Line]:
    """Turn a sheet of a rib that stands on its nose a quarter to the right."""
    return [tuple((y, -x) for x, y in line) for line in page]


def chord_share(chord: str, percent: int) -> str:
    number, unit = chord.split()
    return f"{float(number) * percent / 100:g} {unit}"


def together(pages: list[list[Line]]) -> Taped:
    """Lay each sheet on the one before by the cross-hairs of their joint, then measure from station 0."""
    lines, taping, mismatch = list(pages[0]), [dash_dot_height(pages[0])], 0.0
    right = 0.0, 0.0
    for before, after in pairwise(pages):
        theirs, ours = hairs(before, last=True), hairs(after, last=False)
        step = theirs[0][0] - ours[0][0], theirs[0][1] - ours[0][1]
        mismatch = max(mismatch, dist(theirs[1], moved(ours[1], step)))
        right = right[0] + step[0], right[1] + step[1]
        lines += [tuple(moved(point, right) for point in line) for line in after]
        taping.append(dash_dot_height(after) + right[1])
    ((x, low), (_, high)) = next(line for line in pages[0] if upright(line) and near(length(line), ZERO_MM))
    origin = -x, -(low + high) / 2
    return Taped(
        [tuple(moved(point, origin) for point in line) for line in lines],
        len(pages),
        [height + origin[1] for height in taping],
        mismatch,
    )


def moved(point: Point, by: Point) -> Point:
    return point[0] + by[0], point[1] + by[1]


def upright(line: Line) -> bool:
    return len(line) == 2 and near(line[0][0], line[1][0])


def near(one: float, other: float) -> bool:
    return abs(one - other) < 1e-2


def length(line: Line) -> float:
    return dist(line[0], line[-1])


def hairs(page: list[Line], *, last: bool) -> list[Point]:
    """The middles of the two cross-hairs at the right or left of a sheet, the lower first."""
    found = [
        ((line[0][0] + line[1][0]) / 2, line[0][1])
        for line in page
        if len(line) == 2 and near(length(line), HAIR_MM) and near(line[0][1], line[1][1])
    ]
    edge = (max if last else min)(x for x, _ in found)
    return sorted((point for point in found if near(point[0], edge)), key=lambda point: point[1])


def dash_dot_height(page: list[Line]) -> float:
    """The height of the line that a sheet is taped along: the longest level one that is no bar, the lowest of several."""
    level = [
        line for line in page if len(line) == 2 and near(line[0][1], line[1][1]) and length(line) > LONG_MM
    ]
    # the check bars; half of a length across a joint, with half of the overlap
    others = 6 * INCH, 8 * INCH, 2 * INCH + 7.0
    own = [line for line in level if not any(near(length(line), other) for other in others)]
    return max(own, key=lambda line: (round(length(line), 1), -line[0][1]))[0][1]


def is_long(line: Line) -> bool:
    xs = [x for x, _ in line]
    return max(xs) - min(xs) > LONG_MM


def crossings(lines: list[Line], station: float) -> list[float]:
    """The heights at which a long line passes a station: the contour, the capstrips' inner line, some members."""
    found = []
    for line in lines:
        for (x, y), (to_x, to_y) in pairwise(line if is_long(line) else ()):
            if min(x, to_x) <= station <= max(x, to_x) and abs(to_x - x) > 1e-9:
                found.append(y + (station - x) / (to_x - x) * (to_y - y))
    return found


@pytest.mark.parametrize("rib", RIBS)
def test_every_ordinate_of_the_taped_sheets_is_the_published_one(rib: str) -> None:
    section, chord, written = RIBS[rib]
    sheets = taped(section, written)
    worst = 0.0
    for station, upper, lower in of_table(section).rows():
        if 0 < station < 100:
            heights = crossings(sheets.lines, chord * station / 100)
            for wanted in (upper, lower):
                worst = max(worst, min(abs(height - chord * wanted / 100) for height in heights))
    assert worst < chord * ROUNDING + IN_THE_FILE_MM


@pytest.mark.parametrize("rib", RIBS)
def test_the_taped_sheets_are_as_long_as_the_chord_and_lie_straight(rib: str) -> None:
    section, chord, written = RIBS[rib]
    sheets = taped(section, written)
    for ordinate in of_table(section).rows()[-1][1:]:
        corner = chord, chord * ordinate / 100
        assert min(dist(point, corner) for line in sheets.lines for point in line) < IN_THE_FILE_MM
    assert sheets.mismatch < IN_THE_FILE_MM
    assert max(sheets.taping) - min(sheets.taping) < IN_THE_FILE_MM


@pytest.mark.parametrize("rib", RIBS)
def test_the_line_to_tape_along_is_the_datum_or_lies_clear_below_a_flat_underside(rib: str) -> None:
    section, _, written = RIBS[rib]
    height = -BELOW_MM if section == "Clark Y" else 0.0
    assert taped(section, written).taping[0] == pytest.approx(height, abs=IN_THE_FILE_MM)


@pytest.mark.parametrize("rib", RIBS)
def test_a_tick_stands_at_every_tenth_of_the_chord_on_both_surfaces(rib: str) -> None:
    section, chord, written = RIBS[rib]
    ticks = [
        line[0][0] for line in taped(section, written).lines if upright(line) and near(length(line), TICK_MM)
    ]
    for tenth in range(1, 10):
        assert sum(abs(x - chord * tenth / 10) < IN_THE_FILE_MM for x in ticks) >= 2


def test_a_sixty_inch_rib_takes_ten_sheets_and_their_map() -> None:
    assert taped("Clark Y", "60 in").sheets == 10


def test_the_ordinate_table_of_the_lesson_is_the_published_one() -> None:
    lesson = Path(__file__).parents[2] / "lessons" / "07-lofting-a-rib.md"
    cells = [
        [float(cell) for cell in line.strip("| \n").split("|") if cell.strip()]
        for line in lesson.read_text("utf-8").splitlines()
        if re.fullmatch(r"\|(?: *[0-9.]* *\|){6}", line)
    ]
    rows = [tuple(row[start : start + 3]) for row in cells for start in range(0, len(row), 3)]
    assert sorted(rows) == of_table("Clark Y").rows()


def of_table(section: str) -> Ordinates:
    return next(table for table in TABLES if table.section == section)
