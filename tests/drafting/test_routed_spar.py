from math import radians, tan

import pytest
from shapely import LineString, Polygon, box

from coursepack.drafting.part import Sizes
from coursepack.drafting.routed_spar import routed_measure, routed_parts, routed_spar
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.place import LessonFault
from tests.drafting.measuring import measured, scale_of, tips, turned

SQUARE = {"front": 114.3, "width": 25.4, "web": 9.525, "flange": 28.575}
BEVELS = {"top": -8.0, "bottom": 2.0}
HOLE = {"hole": 9.525, "hole_height": 57.0}
WIDE = Frame(118)


def drawn(show: str, sizes: dict[str, float]) -> Drawing:
    return routed_spar(SQUARE | sizes, {name: Mark("9 in") for name in show.split()}, WIDE)


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def test_each_size_of_a_square_section_is_what_the_drawing_measures() -> None:
    drawing = drawn("front width web flange depth pocket rear", {})
    sizes = {"front": 114.3, "width": 25.4, "web": 9.525, "flange": 28.575, "depth": (25.4 - 9.525) / 2}
    sizes |= {"pocket": 114.3 - 2 * 28.575, "rear": 114.3}
    assert {name: measured(drawing, name) for name in sizes} == pytest.approx(sizes)


def test_a_bevelled_section_loses_height_at_the_rear_and_shows_both_bevels() -> None:
    drawing = drawn("front rear top bottom", BEVELS)
    rear = 114.3 - 25.4 * (tan(radians(8)) + tan(radians(2)))
    assert measured(drawing, "rear") == pytest.approx(rear)
    outline = lines(drawing, "outline")[0]
    assert turned(drawing, "top", outline[7]) == pytest.approx(8)
    assert turned(drawing, "bottom", outline[0]) == pytest.approx(2)


def test_a_bolt_hole_is_open_from_face_to_face_and_measured_from_the_lower_front_corner() -> None:
    drawing = drawn("hole hole_height", HOLE)
    outline, low, high = lines(drawing, "outline")
    scale = scale_of(drawing)
    assert (high[0][1] - low[0][1]) / scale == pytest.approx(9.525)
    assert abs(low[1][0] - low[0][0]) / scale == pytest.approx(9.525)  # as long as the web is thick
    assert min(y for _, y in tips(drawing, "hole_height")) == pytest.approx(outline[0][1])
    assert measured(drawing, "hole_height") == pytest.approx(57.0)


@pytest.mark.parametrize("sizes", [{}, BEVELS, HOLE], ids=["square", "bevelled", "drilled"])
def test_rings_fill_the_wood_and_leave_pockets_and_hole_free(sizes: dict[str, float]) -> None:
    drawing = drawn("width", sizes)
    outline, *walls = lines(drawing, "outline")
    wood = Polygon(outline)
    if walls:
        wood = wood.difference(box(-500, walls[0][0][1], 500, walls[1][0][1]))
    rings = [LineString(line) for line in lines(drawing, "ring")]
    assert all(wood.buffer(1e-6).covers(ring) for ring in rings)
    assert len(rings) > 20


def test_the_face_is_drawn_through_across_the_pocket_whose_depth_is_measured() -> None:
    drawing = drawn("depth", {})
    outline = lines(drawing, "outline")[0]
    assert (outline[2], outline[5]) in lines(drawing, "dimension")


def test_the_part_to_cut_out_has_the_pockets_and_the_hole_only_drawn() -> None:
    (part,) = routed_parts(Sizes(SQUARE | HOLE))
    (outline,) = part.outlines
    assert Polygon(outline).area == pytest.approx(25.4 * 114.3 - (25.4 - 9.525) * (114.3 - 2 * 28.575))
    walls = [line for stroke in part.guides if stroke.kind == "thin" for line in stroke.lines]
    assert sorted(wall[0][1] for wall in walls) == pytest.approx([57 - 9.525 / 2, 57 + 9.525 / 2])


@pytest.mark.parametrize(
    ("sizes", "message"),
    [
        ({"web": 30.0}, "web must be less than the width"),
        ({"flange": 60.0}, "flanges of"),
        ({"hole": 6.0}, "the bolt hole has only its 'hole'; give hole and hole_height"),
        ({"hole": 6.0, "hole_height": 200.0}, "is not inside the section"),
    ],
)
def test_sizes_that_make_no_section_are_a_fault(sizes: dict[str, float], message: str) -> None:
    with pytest.raises(LessonFault) as caught:
        drawn("front", sizes)
    assert message in str(caught.value)


def test_a_square_section_has_no_bevels_to_measure_and_a_drilled_one_no_pocket() -> None:
    assert {"top", "bottom"}.isdisjoint(routed_measure(SQUARE | {"top": 0.0}))
    with pytest.raises(LessonFault, match="has no dimension 'pocket'; it has front, width"):
        drawn("pocket", HOLE)


def test_the_sheet_says_the_depth_is_to_be_found() -> None:
    said = routed_spar(SQUARE, {"web": Mark("3⁄8 in"), "depth": Mark("in", "blank")}, WIDE).alt
    assert said == (
        "End view of a routed spar section, front face left and rear face right, a pocket in each. "
        "Thickness of the web: 3/8 in. Depth of a pocket: to be found."
    )
