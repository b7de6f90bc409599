"""Shop quantities: exact values with units, read and printed as a shop writes them.

A value is an exact fraction until something irrational (a tangent, a root) touches it; from then on it is a
float.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any, Literal

from coursepack.place import QuantityFault
from coursepack.units import (
    Kind,
    conversion,
    dimension,
    inverse,
    is_known,
    is_temperature,
    kind_name,
    parts_of,
    product,
    tidied,
    unit,
    unit_name,
    unit_of_parts,
    usual_units,
)

Number = Fraction | float
Measure = Literal["inch", "metric"]

# Size of a degree in kelvin and distance of its zero from absolute zero, in its own degrees, both exact:
# t/°C = T/K - 273.15 and t/°F = 1.8 t/°C + 32, NIST Special Publication 811, appendix B.
_DEGREES = {
    "K": (Fraction(1), Fraction(0)),
    "°C": (Fraction(1), Fraction(27315, 100)),
    "°F": (Fraction(5, 9), Fraction(45967, 100)),
}


def _temperature(value: Number, source: str, target: str) -> Number:
    (size, zero), (new_size, new_zero) = _DEGREES[source], _DEGREES[target]
    return _plus(_times(_plus(value, zero), size / new_size), -new_zero)


@dataclass(frozen=True, eq=False, repr=False)
class Quantity:
    """A value and its unit. Sums take the unit of their left side; a product of lengths has one length unit.

    The value is an exact Fraction, or a float once something irrational has touched it.
    """

    value: Number
    units: Any

    @classmethod
    def of(cls, value: Number | int, name: str = "") -> "Quantity":
        """Make a quantity of a number and a unit's shop name; raises QuantityFault for an unknown unit."""
        return cls(value if isinstance(value, float) else Fraction(value), unit(name))

    @property
    def unit_name(self) -> str:
        """The shop name of the unit, '' for a plain number."""
        return unit_name(self.units)

    @property
    def kind(self) -> Kind:
        """The dimension, as sorted pairs of base dimension and power; () for a plain number."""
        return dimension(self.units)

    def to(self, name: str) -> "Quantity":
        """Return the same quantity in another unit of the same kind; raises QuantityFault for another kind."""
        return self.in_units(unit(name))

    def number(self, name: str = "") -> Number:
        """Return the bare value in the unit named; raises QuantityFault where the kind differs."""
        return self.to(name).value

    def in_units(self, target: Any) -> "Quantity":
        """Return the same quantity in another pint unit; raises QuantityFault for one of another kind."""
        if target is self.units or (target == self.units and parts_of(target) == parts_of(self.units)):
            return self
        if dimension(target) != self.kind:
            raise QuantityFault(f"{self} is {kind_name(self.kind)}, not {kind_name(dimension(target))}")
        if is_temperature(self.units) or is_temperature(target):
            return Quantity(_temperature(self.value, self.unit_name, unit_name(target)), target)
        return Quantity(_bounded(_times(self.value, conversion(self.units, target))), target)

    def __add__(self, other: "Quantity") -> "Quantity":
        return self._sum(other, 1)

    def __sub__(self, other: "Quantity") -> "Quantity":
        return self._sum(other, -1)

    def _sum(self, other: "Quantity", sign: int) -> "Quantity":
        if self.kind != other.kind:
            joined = "to" if sign > 0 else "from"
            verb = "added" if sign > 0 else "taken"
            raise QuantityFault(
                f"{other} ({kind_name(other.kind)}) cannot be {verb} {joined} {self} ({kind_name(self.kind)})"
            )
        _no_temperature(self, other)
        return Quantity(
            _bounded(_plus(self.value, _times(other.in_units(self.units).value, sign))), self.units
        )

    def __mul__(self, other: "Quantity") -> "Quantity":
        _no_temperature(self, other)
        units, factor = product(self.units, other.units)
        return Quantity(_bounded(_times(_times(self.value, other.value), factor)), units)

    def __truediv__(self, other: "Quantity") -> "Quantity":
        if other.value == 0:
            raise QuantityFault("division by zero")
        value = 1 / other.value if isinstance(other.value, float) else Fraction(1) / other.value
        return self * Quantity(value, inverse(other.units))

    def __pow__(self, power: Fraction) -> "Quantity":
        """Raise to a power; of a quantity with units only whole and half powers give a unit."""
        _no_temperature(self, self)
        if self.kind and (2 * power).denominator != 1:
            raise QuantityFault(f"{self} takes whole and half powers, not {power}")
        units = tidied(self.units**power) if self.kind else unit("")
        base = self.in_units(units).value if not self.kind else self.value
        value: Any
        try:
            value = base ** int(power) if power.denominator == 1 else float(base) ** float(power)
        except (OverflowError, ZeroDivisionError) as trouble:
            raise QuantityFault(f"{self} cannot be raised to the power {power}") from trouble
        if isinstance(value, complex):
            raise QuantityFault(f"{self} is negative and has no such root")
        return Quantity(_bounded(value), units)

    def __neg__(self) -> "Quantity":
        return Quantity(-self.value, self.units)

    def __abs__(self) -> "Quantity":
        return -self if self.value < 0 else self

    def compare(self, other: "Quantity") -> int:
        """Return -1, 0 or 1; raises QuantityFault where the kinds differ."""
        if self.kind != other.kind:
            raise QuantityFault(
                f"{self} ({kind_name(self.kind)}) cannot be compared with {other} ({kind_name(other.kind)})"
            )
        mine, theirs = self.value, other.in_units(self.units).value
        return (mine > theirs) - (mine < theirs)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Quantity) and self.kind == other.kind and self.compare(other) == 0

    def __lt__(self, other: "Quantity") -> bool:
        return self.compare(other) < 0

    def __le__(self, other: "Quantity") -> bool:
        return self.compare(other) <= 0

    def __gt__(self, other: "Quantity") -> bool:
        return self.compare(other) > 0

    def __ge__(self, other: "Quantity") -> bool:
        return self.compare(other) >= 0

    def __hash__(self) -> int:
        return hash(self.kind)

    def __reduce__(self) -> tuple[Any, ...]:
        return _remade, (self.value, parts_of(self.units))

    def __str__(self) -> str:
        return plain(self)

    def __repr__(self) -> str:
        return f"Quantity({self.value!r}, {unit_name(self.units)!r})"


def _remade(value: Number, parts: tuple[tuple[str, Any], ...]) -> Quantity:
    """Make a quantity again in another process, from its value and the parts of its unit."""
    return Quantity(value, unit_of_parts(parts))


def _times(left: Number, right: Number | int) -> Number:
    if isinstance(left, Fraction) and not isinstance(right, float):
        return left * right
    return float(left) * float(right)


def _plus(left: Number, right: Number) -> Number:
    if isinstance(left, Fraction) and isinstance(right, Fraction):
        return left + right
    return float(left) + float(right)


_MOST_BITS = 256


def _bounded(value: Number) -> Number:
    """Exact values stay exact while they are of human size; beyond that a float, or a fault."""
    try:
        if (
            isinstance(value, Fraction)
            and value.numerator.bit_length() + value.denominator.bit_length() > _MOST_BITS
        ):
            value = float(value)
    except OverflowError as trouble:
        raise QuantityFault("the value is too large") from trouble
    if isinstance(value, float) and not math.isfinite(value):
        raise QuantityFault("the value is too large")
    return value


def _no_temperature(left: Quantity, right: Quantity) -> None:
    if is_temperature(left.units) or is_temperature(right.units):
        raise QuantityFault("a temperature in °F or °C can be compared, but not added or multiplied")


def settled(quantity: Quantity, measure: Measure) -> Quantity:
    """Return the quantity in a unit a shop knows: what a chain of products left as psi·in² comes out in lbf."""
    name = quantity.unit_name
    if is_known(name) or quantity.kind not in usual_units():
        return quantity
    return quantity.to(usual_units()[quantity.kind][measure == "metric"])


# Rounding


def _steady(value: Number) -> Fraction:
    """A float to twelve digits, so that noise in the last ones cannot turn a tie."""
    return value if isinstance(value, Fraction) else Fraction(f"{value:.12g}")


def to_mark(quantity: Quantity, mark: Quantity) -> Quantity:
    """Round to a multiple of the mark, in the mark's unit; a tie goes to the mark further from zero.

    Raises QuantityFault where the kinds differ or the mark is not above zero.
    """
    if mark.value <= 0:
        raise QuantityFault(f"the mark {mark} is not above zero")
    steps = _steady(quantity.in_units(mark.units).value) / _steady(mark.value)
    whole = math.floor(abs(steps) + Fraction(1, 2))
    return Quantity((whole if steps >= 0 else -whole) * _steady(mark.value), mark.units)


def whole(quantity: Quantity, round_to: Callable[[Fraction], int]) -> Quantity:
    """Round a plain number up or down with math.ceil or math.floor; raises QuantityFault if it has a unit."""
    return Quantity.of(round_to(_steady(quantity.number(""))))


# Printing

_RULE = 64
_DIGITS = 4
_CELL_DIGITS = 6
_CLOSE_UP = {"deg": "°"}


def is_rule_mark(quantity: Quantity) -> bool:
    """True for an exact length in inches or feet that a rule in 64ths shows."""
    return isinstance(quantity.value, Fraction) and _on_rule(quantity.value, quantity.unit_name)


def _on_rule(value: Fraction, name: str) -> bool:
    return name in {"in", "ft"} and _RULE % value.denominator == 0


def is_exact(quantity: Quantity) -> bool:
    """True where the printed text is the value itself, False where it is rounded for print."""
    return is_rule_mark(quantity) or (
        isinstance(quantity.value, Fraction) and Fraction(_decimal(quantity.value)) == quantity.value
    )


def _decimal(value: Number) -> str:
    exact = _steady(value)
    if exact == 0:
        return "0"
    places = max(0, _DIGITS - 1 - math.floor(math.log10(abs(exact))))
    if isinstance(value, Fraction):  # an exact decimal keeps all its digits, up to eight of them
        places = next((n for n in range(9) if exact * 10**n % 1 == 0), places)
    steps = math.floor(abs(exact) * 10**places + Fraction(1, 2))
    digits = f"{steps:0{places + 1}d}"
    text = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    return f"-{text}" if exact < 0 else text


def _mixed(value: Fraction) -> str:
    sign = "-" if value < 0 else ""
    units, rest = divmod(abs(value), 1)
    fraction = f"{rest.numerator}/{rest.denominator}" if rest else ""
    return sign + " ".join(part for part in (str(units) if units or not rest else "", fraction) if part)


def plain(quantity: Quantity) -> str:
    """Return the text for a screen or a file: '4 11/32 in', '34.9 mm', '8 deg', '12 %'."""
    return _plain(quantity.value, quantity.unit_name)


# the same sizes stand on many sheets; a float is printed otherwise than the fraction it equals
@lru_cache(maxsize=4096, typed=True)
def _plain(value: Number, name: str) -> str:
    if name == ":":
        return f"1:{_decimal(1 / value)}" if value else "0:1"
    number = _mixed(value) if isinstance(value, Fraction) and _on_rule(value, name) else _decimal(value)
    return f"{number} {name}".rstrip()


def printed(quantity: Quantity) -> str:
    """Return the text for a page: as plain, with a real minus, a stacked fraction (U+2044) and no-break spaces."""
    return typeset(plain(quantity))


def printed_at(quantity: Quantity, mark: Quantity) -> str:
    """Return the printed text with all the decimals of its mark: 4 mm at a mark of 0.1 mm is '4.0 mm'."""
    if is_rule_mark(mark) or quantity.unit_name == ":":
        return printed(quantity)
    step = _steady(mark.value)
    places = next((n for n in range(9) if step * 10**n % 1 == 0), 0)
    return typeset(f"{float(_steady(quantity.value)):.{places}f} {quantity.unit_name}".rstrip())


def in_figures(quantity: Quantity) -> str:
    """Return the printed text for a narrow cell: an exact decimal of more than six digits has only four figures."""
    digits = sum(sign.isdecimal() for sign in plain(quantity))
    in_full = digits <= _CELL_DIGITS or is_rule_mark(quantity)
    return printed(quantity if in_full else Quantity(float(quantity.value), quantity.units))


@lru_cache(maxsize=4096)
def typeset(text: str) -> str:
    """Set a plain quantity text as a page wants it: '4 11/32 in' with a stacked fraction, '8 deg' as '8°'."""
    words = text.split(" ")
    if len(words) > 1 and words[-1] == "deg":
        return typeset(" ".join(words[:-1])) + "°"
    joined = words[0]
    for word in words[1:]:
        is_part = "/" in word and word[0].isdigit() and word[-1].isdigit()
        joined += ("\u202f" if is_part else "\u00a0") + word
    head, slash, tail = joined.partition("/")
    if slash and head[-1:].isdigit() and tail[:1].isdigit():
        joined = f"{head}⁄{tail}"
    return f"−{joined[1:]}" if joined.startswith("-") else joined


def exact(quantity: Quantity) -> str:
    """Return the unrounded decimal with its unit: '4.34375 in'; a slope as a plain number."""
    value = quantity.value
    is_decimal = isinstance(value, Fraction) and 10**18 % value.denominator == 0
    number = _all_digits(value) if is_decimal and isinstance(value, Fraction) else f"{float(value):.15g}"
    return number if quantity.unit_name == ":" else f"{number} {quantity.unit_name}".rstrip()


def _all_digits(value: Fraction) -> str:
    places = next(n for n in range(19) if value * 10**n % 1 == 0)
    digits = f"{abs(value.numerator) * 10**places // value.denominator:0{places + 1}d}"
    number = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    return f"-{number}" if value < 0 else number
