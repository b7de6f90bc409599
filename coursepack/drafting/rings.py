"""Growth rings on end grain: gentle arcs about a pith outside the section, clipped to it."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from math import atan2, ceil, cos, hypot, pi, radians, sin, sqrt

from coursepack.drafting.sheet import Line, Point, Stroke

# seasons differ: spacings on paper, in mm, taken in turn
SPACINGS_MM = (2.3, 1.9, 2.6, 2.1, 1.7, 2.4, 2.9, 2.0)
SAG_MM = 0.03  # of a ring over the chords that it is drawn with

Edges = tuple[tuple[Point, Point], ...]


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
    edges = tuple(zip(section, (*section[1:], section[0]), strict=True))
    towards = atan2(middle[1] - pith[1], middle[0] - pith[0])
    rings = (_ring(edges, pith, radius, towards) for radius in radii)
    return Stroke("ring", tuple(line for ring in rings for line in ring))


def _radii(nearest: float, farthest: float) -> Iterator[float]:
    radius, turn = nearest, 0
    while radius < farthest:
        yield radius
        radius += SPACINGS_MM[turn % len(SPACINGS_MM)]
        turn += 1


def _ring(edges: Edges, pith: Point, radius: float, towards: float) -> Iterator[Line]:
    """Give the parts of a ring inside the section, in short chords: between where it crosses the sides.

    Directions are reckoned from the one `towards` the middle of the section, in radians.
    """
    turns = sorted(_turn(point, pith, towards) for p, q in edges for point in _crossings(p, q, pith, radius))
    for low, high in pairwise(turns):
        if high - low > 1e-6 and _inside(edges, _on_ring(pith, radius, (low + high) / 2)):
            steps = max(2, ceil((high - low) * sqrt(radius / (8 * SAG_MM))))
            yield tuple(_on_ring(pith, radius, low + (high - low) * n / steps) for n in range(steps + 1))


def _turn(point: Point, pith: Point, from_: float) -> float:
    turn = atan2(point[1] - pith[1], point[0] - pith[0])
    return from_ + (turn - from_ + pi) % (2 * pi) - pi


def _on_ring(pith: Point, radius: float, turn: float) -> Point:
    return pith[0] + radius * cos(turn), pith[1] + radius * sin(turn)


def _inside(edges: Edges, point: Point) -> bool:
    """Whether a point lies in a convex section whose corners run anticlockwise."""
    x, y = point
    return all((q[0] - p[0]) * (y - p[1]) >= (q[1] - p[1]) * (x - p[0]) for p, q in edges)


def _crossings(p: Point, q: Point, disc: Point, radius: float) -> Iterator[Point]:
    """Give the points where a segment crosses a circle."""
    yield from (_between(p, q, part) for part in _parts(p, q, disc, radius) if 0 <= part <= 1)


def _parts(a: Point, b: Point, disc: Point, radius: float) -> tuple[float, ...]:
    """Give the roots t of |a + t (b − a) − disc| = radius, the lower first; none where the line passes by."""
    dx, dy, x, y = b[0] - a[0], b[1] - a[1], a[0] - disc[0], a[1] - disc[1]
    square, half = dx * dx + dy * dy, dx * x + dy * y
    under = half * half - square * (x * x + y * y - radius * radius)
    return ((-half - sqrt(under)) / square, (-half + sqrt(under)) / square) if under > 0 else ()


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


def _between(a: Point, b: Point, part: float) -> Point:
    return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part


def around(stroke: Stroke, discs: tuple[Point, ...], radius: float) -> Stroke:
    """Break lines off where they would run into discs, as hatching is broken for lettering."""
    chords = [(a, b) for line in stroke.lines for a, b in pairwise(line)]
    for disc in discs:
        chords = [part for a, b in chords for part in _off_disc(a, b, disc, radius)]
    return Stroke(stroke.kind, tuple(_joined(iter(chords))))


def _off_disc(a: Point, b: Point, disc: Point, radius: float) -> Iterator[tuple[Point, Point]]:
    """Give the parts of a segment outside a disc."""
    near, far = _parts(a, b, disc, radius) or (2.0, 2.0)
    if near >= 1 or far <= 0:
        yield a, b
        return
    if near > 0:
        yield a, _between(a, b, near)
    if far < 1:
        yield _between(a, b, far), b
