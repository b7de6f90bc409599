"""The blank that an answer is written on: wide enough for its kind, and the same whatever the answer."""

from dataclasses import replace
from math import dist

import pytest

from coursepack.drafting.catalogue import FIGURES
from coursepack.drafting.ink import svg
from coursepack.drafting.label import BOX_PAD_MM, label_box, label_lines, label_start, question_label
from coursepack.drafting.lettering import width_em
from coursepack.drafting.part import Sizes
from coursepack.drafting.ring_count import ring_count
from coursepack.drafting.sheet import LETTER_MM, TIGHT_MM, Drawing, Frame, Hand, Label, Mark
from tests.drafting.draws import COLUMN, WIDE, draw
from tests.drafting.measuring import words

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


ASKED = [("in", LETTER_MM), ("°", TIGHT_MM), ("", LETTER_MM), ("RINGS", TIGHT_MM), ("mm", TIGHT_MM)]


def lettered(unit: str, size_mm: float, letter: str) -> Label:
    return replace(label(unit, "blank", size_mm), question=letter)


@pytest.mark.parametrize("letter", ["a", "g", "m"])
@pytest.mark.parametrize(("unit", "size_mm"), ASKED)
def test_the_letter_of_a_question_stands_over_the_beginning_of_the_rule_inside_the_room_of_the_blank(
    unit: str, size_mm: float, letter: str
) -> None:
    blank = lettered(unit, size_mm, letter)
    ((start, end),) = label_lines(blank)
    small = question_label(blank)
    assert small is not None
    room = label_box(small)
    assert small.text == letter
    assert room.left == pytest.approx(start[0])
    assert room.bottom > start[1]
    assert label_box(blank).holds(room)
    assert room.width < (end[0] - start[0]) / 3  # the rest of the rule is to write on


@pytest.mark.parametrize(("unit", "size_mm"), ASKED)
def test_a_blank_takes_the_same_room_and_rule_with_and_without_the_letter_of_its_question(
    unit: str, size_mm: float
) -> None:
    with_letter, without = (lettered(unit, size_mm, letter) for letter in ("b", ""))
    for told in (label_box, label_lines, label_start):
        assert told(with_letter) == told(without)


def test_only_the_blank_of_one_of_several_questions_has_a_letter() -> None:
    assert question_label(label("in", "blank")) is None
    for hand in ("answer", "print", "title"):
        assert question_label(replace(label("24\u00a0in", hand), question="a")) is None


@pytest.mark.parametrize("frame", [COLUMN, WIDE], ids=["column", "wide"])
@pytest.mark.parametrize("name", FIGURES)
def test_a_figure_letters_the_blank_of_each_question_once_and_changes_nothing_else(
    name: str, frame: Frame
) -> None:
    for seed in range(8):
        _, sizes, marks, _ = draw(name, seed)
        blank = [part for part, each in marks.items() if each.hand == "blank"]
        asked = {
            part: replace(marks[part], question=letter) for part, letter in zip(blank, "abc", strict=False)
        }
        plain, told = (FIGURES[name].draw(sizes, each, frame) for each in (marks, marks | asked))
        found = [small.text for each in told.labels if (small := question_label(each))]
        assert sorted(found) == sorted(each.question for each in asked.values())
        assert (told.strokes, told.fills) == (plain.strokes, plain.fills)
        assert [replace(each, question="") for each in told.labels] == list(plain.labels)
        for each in asked.values():
            assert told.alt.count(f"to be found, question {each.question}.") == 1


def test_the_letter_is_inked_on_the_sheet_and_not_in_the_key() -> None:
    sheet, key = (
        svg(counted(replace(mark, question="q"), 24)) for mark in (Mark("", "blank"), Mark("24", "answer"))
    )
    assert words(sheet).count("q") == 1
    assert "q" not in words(key)
