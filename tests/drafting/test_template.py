"""Full-size sheets before any ink: parts at their own size, cross-hairs that fall on each other, clear lettering."""

from fractions import Fraction
from itertools import pairwise
from math import dist, radians, tan

import pytest

from coursepack.drafting.bevel_guide import bevel_guide_parts, bevels
from coursepack.drafting.check_bars import check_bar
from coursepack.drafting.clearance import bounds, clashes, lettering_clashes
from coursepack.drafting.cutting import cut_svg
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.sheet import Drawing, Line
from coursepack.drafting.spar import spar_parts
from coursepack.drafting.template import ROOM, SHEET_MM, stretched, template_sheets
from coursepack.drafting.tiling import tiling
from coursepack.place import LessonFault
from coursepack.quantity import Quantity
from coursepack.trade.airfoil import airfoil, spar_bevel
from tests.drafting.test_tiling import CLEAR, frame, ring

CLARK_Y = {"chord": 1200.0, "station": 180.0, "width": 20.0}
GUIDE = bevel_guide_parts(Sizes({"width": 19.05, "top": -6.3, "bottom": 2.1}))
LONG = Part(
    "long rib",
    (ring(1524.0, 170.0),),
    straight=((-762.0, 0.0), (762.0, 0.0)),
    grain=((-60.0, 20.0), (60.0, 20.0)),
)


def crosses_of(drawing: Drawing) -> list[tuple[float, float]]:
    """The middles of a sheet's cross-hairs: level lines of 8 mm with an upright one through their middle."""
    lines = [line for stroke in drawing.strokes if stroke.kind == "dimension" for line in stroke.lines]
    middles = [
        ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        for a, b in (line for line in lines if len(line) == 2)
        if abs(dist(a, b) - 8) < 1e-9
    ]
    return [middle for number, middle in enumerate(middles) if middle in middles[:number]]


def test_the_bars_are_as_long_as_their_numbers_say() -> None:
    bar = check_bar((8, 200), (0.0, 0.0), upright=True)
    ends = sorted({abs(line[0][1]) for line in bar.strokes[0].lines if abs(line[1][0]) > 3})
    assert ends == [0.0, 200.0, pytest.approx(203.2)]
    assert {label.text for label in bar.labels} == {"200 mm", "8 in"}


def test_small_parts_share_a_sheet_and_nothing_on_it_collides() -> None:
    (sheet,) = template_sheets(GUIDE)
    assert [part.name for part in sheet.parts] == [part.name for part in GUIDE]
    assert not clashes(sheet.drawing)
    assert (sheet.drawing.width, sheet.drawing.height) == SHEET_MM


@pytest.mark.parametrize(("edge", "bevel"), [("top", -6.3), ("bottom", 2.1)])
def test_a_wedge_has_the_bevel_and_its_gauge_the_corner_that_fits_the_spar(edge: str, bevel: float) -> None:
    wedge, gauge = (
        next(part for part in GUIDE if part.name == f"{kind}, {edge} edge")
        for kind in ("bevel guide", "check gauge")
    )
    level, thin, thick, _, _ = wedge.outlines[0]
    assert level[1] == 0
    assert (thin[1] - thick[1]) / (thick[0] - thin[0]) == pytest.approx(tan(radians(abs(bevel))))
    fence, corner, end = gauge.outlines[0][:3]
    assert fence[0] == corner[0] == 0
    assert (end[1] - corner[1]) / (end[0] - corner[0]) == pytest.approx(tan(radians(bevel)))


def test_a_guide_for_an_airfoil_has_the_bevels_of_its_spar() -> None:
    section = airfoil("Clark Y")
    chord, station, width = (Quantity.of(int(size), "mm") for size in CLARK_Y.values())
    found = bevels(Sizes(CLARK_Y, {"section": section}))
    for edge in ("top", "bottom"):
        there = float(spar_bevel(section, chord, station, width, edge).number("deg"))
        assert found[edge] == pytest.approx(there, abs=1e-6)


def test_a_guide_of_square_edges_is_a_fault() -> None:
    with pytest.raises(LessonFault, match="neither edge of the spar is bevelled; give a bevel"):
        bevel_guide_parts(Sizes({"width": 19.05, "top": 0.0, "bottom": 0.0}))


def test_a_long_part_comes_with_its_map_first_and_a_sheet_for_each_tile() -> None:
    sheets = template_sheets([LONG])
    tiles = tiling(LONG.lines, ROOM, CLEAR).tiles
    assert sheets[0].is_map
    assert [sheet.name for sheet in sheets[1:]] == [tile.name for tile in tiles]
    assert {label.text for label in sheets[0].drawing.labels} >= {tile.name for tile in tiles}


def test_neighbouring_sheets_carry_the_same_cross_hairs() -> None:
    found = tiling(LONG.lines, ROOM, CLEAR)
    sheets = template_sheets([LONG])[1:]
    for (left, one), (right, other) in zip(
        zip(found.tiles, sheets, strict=True), list(zip(found.tiles, sheets, strict=True))[1:], strict=False
    ):
        apart = right.room.left - left.room.left, right.room.bottom - left.room.bottom
        here = {(round(x, 6), round(y, 6)) for x, y in crosses_of(one.drawing)}
        there = {(round(x + apart[0], 6), round(y + apart[1], 6)) for x, y in crosses_of(other.drawing)}
        assert len(here & there) == 2


def test_crosses_are_named_after_both_sheets_and_the_later_sheet_is_trimmed_to_lie_on_the_other() -> None:
    sheets = template_sheets([LONG])[1:]
    for one, other in pairwise(sheets):
        name = f"{one.name}–{other.name}"
        for sheet in (one, other):
            assert [label.text for label in sheet.drawing.labels].count(name) == 2
        edges = [line for stroke in other.drawing.strokes if stroke.kind == "hidden" for line in stroke.lines]
        assert [{x for x, _ in edge} for edge in edges] == [{ROOM.left}]
        assert f"trim here, lay on {one.name}" in {label.text for label in other.drawing.labels}
    assert not any(stroke.kind == "hidden" for stroke in sheets[0].drawing.strokes)


def test_nothing_is_lettered_over_the_outline_of_a_long_part() -> None:
    for sheet in template_sheets([LONG])[1:]:
        assert not list(lettering_clashes(sheet.drawing.labels, sheet.drawing))
        room = bounds(sheet.drawing)
        assert room.left >= 0
        assert room.right <= SHEET_MM[0] + 1e-6


def test_a_correction_stretches_along_and_across_apart() -> None:
    (sheet,) = template_sheets(spar_parts(Sizes({"front": 100.0, "width": 20.0, "top": -8.0, "bottom": 2.0})))
    longer = stretched(sheet.drawing, Fraction(101, 100), Fraction(99, 100))
    before, after = (
        [line for stroke in each.strokes for line in stroke.lines] for each in (sheet.drawing, longer)
    )
    for a, b in zip(before, after, strict=True):
        assert [(x * 0.99, y * 1.01) for x, y in a] == [pytest.approx(point) for point in b]


def test_a_machine_gets_one_closed_path_a_part_in_millimetres() -> None:
    outline: Line = frame(40.0, 25.0)
    hole: Line = ((10.0, 10.0), (20.0, 10.0), (20.0, 15.0), (10.0, 10.0))
    text = cut_svg([Part("plate", (outline, hole)), Part("strip & card", (frame(60.0, 5.0),))])
    assert text.splitlines()[1] == (
        '<path d="M5.0000 30.0000 L45.0000 30.0000 L45.0000 5.0000 L5.0000 5.0000 Z'
        ' M15.0000 20.0000 L25.0000 20.0000 L25.0000 15.0000 Z"><title>plate</title></path>'
    )
    assert text.count("<path") == 2
    assert 'width="70.0000mm" height="45.0000mm" viewBox="0 0 70.0000 45.0000"' in text
    assert "<title>strip &amp; card</title>" in text
