"""Decimal inches at the nearest rule mark, a tie going to the larger one, and in millimetres: arithmetic.

n = decimal x 64 (or 32, 16), rounded half up, then reduced; 1 in = 25.4 mm exactly (NBS Circular 572, addendum 1959).
"""

from fractions import Fraction

import pytest

from coursepack.quantity import Quantity, plain, to_mark
from coursepack.shoptext import parse

# decimal, 1/16, 1/32, 1/64, mm; the error is the mark less the decimal
CASES = [
    ("0.4", "3/8 in", "13/32 in", "13/32 in", "10.16", ("-0.025", "0.00625", "0.00625")),
    ("5.763", "5 3/4 in", "5 3/4 in", "5 49/64 in", "146.3802", ("-0.013", "-0.013", "0.002625")),
    ("0.0078125", "0 in", "0 in", "1/64 in", "0.1984375", ("-0.0078125", "-0.0078125", "0.0078125")),
    ("0.015625", "0 in", "1/32 in", "1/64 in", "0.396875", ("-0.015625", "0.015625", "0")),
    ("2.71875", "2 3/4 in", "2 23/32 in", "2 23/32 in", "69.05625", ("0.03125", "0", "0")),
]  # fmt: skip
MARKS = ("1/16 in", "1/32 in", "1/64 in")


@pytest.mark.parametrize("case", CASES, ids=lambda case: str(case[0]))
def test_a_decimal_goes_to_the_nearest_mark_and_a_tie_to_the_larger(case: tuple[str, ...]) -> None:
    decimal, *printed, _, errors = case
    inches = parse(f"{decimal} in")
    for mark, text, error in zip(MARKS, printed, errors, strict=True):
        at_mark = to_mark(inches, parse(mark))
        assert plain(at_mark) == text
        assert (at_mark - inches).value == Fraction(error)


@pytest.mark.parametrize("case", CASES, ids=lambda case: str(case[0]))
def test_a_decimal_inch_is_25_4_mm_exactly(case: tuple[str, ...]) -> None:
    decimal, millimetres = case[0], case[4]
    assert parse(f"{decimal} in").to("mm").value == Fraction(millimetres)


@pytest.mark.parametrize("case", CASES, ids=lambda case: str(case[0]))
def test_a_size_below_zero_goes_to_the_same_mark_with_its_sign(case: tuple[str, ...]) -> None:
    inches = -parse(f"{case[0]} in")
    assert to_mark(inches, parse("1/64 in")) == -parse(case[3])


def test_noise_in_the_last_digits_of_a_float_does_not_turn_a_tie() -> None:
    just_below = Quantity.of(0.0078125 - 1e-18, "in")
    assert plain(to_mark(just_below, parse("1/64 in"))) == "1/64 in"
