"""Classic wing sections from their published tables: station, upper and lower ordinate, in percent of the chord.

Between the printed stations the contour is a cubic spline over the square root of the station, one for each surface:
round at the nose, smooth aft. Tried on sections whose equation is known, it is within 0.01 % of the chord aft of
station 1.25 %, the second printed one; ahead of that it is less sure, within 0.1 % at 0.5 % and 0.4 % at 0.1 %.

Every table says what its stations and ordinates are measured from, and how it was read. Which NACA report prints
which table is known from memory only, so none is named.
"""

from dataclasses import dataclass
from functools import cached_property
from math import sqrt

from coursepack.place import TradeFault
from coursepack.trade.contour import SIDES, Airfoil
from coursepack.trade.outline import Point
from coursepack.trade.spline import Spline, through

Row = tuple[float, float, float]

_COLLECTION = "read in the UIUC airfoil coordinate collection, file "
_CLOSED = "; the file closes the trailing edge to a point"


@dataclass(frozen=True)
class PrintedSection(Airfoil):
    """A section from a table; `flat_from` is the station in percent aft of which the underside is a straight line."""

    rows: tuple[Row, ...]
    flat_from: float | None = None
    radius: float | None = None

    def point(self, way: float) -> Point:
        """Return the station and the ordinate at a way; the way squared is the station."""
        if way >= 0:
            return way**2, self._upper.at(way)
        return way**2, self.rows[-1][2] / 100 if way < self._lower.knots[0] else self._lower.at(way)

    def way_to(self, station: float, surface: str) -> float:
        """Return the way to a station."""
        return SIDES[surface] * sqrt(station)

    def nose_radius(self) -> float:
        """Return the published radius; raises TradeFault where there is none, for the ordinates do not settle it."""
        if self.radius is None:
            raise TradeFault(
                f"no nose radius is published here for {self.name}",
                f"known for: {', '.join(name for name, section in TABLES.items() if section.radius)} and NACA sections",
            )
        return self.radius / 100

    @cached_property
    def _upper(self) -> Spline:
        return through([(sqrt(station / 100), upper / 100) for station, upper, _ in self.rows])

    @cached_property
    def _lower(self) -> Spline:
        """The underside over ways below zero; it meets a flat part without a break."""
        last = 100.0 if self.flat_from is None else self.flat_from
        points = [(-sqrt(station / 100), lower / 100) for station, _, lower in self.rows if station <= last]
        return through(points[::-1], first_slope=None if self.flat_from is None else 0.0)


_CLARK_Y = PrintedSection(
    "Clark Y",
    "stations along the flat underside and ordinates above it",
    "second-hand copy of the published table, referred to the flat underside; the nose radius is from memory",
    (
        (0, 3.5, 3.5), (1.25, 5.45, 1.93), (2.5, 6.5, 1.47), (5, 7.9, 0.93), (7.5, 8.85, 0.63), (10, 9.6, 0.42),
        (15, 10.68, 0.15), (20, 11.36, 0.03), (30, 11.7, 0), (40, 11.4, 0), (50, 10.52, 0), (60, 9.15, 0),
        (70, 7.35, 0), (80, 5.22, 0), (90, 2.8, 0), (95, 1.49, 0), (100, 0.12, 0),
    ),
    flat_from=30,
    radius=1.50,
)  # fmt: skip

_USA_35_B = PrintedSection(
    "USA 35-B",
    "a line through the leading edge along the nearly flat underside",
    _COLLECTION + "usa35b.dat",
    (
        (0, 0, 0), (1.25, 2.39, -1.73), (2.5, 3.35, -2.13), (5, 4.76, -2.48), (7.5, 5.89, -2.62), (10, 6.69, -2.69),
        (15, 7.8, -2.76), (20, 8.52, -2.7), (30, 9, -2.61), (40, 8.66, -2.5), (50, 7.57, -2.37), (60, 6.05, -2.31),
        (70, 4.32, -2.34), (80, 2.26, -2.41), (90, -0.04, -2.56), (95, -1.26, -2.64), (100, -2.51, -2.76),
    ),
)  # fmt: skip

# Another file, nacam6.dat, has +0.26 for the last lower ordinate; -0.26 fits its neighbours and the upper one.
_M_6 = PrintedSection(
    "M-6",
    "chord line",
    _COLLECTION + "m6.dat",
    (
        (0, 0, 0), (1.25, 1.97, -1.76), (2.5, 2.81, -2.2), (5, 4.03, -2.73), (7.5, 4.94, -3.03), (10, 5.71, -3.24),
        (15, 6.82, -3.47), (20, 7.55, -3.62), (30, 8.22, -3.79), (40, 8.05, -3.9), (50, 7.26, -3.94), (60, 6.03, -3.82),
        (70, 4.58, -3.48), (80, 3.06, -2.83), (90, 1.55, -1.77), (95, 0.88, -1.08), (100, 0.26, -0.26),
    ),
)  # fmt: skip

_RAF_15 = PrintedSection(
    "RAF 15",
    "chord line",
    _COLLECTION + "raf15.dat" + _CLOSED,
    (
        (0, 0, 0), (1.25, 1.858, -0.792), (2.5, 2.556, -1.044), (5, 3.471, -1.349), (10, 4.592, -1.478),
        (15, 5.203, -1.287), (20, 5.524, -0.906), (30, 5.566, -0.354), (40, 5.318, -0.292), (50, 4.88, -0.54),
        (60, 4.332, -0.858), (70, 3.664, -1.066), (80, 2.846, -0.974), (90, 1.808, -0.792), (95, 1.199, -0.651),
        (100, 0, 0),
    ),
)  # fmt: skip

_GOETTINGEN_387 = PrintedSection(
    "Goettingen 387",
    "chord line",
    _COLLECTION + "goe387.dat" + _CLOSED,
    (
        (0, 0, 0), (1.25, 3.088, -1.862), (2.5, 4.526, -2.174), (5, 6.452, -2.497), (7.5, 7.879, -2.721),
        (10, 9.055, -2.795), (15, 10.658, -2.743), (20, 11.81, -2.59), (30, 12.765, -2.085), (40, 12.62, -1.58),
        (50, 11.675, -1.225), (60, 9.98, -0.87), (70, 7.835, -0.615), (80, 5.39, -0.46), (90, 2.795, -0.305),
        (95, 1.447, -0.252), (100, 0, 0),
    ),
)  # fmt: skip

_GOETTINGEN_398 = PrintedSection(
    "Goettingen 398",
    "chord line",
    _COLLECTION + "goe398.dat" + _CLOSED,
    (
        (0, 0, 0), (1.25, 3.435, -1.215), (2.5, 4.57, -1.68), (5, 6.19, -2.16), (7.5, 7.51, -2.39), (10, 8.58, -2.52),
        (15, 10.02, -2.58), (20, 10.91, -2.44), (30, 11.69, -2.16), (40, 11.47, -1.767), (50, 10.7, -1.35),
        (60, 9.28, -0.97), (70, 7.41, -0.69), (80, 5.19, -0.51), (90, 2.77, -0.33), (95, 1.46, -0.29), (100, 0, 0),
    ),
)  # fmt: skip

TABLES = {
    section.name: section
    for section in (_CLARK_Y, _USA_35_B, _M_6, _RAF_15, _GOETTINGEN_387, _GOETTINGEN_398)
}
