"""Spars in published wing sections; their faces and bevels were worked apart from this program."""

import pytest

from coursepack.quantity import Quantity
from coursepack.trade import airfoil, spar
from coursepack.trade.contour import spar_corners_mm

# Heights are given to a millionth, angles to a millionth of a degree.
MILLIONTHS = 3e-6

# Section, unit, spar width, heights of the front and rear faces, top and bottom bevel in degrees.
SPARS = (
    ("NACA 0012", "mm", 20, 118.824844, 119.614308, 1.130677, -1.130677),
    ("NACA 2412", "in", 0.875, 5.762713, 5.928743, 8.630783, -2.174099),
    ("NACA 4412", "in", 1.0, 6.460218, 6.642356, 11.531119, 1.253429),
    ("NACA 23012", "mm", 25, 155.009713, 159.681729, 4.781177, -5.894284),
    ("Clark Y", "mm", 20, 124.456788, 120.795838, -10.373013, 0.0),
    ("USA 35-B", "in", 0.75, 5.071361, 4.948364, -9.415872, -0.105303),
    ("RAF 15", "in", 1.0, 3.91815, 4.015244, 7.355346, 1.832344),
    ("NACA 2412 thin spar", "mm", 6, 32.128612, 33.223114, 8.379137, -2.011515),
)

# Upper ordinates at the front and rear face, in mm or in, spar width, top bevel.
TOPS = (
    (59.412422, 59.807154, 20.0, 1.130677),
    (3.551924, 3.684736, 0.875, 8.630783),
    (4.732792, 4.93681, 1.0, 11.531119),
    (104.164469, 106.255506, 25.0, 4.781177),
    (124.456788, 120.795838, 20.0, -10.373013),
    (3.615598, 3.491223, 0.75, -9.415872),
)
# Ordinates to a millionth of a unit over a width of one leave this many degrees open.
ANGLE_DIGITS = 1e-4


@pytest.mark.parametrize("case", SPARS, ids=lambda case: str(case[0]))
def test_the_rear_face_is_what_the_bevels_make_of_the_front(
    case: tuple[str, str, float, float, float, float, float],
) -> None:
    _, unit, width, front, rear, top, bottom = case
    found = spar.rear_face(
        Quantity.of(front, unit),
        Quantity.of(float(width), unit),
        Quantity.of(top, "deg"),
        Quantity.of(bottom, "deg"),
    )
    assert float(found.number(unit)) == pytest.approx(rear, abs=MILLIONTHS)


@pytest.mark.parametrize(("front", "rear", "width", "degrees"), TOPS)
def test_the_bevel_is_the_angle_of_the_straight_line_between_the_faces(
    front: float, rear: float, width: float, degrees: float
) -> None:
    found = spar.bevel_angle(Quantity.of(rear - front, "mm"), Quantity.of(width, "mm"))
    assert float(found.number("deg")) == pytest.approx(degrees, abs=ANGLE_DIGITS)
    drop = spar.bevel_drop(Quantity.of(width, "mm"), Quantity.of(degrees, "deg"))
    assert float(drop.number("mm")) == pytest.approx(rear - front, abs=MILLIONTHS)


# Section, unit, capstrip, bevels in degrees, front face bare and under the strips.
CAPSTRIPS = (
    ("NACA 0012", "mm", 5.0, 1.130677, -1.130677, 118.824844, 108.822896),
    ("NACA 2412", "in", 0.1875, 8.630783, -2.174099, 5.762713, 5.38543),
    ("NACA 4412", "in", 0.1875, 11.531119, 1.253429, 6.460218, 6.081311),
    ("NACA 23012", "mm", 5.0, 4.781177, -5.894284, 155.009713, 144.965679),
    ("Clark Y", "mm", 5.0, -10.373013, 0.0, 124.456788, 114.373712),
    ("USA 35-B", "in", 0.1875, -9.415872, -0.105303, 5.071361, 4.6938),
    ("RAF 15", "in", 0.1875, 7.355346, 1.832344, 3.91815, 3.541499),
    ("NACA 2412 thin spar", "mm", 5.0, 8.379137, -2.011515, 32.128612, 22.07158),
)


@pytest.mark.parametrize("case", CAPSTRIPS, ids=lambda case: str(case[0]))
def test_capstrips_take_their_thickness_square_to_both_edges(
    case: tuple[str, str, float, float, float, float, float],
) -> None:
    _, unit, strip, top, bottom, bare, under = case
    found = spar.capstrip_allowance(
        Quantity.of(strip, unit), Quantity.of(top, "deg"), Quantity.of(bottom, "deg")
    )
    assert float(found.number(unit)) == pytest.approx(bare - under, abs=MILLIONTHS)


# Section, unit, chord, station of the front face, spar width, ordinates of the corners (lower front, lower rear,
# upper rear, upper front), top and bottom bevel in degrees, height of the blank. NACA sections by their equation,
# the others by a cubic spline of their table over the square root of the station, worked with other software.
STANDING = (
    (
        "NACA 0012", "mm", 1000.0, 250.0, 20.0,
        (-59.412422, -59.807154, 59.807154, 59.412422),
        1.130677, -1.130677, 119.614308,
    ),
    (
        "NACA 2412", "in", 54.0, 8.0, 0.875,
        (-2.210789, -2.244007, 3.684736, 3.551924),
        8.630783, -2.174099, 5.928743,
    ),
    (
        "NACA 4412", "in", 60.0, 9.0, 1.0,
        (-1.727427, -1.705547, 4.93681, 4.732792),
        11.531119, 1.253429, 6.664236,
    ),
    (
        "NACA 23012", "mm", 1450.0, 217.5, 25.0,
        (-50.845244, -53.426223, 106.255506, 104.164469),
        4.781177, -5.894284, 159.681729,
    ),
    (
        "Clark Y", "mm", 1500.0, 975.0, 20.0,
        (0.0, 0.0, 120.795838, 124.456788),
        -10.373013, 0.0, 124.456788,
    ),
    (
        "USA 35-B", "in", 63.0, 39.0, 0.75,
        (-1.455763, -1.457141, 3.491223, 3.615598),
        -9.415872, -0.105303, 5.072739,
    ),
    (
        "RAF 15", "in", 63.0, 7.0, 1.0,
        (-0.918806, -0.886815, 3.128429, 2.999344),
        7.355346, 1.832344, 4.047235,
    ),
    (
        "NACA 2412", "mm", 300.0, 45.0, 6.0,
        (-12.30644, -12.517172, 20.705942, 19.822172),
        8.379137, -2.011515, 33.223114,
    ),
)  # fmt: skip
Standing = tuple[str, str, float, float, float, tuple[float, ...], float, float, float]


@pytest.mark.parametrize("case", STANDING, ids=lambda case: f"{case[0]} at {case[3]} {case[1]}")
def test_the_corners_of_a_spar_stand_on_the_contour(case: Standing) -> None:
    name, _, chord, station, width, ordinates, *_ = case
    corners = spar_corners_mm(airfoil.airfoil(name), chord, station, width)
    assert [x for x, _ in corners] == [station, station + width, station + width, station]
    assert [y for _, y in corners] == pytest.approx(ordinates, abs=MILLIONTHS)


@pytest.mark.parametrize("case", STANDING, ids=lambda case: f"{case[0]} at {case[3]} {case[1]}")
def test_a_spar_has_the_heights_the_bevels_and_the_blank_of_its_section(case: Standing) -> None:
    name, unit, *lengths, (low, low_rear, high_rear, high), top, bottom, blank = case
    section = airfoil.airfoil(name)
    chord, station, width = (Quantity.of(length, unit) for length in lengths)
    front, rear = (airfoil.spar_height(section, chord, face) for face in (station, station + width))
    assert float(front.number(unit)) == pytest.approx(high - low, abs=MILLIONTHS)
    assert float(rear.number(unit)) == pytest.approx(high_rear - low_rear, abs=MILLIONTHS)
    for edge, degrees in (("top", top), ("bottom", bottom)):
        bevel = airfoil.spar_bevel(section, chord, station, width, edge)
        assert float(bevel.number("deg")) == pytest.approx(degrees, abs=MILLIONTHS)
    found = airfoil.blank_height(section, chord, station, width)
    assert float(found.number(unit)) == pytest.approx(blank, abs=MILLIONTHS)
