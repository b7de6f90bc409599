"""The line where a part is broken off, on paper in mm: a wave of short straight strokes, after ISO 128."""

from collections.abc import Iterable
from itertools import pairwise
from math import dist
from operator import itemgetter

from coursepack.drafting.sheet import Line, Point

TOOTH_MM, WAVE_MM = 0.8, 3.0  # how far the wave goes to either side, and the length of a stroke along it


def torn(*path: Point) -> Line:
    """Return a line along some corners, waved between each two of them; it begins and ends on the corners."""
    points = [path[0]]
    for start, end in pairwise(path):
        size = dist(start, end)
        strokes = max(3, round(size / WAVE_MM))
        u, v = (end[0] - start[0]) / size, (end[1] - start[1]) / size
        for number in range(1, strokes):
            along, aside = size * number / strokes, TOOTH_MM if number % 2 else -TOOTH_MM
            points.append((start[0] + along * u - aside * v, start[1] + along * v + aside * u))
        points.append(end)
    return tuple(points)


def level_line(edges: Iterable[Line], y: float) -> Line:
    """Return a level line that ends on upright edges where each is broken off."""
    return tuple((_met(edge, y), y) for edge in edges)


def _met(edge: Line, y: float) -> float:
    """Return where an edge that rises or falls all along is at a height."""
    for (x, low), (to_x, high) in pairwise(sorted(edge, key=itemgetter(1))):
        if low <= y <= high:
            return x + (to_x - x) * (y - low) / (high - low)
    raise ValueError(f"an edge that is broken off does not reach {y:g}")
