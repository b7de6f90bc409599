"""The end of an edge-grained piece, standing: growth rings to be counted over a measured span across them."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import accumulate, count, cycle, islice, takewhile
from math import sqrt

from coursepack.drafting.dimension import Linear, Side, Spacing, arrowhead
from coursepack.drafting.label import centred, label_box
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.placing import ways
from coursepack.drafting.rings import SPACINGS_MM
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.trade.outline import rectangle

TALLEST_MM = 135.0  # on paper, of the section
LEAST_RING_MM = 1.1  # on paper, on the average: closer rings cannot be counted
PITH_AWAY = 3.0  # times the section's height, below it
CHORDS = 12
WORD = "RINGS"
TICK_MM = 2.2  # to either side of the line to count along, at its ends
LEADER_MM = 5.5
NOTE = "count the rings that the line between the ticks crosses"


def ring_count(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a section on end with exactly as many growth rings inside its span as are given.

    Sizes in mm and counts: wide (across the rings), thick, span, rings (a whole number). The span lies in the middle
    of wide and ends between two rings. Raises LessonFault where it does not fit, the span is longer than the
    section, the rings are no whole number from 1, or a dimension is asked that this figure does not have.
    """
    refuse_missing("ring count", marks, ring_measure(sizes))
    if not 0 < sizes["span"] <= sizes["wide"]:
        raise LessonFault("the span to be counted leaves the section", "give span up to wide")
    if sizes["rings"] < 1 or sizes["rings"] != round(sizes["rings"]):
        raise LessonFault(f"{sizes['rings']:g} rings cannot be counted", "give a whole number from 1")
    fitted = at_scale(
        "ring count",
        lambda by, room, spacing: _draft(_end(sizes, by), marks, room, spacing),
        frame,
        sizes["wide"],
        lambda _: NOTE,
    )
    return finished("Growth rings on end grain", fitted, frame, _alt(marks), lambda _: NOTE)


def ring_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm, and the number of rings."""
    return {name: sizes[name] for name in ("wide", "thick", "span", "rings")}


@dataclass(frozen=True)
class End:
    """A section on paper in mm: it stands on y = 0 with the line to count along at x = 0."""

    wide: float
    thick: float
    span: float
    rings: int

    @property
    def low(self) -> float:
        """Where the span begins."""
        return (self.wide - self.span) / 2

    @property
    def right(self) -> float:
        """Where the section ends."""
        return self.thick / 2

    @property
    def pith(self) -> float:
        """How far the pith lies below the section."""
        return PITH_AWAY * self.wide

    @cached_property
    def heights(self) -> tuple[float, ...]:
        """Where rings cross the line to count along: each in the middle of its year, the years filling the span."""
        pattern = list(islice(cycle(SPACINGS_MM), self.rings))
        years = [each * self.span / sum(pattern) for each in pattern]
        ends = accumulate(years[:-1], initial=self.low)
        inside = [end + year / 2 for end, year in zip(ends, years, strict=True)]
        mean = self.span / self.rings
        below = takewhile(lambda y: y > 0, (self.low - mean * (n + 0.5) for n in count()))
        top = self.low + self.span
        above = takewhile(lambda y: y < self.wide + self.sag, (top + mean * (n + 0.5) for n in count()))
        return (*below, *inside, *above)

    @property
    def sag(self) -> float:
        """More than a ring falls from the middle of the section to its sides."""
        return self.right**2 / self.pith


def _end(sizes: Mapping[str, float], by: float) -> End:
    wide, thick, span = (sizes[name] * by for name in ("wide", "thick", "span"))
    return End(wide, thick, span, round(sizes["rings"]))


def _draft(end: End, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    if end.wide > TALLEST_MM or end.span / end.rings < LEAST_RING_MM:
        raise NoRoom
    corners = rectangle(end.thick, end.wide, (0.0, end.wide / 2))
    section = Piece((Stroke("outline", ((*corners, corners[0]),)), Stroke("dimension", _span_line(end))))
    layout = Layout(
        section + _ring_note(end, marks, spacing), room, spacing.beside("wide" in marks, "span" in marks)
    )
    for choices in _dimensions(end, marks, spacing):
        layout.settle(choices)
    return layout.piece + Piece((Stroke("thin", tuple(_rings(end))),))


def _span_line(end: End) -> tuple[Line, ...]:
    """Give the line to count along and a tick at either end of it."""
    low, high = end.low, end.low + end.span
    ticks = tuple(((-TICK_MM, y), (TICK_MM, y)) for y in (low, high))
    return (((0.0, low), (0.0, high)), *ticks)


def _rings(end: End) -> Iterator[Line]:
    """Give the arc of each ring about the pith, as far as it lies in the section."""
    for height in end.heights:
        radius = end.pith + height
        inner, outer = (sqrt(max(0.0, radius**2 - (end.pith + y) ** 2)) for y in (end.wide, 0.0))
        reach = min(outer, end.right)
        if inner >= reach:
            continue
        for left, right in ((-reach, -inner), (inner, reach)) if inner else ((-reach, reach),):
            xs = (left + (right - left) * n / CHORDS for n in range(CHORDS + 1))
            yield tuple((x, sqrt(radius**2 - x**2) - end.pith) for x in xs)


def _ring_note(end: End, marks: Mapping[str, Mark], spacing: Spacing) -> Piece:
    """Letter the number of rings over the section, with an arrow to it."""
    if "rings" not in marks:
        return Piece()
    mark = marks["rings"]
    lettered = replace(mark, text=WORD if mark.hand == "blank" else f"{mark.text} {WORD}")
    tall = label_box(centred(lettered, (0, 0), spacing.letter)).height
    label = centred(lettered, (0.0, end.wide + LEADER_MM + tall / 2), spacing.letter, "rings")
    tip, foot = (0.0, end.wide), (0.0, end.wide + LEADER_MM - 0.5)
    return Piece((Stroke("dimension", ((foot, tip),)),), (arrowhead(tip, (0, -1), "rings"),), (label,))


def _dimensions(end: End, marks: Mapping[str, Mark], spacing: Spacing) -> Iterator[Iterator[Choice]]:
    right, low, high = end.right, end.low, end.low + end.span
    places: tuple[tuple[str, Side, tuple[Point, Point], float], ...] = (
        ("span", "right", ((right, low), (right, high)), right),
        ("wide", "left", ((-right, 0.0), (-right, end.wide)), -right),
        ("thick", "below", ((-right, 0.0), (right, 0.0)), 0.0),
    )
    for name, side, ends, line in places:
        if name in marks:
            yield ways(Linear(name, marks[name], side, ends, line, spacing))


def _alt(marks: Mapping[str, Mark]) -> str:
    names = {
        "wide": "width across the rings", "thick": "thickness", "span": "span in which rings are counted",
        "rings": "rings in the span",
    }  # fmt: skip
    return f"End grain of an edge-grained piece, with a span marked across its growth rings. {listed(names, marks)}"
