"""Shop quantities: exact values with units, read and printed as a shop writes them.

A value is an exact fraction until something irrational (a tangent, a root) touches it; from then on it is a
float. Pint knows the units; no shop text ever reaches its parser.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from typing import Any, Literal

import pint

from coursepack.place import QuantityFault

Number = Fraction | float
Measure = Literal["inch", "metric"]
Kind = tuple[tuple[str, Fraction], ...]

# 1 in = 25.4 mm exactly: addendum to NBS Circular 572 (1959). The pound is 0.45359237 kg exactly and standard
# gravity 9.80665 m/s2: NIST Special Publication 811, appendix B. A board foot is 144 in3.
_DEFINITIONS = """
meter = [length]
inch = 0.0254 * meter = in
foot = 12 * inch = ft
millimeter = 0.001 * meter = mm
centimeter = 0.01 * meter = cm
kilogram = [mass] = kg
gram = 0.001 * kilogram = g
pound = 0.45359237 * kilogram = lb
ounce = 0.0625 * pound = oz
second = [time]
minute = 60 * second = min
hour = 60 * minute
day = 24 * hour
degree = [angle] = deg
kelvin = [temperature]; offset: 0 = K
celsius = kelvin; offset: 273.15 = degC
fahrenheit = 0.55555555555555555556 * kelvin; offset: 255.37222222222222222222 = degF
percent = 0.01
gradient = 1
turn_per_minute = 1 / minute = rpm
newton = kilogram * meter / second ** 2 = N
pound_force = 4.4482216152605 * newton = lbf
pascal = newton / meter ** 2
kilopascal = 1000 * pascal = kPa
megapascal = 1000000 * pascal = MPa
psi = pound_force / inch ** 2
board_foot = 144 * inch ** 3
decibel = [sound]
"""


def _registry() -> Any:
    registry: Any = pint.UnitRegistry(None, non_int_type=Fraction, cache_folder=None)
    for line in _DEFINITIONS.strip().splitlines():
        registry.define(line)
    return registry


_UNITS: Any = _registry()
_SIMPLE = {
    "in": "inch", "ft": "foot", "mm": "millimeter", "cm": "centimeter", "m": "meter",
    "deg": "degree", "%": "percent", ":": "gradient", "°F": "fahrenheit", "°C": "celsius", "K": "kelvin",
    "lb": "pound", "oz": "ounce", "kg": "kilogram", "g": "gram",
    "s": "second", "min": "minute", "h": "hour", "day": "day",
    "rpm": "turn_per_minute", "N": "newton", "lbf": "pound_force",
    "psi": "psi", "kPa": "kilopascal", "MPa": "megapascal", "bd ft": "board_foot", "dBA": "decibel",
}  # fmt: skip
_OTHER_SPELLINGS = {
    '"': "in", "inch": "in", "inches": "in", "'": "ft", "foot": "ft", "feet": "ft",
    "°": "deg", "degree": "deg", "degrees": "deg", "percent": "%", "degF": "°F", "degC": "°C",
    "lbs": "lb", "pound": "lb", "pounds": "lb", "ounce": "oz", "ounces": "oz",
    "hour": "h", "hours": "h", "minute": "min", "minutes": "min", "second": "s", "seconds": "s",
    "days": "day", "board foot": "bd ft", "board feet": "bd ft", "dB": "dBA",
    "in2": "in²", "ft2": "ft²", "mm2": "mm²", "cm2": "cm²", "m2": "m²",
    "in3": "in³", "ft3": "ft³", "mm3": "mm³", "cm3": "cm³", "m3": "m³",
    "lb/ft3": "lb/ft³", "kg/m3": "kg/m³", "g/cm3": "g/cm³", "lb/ft2": "lb/ft²",
}  # fmt: skip
_COMPOUND = (
    "in²", "ft²", "mm²", "cm²", "m²", "in³", "ft³", "mm³", "cm³", "m³", "in⁴", "mm⁴",
    "ft/min", "in/min", "m/min", "mm/min", "mm/s", "m/s", "1/in", "1/ft", "1/mm", "1/cm",
    "lb/ft³", "kg/m³", "g/cm³", "lb/ft²", "g/m²", "lbf/in", "N/mm", "in·lbf", "ft·lbf", "N·m", "%/day",
)  # fmt: skip
_POWERS = {"²": 2, "³": 3, "⁴": 4}
_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def _factor(part: str) -> Any:
    power = _POWERS.get(part[-1], 1)
    name = part[:-1] if power > 1 else part
    return _UNITS.Unit(_SIMPLE[name]) ** power


@lru_cache(maxsize=512)
def unit(name: str) -> Any:
    """Return the pint unit of a shop name such as 'in', 'mm', 'ft/min' or '' for a plain number.

    Raises QuantityFault for a name that is no unit here.
    """
    short = _OTHER_SPELLINGS.get(name, name)
    if short == "":
        return _UNITS.Unit("")
    if short in _SIMPLE:
        return _UNITS.Unit(_SIMPLE[short])
    if short not in _COMPOUND:
        raise QuantityFault(
            f"'{name}' is not a unit", "write in, ft, mm, deg, %, psi, rpm or another shop unit"
        )
    above, _, below = short.partition("/")
    result = _UNITS.Unit("")
    for part in above.split("·"):
        result = result if part == "1" else result * _factor(part)
    return result / _factor(below) if below else result


@cache
def unit_name(pint_unit: Any) -> str:
    """Return the shop name of a pint unit: 'in', 'in²', 'lb/ft³', '' for a plain number."""
    short = {full: name for name, full in _SIMPLE.items()}
    above: list[str] = []
    below: list[str] = []
    for full, power in pint_unit._units.items():
        raised = "" if abs(power) == 1 else _raised(abs(power))
        (above if power > 0 else below).append(short.get(full, full) + raised)
    top = "·".join(sorted(above)) or ("1" if below else "")
    return "/".join([top, *sorted(below)])


def _raised(power: Any) -> str:
    return str(Fraction(power)).replace("/", "⸍").translate(_RAISED)


@lru_cache(maxsize=4096)
def _conversion(source: Any, target: Any) -> Fraction:
    return Fraction(_UNITS.convert(Fraction(1), source, target))


@lru_cache(maxsize=4096)
def _kind(pint_unit: Any) -> Kind:
    return tuple(sorted((name, Fraction(power)) for name, power in pint_unit.dimensionality.items()))


@lru_cache(maxsize=4096)
def _product(left: Any, right: Any) -> tuple[Any, Fraction]:
    """Unit of a product, inches and millimetres brought together, and the factor that this costs."""
    raw = left * right
    if not _kind(raw):
        return (raw, Fraction(1)) if raw.dimensionless and not raw._units else _plain(raw)
    tidy = _tidy(raw)
    return tidy, _conversion(raw, tidy)


def _plain(raw: Any) -> tuple[Any, Fraction]:
    if unit_name(raw) == "%":
        return raw, Fraction(1)
    none = _UNITS.Unit("")
    return none, _conversion(raw, none)


def _tidy(raw: Any) -> Any:
    """Replace every length unit by the first one, every percent by a plain number, and so on."""
    firsts: dict[Kind, str] = {}
    result = _UNITS.Unit("")
    for full, power in raw._units.items():
        one = _UNITS.Unit(full)
        if _kind(one):
            result *= _UNITS.Unit(firsts.setdefault(_kind(one), full)) ** power
    return result


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


def _is_temperature(pint_unit: Any) -> bool:
    return unit_name(pint_unit) in {"°F", "°C"}


@dataclass(frozen=True, eq=False)
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
        return _kind(self.units)

    def to(self, name: str) -> "Quantity":
        """Return the same quantity in another unit of the same kind; raises QuantityFault for another kind."""
        return self._in(unit(name))

    def number(self, name: str = "") -> Number:
        """Return the bare value in the unit named; raises QuantityFault where the kind differs."""
        return self.to(name).value

    def _in(self, target: Any) -> "Quantity":
        if target == self.units and target._units == self.units._units:
            return self
        if _kind(target) != self.kind:
            raise QuantityFault(f"{self} is {kind_name(self.kind)}, not {kind_name(_kind(target))}")
        if _is_temperature(self.units) or _is_temperature(target):
            return Quantity(_temperature(self.value, self.unit_name, unit_name(target)), target)
        return Quantity(_bounded(_times(self.value, _conversion(self.units, target))), target)

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
        return Quantity(_bounded(_plus(self.value, _times(other._in(self.units).value, sign))), self.units)

    def __mul__(self, other: "Quantity") -> "Quantity":
        _no_temperature(self, other)
        units, factor = _product(self.units, other.units)
        return Quantity(_bounded(_times(_times(self.value, other.value), factor)), units)

    def __truediv__(self, other: "Quantity") -> "Quantity":
        if other.value == 0:
            raise QuantityFault("division by zero")
        inverse = 1 / other.value if isinstance(other.value, float) else Fraction(1) / other.value
        return self * Quantity(inverse, _inverse(other.units))

    def __pow__(self, power: Fraction) -> "Quantity":
        """Raise to a power; of a quantity with units only whole and half powers give a unit."""
        _no_temperature(self, self)
        if self.kind and (2 * power).denominator != 1:
            raise QuantityFault(f"{self} takes whole and half powers, not {power}")
        units = _tidy(self.units**power) if self.kind else _UNITS.Unit("")
        base = self._in(units).value if not self.kind else self.value
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
        mine, theirs = self.value, other._in(self.units).value
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
        return _remade, (self.value, tuple(self.units._units.items()))

    def __str__(self) -> str:
        return plain(self)


def _remade(value: Number, parts: tuple[tuple[str, Any], ...]) -> Quantity:
    """Make a quantity again in another process, from its value and the parts of its unit."""
    return Quantity(value, _unit_of(parts))


@lru_cache(maxsize=512)
def _unit_of(parts: tuple[tuple[str, Any], ...]) -> Any:
    result = _UNITS.Unit("")
    for name, power in parts:
        result *= _UNITS.Unit(name) ** power
    return result


@lru_cache(maxsize=512)
def _inverse(units: Any) -> Any:
    return 1 / units if units._units else units


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
    if _is_temperature(left.units) or _is_temperature(right.units):
        raise QuantityFault("a temperature in °F or °C can be compared, but not added or multiplied")


_KIND_NAMES = {
    "": "a plain number", "in": "a length", "in²": "an area", "in³": "a volume", "deg": "an angle",
    "lb": "a weight", "lbf": "a force", "psi": "a pressure", "°F": "a temperature", "min": "a time",
    "rpm": "a spindle speed", "ft/min": "a speed", "1/in": "a number per length", "lb/ft³": "a density",
    "in⁴": "a second moment of area", "lb/ft²": "a weight per area", "in·lbf": "a moment", "dBA": "a sound level",
}  # fmt: skip


@cache
def _kind_table() -> dict[Kind, str]:
    return {_kind(unit(name)): words for name, words in _KIND_NAMES.items()}


def kind_of(name: str) -> Kind:
    """Return the kind of a unit's shop name; raises QuantityFault for an unknown unit."""
    return _kind(unit(name))


def kind_name(kind: Kind) -> str:
    """Return the words for a kind: 'a length', 'a pressure', or its dimensions where it has no name."""
    return _kind_table().get(kind) or " × ".join(f"{name}^{power}" for name, power in kind)


@cache
def _usual_units() -> dict[Kind, tuple[str, str]]:
    pairs = {"in": "mm", "in²": "mm²", "in³": "mm³", "lb": "kg", "lbf": "N", "psi": "kPa", "1/in": "1/mm"}
    return {_kind(unit(inch)): (inch, metric) for inch, metric in pairs.items()}


def settled(quantity: Quantity, measure: Measure) -> Quantity:
    """Return the quantity in a unit a shop knows: what a chain of products left as psi·in² comes out in lbf."""
    name = quantity.unit_name
    if name in _SIMPLE or name in _COMPOUND or name == "" or quantity.kind not in _usual_units():
        return quantity
    return quantity.to(_usual_units()[quantity.kind][measure == "metric"])


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
    steps = _steady(quantity._in(mark.units).value) / _steady(mark.value)
    whole = math.floor(abs(steps) + Fraction(1, 2))
    return Quantity((whole if steps >= 0 else -whole) * _steady(mark.value), mark.units)


def whole(quantity: Quantity, round_to: Callable[[Fraction], int]) -> Quantity:
    """Round a plain number up or down with math.ceil or math.floor; raises QuantityFault if it has a unit."""
    return Quantity.of(round_to(_steady(quantity.number(""))))


# Printing

_RULE = 64
_DIGITS = 4
_CLOSE_UP = {"deg": "°"}


def is_rule_mark(quantity: Quantity) -> bool:
    """True for an exact length in inches or feet that a rule in 64ths shows."""
    value = quantity.value
    return (
        quantity.unit_name in {"in", "ft"} and isinstance(value, Fraction) and _RULE % value.denominator == 0
    )


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
    text = text.rstrip("0").rstrip(".") if places and isinstance(value, Fraction) else text
    return f"-{text}" if exact < 0 else text


def _mixed(value: Fraction) -> str:
    sign = "-" if value < 0 else ""
    units, rest = divmod(abs(value), 1)
    fraction = f"{rest.numerator}/{rest.denominator}" if rest else ""
    return sign + " ".join(part for part in (str(units) if units or not rest else "", fraction) if part)


def plain(quantity: Quantity) -> str:
    """Return the text for a screen or a file: '4 11/32 in', '34.9 mm', '8 deg', '12 %'."""
    value = quantity.value
    if quantity.unit_name == ":":
        return f"1:{_decimal(1 / value)}" if value else "0:1"
    number = _mixed(value) if is_rule_mark(quantity) and isinstance(value, Fraction) else _decimal(value)
    return f"{number} {quantity.unit_name}".rstrip()


def printed(quantity: Quantity) -> str:
    """Return the text for a page: as plain, with a real minus, a stacked fraction (U+2044) and no-break spaces."""
    return typeset(plain(quantity))


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
