"""A length held against a steel rule, enlarged: the ticks from which it is read, and room for the reading."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import floor, isclose

from coursepack.drafting.breaking import torn
from coursepack.drafting.dimension import Spacing
from coursepack.drafting.entries import entries
from coursepack.drafting.lettering import width_em
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import NoRoom
from coursepack.drafting.sheet import SMALL_MM, Drawing, Frame, Label, Line, Mark, Piece, Stroke
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.quantity import Quantity, printed

TALL_MM = 15.0  # on paper, of the rule
PART_MM = 8.0  # on paper, of the part on it
BEYOND_MM = 4.5  # on paper, of the rule past the end of the part
EDGE_MM = 1.4  # a number stands at least so far from where the rule is broken off
CLOSEST_MM = 0.7  # on paper, of ticks that can be told apart
TORN_MM = 0.85  # how far it reaches out, with some air
INCH_TICKS_MM = {1: 9.0, 2: 7.4, 4: 6.2, 8: 5.1, 16: 4.1, 32: 3.2, 64: 2.4}  # height, by halves, quarters …
METRIC_TICKS_MM = {20: 9.0, 10: 6.6, 2: 4.6, 1: 3.0}  # height, where a number of half millimetres goes in


@dataclass(frozen=True)
class Rule:
    """A steel rule in mm: from tick to tick, and from number to number."""

    tick: Quantity
    numbered: float

    @property
    def step(self) -> float:
        """From tick to tick in mm."""
        return float(self.tick.number("mm"))

    def tall(self, tick: int) -> float:
        """How high a tick is on paper in mm, by its number from the end of the rule."""
        if self.tick.unit_name == "in":
            return INCH_TICKS_MM[Fraction(tick * self.tick.value).limit_denominator(64).denominator]
        halves = round(2 * tick * self.step)
        return next(tall for part, tall in METRIC_TICKS_MM.items() if halves % part == 0)

    def number(self, tick: int) -> str:
        """Return the number at a tick, or nothing: whole inches, or every tenth millimetre."""
        at = tick * self.step
        whole = round(at / self.numbered)
        if not isclose(at, whole * self.numbered, abs_tol=1e-6):
            return ""
        return str(whole if self.tick.unit_name == "in" else whole * 10)


# graduations of steel rules: Army Ordnance OD1621
RULES = (
    *(Rule(Quantity.of(Fraction(1, part), "in"), 25.4) for part in (16, 32, 64)),
    *(Rule(Quantity.of(Fraction(1, part), "mm"), 10.0) for part in (1, 2)),
)


@dataclass(frozen=True)
class View:
    """The part of a rule that is seen, in mm of its own length, at a scale."""

    start: float
    end: float
    scale: float

    def on_paper(self, at: float) -> float:
        """Return where a place of the rule lies across the paper."""
        return (at - self.start) * self.scale

    def ticks(self, step: float) -> range:
        """Return the numbers of the ticks in view, from zero on."""
        return range(max(0, -floor(-(self.start / step) + 1e-6)), floor(self.end / step + 1e-6) + 1)


def rule_reading(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw the end of a part against a steel rule, at the largest scale that fits, or the frame's.

    Sizes in mm: reading, the length of the part from the end of the rule, on a tick, and tick, from one to the
    next. Raises LessonFault for a rule that is not made, a reading between two ticks, where it does not fit, and
    for a dimension that it does not have.
    """
    refuse_missing("rule reading", marks, rule_measure(sizes))
    rule = _rule(sizes["tick"])
    if sizes["reading"] <= 0 or not is_multiple(sizes["reading"], rule.step):
        raise LessonFault(
            "the reading does not lie on a tick of the rule", f"give it a multiple of {rule.tick}"
        )

    def note(_: Fraction) -> str:
        return f"a tick every {printed(rule.tick)}"

    fitted = at_scale(
        "rule reading",
        lambda by, room, spacing: _draft(sizes["reading"], rule, marks, by, room, spacing),
        frame,
        0.0,
        note,
    )
    return finished("Rule reading", fitted, frame, _alt(rule, marks), note)


def rule_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of the reading in mm."""
    return {"reading": sizes["reading"]}


def is_multiple(length: float, step: float) -> bool:
    """Whether a length in mm is a whole number of steps, as far as numbers of the trade go."""
    return abs(length / step - round(length / step)) < 1e-4


def _rule(tick: float) -> Rule:
    for rule in RULES:
        if isclose(rule.step, tick, rel_tol=1e-6):
            return rule
    raise LessonFault(
        f"no steel rule has a tick every {tick:.4g} mm",
        "take one of " + ", ".join(str(r.tick) for r in RULES),
    )


def _draft(
    reading: float, rule: Rule, marks: Mapping[str, Mark], scale: float, room: Frame, spacing: Spacing
) -> Piece:
    width = room.width - 2 * TORN_MM
    view = _view(reading, rule, scale, width)
    strokes = (*_part(view, reading), *_steel(view, width), Stroke("layer", tuple(_ticks(view, rule))))
    lettered = entries({"reading": "Reading"}, marks, width / 2 - 4.0, -TALL_MM - 1.0, spacing)
    return Piece(strokes, (), tuple(_numbers(view, rule, width))) + lettered


def _view(reading: float, rule: Rule, scale: float, width: float) -> View:
    """Return what is seen of a rule: from its end, or with the number before the reading or the one after in view."""
    if rule.step * scale < CLOSEST_MM:
        raise NoRoom
    seen, beyond = width / scale, BEYOND_MM / scale
    if reading + beyond <= seen:
        return View(0.0, seen, scale)
    before = floor(reading / rule.numbered + 1e-6) * rule.numbered
    start = min(reading - seen / 2, before - _half(before, rule) / scale)
    if start + seen < reading + beyond and seen > rule.numbered:
        after = before + rule.numbered
        start = max(after + _half(after, rule) / scale, reading + beyond) - seen
    if start <= 0 or start + seen < reading + beyond - 1e-6:
        raise NoRoom
    return View(start, start + seen, scale)


def _half(at: float, rule: Rule) -> float:
    """Return how much room on paper the number at a place of a rule needs to either side, in mm."""
    return width_em(rule.number(round(at / rule.step))) * SMALL_MM / 2 + EDGE_MM


def _part(view: View, reading: float) -> Iterator[Stroke]:
    """Draw the part on the rule, its far end on the reading, broken off where its near end is out of view."""
    end = view.on_paper(reading)
    lines: tuple[Line, ...] = (((0.0, PART_MM), (end, PART_MM), (end, 0.0)),)
    if view.start:
        yield Stroke("thin", (torn((0.0, 0.0), (0.0, PART_MM)),))
    else:
        lines = (((0.0, 0.0), (0.0, PART_MM), *lines[0][1:]),)
    yield Stroke("outline", lines)


def _steel(view: View, width: float) -> Iterator[Stroke]:
    """Draw the rule's edges, its end where that is in view, and where it is broken off."""
    edges: tuple[Line, ...] = (((0.0, 0.0), (width, 0.0)), ((0.0, -TALL_MM), (width, -TALL_MM)))
    breaks: tuple[Line, ...] = (torn((width, -TALL_MM), (width, 0.0)),)
    if view.start:
        breaks = (torn((0.0, -TALL_MM), (0.0, 0.0)), *breaks)
    else:
        edges = (*edges, ((0.0, -TALL_MM), (0.0, 0.0)))
    yield Stroke("outline", edges)
    yield Stroke("thin", breaks)


def _ticks(view: View, rule: Rule) -> Iterator[Line]:
    for tick in view.ticks(rule.step):
        x = view.on_paper(tick * rule.step)
        yield (x, 0.0), (x, -rule.tall(tick))


def _numbers(view: View, rule: Rule, width: float) -> Iterator[Label]:
    """Letter the numbers that stand wholly on the rule; none at its end."""
    for tick in view.ticks(rule.step):
        text, x = rule.number(tick), view.on_paper(tick * rule.step)
        half = _half(tick * rule.step, rule) - 1e-6
        if tick and text and half <= x <= width - half:
            yield Label(text, x, -TALL_MM + 1.6, size_mm=SMALL_MM)


def _alt(rule: Rule, marks: Mapping[str, Mark]) -> str:
    held = f"A part held against a steel rule with a tick every {rule.tick}, its far end on a tick"
    return f"{held}. {listed({'reading': 'reading'}, marks)}"
