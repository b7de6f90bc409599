"""Wood Handbook, FPL-GTR-190, Table 9-1 (p. 9-3), FPL-GTR-282, Eq. 9-2 and 9-13; Record, Mechanical Properties of Wood."""

from fractions import Fraction

import pytest

from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.shoptext import parse
from coursepack.trade import beams

FOUR_DIGITS = 5e-5

# Loading and ends, share of bending, share of shear.
TABLE_9_1 = (
    ("supported, uniform", "5/384", "1/8"),
    ("clamped, uniform", "1/384", "1/8"),
    ("supported, midspan", "1/48", "1/4"),
    ("clamped, midspan", "1/192", "1/4"),
    ("supported, quarter points", "11/768", "1/8"),
    ("supported, quarter points, at a load", "1/96", "1/8"),
    ("cantilever, uniform", "1/8", "1/2"),
    ("cantilever, end", "1/3", "1"),
)

ONE_LBF, ONE_INCH, ONE_PSI, ONE_IN4, ONE_IN2 = (
    parse(f"1 {unit}") for unit in ("lbf", "in", "psi", "in⁴", "in²")
)


@pytest.mark.parametrize(("case", "bending", "shear"), TABLE_9_1)
def test_a_unit_beam_sags_by_the_shares_of_table_9_1(case: str, bending: str, shear: str) -> None:
    bent = beams.deflection(case, ONE_LBF, ONE_INCH, ONE_PSI, ONE_IN4)
    assert bent == Quantity.of(Fraction(bending), "in")
    both = beams.deflection(case, ONE_LBF, ONE_INCH, ONE_PSI, ONE_IN4, ONE_PSI, ONE_IN2)
    assert both == Quantity.of(Fraction(bending) + Fraction(shear), "in")


@pytest.mark.parametrize("in_metric", [False, True])
def test_a_centre_loaded_square_stick_sags_as_records_formula_worked_by_hand(*, in_metric: bool) -> None:
    # D = P l³ / (4 E b h³): 100 × 28³ / (4 × 1,570,000 × 2 × 2³) = 0.021847 in; I = 2 × 2³ / 12.
    span = parse("28 in").to("mm") if in_metric else parse("28 in")
    found = beams.deflection(
        "supported, midspan",
        parse("100 lbf"),
        span,
        parse("1570000 psi"),
        Quantity.of(Fraction(16, 12), "in⁴"),
    )
    assert found.unit_name == span.unit_name
    assert float(found.number("in")) == pytest.approx(0.021847, rel=FOUR_DIGITS)


def test_a_moment_over_a_section_modulus_is_the_stress_of_eq_9_13_worked_by_hand() -> None:
    # b = 3/4 in, h = 2 in: b h² / 6 = 1/2 in³; 600 / 0.5 = 1,200 psi.
    assert beams.bending_stress(parse("600 in·lbf"), parse("0.5 in³")) == parse("1200 psi")


def test_a_metric_section_is_stressed_in_megapascals() -> None:
    # 12 N·m on 2,000 mm³ is 6 N/mm².
    found = beams.bending_stress(parse("12 N·m"), parse("2000 mm³"))
    assert found.unit_name == "MPa"
    assert float(found.value) == pytest.approx(6)


def test_half_of_the_shear_properties_is_a_fault() -> None:
    with pytest.raises(
        TradeFault, match="shear area is missing; give a shear modulus and a shear area, or neither"
    ):
        beams.deflection("cantilever, end", ONE_LBF, ONE_INCH, ONE_PSI, ONE_IN4, ONE_PSI)
