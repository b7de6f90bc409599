"""Grain that does not run along the piece: how steep it is and what strength it leaves."""

from fractions import Fraction

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.arithmetic import cos, sin
from coursepack.trade.limits import known_word, not_below_zero, within

_TWO = Quantity.of(2)
_ZERO = Quantity.of(0, "deg")
_SQUARE = Quantity.of(90, "deg")

# Strength left, in percent of straight-grained wood. Wood Handbook GTR-190, Table 5-12.
_COLUMNS = ("bending", "impact", "crushing")
_LEFT = (
    (Fraction(0), (100, 100, 100)),
    (Fraction(1, 25), (96, 95, 100)),
    (Fraction(1, 20), (93, 90, 100)),
    (Fraction(1, 15), (89, 81, 100)),
    (Fraction(1, 10), (81, 62, 99)),
    (Fraction(1, 5), (55, 36, 93)),
)


def combined_slope(spiral: Quantity, diagonal: Quantity) -> Quantity:
    """Return the slope of grain that a spiral and a diagonal slope make together: the root of their squares' sum.

    Takes slopes of zero or more, as 1:20; raises TradeFault for others. Source: ANC-19 (1943), paragraph 2.3022.
    """
    squares = not_below_zero("spiral", spiral, ":") ** Fraction(2) + not_below_zero(
        "diagonal", diagonal, ":"
    ) ** Fraction(2)
    return (squares ** Fraction(1, 2)).to(":")


def slope_strength(slope: Quantity, strength: str) -> Quantity:
    """Return the strength left at a slope of grain, in percent of straight-grained wood; straight lines between rows.

    Takes 0 to 1:5, and bending (modulus of rupture), impact or crushing; raises TradeFault for others.
    Source: Wood Handbook GTR-190, Table 5-12. Hankinson's formula gives up to 9 points less.
    """
    within("slope", slope, Quantity.of(0), Quantity.of(_LEFT[-1][0], ":"))
    column, steep = _COLUMNS.index(known_word("strength", strength, _COLUMNS)), Fraction(slope.number(":"))
    place = next(number for number, (row, _) in enumerate(_LEFT) if steep <= row)
    (low, before), (high, after) = _LEFT[max(place - 1, 0)], _LEFT[max(place, 1)]
    share = (steep - low) / (high - low)
    return Quantity.of(before[column] + share * (after[column] - before[column]), "%")


def hankinson(along: Quantity, across: Quantity, angle: Quantity, power: Quantity = _TWO) -> Quantity:
    """Return the strength at an angle to the grain, P Q / (P sinⁿ + Q cosⁿ), in the unit of the strength along it.

    Takes two strengths of one kind above zero, 0 to 90 deg, and n from 1 to 3 (2 if not given); raises
    TradeFault for others. Source: ANC-18 (1944), Eq. 2:87; n other than 2: Wood Handbook GTR-190, chapter 5.
    """
    if along.kind != across.kind or min(along, across).value <= 0:
        raise TradeFault(f"the strengths are {along} and {across}", "both must be of one kind and above zero")
    within("angle", angle, _ZERO, _SQUARE)
    n = float(within("power", power, Quantity.of(1), Quantity.of(3)).number())
    sine, cosine = (Quantity.of(max(float(part(angle).number()), 0.0) ** n) for part in (sin, cos))
    return along * across / (along * sine + across * cosine)


FUNCTIONS = (
    Function(
        "combined_slope", combined_slope, (Argument("spiral", ":"), Argument("diagonal", ":")), ":",
        "Slope of grain that a spiral and a diagonal slope make together.", "ANC-19 (1943), paragraph 2.3022",
        'combined_slope("1:20", "1:30")', "(spiral ** 2 + diagonal ** 2) ** (1/2)",
    ),
    Function(
        "slope_strength", slope_strength, (Argument("slope", ":"), Argument("strength", "word", _COLUMNS)), "%",
        "Strength left at a slope of grain.", "Wood Handbook GTR-190, Table 5-12", 'slope_strength("1:15", "bending")',
    ),
    Function(
        "hankinson", hankinson,
        (Argument("along", "any"), Argument("across", "same"), Argument("angle", "deg"), Argument("power", "")), "same",
        "Strength at an angle to the grain.", "ANC-18 (1944), Eq. 2:87", 'hankinson("5610 psi", "580 psi", "30 deg")',
        optional=1,
    ),
)  # fmt: skip
