"""Every way in which a shop writes a size is read, and nothing else is guessed at."""

from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from coursepack.place import QuantityFault
from coursepack.quantity import Quantity
from coursepack.shoptext import looks_like_quantity, parse

NOTATIONS = [
    ("5 in", 5, "in"), ("5in", 5, "in"), ('5"', 5, "in"), ("5″", 5, "in"), ("5 inches", 5, "in"), ("1 inch", 1, "in"),
    ("3/4 in", Fraction(3, 4), "in"), ("1 3/8 in", Fraction(11, 8), "in"), ("1-3/8 in", Fraction(11, 8), "in"),
    ('1-3/8"', Fraction(11, 8), "in"), ("1-½ in", Fraction(3, 2), "in"), ("1½ in", Fraction(3, 2), "in"),
    ("½ in", Fraction(1, 2), "in"), ("1⁄4 in", Fraction(1, 4), "in"), ("1\u202f3⁄8\u00a0in", Fraction(11, 8), "in"),
    ("-3/4 in", Fraction(-3, 4), "in"), ("−3/4 in", Fraction(-3, 4), "in"), ("- 3/4 in", Fraction(-3, 4), "in"),
    ("6 ft 3 in", 75, "in"), ("6ft 3in", 75, "in"), ("6' 3\"", 75, "in"), ("6'-3 1/2\"", Fraction(151, 2), "in"),
    ("6′ 3″", 75, "in"), ("-6 ft 3 in", -75, "in"), ("6 feet 3 inches", 75, "in"), ("6 ft", 6, "ft"), ("6'", 6, "ft"),
    ("4.34375 in", Fraction(139, 32), "in"), (".5 in", Fraction(1, 2), "in"), ("0.1 mm", Fraction(1, 10), "mm"),
    ("34.9 mm", Fraction(349, 10), "mm"), ("12 cm", 12, "cm"), ("1.2 m", Fraction(6, 5), "m"),
    ("8 deg", 8, "deg"), ("8°", 8, "deg"), ("2.5 degrees", Fraction(5, 2), "deg"),
    ("1:15", Fraction(1, 15), ":"), ("1 : 15", Fraction(1, 15), ":"), ("1 in 15", Fraction(1, 15), ":"),
    ("12 %", 12, "%"), ("12%", 12, "%"), ("12 percent", 12, "%"),
    ("150 psi", 150, "psi"), ("1000 kPa", 1000, "kPa"), ("200 lbf", 200, "lbf"), ("900 N", 900, "N"),
    ("70 °F", 70, "°F"), ("70°F", 70, "°F"), ("70 degF", 70, "°F"), ("21 °C", 21, "°C"), ("-5 °C", -5, "°C"),
    ("3 lb", 3, "lb"), ("3 pounds", 3, "lb"), ("8 bd ft", 8, "bd ft"), ("8 board feet", 8, "bd ft"),
    ("1725 rpm", 1725, "rpm"), ("3000 ft/min", 3000, "ft/min"), ("28 lb/ft3", 28, "lb/ft³"), ("3", 3, ""), ("3/4", Fraction(3, 4), ""),
]  # fmt: skip

WRONG = [
    ("", "'' is not a quantity"), ("in", "'in' is not a quantity"), ("3 1/0 in", "'3 1/0 in' divides by zero"),
    ("1:0", "'1:0' divides by zero"), ("1 9/8 in", "'1 9/8 in': the fraction of a mixed number is less than one"),
    ("1 4/4 in", "'1 4/4 in': the fraction of a mixed number is less than one"),
    ("3 furlong", "'3 furlong': 'furlong' is not a unit"), ("3 IN", "'3 IN': 'IN' is not a unit"),
    ("1,5 in", "'1,5 in': ',5 in' is not a unit"), ("1e3 in", "'1e3 in': 'e3 in' is not a unit"),
    ("--3 in", "'--3 in' is not a quantity"), ("+3 in", "'+3 in' is not a quantity"), ("nan", "'nan' is not a quantity"),
    ("inf in", "'inf in' is not a quantity"), ("1 3/8 5/8 in", "'1 3/8 5/8 in': '5/8 in' is not a unit"),
    ("1½½ in", "'1½½ in': '1/2 in' is not a unit"), ("٣ in", "'٣ in' is not a quantity"), ("³ in", "'³ in' is not a quantity"),
    ("4 - 3/8 in", "'4 - 3/8 in' may be one size or a difference"), ("1 -3/8 in", "'1 -3/8 in' may be one size or a difference"),
    ("6 ft - 3 in", "'6 ft - 3 in' may be one size or a difference"),
    ("1 in 15 in", "'1 in 15 in': 'in 15 in' is not a unit"), ("5. in", "'5. in': '. in' is not a unit"),
    ("3 in; 4 in", "'3 in; 4 in': 'in; 4 in' is not a unit"), ("9" * 61, f"'{'9' * 20}…' is too long for a quantity"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "value", "name"), NOTATIONS)
def test_a_size_is_read_exactly_as_a_shop_writes_it(text: str, value: int | Fraction, name: str) -> None:
    size = parse(text)
    assert (size.value, size.unit_name) == (value, name)
    assert isinstance(size.value, Fraction)


@pytest.mark.parametrize(("text", "told"), WRONG)
def test_what_is_no_size_is_a_fault_that_says_so(text: str, told: str) -> None:
    with pytest.raises(QuantityFault) as caught:
        parse(text)
    assert caught.value.message == told


@given(st.text(max_size=80) | st.text(" 0123456789/-.:'\"½in%°ftm", max_size=30))
@example("0/0")
@example("1 in 0")
@example("\ud800")
def test_no_text_whatever_makes_the_parser_raise_anything_but_its_fault(text: str) -> None:
    with suppress(QuantityFault):
        assert isinstance(parse(text), Quantity)


@pytest.mark.parametrize("text", ["3 in", " 3 in", "-3", "½", ".5", "+3", "3 furlongs"])
def test_what_starts_as_a_number_is_taken_for_a_size(text: str) -> None:
    assert looks_like_quantity(text)


@pytest.mark.parametrize("text", ["Sitka spruce", "", "Douglas-fir", "-x"])
def test_a_word_of_the_trade_is_not_taken_for_a_size(text: str) -> None:
    assert not looks_like_quantity(text)
