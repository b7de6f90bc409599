"""Wing sections: what they do not take, and laws that hold for every chord, station and unit."""

import pickle
import re
from fractions import Fraction
from itertools import pairwise
from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coursepack.formulatext import read
from coursepack.place import FormulaFault, TradeFault
from coursepack.quantity import Quantity
from coursepack.trade import airfoil, spar
from coursepack.trade.airfoil_tables import TABLES
from coursepack.trade.catalogue import FUNCTIONS
from coursepack.trade.contour import SIDES, Airfoil, contour_mm, run_mm, spar_corners_mm
from coursepack.trade.naca import of_code
from coursepack.working import work

# Floats lose a little each way.
NOISE = 1e-9

FAULTS = {
    'spar_height(naca(2412), "0 in", "15 %")': "chord is 0 in; chord must be above zero",
    'nose_radius(naca(2412), "0 in")': "chord is 0 in; chord must be above zero",
    'spar_height(naca(2412), "48 in", "101 %")': (
        "station is 101 %; station must be from 0 % to 100 % of the chord, or a length from 0 to 48 in"
    ),
    'spar_height(naca(2412), "48 in", 15)': (
        "station is 15; station must be from 0 % to 100 % of the chord, or a length from 0 to 48 in"
    ),
    'ordinate(naca(2412), "-1 in", "upper", "48 in")': (
        "station is -1 in; station must be from 0 % to 100 % of the chord, or a length from 0 to 48 in"
    ),
    'contour_length(naca(2412), "48 in", "upper", "0 %", "4 ft 1 in")': (
        "end is 49 in; end must be from 0 % to 100 % of the chord, or a length from 0 to 48 in"
    ),
    'spar_height(naca(2412), "48 in", "15 deg")': (
        'station is an angle, not a station; write one such as "15 %" or "7 1/4 in"'
    ),
    'spar_bevel(naca(2412), "50 in", "99 %", "1 in", "top")': (
        "the rear face stands at 101 % of the chord; the whole spar must stand on the chord"
    ),
    'blank_height(naca(2412), "50 in", "15 %", "0 in")': "width is 0 in; width must be above zero",
    'nose_radius(airfoil("M-6"), "48 in")': (
        "no nose radius is published here for M-6; known for: Clark Y and NACA sections"
    ),
    "naca(24.5)": "code is 24.5; a section has four or five digits, as 2412 or 23012",
    "naca(-2412)": "code is -2412; a section has four or five digits, as 2412 or 23012",
    "naca(641212)": "'641212' is no NACA section; a section has four or five digits, as 2412 or 23012",
    "naca(2400)": (
        "the last two digits of NACA 2400 give its thickness in percent; they must be from 01 to 30"
    ),
    "naca(2012)": (
        "the first two digits of NACA 2012 give its camber in percent and where it is, in tenths; "
        "both must be above 0, or both 0 for a symmetric section"
    ),
    "naca(23112)": (
        "NACA 23112 has no mean line here; the second digit must be from 1 to 5, the third 0 (no reflex)"
    ),
    'naca("12 in")': "code is a length, not a plain number; write one such as 3",
    'airfoil("Clarke Y")': "section 'Clarke Y' is not known; did you mean 'Clark Y'?",
}


@pytest.mark.parametrize("formula", FAULTS)
def test_an_impossible_section_or_station_is_a_fault_that_says_what_is_allowed(formula: str) -> None:
    with pytest.raises(FormulaFault, match=f"^{re.escape(FAULTS[formula])}$"):
        work(read(formula, FUNCTIONS), {})


CODES = st.builds(
    lambda camber, peak, thick: f"{camber}{peak if camber else 0}{thick:02d}",
    st.integers(0, 6), st.integers(2, 6), st.integers(6, 24),
)  # fmt: skip
FIVE_DIGIT_CODES = st.builds(
    lambda second, thick: f"2{second}0{thick:02d}", st.integers(1, 5), st.integers(6, 24)
)
SECTIONS = st.one_of(
    st.sampled_from(tuple(TABLES.values())), CODES.map(of_code), FIVE_DIGIT_CODES.map(of_code)
)
SURFACES = st.sampled_from(tuple(SIDES))
CHORDS = st.fractions(12, 96, max_denominator=16).map(lambda value: Quantity.of(value, "in"))
STATIONS = st.fractions(0, 98, max_denominator=8).map(lambda value: Quantity.of(value, "%"))
SPAR_STATIONS = st.fractions(5, 90, max_denominator=8).map(lambda value: Quantity.of(value, "%"))
WIDTHS = st.fractions(Fraction(1, 4), 1, max_denominator=16).map(lambda value: Quantity.of(value, "in"))


def number(quantity: Quantity, unit: str) -> float:
    return float(quantity.number(unit))


@given(section=SECTIONS, surface=SURFACES, station=STATIONS, chord=CHORDS, times=st.integers(2, 9))
def test_ordinates_grow_with_the_chord(
    section: Airfoil, surface: str, station: Quantity, chord: Quantity, times: int
) -> None:
    once = airfoil.ordinate(section, station, surface, chord)
    often = airfoil.ordinate(section, station, surface, chord * Quantity.of(times))
    assert number(often, "in") == pytest.approx(times * number(once, "in"), abs=NOISE)


@given(section=SECTIONS, surface=SURFACES, station=STATIONS, chord=CHORDS)
def test_a_station_may_be_a_share_or_a_length_in_any_unit(
    section: Airfoil, surface: str, station: Quantity, chord: Quantity
) -> None:
    share = airfoil.ordinate(section, station, surface, chord)
    length = airfoil.ordinate(section, (chord * station).to("mm"), surface, chord.to("ft"))
    assert length.unit_name == "ft"
    assert number(length, "in") == pytest.approx(number(share, "in"), abs=NOISE)


@given(section=SECTIONS, chord=CHORDS, station=SPAR_STATIONS, width=WIDTHS)
def test_a_spar_does_not_depend_on_the_unit(
    section: Airfoil, chord: Quantity, station: Quantity, width: Quantity
) -> None:
    for edge in airfoil.EDGES:
        inch = airfoil.spar_bevel(section, chord, station, width, edge)
        metric = airfoil.spar_bevel(section, chord.to("mm"), station, width.to("mm"), edge)
        assert number(metric, "deg") == pytest.approx(number(inch, "deg"), abs=1e-6)


@given(thick=st.integers(6, 24), chord=CHORDS, station=SPAR_STATIONS, width=WIDTHS)
def test_a_symmetric_section_has_opposite_bevels(
    thick: int, chord: Quantity, station: Quantity, width: Quantity
) -> None:
    top, bottom = (
        airfoil.spar_bevel(of_code(f"00{thick:02d}"), chord, station, width, edge) for edge in airfoil.EDGES
    )
    assert number(top, "deg") == pytest.approx(-number(bottom, "deg"), abs=NOISE)


@given(section=SECTIONS, chord=CHORDS, station=SPAR_STATIONS, width=WIDTHS)
def test_front_and_bevels_give_the_rear_face_and_the_blank_holds_both(
    section: Airfoil, chord: Quantity, station: Quantity, width: Quantity
) -> None:
    front = airfoil.spar_height(section, chord, station)
    rear = airfoil.spar_height(section, chord, station + width / chord)
    bevels = (airfoil.spar_bevel(section, chord, station, width, edge) for edge in airfoil.EDGES)
    assert number(spar.rear_face(front, width, *bevels), "in") == pytest.approx(number(rear, "in"), abs=1e-7)
    blank = number(airfoil.blank_height(section, chord, station, width), "in")
    assert blank >= max(number(front, "in"), number(rear, "in")) - NOISE


@given(section=SECTIONS, surface=SURFACES, middle=st.integers(1, 99))
def test_lengths_along_the_contour_add_up_and_exceed_the_straight_line(
    section: Airfoil, surface: str, middle: int
) -> None:
    chord, stops = Quantity.of(100, "mm"), [Quantity.of(share, "%") for share in (0, middle, 100)]
    fore, aft, whole = (
        number(airfoil.contour_length(section, chord, surface, stops[a], stops[b]), "mm")
        for a, b in ((0, 1), (1, 2), (0, 2))
    )
    assert fore + aft == pytest.approx(whole, rel=1e-6)
    ends = contour_mm(section, 100.0, surface, (0.0, 100.0))
    assert whole > dist(*ends)


@given(section=SECTIONS, top=st.floats(300, 900), bottom=st.floats(300, 900))
def test_a_run_goes_round_the_nose_from_spot_to_spot_and_is_dense_there(
    section: Airfoil, top: float, bottom: float
) -> None:
    points = run_mm(section, 1200.0, ("upper", top), ("lower", bottom))
    assert points[0] == pytest.approx(contour_mm(section, 1200.0, "upper", (top,))[0], abs=1e-6)
    assert points[-1] == pytest.approx(contour_mm(section, 1200.0, "lower", (bottom,))[0], abs=1e-6)
    nose = next(n for n, (x, _) in enumerate(points) if x == 0)
    gaps = [dist(a, b) for a, b in pairwise(points)]
    assert max(gaps[nose - 1 : nose + 1]) < max(gaps)


@pytest.mark.parametrize("within", [0.5, 0.02])
def test_a_run_keeps_as_close_to_the_contour_as_asked(within: float) -> None:
    section = of_code("4415")
    rough = run_mm(section, 1500.0, ("upper", 0.0), ("upper", 1500.0), within)
    fine = contour_mm(section, 1500.0, "upper", list(range(5, 1500, 7)))
    for x, y in fine:
        (left, low), (right, high) = next((a, b) for a, b in pairwise(rough) if a[0] <= x <= b[0])
        assert low + (high - low) * (x - left) / (right - left) == pytest.approx(y, abs=1.5 * within)


def test_a_code_may_be_a_number_or_a_name() -> None:
    assert work(read('naca("0012")', FUNCTIONS), {}) == airfoil.airfoil("NACA 0012") == of_code("0012")
    assert work(read("naca(23012)", FUNCTIONS), {}) == airfoil.airfoil("naca 23012")


def test_a_name_is_known_whatever_its_capitals() -> None:
    assert airfoil.airfoil("clark y") == airfoil.airfoil("Clark Y")


def test_a_section_says_its_datum() -> None:
    assert str(airfoil.airfoil("Clark Y")) == (
        "Clark Y, stations along the flat underside and ordinates above it"
    )
    assert str(of_code("2412")) == "NACA 2412, chord line, open trailing edge"


@pytest.mark.parametrize("name", airfoil.NAMES)
def test_a_section_is_the_same_in_another_process(name: str) -> None:
    section = airfoil.airfoil(name)
    again = pickle.loads(pickle.dumps(section))  # noqa: S301 - made on this line
    assert again == section
    assert again.ordinate(0.15, "upper") == section.ordinate(0.15, "upper")


@pytest.mark.parametrize("surface", SIDES)
def test_the_contour_begins_at_the_leading_edge_though_the_upper_nose_reaches_ahead_of_it(
    surface: str,
) -> None:
    assert contour_mm(of_code("4415"), 1500.0, surface, (0.0,)) == ((0.0, 0.0),)
    foremost = min(x for x, _ in run_mm(of_code("4415"), 1500.0, ("upper", 150.0), ("lower", 150.0)))
    # 1.4845 t is the width of the nose at a mean line of slope 0.2; its front is (1.4845 t sin)² / 4 ahead.
    assert foremost == pytest.approx(-1500 * (1.4845 * 0.15 * 0.1961) ** 2 / 4, rel=0.05)


def test_an_underside_that_is_flat_is_level_and_joins_without_a_break() -> None:
    clark_y = airfoil.airfoil("Clark Y")
    heights = [y for _, y in contour_mm(clark_y, 1000.0, "lower", [298, 299, 300, 301, 650, 1000])]
    assert heights[2:] == [0.0] * 4
    assert heights[0] == pytest.approx(0, abs=0.001)


@pytest.mark.parametrize(("chord", "station"), [(0.0, 10.0), (-5.0, 10.0), (1500.0, -1.0), (1500.0, 1501.0)])
def test_a_drawing_off_the_chord_is_a_fault(chord: float, station: float) -> None:
    match = "a chord above zero" if chord <= 0 else "off the chord; stations go from 0 to 1500 mm"
    with pytest.raises(TradeFault, match=match):
        contour_mm(of_code("2412"), chord, "upper", (station,))
    with pytest.raises(TradeFault, match=match):
        spar_corners_mm(of_code("2412"), chord, station, 20.0)
