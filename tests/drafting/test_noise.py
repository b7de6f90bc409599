"""29 CFR 1910.95: 95 dBA is allowed for 4 h (table G-16), 85 dBA has 16 h to count with (appendix A, table G-16A)."""

import pytest

from coursepack.drafting.clearance import clashes
from coursepack.drafting.noise import noise_day, noise_measure
from coursepack.drafting.sheet import Drawing, Frame, Mark
from coursepack.place import LessonFault, TradeFault
from tests.drafting.measuring import outline

DAY = {"time_1": 2.0, "level_1": 95.0, "time_2": 4.0, "level_2": 85.0}


def drawn(marks: dict[str, Mark] | None = None, frame: Frame | None = None, **sizes: float) -> Drawing:
    return noise_day(DAY | sizes, marks or {}, frame or Frame())


def axis(drawing: Drawing, at: str) -> dict[int, float]:
    """Each number of an axis and where it stands, across for the hours and up for the levels."""
    ground = min(y for _, y in outline(drawing))
    digits = [label for label in drawing.labels if label.text.isdigit()]
    if at == "hours":
        return {int(label.text): label.x for label in digits if ground - 6 < label.y < ground - 3}
    return {int(label.text): label.y for label in digits if label.align == "right" and label.y > ground - 2}


def test_each_step_is_as_wide_as_its_hours_and_as_high_as_its_level_on_the_axes() -> None:
    drawing = drawn(time_3=0.5, level_3=102.0)
    hours, levels = axis(drawing, "hours"), axis(drawing, "levels")
    hour, level = hours[1] - hours[0], (levels[90] - levels[80]) / 10
    steps = outline(drawing)[1:-1]
    widths = [(steps[n + 1][0] - steps[n][0]) / hour for n in (0, 2, 4)]
    heights = [80 + (steps[n][1] - outline(drawing)[0][1]) / level for n in (0, 2, 4)]
    assert widths == pytest.approx([2.0, 4.0, 0.5])
    assert heights == pytest.approx([95.0, 85.0, 102.0])


def test_the_day_begins_at_hour_zero_and_the_axis_goes_past_its_end() -> None:
    drawing = drawn(time_3=0.5, level_3=102.0)
    hours = axis(drawing, "hours")
    assert outline(drawing)[0][0] == pytest.approx(hours[0])
    assert max(hours) == 7
    assert outline(drawing)[-1][0] == pytest.approx(hours[0] + 6.5 * (hours[1] - hours[0]))


def test_the_table_has_each_mark_in_its_row_and_column() -> None:
    marks = {f"{name}_{n}": Mark(f"{name} {n}") for n in (1, 2) for name in ("time", "level", "allowed")}
    drawing = drawn(marks)
    at = {label.of: (label.x, label.y) for label in drawing.labels if label.of}
    assert at["time_1"][1] == at["level_1"][1] == at["allowed_1"][1] > at["time_2"][1]
    for name, head in (("time", "Time"), ("level", "Level"), ("allowed", "Allowed")):
        (over,) = [label.x for label in drawing.labels if label.text == head]
        assert at[f"{name}_1"][0] == pytest.approx(at[f"{name}_2"][0]) == pytest.approx(over)
    assert at["time_1"][0] < at["level_1"][0] < at["allowed_1"][0]


def test_the_allowed_hours_and_the_dose_are_those_of_the_rule() -> None:
    true = noise_measure(DAY)
    assert (true["allowed_1"], true["allowed_2"]) == pytest.approx((4.0, 16.0))
    assert true["dose"] == pytest.approx(100 * (2 / 4 + 4 / 16))


def test_another_rules_hours_can_be_given() -> None:
    true = noise_measure(DAY | {"allowed_1": 0.8, "allowed_2": 8.0})  # of NIOSH 85 dBA has 8 h
    assert true["allowed_1"] == pytest.approx(0.8)
    assert true["dose"] == pytest.approx(100 * (2 / 0.8 + 4 / 8))


@pytest.mark.parametrize("frame", [Frame(58), Frame(118)], ids=["column", "wide"])
def test_short_steps_keep_their_numbers_apart(frame: Frame) -> None:
    short = {f"{name}_{n}": value for n in (1, 2, 3) for name, value in (("time", 0.25), ("level", 88.0 + n))}
    drawing = noise_day(short | {"time_4": 7.0, "level_4": 92.0}, {}, frame)
    assert clashes(drawing) == []
    numbers = [
        label
        for label in drawing.labels
        if label.y > max(y for _, y in outline(drawing)) and label.text.isdigit()
    ]
    assert [label.text for label in sorted(numbers, key=lambda label: label.x) if label.align != "right"] == [
        "1",
        "2",
        "3",
        "4",
    ]


def test_days_that_are_none_are_faults() -> None:
    with pytest.raises(LessonFault, match="has no 'level_2'"):
        noise_day({"time_1": 2.0, "level_1": 95.0, "time_2": 1.0}, {}, Frame())
    with pytest.raises(LessonFault, match="has no 'time_2'"):
        noise_day({"time_1": 2.0, "level_1": 95.0, "time_3": 1.0, "level_3": 90.0}, {}, Frame())
    with pytest.raises(LessonFault, match="the times are no day's"):
        drawn(time_1=21.0)
    with pytest.raises(TradeFault):
        drawn(level_1=70.0)
