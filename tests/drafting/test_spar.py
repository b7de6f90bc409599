from fractions import Fraction
from itertools import pairwise
from math import radians, tan

import pytest

from coursepack.drafting.clearance import clashes
from coursepack.drafting.sheet import Drawing, Frame, Mark, Point
from coursepack.drafting.spar import spar_measure, spar_section
from coursepack.place import LessonFault
from tests.drafting.measuring import measured, outline, scale_of, turned

# common practice: a section bevelled 8 degrees on top and 2 below, both edges sloping inwards to the rear
SECTION = {"front": 114.3, "width": 19.05, "top": -8.0, "bottom": 2.0}
GIVEN = {"front": Mark("4 1⁄2 in"), "width": Mark("3⁄4 in"), "top": Mark("8°"), "bottom": Mark("2°")}
REAR_MM = 114.3 - 19.05 * tan(radians(8)) - 19.05 * tan(radians(2))


def drawn(marks: dict[str, Mark], frame: Frame | None = None, **sizes: float) -> Drawing:
    return spar_section(SECTION | sizes, marks, frame or Frame())


def hinge(drawing: Drawing, *, top: bool) -> Point:
    corners = outline(drawing)
    return min(corners, key=lambda p: (round(p[0], 6), -p[1] if top else p[1]))


def test_the_rear_face_is_what_both_bevels_leave_of_the_front() -> None:
    assert spar_measure(SECTION)["rear"] == pytest.approx(REAR_MM)
    assert measured(drawn(GIVEN | {"rear": Mark("in", "blank")}), "rear") == pytest.approx(REAR_MM)


def test_the_section_itself_is_drawn_to_scale() -> None:
    drawing = drawn(GIVEN, Frame(58, 190, Fraction(1, 2)))
    (x0, y0), (x1, y1), (_, y2), (_, y3), *_ = outline(drawing)
    assert scale_of(drawing) == 0.5
    assert [(x1 - x0) * 2, (y3 - y0) * 2, (y2 - y1) * 2] == pytest.approx([19.05, 114.3, REAR_MM])


@pytest.mark.parametrize("bevel", [1.0, 3.0, 9.0, -4.0])
def test_the_arrowheads_of_a_bevel_span_its_angle(bevel: float) -> None:
    drawing = drawn(GIVEN, top=-bevel, bottom=bevel)
    assert turned(drawing, "top", hinge(drawing, top=True)) == pytest.approx(abs(bevel))
    assert turned(drawing, "bottom", hinge(drawing, top=False)) == pytest.approx(abs(bevel))


def test_the_wedges_and_the_rear_face_make_up_the_squared_blank() -> None:
    marks = {"drop": Mark("in", "blank"), "rise": Mark("in", "blank"), "rear": Mark("in", "blank")}
    drawing = drawn(marks, Frame(118), blank=114.3)
    assert sum(measured(drawing, part) for part in marks) == pytest.approx(114.3)


def test_removed_wedges_are_dashed_only_where_the_blank_is_known() -> None:
    assert "hidden" not in {stroke.kind for stroke in drawn(GIVEN).strokes}
    assert "hidden" in {stroke.kind for stroke in drawn(GIVEN, blank=114.3).strokes}


def test_rings_stay_inside_the_section() -> None:
    drawing = drawn(GIVEN)
    corners = outline(drawing)
    rings = [p for stroke in drawing.strokes if stroke.kind == "ring" for line in stroke.lines for p in line]
    assert len(rings) > 100
    for p, q in pairwise(corners):
        assert all((q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0]) > -1e-6 for x, y in rings)


def test_the_sheet_says_the_rear_is_to_be_found_and_the_key_says_what_it_is() -> None:
    assert drawn(GIVEN | {"rear": Mark("in", "blank")}).alt == (
        "End view of a spar section, front face left and rear face right. Front face height: 4 1/2 in. "
        "Thickness from front to rear: 3/4 in. Bevel of the top edge: 8 degrees. "
        "Bevel of the bottom edge: 2 degrees. Rear face height: to be found."
    )
    assert drawn(GIVEN | {"rear": Mark("4 11⁄32 in", "answer")}).alt.endswith("Rear face height: 4 11/32 in.")


def test_an_asked_scale_that_does_not_fit_names_one_that_would() -> None:
    with pytest.raises(LessonFault) as caught:
        drawn(GIVEN, Frame(58, 100, Fraction(1)))
    assert (
        str(caught.value) == "the figure 'spar section' does not fit 58 × 100 mm at 1:1; scale 1:2 would fit"
    )


def test_a_frame_too_small_for_any_scale_is_a_fault() -> None:
    with pytest.raises(LessonFault, match="does not fit 20 × 20 mm; give it the wide frame"):
        drawn(GIVEN, Frame(20, 20))


def test_an_edge_that_rises_to_the_rear_has_no_drop() -> None:
    with pytest.raises(
        LessonFault, match="no dimension 'drop'; it has front, width, top, bottom, rear, rise"
    ):
        drawn({"drop": Mark("in", "blank")}, top=3.0)


def test_a_blank_lower_than_its_section_is_a_fault() -> None:
    with pytest.raises(LessonFault, match="the squared blank is lower than the section"):
        drawn(GIVEN, blank=110.0)


@pytest.mark.parametrize("rear", [Mark("mm", "blank"), Mark("109.6\u00a0mm", "answer")])
@pytest.mark.parametrize(("front", "width"), [(114.0, 25.0), (140.0, 25.0), (139.7, 25.4), (100.0, 18.0)])
def test_a_whole_section_fits_the_column_at_full_size(front: float, width: float, rear: Mark) -> None:
    marks = {
        "front": Mark(f"{front:g}\u00a0mm"), "width": Mark(f"{width:g}\u00a0mm"), "top": Mark("7°"),
        "bottom": Mark("3°"), "rear": rear,
    }  # fmt: skip
    drawing = drawn(marks, Frame(58, 190, Fraction(1)), front=front, width=width, top=-7.0, bottom=3.0)
    assert drawing.scale_text == "1:1"
    assert clashes(drawing) == []
