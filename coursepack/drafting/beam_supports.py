"""What holds a beam, as a drawing shows it: a pin, a roller, a wall; sizes in mm on paper."""

from math import cos, pi, sin

from coursepack.drafting.sheet import Line, Piece, Stroke

HELD_MM = 5.0  # from the beam's underside down to the ground
HALF_MM, GROUND_MM = 2.4, 4.0  # half the width of a support at its foot, and of the ground under it
ROLLER_MM = 0.75  # radius of the rollers
HATCH_MM, APART_MM = 1.6, 1.6
PAST_MM = 4.5  # of a wall, over and under the beam


def pin(x: float) -> Piece:
    """Draw a support that lets the beam turn: a triangle on the ground."""
    return _support(x, HELD_MM)


def roller(x: float) -> Piece:
    """Draw a support that lets the beam turn and slide: a triangle on two rollers."""
    rollers = tuple(_round(x + side * HALF_MM / 2, ROLLER_MM - HELD_MM) for side in (-1, 1))
    return _support(x, HELD_MM - 2 * ROLLER_MM) + Piece((Stroke("thin", rollers),))


def wall(x: float, deep: float, side: int) -> Piece:
    """Draw a wall that a beam of some depth is built into, its hatched body to the left (−1) or the right (1)."""
    low, high = -PAST_MM, deep + PAST_MM
    count = round((high - low) / APART_MM)
    levels = [low + (high - low) * number / count for number in range(count)]
    hatching = tuple(((x + side * HATCH_MM, y), (x, y + HATCH_MM)) for y in levels)
    return Piece((Stroke("thin", (((x, low), (x, high)),)), Stroke("layer", hatching)))


def _support(x: float, tall: float) -> Piece:
    triangle: Line = ((x, 0.0), (x - HALF_MM, -tall), (x + HALF_MM, -tall), (x, 0.0))
    left, right = x - GROUND_MM, x + GROUND_MM
    count = round((right - left) / APART_MM)
    starts = [left + (right - left) * number / count for number in range(count)]
    hatching = tuple(((at, -HELD_MM - HATCH_MM), (at + HATCH_MM, -HELD_MM)) for at in starts)
    ground = ((left, -HELD_MM), (right, -HELD_MM))
    return Piece((Stroke("thin", (triangle, ground)), Stroke("layer", hatching)))


def _round(x: float, y: float) -> Line:
    turns = [2 * pi * number / 16 for number in range(16)]
    points = [(x + ROLLER_MM * cos(turn), y + ROLLER_MM * sin(turn)) for turn in turns]
    return (*points, points[0])
