"""The rib as a figure and as a part: what is drawn has the sizes of the section, the spars and the capstrips."""

from itertools import pairwise
from math import cos, dist, radians

import pytest

from coursepack.drafting.clearance import clashes
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.rib import rib_measure, rib_outline
from coursepack.drafting.rib_template import rib_parts
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark, Point
from coursepack.drafting.template import template_sheets
from coursepack.place import LessonFault, TradeFault
from coursepack.trade.airfoil import airfoil
from tests.drafting.measuring import measured, outline, scale_of, tips

INCH = 25.4
COLUMN, WIDE = Frame(58, 190), Frame(118, 190)
# a practice rib of our own
RIB = {
    "chord": 24 * INCH, "capstrip": INCH * 3 / 16, "front_station": 3.6 * INCH, "rear_station": 14.4 * INCH,
    "spar_width": 0.75 * INCH, "bays": 3.0, "upright": INCH / 4,
}  # fmt: skip
MARKS = {
    "chord": Mark("24 in"), "front_station": Mark("3.6 in"), "rear_station": Mark("14.4 in"),
    "front_height": Mark("in", "blank"),
}  # fmt: skip


def sizes(section: str = "Clark Y", **changed: float | None) -> Sizes:
    merged = RIB | changed
    return Sizes(
        {name: size for name, size in merged.items() if size is not None}, {"section": airfoil(section)}
    )


def lines_of(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def test_the_opening_is_the_published_height_less_both_capstrips() -> None:
    # Clark Y at 15 %: 10.68 above and 0.15; the capstrips lie at 8.6 and 1.6 degrees there, from the neighbouring rows
    height = 24 * INCH * (10.68 - 0.15) / 100
    strips = INCH * 3 / 16 * (1 / cos(radians(8.6)) + 1 / cos(radians(1.6)))
    true = rib_measure(sizes())
    assert true["front_depth"] == pytest.approx(height, abs=1e-6)
    assert true["front_height"] == pytest.approx(height - strips, abs=0.01)


def test_ordinates_at_a_printed_station_are_those_of_the_table() -> None:
    # NACA 2412 at 10 %: 5.63 above the datum and 3.75 below it, printed to two decimals
    true = rib_measure(sizes("NACA 2412", station=2.4 * INCH))
    assert true["upper"] == pytest.approx(24 * INCH * 0.0563, abs=24 * INCH * 2e-4)
    assert true["lower"] == pytest.approx(24 * INCH * 0.0375, abs=24 * INCH * 2e-4)


@pytest.mark.parametrize("frame", [COLUMN, WIDE])
def test_every_dimension_measures_its_true_size(frame: Frame) -> None:
    true = rib_measure(sizes())
    for name in true:
        drawing = rib_outline(sizes(), {"chord": Mark("24 in"), name: Mark("3 in")}, frame)
        assert measured(drawing, name) == pytest.approx(true[name], abs=1e-6)


def test_a_rib_lies_level_in_a_wide_frame_and_stands_on_its_tail_in_the_column() -> None:
    level, on_end = (rib_outline(sizes(), MARKS, frame) for frame in (WIDE, COLUMN))
    assert {round(y, 6) for _, y in tips(level, "chord")} == {round(tips(level, "chord")[0][1], 6)}
    assert {round(x, 6) for x, _ in tips(on_end, "chord")} == {round(tips(on_end, "chord")[0][0], 6)}
    nose = max(outline(on_end), key=lambda point: point[1])
    tail = min(outline(on_end), key=lambda point: point[1])
    assert nose[1] - tail[1] == pytest.approx(24 * INCH * scale_of(on_end), abs=0.05)
    assert "nose up" in " ".join(label.text for label in on_end.labels)


@pytest.mark.parametrize("chord", [48, 54, 60])
@pytest.mark.parametrize("section", ["Clark Y", "NACA 2412", "NACA 23012", "USA 35-B"])
def test_a_whole_rib_is_drawn_in_the_column_and_level_in_the_wide_frame(chord: float, section: str) -> None:
    whole = sizes(
        section, chord=chord * INCH, front_station=0.15 * chord * INCH, rear_station=0.65 * chord * INCH
    )
    marks = {"chord": Mark(f"{chord} in"), "front_station": Mark("9 in"), "front_height": Mark("in", "blank")}
    column, wide = (rib_outline(whole, marks, frame) for frame in (COLUMN, WIDE))
    assert (column.scale_text, wide.scale_text) == ("1:10", "1:20")
    assert clashes(column) + clashes(wide) == []


def test_parts_finer_than_the_pen_are_left_out_and_the_figure_says_so() -> None:
    fine, coarse = (rib_outline(sizes(), MARKS, frame) for frame in (WIDE, COLUMN))
    assert (fine.scale_text, lines_of(fine, "thin")) == ("1:10", [])
    assert "simplified" in " ".join(label.text for label in fine.labels)
    assert len(lines_of(coarse, "thin")) > 10
    assert "simplified" not in " ".join(label.text for label in coarse.labels)


def test_a_solid_web_has_no_uprights() -> None:
    truss, solid = (rib_outline(sizes(bays=bays), MARKS, COLUMN) for bays in (3.0, 0.0))
    # between nose block, two spars and tail block there are three rooms, and nothing in them
    assert len(lines_of(solid, "thin")) == 3
    assert len(lines_of(truss, "thin")) > 3


def test_uprights_stand_between_the_inner_lines_of_the_capstrips() -> None:
    part = the_part(sizes())
    members = guides(part, "layer")
    upright = [line for line in members if len(line) == 5 and is_upright(line)]
    assert len(upright) == 7  # at each face of both spars, two between them, one behind
    for line in upright:
        for point in line:
            assert distance(point, part.outlines[0]) == pytest.approx(INCH * 3 / 16, abs=0.03)


def is_upright(line: Line) -> bool:
    left, right = line[0][0], line[1][0]
    return [line[3][0], line[2][0], right - left] == pytest.approx([left, right, INCH / 4], abs=1e-6)


def the_part(of: Sizes) -> Part:
    (part,) = rib_parts(of)
    return part


def guides(part: Part, kind: str) -> list[Line]:
    return [line for stroke in part.guides if stroke.kind == kind for line in stroke.lines]


def distance(point: Point, line: Line) -> float:
    """How far a point is from a polyline."""
    return min(_from_piece(point, a, b) for a, b in pairwise(line))


def _from_piece(point: Point, a: Point, b: Point) -> float:
    along = (b[0] - a[0], b[1] - a[1])
    size = along[0] ** 2 + along[1] ** 2
    share = ((point[0] - a[0]) * along[0] + (point[1] - a[1]) * along[1]) / size if size else 0.0
    share = min(max(share, 0.0), 1.0)
    return dist(point, (a[0] + share * along[0], a[1] + share * along[1]))


@pytest.mark.parametrize("section", ["Clark Y", "NACA 2412", "M-6"])
def test_the_inner_line_lies_one_capstrip_inside_the_contour(section: str) -> None:
    part = the_part(sizes(section))
    inner = [line for line in guides(part, "hidden") if len(line) > 2]
    assert len(inner) == 2
    off = [distance(point, part.outlines[0]) for line in inner for point in line]
    assert max(off) == pytest.approx(INCH * 3 / 16, abs=0.02)
    assert min(off) == pytest.approx(INCH * 3 / 16, abs=0.02)


def test_the_openings_are_closed_holes_with_faces_square_to_the_datum() -> None:
    part = the_part(sizes())
    assert all(line[0] == line[-1] for line in part.outlines)
    for hole, station in zip(part.outlines[1:], (3.6 * INCH, 14.4 * INCH), strict=True):
        assert [point[0] for point in hole] == pytest.approx(
            [station, station + 0.75 * INCH, station + 0.75 * INCH, station, station]
        )


def test_jig_blocks_stand_outside_and_touch_the_contour() -> None:
    part = the_part(sizes(bays=None))
    blocks = [line for line in guides(part, "layer") if len(line) == 5]
    assert len(blocks) == 10
    for block in blocks:
        middle = (block[0][0] + block[1][0]) / 2, (block[0][1] + block[1][1]) / 2
        assert distance(middle, part.outlines[0]) < 0.02
        assert not any(inside(point, part.outlines[0]) for point in block[2:4])


@pytest.mark.parametrize(("bays", "chord"), [(2.0, 24.0), (3.0, 24.0), (4.0, 40.0)])
def test_no_jig_block_stands_on_a_joint_of_upright_or_diagonal(bays: float, chord: float) -> None:
    rear = 0.6 * chord * INCH
    part = the_part(
        sizes(bays=bays, chord=chord * INCH, front_station=0.15 * chord * INCH, rear_station=rear)
    )
    closed = [line for line in guides(part, "layer") if line[0] == line[-1]]
    blocks = [line for line in closed if any(not inside(point, part.outlines[0]) for point in line[2:4])]
    members = [line for line in closed if line not in blocks]
    inner = [line for line in guides(part, "hidden") if len(line) > 2]
    assert len(blocks) >= 2 * (bays + 2)
    assert len(members) >= bays + 5
    for surface in inner:
        ends = [point for line in members for point in line if distance(point, surface) < 0.3]
        near = [block for block in blocks if distance(block[0], surface) < 2 * RIB["capstrip"]]
        for block in near:
            low, high = sorted((block[0][0], block[1][0]))
            assert not [x for x, _ in ends if low <= x <= high]


def inside(point: Point, line: Line) -> bool:
    """Whether a point lies in a closed line, by the crossings of a level ray."""
    x, y = point
    return sum(_passes(a, b, x, y) for a, b in pairwise(line)) % 2 == 1


def _passes(a: Point, b: Point, x: float, y: float) -> bool:
    return (a[1] > y) != (b[1] > y) and x < a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0])


@pytest.mark.parametrize("section", ["Clark Y", "NACA 23012"])
def test_lettering_on_the_template_is_clear_of_its_lines(section: str) -> None:
    for sheet in template_sheets(rib_parts(sizes(section))):
        own = [
            label
            for label in sheet.drawing.labels
            if label.text.isdigit() or label.text in {"FRONT", "REAR", "GRAIN"}
        ]
        others = [
            found for found in clashes(sheet.drawing) if any(f"'{label.text}'" in found for label in own)
        ]
        assert others == []


def test_the_stations_of_a_printed_table_are_numbered_on_some_sheet() -> None:
    texts = {label.text for sheet in template_sheets(rib_parts(sizes())) for label in sheet.drawing.labels}
    assert {"0", "2.5", "5", "7.5", "10", "15", "20", "30", "40", "50", "60", "70", "80", "90"} <= texts


def test_a_sixty_inch_rib_is_ten_sheets_in_one_row_after_a_map() -> None:
    whole = sizes(chord=60 * INCH, front_station=9 * INCH, rear_station=36 * INCH)
    names = [sheet.name for sheet in template_sheets(rib_parts(whole))]
    assert names == ["map", *(f"A{number}" for number in range(1, 11))]


FAULTS = {
    "front_station without a width": ({"spar_width": None}, "the front spar has no width; give spar_width"),
    "capstrips too thick": ({"capstrip": 30.0}, "leave no height for the spar"),
    "spars in each other": ({"rear_station": 100.0}, "the spars stand in each other"),
    "a spar off the chord": ({"rear_station": 600.0}, "off the chord"),
    "too many bays": ({"bays": 60.0}, "60 bays leave no room between the uprights"),
    "bays without capstrips": ({"capstrip": None}, "bays lie between capstrips and two spars"),
    "no chord": ({"chord": 0.0}, "a rib needs a chord and spars above zero"),
}


@pytest.mark.parametrize("case", FAULTS)
def test_a_rib_that_cannot_be_built_is_a_fault(case: str) -> None:
    changed, told = FAULTS[case]
    with pytest.raises((LessonFault, TradeFault), match=told):
        rib_parts(sizes(**changed))  # type: ignore[arg-type]


def test_a_rib_without_a_section_is_a_fault() -> None:
    with pytest.raises(LessonFault, match="a rib needs a wing section"):
        rib_measure(Sizes(RIB))


def test_a_dimension_that_a_rib_does_not_have_is_a_fault() -> None:
    with pytest.raises(LessonFault, match="this rib has no dimension 'upper'; it has chord"):
        rib_outline(sizes(), {"upper": Mark("3 in")}, COLUMN)


def test_the_alt_text_tells_what_is_shown_and_not_what_is_asked() -> None:
    said = rib_outline(sizes(), MARKS, COLUMN).alt
    assert said == (
        "Side view of a wing rib of section Clark Y. Chord: 24 in. Station of the front spar's front face: 3.6 in. "
        "Height of the front spar opening, inside the capstrips: to be found. "
        "Station of the rear spar's front face: 14.4 in."
    )
