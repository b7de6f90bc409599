"""Contours against a spline of the printed table by an independent library, and lengths against its integration."""

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import atan, degrees, dist, sqrt

import pytest
from scipy.integrate import quad
from scipy.interpolate import Akima1DInterpolator, CubicSpline, UnivariateSpline

from coursepack.quantity import Quantity
from coursepack.trade import airfoil
from coursepack.trade.airfoil_tables import TABLES, PrintedSection
from coursepack.trade.contour import SIDES, Airfoil, contour_mm, run_mm
from tests.published.test_airfoil_ordinates import (
    CLASSIC_STATIONS,
    HALF_A_HUNDREDTH,
    HALF_A_THOUSANDTH,
    PRINTED_STATIONS,
    Ordinates,
)
from tests.published.test_airfoil_ordinates import TABLES as PUBLISHED

HEIGHT = 0.02  # percent of the chord
ANGLE = 0.2  # degrees
# A curve that looks only at the nearest stations cannot swing; it leaves the contour by no more than this.
HEIGHT_OF_A_LOCAL_CURVE = 0.03
NOISE = 1e-6
FIFTIETH = 0.02 + NOISE  # mm

CHORD = Quantity.of(100, "mm")  # so that lengths in mm are percent of the chord
WIDTH = Quantity.of(2, "mm")
# From where the tables are dense enough; spars stand aft of this.
STATIONS = (1.25, 1.8, 3, 4, 6, 8.5, 11, 13, 17, 22, 27, 33, 37, 45, 52, 58, 64, 73, 77, 85, 88, 93, 97)
FACES = tuple(station for station in STATIONS if 5 < station < 97)
# The printed NACA tables were computed by hand and do not lie fair: a curve through every figure of theirs has
# bevels up to 0.23 degrees from those of the equation. So it is faired, as with a batten, within their rounding.
ROUNDING = {"NACA 0012": HALF_A_THOUSANDTH, "NACA 2412": HALF_A_HUNDREDTH, "NACA 4412": HALF_A_HUNDREDTH}
HELD = 1e-6  # the nose, where every contour begins
FLAT_FROM = 30.0  # the underside of Clark Y, in percent

Curve = Callable[[float], float]


def spline_of(table: Ordinates, surface: str, kind: Callable[..., Curve] = CubicSpline) -> Curve:
    """The curve through the published ordinates over the square root of the station, all in percent."""
    rows = table.rows()
    heights = [upper if surface == "upper" else lower for _, upper, lower in rows]
    curve = kind([sqrt(station) for station, _, _ in rows], heights)
    is_flat = table.section == "Clark Y" and surface == "lower"
    return lambda station: 0.0 if is_flat and station > FLAT_FROM else float(curve(sqrt(station)))


def faired(table: Ordinates, surface: str) -> Curve:
    """The smoothest curve that leaves the printed ordinates by no more than their rounding, on the whole."""
    if table.stations != PRINTED_STATIONS:
        return spline_of(table, surface)
    rows = table.rows()
    stations = [sqrt(station) for station, _, _ in rows]
    heights = [upper if surface == "upper" else lower for _, upper, lower in rows]
    doubts = [HELD, *[ROUNDING[table.section]] * (len(rows) - 1)]
    curve = UnivariateSpline(stations, heights, w=[1 / doubt for doubt in doubts], s=len(rows))
    return lambda station: float(curve(sqrt(station)))


def height(section: Airfoil, surface: str, station: float) -> float:
    found = airfoil.ordinate(section, Quantity.of(station, "%"), surface, CHORD)
    return float(found.number("mm"))


@pytest.mark.parametrize("surface", SIDES)
@pytest.mark.parametrize("table", PUBLISHED, ids=lambda table: f"{table.section}, {len(table.rows())} rows")
def test_the_contour_is_that_of_a_spline_through_the_published_table(table: Ordinates, surface: str) -> None:
    curve, section = spline_of(table, surface), airfoil.airfoil(table.section)
    for station in STATIONS:
        assert height(section, surface, station) == pytest.approx(curve(station), abs=HEIGHT)


@pytest.mark.parametrize("edge", ["top", "bottom"])
@pytest.mark.parametrize("table", PUBLISHED, ids=lambda table: f"{table.section}, {len(table.rows())} rows")
def test_bevels_are_those_of_a_spline_through_the_published_table(table: Ordinates, edge: str) -> None:
    curve, section = faired(table, airfoil.EDGES[edge]), airfoil.airfoil(table.section)
    for station in FACES:
        bevel = airfoil.spar_bevel(section, CHORD, Quantity.of(station, "%"), WIDTH, edge)
        expected = degrees(atan((curve(station + 2) - curve(station)) / 2))
        assert float(bevel.number("deg")) == pytest.approx(expected, abs=ANGLE)


@pytest.mark.parametrize("surface", SIDES)
@pytest.mark.parametrize("table", PUBLISHED, ids=lambda table: f"{table.section}, {len(table.rows())} rows")
def test_the_contour_is_that_of_the_faired_table(table: Ordinates, surface: str) -> None:
    curve, section = faired(table, surface), airfoil.airfoil(table.section)
    for station in STATIONS:
        assert height(section, surface, station) == pytest.approx(curve(station), abs=HEIGHT)


@pytest.mark.parametrize("surface", SIDES)
@pytest.mark.parametrize("table", [t for t in PUBLISHED if t.section in TABLES], ids=lambda t: str(t.section))
def test_the_contour_does_not_swing_between_the_stations_of_its_table(table: Ordinates, surface: str) -> None:
    curve, section = (
        spline_of(table, surface, Akima1DInterpolator),
        airfoil.airfoil(table.section),
    )
    for station in FACES:
        assert height(section, surface, station) == pytest.approx(curve(station), abs=HEIGHT_OF_A_LOCAL_CURVE)


# Where a table with the usual stations is less sure: percent of the chord there, ahead of its second station.
AT_THE_NOSE = {0.1: 0.4, 0.5: 0.1, 1.25: 0.01}
AFT_OF_THE_NOSE = 0.01


@pytest.mark.parametrize("code", ["0012", "2412", "4412", "4415", "23012"])
@pytest.mark.parametrize("surface", SIDES)
def test_a_table_at_the_usual_stations_gives_back_a_section_whose_equation_is_known(
    code: str, surface: str
) -> None:
    known = airfoil.airfoil(f"NACA {code}")
    stations = [float(station) for station in CLASSIC_STATIONS.split()]
    rows = [(at, height(known, "upper", at), height(known, "lower", at)) for at in stations]
    table = PrintedSection("as a table", known.datum, known.source, tuple(rows))
    for station in (*AT_THE_NOSE, *STATIONS):
        assert height(table, surface, station) == pytest.approx(
            height(known, surface, station), abs=AT_THE_NOSE.get(station, AFT_OF_THE_NOSE)
        )


def arc_by_quadrature(curve: CubicSpline, start: float, end: float) -> float:
    """Length in percent between two stations of a spline over the square root of the station."""
    slope = curve.derivative()
    found, _ = quad(
        lambda way: sqrt(4 * way**2 + float(slope(way)) ** 2), sqrt(start), sqrt(end), epsabs=1e-9, limit=200
    )
    return float(found)


@pytest.mark.parametrize(("start", "end"), [(0, 15), (0, 100), (12, 65)])
@pytest.mark.parametrize("surface", SIDES)
@pytest.mark.parametrize("name", ["USA 35-B", "RAF 15", "Goettingen 398"])
def test_the_length_of_a_contour_is_that_of_the_spline_integrated(
    name: str, surface: str, start: float, end: float
) -> None:
    table = next(table for table in PUBLISHED if table.section == name)
    heights = [upper if surface == "upper" else lower for _, upper, lower in table.rows()]
    curve = CubicSpline([sqrt(station) for station, _, _ in table.rows()], heights)
    found = airfoil.contour_length(
        airfoil.airfoil(name), CHORD, surface, Quantity.of(start, "%"), Quantity.of(end, "%")
    )
    assert float(found.number("mm")) == pytest.approx(arc_by_quadrature(curve, start, end), rel=NOISE)


@pytest.mark.parametrize("code", ["0012", "2412", "4415", "23012"])
def test_the_length_of_a_naca_contour_is_that_of_a_dense_polygon(code: str) -> None:
    section = airfoil.airfoil(f"NACA {code}")
    points = contour_mm(section, 100.0, "lower", [100 * (n / 2000) ** 2 for n in range(2001)])
    expected = sum(dist(a, b) for a, b in pairwise(points))
    found = airfoil.contour_length(section, CHORD, "lower", Quantity.of(0, "%"), Quantity.of(100, "%"))
    assert float(found.number("mm")) == pytest.approx(expected, rel=NOISE)


def off_the_lines(points: Sequence[tuple[float, float]], x: float) -> float:
    after = next(n for n, (there, _) in enumerate(points) if there >= x and n)
    (left, low), (right, high) = points[after - 1 : after + 1]
    return low + (high - low) * (x - left) / (right - left)


@pytest.mark.parametrize("name", ["Clark Y", "USA 35-B", "Goettingen 387"])
def test_a_run_of_points_follows_the_spline_within_a_fiftieth_of_a_millimetre(name: str) -> None:
    chord, table = 1500.0, next(table for table in PUBLISHED if table.section == name)
    curve = spline_of(table, "upper")
    points = run_mm(airfoil.airfoil(name), chord, ("upper", 75.0), ("upper", 1500.0))
    for station in STATIONS[4:]:
        x = chord * station / 100
        assert off_the_lines(points, x) == pytest.approx(chord * curve(station) / 100, abs=FIFTIETH)
