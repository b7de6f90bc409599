"""Outlines of sections made of wood, and what follows from any outline: its area and its moments.

Corners are in mm: exact fractions while the sizes are, floats once a tangent has touched them. A section stands
upright with its front face at x = 0 and its lower front corner at the origin; x runs aft, y runs up. Outlines run
anticlockwise; the outline of a hollow runs clockwise, so that it counts below zero. Plane geometry.
"""

from collections.abc import Callable, Iterator
from fractions import Fraction

from coursepack.quantity import Number
from coursepack.trade import outline

Corner = tuple[Number, Number]
Outline = tuple[Corner, ...]

_ZERO = Fraction(0)


def block(width_mm: Number, height_mm: Number, left_mm: Number = _ZERO, low_mm: Number = _ZERO) -> Outline:
    """Return the corners of an upright rectangle: lower front, lower rear, upper rear, upper front."""
    right, high = left_mm + width_mm, low_mm + height_mm
    return ((left_mm, low_mm), (right, low_mm), (right, high), (left_mm, high))


def hollow(around: Outline) -> Outline:
    """Return an outline the other way round, so that it takes away what it encloses."""
    return around[::-1]


def bevelled(width_mm: Number, front_mm: Number, top_deg: Number, bottom_deg: Number) -> Outline:
    """Return the corners of a section with bevelled edges; raises TradeFault for one that cannot be."""
    return outline.bevelled_section(float(front_mm), float(width_mm), float(top_deg), float(bottom_deg))


def routed(blank: Outline, depth_mm: Number, flange_mm: Number) -> Outline:
    """Return a four-cornered blank with a pocket of one depth in each face, its walls square to the face.

    The flange is what a pocket leaves of its own face, above and below; it must be more than `least_flange`.
    """
    (front, low), (rear, low_rear), (_, high_rear), (_, high) = blank
    inner, outer = front + depth_mm, rear - depth_mm
    return (
        (front, low), (rear, low_rear),
        (rear, low_rear + flange_mm), (outer, low_rear + flange_mm),
        (outer, high_rear - flange_mm), (rear, high_rear - flange_mm),
        (rear, high_rear), (front, high),
        (front, high - flange_mm), (inner, high - flange_mm),
        (inner, low + flange_mm), (front, low + flange_mm),
    )  # fmt: skip


def least_flange(blank: Outline, depth_mm: Number) -> Number:
    """Return the flange in mm at which a pocket of a depth just comes out through the steeper edge of a blank."""
    (front, low), (rear, low_rear), (_, high_rear), (_, high) = blank
    steepest = max((low_rear - low, low - low_rear, high_rear - high, high - high_rear), key=float)
    return steepest * depth_mm / (rear - front)


def without_band(whole: Outline, low_mm: Number, high_mm: Number) -> tuple[Outline, ...]:
    """Return what is left of an outline below and above a level band, in none, one or two pieces.

    The outline must cross any level at most twice, as all outlines of this module do.
    """
    pieces = (_kept(whole, low_mm, below=True), _kept(whole, high_mm, below=False))
    return tuple(piece for piece in pieces if len(piece) > 2)


def _kept(whole: Outline, level_mm: Number, *, below: bool) -> Outline:
    def is_kept(corner: Corner) -> bool:
        return corner[1] < level_mm if below else corner[1] > level_mm

    corners: list[Corner] = []
    for start, end in _sides(whole):
        if is_kept(start):
            corners.append(start)
        if is_kept(start) != is_kept(end):
            corners.append(_crossing(start, end, level_mm))
    return tuple(corners)


def _crossing(start: Corner, end: Corner, level_mm: Number) -> Corner:
    share = (level_mm - start[1]) / (end[1] - start[1])
    return start[0] + share * (end[0] - start[0]), level_mm


def _sides(whole: Outline) -> Iterator[tuple[Corner, Corner]]:
    return zip(whole, (*whole[1:], whole[0]), strict=True)


def _around(whole: Outline, height: Callable[[Number, Number], Number]) -> Number:
    """Sum over the sides the cross product of their ends times a function of the heights of their ends."""
    total: Number = _ZERO
    for (x, y), (next_x, next_y) in _sides(whole):
        total += (x * next_y - next_x * y) * height(y, next_y)
    return total


def area(whole: Outline) -> Number:
    """Return the area in mm², below zero for a hollow: half the sum of the cross products."""
    return _around(whole, lambda _y, _next: Fraction(1, 2))


def first_moment(whole: Outline) -> Number:
    """Return the first moment of area in mm³ about the level through the origin."""
    return _around(whole, lambda y, next_y: (y + next_y) * Fraction(1, 6))


def second_moment(whole: Outline) -> Number:
    """Return the second moment of area in mm⁴ about the level through the origin."""
    return _around(whole, lambda y, next_y: (y * y + y * next_y + next_y * next_y) * Fraction(1, 12))
