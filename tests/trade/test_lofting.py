"""Rows of ordinate tables and heights between capstrips, as a lesson's formula gets them."""

import pytest

from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.airfoil import airfoil
from coursepack.trade.lofting import opening_height, table_ordinate
from coursepack.trade.rib import Rib, SparPlace

INCH = 25.4


def percent(value: str) -> Quantity:
    return Quantity.of(float(value), "%")


@pytest.mark.parametrize(
    ("section", "station", "surface", "printed"),
    [
        # second-hand copy of the published Clark Y table; UIUC airfoil coordinate collection, usa35b, raf15
        ("Clark Y", "1.25", "lower", "1.93"),
        ("Clark Y", "15", "upper", "10.68"),
        ("clark y", "100", "upper", "0.12"),
        ("USA 35-B", "90", "upper", "-0.04"),
        ("RAF 15", "10", "lower", "-1.478"),
    ],
)
def test_a_row_of_a_table_is_what_is_printed(section: str, station: str, surface: str, printed: str) -> None:
    found = table_ordinate(section, percent(station), surface)
    assert float(found.number("%")) == pytest.approx(float(printed), abs=1e-12)


def test_nothing_is_read_between_the_rows_of_a_table() -> None:
    with pytest.raises(
        TradeFault, match=r"the table of Clark Y has no station 16 %; it prints 0, 1.25, 2.5, 5"
    ):
        table_ordinate("Clark Y", Quantity.of(16, "%"), "upper")


def test_a_section_from_an_equation_has_no_table() -> None:
    with pytest.raises(TradeFault, match="section 'NACA 2412' is not known"):
        table_ordinate("NACA 2412", Quantity.of(10, "%"), "upper")


@pytest.mark.parametrize("section", ["Clark Y", "NACA 23012", "M-6"])
def test_the_opening_of_a_formula_is_the_one_that_is_drawn(section: str) -> None:
    sizes = [Quantity.of(size, "in") for size in (54, 8, 0.875, 0.25)]
    height = opening_height(airfoil(section), *sizes)
    spar = SparPlace(8 * INCH, 0.875 * INCH)
    drawn = Rib(airfoil(section), 54 * INCH, 0.25 * INCH, (spar,)).opening_height(spar)
    assert float(height.number("mm")) == pytest.approx(drawn, abs=1e-6)


def test_capstrips_that_leave_no_opening_are_a_fault() -> None:
    sizes = [Quantity.of(size, "in") for size in (20, 17, 0.5, 0.6)]
    with pytest.raises(TradeFault, match="leave no height; take thinner capstrips"):
        opening_height(airfoil("Clark Y"), *sizes)
