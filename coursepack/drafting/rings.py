"""Growth rings on end grain: gentle arcs about a pith outside the section, clipped to it."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from math import atan2, ceil, cos, hypot, pi, radians, sin, sqrt

from coursepack.drafting.sheet import Line, Point, Stroke

# seasons differ: spacings on paper, in mm, taken in turn
SPACINGS_MM = (2.3, 1.9, 2.6, 2.1, 1.7, 2.4, 2.9, 2.0)
CHORD_MM = 3.0


@lru_cache(maxsize=64)  # a sheet and its key draw the same section
def growth_rings(section: Line, rings_deg: float, times_away: float = 1.6) -> Stroke:
    """Fill a convex section with rings that run at an angle in degrees to the level through its middle.

    The pith lies off the middle by a number of times the section's diagonal, more than a half.
    """
    xs, ys = [x for x, _ in section], [y for _, y in section]
    middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    away = times_away * hypot(max(xs) - min(xs), max(ys) - min(ys))
    pith = (middle[0] + away * sin(radians(rings_deg)), middle[1] - away * cos(radians(rings_deg)))
    farthest = max(hypot(x - pith[0], y - pith[1]) for x, y in section)
    radii = _radii(away * (1 - 0.5 / times_away), farthest)
    return Stroke("ring", tuple(line for radius in radii for line in _ring(section, pith, radius)))


def _radii(nearest: float, farthest: float) -> Iterator[float]:
    radius, turn = nearest, 0
    while radius < farthest:
        yield radius
        radius += SPACINGS_MM[turn % len(SPACINGS_MM)]
        turn += 1


def _ring(section: Line, pith: Point, radius: float) -> Iterator[Line]:
    """Give the parts of a ring inside the section: short chords of the sector that holds it, each clipped."""
    turns = [atan2(y - pith[1], x - pith[0]) for x, y in section]
    first = turns[0]
    offsets = [(turn - first + pi) % (2 * pi) - pi for turn in turns]
    low, high = first + min(offsets), first + max(offsets)
    steps = max(8, ceil((high - low) * radius / CHORD_MM))
    turned = (low + (high - low) * n / steps for n in range(steps + 1))
    points = [(pith[0] + radius * cos(turn), pith[1] + radius * sin(turn)) for turn in turned]
    yield from _joined(clipped(a, b, section) for a, b in pairwise(points))


def _joined(chords: Iterator[Line]) -> Iterator[Line]:
    line: Line = ()
    for chord in chords:
        if line and chord and line[-1] == chord[0]:
            line = (*line, *chord[1:])
            continue
        if line:
            yield line
        line = chord
    if line:
        yield line


def clipped(a: Point, b: Point, section: Line) -> Line:
    """Part of a straight line inside a convex section whose corners run anticlockwise; empty where there is none."""
    start, end = 0.0, 1.0
    for p, q in zip(section, (*section[1:], section[0]), strict=True):
        inside_a, inside_b = _left_of(p, q, a), _left_of(p, q, b)
        if inside_a < 0 and inside_b < 0:
            return ()
        if inside_a < 0:
            start = max(start, inside_a / (inside_a - inside_b))
        elif inside_b < 0:
            end = min(end, inside_a / (inside_a - inside_b))
    if start >= end:
        return ()
    return (a if start == 0 else _between(a, b, start)), (b if end == 1 else _between(a, b, end))


def _left_of(p: Point, q: Point, point: Point) -> float:
    return (q[0] - p[0]) * (point[1] - p[1]) - (q[1] - p[1]) * (point[0] - p[0])


def _between(a: Point, b: Point, part: float) -> Point:
    return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part


def around(stroke: Stroke, discs: tuple[Point, ...], radius: float) -> Stroke:
    """Break lines off where they would run into discs, as hatching is broken for lettering."""
    chords = [(a, b) for line in stroke.lines for a, b in pairwise(line)]
    for disc in discs:
        chords = [part for a, b in chords for part in _off_disc(a, b, disc, radius)]
    return Stroke(stroke.kind, tuple(_joined(iter(chords))))


def _off_disc(a: Point, b: Point, disc: Point, radius: float) -> Iterator[tuple[Point, Point]]:
    """Give the parts of a segment outside a disc, from the roots of |a + t (b − a) − disc| = radius."""
    dx, dy, x, y = b[0] - a[0], b[1] - a[1], a[0] - disc[0], a[1] - disc[1]
    square, half = dx * dx + dy * dy, dx * x + dy * y
    under = half * half - square * (x * x + y * y - radius * radius)
    near, far = ((-half - sqrt(under)) / square, (-half + sqrt(under)) / square) if under > 0 else (2.0, 2.0)
    if near >= 1 or far <= 0:
        yield a, b
        return
    if near > 0:
        yield a, _between(a, b, near)
    if far < 1:
        yield _between(a, b, far), b
