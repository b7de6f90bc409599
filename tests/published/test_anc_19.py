"""ANC-19, Wood Aircraft Inspection and Fabrication (1943)."""

import pytest

from coursepack.shoptext import parse
from coursepack.trade import bending, gluing, machines, moisture, selection, slope

# The page rounds to one part in 200: 1 in 16 2/3 is 0.06.
COMBINED = 0.0002
HALF_OF_A_HUNDREDTH = 0.005
QUARTER_OF_A_PERCENT_OF_10_INCHES = 0.0125
# 1,350 / d stands for 1,337 / d at 350 ft/min.
ONE_PERCENT = 0.01

# Table 2-13, p. 127: fewest rings per inch.
TABLE_2_13 = {
    "Sitka spruce": 6, "red spruce": 6, "white spruce": 6, "Douglas-fir": 8, "Port-Orford-cedar": 8, "noble fir": 6,
    "western hemlock": 6, "eastern white pine": 6, "western white pine": 6, "sugar pine": 7, "yellow-poplar": 6,
}  # fmt: skip


@pytest.mark.parametrize("species", TABLE_2_13)
def test_rings_per_inch_are_those_of_table_2_13(species: str) -> None:
    assert selection.rings_per_inch_min(species) == parse(f"{TABLE_2_13[species]} 1/in")


def test_spiral_1_in_20_with_diagonal_1_in_30_makes_0_06_by_paragraph_2_3022() -> None:
    found = slope.combined_slope(parse("1:20"), parse("1:30"))
    assert float(found.number(":")) == pytest.approx(0.06, abs=COMBINED)


def test_two_slopes_of_1_in_21_make_1_in_14_85_by_paragraph_2_4102() -> None:
    found = slope.combined_slope(parse("1:21"), parse("1:21"))
    assert 1 / float(found.number(":")) == pytest.approx(14.85, abs=HALF_OF_A_HUNDREDTH)


def test_moisture_is_water_over_dry_weight_by_paragraph_2_2110() -> None:
    assert moisture.moisture_content(parse("56 g"), parse("50 g")) == parse("12 %")


def test_flat_sawn_sitka_falling_from_12_to_7_percent_shrinks_about_1_1_4_percent_on_page_64() -> None:
    found = moisture.shrunk(parse("10 in"), "Sitka spruce", "tangential", parse("12 %"), parse("7 %"))
    assert 10 - float(found.number("in")) == pytest.approx(0.125, abs=QUARTER_OF_A_PERCENT_OF_10_INCHES)


@pytest.mark.parametrize(("thickness", "time"), [("1 in", "1 h"), ("2 in", "2 h"), ("1/2 in", "30 min")])
def test_solid_stock_steams_an_hour_an_inch_by_paragraph_5_6812(thickness: str, time: str) -> None:
    assert bending.steam_time(parse(thickness)) == parse(time)


@pytest.mark.parametrize(("drill", "rpm"), [("1/4 in", 5400), ("3/8 in", 3600)])
def test_drills_at_350_feet_a_minute_turn_at_1350_over_their_diameter_by_paragraph_5_66(
    drill: str, rpm: int
) -> None:
    found = machines.drill_spindle(parse(drill), parse("350 ft/min"))
    assert float(found.number("rpm")) == pytest.approx(rpm, rel=ONE_PERCENT)


@pytest.mark.parametrize("species", ["yellow-poplar", "basswood"])
def test_light_hardwoods_take_100_to_150_psi_by_paragraph_5_270(species: str) -> None:
    assert gluing.clamp_pressure(species, "least") == parse("100 psi")
    assert gluing.clamp_pressure(species, "most") == parse("150 psi")
