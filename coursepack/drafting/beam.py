"""A beam under its load: how its ends are held, the load, and the line that it takes, drawn larger than it is."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, partial
from math import ceil, isclose

from coursepack.drafting.beam_supports import HELD_MM, pin, roller, wall
from coursepack.drafting.dimension import GAP_MM, OVERRUN_MM, Linear, Spacing, arrowhead
from coursepack.drafting.label import centred, label_box, label_start
from coursepack.drafting.lettering import width_em
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.placing import ways
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout
from coursepack.drafting.sheet import Drawing, Frame, Label, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.trade.beam_line import Ends, deflection_at

TENS = tuple(
    part * power for power in (10, 100, 1000) for part in (1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0)
)
TIMES = (1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, *TENS)  # what a deflection is drawn larger by
SEEN_MM = 8.0  # on paper: a smaller deflection is drawn larger
DEEP_MM = 3.0  # on paper, of any beam
OVERHANG_MM = 1.5
POINT_MM, UNIFORM_MM = 13.0, 7.0  # on paper, the length of a load's arrows
ARROWS_MM = 5.0  # from arrow to arrow of a uniform load, at most
ROW_MM = 6.5  # from the beam up to the dimension of the load's place
ABOVE_MM = 1.2  # from a load's arrows up to its lettering
BETWEEN_MM = 1.0
BESIDE_MM = 4.0  # from the free end of a cantilever to the dimension of its deflection
CHORDS = 48
ROWS = 4  # under the beam: the lettering of the deflection may take the first ones
HELD: tuple[Ends, ...] = ("supported", "cantilever", "clamped")  # by the number of ends that are built in


@dataclass(frozen=True)
class Beam:
    """A beam of a true length in mm: how its ends are held, and where along it equal loads stand, if any do."""

    span: float
    ends: Ends
    loads: tuple[float, ...]
    read_at: float

    def sag(self, at: float) -> float:
        """The deflection at a place in mm from the left end, as a share of that which is read."""
        places = tuple(load / self.span for load in self.loads)
        read = deflection_at(self.read_at / self.span, self.ends, places)
        return deflection_at(at / self.span, self.ends, places) / read


def beam(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a beam, its load, and the line of its underside once loaded, dashed.

    Sizes in mm, N and counts: span, deflection; load; load_at, its distance from the left end (without it the load
    is uniform); loads, 2 for another one as far from the right end; clamped, how many ends are built in, 1 for a
    cantilever; read_at, where the deflection is measured (else at midspan, or the free end). Raises LessonFault
    where it does not fit, there is no such beam, or a dimension is asked that it does not have.
    """
    refuse_missing("beam", marks, beam_measure(sizes))
    found = beam_of(sizes)

    def note(scale: Fraction) -> str:
        times = sag_times(sizes, float(scale))
        larger = f"deflection drawn {times:g} times as large, " if times > 1 else ""
        return f"{larger}depth not to scale"

    def draft(scale: float, room: Frame, spacing: Spacing) -> Piece:
        sag = sizes["deflection"] * sag_times(sizes, scale) * scale
        return _draft(View(found, scale, sag), marks, room, spacing)

    fitted = at_scale("beam", draft, frame, sizes["span"], note)
    times = sag_times(sizes, float(fitted.scale))
    return finished("Beam under load", fitted, frame, _alt(found, marks, times), note)


def beam_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension: mm, and N for the whole load; read_at only where no load stands."""
    found = beam_of(sizes)
    names = (name for name in ("load", "load_at") if name in sizes)
    true = {name: sizes[name] for name in ("span", "deflection", *names)}
    if "read_at" in sizes and not any(isclose(found.read_at, load) for load in found.loads):
        true["read_at"] = found.read_at
    return true


def beam_of(sizes: Mapping[str, float]) -> Beam:
    """Return the beam of the sizes; raises LessonFault where there is no such beam."""
    span, clamped = sizes["span"], sizes.get("clamped", 0.0)
    if clamped not in range(len(HELD)):
        raise LessonFault(f"{clamped:g} ends of the beam are built in", "clamped must be 0, 1 or 2")
    ends = HELD[round(clamped)]
    read_at = sizes.get("read_at", span if ends == "cantilever" else span / 2)
    if not 0 < read_at <= span or (read_at == span and ends != "cantilever"):
        raise LessonFault("the deflection is read where the beam has none", "give read_at inside the span")
    if sizes["deflection"] <= 0 or span <= 0:
        raise LessonFault("a beam needs a span and a deflection above zero", "give sizes above zero")
    return Beam(span, ends, _loads(sizes, ends), read_at)


def _loads(sizes: Mapping[str, float], ends: Ends) -> tuple[float, ...]:
    """Return where the loads stand, in mm from the left end; none for a uniform load."""
    span, number = sizes["span"], sizes.get("loads", 1.0)
    if "load_at" not in sizes:
        return ()
    at = sizes["load_at"]
    if number == 1 and 0 < at <= span and (at < span or ends == "cantilever"):
        return (at,)
    if number == 2 and 0 < at < span / 2 and ends != "cantilever":
        return (at, span - at)
    raise LessonFault(
        f"the beam cannot bear {number:g} loads so placed",
        "give one load inside the span, or two with load_at in its first half",
    )


def sag_times(sizes: Mapping[str, float], scale: float) -> float:
    """How many times as large the deflection is drawn at a scale: 1 where it shows as it is."""
    drawn = sizes["deflection"] * scale
    return next((times for times in TIMES if times * drawn >= SEEN_MM), TIMES[-1])


@dataclass(frozen=True)
class View:
    """A beam on paper in mm, its underside at y = 0 and its left end at x = 0, and how far it sags where it is read."""

    beam: Beam
    by: float
    sag: float

    @cached_property
    def span(self) -> float:
        """Its span."""
        return self.beam.span * self.by

    @cached_property
    def read(self) -> Point:
        """Where its deflection is read on the loaded underside."""
        return self.beam.read_at * self.by, -self.sag

    @cached_property
    def line(self) -> Line:
        """Its underside once it is loaded."""
        places = (self.beam.span * number / CHORDS for number in range(CHORDS + 1))
        return tuple((at * self.by, -self.sag * self.beam.sag(at)) for at in places)

    @cached_property
    def tops(self) -> tuple[float, ...]:
        """Where the arrows of its load stand."""
        if self.beam.loads:
            return tuple(at * self.by for at in self.beam.loads)
        gaps = ceil(self.span / ARROWS_MM)
        return tuple(self.span * number / gaps for number in range(gaps + 1))

    @cached_property
    def load_height(self) -> float:
        """How high the arrows of its load reach."""
        return DEEP_MM + (POINT_MM if self.beam.loads else UNIFORM_MM)


def _draft(view: View, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    layout = Layout(_held(view) + _load(view) + _lettered_load(view, marks, spacing), room)
    if "deflection" in marks:
        layout.settle(_deflection_ways(view, marks["deflection"], spacing))
    if "load_at" in marks:
        layout.settle(_load_at_ways(view, marks["load_at"], spacing))
    for name, end in (("read_at", view.read[0]), ("span", view.span)):
        if name in marks:
            layout.settle(_along_ways(name, view, end, marks[name], spacing))
    return layout.piece


def _held(view: View) -> Piece:
    """Draw the beam thick, its loaded underside dashed, and what holds its ends."""
    is_built_in = view.beam.ends != "supported"
    left = 0.0 if is_built_in else -OVERHANG_MM
    right = view.span + (OVERHANG_MM if view.beam.ends == "supported" else 0.0)
    edges: Line = ((left, 0.0), (right, 0.0), (right, DEEP_MM), (left, DEEP_MM), (left, 0.0))
    held = wall(0.0, DEEP_MM, -1) if is_built_in else pin(0.0)
    if view.beam.ends == "clamped":
        held += wall(view.span, DEEP_MM, 1)
    if view.beam.ends == "supported":
        held += roller(view.span)
    return Piece((Stroke("outline", (edges,)), Stroke("hidden", (view.line,)))) + held


def _load(view: View) -> Piece:
    """Draw an arrow for each load, or a row of them under a line for a uniform one."""
    high = view.load_height
    shafts: tuple[Line, ...] = tuple(((x, high), (x, DEEP_MM)) for x in view.tops)
    over: tuple[Line, ...] = () if view.beam.loads else (((view.tops[0], high), (view.tops[-1], high)),)
    heads = tuple(arrowhead((x, DEEP_MM), (0, -1), "load") for x in view.tops)
    return Piece((Stroke("thin", (*shafts, *over)),), heads)


def _lettered_load(view: View, marks: Mapping[str, Mark], spacing: Spacing) -> Piece:
    """Letter the whole load over its arrows."""
    if "load" not in marks:
        return Piece()
    word = "LOAD" if len(view.beam.loads) == 1 else "WHOLE LOAD"
    size = label_box(centred(marks["load"], (0, 0), spacing.letter))
    wide = width_em(word) * spacing.letter
    left = (view.tops[0] + view.tops[-1] - wide - BETWEEN_MM - size.width) / 2
    y = view.load_height + ABOVE_MM + size.height / 2
    label = centred(marks["load"], (left + wide + BETWEEN_MM + size.width / 2, y), spacing.letter, "load")
    return Piece((), (), (Label(word, left, label_start(label)[1], "left", size_mm=spacing.letter), label))


def _deflection_ways(view: View, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of the deflection: right under the loaded beam, or beside the free end of a cantilever."""
    x, low = view.read
    ends = (x, 0.0), view.read
    if view.beam.ends == "cantilever" and x == view.span:
        yield from ways(Linear("deflection", mark, "right", ends, x, spacing, BESIDE_MM, low_first=True))
        return
    dim = Linear("deflection", mark, "right", ends, x, spacing, 0.0, low_first=True, bare=True)
    under = [choice for choice in ways(dim, 1) if choice.room.top <= low]
    yield from sorted(under, key=lambda choice: abs(choice.room.left + choice.room.right - 2 * x))


def _load_at_ways(view: View, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of the load's place: over the beam, from a line over its left end to the load's own arrow."""
    y, end = DEEP_MM, view.tops[0]
    dim = Linear("load_at", mark, "above", ((0.0, y), (end, y)), y, spacing, ROW_MM, sideways=True, bare=True)
    line = ((0.0, y + GAP_MM), (0.0, y + ROW_MM + OVERRUN_MM))
    for choice in ways(dim, 1):
        yield choice._replace(drawn=partial(_with_line, choice.drawn, line))


def _with_line(drawn: Callable[[], Piece], line: Line) -> Piece:
    return drawn() + Piece((Stroke("dimension", (line,)),))


def _along_ways(name: str, view: View, end: float, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of a length from the left end, under what holds the beam."""
    ends = (0.0, -HELD_MM), (end, -HELD_MM if end == view.span else -view.sag)
    return ways(Linear(name, mark, "below", ends, -HELD_MM, spacing), ROWS)


def _alt(found: Beam, marks: Mapping[str, Mark], times: float) -> str:
    names = {
        "span": "span", "load": "whole load", "load_at": "from the left end to the load",
        "read_at": "from the left end to where the deflection is measured", "deflection": "deflection",
    }  # fmt: skip
    held = {
        "supported": "A beam supported at both ends", "clamped": "A beam built in at both ends",
        "cantilever": "A beam built in at its left end, its right end free",
    }[found.ends]  # fmt: skip
    load = ("a uniform load", "one load", "two equal loads")[len(found.loads)]
    larger = f" Its deflection is drawn {times:g} times as large." if times > 1 else ""
    return f"{held}, under {load}.{larger} {listed(names, marks)}"
