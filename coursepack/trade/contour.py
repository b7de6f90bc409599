"""The contour of a wing section, and what is laid out on it, in plain floats.

A section is drawn on its datum line: station 0 at the leading edge, stations run aft along the datum, ordinates
stand square to it and are positive upward. An `Airfoil` knows its contour in shares of the chord; the functions
whose names end in `_mm` give points in millimetres. Plane geometry, no source needed.

A place on the contour is found by its `way`: the square root of the share of the chord that lies before it (of the
mean line for sections from equations), counted positive on the upper surface and negative on the lower. Equal steps
of it crowd at the nose, where the contour is round.
"""

from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist
from typing import ClassVar

from coursepack.formula import Shape
from coursepack.place import TradeFault
from coursepack.trade.outline import Point

SIDES = {"upper": 1.0, "lower": -1.0}  # the sign of the way on each surface
Spot = tuple[str, float]  # a surface and a station in mm

_PIECES = 256
_FIRST_PIECES = 16
_MOST_HALVINGS = 10
_NOISE = 1e-9


@dataclass(frozen=True)
class Airfoil(Shape, ABC):
    """A wing section: its name, the datum of its stations and ordinates, and where its numbers come from."""

    kind: ClassVar[str] = "airfoil"
    name: str
    datum: str
    source: str

    @abstractmethod
    def point(self, way: float) -> Point:
        """Return the station and the ordinate at a way, in shares of the chord."""

    @abstractmethod
    def way_to(self, station: float, surface: str) -> float:
        """Return the way to a station from 0 to 1 on the upper or lower surface."""

    @abstractmethod
    def nose_radius(self) -> float:
        """Return the radius of the nose in shares of the chord; raises TradeFault where none is published."""

    def ordinate(self, station: float, surface: str) -> float:
        """Return the ordinate at a station from 0 to 1, in shares of the chord."""
        return self.point(self.way_to(station, surface))[1]

    def length(self, start: float, end: float, surface: str) -> float:
        """Return the length along one surface between two stations, in shares of the chord.

        Two inscribed polygons give it: the error of a polygon falls with the square of the number of its sides.
        """
        ways = self.way_to(start, surface), self.way_to(end, surface)
        coarse, fine = (self._polygon(*ways, sides) for sides in (_PIECES, 2 * _PIECES))
        return fine + (fine - coarse) / 3

    def _polygon(self, start: float, end: float, sides: int) -> float:
        points = [self.point(way) for way in _spaced(start, end, sides)]
        return sum(dist(before, after) for before, after in pairwise(points))

    def __str__(self) -> str:
        return f"{self.name}, {self.datum}"


def contour_mm(
    airfoil: Airfoil, chord_mm: float, surface: str, stations_mm: Sequence[float]
) -> tuple[Point, ...]:
    """Points of one surface, 'upper' or 'lower', at stations in mm from the leading edge.

    Raises TradeFault for a chord that is not above zero and for a station off the chord.
    """
    return tuple(
        (station, chord_mm * airfoil.ordinate(_share(chord_mm, station), surface)) for station in stations_mm
    )


def run_mm(
    airfoil: Airfoil, chord_mm: float, start: Spot, end: Spot, within_mm: float = 0.02
) -> tuple[Point, ...]:
    """Points along the contour from one spot to another, through the nose where the surfaces differ.

    They are spaced so that the straight lines between them leave the contour by no more than `within_mm`. Raises
    TradeFault for a chord that is not above zero and for a station off the chord.
    """
    ways = [airfoil.way_to(_share(chord_mm, station), surface) for surface, station in (start, end)]
    turn = [0.0] if start[0] != end[0] else []
    stops = [ways[0], *turn, ways[1]]
    within = within_mm / chord_mm
    run = [airfoil.point(ways[0])]
    for before, after in pairwise(stops):
        steps = _spaced(before, after, _FIRST_PIECES)
        for near, far in pairwise(steps):
            run += _between(airfoil, near, far, within, _MOST_HALVINGS)
    return tuple((chord_mm * x, chord_mm * y) for x, y in run)


def spar_corners_mm(
    airfoil: Airfoil, chord_mm: float, station_mm: float, width_mm: float
) -> tuple[Point, ...]:
    """Corners of a spar out to the contour: lower front, lower rear, upper rear, upper front.

    Its faces stand square to the datum, the front one at the station. Raises TradeFault for a chord that is not
    above zero and for a face off the chord.
    """
    faces = (station_mm, station_mm + width_mm)
    lower, upper = (contour_mm(airfoil, chord_mm, surface, faces) for surface in ("lower", "upper"))
    return (*lower, *reversed(upper))


def _share(chord_mm: float, station_mm: float) -> float:
    if chord_mm <= 0:
        raise TradeFault("a section needs a chord above zero", "give its length in mm")
    share = station_mm / chord_mm
    if not -_NOISE <= share <= 1 + _NOISE:
        raise TradeFault(
            f"station {station_mm:g} mm is off the chord", f"stations go from 0 to {chord_mm:g} mm"
        )
    return min(max(share, 0.0), 1.0)


def _spaced(start: float, end: float, pieces: int) -> list[float]:
    return [start + (end - start) * number / pieces for number in range(pieces + 1)]


def _between(airfoil: Airfoil, near: float, far: float, within: float, halvings: int) -> list[Point]:
    """Return the points after `near` up to `far`, halving until the lines lie close enough to the contour."""
    middle = (near + far) / 2
    if not halvings or _off(airfoil.point(near), airfoil.point(middle), airfoil.point(far)) <= within:
        return [airfoil.point(far)]
    return [
        *_between(airfoil, near, middle, within, halvings - 1),
        *_between(airfoil, middle, far, within, halvings - 1),
    ]


def _off(start: Point, between: Point, end: Point) -> float:
    """Return the distance of a point from the line between two others."""
    base = dist(start, end)
    if not base:
        return dist(start, between)
    (ax, ay), (bx, by) = ((x - start[0], y - start[1]) for x, y in (end, between))
    return abs(ax * by - ay * bx) / base
