from fractions import Fraction
from math import atan, degrees

import pytest

from coursepack.drafting.clearance import clashes
from coursepack.drafting.scarf import LEG_MM, scarf, scarf_measure
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.place import LessonFault
from tests.drafting.measuring import measured, scale_of, tips, turned

# 3/4 in at 1 in 12; and a cap strip of 1/4 in with 10 and 16 thicknesses: FAA-H-8083-31, chapter 6
JOINT = {"thickness": 19.05, "run": 228.6}
STRIP = {"thickness": 6.35, "run": 63.5, "block": 101.6}
GIVEN = {"thickness": Mark("3⁄4 in"), "run": Mark("9 in")}
SLOPE = {"slope": Mark("12"), "angle": Mark("4.8°")}
ALL = GIVEN | SLOPE


def drawn(marks: dict[str, Mark], frame: Frame | None = None, **sizes: float) -> Drawing:
    return scarf(JOINT | sizes, marks, frame or Frame())


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def glue_line(drawing: Drawing) -> Line:
    return lines(drawing, "outline")[2]


def triangle(drawing: Drawing) -> Line:
    (found,) = [line for line in lines(drawing, "thin") if len(line) == 4 and line[0] == line[3]]
    return found


def label(drawing: Drawing, name: str) -> str:
    return next(label.text for label in drawing.labels if label.of == name)


def test_a_quarter_inch_cap_strip_has_the_scarf_and_the_block_of_the_handbook() -> None:
    true = scarf_measure(STRIP)
    assert true["slope"] == 10
    assert true["run"] / 25.4 == pytest.approx(2.5)
    assert true["block"] / 25.4 == pytest.approx(4)
    assert true["past"] / 25.4 == pytest.approx(0.75)


def test_the_angle_is_that_of_the_glue_line_to_the_face() -> None:
    # arctan 1/12 = 4.764 degrees, arctan 1/15 = 3.814
    assert scarf_measure(JOINT)["angle"] == pytest.approx(4.764, abs=5e-4)
    assert scarf_measure(JOINT | {"run": 285.75})["angle"] == pytest.approx(3.814, abs=5e-4)


def test_the_glue_line_crosses_the_thickness_over_the_run_at_the_scale_under_the_figure() -> None:
    drawing = drawn(ALL, Frame(58, 190, Fraction(1, 5)))
    (x0, y0), (x1, y1) = glue_line(drawing)
    assert ((x0 - x1) * 5, (y1 - y0) * 5) == pytest.approx((19.05, 228.6))


def test_the_run_is_measured_from_feather_edge_to_feather_edge() -> None:
    drawing = drawn(ALL)
    assert measured(drawing, "run") == pytest.approx(228.6)
    assert sorted(y for _, y in tips(drawing, "run")) == pytest.approx([y for _, y in glue_line(drawing)])


def test_the_thickness_is_measured_over_both_faces() -> None:
    drawing = drawn(ALL)
    left, right = (line[0][0] for line in lines(drawing, "outline")[:2])
    assert measured(drawing, "thickness") == pytest.approx(19.05)
    assert sorted(x for x, _ in tips(drawing, "thickness")) == pytest.approx([left, right])


@pytest.mark.parametrize("parts", [8, 10, 12, 15, 20])
def test_the_triangle_has_the_slope_of_the_glue_line(parts: int) -> None:
    drawing = drawn(ALL, run=19.05 * parts)
    (x0, y0), (x1, y1), (x2, y2), _ = triangle(drawing)
    assert (x0 - x1, y1 - y2) == pytest.approx((0, 0))
    assert (y1 - y0) / (x1 - x2) == pytest.approx(parts)
    (a, b), (c, d) = glue_line(drawing)
    assert (x2 - x0) / (y2 - y0) == pytest.approx((c - a) / (d - b))


@pytest.mark.parametrize("parts", [8, 10, 12, 15, 20])
def test_the_arrowheads_of_the_angle_span_it_at_the_triangles_corner(parts: int) -> None:
    drawing = drawn(ALL, run=19.05 * parts)
    assert turned(drawing, "angle", triangle(drawing)[0]) == pytest.approx(degrees(atan(1 / parts)))


def test_the_slope_is_lettered_on_the_long_leg_and_a_1_on_the_short_one() -> None:
    drawing = drawn(ALL)
    (_, y0), (_, y1), *_ = triangle(drawing)
    assert sorted(y for _, y in tips(drawing, "slope")) == pytest.approx([y0, y1])
    assert y1 - y0 == pytest.approx(LEG_MM)
    assert label(drawing, "slope") == "12"
    assert next(each.text for each in drawing.labels if not each.of) == "1"


def test_an_angle_alone_has_its_triangle_without_the_1() -> None:
    drawing = drawn(GIVEN | {"angle": Mark("°", "blank")})
    assert triangle(drawing)
    assert "1" not in {each.text for each in drawing.labels}


def test_without_slope_and_angle_there_is_no_triangle() -> None:
    assert len(lines(drawn(GIVEN), "thin")) == 2


def test_the_block_covers_the_scarf_by_as_much_at_both_ends() -> None:
    marks = {name: Mark("in", "blank") for name in ("block", "past", "run")}
    drawing = scarf(STRIP, marks, Frame())
    block = lines(drawing, "outline")[3]
    (_, foot), (_, tip) = glue_line(drawing)
    scale = scale_of(drawing)
    assert measured(drawing, "block") == pytest.approx(101.6)
    assert measured(drawing, "past") == pytest.approx(19.05)
    assert ((foot - block[0][1]) / scale, (block[-1][1] - tip) / scale) == pytest.approx((19.05, 19.05))


@pytest.mark.parametrize("deep", [3.0, 6.35])
def test_the_ends_of_the_block_run_out_five_to_one(deep: float) -> None:
    drawing = scarf(STRIP | {"block_thick": deep}, {}, Frame())
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = lines(drawing, "outline")[3]
    assert x1 == x2
    assert (x1 - x0) / scale_of(drawing) == pytest.approx(deep)
    assert [(y1 - y0) / (x1 - x0), (y3 - y2) / (x2 - x3)] == pytest.approx([5, 5])


def test_the_pieces_go_on_past_the_joint_and_are_broken_off_at_both_ends() -> None:
    drawing = scarf(STRIP, {"block": Mark("4 in")}, Frame())
    low, high = sorted(y for _, y in tips(drawing, "block"))
    breaks = [line for line in lines(drawing, "thin") if line[0][1] == line[-1][1]]
    assert len(breaks) == 2
    assert all(y < low - 5 or y > high + 5 for line in breaks for _, y in line)


@pytest.mark.parametrize("thickness", [3.0, 6.35, 19.05, 25.4])
def test_the_grain_of_each_piece_runs_along_it_up_to_the_glue_line(thickness: float) -> None:
    drawing = drawn({}, thickness=thickness, run=12 * thickness)
    (x0, y0), (x1, y1) = glue_line(drawing)
    grain = lines(drawing, "ring")
    assert len(grain) >= 6
    for (x, low), (also, high) in grain:
        at_glue = y0 + (x0 - x) / (x0 - x1) * (y1 - y0)
        assert x == also
        assert x1 < x < x0
        assert min(abs(low - at_glue), abs(high - at_glue)) == pytest.approx(0, abs=1e-9)


def test_the_sheet_says_the_run_is_to_be_found_and_the_key_says_what_it_is() -> None:
    assert drawn(ALL | {"run": Mark("in", "blank")}).alt == (
        "Side view of two pieces on end, joined by a scarf. Thickness of the pieces: 3/4 in. "
        "Run of the scarf, the length of the cut along the face: to be found. "
        "Slope, the run for a rise of 1: 12. Angle of the glue line to the face: 4.8 degrees."
    )
    assert "along the face: 9 in." in drawn(ALL | {"run": Mark("9 in", "answer")}).alt
    assert "joined by a scarf, with a block" in scarf(STRIP, {}, Frame()).alt


def test_a_triangle_too_wide_to_stand_beside_the_pieces_stands_under_them() -> None:
    tight = {"run": Mark("mm", "blank"), "angle": Mark("°", "blank"), "slope": Mark("", "blank")}
    beside, under = (drawn(tight, Frame(width, 190, Fraction(1, 5))) for width in (90, 58))
    for drawing, is_under in ((beside, False), (under, True)):
        low = min(y for line in lines(drawing, "outline") for _, y in line)
        assert (triangle(drawing)[1][1] < low) == is_under
        assert clashes(drawing) == []


@pytest.mark.parametrize("answer", [Mark("mm", "blank"), Mark("285.8\u00a0mm", "answer")])
def test_a_spar_joint_fits_the_column_at_one_to_five_with_all_its_sizes(answer: Mark) -> None:
    drawing = drawn(ALL | {"run": answer}, Frame(58, 190, Fraction(1, 5)), run=285.75)
    assert clashes(drawing) == []


def test_a_block_that_hardly_covers_the_scarf_is_a_fault() -> None:
    with pytest.raises(LessonFault) as caught:
        scarf(STRIP | {"block": 70.0}, {}, Frame())
    assert str(caught.value) == (
        "the block is too short for the scarf; let it reach past both ends by the thickness or more"
    )


def test_a_scarf_without_a_block_has_no_length_of_block() -> None:
    with pytest.raises(
        LessonFault, match="this scarf has no dimension 'block'; it has thickness, run, slope"
    ):
        drawn({"block": Mark("4 in")})


def test_a_run_that_would_fill_the_page_is_drawn_smaller() -> None:
    assert drawn(GIVEN, run=400.0).scale_text == "1:5"
    with pytest.raises(LessonFault, match="does not fit 58 × 190 mm at 1:2; scale 1:5 would fit"):
        drawn(GIVEN, Frame(58, 190, Fraction(1, 2)), run=400.0)
