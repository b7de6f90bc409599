from functools import partial

import pytest

from coursepack.drafting.label import centred, label_box
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import Frame, Mark, Piece, Stroke

SQUARE = Piece((Stroke("outline", (((0, 0), (20, 0), (20, 20), (0, 20), (0, 0)),)),))


def lettered(x: float, y: float, text: str = "4 in") -> Choice:
    label = centred(Mark(text), (x, y))
    return Choice(label_box(label), partial(Piece, (), (), (label,)))


def test_the_first_clear_way_is_taken() -> None:
    layout = Layout(SQUARE, Frame(60, 60))
    layout.settle([lettered(20, 10), lettered(10, 10), lettered(10, 5)])
    assert [label.x for label in layout.piece.labels] == [10]
    assert layout.piece.labels[0].y > 5


def test_lettering_keeps_off_lettering_that_stands_already() -> None:
    layout = Layout(SQUARE, Frame(60, 60))
    layout.settle([lettered(10, 10)])
    with pytest.raises(NoRoom):
        layout.settle([lettered(11, 11)])


def test_what_would_leave_the_room_is_not_drawn_at_all() -> None:
    def drawn() -> Piece:
        pytest.fail("drawn without room")

    layout = Layout(SQUARE, Frame(25, 25))
    with pytest.raises(NoRoom):
        layout.settle([Choice(lettered(40, 10).room, drawn)])


@pytest.mark.parametrize(("width", "beside"), [(19.0, 0.0), (30.0, 11.0)])
def test_a_part_too_wide_with_what_stands_beside_it_is_refused_at_once(width: float, beside: float) -> None:
    with pytest.raises(NoRoom):
        Layout(SQUARE, Frame(width, 60), beside)
