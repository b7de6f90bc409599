"""A smooth curve through the points of a table: a cubic spline in plain floats.

The end pieces run on over the first and last inner knot without a break (de Boor's "not-a-knot" end), so that the
curve is not flattened where the table stops; a first slope may be given instead.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise


@dataclass(frozen=True)
class Spline:
    """Knots in rising order, the heights there, and the second derivatives that make the pieces meet smoothly."""

    knots: tuple[float, ...]
    heights: tuple[float, ...]
    bends: tuple[float, ...]

    def at(self, place: float) -> float:
        """Return the height at a place; outside the knots the end piece runs on."""
        n, a, b, step = self._piece(place)
        (low, high), (left, right) = self.heights[n : n + 2], self.bends[n : n + 2]
        return a * low + b * high + ((a**3 - a) * left + (b**3 - b) * right) * step**2 / 6

    def slope(self, place: float) -> float:
        """Return the slope at a place."""
        n, a, b, step = self._piece(place)
        (low, high), (left, right) = self.heights[n : n + 2], self.bends[n : n + 2]
        return (high - low) / step + ((3 * b**2 - 1) * right - (3 * a**2 - 1) * left) * step / 6

    def _piece(self, place: float) -> tuple[int, float, float, float]:
        """Return a piece's number, the shares of its two knots in the place, and its length."""
        n = min(max(bisect_right(self.knots, place) - 1, 0), len(self.knots) - 2)
        step = self.knots[n + 1] - self.knots[n]
        share = (place - self.knots[n]) / step
        return n, 1 - share, share, step


def through(points: Sequence[tuple[float, float]], first_slope: float | None = None) -> Spline:
    """Return the spline through four or more points in rising order, with the first slope if one is given."""
    knots, heights = zip(*points, strict=True)
    steps = [after - before for before, after in pairwise(knots)]
    rises = [(b - a) / step for (a, b), step in zip(pairwise(heights), steps, strict=True)]
    rows = [
        [before, 2 * (before + after), after, 6 * (rise_after - rise)]
        for (before, after), (rise, rise_after) in zip(pairwise(steps), pairwise(rises), strict=True)
    ]
    if first_slope is None:
        _run_on(rows[0], steps[0], steps[1])
    else:
        rows.insert(0, [0.0, 2 * steps[0], steps[0], 6 * (rises[0] - first_slope)])
    rows[-1][:3] = _mirrored(rows[-1], steps[-1], steps[-2])
    bends = _solved(rows)
    if first_slope is None:
        bends.insert(0, _beyond(bends[0], bends[1], steps[0] / steps[1]))
    bends.append(_beyond(bends[-1], bends[-2], steps[-1] / steps[-2]))
    return Spline(knots, heights, tuple(bends))


def _beyond(near: float, far: float, ratio: float) -> float:
    """Return the bend at an end whose piece runs on from the next one: the bends lie on one straight line."""
    return near + ratio * (near - far)


def _run_on(row: list[float], end: float, inner: float) -> None:
    """Put the bend of the end into the row of the first inner knot."""
    row[1] += row[0] * (1 + end / inner)
    row[2] -= row[0] * end / inner
    row[0] = 0.0


def _mirrored(row: list[float], end: float, inner: float) -> list[float]:
    """Return the same for the last inner knot."""
    turned = [row[2], row[1], row[0]]
    _run_on(turned, end, inner)
    return turned[::-1]


def _solved(rows: list[list[float]]) -> list[float]:
    """Solve rows of (before, own, after, right side), each unknown with its two neighbours."""
    for above, row in pairwise(rows):
        factor = row[0] / above[1]
        row[1] -= factor * above[2]
        row[3] -= factor * above[3]
    found = [0.0]
    for _, own, after, side in reversed(rows):
        found.append((side - after * found[-1]) / own)
    return found[:0:-1]
