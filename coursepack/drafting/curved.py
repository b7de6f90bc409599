"""Dimensions of an arc after ISO 129-1: its angle or its length along it, and its radius with a leader.

A radius has one arrowhead, on the arc, and a line towards the middle or away from it; the middle itself may lie
outside of the drawing.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import product
from math import cos, dist, inf, radians, sin

from coursepack.drafting.dimension import ARROW_MM, CLEAR_MM, GAP_MM, OVERRUN_MM, Spacing, arrowhead
from coursepack.drafting.label import centred, label_box, label_start
from coursepack.drafting.lettering import width_em
from coursepack.drafting.settling import Choice
from coursepack.drafting.sheet import Box, Fill, Label, Line, Mark, Piece, Point, Stroke

STEPS = 72  # straight pieces of a dimension's arc
SIGN_MM = (2.8, 1.1)  # length and height of the sign of an arc's length
SIGN_APART_MM = 0.9  # from the sign to its number
RADIUS_SIGN = "R"
RADIUS_APART_MM = 0.7
LENGTHS_MM = (7.0, 5.0, 10.0, 13.0, 17.0, 21.0, 25.0, 30.0, 36.0, 44.0, 54.0)  # on paper, of a leader
BEND_MM = 5.0  # from a leader's tip to where it bends
JOGS_MM = (8.0, 13.0, 18.0, 24.0, 31.0, 39.0)  # up or down from there
ASIDE_MM = 3.0  # and aside


@dataclass(frozen=True)
class Curved:
    """An angle or a length along an arc, between two directions in degrees from a middle on paper.

    Its extension lines leave from `foot`, a radius; `radii` are those at which its line may stand, the best first,
    and `shares` where along it its lettering may. A length along the arc bears the sign of an arc.
    """

    name: str
    mark: Mark
    middle: Point
    turns: tuple[float, float]
    foot: float
    radii: tuple[float, ...]
    shares: tuple[float, ...]
    spacing: Spacing
    signed: bool = False

    def at(self, share: float, radius: float) -> Point:
        """Return the point at a share of the way from the first direction to the second, at a radius."""
        turn = radians(self.turns[0] + share * (self.turns[1] - self.turns[0]))
        return self.middle[0] + radius * cos(turn), self.middle[1] + radius * sin(turn)


def curved_ways(dim: Curved) -> Iterator[Choice]:
    """Give the ways to place an angle or a length along an arc: nearest radius first, lettered in its line."""
    for radius in dim.radii:
        arc = tuple(dim.at(number / STEPS, radius) for number in range(STEPS + 1))
        for share in dim.shares:
            label = centred(dim.mark, dim.at(share, radius), dim.spacing.letter, dim.name)
            room = label_box(label)
            wide = room._replace(left=room.left - (SIGN_MM[0] + SIGN_APART_MM) * dim.signed)
            lines = tuple(_outside(arc, wide.grown(CLEAR_MM)))
            if len(lines) == 2 and min(dist(line[0], line[-1]) for line in lines) > ARROW_MM + GAP_MM:
                yield Choice(room, partial(_drawn, dim, radius, lines, label))


def _outside(arc: Line, gap: Box) -> Iterator[Line]:
    """Give the parts of an arc that lie outside its lettering."""
    run: list[Point] = []
    for x, y in arc:
        if not (gap.left < x < gap.right and gap.bottom < y < gap.top):
            run.append((x, y))
        elif run:
            yield tuple(run)
            run = []
    if run:
        yield tuple(run)


def _drawn(dim: Curved, radius: float, lines: tuple[Line, ...], label: Label) -> Piece:
    sign = (_arc_sign(label_box(label)),) if dim.signed else ()
    strokes = (Stroke("dimension", (*_legs(dim, radius), *lines, *sign)),)
    return Piece(strokes, _heads(dim, radius), (label,))


def _legs(dim: Curved, radius: float) -> Iterator[Line]:
    out = 1 if radius > dim.foot else -1
    for share in (0.0, 1.0):
        yield dim.at(share, dim.foot + out * GAP_MM), dim.at(share, radius + out * OVERRUN_MM)


def _heads(dim: Curved, radius: float) -> tuple[Fill, ...]:
    back = ARROW_MM / radius / radians(abs(dim.turns[1] - dim.turns[0]))
    ends = ((dim.at(end, radius), dim.at(inner, radius)) for end, inner in ((0.0, back), (1.0, 1 - back)))
    return tuple(arrowhead(tip, (tip[0] - x, tip[1] - y), dim.name) for tip, (x, y) in ends)


def _arc_sign(room: Box) -> Line:
    """Draw the sign that a length is measured along an arc, left of its number."""
    long, high = SIGN_MM
    left, low = room.left - SIGN_APART_MM - long, (room.bottom + room.top - high) / 2
    turns = (radians(180 * number / 12) for number in range(13))
    return tuple((left + long / 2 * (1 - cos(turn)), low + high * sin(turn)) for turn in turns)


@dataclass(frozen=True)
class Leader:
    """A radius: its arrow's tip on the arc, and the direction in degrees in which its line leaves the arc."""

    name: str
    mark: Mark
    tip: Point
    turn: float
    spacing: Spacing

    @property
    def way(self) -> Point:
        """The direction in which its line leaves the arc."""
        return cos(radians(self.turn)), sin(radians(self.turn))

    def at(self, length: float) -> Point:
        """Return the point of its straight line so far from the tip."""
        return self.tip[0] + length * self.way[0], self.tip[1] + length * self.way[1]


def leader_ways(dim: Leader) -> Iterator[Choice]:
    """Give the ways to place a radius on a straight line: the shortest first, lettered past its end."""
    width, height = _room(dim)
    u, v = dim.way
    half = min(width / 2 / abs(u) if u else inf, height / 2 / abs(v) if v else inf) + CLEAR_MM
    for length in LENGTHS_MM:
        yield _led(dim, (dim.at(length),), dim.at(length + half))


def bent_leader_ways(dim: Leader) -> Iterator[Choice]:
    """Give the ways to place a radius on a line that bends up or down behind its arrow, lettered past its end."""
    width, height = _room(dim)
    x, y = bend = dim.at(BEND_MM)
    side = 1 if dim.way[0] > 0 else -1
    for far, up in product(JOGS_MM, (1, -1)):
        end = x + side * ASIDE_MM, y + up * far
        yield _led(dim, (bend, end), (end[0] + side * (width / 2 + CLEAR_MM), end[1]))
        end = x, y + up * far
        yield _led(dim, (bend, end), (x, end[1] + up * (height / 2 + CLEAR_MM)))


def _room(dim: Leader) -> tuple[float, float]:
    """Return the size of a radius with its sign."""
    size = label_box(centred(dim.mark, (0, 0), dim.spacing.letter))
    return size.width + _sign_mm(dim), size.height


def _sign_mm(dim: Leader) -> float:
    return width_em(RADIUS_SIGN) * dim.spacing.letter + RADIUS_APART_MM


def _led(dim: Leader, knees: tuple[Point, ...], middle: Point) -> Choice:
    """Offer a radius with its line from the tip through some points, its lettering with its middle at a point."""
    sign = _sign_mm(dim)
    label = centred(dim.mark, (middle[0] + sign / 2, middle[1]), dim.spacing.letter, dim.name)
    room = label_box(label)
    left = room.left - sign
    letter = Label(RADIUS_SIGN, left, label_start(label)[1], "left", size_mm=label.size_mm)
    head = arrowhead(dim.tip, (-dim.way[0], -dim.way[1]), dim.name)
    strokes = (Stroke("dimension", ((dim.tip, *knees),)),)
    return Choice(room._replace(left=left), partial(Piece, strokes, (head,), (letter, label)))
