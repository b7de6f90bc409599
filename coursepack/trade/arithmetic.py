"""Arithmetic that any trade uses: angles, roots, sizes, whole numbers and rule marks."""

import math
from collections.abc import Callable
from fractions import Fraction

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity, to_mark, whole
from coursepack.trade.limits import acute, of_kind, within

_ONE = Quantity.of(1)
ORDINARY = "ordinary mathematics"


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
    """Return the square root of a quantity, of an area a length; raises TradeFault where it is below zero."""
    if value.value < 0:
        raise TradeFault(f"value is {value}", "value must be zero or more")
    return value ** Fraction(1, 2)


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


def alike(value: Quantity, pattern: Quantity) -> Quantity:
    """Return the value in the unit of another quantity of its kind, as 16 ft beside 1 in becomes 192 in.

    Raises QuantityFault where the kinds differ.
    """
    return value.to(pattern.unit_name)


def pi() -> Quantity:
    """Return the ratio of a circle's circumference to its diameter, a plain number."""
    return Quantity.of(math.pi)


_ANGLE = (Argument("angle", "deg"),)
_NUMBER = (Argument("value", ""),)
_ANY = (Argument("value", "any"), Argument("other", "same"))

FUNCTIONS = (
    Function("sin", sin, _ANGLE, "", "Sine of an angle.", ORDINARY, 'sin("30 deg")'),
    Function("cos", cos, _ANGLE, "", "Cosine of an angle.", ORDINARY, 'cos("60 deg")'),
    Function("tan", tan, _ANGLE, "", "Tangent of an angle.", ORDINARY, 'tan("8 deg")'),
    Function("asin", asin, _NUMBER, "deg", "Angle of a sine.", ORDINARY, "asin(0.5)"),
    Function("acos", acos, _NUMBER, "deg", "Angle of a cosine.", ORDINARY, "acos(0.5)"),
    Function("atan", atan, _NUMBER, "deg", "Angle of a tangent or a slope.", ORDINARY, 'atan("1:15")'),
    Function("sqrt", sqrt, _ANY[:1], "root", "Square root; of an area a length.", ORDINARY, 'sqrt("9 in²")'),
    Function("abs", absolute, _ANY[:1], "same", "Size without its sign.", ORDINARY, 'abs("3 in" - "4 in")'),
    Function("min", least, _ANY, "same", "The least of several.", ORDINARY, 'min("3 in", "70 mm")', repeats=True),
    Function("max", greatest, _ANY, "same", "The greatest of several.", ORDINARY, 'max("3 in", "70 mm")', repeats=True),
    Function("up", up, _NUMBER, "", "Next whole number up.", ORDINARY, "up(3.2)"),
    Function("down", down, _NUMBER, "", "Next whole number down.", ORDINARY, "down(3.8)"),
    Function("nearest", nearest, (_ANY[0], Argument("mark", "same")), "same", "Nearest multiple of a mark; a tie goes away from zero.", ORDINARY, 'nearest("4.34 in", "1/64 in")'),
    Function("alike", alike, (_ANY[0], Argument("pattern", "same")), "same", "The same value in the unit of another.", ORDINARY, 'alike("16 ft", "1 in")'),
    Function("pi", pi, (), "", "Circumference of a circle over its diameter.", ORDINARY, 'pi() * "14 in"'),
)  # fmt: skip
