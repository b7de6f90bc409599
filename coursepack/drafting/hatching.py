"""Lines cut off at outlines: rings and layers that fill a part of any shape, with pockets and holes."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise

from coursepack.drafting.sheet import Line, Point, Stroke

Side = tuple[Point, Point]


@lru_cache(maxsize=64)  # a sheet and its key draw the same section
def within(stroke: Stroke, outlines: tuple[Line, ...]) -> Stroke:
    """Keep what of some lines lies inside outlines; inside two of them is outside again, as in a hole."""
    sides = tuple(side for line in outlines for side in zip(line, (*line[1:], line[0]), strict=True))
    return Stroke(stroke.kind, tuple(kept for line in stroke.lines for kept in _kept(line, sides)))


def _kept(line: Line, sides: tuple[Side, ...]) -> Iterator[Line]:
    run: Line = ()
    for start, end in _pieces(line, sides):
        if not _is_inside(_between(start, end, 0.5), sides):
            continue
        if run and run[-1] == start:
            run = (*run, end)
            continue
        if run:
            yield run
        run = (start, end)
    if run:
        yield run


def _pieces(line: Line, sides: tuple[Side, ...]) -> Iterator[Side]:
    """Cut a polyline wherever it meets a side."""
    for start, end in pairwise(line):
        cuts = sorted(cut for side in sides for cut in _cuts(start, end, side))
        points = [start, *(_between(start, end, cut) for cut in cuts), end]
        yield from pairwise(points)


def _cuts(start: Point, end: Point, side: Side) -> Iterator[float]:
    """Give the share of the way from start to end at which a segment crosses a side, where it does."""
    (x, y), (ax, ay), (bx, by) = start, *side
    dx, dy, sx, sy = end[0] - x, end[1] - y, bx - ax, by - ay
    turn = dx * sy - dy * sx
    if turn == 0:
        return
    along, across = ((ax - x) * sy - (ay - y) * sx) / turn, ((ax - x) * dy - (ay - y) * dx) / turn
    if 0 < along < 1 and 0 <= across <= 1:
        yield along


def _is_inside(point: Point, sides: tuple[Side, ...]) -> bool:
    """Whether a line from a point to the far right crosses an odd number of sides."""
    x, y = point
    inside = False
    for (ax, ay), (bx, by) in sides:
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            inside = not inside
    return inside


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share
