"""The leaning blank: the square touches at the foot, the guide's upper side is level, the edge falls by its bevel."""

from math import atan2, degrees

import pytest

from coursepack.drafting.leaning import leaning_blank, leaning_measure
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.place import LessonFault
from tests.drafting.measuring import scale_of

# common practice: a blade of 3 in and a gauge of 0.04 in; atan(0.04 / 3) = 0.7639°
SIZES = {"blade": 76.2, "gap": 1.016, "bevel": 5.0}
LEAN = 0.7639


def drawn(*names: str, **changed: float) -> Drawing:
    return leaning_blank(SIZES | changed, {name: Mark("9 in") for name in names}, Frame(118, 190))


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def turn(line: Line) -> float:
    """The direction of a straight line, in degrees from a level one."""
    (x, y), (to_x, to_y) = line[0], line[-1]
    return degrees(atan2(to_y - y, to_x - x))


def body(drawing: Drawing) -> Line:
    """The blank's outline: front face, top edge, rear face."""
    return lines(drawing, "outline")[0]


def closed(drawing: Drawing) -> list[Line]:
    """What has five points and ends where it begins: blade, stock, guide, level, vial, bubble."""
    return [line for line in lines(drawing, "thin") if len(line) == 5 and line[0] == line[-1]]


def test_both_faces_lean_to_the_rear_by_gap_over_blade() -> None:
    foot, front, rear, behind = body(drawn())
    assert 90 - turn((foot, front)) == pytest.approx(LEAN, abs=1e-3)
    assert 90 - turn((behind, rear)) == pytest.approx(LEAN, abs=1e-3)


def test_the_blade_stands_upright_touches_at_the_bench_top_and_leaves_the_gap_at_its_tip() -> None:
    drawing = drawn()
    foot, front, _, _ = body(drawing)
    (_, low), (x, _), (to_x, high), *_ = closed(drawing)[0]
    assert x == to_x
    slope = (front[0] - foot[0]) / (front[1] - foot[1])
    at_bench, at_tip = (foot[0] + (y - foot[1]) * slope for y in (low, high))
    assert at_bench == pytest.approx(x)
    assert (at_tip - x) / scale_of(drawing) == pytest.approx(1.016)


@pytest.mark.parametrize("bevel", [2.0, 5.0, 7.5])
def test_the_edge_falls_by_the_guides_bevel_from_a_level_line_so_its_own_bevel_is_less_by_the_lean(
    bevel: float,
) -> None:
    foot, front, rear, _ = body(drawn(bevel=bevel))
    assert turn((front, rear)) == pytest.approx(-bevel)
    square_to_the_face = turn((foot, front)) - 90
    assert square_to_the_face - turn((front, rear)) == pytest.approx(bevel - LEAN, abs=1e-3)


def test_the_guide_lies_on_the_edge_and_its_upper_side_bears_the_level() -> None:
    drawing = drawn()
    _, front, rear, _ = body(drawing)
    _, _, guide, level, vial, bubble = closed(drawing)
    upper, low, high, thick_end, _ = guide
    assert turn((low, high)) == pytest.approx(turn((front, rear)))
    assert turn((low, front)) == pytest.approx(turn((low, high)))
    assert upper[1] == thick_end[1] == level[0][1]
    assert upper[1] - low[1] < thick_end[1] - high[1]
    assert sum(x for x, _ in vial[:4]) == pytest.approx(sum(x for x, _ in bubble[:4]))


def test_the_rear_face_lies_its_width_behind_the_front_face() -> None:
    drawing = drawn(width=22.0)
    foot, front, rear, _ = body(drawing)
    (u, v), size = (
        (front[0] - foot[0], front[1] - foot[1]),
        ((front[0] - foot[0]) ** 2 + (front[1] - foot[1]) ** 2) ** 0.5,
    )
    away = ((rear[0] - foot[0]) * v - (rear[1] - foot[1]) * u) / size
    assert away / scale_of(drawing) == pytest.approx(22.0)


def test_the_detail_is_drawn_only_where_the_gap_is_dimensioned() -> None:
    assert [label.text for label in drawn("blade").labels if label.text.startswith("C")] == []
    assert len([label.text for label in drawn("gap").labels if label.text.startswith("C")]) == 2


@pytest.mark.parametrize("gap", [0.0, -1.0, 8.0])
def test_a_blank_that_does_not_lean_or_leans_too_far_is_a_fault(gap: float) -> None:
    with pytest.raises(LessonFault) as caught:
        drawn(gap=gap)
    assert (
        str(caught.value)
        == "the blank does not lean, or leans too far; give a gap of at most 1/10 of 'blade'"
    )


def test_the_true_sizes_are_those_given_and_no_other_can_be_dimensioned() -> None:
    assert leaning_measure(SIZES) == {"blade": 76.2, "gap": 1.016}
    with pytest.raises(LessonFault) as caught:
        drawn("lean")
    assert str(caught.value) == "this leaning blank has no dimension 'lean'; it has blade, gap"
