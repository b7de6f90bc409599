"""The units of the shop. The only module that knows pint; no shop text ever reaches its parser."""

from fractions import Fraction
from functools import cache, lru_cache
from typing import Any

import pint

from coursepack.place import QuantityFault

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
def conversion(source: Any, target: Any) -> Fraction:
    """Return the factor from one unit to another of its kind."""
    return Fraction(_UNITS.convert(Fraction(1), source, target))


@lru_cache(maxsize=4096)
def dimension(pint_unit: Any) -> Kind:
    """Return the kind of a pint unit."""
    return tuple(sorted((name, Fraction(power)) for name, power in pint_unit.dimensionality.items()))


@lru_cache(maxsize=4096)
def product(left: Any, right: Any) -> tuple[Any, Fraction]:
    """Return the unit of a product, inches and millimetres brought together, and the factor that this costs."""
    raw = left * right
    if not dimension(raw):
        return (raw, Fraction(1)) if raw.dimensionless and not raw._units else _plain(raw)
    tidy = tidied(raw)
    return tidy, conversion(raw, tidy)


def _plain(raw: Any) -> tuple[Any, Fraction]:
    if unit_name(raw) == "%":
        return raw, Fraction(1)
    none = _UNITS.Unit("")
    return none, conversion(raw, none)


def tidied(raw: Any) -> Any:
    """Replace every length unit by the first one, every percent by a plain number, and so on."""
    firsts: dict[Kind, str] = {}
    result = _UNITS.Unit("")
    for full, power in raw._units.items():
        one = _UNITS.Unit(full)
        if dimension(one):
            result *= _UNITS.Unit(firsts.setdefault(dimension(one), full)) ** power
    return result


def is_temperature(pint_unit: Any) -> bool:
    """True for °F and °C, whose zero is not the zero of the kelvin."""
    return unit_name(pint_unit) in {"°F", "°C"}


@lru_cache(maxsize=512)
def unit_of_parts(parts: tuple[tuple[str, Any], ...]) -> Any:
    """Return the unit of some parts; see parts_of."""
    result = _UNITS.Unit("")
    for name, power in parts:
        result *= _UNITS.Unit(name) ** power
    return result


@lru_cache(maxsize=512)
def inverse(units: Any) -> Any:
    """Return one over a unit."""
    return units**-1 if units._units else units


_KIND_NAMES = {
    "": "a plain number", "in": "a length", "in²": "an area", "in³": "a volume", "deg": "an angle",
    "lb": "a weight", "lbf": "a force", "psi": "a pressure", "°F": "a temperature", "min": "a time",
    "rpm": "a spindle speed", "ft/min": "a speed", "1/in": "a number per length", "lb/ft³": "a density",
    "in⁴": "a second moment of area", "lb/ft²": "a weight per area", "in·lbf": "a moment", "dBA": "a sound level",
}  # fmt: skip


@cache
def _kind_table() -> dict[Kind, str]:
    return {dimension(unit(name)): words for name, words in _KIND_NAMES.items()}


def kind_of(name: str) -> Kind:
    """Return the kind of a unit's shop name; raises QuantityFault for an unknown unit."""
    return dimension(unit(name))


def kind_name(kind: Kind) -> str:
    """Return the words for a kind: 'a length', 'a pressure', or its dimensions where it has no name."""
    return _kind_table().get(kind) or " × ".join(f"{name}^{power}" for name, power in kind)


@cache
def usual_units() -> dict[Kind, tuple[str, str]]:
    """Return, for the kinds that products come out in, the unit of an inch shop and of a metric one."""
    pairs = {"in": "mm", "in²": "mm²", "in³": "mm³", "lb": "kg", "lbf": "N", "psi": "kPa", "1/in": "1/mm"}
    return {dimension(unit(inch)): (inch, metric) for inch, metric in pairs.items()}


def is_known(name: str) -> bool:
    """True for a shop name that this module lists."""
    return name == "" or name in _SIMPLE or name in _COMPOUND


def parts_of(pint_unit: Any) -> tuple[tuple[str, Any], ...]:
    """Return the parts of a unit and their powers, to make it again in another process."""
    return tuple(pint_unit._units.items())
