"""Quantities stay exact, do not depend on the unit they are given in, and are rounded where they are told."""

import pickle
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coursepack.place import QuantityFault
from coursepack.quantity import (
    Quantity,
    exact,
    in_figures,
    is_exact,
    plain,
    printed,
    printed_at,
    settled,
    to_mark,
    typeset,
)
from coursepack.shoptext import parse
from coursepack.units import kind_name

MARKS = st.builds(Fraction, st.integers(-64_000, 64_000), st.sampled_from([1, 2, 4, 8, 16, 32, 64]))
DECIMALS = st.builds(
    lambda n, places: Fraction(n, 10**places), st.integers(-(10**7), 10**7), st.integers(0, 4)
)
LENGTHS = st.builds(
    Quantity.of,
    st.fractions(-1000, 1000, max_denominator=640),
    st.sampled_from(["in", "ft", "mm", "cm", "m"]),
)
WHOLE = (
    "°F",
    "°C",
    "deg",
    "%",
    "psi",
    "lb",
    "bd ft",
    "rpm",
    "ft/min",
    "mm",
    "cm",
    "m",
    "kPa",
    "lbf",
    "N",
    "min",
)


@given(MARKS)
def test_a_rule_mark_is_read_as_it_is_printed(value: Fraction) -> None:
    for size in (Quantity.of(value, "in"), Quantity.of(value, "ft")):
        again = parse(plain(size))
        assert (again.value, again.unit_name) == (size.value, size.unit_name)
        assert is_exact(size)


@given(DECIMALS, st.sampled_from(WHOLE))
def test_a_decimal_in_any_unit_is_read_as_it_is_printed(value: Fraction, name: str) -> None:
    size = Quantity.of(value, name)
    assert (parse(plain(size)).value, parse(plain(size)).unit_name) == (value, name)


@given(st.integers(1, 400))
def test_a_slope_is_read_as_it_is_printed(run: int) -> None:
    slope = Quantity.of(Fraction(1, run), ":")
    assert plain(slope) == f"1:{run}"
    assert parse(plain(slope)).value == Fraction(1, run)


@given(MARKS)
def test_what_a_page_prints_reads_as_the_same_size(value: Fraction) -> None:
    assert parse(printed(Quantity.of(value, "in"))).value == value


@given(LENGTHS, LENGTHS)
def test_sums_and_products_are_exact_and_do_not_depend_on_units(one: Quantity, other: Quantity) -> None:
    mm = [Fraction(size.number("mm")) for size in (one, other)]
    assert (one + other).number("mm") == mm[0] + mm[1]
    assert (one - other).number("mm") == mm[0] - mm[1]
    assert (one * other).number("mm²") == mm[0] * mm[1]
    if mm[1]:
        assert (one / other).number("") == mm[0] / mm[1]
    assert (one < other) == (mm[0] < mm[1])
    assert (one == other) == (mm[0] == mm[1])


@given(LENGTHS, st.sampled_from(["in", "ft", "mm", "cm", "m"]))
def test_there_and_back_is_the_same_exactly(size: Quantity, name: str) -> None:
    assert size.to(name).to(size.unit_name).value == size.value


@given(LENGTHS, st.sampled_from(["1/16 in", "1/32 in", "1/64 in", "0.1 mm"]))
def test_rounding_goes_no_further_than_half_a_mark_and_a_second_time_nowhere(
    size: Quantity, mark: str
) -> None:
    rounded = to_mark(size, parse(mark))
    assert abs(rounded - size) <= parse(mark) / Quantity.of(2)
    assert (rounded / parse(mark)).number("") % 1 == 0
    assert to_mark(rounded, parse(mark)) == rounded


@given(LENGTHS)
def test_a_quantity_goes_to_another_process_and_back(size: Quantity) -> None:
    again = pickle.loads(pickle.dumps(size))  # noqa: S301 - our own bytes
    assert (again.value, again.unit_name) == (size.value, size.unit_name)


# exact by definition: 1 in = 25.4 mm; °C = (°F - 32) x 5/9; K = °C + 273.15; NIST Special Publication 811, appendix B
@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("1 in", "mm", Fraction(254, 10)), ("1 ft", "in", Fraction(12)), ("1 m", "cm", Fraction(100)),
        ("32 °F", "°C", Fraction(0)), ("212 °F", "°C", Fraction(100)), ("70 °F", "°C", Fraction(190, 9)),
        ("-40 °C", "°F", Fraction(-40)), ("100 °C", "K", Fraction(37315, 100)), ("1 lb", "kg", Fraction("0.45359237")),
        ("1 bd ft", "in³", Fraction(144)), ("12 %", "", Fraction(12, 100)), ("1:15", "", Fraction(1, 15)),
        ("1 MPa", "kPa", Fraction(1000)), ("1 ft/min", "in/min", Fraction(12)), ("2 h", "min", Fraction(120)),
        ("1 lbf", "N", Fraction("4.4482216152605")), ("60 rpm", "1/s", None),
    ],
)  # fmt: skip
def test_conversions_are_exact(text: str, name: str, value: Fraction | None) -> None:
    if value is None:
        with pytest.raises(QuantityFault, match="'1/s' is not a unit"):
            parse(text).to(name)
    else:
        assert parse(text).to(name).value == value


@pytest.mark.parametrize(
    ("size", "screen", "page", "unrounded"),
    [
        (parse("4 11/32 in"), "4 11/32 in", "4\u202f11⁄32\u00a0in", "4.34375 in"),
        (parse("-3/4 in"), "-3/4 in", "−3⁄4\u00a0in", "-0.75 in"),
        (parse("0 in"), "0 in", "0\u00a0in", "0 in"),
        (parse("8 deg"), "8 deg", "8°", "8 deg"),
        (parse("34.9 mm"), "34.9 mm", "34.9\u00a0mm", "34.9 mm"),
        (parse("12 %"), "12 %", "12\u00a0%", "12 %"),
        (parse("1:15"), "1:15", "1:15", "0.0666666666666667"),
        (parse("0:5"), "0:1", "0:1", "0"),
        (Quantity.of(Fraction(1, 3), "in"), "0.3333 in", "0.3333\u00a0in", "0.333333333333333 in"),
        (Quantity.of(2.0, "mm"), "2.000 mm", "2.000\u00a0mm", "2 mm"),
        (Quantity.of(Fraction(5, 2), "ft/min"), "2.5 ft/min", "2.5\u00a0ft/min", "2.5 ft/min"),
        (Quantity.of(5, "1/in"), "5 1/in", "5\u00a01/in", "5 1/in"),
    ],
)
def test_a_quantity_is_printed_for_screen_page_and_in_full(
    size: Quantity, screen: str, page: str, unrounded: str
) -> None:
    assert (plain(size), printed(size), exact(size)) == (screen, page, unrounded)


def test_a_rounded_print_says_that_it_is_rounded() -> None:
    assert not is_exact(Quantity.of(Fraction(1, 3), "in"))
    assert not is_exact(Quantity.of(0.5, "in"))
    assert is_exact(Quantity.of(Fraction(1, 8), "mm"))


def test_a_sum_takes_the_unit_of_its_left_side_and_a_product_one_unit_of_length() -> None:
    assert str(parse("3 in") + parse("25.4 mm")) == "4 in"
    assert str(parse("25.4 mm") + parse("3 in")) == "101.6 mm"
    assert (parse("3 in") * parse("25.4 mm")).unit_name == "in²"
    assert (parse("12 %") * parse("3 in")) == Quantity.of(Fraction(36, 100), "in")


def test_powers_of_a_size_give_a_unit_and_other_powers_are_a_fault() -> None:
    assert parse("4 in") ** Fraction(2) == parse("16 in²")
    assert (parse("4 in²") ** Fraction(1, 2)).number("in") == 2
    with pytest.raises(QuantityFault, match="8 in takes whole and half powers, not 1/3"):
        parse("8 in") ** Fraction(1, 3)
    with pytest.raises(QuantityFault, match="-4 is negative and has no such root"):
        Quantity.of(-4) ** Fraction(1, 2)


@pytest.mark.parametrize("sign", ["+", "-", "*", "/"])
def test_temperatures_are_compared_but_not_reckoned_with(sign: str) -> None:
    one, other = parse("70 °F"), parse("20 °C")
    work = {"+": one.__add__, "-": one.__sub__, "*": one.__mul__, "/": one.__truediv__}
    with pytest.raises(QuantityFault, match="can be compared, but not added or multiplied"):
        work[sign](other)
    assert one > other


def test_units_that_do_not_fit_are_named_in_words() -> None:
    with pytest.raises(QuantityFault, match=r"^8 deg \(an angle\) cannot be taken from 3 in \(a length\)$"):
        parse("3 in") - parse("8 deg")
    with pytest.raises(
        QuantityFault, match=r"^3 in \(a length\) cannot be compared with 5 psi \(a pressure\)$"
    ):
        assert parse("3 in") < parse("5 psi")
    with pytest.raises(QuantityFault, match=r"^3 in is a length, not an angle$"):
        parse("3 in").to("deg")
    with pytest.raises(QuantityFault, match="division by zero"):
        parse("3 in") / parse("0 in")
    assert kind_name(parse("3 N·m").kind) == "a moment"


BEYOND: dict[str, Callable[[Quantity], Quantity]] = {
    "a sum": lambda size: size + size,
    "a product": lambda size: size * size,
    "another unit": lambda size: size.to("mm"),
    "a power": lambda size: size ** Fraction(3),
}


@pytest.mark.parametrize("way", BEYOND)
@pytest.mark.parametrize("huge", [1e308, -1e308])
def test_a_value_beyond_all_measure_is_a_fault_not_infinity(way: str, huge: float) -> None:
    with pytest.raises(QuantityFault, match=r"too large|cannot be raised"):
        BEYOND[way](Quantity.of(huge, "ft"))


def test_a_chain_of_products_comes_out_in_a_unit_of_the_shop() -> None:
    force = parse("100 psi") * parse("2 in²")
    assert str(settled(force, "inch")) == "200 lbf"
    assert settled(force, "metric").unit_name == "N"


def test_text_that_is_no_fraction_is_left_as_it_is() -> None:
    assert typeset("4.34 in") == "4.34\u00a0in"
    assert typeset("lb/ft³") == "lb/ft³"


def test_a_mark_of_zero_is_a_fault() -> None:
    with pytest.raises(QuantityFault, match="the mark 0 in is not above zero"):
        to_mark(parse("3 in"), parse("0 in"))


def test_a_quantity_of_any_unit_can_be_named_exactly() -> None:
    assert repr(Quantity.of(Fraction(3, 2), "in²")) == "Quantity(Fraction(3, 2), 'in²')"
    assert repr(Quantity.of(0.1, "lb/ft³")) == "Quantity(0.1, 'lb/ft³')"


@pytest.mark.parametrize(
    ("text", "mark", "page"),
    [
        ("4 mm", "0.1 mm", "4.0\u00a0mm"), ("77.85 mm", "0.01 mm", "77.85\u00a0mm"), ("8 %", "0.1 %", "8.0\u00a0%"),
        ("6 deg", "0.5 deg", "6.0°"), ("-3 mm", "0.1 mm", "−3.0\u00a0mm"), ("12", "1", "12"),
        ("4 in", "1/64 in", "4\u00a0in"), ("1:12", "1", "1:12"),
    ],
)  # fmt: skip
def test_an_answer_is_printed_with_the_decimals_of_its_mark(text: str, mark: str, page: str) -> None:
    assert printed_at(parse(text), parse(mark)) == page


@pytest.mark.parametrize(
    ("text", "page"),
    [
        ("28.27875 mm", "28.28\u00a0mm"), ("6 deg", "6°"), ("4 11/32 in", "4\u202f11⁄32\u00a0in"), ("95.5 mm", "95.5\u00a0mm"),
        ("1772.5 mm", "1772.5\u00a0mm"), ("94.306 %", "94.306\u00a0%"), ("42.1875 in²", "42.1875\u00a0in²"),
    ],
)  # fmt: skip
def test_a_cell_of_a_table_shows_a_long_decimal_with_four_figures(text: str, page: str) -> None:
    assert in_figures(parse(text)) == page
