"""Laws that hold for every value: units do not matter, there and back is nothing, zero bevels are no bevels."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coursepack.quantity import Quantity
from coursepack.trade import machines, milling, moisture, spar, strength
from coursepack.trade.clear_wood import GREEN
from coursepack.trade.slope import combined_slope, hankinson
from coursepack.trade.wood import MOVEMENT, SHRINKAGE

# Floats lose a little each way.
NOISE = 1e-9

SIZES = st.fractions(Fraction(1, 8), 96, max_denominator=64)
ANGLES = st.integers(-20, 20).map(lambda degrees: Quantity.of(degrees, "deg"))
MOISTURES = st.fractions(0, 40, max_denominator=8).map(lambda value: Quantity.of(value, "%"))
SPECIES = st.sampled_from(SHRINKAGE.species)
ACROSS = st.sampled_from(("radial", "tangential"))


def inches(value: Fraction) -> Quantity:
    return Quantity.of(value, "in")


def number(quantity: Quantity, unit: str) -> float:
    return float(quantity.number(unit))


@given(size=SIZES, species=SPECIES, direction=ACROSS, start=MOISTURES, end=MOISTURES)
def test_shrinking_and_swelling_back_returns_the_size_exactly(
    size: Fraction, species: str, direction: str, start: Quantity, end: Quantity
) -> None:
    there = moisture.shrunk(inches(size), species, direction, start, end)
    assert moisture.shrunk(there, species, direction, end, start).value == size


@given(size=SIZES, species=SPECIES, direction=ACROSS, start=MOISTURES)
def test_a_piece_keeps_its_size_while_its_moisture_stays(
    size: Fraction, species: str, direction: str, start: Quantity
) -> None:
    assert moisture.shrunk(inches(size), species, direction, start, start) == inches(size)


@given(size=SIZES, species=SPECIES, direction=ACROSS, start=MOISTURES, end=MOISTURES)
def test_a_drier_piece_is_never_larger(
    size: Fraction, species: str, direction: str, start: Quantity, end: Quantity
) -> None:
    there = moisture.shrunk(inches(size), species, direction, start, end)
    assert (there <= inches(size)) if end <= start else (there >= inches(size))


@given(size=SIZES, species=SPECIES, direction=ACROSS, start=MOISTURES, end=MOISTURES)
def test_shrinking_does_not_depend_on_the_unit(
    size: Fraction, species: str, direction: str, start: Quantity, end: Quantity
) -> None:
    metric = moisture.shrunk(inches(size).to("mm"), species, direction, start, end)
    assert metric == moisture.shrunk(inches(size), species, direction, start, end)
    assert metric.unit_name == "mm"


@given(front=SIZES, width=SIZES)
def test_a_rear_face_with_zero_bevels_is_the_front_face(front: Fraction, width: Fraction) -> None:
    flat = Quantity.of(0, "deg")
    rear = spar.rear_face(inches(front), inches(width), flat, flat)
    assert number(rear, "in") == pytest.approx(float(front), rel=NOISE)


@given(front=SIZES, width=st.fractions(Fraction(1, 8), 1, max_denominator=64), angle=ANGLES)
def test_equal_bevels_make_a_parallelogram(front: Fraction, width: Fraction, angle: Quantity) -> None:
    rear = spar.rear_face(inches(front + 1), inches(width), angle, angle)
    assert number(rear, "in") == pytest.approx(float(front + 1), rel=NOISE)


@given(width=SIZES, angle=ANGLES)
def test_the_bevel_of_a_bevels_drop_is_the_bevel(width: Fraction, angle: Quantity) -> None:
    back = spar.bevel_angle(spar.bevel_drop(inches(width), angle), inches(width))
    assert number(back, "deg") == pytest.approx(number(angle, "deg"), abs=NOISE)


@given(width=SIZES, angle=ANGLES)
def test_a_drop_has_the_sign_of_its_bevel(width: Fraction, angle: Quantity) -> None:
    drop = spar.bevel_drop(inches(width), angle).value
    assert (drop > 0) == (angle.value > 0)
    assert (drop < 0) == (angle.value < 0)


@given(front=SIZES, width=st.fractions(Fraction(1, 8), 1, max_denominator=64), top=ANGLES, bottom=ANGLES)
def test_a_spar_does_not_depend_on_the_unit(
    front: Fraction, width: Fraction, top: Quantity, bottom: Quantity
) -> None:
    inch = spar.rear_face(inches(front + 1), inches(width), top, bottom)
    metric = spar.rear_face(inches(front + 1).to("mm"), inches(width).to("mm"), top, bottom)
    assert number(metric, "in") == pytest.approx(number(inch, "in"), rel=NOISE)


@given(width=SIZES, strip=SIZES, kerf=st.fractions(0, Fraction(1, 4), max_denominator=64))
def test_the_strips_and_their_kerfs_fit_the_board_and_one_more_would_not(
    width: Fraction, strip: Fraction, kerf: Fraction
) -> None:
    count = Fraction(milling.strips(inches(width), inches(strip), inches(kerf)).value)
    assert count * strip + max(count - 1, Fraction(0)) * kerf <= width
    assert (count + 1) * strip + count * kerf > width


@given(excess=SIZES, cut=st.fractions(Fraction(1, 64), 1, max_denominator=64))
def test_no_pass_is_deeper_than_the_cut_and_one_fewer_would_be(excess: Fraction, cut: Fraction) -> None:
    count = Fraction(milling.passes(inches(excess), inches(cut)).value)
    assert excess / count <= cut
    assert count == 1 or excess / (count - 1) > cut


@given(thickness=SIZES, width=SIZES, length=SIZES)
def test_a_board_twice_as_long_has_twice_the_board_feet(
    thickness: Fraction, width: Fraction, length: Fraction
) -> None:
    once = milling.board_feet(inches(thickness), inches(width), inches(length))
    twice = milling.board_feet(inches(thickness), inches(width).to("mm"), inches(2 * length))
    assert twice == once + once


@given(diameter=SIZES, speed=st.integers(10, 12000))
def test_the_spindle_speed_that_gives_a_rim_speed_is_the_spindle_speed(
    diameter: Fraction, speed: int
) -> None:
    rim = machines.rim_speed(inches(diameter).to("mm"), Quantity.of(speed, "rpm"))
    assert number(machines.drill_spindle(inches(diameter), rim), "rpm") == pytest.approx(speed, rel=NOISE)


@given(along=st.integers(1000, 10000), across=st.integers(100, 999), angle=st.integers(0, 90))
def test_strength_at_an_angle_lies_between_the_two_strengths(along: int, across: int, angle: int) -> None:
    found = hankinson(Quantity.of(along, "psi"), Quantity.of(across, "psi"), Quantity.of(angle, "deg"))
    assert across * (1 - NOISE) <= number(found, "psi") <= along * (1 + NOISE)


@given(slope=st.integers(1, 100))
def test_a_slope_combined_with_straight_grain_is_itself(slope: int) -> None:
    steep = Quantity.of(Fraction(1, slope), ":")
    assert number(combined_slope(steep, Quantity.of(0, ":")), ":") == pytest.approx(1 / slope, rel=NOISE)


@given(temperature=st.integers(30, 210), low=st.integers(0, 100), high=st.integers(0, 100))
def test_wood_is_never_drier_in_damper_air(temperature: int, low: int, high: int) -> None:
    warm = Quantity.of(temperature, "°F")
    wet, dry = (
        moisture.equilibrium_moisture(warm, Quantity.of(h, "%")) for h in (max(low, high), min(low, high))
    )
    assert wet >= dry


@pytest.mark.parametrize("species", MOVEMENT.species)
def test_a_movement_coefficient_is_the_shrinkage_on_the_size_at_ten_percent(species: str) -> None:
    twin = "yellow birch" if species == "sweet birch" else species  # the table gives both the same
    for direction in ("radial", "tangential"):
        s = SHRINKAGE.value(twin, direction).value
        half_of_last_digit = 0.0000051
        worked = float(s / (3000 - 20 * s))
        assert number(MOVEMENT.value(species, direction), "") == pytest.approx(worked, abs=half_of_last_digit)


@pytest.mark.parametrize("species", GREEN.species)
def test_strength_at_twelve_percent_is_the_dry_value_and_wet_wood_has_the_green_one(species: str) -> None:
    at_twelve = strength.strength_at(species, "bending", Quantity.of(12, "%"))
    assert number(at_twelve, "psi") == pytest.approx(
        number(strength.strength(species, "bending", "dry"), "psi")
    )
    soaked = strength.strength_at(species, "bending", Quantity.of(60, "%"))
    assert soaked == strength.strength(species, "bending", "green")
