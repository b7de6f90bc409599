"""A line that runs beside a contour, one thickness inside it: where wood is sawn so that a strip or a skin fits on it.

Plain floats in millimetres. Plane geometry, no source needed.
"""

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

from coursepack.trade.outline import Point

Line = tuple[Point, ...]

_SHORTEST_MM = 1e-9


def inset(line: Line, by: float) -> Line:
    """Return the line that runs on the left of another at a distance in mm, measured square to it.

    The line is smooth, from short straight pieces. Where it turns more tightly than the distance, its inset has a
    corner.
    """
    points = _apart(line)
    pieces = [_square(before, after) for before, after in pairwise(points)]
    normals = [pieces[0], *(_between(*pair) for pair in pairwise(pieces)), pieces[-1]]
    return tuple((x + by * across, y + by * up) for (x, y), (across, up) in zip(points, normals, strict=True))


def unfolded(line: Line) -> Line:
    """Return a line without its loops: where it crosses itself, it turns the corner at once."""
    kept: list[Point] = []
    number = 0
    while number < len(line) - 1:
        kept.append(line[number])
        meeting = _last_crossing(line, number)
        if meeting:
            number, corner = meeting
            kept.append(corner)
        number += 1
    return (*kept, line[-1])


def _last_crossing(line: Line, number: int) -> tuple[int, Point] | None:
    """Return the last piece of a line that crosses one of its pieces, by its number, and where."""
    for other in range(len(line) - 2, number + 1, -1):
        corner = _crossing(line[number], line[number + 1], line[other], line[other + 1])
        if corner:
            return other, corner
    return None


def _crossing(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """Return where two straight pieces cross, None where they do not."""
    (ax, ay), (cx, cy) = a, c
    along, other = (b[0] - ax, b[1] - ay), (d[0] - cx, d[1] - cy)
    turn = _cross(along, other)
    if not turn:
        return None
    share = _cross((cx - ax, cy - ay), other) / turn
    if not (0 <= share <= 1 and 0 <= _cross((cx - ax, cy - ay), along) / turn <= 1):
        return None
    return ax + share * along[0], ay + share * along[1]


def _cross(one: Point, other: Point) -> float:
    return one[0] * other[1] - one[1] * other[0]


def _apart(line: Line) -> Line:
    """Return a line without points that stand twice in a row."""
    return (
        line[0],
        *(b for a, b in pairwise(line) if hypot(b[0] - a[0], b[1] - a[1]) > _SHORTEST_MM),
    )


def _square(start: Point, end: Point) -> Point:
    """Return the direction to the left of a straight piece."""
    along = end[0] - start[0], end[1] - start[1]
    size = hypot(*along)
    return -along[1] / size, along[0] / size


def _between(one: Point, other: Point) -> Point:
    """Return the direction halfway between two."""
    both = one[0] + other[0], one[1] + other[1]
    size = hypot(*both)
    return both[0] / size, both[1] / size


def cut_at(line: Line, station: float) -> Line:
    """Return what of a line lies ahead of a station in mm, from where it first comes ahead of it to where it leaves.

    A line that ends ahead of the station keeps its end.
    """
    ahead = tuple(_trimmed(line, station))
    return tuple(reversed(tuple(_trimmed(tuple(reversed(ahead)), station))))


def _trimmed(line: Line, station: float) -> Iterator[Point]:
    """Yield a line from where it first comes ahead of a station."""
    began = line[0][0] <= station
    if began:
        yield line[0]
    for (x, y), (to_x, to_y) in pairwise(line):
        if not began and to_x <= station:
            began = True
            yield station, y + (to_y - y) * (station - x) / (to_x - x)
        if began:
            yield to_x, to_y
