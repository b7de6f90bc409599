from fractions import Fraction

import pytest

from coursepack.drafting.planing import planing_measure, planing_passes
from coursepack.drafting.sheet import Drawing, Frame, Mark
from coursepack.place import LessonFault
from tests.drafting.measuring import measured, outline

# common practice: a strip finished 3/4 × 1 1/2 in
STRIP = {"rough": 31.75, "finish": 19.05, "rough_width": 44.45, "finish_width": 38.1}
SIX = {"passes_top": 4.0, "passes_bottom": 4.0}


def drawn(marks: dict[str, Mark], **sizes: float) -> Drawing:
    return planing_passes(STRIP | sizes, marks, Frame(118))


def layers(drawing: Drawing) -> int:
    """Level lines as long as the strip is wide."""
    lines = [line for stroke in drawing.strokes if stroke.kind == "layer" for line in stroke.lines]
    return sum(line[1][0] - line[0][0] == pytest.approx(44.45) for line in lines)


def test_both_faces_lose_half_of_what_comes_off_in_equal_passes() -> None:
    true = planing_measure(STRIP | SIX)
    assert true["allowance_each"] == pytest.approx(6.35)
    assert true["cut"] == pytest.approx(12.7 / 8)


def test_the_depth_of_a_pass_is_measured_in_the_drawing() -> None:
    assert measured(drawn({"cut": Mark("in", "blank")}, **SIX), "cut") == pytest.approx(12.7 / 8)


def test_passes_on_the_bottom_are_those_of_the_top_unless_said() -> None:
    assert planing_measure(STRIP | {"passes_top": 4.0}) == planing_measure(STRIP | SIX)


def test_planing_one_face_only_leaves_no_equal_allowance() -> None:
    true = planing_measure(STRIP | {"passes_top": 4.0, "passes_bottom": 0.0})
    assert "allowance_each" not in true
    assert true["cut"] == pytest.approx(12.7 / 4)


def test_each_layer_is_drawn_while_they_are_few() -> None:
    assert layers(drawn({}, **SIX)) == 2 * 3


@pytest.mark.parametrize("passes", [7.0, 10.0])
def test_of_many_layers_the_first_is_drawn_and_the_title_says_so(passes: float) -> None:
    drawing = drawn({}, passes_top=passes, passes_bottom=passes)
    assert layers(drawing) == 2
    assert any("only the first pass drawn" in label.text for label in drawing.labels)


def test_layers_too_thin_on_paper_for_a_line_each_are_not_drawn() -> None:
    drawing = drawn({}, rough=21.05, passes_top=4.0, passes_bottom=4.0)
    assert layers(drawing) == 2
    assert any("only the first pass drawn" in label.text for label in drawing.labels)


def test_edges_too_thin_for_their_numbers_have_them_outside() -> None:
    drawing = planing_passes(
        {"rough": 22.0, "finish": 18.0, "rough_width": 80.0}, {}, Frame(58, 190, Fraction(1, 5))
    )
    xs = {label.text: label.x for label in drawing.labels if label.text in {"3", "4"}}
    corners = outline(drawing)
    assert xs["3"] < min(x for x, _ in corners)
    assert xs["4"] > max(x for x, _ in corners)


def test_all_four_faces_are_numbered_once() -> None:
    texts = [label.text for label in drawn({}).labels]
    assert [text for text in texts if text.isdigit()] == ["1", "2", "3", "4"]


def test_the_board_is_fed_the_way_its_upper_grain_arrow_points_and_the_lower_one_points_back() -> None:
    drawing = drawn({})
    for name, way in (("FEED", 1), ("GRAIN, UPPER", 1), ("GRAIN, LOWER", -1)):
        (head,) = [fill.polygon for fill in drawing.fills if fill.of == name]
        tip, *back = head
        assert all((tip[0] - x) * way > 0 for x, _ in back)
    fibres = [
        line
        for stroke in drawing.strokes
        if stroke.kind == "ring"
        for line in stroke.lines[-7:]
        if len(line) == 2
    ]
    assert all(line[1][1] < line[0][1] for line in fibres if line[1][0] > line[0][0])


def test_without_passes_there_is_no_cut_to_ask_for() -> None:
    with pytest.raises(LessonFault, match="no dimension 'cut'; they have rough, finish"):
        drawn({"cut": Mark("in", "blank")})


def test_a_finished_size_above_the_rough_one_is_a_fault() -> None:
    with pytest.raises(LessonFault, match="the finished size must lie between zero and the rough size"):
        drawn({}, finish=40.0)
