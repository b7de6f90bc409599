"""The blank that an answer is written on: wide enough for its kind, and the same whatever the answer."""

from math import dist

import pytest

from coursepack.drafting.label import BOX_PAD_MM, label_box, label_lines, label_start
from coursepack.drafting.lettering import width_em
from coursepack.drafting.part import Sizes
from coursepack.drafting.ring_count import ring_count
from coursepack.drafting.sheet import LETTER_MM, TIGHT_MM, Drawing, Frame, Hand, Label, Mark

MIXED, ANGLE, COUNT = "in", "°", ""
RING = {"wide": 60.0, "thick": 20.0, "span": 50.8}


def label(text: str, hand: Hand, size_mm: float = LETTER_MM) -> Label:
    return Label(text, 20.0, 20.0, hand=hand, size_mm=size_mm)


def rule(unit: str) -> float:
    """The rule of a blank, as it is drawn."""
    ((start, end),) = label_lines(label(unit, "blank"))
    return dist(start, end)


def test_a_count_has_less_room_to_be_written_in_than_an_angle_and_an_angle_less_than_a_mixed_inch() -> None:
    assert rule(COUNT) == rule("RINGS") < rule(ANGLE) < rule(MIXED) == rule("mm")
    # a figure written by hand is some 3 mm wide: two figures; 12.5; 4 11/32 with its fraction stacked
    assert rule(COUNT) >= 2 * 3
    assert rule(ANGLE) >= 3 * 3
    assert rule(MIXED) >= 4 * 3


@pytest.mark.parametrize("size_mm", [LETTER_MM, TIGHT_MM])
@pytest.mark.parametrize(
    ("unit", "answers"),
    [
        (COUNT, ["1", "7", "12", "88", "160"]),
        ("RINGS", ["6 RINGS", "24 RINGS"]),
        (ANGLE, ["3°", "12.5°", "4.764°", "-8.8°"]),
        (MIXED, ["1\u00a0in", "3⁄4\u00a0in", "4\u202f63⁄64\u00a0in"]),
        (":", ["1:8", "1:12", "1:15"]),
        ("%", ["9\u00a0%", "108\u00a0%"]),
    ],
)
def test_a_blank_and_every_answer_of_its_kind_take_the_same_room(
    unit: str, answers: list[str], size_mm: float
) -> None:
    blank = label_box(label(unit, "blank", size_mm))
    for answer in answers:
        room = label_box(label(answer, "answer", size_mm))
        assert (room.left, room.right) == pytest.approx((blank.left, blank.right)), answer


@pytest.mark.parametrize("unit", [COUNT, ANGLE, MIXED, "RINGS", "%"])
def test_the_unit_stands_past_the_end_of_the_rule_and_ends_with_the_room(unit: str) -> None:
    blank = label(unit, "blank")
    ((_, (end, _)),) = label_lines(blank)
    assert label_start(blank)[0] > end
    right = max(end, label_start(blank)[0] + width_em(unit) * LETTER_MM if unit else end)
    assert right == pytest.approx(label_box(blank).right)


def test_an_answer_is_boxed_in_the_middle_of_its_room() -> None:
    answer = label("24", "answer")
    (line,) = label_lines(answer)
    left, right = min(x for x, _ in line), max(x for x, _ in line)
    room = label_box(answer)
    assert left - room.left == pytest.approx(room.right - right)
    assert right - left == pytest.approx(width_em("24", bold=True) * LETTER_MM + 2 * BOX_PAD_MM)


def counted(answer: Mark, rings: float) -> Drawing:
    marks = {"span": Mark("2\u00a0in"), "rings": answer}
    return ring_count(Sizes(RING | {"rings": rings}), marks, Frame(118, 190))


def test_the_blank_of_a_count_is_the_same_on_every_sheet_and_its_key() -> None:
    rooms = []
    for rings in (9, 12, 36):
        for mark in (Mark("", "blank"), Mark(f"{rings}", "answer")):
            (found,) = [each for each in counted(mark, rings).labels if each.of == "rings"]
            rooms.append(label_box(found))
    assert len({round(room.width, 6) for room in rooms}) == 1
