"""29 CFR 1910.95, Occupational noise exposure: Tables G-16 and G-16A, appendix A."""

import pytest

from coursepack.quantity import Quantity
from coursepack.shoptext import parse
from coursepack.trade import hearing

HALF_OF_A_TENTH = 0.0501
# Table G-16 rounds: 92 dBA to 6 h (6.06), 97 to 3 (3.03), 102 to 1 1/2 (1.52).
TABLE_G_16_ROUNDING = 0.0701
# The example takes T = 6.1 h; unrounded it is 6.06 h and the dose 132 %.
ROUNDED_TIME = 1.1

TABLE_G_16 = ((90, 8), (92, 6), (95, 4), (97, 3), (100, 2), (102, 1.5), (105, 1), (110, 0.5), (115, 0.25))
TABLE_G_16A = ((80, 32), (81, 27.9), (82, 24.3), (83, 21.1), (84, 18.4), (85, 16), (86, 13.9))


@pytest.mark.parametrize(("level", "hours"), TABLE_G_16)
def test_hours_are_those_of_table_g_16_before_its_rounding(level: int, hours: float) -> None:
    found = hearing.noise_hours(Quantity.of(level, "dBA"))
    assert float(found.number("h")) == pytest.approx(hours, abs=TABLE_G_16_ROUNDING)


@pytest.mark.parametrize(("level", "hours"), TABLE_G_16A)
def test_hours_are_those_of_table_g_16a(level: int, hours: float) -> None:
    found = hearing.noise_hours(Quantity.of(level, "dBA"))
    assert float(found.number("h")) == pytest.approx(hours, abs=HALF_OF_A_TENTH)


def test_two_hours_at_95_and_four_at_85_are_a_dose_of_75_percent_by_appendix_a() -> None:
    # 100 (2/4 + 4/16), worked by hand from I(1).
    found = hearing.noise_dose([(parse("2 h"), parse("95 dBA")), (parse("4 h"), parse("85 dBA"))])
    assert float(found.number("%")) == pytest.approx(75)


def test_eight_hours_at_92_are_a_dose_of_about_131_percent_in_an_example_on_appendix_a() -> None:
    found = hearing.noise_dose([(parse("8 h"), parse("92 dBA"))])
    assert float(found.number("%")) == pytest.approx(131, abs=ROUNDED_TIME)
