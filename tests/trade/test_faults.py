"""What a function does not take is a fault that says what it takes."""

import re

import pytest

from coursepack.formulatext import read
from coursepack.place import FormulaFault, LessonFault, QuantityFault
from coursepack.quantity import Quantity
from coursepack.shoptext import parse
from coursepack.trade import arithmetic, milling, moisture
from coursepack.trade.catalogue import FUNCTIONS
from coursepack.working import work

FAULTS = {
    'tan("90 deg")': "angle is 90 deg; angle must be between -90 deg and 90 deg",
    "asin(1.5)": "value is 1.5; value must be from -1 to 1",
    "sqrt(-1)": "value is -1; value must be zero or more",
    'nearest("1 in", "0 in")': "the mark is 0 in; the mark must be above zero, as 1/64 in",
    'moisture_content("90 g", "100 g")': "wet less dry is -10 g; wet less dry must be zero or more",
    'moisture_content("90 g", "0 g")': "dry is 0 g; dry must be above zero",
    'equilibrium_moisture("70 °F", "101 %")': "humidity is 101 %; humidity must be from 0 % to 100 %",
    'equilibrium_moisture("20 °F", "50 %")': "temperature is 20 °F; temperature must be from 30 °F to 210 °F",
    'shrunk("4 in", "Sitka spruce", "radial", "12", "8 %")': "start is 12; start must be from 0 % to 300 %",
    'shrunk("-4 in", "Sitka spruce", "radial", "12 %", "8 %")': "size is -4 in; size must be above zero",
    'moved("4 in", 0.0026, "12 %", "20 %")': "end is 20 %; end must be from 6 % to 14 %",
    'moved("4 in", 0, "12 %", "8 %")': "coefficient is 0; coefficient must be above zero",
    'dressed("2 3/4 in", "thickness", "dry")': (
        "2 3/4 in is not a nominal thickness; known: 3/8 in, 1/2 in, 5/8 in, 3/4 in, 1 in, 1 1/4 in, 1 1/2 in, 2 in,"
        " 2 1/2 in, 3 in, 3 1/2 in, 4 in, 4 1/2 in, and whole inches from 5 in"
    ),
    'passes("1/4 in", "0 in")': "cut is 0 in; cut must be above zero",
    'strips("6 in", "1 in", "-1/8 in")': "kerf is -1/8 in; kerf must be zero or more",
    'knife_marks("3600 rpm", 2.5, "20 ft/min")': "knives is 2.5; knives must be a whole number",
    'band_length("14 in", "10 in")': "the centres are 10 in apart; two wheels of 14 in need at least 14 in",
    'rear_face("1/8 in", "3 in", "-8 deg", "2 deg")': (
        "the rear face comes to -0.4014 in; the bevels must leave some height at the rear face"
    ),
    'rear_face("4 in", "1 in", "95 deg", "2 deg")': "top is 95 deg; top must be between -90 deg and 90 deg",
    'slope_strength("1:4", "bending")': "slope is 1:4; slope must be from 0 to 1:5",
    'hankinson("5000 psi", "600 psi", "91 deg")': "angle is 91 deg; angle must be from 0 deg to 90 deg",
    'hankinson("5000 psi", "0 psi", "30 deg")': (
        "the strengths are 5000 psi and 0 psi; both must be of one kind and above zero"
    ),
    'strength("mahogany", "bearing", "dry")': "no bearing is published for mahogany",
    'knot_spacing("1/2 in")': "a knot of 1/2 in is not acceptable; the largest is 3/8 in",
    'noise_hours("120 dBA")': "OSHA allows no time at 120 dBA; its table ends at 115 dBA; keep away from it",
    'noise_hours("140 dBA", "NIOSH")': "level is 140 dBA; level must be from 80 dBA to 130 dBA",
    "noise_dose([])": "there is no exposure; give rows of a time and a level, as 2 h and 95 dBA",
    'scarf_length("1/8 in", "1:1")': "slope is 1:1; slope must be from 1:50 to 1:2",
    'patch_limits("1/8 in", "Splayed taper")': "a skin of 1/8 in takes no splayed patch; the thickest is 0.1 in",
    'patch_limits("1/8 in", "splayed hole")': "a skin of 1/8 in takes no splayed patch; the thickest is 0.1 in",
    'plywood_bend_radius("1/2 in", 5, "across", "dry")': (
        "the table has no plywood 1/2 in thick; 5 plies go from 0.16 to 0.375 in"
    ),
    'plywood_bend_radius("1/8 in", 4, "across", "dry")': "the table has no plywood of 4 plies; it has 3 and 5 plies",
    "springback(1)": "one lamination is no laminated bend; laminations must be 2 or more",
    "springback(0)": "laminations is 0; laminations must be above zero",
}


@pytest.mark.parametrize("formula", FAULTS)
def test_an_impossible_value_is_a_fault_that_says_what_is_allowed(formula: str) -> None:
    with pytest.raises(FormulaFault, match=f"^{re.escape(FAULTS[formula])}") as caught:
        work(read(formula, FUNCTIONS), {})
    assert caught.value.remedy


def test_a_misspelt_species_gets_the_nearest_one() -> None:
    with pytest.raises(
        LessonFault, match=r"species 'Sitka sprucce' is not known; did you mean 'Sitka spruce'\?"
    ):
        moisture.shrinkage("Sitka sprucce", "radial")


def test_a_species_is_known_whatever_its_capitals() -> None:
    assert moisture.shrinkage("SITKA SPRUCE", "Radial") == parse("4.3 %")


def test_a_wrong_unit_names_both_kinds() -> None:
    with pytest.raises(LessonFault, match="width is an angle, not a length; write one such as 3 in"):
        milling.board_feet(parse("1 in"), parse("6 deg"), parse("8 ft"))


def test_quantities_of_two_kinds_have_no_least() -> None:
    with pytest.raises(QuantityFault, match="cannot be compared"):
        arithmetic.least(parse("3 in"), parse("3 deg"))


def test_a_metric_answer_follows_a_metric_size() -> None:
    marks = milling.knife_marks(parse("3600 rpm"), Quantity.of(2), parse("6 m/min"))
    assert str(marks) == "12 1/cm"
