"""Buying stock and bringing it to size: board feet, dressed sizes, passes, strips and knife marks."""

import math
from fractions import Fraction

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity, whole
from coursepack.trade.limits import above_zero, is_metric, known_word, not_below_zero, whole_number

_INCH = Quantity.of(1, "in")
_CONDITIONS = ("dry", "green")

# Minimum dressed sizes, in inches, as nominal: (dry, green). PS 20, boards and dimension lumber, as reprinted.
_THICKNESSES = {
    "3/8": ("5/16", "11/32"), "1/2": ("7/16", "15/32"), "5/8": ("9/16", "19/32"), "3/4": ("5/8", "11/16"),
    "1": ("3/4", "25/32"), "5/4": ("1", "33/32"), "3/2": ("5/4", "41/32"), "2": ("3/2", "25/16"),
    "5/2": ("2", "33/16"), "3": ("5/2", "41/16"), "7/2": ("3", "49/16"), "4": ("7/2", "57/16"), "9/2": ("4", "65/16"),
}  # fmt: skip
_WIDTHS = {
    "2": ("3/2", "25/16"), "3": ("5/2", "41/16"), "4": ("7/2", "57/16"), "5": ("9/2", "37/8"), "6": ("11/2", "45/8"),
    "7": ("13/2", "53/8"), "8": ("29/4", "15/2"), "9": ("33/4", "17/2"), "10": ("37/4", "19/2"),
    "11": ("41/4", "21/2"), "12": ("45/4", "23/2"), "14": ("53/4", "27/2"), "16": ("61/4", "31/2"),
}  # fmt: skip
_SIZES = {
    "thickness": {Fraction(nominal): pair for nominal, pair in _THICKNESSES.items()},
    "width": {Fraction(nominal): pair for nominal, pair in _WIDTHS.items()},
}


def board_feet(thickness: Quantity, width: Quantity, length: Quantity) -> Quantity:
    """Return the board feet of a board; a thickness under 1 in counts as 1 in.

    Takes nominal lengths above zero; raises TradeFault for others.
    Source: U.S. Navy, Engineering Aid Basic, 6-3; a board foot is 144 cubic inches.
    """
    counted = max(above_zero("thickness", thickness, "in"), _INCH)
    return (counted * above_zero("width", width, "in") * above_zero("length", length, "in")).to("bd ft")


def dressed(nominal: Quantity, side: str, condition: str) -> Quantity:
    """Return the least dressed size, in inches, of softwood lumber of a nominal thickness or width, dry or green.

    A thickness of 5 in or more is a timber's. Raises TradeFault for a size that is not in the table.
    Source: PS 20, as reprinted.
    """
    inches = Fraction(above_zero("nominal", nominal, "in").number("in"))
    is_green = known_word("condition", condition, _CONDITIONS) == "green"
    table = _SIZES[known_word("side", side, _SIZES)]
    if inches in table:
        return Quantity.of(Fraction(table[inches][is_green]), "in")
    if inches < 5 or inches % 1:
        sizes = ", ".join(str(Quantity.of(size, "in")) for size in table)
        raise TradeFault(f"{nominal} is not a nominal {side}", f"known: {sizes}, and whole inches from 5 in")
    return Quantity.of(inches - _timber_loss(inches, is_green=is_green), "in")


def _timber_loss(inches: Fraction, *, is_green: bool) -> Fraction:
    if inches >= 16:
        return Fraction(1)
    return Fraction(1, 2) if inches < 7 or is_green else Fraction(3, 4)


def passes(excess: Quantity, cut: Quantity) -> Quantity:
    """Return the number of equal passes that take off an excess, none of them deeper than a cut.

    Takes lengths, the cut above zero; raises TradeFault for others. Source: common practice.
    """
    return whole(not_below_zero("excess", excess, "in") / above_zero("cut", cut, "in"), math.ceil)


def strips(width: Quantity, strip: Quantity, kerf: Quantity) -> Quantity:
    """Return the number of strips that a board's width gives: n strips cost n − 1 kerfs.

    Takes lengths above zero, the kerf zero or more; raises TradeFault for others. Source: common practice.
    """
    not_below_zero("kerf", kerf, "in")
    return whole(
        (above_zero("width", width, "in") + kerf) / (above_zero("strip", strip, "in") + kerf), math.floor
    )


def knife_marks(spindle: Quantity, knives: Quantity, feed: Quantity) -> Quantity:
    """Return the knife marks per length that a cutterhead leaves, per inch, or per centimetre for a metric feed.

    Takes a spindle speed, a whole number of knives and a feed speed, all above zero; raises TradeFault for
    others. Source: trade article on knife marks: rpm × knives / feed.
    """
    whole_number("knives", knives)
    marks = above_zero("spindle", spindle, "rpm") * knives / above_zero("feed", feed, "ft/min")
    return marks.to("1/cm" if is_metric(feed) else "1/in")


FUNCTIONS = (
    Function(
        "board_feet", board_feet, (Argument("thickness", "in"), Argument("width", "in"), Argument("length", "in")),
        "bd ft", "Board feet of a board by its nominal sizes; under 1 in counts as 1 in.",
        "U.S. Navy, Engineering Aid Basic, 6-3", 'board_feet("1 in", "6 in", "8 ft")',
        'max(thickness, "1 in") * width * length',
    ),
    Function(
        "dressed", dressed,
        (Argument("nominal", "in"), Argument("side", "word", tuple(_SIZES)), Argument("condition", "word", _CONDITIONS)),
        "in", "Least dressed size of softwood lumber of a nominal thickness or width.", "PS 20, as reprinted",
        'dressed("2 in", "thickness", "dry")',
    ),
    Function(
        "passes", passes, (Argument("excess", "in"), Argument("cut", "in")), "",
        "Equal passes that take off an excess.", "common practice", 'passes("5/16 in", "1/16 in")', "up(excess / cut)",
    ),
    Function(
        "strips", strips, (Argument("width", "in"), Argument("strip", "in"), Argument("kerf", "in")), "",
        "Strips that a board's width gives.", "common practice", 'strips("6 in", "3/4 in", "1/8 in")',
        "down((width + kerf) / (strip + kerf))",
    ),
    Function(
        "knife_marks", knife_marks, (Argument("spindle", "rpm"), Argument("knives", ""), Argument("feed", "ft/min")),
        "1/in", "Knife marks per inch, or per centimetre for a metric feed.", "trade article on knife marks",
        'knife_marks("3600 rpm", 2, "20 ft/min")', "spindle * knives / feed",
    ),
)  # fmt: skip
