"""Dimensions laid out as numbers before any ink: several ways to place each, and the first that is clear.

Arrangement after ISO 129-1: extension lines with a 1 mm gap and 2 mm overrun, arrowheads 3:1, rows 8.5 mm
apart, lettering upright and breaking the dimension line (one direction for all lettering).
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import chain, product
from math import cos, degrees, hypot, radians, sin
from typing import Literal

from coursepack.drafting.sheet import (
    Box,
    Fill,
    Frame,
    Line,
    Mark,
    Piece,
    Point,
    Stroke,
    bounds,
    centred,
    label_box,
    lettering_clashes,
)

ROW_MM = 8.5
GAP_MM = 1.0
OVERRUN_MM = 2.0
ARROW_MM = 3.0
TAIL_MM = 2.5  # of a reversed arrow, behind its head
STAND_OFF_MM = 1.2  # of lettering from the outline
APART_MM = 0.5  # at least, between lettering and what is not its own
CLEAR_MM = 0.8  # round lettering
ROWS = 3

Side = Literal["left", "right", "above", "below"]


class NoRoom(Exception):  # noqa: N818 - not a fault of the lesson until every scale has been tried
    """A dimension finds no clear place at this scale."""


@dataclass(frozen=True)
class Linear:
    """A length between two features, measured along y (left, right) or x (above, below).

    `line` is where the rows start from: x of the outermost line on that side for an upright dimension, else y.
    """

    name: str
    mark: Mark
    side: Side
    ends: tuple[Point, Point]
    line: float
    first: float = ROW_MM
    low_first: bool = False  # lettering that does not fit between goes past the low end first
    bare: bool = False  # the part's own lines take the place of extension lines

    @property
    def upright(self) -> bool:
        """Whether the length is measured along y."""
        return self.side in {"left", "right"}

    @property
    def outward(self) -> int:
        """Which way its rows lie from the part: 1 towards greater x or y, else −1."""
        return 1 if self.side in {"right", "above"} else -1

    def paper(self, along: float, across: float) -> Point:
        """Turn a place along the length and a row across it into a point."""
        return (across, along) if self.upright else (along, across)

    def span(self) -> tuple[float, float]:
        """Low and high end along the measured direction."""
        low, high = sorted(end[1] if self.upright else end[0] for end in self.ends)
        return low, high


def arrowhead(tip: Point, towards: Point, of: str) -> Fill:
    """Give a slim arrowhead, length to width 3:1, whose tip points in a direction."""
    size = hypot(*towards)
    x, y = towards[0] / size * ARROW_MM, towards[1] / size * ARROW_MM
    back = (tip[0] - x, tip[1] - y)
    return Fill((tip, (back[0] - y / 6, back[1] + x / 6), (back[0] + y / 6, back[1] - x / 6)), of)


def ways(dim: Linear) -> Iterator[Piece]:
    """Give the ways to place a dimension, the best first: nearest row, lettering between the ends."""
    for row in range(ROWS):
        across = dim.line + dim.outward * (dim.first + row * ROW_MM)
        yield from _ways_in_row(dim, across)


def _ways_in_row(dim: Linear, across: float) -> Iterator[Piece]:
    low, high = dim.span()
    box = label_box(centred(dim.mark, (0, 0)))
    needs = (box.height if dim.upright else box.width) + 2 * CLEAR_MM
    extension = Piece((Stroke("dimension", tuple(_extensions(dim, across))),))
    if high - low >= needs + 2 * ARROW_MM + 1:
        yield extension + _between(dim, across, needs, reverse=False)
    elif high - low >= needs:
        yield extension + _between(dim, across, needs, reverse=True)
    beyond, outside = _beyond(dim, across, needs), _outside(dim, across)
    yield from (
        extension + piece for piece in (chain(beyond, outside) if dim.upright else chain(outside, beyond))
    )


def _extensions(dim: Linear, across: float) -> Iterator[Line]:
    for end in () if dim.bare else dim.ends:
        along, foot = (end[1], end[0]) if dim.upright else end
        start = foot + dim.outward * GAP_MM
        yield dim.paper(along, start), dim.paper(along, across + dim.outward * OVERRUN_MM)


def _heads(dim: Linear, across: float, *, reverse: bool) -> tuple[Fill, Fill]:
    low, high = dim.span()
    up = dim.paper(1, 0)
    down = dim.paper(-1, 0)
    first, second = (up, down) if reverse else (down, up)
    return arrowhead(dim.paper(low, across), first, dim.name), arrowhead(
        dim.paper(high, across), second, dim.name
    )


def _between(dim: Linear, across: float, needs: float, *, reverse: bool) -> Piece:
    low, high = dim.span()
    middle = (low + high) / 2
    parts = [(low, middle - needs / 2), (middle + needs / 2, high)]
    if reverse:
        parts = [(low - ARROW_MM - TAIL_MM, low), (high, high + ARROW_MM + TAIL_MM)]
    lines = tuple((dim.paper(a, across), dim.paper(b, across)) for a, b in parts)
    label = centred(dim.mark, dim.paper(middle, across + dim.outward * _aside(dim, across)), of=dim.name)
    return Piece((Stroke("dimension", lines),), _heads(dim, across, reverse=reverse), (label,))


def _aside(dim: Linear, across: float) -> float:
    """How far upright lettering stands off its line so that it stays clear of the part."""
    half = label_box(centred(dim.mark, (0, 0))).width / 2
    return max(0.0, half + STAND_OFF_MM - abs(across - dim.line)) if dim.upright else 0.0


def _beyond(dim: Linear, across: float, needs: float) -> Iterator[Piece]:
    low, high = dim.span()
    box = label_box(centred(dim.mark, (0, 0)))
    reverse = high - low < 2 * ARROW_MM + 1
    turns = (-1, 1) if dim.low_first else (1, -1)
    for sign, shift in product(turns, (None, 0.0, 0.5, -0.5)):
        reach = ARROW_MM + TAIL_MM if reverse else OVERRUN_MM
        ends = (low - reach * (reverse or sign < 0), high + reach * (reverse or sign > 0))
        aside = dim.outward * (
            _aside(dim, across) if shift is None else shift * (box.width if dim.upright else box.height)
        )
        middle = (ends[1] if sign > 0 else ends[0]) + sign * needs / 2
        line = (dim.paper(ends[0], across), dim.paper(ends[1], across))
        label = centred(dim.mark, dim.paper(middle, across + aside), of=dim.name)
        yield Piece((Stroke("dimension", (line,)),), _heads(dim, across, reverse=reverse), (label,))


def _outside(dim: Linear, across: float) -> Iterator[Piece]:
    """Letter beside the unbroken line, on its outer side."""
    low, high = dim.span()
    box = label_box(centred(dim.mark, (0, 0)))
    reverse = high - low < 2 * ARROW_MM + 1
    reach = (ARROW_MM + TAIL_MM) * reverse
    aside = dim.outward * ((box.width if dim.upright else box.height) / 2 + CLEAR_MM + OVERRUN_MM)
    line = (dim.paper(low - reach, across), dim.paper(high + reach, across))
    label = centred(dim.mark, dim.paper((low + high) / 2, across + aside), of=dim.name)
    yield Piece((Stroke("dimension", (line,)),), _heads(dim, across, reverse=reverse), (label,))


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
    wedge: bool = True  # whether the level line is drawn over the wedge that the edge leaves

    def at(self, turn_deg: float, radius: float | None = None) -> Point:
        """Give the point in a direction from the vertex, at the dimension's radius or another in mm."""
        reach = self.radius if radius is None else radius
        turn = radians(turn_deg)
        return self.vertex[0] + reach * cos(turn), self.vertex[1] + reach * sin(turn)


def angle_ways(dim: Angle) -> Iterator[Piece]:
    """Give the ways to place an angle: reversed arrows on an arc, lettered past the upper or the lower tail."""
    low, high = sorted((0.0, dim.edge_deg))
    tail = degrees((ARROW_MM + TAIL_MM) / dim.radius)
    arcs = (_arc(dim, high, high + tail), _arc(dim, low - tail, low), _arc(dim, low, high))
    heads = _arc_head(dim, low, 1), _arc_head(dim, high, -1)
    lines = (*_legs(dim), *arcs)
    box = label_box(centred(dim.mark, (0, 0)))
    for up, shift in product((dim.upward, not dim.upward), (0.0, -0.25, -0.5, 0.25, 0.5, 0.8)):
        x, y = dim.at(high + tail if up else low - tail)
        middle = (x + shift * box.width, y + (1 if up else -1) * (box.height / 2 + CLEAR_MM))
        yield Piece((Stroke("dimension", lines),), heads, (centred(dim.mark, middle, of=dim.name),))


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


def settle(piece: Piece, choices: Iterable[Piece], room: Frame) -> Piece:
    """Add to a piece the first choice that is clear of it and keeps it inside the room.

    Raises NoRoom where none is.
    """
    for choice in choices:
        both = piece + choice
        box = bounds(both)
        if box.width <= room.width and box.height <= room.height and _clear(piece, choice):
            return both
    raise NoRoom


def _clear(piece: Piece, choice: Piece) -> bool:
    if any(_heads_meet(a, b) for a in piece.fills for b in choice.fills):
        return False
    if any(label_box(a).grown(APART_MM).meets(label_box(b)) for a in piece.labels for b in choice.labels):
        return False
    pairs = ((choice, choice, 0.0), (choice, piece, APART_MM), (piece, choice, APART_MM))
    return not any(next(lettering_clashes(one.labels, other, apart), None) for one, other, apart in pairs)


def _heads_meet(one: Fill, other: Fill) -> bool:
    """Whether two arrowheads run into each other; two that are the same head of a chain do not."""
    if all(
        abs(p - q) < 1e-6
        for a, b in zip(one.polygon, other.polygon, strict=True)
        for p, q in zip(a, b, strict=True)
    ):
        return False
    return _hull(one).meets(_hull(other))


def _hull(fill: Fill) -> Box:
    xs, ys = [x for x, _ in fill.polygon], [y for _, y in fill.polygon]
    return Box(min(xs), min(ys), max(xs), max(ys)).grown(-0.05)
