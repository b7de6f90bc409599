"""A narrow angle in any direction, read far from its corner: arrows from outside, lettered past either tail."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import product
from math import cos, degrees, radians, sin

from coursepack.drafting.dimension import (
    ARROW_MM,
    CLEAR_MM,
    GAP_MM,
    OVERRUN_MM,
    TAIL_MM,
    Spacing,
    arrowhead,
)
from coursepack.drafting.label import centred, label_box
from coursepack.drafting.settling import Choice
from coursepack.drafting.sheet import Fill, Line, Mark, Piece, Point, Stroke

SHIFTS = (0.0, 0.35, -0.35, 0.6, -0.6)  # of the lettering's size, outward or inward


@dataclass(frozen=True)
class Narrow:
    """An angle between two directions in degrees, the lower first, seen from its corner on paper.

    Its legs leave the part at `feet`, the distance of each from the corner; `radii` are those at which its arc may
    lie, the best first.
    """

    name: str
    mark: Mark
    corner: Point
    turns: tuple[float, float]
    feet: tuple[float, float]
    radii: tuple[float, ...]
    spacing: Spacing

    def at(self, turn_deg: float, radius: float) -> Point:
        """Return the point in a direction from the corner, at a distance."""
        turn = radians(turn_deg)
        return self.corner[0] + radius * cos(turn), self.corner[1] + radius * sin(turn)


def narrow_ways(dim: Narrow) -> Iterator[Choice]:
    """Give the ways to place a narrow angle: the nearest arc first, lettered past its upper or its lower tail."""
    for radius, after, shift in product(dim.radii, (True, False), SHIFTS):
        label = centred(dim.mark, _middle(dim, radius, shift, after=after), dim.spacing.letter, dim.name)
        lines = (*_legs(dim, radius), *_arcs(dim, radius))
        heads = _head(dim, radius, 0, -1), _head(dim, radius, 1, 1)
        yield Choice(label_box(label), partial(Piece, (Stroke("dimension", lines),), heads, (label,)))


def _middle(dim: Narrow, radius: float, shift: float, *, after: bool) -> Point:
    """Return where the lettering has its middle: past a tail, and so far outward."""
    size = label_box(centred(dim.mark, (0, 0), dim.spacing.letter))
    sign, turn = (1, dim.turns[1] + _tail(radius)) if after else (-1, dim.turns[0] - _tail(radius))
    u, v = cos(radians(turn)), sin(radians(turn))
    half = (abs(v) * size.width + abs(u) * size.height) / 2 + CLEAR_MM
    out = shift * (abs(u) * size.width + abs(v) * size.height)
    x, y = dim.at(turn, radius + out)
    return x - sign * half * v, y + sign * half * u


def _tail(radius: float) -> float:
    return degrees((ARROW_MM + TAIL_MM) / radius)


def _legs(dim: Narrow, radius: float) -> Iterator[Line]:
    for turn, foot in zip(dim.turns, dim.feet, strict=True):
        yield dim.at(turn, foot + GAP_MM), dim.at(turn, radius + OVERRUN_MM)


def _arcs(dim: Narrow, radius: float) -> Iterator[Line]:
    (low, high), tail = dim.turns, _tail(radius)
    for start, end in ((low - tail, low), (low, high), (high, high + tail)):
        yield tuple(dim.at(start + (end - start) * number / 6, radius) for number in range(7))


def _head(dim: Narrow, radius: float, end: int, sign: int) -> Fill:
    """Give the arrowhead at an end, which comes from outside the angle."""
    turn = dim.turns[end]
    tip, back = dim.at(turn, radius), dim.at(turn + sign * degrees(ARROW_MM / radius), radius)
    return arrowhead(tip, (tip[0] - back[0], tip[1] - back[1]), dim.name)
