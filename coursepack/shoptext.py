"""Reading shop text: '1 3/8 in', '6 ft 3 in', '34.9 mm', '8 deg', '1:15', '12 %'.

Our own strict parser: what it does not know is a fault, never a guess.
"""

import re
from fractions import Fraction

from coursepack.place import QuantityFault
from coursepack.quantity import Quantity
from coursepack.units import unit

_MOST_CHARACTERS = 60
_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3",
}  # fmt: skip
_SAME = str.maketrans(
    {"−": "-", "⁄": "/", "″": '"', "′": "'", "”": '"', "’": "'", "\u00a0": " ", "\u202f": " ", "º": "°"}
)
_FRACTION = r"[0-9]{1,6}/[0-9]{1,6}"
_DECIMAL = r"[0-9]{1,12}(?:\.[0-9]{1,12})?|\.[0-9]{1,12}"
_AMOUNT = rf"(?:[0-9]{{1,9}}(?:-|\s+){_FRACTION}|{_FRACTION}|{_DECIMAL})"
_SLOPE = re.compile(rf"({_DECIMAL})\s*(?::|in\s)\s*({_DECIMAL})")
_FEET = re.compile(rf"(-?)([0-9]{{1,6}})\s*(?:ft|feet|foot|')(?:-|\s*)({_AMOUNT})\s*(?:inches|inch|in|\")")
_DIFFERENCE = re.compile(r"\S(?: -|- ) ?[0-9.]")
_ONE = re.compile(rf"(-?)\s*({_AMOUNT})\s*(.*)")


def parse(text: str) -> Quantity:
    """Read one quantity; raises QuantityFault with what would be right."""
    tidy = _tidy(text)
    if _DIFFERENCE.search(tidy):
        raise QuantityFault(
            f"'{text}' may be one size or a difference",
            'write 4-3/8 in for the size, or "4 in" - "3/8 in" for the difference',
        )
    if slope := _SLOPE.fullmatch(tidy):
        return Quantity.of(_over(Fraction(slope[1]), Fraction(slope[2]), text), ":")
    if feet := _FEET.fullmatch(tidy):
        inches = int(feet[2]) * 12 + _amount(feet[3], text)
        return Quantity.of(-inches if feet[1] else inches, "in")
    one = _ONE.fullmatch(tidy)
    if not one:
        raise _unread(text)
    value = _amount(one[2], text)
    try:
        return Quantity(-value if one[1] else value, unit(one[3].strip()))
    except QuantityFault as fault:
        raise QuantityFault(f"'{text[:_MOST_CHARACTERS]}': {fault.message}", fault.remedy) from fault


def looks_like_quantity(text: str) -> bool:
    """True for a text that starts as a number does, so that a misspelt quantity is not taken for a word."""
    return bool(re.match(r"\s*[-−+.]?\s*[\d½¼¾⅛⅜⅝⅞⅓⅔]", text))


def _tidy(text: str) -> str:
    if len(text) > _MOST_CHARACTERS:
        raise QuantityFault(f"'{text[:20]}…' is too long for a quantity", "write one such as 1 3/8 in")
    for sign, spelled in _VULGAR.items():
        text = text.replace(f"-{sign}", f"-{spelled}").replace(sign, f" {spelled}")
    return re.sub(r"\s+", " ", text.translate(_SAME)).strip()


def _amount(text: str, whole_text: str) -> Fraction:
    """Read '1 3/8', '1-3/8', '3/8', '1.375' or '12'."""
    parts = re.split(r"-|\s+", text)
    fraction = parts[-1].split("/")
    value = (
        Fraction(parts[-1])
        if len(fraction) == 1
        else _over(Fraction(fraction[0]), Fraction(fraction[1]), whole_text)
    )
    if len(parts) == 1:
        return value
    if value >= 1:
        raise QuantityFault(
            f"'{whole_text}': the fraction of a mixed number is less than one", "carry the whole ones"
        )
    return int(parts[0]) + value


def _over(above: Fraction, below: Fraction, text: str) -> Fraction:
    if below == 0:
        raise QuantityFault(f"'{text}' divides by zero")
    return above / below


def _unread(text: str) -> QuantityFault:
    return QuantityFault(
        f"'{text}' is not a quantity", "write one such as 1 3/8 in, 34.9 mm, 8 deg, 1:15 or 12 %"
    )
