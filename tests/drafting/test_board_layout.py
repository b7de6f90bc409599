from fractions import Fraction

import pytest

from coursepack.drafting.board_layout import board_layout, layout_measure
from coursepack.drafting.board_rows import MOST
from coursepack.drafting.clearance import clashes
from coursepack.drafting.part import Sizes
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.place import LessonFault
from coursepack.quantity import Quantity
from coursepack.trade.stock import cutting_plan
from coursepack.trade.stock_plan import CutBoard, CuttingPlan
from tests.drafting.measuring import measured, scale_of, tips

INCH = 25.4


def inches(value: float | str) -> Quantity:
    return Quantity.of(Fraction(value), "in")


def planned(
    *boards: tuple[float | str, ...], length: int = 96, offcuts: tuple[str, ...], kerf: float = 0.125
) -> Sizes:
    cut = tuple(
        CutBoard(inches(length), tuple(inches(piece) for piece in pieces), inches(offcut))
        for pieces, offcut in zip(boards, offcuts, strict=True)
    )
    return Sizes({"kerf": kerf * INCH, "trim": 0.5 * INCH}, {"plan": CuttingPlan(cut, Quantity.of(len(cut)))})


# by hand: 96 − 2 × 1/2 = 95 in; three of 30 in and three kerfs leave 4 5/8 in, four of 22 in and four kerfs 6 1/2 in
TWO = planned((30, 30, 30), (22, 22, 22, 22), (22, 22, 22, 22), offcuts=("37/8", "13/2", "13/2"))


def drawn(sizes: Sizes, marks: dict[str, Mark], frame: Frame | None = None) -> Drawing:
    return board_layout(sizes, marks, frame or Frame())


def spans(drawing: Drawing, kind: str) -> list[tuple[float, float]]:
    """Where the rectangles of a kind of line begin and end on paper, from the top board down."""
    found: list[Line] = [
        line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines if len(line) == 5
    ]
    return [(line[0][0], line[1][0]) for line in sorted(found, key=lambda line: (-line[0][1], line[0][0]))]


def texts(drawing: Drawing) -> list[str]:
    return [label.text for label in drawing.labels]


def test_equal_boards_are_drawn_once_with_how_many_there_are() -> None:
    drawing = drawn(TWO, {})
    assert [text for text in texts(drawing) if text.startswith("Board")] == ["Board 1", "Board 2, 2 ×"]
    assert len(spans(drawing, "outline")) == 3 + 4


def test_the_boards_of_the_solver_are_drawn_as_it_cuts_them() -> None:
    rows = [(inches(30), Quantity.of(4)), (inches(22), Quantity.of(6))]
    plan = cutting_plan(rows, [(inches(96), Quantity.of(10))], inches("1/8"), inches("1/2"))
    sizes = Sizes({"kerf": 0.125 * INCH, "trim": 0.5 * INCH}, {"plan": plan})
    kinds = {str(board) for board in plan.boards}
    pieces = [piece for board in {str(b): b for b in plan.boards}.values() for piece in board.pieces]
    drawing = drawn(sizes, {})
    assert len([text for text in texts(drawing) if text.startswith("Board")]) == len(kinds)
    assert len(spans(drawing, "outline")) == len(pieces)


def test_a_saw_cut_is_drawn_about_its_true_middle_and_no_wider_than_it_says() -> None:
    drawing = drawn(TWO, {"board_1": Mark("96 in")})
    scale = scale_of(drawing)
    left = min(x for x, _ in tips(drawing, "board_1"))
    first, second, third = spans(drawing, "outline")[:3]
    # the first kerf lies from 1/2 + 30 to 30 5/8 in, the second 30 1/8 in on
    assert ((first[1] + second[0]) / 2 - left) / scale == pytest.approx((0.5 + 30 + 0.0625) * INCH)
    assert ((second[1] + third[0]) / 2 - left) / scale == pytest.approx((0.5 + 60.125 + 0.0625) * INCH)
    assert second[0] - first[1] == pytest.approx(0.8 + 0.125 * INCH * scale)
    assert "saw cuts drawn wider" in " ".join(texts(drawing))


def test_all_pieces_of_a_length_are_equally_long_on_paper_and_longer_ones_longer() -> None:
    drawing = drawn(TWO, {})
    lengths = [right - left for left, right in spans(drawing, "outline")]
    assert lengths[:3] == pytest.approx([30 * INCH / 50 - 0.8] * 3)
    assert lengths[3:] == pytest.approx([22 * INCH / 50 - 0.8] * 4)


@pytest.mark.parametrize(
    ("name", "true"), [("board_1", 96), ("board_2", 96), ("offcut_1", 4.625), ("offcut_2", 6.5)]
)
def test_a_board_and_its_offcut_measure_what_they_are(name: str, true: float) -> None:
    drawing = drawn(TWO, {name: Mark("in", "blank")})
    assert measured(drawing, name) == pytest.approx(true * INCH)
    assert layout_measure(TWO)[name] == pytest.approx(true * INCH)


def test_the_offcut_ends_at_the_trim_and_is_crossed_out() -> None:
    drawing = drawn(TWO, {"board_1": Mark("96 in"), "offcut_1": Mark("4 5/8 in")})
    end, left_end = (max(x for x, _ in tips(drawing, name)) for name in ("board_1", "offcut_1"))
    assert (end - left_end) / scale_of(drawing) == pytest.approx(0.5 * INCH)
    crosses = [line for stroke in drawing.strokes if stroke.kind == "layer" for line in stroke.lines]
    assert len(crosses) == 2 * 2


def test_a_board_that_is_used_up_has_no_offcut() -> None:
    sizes = planned((30, 30, "139/4"), offcuts=("0",))  # 30 + 1/8 + 30 + 1/8 + 34 3/4 in = 95 in
    assert layout_measure(sizes) == pytest.approx({"board_1": 96 * INCH})
    assert not [stroke for stroke in drawn(sizes, {}).strokes if stroke.kind == "layer"]


def test_pieces_with_room_are_lettered_with_their_length_others_with_letters_that_are_explained() -> None:
    roomy = texts(drawn(planned((44, 44), length=96, offcuts=("27/4",)), {}))
    assert roomy.count("44\u00a0in") == 2
    assert "A" not in roomy
    close = texts(drawn(planned((44, 44, 4), length=96, offcuts=("21/8",)), {}))
    assert (close.count("A"), close.count("B")) == (2, 1)
    assert [text for text in close if "=" in text] == ["A = 44\u00a0in", "B = 4\u00a0in"]


def test_of_many_kinds_of_boards_the_first_are_drawn_and_the_rest_counted() -> None:
    boards = [(40, 20 + n) for n in range(MOST + 2)]
    sizes = planned(
        *boards, offcuts=tuple(str(Fraction(95 - 60 - n) - Fraction(1, 4)) for n in range(MOST + 2))
    )
    drawing = drawn(sizes, {})
    assert "and 2 more kinds of board, not drawn" in texts(drawing)
    assert set(layout_measure(sizes)) == {
        f"{part}_{n}" for n in range(1, MOST + 1) for part in ("board", "offcut")
    }


def test_long_boards_go_down_to_one_to_a_hundred_in_the_column() -> None:
    sizes = planned((40, 40, 40), length=144, offcuts=("181/8",))  # 143 − 3 × 40 1/8 in
    drawing = drawn(sizes, {"offcut_1": Mark("in", "blank")})
    assert drawing.scale_text == "1:100"
    assert clashes(drawing) == []
    assert drawn(sizes, {}, Frame(118)).scale_text == "1:50"


def test_a_kerf_that_the_plan_was_not_made_with_is_a_fault() -> None:
    with pytest.raises(LessonFault, match="not as long as the board"):
        drawn(planned((30, 30, 30), offcuts=("37/8",), kerf=0.25), {})


def test_what_is_told_of_a_plan_is_what_is_given() -> None:
    alt = drawn(TWO, {"board_1": Mark("96 in"), "offcut_1": Mark("in", "blank")}).alt
    assert "Board 2, 2 of it: 22 in, 22 in, 22 in, 22 in, and an offcut." in alt
    assert "Length of board 1: 96 in. Offcut of board 1: to be found." in alt
    assert "5/8" not in alt
