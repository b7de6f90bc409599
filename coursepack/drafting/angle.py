"""Small angles laid out as numbers before any ink, after ISO 129-1: broken legs, reversed arrows."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import product
from math import cos, degrees, radians, sin

from coursepack.drafting.dimension import ARROW_MM, CLEAR_MM, GAP_MM, OVERRUN_MM, TAIL_MM, arrowhead
from coursepack.drafting.label import centred, label_box
from coursepack.drafting.settling import Choice
from coursepack.drafting.sheet import LETTER_MM, Fill, Line, Mark, Piece, Point, Stroke


@dataclass(frozen=True)
class Angle:
    """A small angle between a level line and an edge, at a radius from their vertex, read on the right of it.

    `edge_deg` is the direction of the edge seen from the vertex; beyond `leave`, where the part ends, both
    lines are broken off until `start`, so that other dimensions have room.
    """

    name: str
    mark: Mark
    vertex: Point
    edge_deg: float
    leave: float
    start: float
    radius: float
    upward: bool = True
    letter: float = LETTER_MM
    wedge: bool = True  # whether the level line is drawn over the wedge that the edge leaves

    def at(self, turn_deg: float, radius: float | None = None) -> Point:
        """Give the point in a direction from the vertex, at the dimension's radius or another in mm."""
        reach = self.radius if radius is None else radius
        turn = radians(turn_deg)
        return self.vertex[0] + reach * cos(turn), self.vertex[1] + reach * sin(turn)


def angle_ways(dim: Angle) -> Iterator[Choice]:
    """Give the ways to place an angle: reversed arrows on an arc, lettered past either tail."""
    low, high = sorted((0.0, dim.edge_deg))
    tail = degrees((ARROW_MM + TAIL_MM) / dim.radius)
    arcs = (_arc(dim, high, high + tail), _arc(dim, low - tail, low), _arc(dim, low, high))
    strokes = (Stroke("dimension", (*_legs(dim), *arcs)),)
    heads = _arc_head(dim, low, 1), _arc_head(dim, high, -1)
    size = label_box(centred(dim.mark, (0, 0), dim.letter))
    for up, shift in product((dim.upward, not dim.upward), (0.0, -0.25, -0.5, 0.25, 0.5, 0.8)):
        x, y = dim.at(high + tail if up else low - tail)
        middle = (x + shift * size.width, y + (1 if up else -1) * (size.height / 2 + CLEAR_MM))
        label = centred(dim.mark, middle, dim.letter, dim.name)
        yield Choice(label_box(label), partial(Piece, strokes, heads, (label,)))


def _legs(dim: Angle) -> Iterator[Line]:
    reach = dim.radius + OVERRUN_MM
    if dim.wedge and (dim.edge_deg < 0) == dim.upward:
        yield dim.vertex, (dim.leave + GAP_MM, dim.vertex[1])
    for turn in (0.0, dim.edge_deg):
        begin = (dim.start - dim.vertex[0]) / cos(radians(turn))
        yield dim.at(turn, begin), dim.at(turn, reach)


def _arc(dim: Angle, from_deg: float, to_deg: float) -> Line:
    return tuple(dim.at(from_deg + (to_deg - from_deg) * n / 6) for n in range(7))


def _arc_head(dim: Angle, turn: float, sign: int) -> Fill:
    chord = turn - sign * degrees(ARROW_MM / dim.radius)
    tip, back = dim.at(turn), dim.at(chord)
    return arrowhead(tip, (tip[0] - back[0], tip[1] - back[1]), dim.name)
