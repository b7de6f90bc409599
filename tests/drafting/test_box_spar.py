import pytest
from shapely import LineString, Polygon

from coursepack.drafting.box_spar import box_parts, box_spar
from coursepack.drafting.part import Sizes
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.place import LessonFault
from tests.drafting.measuring import measured, scale_of, tips

BOX = {"cap_width": 38.1, "top_cap": 31.75, "bottom_cap": 25.4, "height": 177.8, "web": 3.175}
HOLE = {"hole": 9.525, "hole_height": 80.0}
WIDE = Frame(118)


def drawn(show: str, **sizes: float) -> Drawing:
    return box_spar(BOX | sizes, {name: Mark("9 in") for name in show.split()}, WIDE)


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def test_each_size_is_what_the_drawing_measures() -> None:
    drawing = drawn("cap_width top_cap bottom_cap height web width between")
    derived = {"width": 38.1 + 2 * 3.175, "between": 177.8 - 31.75 - 25.4}
    expected = BOX | derived
    assert {name: measured(drawing, name) for name in expected} == pytest.approx(expected)


def test_the_glue_lines_are_pointed_at_where_caps_and_webs_meet() -> None:
    drawing = drawn("height")
    bottom, top, *_ = lines(drawing, "outline")
    assert tips(drawing, "GLUE LINES") == [top[3], top[2]]
    assert top[0][0] == bottom[0][0]


def test_caps_have_rings_and_webs_layers_along_them() -> None:
    drawing = drawn("height")
    bottom, top, *webs = (Polygon(line).buffer(1e-6) for line in lines(drawing, "outline"))
    rings = [LineString(line) for line in lines(drawing, "ring")]
    assert {top.covers(ring) or bottom.covers(ring) for ring in rings} == {True}
    layers = lines(drawing, "layer")
    assert [sum(web.covers(LineString(line)) for line in layers) for web in webs] == [2, 2]
    assert all(line[0][0] == line[1][0] for line in layers)


def test_a_bolt_hole_goes_through_both_webs_and_breaks_their_layers() -> None:
    drawing = drawn("hole hole_height", **HOLE)
    assert measured(drawing, "hole") == pytest.approx(9.525)
    assert measured(drawing, "hole_height") == pytest.approx(80.0)
    walls = [line for line in lines(drawing, "outline") if len(line) == 2]
    assert [round(abs(a[0] - b[0]) / scale_of(drawing), 6) for a, b in walls] == [3.175] * 4
    low, high = walls[0][0][1], walls[-1][0][1]
    assert all(not low < y < high for line in lines(drawing, "layer") for _, y in line)
    assert len(lines(drawing, "layer")) == 8


def test_the_part_to_cut_out_is_hollow_with_its_glue_lines_drawn() -> None:
    (part,) = box_parts(Sizes(BOX))
    outer, hollow = (Polygon(line).area for line in part.outlines)
    assert (outer, hollow) == pytest.approx((44.45 * 177.8, 38.1 * (177.8 - 31.75 - 25.4)))
    glue = [line for stroke in part.guides for line in stroke.lines]
    assert [abs(a[1] - b[1]) for a, b in glue] == pytest.approx([31.75, 31.75, 25.4, 25.4])


def test_caps_that_meet_are_a_fault() -> None:
    with pytest.raises(LessonFault, match=r"caps of 31\.75 mm and 150\.0 mm meet"):
        drawn("height", bottom_cap=150.0)


def test_the_height_between_the_caps_is_not_measured_across_a_bolt() -> None:
    with pytest.raises(LessonFault, match="this box spar has no dimension 'between'"):
        drawn("between", **HOLE)
