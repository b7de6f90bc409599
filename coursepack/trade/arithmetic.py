"""Arithmetic that any trade uses: angles, roots, sizes, whole numbers and rule marks."""

import math
from collections.abc import Callable
from fractions import Fraction

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity, to_mark, whole
from coursepack.trade.limits import acute, not_below_zero, of_kind, within

_ONE = Quantity.of(1)
_ORDINARY = "ordinary mathematics"


def _radians(angle: Quantity) -> float:
    return math.radians(float(of_kind("angle", angle, "deg").number("deg")))


def _degrees(radians: float) -> Quantity:
    return Quantity.of(math.degrees(radians), "deg")


def sin(angle: Quantity) -> Quantity:
    """Return the sine of an angle, a plain number; raises TradeFault where it is no angle."""
    return Quantity.of(math.sin(_radians(angle)))


def cos(angle: Quantity) -> Quantity:
    """Return the cosine of an angle, a plain number; raises TradeFault where it is no angle."""
    return Quantity.of(math.cos(_radians(angle)))


def tan(angle: Quantity) -> Quantity:
    """Return the tangent of an angle, a plain number.

    Raises TradeFault unless the angle lies between -90 and 90 deg: no bevel of the trade goes further.
    """
    return Quantity.of(math.tan(_radians(acute("angle", angle))))


def asin(value: Quantity) -> Quantity:
    """Return the angle, in degrees, of a sine; raises TradeFault unless the value is from -1 to 1."""
    return _degrees(math.asin(within("value", value, -_ONE, _ONE).number()))


def acos(value: Quantity) -> Quantity:
    """Return the angle, in degrees, of a cosine; raises TradeFault unless the value is from -1 to 1."""
    return _degrees(math.acos(within("value", value, -_ONE, _ONE).number()))


def atan(value: Quantity) -> Quantity:
    """Return the angle, in degrees, of a tangent or slope; raises TradeFault where it is no plain number."""
    return _degrees(math.atan(of_kind("value", value, "").number()))


def sqrt(value: Quantity) -> Quantity:
    """Return the square root of a plain number; raises TradeFault where it is below zero or has a unit."""
    return Quantity.of(math.sqrt(not_below_zero("value", value, "").number()))


def absolute(value: Quantity) -> Quantity:
    """Return the size of a quantity without its sign, in its unit."""
    return abs(value)


def least(value: Quantity, *others: Quantity) -> Quantity:
    """Return the least of quantities of one kind, in its own unit; raises QuantityFault where kinds differ."""
    return min(value, *others) if others else value


def greatest(value: Quantity, *others: Quantity) -> Quantity:
    """Return the greatest of quantities of one kind, in its own unit; raises QuantityFault where kinds differ."""
    return max(value, *others) if others else value


def up(value: Quantity) -> Quantity:
    """Return the next whole number at or above a plain number; raises TradeFault where it has a unit."""
    return _rounded(value, math.ceil)


def down(value: Quantity) -> Quantity:
    """Return the next whole number at or below a plain number; raises TradeFault where it has a unit."""
    return _rounded(value, math.floor)


def _rounded(value: Quantity, round_to: Callable[[Fraction], int]) -> Quantity:
    return whole(of_kind("value", value, ""), round_to)


def nearest(value: Quantity, mark: Quantity) -> Quantity:
    """Return the value at the nearest multiple of a mark, in the mark's unit; a tie goes away from zero.

    Raises TradeFault where the mark is not above zero, QuantityFault where the kinds differ.
    """
    if mark.value <= 0:
        raise TradeFault(f"the mark is {mark}", "the mark must be above zero, as 1/64 in")
    return to_mark(value, mark)


def pi() -> Quantity:
    """Return the ratio of a circle's circumference to its diameter, a plain number."""
    return Quantity.of(math.pi)


_ANGLE = (Argument("angle", "deg"),)
_NUMBER = (Argument("value", ""),)
_ANY = (Argument("value", "any"), Argument("other", "same"))

FUNCTIONS = (
    Function("sin", sin, _ANGLE, "", "Sine of an angle.", _ORDINARY, 'sin("30 deg")'),
    Function("cos", cos, _ANGLE, "", "Cosine of an angle.", _ORDINARY, 'cos("60 deg")'),
    Function("tan", tan, _ANGLE, "", "Tangent of an angle.", _ORDINARY, 'tan("8 deg")'),
    Function("asin", asin, _NUMBER, "deg", "Angle of a sine.", _ORDINARY, "asin(0.5)"),
    Function("acos", acos, _NUMBER, "deg", "Angle of a cosine.", _ORDINARY, "acos(0.5)"),
    Function("atan", atan, _NUMBER, "deg", "Angle of a tangent or a slope.", _ORDINARY, 'atan("1:15")'),
    Function("sqrt", sqrt, _NUMBER, "", "Square root of a plain number.", _ORDINARY, "sqrt(2)"),
    Function("abs", absolute, _ANY[:1], "same", "Size without its sign.", _ORDINARY, 'abs("3 in" - "4 in")'),
    Function("min", least, _ANY, "same", "The least of several.", _ORDINARY, 'min("3 in", "70 mm")', repeats=True),
    Function("max", greatest, _ANY, "same", "The greatest of several.", _ORDINARY, 'max("3 in", "70 mm")', repeats=True),
    Function("up", up, _NUMBER, "", "Next whole number up.", _ORDINARY, "up(3.2)"),
    Function("down", down, _NUMBER, "", "Next whole number down.", _ORDINARY, "down(3.8)"),
    Function("nearest", nearest, (_ANY[0], Argument("mark", "same")), "same", "Nearest multiple of a mark; a tie goes away from zero.", _ORDINARY, 'nearest("4.34 in", "1/64 in")'),
    Function("pi", pi, (), "", "Circumference of a circle over its diameter.", _ORDINARY, 'pi() * "14 in"'),
)  # fmt: skip
