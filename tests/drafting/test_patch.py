from fractions import Fraction
from math import dist, hypot

import pytest

from coursepack.drafting.clearance import clashes
from coursepack.drafting.patch import patch_measure, plywood_patch, section_scale
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.place import LessonFault
from tests.drafting.measuring import measured, scale_of, section_scale_of, tips

# a skin of 1/16 in, sloped 1 in 12 round a hole of 1 in: FAA AC 43.13-1B, paragraph 1-51c
PATCH = {"skin": 1.5875, "hole": 25.4, "run": 19.05}
ALL = {
    "skin": Mark("1⁄16 in"),
    "hole": Mark("1 in"),
    "run": Mark("3⁄4 in"),
    "patch": Mark("2 1⁄2 in"),
}


def drawn(marks: dict[str, Mark] | None = None, frame: Frame | None = None, **sizes: float) -> Drawing:
    return plywood_patch(PATCH | sizes, ALL if marks is None else marks, frame or Frame())


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def span(line: Line) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in line], [y for _, y in line]
    return min(xs), max(xs), min(ys), max(ys)


def slope(drawing: Drawing) -> Line:
    (found,) = [line for line in lines(drawing, "thin") if len(line) == 2 and line[0][1] != line[1][1]]
    return found


def test_the_patch_reaches_past_the_hole_by_the_slope_all_round() -> None:
    # 1 in + 2 × 12 × 1/16 in = 2 1/2 in
    assert patch_measure(PATCH)["patch"] / 25.4 == pytest.approx(2.5)


def test_both_circles_are_as_wide_as_they_are_lettered_and_about_one_middle() -> None:
    drawing = drawn()
    scale = scale_of(drawing)
    (edge,), (hole,) = lines(drawing, "outline"), lines(drawing, "hidden")
    for circle, diameter in ((edge, 63.5), (hole, 25.4)):
        left, right, low, high = span(circle)
        assert ((right - left) / scale, (high - low) / scale) == pytest.approx((diameter, diameter))
    assert sum(span(edge)[:2]) == pytest.approx(sum(span(hole)[:2]))
    assert sum(span(edge)[2:]) == pytest.approx(sum(span(hole)[2:]))


@pytest.mark.parametrize(("part", "diameter"), [("patch", 63.5), ("hole", 25.4)])
def test_a_diameter_is_measured_at_the_scale_of_the_view(part: str, diameter: float) -> None:
    drawing = drawn()
    (circle,) = lines(drawing, "outline" if part == "patch" else "hidden")
    assert measured(drawing, part) == pytest.approx(diameter)
    assert sorted(x for x, _ in tips(drawing, part)) == pytest.approx(span(circle)[:2])


@pytest.mark.parametrize(("part", "size"), [("skin", 1.5875), ("run", 19.05)])
def test_what_the_section_shows_is_measured_at_the_scale_of_the_section(part: str, size: float) -> None:
    drawing = drawn()
    assert (scale_of(drawing), section_scale_of(drawing)) == (0.5, 1)
    assert dist(*tips(drawing, part)) == pytest.approx(size)


def test_the_slope_goes_from_the_inner_face_at_the_hole_to_the_outer_face_at_the_edge() -> None:
    drawing = drawn()
    (x0, y0), (x1, y1) = slope(drawing)
    assert (x1 - x0, y1 - y0) == pytest.approx((19.05, 1.5875))
    assert sorted(x for x, _ in tips(drawing, "run")) == pytest.approx([x0, x1])
    assert sorted(y for _, y in tips(drawing, "skin")) == pytest.approx([y0, y1])


def test_the_names_stand_over_their_sides_of_the_slope() -> None:
    drawing = drawn()
    (x0, _), (x1, _) = slope(drawing)
    at = {label.text: label.x for label in drawing.labels}
    assert at["PATCH"] < x0 < x1 < at["SKIN"]


@pytest.mark.parametrize(("width", "layers"), [(58, 0), (118, 2)])
def test_plies_are_drawn_where_there_is_room_for_them(width: float, layers: int) -> None:
    drawing = drawn(frame=Frame(width))
    assert len(lines(drawing, "layer")) == layers


def test_the_grain_runs_one_way_and_ends_at_the_edge_of_the_patch() -> None:
    drawing = drawn()
    (edge,) = lines(drawing, "outline")
    left, right, low, high = span(edge)
    middle, radius = ((left + right) / 2, (low + high) / 2), (right - left) / 2
    grain = lines(drawing, "ring")
    assert len(grain) > 20
    assert all(y0 == y1 for (_, y0), (_, y1) in grain)
    reaches = [[hypot(x - middle[0], y - middle[1]) for x, y in line] for line in grain]
    inside = [
        line for line, (one, other) in zip(grain, reaches, strict=True) if max(one, other) < radius + 0.01
    ]
    assert len(inside) > 5
    assert all(max(reach) == pytest.approx(radius) for reach in reaches if max(reach) < radius + 0.01)


def test_the_skin_goes_on_round_the_patch_and_is_broken_off_on_all_sides() -> None:
    drawing = drawn({})
    left, right, low, high = span(lines(drawing, "outline")[0])
    breaks = [line for line in lines(drawing, "thin") if len(line) > 4]
    assert len(breaks) == 4
    for line in breaks:
        x0, x1, y0, y1 = span(line)
        assert x1 < left - 4 or x0 > right + 4 or y1 < low - 4 or y0 > high + 4


def test_the_section_is_drawn_larger_where_the_frame_has_room() -> None:
    sizes = {"skin": 3.175, "hole": 38.1, "run": 38.1}
    assert [section_scale(sizes, width) for width in (58, 118)] == [Fraction(1, 2), 1]


def test_the_sheet_says_the_patch_is_to_be_found_and_the_key_says_what_it_is() -> None:
    assert drawn(ALL | {"patch": Mark("in", "blank")}).alt == (
        "A round plywood patch in a skin, from outside, and a section through its edge. "
        "Thickness of the skin: 1/16 in. Diameter of the hole at the inner face: 1 in. "
        "Width of the slope round the hole: 3/4 in. Diameter of the patch at the outer face: to be found."
    )
    assert "outer face: 2 1/2 in." in drawn(ALL | {"patch": Mark("2 1⁄2 in", "answer")}).alt


@pytest.mark.parametrize("part", ["skin", "hole", "run", "patch"])
@pytest.mark.parametrize("answer", [Mark("mm", "blank"), Mark("155.5\u00a0mm", "answer")])
def test_a_large_patch_fits_the_column_whatever_is_asked(part: str, answer: Mark) -> None:
    # 25 thicknesses for the hole and 12 for the slope, in a skin of 3 mm
    drawing = drawn(ALL | {part: answer}, skin=3.0, hole=75.0, run=36.0)
    assert drawing.scale_text == "1:5"
    assert clashes(drawing) == []


def test_a_slope_as_steep_as_it_is_thick_is_a_fault() -> None:
    with pytest.raises(LessonFault) as caught:
        drawn(run=1.5)
    assert str(caught.value) == (
        "the slope of the patch is too steep; give it a 'run' above the thickness of the skin"
    )


def test_a_patch_too_wide_for_the_scale_asked_is_a_fault() -> None:
    with pytest.raises(LessonFault, match="does not fit 58 × 190 mm at 1:1; scale 1:2 would fit"):
        drawn(frame=Frame(58, 190, Fraction(1)))
