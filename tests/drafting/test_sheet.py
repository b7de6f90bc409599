import pytest

from coursepack.drafting.clearance import bounds, clashes, crosses
from coursepack.drafting.label import centred, label_box, label_lines
from coursepack.drafting.sheet import PENS, Box, Drawing, Fill, Label, Mark, Piece, Stroke


def drawing(
    strokes: tuple[Stroke, ...] = (), labels: tuple[Label, ...] = (), fills: tuple[Fill, ...] = ()
) -> Drawing:
    return Drawing(100, 100, "1:1", strokes, fills, labels, "")


def test_a_blank_leaves_room_to_write_over_its_rule_and_its_unit_beside_it() -> None:
    label = centred(Mark("in", "blank"), (50, 50))
    box = label_box(label)
    ((start, end),) = label_lines(label)
    assert end[0] - start[0] >= 13
    assert box.top - start[1] >= 7
    assert box.right > end[0] + 2


def test_an_answer_takes_no_less_room_than_the_blank_it_fills() -> None:
    blank = label_box(centred(Mark("in", "blank"), (50, 50)))
    answer = label_box(centred(Mark("4 in", "answer"), (50, 50)))
    assert answer.width == pytest.approx(blank.width)
    assert answer.height == pytest.approx(blank.height)


def test_turned_lettering_takes_a_turned_room() -> None:
    level = label_box(Label("GRAIN", 50, 50, "left"))
    upright = label_box(Label("GRAIN", 50, 50, "left", 90))
    assert (upright.width, upright.height) == pytest.approx((level.height, level.width))


def test_labels_that_overlap_are_told() -> None:
    assert clashes(drawing(labels=(Label("one", 50, 50), Label("two", 51, 51)))) == ["'two' overlaps 'one'"]


def test_a_line_through_a_label_is_told() -> None:
    found = clashes(drawing((Stroke("thin", (((40, 50.5), (60, 51)),)),), (Label("one", 50, 50),)))
    assert found == ["a thin line runs through 'one'"]


def test_an_arrowhead_on_a_label_is_told() -> None:
    found = clashes(
        drawing(labels=(Label("one", 50, 50),), fills=(Fill(((50, 51), (53, 51.5), (53, 50.5))),))
    )
    assert found == ["an arrowhead runs through 'one'"]


def test_what_leaves_the_frame_is_told() -> None:
    assert clashes(drawing(labels=(Label("one", 0, 50),))) == ["something leaves the frame"]


def test_a_clean_drawing_has_no_clash() -> None:
    assert (
        clashes(
            drawing((Stroke("thin", (((40, 60), (60, 60)),)),), (Label("one", 50, 50), Label("two", 50, 40)))
        )
        == []
    )


@pytest.mark.parametrize(
    ("line", "meets"),
    [
        (((0, 5), (20, 5)), 1),
        (((5, 5), (6, 6)), 1),
        (((0, 9), (9, 20)), 0),
        (((0, 0), (0, 20)), 0),
        (((0, 10), (20, 10)), 0),
        (((5, -5), (5, 30)), 1),
    ],
)
def test_a_line_crosses_a_box_only_where_it_enters_it(
    line: tuple[tuple[float, float], ...], meets: int
) -> None:
    assert crosses(line, Box(2, 2, 10, 10)) == bool(meets)


def test_a_piece_keeps_its_size_when_it_is_moved() -> None:
    piece = Piece(
        (Stroke("thin", (((0, 0), (3, 4)),)),), (Fill(((1, 1), (2, 2), (2, 1))),), (Label("x", 0, 0),)
    )
    before, after = bounds(piece), bounds(piece.moved(10, -5))
    assert after == pytest.approx((before.left + 10, before.bottom - 5, before.right + 10, before.top - 5))


def test_thick_lines_are_twice_the_thin_ones_and_every_line_prints() -> None:
    assert PENS["outline"].width_mm == 2 * PENS["thin"].width_mm == 0.6
    assert {pen.colour for pen in PENS.values()} == {"#000000", "#808080"}
