"""What the functions of the trade take, and the fault for what they do not take."""

from collections.abc import Collection

from coursepack.place import TradeFault, did_you_mean
from coursepack.quantity import Quantity
from coursepack.units import kind_name, kind_of

_METRIC = {
    "mm", "cm", "m", "mm²", "cm²", "m²", "mm³", "cm³", "m³", "m/min", "mm/min", "m/s", "mm/s", "kPa", "MPa", "N", "kg", "g",
}  # fmt: skip


_LIKE = {"": "3", ":": "1:15"}


def of_kind(name: str, quantity: Quantity, unit: str) -> Quantity:
    """Return the quantity if it has the kind of the unit; raises TradeFault naming both kinds."""
    if quantity.kind != kind_of(unit):
        wanted = kind_name(kind_of(unit))
        raise TradeFault(
            f"{name} is {kind_name(quantity.kind)}, not {wanted}",
            f"write one such as {_LIKE.get(unit, f'3 {unit}')}",
        )
    return quantity


def above_zero(name: str, quantity: Quantity, unit: str) -> Quantity:
    """Return the quantity if it has the kind of the unit and is above zero; raises TradeFault."""
    if of_kind(name, quantity, unit).value <= 0:
        raise TradeFault(f"{name} is {quantity}", f"{name} must be above zero")
    return quantity


def not_below_zero(name: str, quantity: Quantity, unit: str) -> Quantity:
    """Return the quantity if it has the kind of the unit and is zero or more; raises TradeFault."""
    if of_kind(name, quantity, unit).value < 0:
        raise TradeFault(f"{name} is {quantity}", f"{name} must be zero or more")
    return quantity


def within(name: str, quantity: Quantity, low: Quantity, high: Quantity) -> Quantity:
    """Return the quantity if it lies from low to high, both included; raises TradeFault with the range."""
    if not low <= of_kind(name, quantity, low.unit_name) <= high:
        raise TradeFault(f"{name} is {quantity}", f"{name} must be from {low} to {high}")
    return quantity


def whole_number(name: str, quantity: Quantity) -> int:
    """Return a count of one or more; raises TradeFault for a part of one, none, or a unit."""
    count = above_zero(name, quantity, "").number()
    if count % 1:
        raise TradeFault(f"{name} is {quantity}", f"{name} must be a whole number")
    return int(count)


def known_word(name: str, word: str, words: Collection[str]) -> str:
    """Return the word as the table spells it, whatever its capitals; raises TradeFault with the words known."""
    for spelled in words:
        if spelled.casefold() == word.casefold():
            return spelled
    raise TradeFault(f"{name} '{word}' is not known", did_you_mean(word, words))


def acute(name: str, angle: Quantity) -> Quantity:
    """Return the angle if it lies between -90 and 90 deg, both left out; raises TradeFault."""
    if not -90 < of_kind(name, angle, "deg").number("deg") < 90:
        raise TradeFault(f"{name} is {angle}", f"{name} must be between -90 deg and 90 deg")
    return angle


def is_metric(quantity: Quantity) -> bool:
    """Tell whether a quantity is in a metric unit, so that the result can be given in one too."""
    return quantity.unit_name in _METRIC
