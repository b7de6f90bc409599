"""Trade articles, class pages and textbooks: none of them a standard, each named in its test."""

import pytest

from coursepack.quantity import Quantity
from coursepack.shoptext import parse
from coursepack.trade import bending, gluing, machines, milling, moisture

HALF_OF_A_TENTH = 0.05
HALF_OF_A_MIL = 0.0005
# The page cuts the fifth place off instead of rounding it.
FIVE_PLACES_CUT = 0.00001
ONE_FOOT_A_MINUTE = 1.0
WET_BASIS_ROUNDING = 0.2
SIX_DIGITS = 1e-6


@pytest.mark.parametrize(
    ("rpm", "knives", "feed", "marks"),
    [(3600, 2, 20, 30.0), (5000, 3, 50, 25.0), (5000, 3, 16, 78.1), (8000, 2, 26, 51.3), (1280, 3, 16, 20.0)],
)
def test_knife_marks_follow_a_trade_articles_formula_worked_by_hand(
    rpm: int, knives: int, feed: int, marks: float
) -> None:
    found = milling.knife_marks(Quantity.of(rpm, "rpm"), Quantity.of(knives), Quantity.of(feed, "ft/min"))
    assert found.unit_name == "1/in"
    assert float(found.number("1/in")) == pytest.approx(marks, abs=HALF_OF_A_TENTH)


@pytest.mark.parametrize(
    ("thickness", "width", "length", "feet"),
    [
        ("1 in", "6 in", "24 in", "1 bd ft"),
        ("1 in", "12 in", "10 ft", "10 bd ft"),
        ("2 in", "6 in", "10 ft", "10 bd ft"),
        ("1 in", "3 in", "8 ft", "2 bd ft"),
        ("2 in", "4 in", "14 ft", "9 1/3 bd ft"),
    ],
)
def test_board_feet_are_those_of_textbook_pages(thickness: str, width: str, length: str, feet: str) -> None:
    assert milling.board_feet(parse(thickness), parse(width), parse(length)) == parse(feet)


@pytest.mark.parametrize(
    ("diameter", "rpm", "speed"),
    [
        ("10 in", 3450, 9032),
        ("10 in", 4000, 10472),
        ("14 in", 750, 2749),
        ("3 in", 24000, 18850),
        ("1 in", 24000, 6283),
    ],
)
def test_rim_speed_is_pi_times_diameter_times_turns_worked_by_hand(
    diameter: str, rpm: int, speed: int
) -> None:
    found = machines.rim_speed(parse(diameter), Quantity.of(rpm, "rpm"))
    assert float(found.number("ft/min")) == pytest.approx(speed, abs=ONE_FOOT_A_MINUTE)


@pytest.mark.parametrize(
    ("degrees", "offset"), [(1, 0.209), (2, 0.419), (3, 0.629), (5, 1.050), (10, 2.116), (15, 3.215)]
)
def test_a_taper_of_a_foot_is_offset_by_twelve_tangents_worked_by_hand(degrees: int, offset: float) -> None:
    found = machines.taper_offset(parse("1 ft"), Quantity.of(degrees, "deg"))
    assert float(found.number("in")) == pytest.approx(offset, abs=HALF_OF_A_MIL)


def test_the_tangent_of_a_degree_and_a_half_is_that_of_a_shop_teachers_taper_example() -> None:
    found = machines.taper_offset(parse("1 in"), parse("1.5 deg"))
    assert float(found.number("in")) == pytest.approx(0.02618, abs=FIVE_PLACES_CUT)


def test_a_two_foot_level_tilted_22_4_minutes_is_lifted_5_32_on_a_measured_example_page() -> None:
    found = machines.level_rise(parse("24 in"), Quantity.of(22.4 / 60, "deg"))
    assert float(found.number("in")) == pytest.approx(5 / 32, abs=HALF_OF_A_MIL)


@pytest.mark.parametrize(("percent", "of_wet"), [(20, 16.7), (50, 33.3), (100, 50.0)])
def test_moisture_of_dry_weight_matches_that_of_wet_weight_on_a_conversion_page(
    percent: int, of_wet: float
) -> None:
    found = moisture.moisture_content(Quantity.of(100, "g"), Quantity.of(100 - of_wet, "g"))
    assert float(found.number("%")) == pytest.approx(percent, abs=WET_BASIS_ROUNDING)


def test_mesquite_five_inches_wide_moves_0_019_inches_from_6_to_9_percent_on_a_class_page() -> None:
    found = moisture.moved(parse("5 in"), parse("0.00129"), parse("6 %"), parse("9 %"))
    assert float(found.number("in")) - 5 == pytest.approx(0.019, abs=HALF_OF_A_MIL)


@pytest.mark.parametrize(("each", "count"), [("420 lbf", 9), ("470 lbf", 8)])
def test_a_joint_of_25_square_inches_at_150_psi_takes_the_clamps_of_a_magazine_feature(
    each: str, count: int
) -> None:
    force = gluing.clamp_force(parse("150 psi"), parse("25 in²"))
    assert force == parse("3750 lbf")
    assert gluing.clamps(force, parse(each)) == Quantity.of(count)


@pytest.mark.parametrize(
    ("final", "laminations", "form", "percent"),
    [("500 mm", 4, 468.75, 6.25), ("250 mm", 10, 247.5, 1.0), ("18 in", 3, 16.0, 11.111111)],
)
def test_a_form_is_tightened_by_the_springback_worked_by_hand(
    final: str, laminations: int, form: float, percent: float
) -> None:
    radius = parse(final)
    found = bending.form_radius(radius, Quantity.of(laminations))
    assert float(found.number(radius.unit_name)) == pytest.approx(form, rel=SIX_DIGITS)
    lost = bending.springback(Quantity.of(laminations))
    assert float(lost.number("%")) == pytest.approx(percent, rel=SIX_DIGITS)


@pytest.mark.parametrize(
    ("form", "laminations", "released"),
    [("500 mm", 4, 533.33335), ("250 mm", 10, 252.525254), ("18 in", 3, 20.250001)],
)
def test_a_bend_released_from_its_form_has_the_radius_of_least_strain_energy(
    form: str, laminations: int, released: float
) -> None:
    # The radius of least energy was found by numeric integration, without the formula.
    radius = parse(form)
    found = bending.form_radius(Quantity.of(released, radius.unit_name), Quantity.of(laminations))
    assert float(found.number(radius.unit_name)) == pytest.approx(float(radius.value), rel=SIX_DIGITS)


# Radial, tangential, volumetric percent. Of eastern white pine, Table 4-3 is recalled as 2.1, 6.1 and 8.2.
SPECIES_PAGES = {"Sitka spruce": "4.3 7.5 11.5", "eastern white pine": "2.3 6.0 8.2"}


@pytest.mark.parametrize("species", SPECIES_PAGES)
def test_shrinkage_is_that_of_a_species_data_page(species: str) -> None:
    cells = [parse(f"{cell} %") for cell in SPECIES_PAGES[species].split()]
    assert [moisture.shrinkage(species, d) for d in ("radial", "tangential", "volumetric")] == cells
