from itertools import pairwise

import pytest

from coursepack.drafting.readings import rule_reading
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.place import LessonFault
from tests.drafting.measuring import scale_of

INCH = 25.4
BLANK = {"reading": Mark("in", "blank")}


def drawn(reading: float, tick: float, frame: Frame | None = None) -> Drawing:
    return rule_reading({"reading": reading, "tick": tick}, BLANK, frame or Frame())


def ticks(drawing: Drawing) -> list[Line]:
    return sorted(line for stroke in drawing.strokes if stroke.kind == "layer" for line in stroke.lines)


def tall(line: Line) -> float:
    return line[0][1] - line[1][1]


def numbers(drawing: Drawing) -> dict[int, float]:
    """Each number on the rule, and where it stands."""
    edge = ticks(drawing)[0][0][1]
    return {int(label.text): label.x for label in drawing.labels if label.text.isdigit() and label.y < edge}


def end_of_part(drawing: Drawing) -> float:
    """Where the part's end meets the rule's edge."""
    part = next(
        line for s in drawing.strokes if s.kind == "outline" for line in s.lines if line[-1][1] < line[-2][1]
    )
    return part[-1][0]


def rule_begins(drawing: Drawing) -> bool:
    """Whether the end of the rule is in view: there it is not broken off."""
    return len([line for s in drawing.strokes if s.kind == "thin" for line in s.lines]) == 1


def read_off(drawing: Drawing, unit: float, per: float) -> float:
    """What a student reads: from a number, or the end of the rule, to the end of the part, counted in ticks."""
    xs = [line[0][0] for line in ticks(drawing)]
    number, x = (0, xs[0]) if rule_begins(drawing) else min(numbers(drawing).items())
    start = min(range(len(xs)), key=lambda n: abs(xs[n] - x))
    end = min(range(len(xs)), key=lambda n: abs(xs[n] - end_of_part(drawing)))
    assert xs[start] == pytest.approx(x)
    assert xs[end] == pytest.approx(end_of_part(drawing))
    return number * per + (end - start) * unit


@pytest.mark.parametrize("frame", [Frame(58), Frame(118)], ids=["column", "wide"])
@pytest.mark.parametrize("part", [16, 32, 64])
def test_every_reading_of_an_inch_rule_is_read_off_by_counting_ticks_from_a_number(
    part: int, frame: Frame
) -> None:
    for marks in range(1, 6 * part, 5):
        drawing = drawn(marks / part * INCH, INCH / part, frame)
        assert read_off(drawing, 1 / part, 1.0) == pytest.approx(marks / part)


@pytest.mark.parametrize("frame", [Frame(58), Frame(118)], ids=["column", "wide"])
@pytest.mark.parametrize("step", [1.0, 0.5])
def test_every_reading_of_a_metric_rule_is_read_off_by_counting_ticks_from_a_number(
    step: float, frame: Frame
) -> None:
    for marks in range(1, round(150 / step), 3):
        drawing = drawn(marks * step, step, frame)
        assert read_off(drawing, step, 1.0) == pytest.approx(marks * step)


@pytest.mark.parametrize(
    ("tick", "per"), [(INCH / 64, INCH), (INCH / 32, INCH), (INCH / 16, INCH), (1.0, 10.0), (0.5, 10.0)]
)
def test_ticks_stand_a_step_apart_at_the_scale_under_the_figure(tick: float, per: float) -> None:
    drawing = drawn(5 * per + 7 * tick, tick, Frame(118))
    xs = [line[0][0] for line in ticks(drawing)]
    gaps = [(b - a) / scale_of(drawing) for a, b in pairwise(xs)]
    assert gaps == pytest.approx([tick] * len(gaps))


def test_ticks_are_the_longer_the_coarser_the_part_of_an_inch() -> None:
    drawing = drawn(INCH / 64, INCH / 64, Frame(118))  # from the end of the rule on
    heights = [tall(line) for line in ticks(drawing)]
    coarse = [heights[n] for n in (0, 32, 16, 8, 4, 2, 1)]
    assert coarse == sorted(coarse, reverse=True)
    assert len(set(coarse)) == 7
    assert heights[48] == heights[16]
    assert heights[3] == heights[1]


def test_every_fifth_and_every_tenth_millimetre_is_longer() -> None:
    heights = [tall(line) for line in ticks(drawn(3.0, 0.5))]
    assert heights[0] == heights[20] > heights[10] > heights[2] > heights[1]


def test_a_short_part_lies_at_the_end_of_the_rule_and_a_long_one_is_broken_off() -> None:
    short, long = drawn(0.75 * INCH, INCH / 32), drawn(4.75 * INCH, INCH / 32)
    torn = [[line for s in each.strokes if s.kind == "thin" for line in s.lines] for each in (short, long)]
    assert [len(lines) for lines in torn] == [1, 3]
    assert (end_of_part(short) - ticks(short)[0][0][0]) / scale_of(short) == pytest.approx(0.75 * INCH)


def test_the_reading_is_asked_under_the_rule_and_told_nowhere() -> None:
    drawing = drawn(4.34375 * INCH, INCH / 32)
    assert [label.hand for label in drawing.labels if label.of] == ["blank"]
    assert "11" not in drawing.alt
    assert "Reading: to be found." in drawing.alt


def test_a_rule_that_is_not_made_and_a_reading_between_ticks_are_faults() -> None:
    with pytest.raises(LessonFault, match="no steel rule has a tick every 2 mm"):
        drawn(10.0, 2.0)
    with pytest.raises(LessonFault, match="does not lie on a tick"):
        drawn(4.34375 * INCH, INCH / 16)
    with pytest.raises(LessonFault, match="does not lie on a tick"):
        drawn(0.0, 1.0)
