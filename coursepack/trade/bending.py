"""Bending: plywood, laminations and steamed stock."""

from fractions import Fraction
from itertools import pairwise

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.limits import above_zero, known_word, whole_number

_ONE = Quantity.of(1)
_TABLE = "FAA AC 43.13-1B, Table 1-2"
_STATES = ("dry", "soaked")
_DIRECTIONS = ("across", "along")

# Least radii in inches, by plies and thickness: dry (10 % moisture) across and along, hot-soaked across and along;
# all bent cold. Across is 90 deg to the face grain, along is 0 or 45 deg. FAA AC 43.13-1B, Table 1-2.
_RADII = {
    3: (
        (".035", ("2.0", "1.1", "0.5", "0.1")),
        (".070", ("5.2", "3.2", "1.5", "0.4")),
        (".100", ("8.6", "5.2", "2.6", "0.8")),
        (".125", ("12", "7.1", "3.8", "1.2")),
        (".155", ("16", "10", "5.3", "1.8")),
        (".185", ("20", "13", "7.1", "2.6")),
    ),
    5: (
        (".160", ("17", "11", "6", "2")),
        (".190", ("21", "14", "7", "3")),
        (".225", ("27", "17", "10", "4")),
        (".250", ("31", "20", "12", "5")),
        (".315", ("43", "28", "16", "7")),
        (".375", ("54", "36", "21", "10")),
    ),
}


def plywood_bend_radius(thickness: Quantity, plies: Quantity, direction: str, state: str) -> Quantity:
    """Return the least bend radius of aircraft plywood, in inches; a straight line between the rows of the table.

    The direction is across (90 deg to the face grain) or along (0 or 45 deg), the state dry (10 % moisture) or
    soaked (hot water). Takes 3 plies of .035 to .185 in or 5 of .160 to .375 in; raises TradeFault for others.
    Source: FAA AC 43.13-1B, Table 1-2.
    """
    count = whole_number("plies", plies)
    if count not in _RADII:
        raise TradeFault(f"the table has no plywood of {count} plies", "it has 3 and 5 plies")
    column = 2 * _STATES.index(known_word("state", state, _STATES))
    column += _DIRECTIONS.index(known_word("direction", direction, _DIRECTIONS))
    rows = [(Fraction(row), Fraction(radii[column])) for row, radii in _RADII[count]]
    inches = Fraction(above_zero("thickness", thickness, "in").number("in"))
    for (thin, tight), (thick, wide) in pairwise(rows):
        if thin <= inches <= thick:
            return Quantity.of(tight + (wide - tight) * (inches - thin) / (thick - thin), "in")
    ends = " to ".join(f"{float(row):g}" for row, _ in (rows[0], rows[-1]))
    raise TradeFault(f"the table has no plywood {thickness} thick", f"{count} plies go from {ends} in")


def springback(laminations: Quantity) -> Quantity:
    """Return the share of its curvature, in percent, that a laminated bend loses on leaving the form: 1 / n².

    Takes a whole number from 2; raises TradeFault for others. The elastic part only: wood also creeps and swells.
    Source: strain energy of n equal laminations glued while bent.
    """
    return (_ONE / _layers(laminations) ** Fraction(2)).to("%")


def form_radius(final: Quantity, laminations: Quantity) -> Quantity:
    """Return the form's radius for a final radius, both to the centreline, in its unit: final × (1 − 1 / n²).

    Takes a length above zero and a whole number from 2; raises TradeFault for others.
    Source: strain energy of n equal laminations glued while bent.
    """
    return above_zero("final", final, "in") * (_ONE - springback(laminations))


def _layers(laminations: Quantity) -> Quantity:
    if whole_number("laminations", laminations) < 2:
        raise TradeFault("one lamination is no laminated bend", "laminations must be 2 or more")
    return laminations


def steam_time(thickness: Quantity) -> Quantity:
    """Return the steaming time of solid stock, in hours: about one hour for an inch of thickness.

    Takes a length above zero; raises TradeFault for others. Source: ANC-19 (1943), paragraph 5.6812.
    """
    return Quantity.of(above_zero("thickness", thickness, "in").number("in"), "h")


FUNCTIONS = (
    Function(
        "plywood_bend_radius", plywood_bend_radius,
        (
            Argument("thickness", "in"), Argument("plies", ""), Argument("direction", "word", _DIRECTIONS),
            Argument("state", "word", _STATES),
        ),
        "in", "Least bend radius of aircraft plywood.", _TABLE, 'plywood_bend_radius(".125 in", 3, "across", "dry")',
    ),
    Function(
        "springback", springback, (Argument("laminations", ""),), "%", "Share of curvature that a laminated bend loses.",
        "strain energy of equal laminations", "springback(4)", '1 / laminations ** 2 * "100 %"',
    ),
    Function(
        "form_radius", form_radius, (Argument("final", "in"), Argument("laminations", "")), "in",
        "Radius of the form for a final radius.", "strain energy of equal laminations", 'form_radius("500 mm", 4)',
        "final * (1 - 1 / laminations ** 2)",
    ),
    Function(
        "steam_time", steam_time, (Argument("thickness", "in"),), "h", "Steaming time of solid stock.",
        "ANC-19 (1943), paragraph 5.6812", 'steam_time("3/4 in")', 'thickness * "1 h" / "1 in"',
    ),
)  # fmt: skip
