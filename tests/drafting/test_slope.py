from fractions import Fraction
from math import dist

import pytest

from coursepack.drafting.clearance import clashes
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.drafting.slope import grain_slope
from coursepack.place import LessonFault
from tests.drafting.measuring import measured, scale_of, tips

# common practice: check lines over 15 in, 3/4 in across a 4 1/2 in face and 1/2 in across a 1 1/4 in edge
BOARD = {"run": 381.0, "wide": 114.3, "thick": 31.75, "rise_face": 19.05, "rise_edge": 12.7}
GIVEN = {"run": Mark("15 in"), "rise_face": Mark("3⁄4 in"), "rise_edge": Mark("1⁄2 in")}
SIDES = {"wide": Mark("4 1⁄2 in"), "thick": Mark("1 1⁄4 in")}


def drawn(marks: dict[str, Mark], frame: Frame | None = None, **sizes: float) -> Drawing:
    return grain_slope(BOARD | sizes, marks, frame or Frame())


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def check_lines(drawing: Drawing) -> list[Line]:
    return [line for line in lines(drawing, "thin") if len(line) == 2]


def lean(line: Line) -> float:
    (x0, y0), (x1, y1) = line[0], line[-1]
    return (x1 - x0) / (y1 - y0)


def test_each_check_line_has_the_run_and_its_own_rise_at_the_scale_under_the_figure() -> None:
    drawing = drawn(GIVEN)
    assert scale_of(drawing) == 0.2
    for ((x0, y0), (x1, y1)), rise in zip(check_lines(drawing), (19.05, 12.7), strict=True):
        assert ((x1 - x0) / 0.2, (y1 - y0) / 0.2) == pytest.approx((rise, 381.0))


def test_the_arrowheads_of_a_rise_stand_over_the_ends_of_its_check_line() -> None:
    drawing = drawn(GIVEN)
    for name, line in zip(("rise_face", "rise_edge"), check_lines(drawing), strict=True):
        assert sorted(x for x, _ in tips(drawing, name)) == pytest.approx([x for x, _ in line])


def test_the_run_is_measured_between_the_ends_that_both_check_lines_share() -> None:
    drawing = drawn(GIVEN)
    ends = {tuple(round(y, 6) for _, y in line) for line in check_lines(drawing)}
    assert ends == {tuple(sorted(round(y, 6) for _, y in tips(drawing, "run")))}


def test_the_face_and_the_edge_are_as_wide_as_they_are_lettered() -> None:
    drawing = drawn(GIVEN | SIDES, Frame(118))
    left, right, near, far = (line[0][0] for line in lines(drawing, "outline"))
    scale = scale_of(drawing)
    assert [(right - left) / scale, (far - near) / scale] == pytest.approx([114.3, 31.75])
    assert measured(drawing, "wide") == pytest.approx(114.3)
    assert measured(drawing, "thick") == pytest.approx(31.75)


@pytest.mark.parametrize("rise", [0.0, 6.0, 25.0, 114.3])
def test_the_grain_runs_along_the_check_lines_and_stays_on_the_board(rise: float) -> None:
    drawing = drawn(GIVEN, rise_face=rise)
    left, right, near, far = (line[0][0] for line in lines(drawing, "outline"))
    low, high = (y for _, y in lines(drawing, "outline")[0])
    face = [line for line in lines(drawing, "ring") if line[0][0] < near]
    edge = [line for line in lines(drawing, "ring") if line[0][0] > right]
    assert len(face) > 6
    assert len(edge) > 2
    assert [lean(line) for line in face] == pytest.approx([rise / 381.0] * len(face))
    assert [lean(line) for line in edge] == pytest.approx([12.7 / 381.0] * len(edge))
    for x, y in (point for line in (*face, *edge) for point in line):
        assert left - 1e-6 <= x <= right + 1e-6 or near - 1e-6 <= x <= far + 1e-6
        assert low < y < high


def test_the_board_goes_on_past_the_check_lines_and_is_broken_off_at_both_ends() -> None:
    drawing = drawn(GIVEN)
    low, high = tips(drawing, "run")[0][1], tips(drawing, "run")[1][1]
    breaks = [line for line in lines(drawing, "thin") if len(line) > 2]
    assert len(breaks) == 4
    assert all(y < low - 5 or y > high + 5 for line in breaks for _, y in line)


def test_a_line_along_the_board_stands_on_the_foot_of_each_check_line() -> None:
    drawing = drawn(GIVEN)
    for check, plumb in zip(check_lines(drawing), lines(drawing, "centre"), strict=True):
        assert check[0] == plumb[0]
        assert plumb[0][0] == plumb[1][0]
        assert dist(*plumb) == pytest.approx(76.2)


def test_the_sheet_says_the_rise_is_to_be_found_and_the_key_says_what_it_is() -> None:
    assert drawn(GIVEN | {"rise_face": Mark("in", "blank")}).alt == (
        "A board's face and its edge beside it, standing on end, with a check line along the grain on each. "
        "Run of both check lines along the board: 15 in. Rise of the check line across the face: to be found. "
        "Rise of the check line across the edge: 1/2 in."
    )
    assert "across the face: 3/4 in." in drawn(GIVEN | {"rise_face": Mark("3⁄4 in", "answer")}).alt


@pytest.mark.parametrize(("rise", "side"), [("rise_face", "wide"), ("rise_edge", "thick")])
def test_a_check_line_that_leaves_the_board_is_a_fault(rise: str, side: str) -> None:
    with pytest.raises(LessonFault) as caught:
        grain_slope(BOARD | {rise: BOARD[side] + 1}, GIVEN, Frame())
    assert str(caught.value) == f"the check line with '{rise}' leaves the board; give it zero to its '{side}'"


def test_a_run_that_would_fill_the_page_is_drawn_smaller() -> None:
    assert drawn(GIVEN, run=900.0).scale_text == "1:10"
    with pytest.raises(LessonFault, match="does not fit 58 × 190 mm at 1:2; scale 1:5 would fit"):
        drawn(GIVEN, Frame(58, 190, Fraction(1, 2)))


@pytest.mark.parametrize("answer", [Mark("mm", "blank"), Mark("24.5\u00a0mm", "answer")])
@pytest.mark.parametrize("asked", ["rise_face", "rise_edge"])
def test_a_board_of_the_shop_fits_the_column_at_one_to_five_with_all_its_sizes(
    asked: str, answer: Mark
) -> None:
    drawing = drawn(GIVEN | SIDES | {asked: answer}, Frame(58, 190, Fraction(1, 5)), wide=127.0)
    assert clashes(drawing) == []
