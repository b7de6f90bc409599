"""A wing rib as it is built: its contour, the capstrips inside it, and the openings for the spars.

Plain floats in millimetres on the datum of the wing section: station 0 at the leading edge, stations run aft,
ordinates upward. Capstrips lie against the contour from inside, so their inner line stands one thickness in from
it, measured square to it. A spar opening has straight edges from face to face, parallel to the spar's bevels, one
capstrip in from the contour. Plane geometry, no source needed; the proportions of nose and tail block are our own,
for practice ribs.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import dist, hypot, sqrt

from coursepack.place import TradeFault
from coursepack.trade.contour import SIDES, Airfoil, contour_mm, run_mm, spar_corners_mm
from coursepack.trade.outline import Point

Line = tuple[Point, ...]

NOSE_SHARE = 0.05  # of the chord, that the nose block takes
_STEP = 1e-5  # of the way, for the direction of the contour
_HALVINGS = 40
_TURNS = 100
_NEAR_MM = 1e-9


@dataclass(frozen=True)
class SparPlace:
    """Where a spar stands: the station of its front face and its width, in mm."""

    front: float
    width: float

    @property
    def rear(self) -> float:
        """Station of its rear face in mm."""
        return self.front + self.width


@dataclass(frozen=True)
class Rib:
    """A rib: its section, chord and capstrips in mm, and its spars from front to rear.

    `capstrip` is 0 for a bare contour. Raises TradeFault where the chord or a width is not above zero, spars stand
    in each other or off the chord, or the capstrips leave no height for a spar.
    """

    section: Airfoil
    chord: float
    capstrip: float = 0.0
    spars: tuple[SparPlace, ...] = ()

    def __post_init__(self) -> None:
        if self.chord <= 0 or self.capstrip < 0 or any(spar.width <= 0 for spar in self.spars):
            raise TradeFault("a rib needs a chord and spars above zero", "give sizes above zero")
        if any(after.front < before.rear for before, after in pairwise(self.spars)):
            raise TradeFault("the spars stand in each other", "give the front spar the smaller station")
        for spar in self.spars:
            lower_front, lower_rear, upper_rear, upper_front = self.opening(spar)
            if min(upper_front[1] - lower_front[1], upper_rear[1] - lower_rear[1]) <= 0:
                raise TradeFault(
                    f"two capstrips of {self.capstrip:g} mm leave no height for the spar",
                    "take thinner capstrips or another station",
                )

    def contour(self, within: float = 0.02) -> Line:
        """Return the closed contour: from the upper trailing edge through the nose to the lower one and back.

        Straight lines between its points leave the section by no more than a length in mm.
        """
        around = run_mm(self.section, self.chord, ("upper", self.chord), ("lower", self.chord), within)
        return (*around, around[0])

    def ordinate(self, surface: str, station: float) -> float:
        """Return the ordinate of the contour at a station, in mm. Raises TradeFault off the chord."""
        return contour_mm(self.section, self.chord, surface, [station])[0][1]

    def depth(self, station: float) -> float:
        """Return the height from contour to contour at a station, in mm. Raises TradeFault off the chord."""
        return self.ordinate("upper", station) - self.ordinate("lower", station)

    def opening(self, spar: SparPlace) -> Line:
        """Return the corners of a spar's opening: lower front, lower rear, upper rear, upper front."""
        corners = spar_corners_mm(self.section, self.chord, spar.front, spar.width)
        low = _moved_in(corners[0], corners[1], self.capstrip)
        high = _moved_in(corners[2], corners[3], self.capstrip)
        return (*low, *high)

    def opening_height(self, spar: SparPlace) -> float:
        """Return the height of a spar's opening at its front face, in mm."""
        low, _, _, high = self.opening(spar)
        return high[1] - low[1]

    def inside(self, surface: str, station: float) -> Point:
        """Return the point of the capstrips' inner line at a station."""
        way = self._way_inside(surface, station)
        return self._moved(way)

    def inner_line(self, surface: str, start: float, end: float, pieces: int = 60) -> Line:
        """Return the inner line of the capstrips between two stations in mm, from straight pieces."""
        first, last = (self._way_inside(surface, station) for station in (start, end))
        return tuple(self._moved(first + (last - first) * n / pieces) for n in range(pieces + 1))

    def clear_height(self, station: float) -> float:
        """Return the height between the inner lines at a station, in mm."""
        return self.inside("upper", station)[1] - self.inside("lower", station)[1]

    @property
    def nose(self) -> float:
        """Station in mm of the rear face of the nose block."""
        return NOSE_SHARE * self.chord

    @cached_property
    def tail(self) -> float:
        """Station in mm of the front face of the tail block: there the inner lines stand one capstrip apart.

        Raises TradeFault where the capstrips are too thick for the section.
        """
        low, high = (max([self.nose, *(spar.rear for spar in self.spars)]), self.chord - self.capstrip)
        if self.clear_height(low) < self.capstrip:
            raise TradeFault("the capstrips meet ahead of the tail", "take thinner capstrips")
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if self.clear_height(middle) > self.capstrip else (low, middle)
        return low

    def square_in(self, surface: str, station: float) -> tuple[Point, Point]:
        """Return the point of the contour at a station, and the direction square to it that points inside."""
        way = self.section.way_to(station / self.chord, surface)
        x, y = self.section.point(way)
        return (x * self.chord, y * self.chord), self._inward(way)

    def _moved(self, way: float) -> Point:
        (x, y), (across, up) = self.section.point(way), self._inward(way)
        return x * self.chord + across * self.capstrip, y * self.chord + up * self.capstrip

    def _inward(self, way: float) -> Point:
        """Return the direction square to the contour that points inside; ways run from the lower to the upper tail."""
        before, after = self.section.point(way - _STEP), self.section.point(way + _STEP)
        size = dist(before, after)
        return (after[1] - before[1]) / size, (before[0] - after[0]) / size

    def _way_inside(self, surface: str, station: float) -> float:
        """Return the way whose point of the inner line stands at a station, the better with each turn.

        Raises TradeFault where the inner line has no point there.
        """
        sign, share = SIDES[surface], station / self.chord
        for _ in range(_TURNS):
            way = sign * sqrt(min(max(share, 0.0), 1.0 - 4 * _STEP))
            off = station - self._moved(way)[0]
            if abs(off) < _NEAR_MM:
                return way
            share += off / self.chord
        raise TradeFault(
            f"the capstrips have no inner line at station {station:g} mm", "take thinner capstrips"
        )


def _moved_in(start: Point, end: Point, by: float) -> tuple[Point, Point]:
    """Move a spar's edge in by a distance square to it, its ends staying on the faces of the spar."""
    run = end[0] - start[0]
    up = by * hypot(run, end[1] - start[1]) / run
    return (start[0], start[1] + up), (end[0], end[1] + up)
