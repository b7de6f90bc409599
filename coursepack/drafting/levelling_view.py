"""A blank lying out of level over its supports, from its side, with a level on it; on paper in mm.

The contact with the high support is at 0, 0; the blank falls to the right. It is laid out as if it lay level, then
turned.
"""

from dataclasses import dataclass
from functools import cached_property
from math import asin, cos, sin

from coursepack.drafting.breaking import torn
from coursepack.drafting.detail_shapes import circle, rectangle
from coursepack.drafting.sheet import Line, Piece, Point, Stroke

PAST_MM = 3.8  # of blank past its outer supports, before it is broken off
LEVEL_MM = (2.2, 5.0)  # height of the level, at least and at most
TALL = 0.3  # of its length: the height between
VIAL_MM = 9.0  # length of its vial, at most
BUBBLE = (0.16, 0.2)  # of the vial's length: half of the bubble, and how far it stands off the middle
HELD_MM = 8.0  # of the high support, from the floor to the blank
TOP_MM = (3.0, 1.5)  # width and height of a support's top
SPLAY_MM = 1.2  # of its legs, past its top
FLOOR_MM = 1.0  # of the floor past the outer supports
TICK_MM, TICKS = 1.35, 4  # of the floor's hatching: size, and how many at each support


@dataclass(frozen=True)
class Lie:
    """How a blank lies, true sizes in mm: between its outer supports, their number, past them, its depth, the level.

    `overhang` is 0 where the blank is broken off. All is measured along the blank; `rise` is how much higher one end
    of the level stands than the other.
    """

    span: float
    supports: int
    overhang: float
    depth: float
    level: float
    rise: float

    @property
    def tilt(self) -> float:
        """Its angle to the level, in radians: the level is the long side of the right triangle."""
        return asin(self.rise / self.level)

    @property
    def packing(self) -> float:
        """What the low support lacks: the triangles of level and blank are alike."""
        return self.rise * self.span / self.level

    @property
    def apart(self) -> float:
        """From a support to the next."""
        return self.span / (self.supports - 1)

    @property
    def length(self) -> float:
        """The whole blank."""
        return self.span + 2 * self.overhang


@dataclass(frozen=True)
class View:
    """A lie at a scale."""

    lie: Lie
    by: float

    @cached_property
    def span(self) -> float:
        """Between the outer contacts."""
        return self.lie.span * self.by

    @cached_property
    def past(self) -> float:
        """Of blank past either."""
        return self.lie.overhang * self.by or PAST_MM

    @cached_property
    def top(self) -> float:
        """Height of the blank's upper edge."""
        return self.lie.depth * self.by

    @cached_property
    def on(self) -> tuple[float, float]:
        """Where the level begins and ends along the blank: in the middle between the supports."""
        half = self.lie.level * self.by / 2
        return self.span / 2 - half, self.span / 2 + half

    @cached_property
    def over(self) -> float:
        """Height of the level's upper edge."""
        least, most = LEVEL_MM
        return self.top + min(most, max(least, TALL * self.lie.level * self.by))

    @cached_property
    def floor(self) -> float:
        """Height of the floor."""
        return -HELD_MM - self.lie.packing * self.by

    def turned(self, point: Point) -> Point:
        """Return where a point of the blank lies, given as if the blank were level."""
        x, y = point
        c, s = cos(self.lie.tilt), sin(self.lie.tilt)
        return x * c + y * s, y * c - x * s

    def lines(self, *lines: Line) -> tuple[Line, ...]:
        """Return where lines of the blank lie."""
        return tuple(tuple(self.turned(point) for point in line) for line in lines)


def side(view: View) -> Piece:
    """Draw the blank, its supports, and the level on it."""
    return _blank(view) + _level(view) + _supports(view)


def _blank(view: View) -> Piece:
    left, right, top = -view.past, view.span + view.past, view.top
    corners = (left, 0.0), (right, 0.0), (right, top), (left, top)
    if view.lie.overhang:
        return Piece((Stroke("outline", view.lines((*corners, corners[0]))),))
    low, high = corners[:2], corners[2:]
    ends = torn(corners[0], corners[3]), torn(corners[1], corners[2])
    return Piece((Stroke("outline", view.lines(low, high)), Stroke("thin", view.lines(*ends))))


def _level(view: View) -> Piece:
    """Draw the level, its vial between two lines, and the bubble towards the higher end of it."""
    (left, right), (low, high) = view.on, (view.top, view.over)
    long, tall = min(VIAL_MM, (right - left) / 2), (high - low) / 2
    middle, at = (left + right) / 2, (low + high) / 2
    half, off = (share * long for share in BUBBLE)
    body: Line = ((left, low), (left, high), (right, high), (right, low))
    vial = rectangle(middle - long / 2, at - tall / 2, middle + long / 2, at + tall / 2)
    marks = tuple(((middle + x, at - tall / 2), (middle + x, at + tall / 2)) for x in (-half, half))
    bubble = tuple((middle - off + half * x, at + tall * y / 3) for x, y in circle((0.0, 0.0), 1.0))
    return Piece((Stroke("thin", view.lines(body, vial)), Stroke("layer", view.lines(*marks, bubble))))


def _supports(view: View) -> Piece:
    """Draw each support under the corner of it that the falling blank rests on, and the floor, hatched under it."""
    lines: list[Line] = []
    ticks: list[Line] = []
    for number in range(view.lie.supports):
        x, y = view.turned((view.lie.apart * number * view.by, 0.0))
        left, low = x - TOP_MM[0], y - TOP_MM[1]
        lines += [
            rectangle(left, low, x, y),
            ((left + 0.6, low), (left - SPLAY_MM, view.floor)),
            ((x - 0.6, low), (x + SPLAY_MM, view.floor)),
        ]
        starts = (left - SPLAY_MM + TICK_MM * tick for tick in range(TICKS))
        ticks += [((at, view.floor - TICK_MM), (at + TICK_MM, view.floor)) for at in starts]
    ends = -FLOOR_MM - TOP_MM[0], view.span + FLOOR_MM
    lines.append(((ends[0], view.floor), (ends[1], view.floor)))
    return Piece((Stroke("thin", tuple(lines)), Stroke("layer", tuple(ticks))))
