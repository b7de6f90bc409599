"""A day's noise: its levels as steps over the hours, and under them each time, level and allowed time."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from math import ceil, floor

from coursepack.drafting.dimension import Spacing
from coursepack.drafting.entries import PITCH_MM, entries
from coursepack.drafting.label import centred, label_box
from coursepack.drafting.lettering import MIDDLE_EM, width_em
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.scale import finished, without_scale
from coursepack.drafting.settling import NoRoom
from coursepack.drafting.sheet import SMALL_MM, Drawing, Frame, Label, Line, Mark, Piece, Stroke
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.quantity import Quantity
from coursepack.trade.hearing import noise_hours

MOST = 4  # steps of a day
CHART_MM = 36.0  # on paper, height of the steps' ground
WIDEST_MM = 80.0  # on paper, of the hours
AXIS_MM = 7.0  # left of the hours, for the levels
EVERY_DB = 10  # from one lettered level to the next
TABLE_MM = -9.5  # where it begins, from the ground of the chart
STEP_MM = 2.0  # of the column with the numbers of the steps
HEAD_MM = 5.0  # of the table's head
ROW_MM = 5.4  # of a row in which nothing is asked
APART_MM = 1.0, 5.0  # between the table's columns, at least and at most
NUMBER_MM = 2.8  # from the number of one step to that of the next, at least
COLUMNS = {"time": "Time", "level": "Level", "allowed": "Allowed"}

Size = tuple[float, float]  # an hour across and a decibel up, on paper in mm


@dataclass(frozen=True)
class Day:
    """Hours spent at each level in dBA, one after the other, and the hours allowed at each."""

    hours: tuple[float, ...]
    levels: tuple[float, ...]
    allowed: tuple[float, ...]

    @property
    def starts(self) -> tuple[float, ...]:
        """The hour at which each step begins, and the last one ends."""
        return (0.0, *accumulate(self.hours))

    @property
    def lowest(self) -> int:
        """The level of the ground line: a lettered one, some way under all steps."""
        return EVERY_DB * floor((min(self.levels) - 4) / EVERY_DB)

    @property
    def highest(self) -> int:
        """The lettered level over all steps."""
        return EVERY_DB * ceil((max(self.levels) + 1) / EVERY_DB)

    @property
    def dose(self) -> float:
        """The dose of the day in percent of the allowed one: 29 CFR 1910.95, appendix A, I(1)."""
        return 100 * sum(hours / allowed for hours, allowed in zip(self.hours, self.allowed, strict=True))


def noise_day(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a day's noise, with a table of its times, levels and allowed times, and its dose.

    Sizes in hours and dBA: time_1 and level_1, up to 4 of both, and where another rule than OSHA's is used the
    hours allowed_1 … of each. Raises LessonFault where they do not go together, where it does not fit, and for a
    dimension that it does not have; TradeFault for a level that has no allowed time.
    """
    refuse_missing("day of noise", marks, noise_measure(sizes))
    day = _day(sizes)
    fitted = without_scale("noise day", lambda room, spacing: _draft(day, marks, room, spacing), frame)
    return finished("A day's noise", fitted, frame, _alt(day, marks))


def noise_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension: hours, levels in dBA, allowed hours, the dose in percent."""
    day = _day(sizes)
    true: dict[str, float] = {}
    for number, step in enumerate(zip(day.hours, day.levels, day.allowed, strict=True), 1):
        true |= {f"{name}_{number}": value for name, value in zip(COLUMNS, step, strict=True)}
    return true | {"dose": day.dose}


def _day(sizes: Mapping[str, float]) -> Day:
    numbers = [number for number in range(1, MOST + 1) if {f"time_{number}", f"level_{number}"} & set(sizes)]
    for name in (f"{what}_{number}" for number in range(1, len(numbers) + 1) for what in ("time", "level")):
        if name not in sizes:
            raise LessonFault(
                f"this day of noise has no '{name}'", "give each step a time and a level, in order"
            )
    hours = tuple(sizes[f"time_{number}"] for number in numbers)
    levels = tuple(sizes[f"level_{number}"] for number in numbers)
    if min(hours) <= 0 or sum(hours) > 24 + 1e-9:
        raise LessonFault("the times are no day's", "give times above zero, 24 h at most together")
    allowed = tuple(
        sizes.get(f"allowed_{number}") or _allowed(level)
        for number, level in zip(numbers, levels, strict=True)
    )
    return Day(hours, levels, allowed)


def _allowed(level: float) -> float:
    """Return the hours that OSHA allows at a level in dBA."""
    return float(noise_hours(Quantity.of(level, "dBA")).number("h"))


def _draft(day: Day, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    across = min(WIDEST_MM, room.width - AXIS_MM - 3.0)
    size = across / max(1, ceil(day.starts[-1] - 1e-9)), CHART_MM / (day.highest - day.lowest)
    if across <= 0 or min(day.hours) * size[0] < 1.0:
        raise NoRoom
    chart = _ground(day, across, size) + _steps(day, size) + Piece(labels=tuple(_axes(day, across, size)))
    table, low = _table(day, marks, (across - AXIS_MM) / 2, room, spacing)
    return chart + table + entries({"dose": "Dose"}, marks, (across - AXIS_MM) / 2 - 5.0, low, spacing)


def _ground(day: Day, across: float, size: Size) -> Piece:
    """Draw the axes, and a faint line at each lettered level."""
    levels = tuple(((0.0, y), (across, y)) for _, y in _levels(day, size) if y)
    ticks = tuple(
        ((hour * size[0], 0.0), (hour * size[0], -1.2)) for hour in range(round(across / size[0]) + 1)
    )
    axes: Line = (0.0, CHART_MM), (0.0, 0.0), (across, 0.0)
    return Piece((Stroke("ring", levels), Stroke("thin", (axes, *ticks))))


def _levels(day: Day, size: Size) -> Iterator[tuple[int, float]]:
    for level in range(day.lowest, day.highest + 1, EVERY_DB):
        yield level, (level - day.lowest) * size[1]


def _steps(day: Day, size: Size) -> Piece:
    """Draw the steps as one line, down to the ground between them, with their numbers over the chart."""
    xs = [hour * size[0] for hour in day.starts]
    ys = [(level - day.lowest) * size[1] for level in day.levels]
    top = [(x, y) for (left, right), y in zip(pairwise(xs), ys, strict=True) for x in (left, right)]
    outline = (xs[0], 0.0), *top, (xs[-1], 0.0)
    between = tuple(
        ((x, 0.0), (x, min(low, high))) for x, (low, high) in zip(xs[1:], pairwise(ys), strict=False)
    )
    numbers = [
        centred(Mark(str(number)), (x, CHART_MM + 3.4), SMALL_MM)
        for number, x in enumerate(_spread([(a + b) / 2 for a, b in pairwise(xs)]), 1)
    ]
    return Piece((Stroke("outline", (outline,)), Stroke("thin", between)), (), tuple(numbers))


def _spread(xs: Sequence[float]) -> list[float]:
    """Move places apart, to the right, until a number fits at each."""
    return list(accumulate(xs, lambda before, x: max(x, before + NUMBER_MM)))


def _axes(day: Day, across: float, size: Size) -> Iterator[Label]:
    """Letter the levels and the hours, and what both count."""
    for level, y in _levels(day, size):
        yield Label(str(level), -1.2, y - MIDDLE_EM * SMALL_MM, "right", size_mm=SMALL_MM)
    every = next(n for n in (1, 2, 4, 6, 12) if n * size[0] >= 5.0 or n == 12)
    for hour in range(0, round(across / size[0]) + 1, every):
        yield Label(str(hour), hour * size[0], -4.2, size_mm=SMALL_MM)
    yield Label("dBA", -AXIS_MM, CHART_MM + 2.4, "left", size_mm=SMALL_MM)
    yield Label("hours", across / 2, -7.8, size_mm=SMALL_MM)


def _table(
    day: Day, marks: Mapping[str, Mark], middle: float, room: Frame, spacing: Spacing
) -> tuple[Piece, float]:
    """Letter the marks of each step in a row, in columns about a middle line; return also where the table ends."""
    columns = [name for name in COLUMNS if any(f"{name}_{step}" in marks for step in range(1, MOST + 1))]
    if not columns:
        return Piece(), TABLE_MM
    places, (left, right) = _columns(columns, marks, middle, room, spacing)
    labels = [
        centred(Mark(COLUMNS[name]), (places[name], TABLE_MM - HEAD_MM / 2), SMALL_MM) for name in columns
    ]
    low = TABLE_MM - HEAD_MM
    line = (left, low), (right, low)
    for step in range(1, len(day.hours) + 1):
        row = {name: marks[f"{name}_{step}"] for name in columns if f"{name}_{step}" in marks}
        tall = ROW_MM if all(mark.hand == "print" for mark in row.values()) else PITCH_MM
        labels.append(Label(str(step), left, low - tall / 2 - MIDDLE_EM * SMALL_MM, "left", size_mm=SMALL_MM))
        labels += [
            centred(mark, (places[name], low - tall / 2), spacing.letter, f"{name}_{step}")
            for name, mark in row.items()
        ]
        low -= tall
    return Piece((Stroke("thin", (line,)),), (), tuple(labels)), low - 0.5


def _columns(
    columns: Sequence[str], marks: Mapping[str, Mark], middle: float, room: Frame, spacing: Spacing
) -> tuple[dict[str, float], tuple[float, float]]:
    """Return the middle of each column, as far apart as there is room for, and the ends of the table."""
    widths = [STEP_MM, *(_width(name, marks, spacing) for name in columns)]
    apart = min(APART_MM[1], (room.width - sum(widths)) / len(columns))
    if apart < APART_MM[0]:
        raise NoRoom
    total = sum(widths) + apart * len(columns)
    left = middle - total / 2
    starts = accumulate((width + apart for width in widths[:-1]), initial=left)
    places = [start + width / 2 for start, width in zip(starts, widths, strict=True)]
    return dict(zip(columns, places[1:], strict=True)), (left, left + total)


def _width(column: str, marks: Mapping[str, Mark], spacing: Spacing) -> float:
    """Return the width of a column in mm: of its head or its widest mark."""
    shown = [marks[name] for name in (f"{column}_{step}" for step in range(1, MOST + 1)) if name in marks]
    rooms = [label_box(centred(mark, (0.0, 0.0), spacing.letter)).width for mark in shown]
    return max(*rooms, width_em(COLUMNS[column]) * SMALL_MM)


def _alt(day: Day, marks: Mapping[str, Mark]) -> str:
    names = {
        f"{name}_{step}": f"{said} {step}"
        for step in range(1, len(day.hours) + 1)
        for name, said in (("time", "time"), ("level", "level"), ("allowed", "allowed time at level"))
    } | {"dose": "dose of the day"}
    steps = f"{len(day.hours)} steps" if len(day.hours) > 1 else "one step"
    return f"A day's noise as {steps} over its hours, each as high as its level. {listed(names, marks)}"
