"""A length that is measured along neither axis: arrowheads on its own line, lettering upright beside it or past it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property, partial
from itertools import chain, product
from math import cos, dist, inf, radians, sin

from coursepack.drafting.dimension import ARROW_MM, CLEAR_MM, TAIL_MM, Side, Spacing, arrowhead
from coursepack.drafting.label import RULE_UP_MM, aligned, centred, label_box
from coursepack.drafting.settling import APART_MM, Choice
from coursepack.drafting.sheet import Align, Box, Fill, Line, Mark, Piece, Point, Stroke

PLACES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.9, 0.1, 0.3)  # of the length, where its lettering stands beside it
FURTHER_MM = (*range(0, 28, 3), 33, 40, 48)  # on paper: how much further past an end
LED_APART_MM = 1.2  # of lettering at the end of a leader from what is not its own
SIDES: tuple[Side, Side] = (
    "right",
    "left",
)  # to the right a leader meets the rule, to the left the unit past it
ASIDE = (0, 1, -1)  # lettering past the line's end, or level with it on the right or the left


@dataclass(frozen=True)
class Oblique:
    """A length between two points on paper, whose own line is the dimension line; past its second end first."""

    name: str
    mark: Mark
    ends: tuple[Point, Point]
    spacing: Spacing
    clear: float = CLEAR_MM  # between its line and lettering beside that

    @cached_property
    def size(self) -> float:
        """Its length on paper in mm."""
        return dist(*self.ends)

    @cached_property
    def way(self) -> Point:
        """The direction from its first to its second end."""
        (x, y), (to_x, to_y) = self.ends
        return (to_x - x) / self.size, (to_y - y) / self.size

    @cached_property
    def is_short(self) -> bool:
        """Whether two arrowheads do not fit between the ends, and come from outside."""
        return self.size < 2 * ARROW_MM + 1

    @cached_property
    def room(self) -> Box:
        """Room of the lettering, its middle at the origin."""
        return label_box(centred(self.mark, (0, 0), self.spacing.letter))

    def at(self, along: float, aside: float = 0.0) -> Point:
        """Return the point so far along from the first end and so far to the left of the line, in mm."""
        (x, y), (u, v) = self.ends[0], self.way
        return x + u * along - v * aside, y + v * along + u * aside


def oblique_ways(dim: Oblique) -> Iterator[Choice]:
    """Give the ways to place a length: lettered beside its line where that is long, then past either end."""
    return chain(beside_ways(dim), _past(dim))


def across(
    name: str,
    mark: Mark,
    circle: tuple[Point, float],
    spacing: Spacing,
    turns_deg: Iterable[float],
    start: float = -1,
) -> Iterator[Choice]:
    """Give the ways of a circle's diameter, or from its middle (`start` 0) its radius, in some directions.

    The circle is its middle and radius on paper. What is asked of a small one rather leads to the beginning of its
    rule, so to the right, than in the first direction.
    """
    (x, y), radius = circle
    spokes = [(cos(radians(turn)) * radius, sin(radians(turn)) * radius) for turn in turns_deg]
    dims = [Oblique(name, mark, ((x + start * u, y + start * v), (x + u, y + v)), spacing) for u, v in spokes]
    if dims[0].is_short:
        led_out = [_led(dim, side) for side in SIDES for dim in dims]
        yield from chain(*led_out, *map(_past, dims))
    else:
        for dim in dims:
            yield from chain(beside_ways(dim), *(_led(dim, side) for side in SIDES), _past(dim))


def beside_ways(dim: Oblique) -> Iterator[Choice]:
    """Give the ways to letter a length beside its line, none where that is short."""
    u, v = dim.way
    off = (abs(v) * dim.room.width + abs(u) * dim.room.height) / 2 + dim.clear
    for share, side in () if dim.is_short else product(PLACES, (1, -1)):
        yield _choice(dim, (0.0, 0.0), dim.at(share * dim.size, side * off))


def _led(dim: Oblique, to_side: Side) -> Iterator[Choice]:
    """Lead the line past an end, to a side, to the rule of a blank or the foot of an answer's box."""
    reach, to_right = ARROW_MM + TAIL_MM, to_side == "right"
    second = (dim.way[0] >= 0) == to_right
    over, up = dim.room.width / 2 * (1 if to_right else -1), -dim.room.bottom - RULE_UP_MM
    for further in FURTHER_MM if dim.mark.hand != "print" else ():
        out = reach + further
        x, y = dim.at(dim.size + out if second else -out)
        past = (reach, out) if second else (out, reach)
        yield _choice(dim, past, (x + over, y + up), "left" if to_right else "right")


def _past(dim: Oblique) -> Iterator[Choice]:
    width, height = dim.room.width, dim.room.height
    u, v = dim.way
    half = min(width / 2 / abs(u) if u else inf, height / 2 / abs(v) if v else inf) + CLEAR_MM
    reach = ARROW_MM + TAIL_MM
    for further, second, aside in product(FURTHER_MM, (True, False), ASIDE):
        out = reach + further
        past = out if aside else out + half
        x, y = dim.at(dim.size + past if second else -past)
        tails = (reach, out) if second else (out, reach)
        yield _choice(dim, tails, (x + aside * (width / 2 + CLEAR_MM), y))


def _tails(dim: Oblique, before: float, after: float) -> tuple[Line, ...]:
    """Draw the line past both ends; between them as well where the arrowheads stand inside."""
    start, end = dim.at(-before), dim.at(dim.size + after)
    return ((start, dim.ends[0]), (dim.ends[1], end)) if dim.is_short else ((start, end),)


def _choice(dim: Oblique, past: tuple[float, float], middle: Point, align: Align = "centre") -> Choice:
    """Offer a way: how far the line goes on past its ends, and where its lettering is; aligned at a leader's end."""
    x, y = middle
    left, low, right, high = dim.room
    room = Box(left + x, low + y, right + x, high + y)
    apart = APART_MM if align == "centre" else LED_APART_MM
    return Choice(room, partial(_drawn, dim, past, middle, align), apart)


def _drawn(dim: Oblique, past: tuple[float, float], middle: Point, align: Align) -> Piece:
    label = aligned(centred(dim.mark, middle, dim.spacing.letter, dim.name), align)
    return Piece((Stroke("dimension", _tails(dim, *past)),), _heads(dim), (label,))


def _heads(dim: Oblique) -> tuple[Fill, Fill]:
    (u, v), sign = dim.way, -1 if dim.is_short else 1
    first, second = dim.ends
    return (
        arrowhead(first, (-sign * u, -sign * v), dim.name),
        arrowhead(second, (sign * u, sign * v), dim.name),
    )
