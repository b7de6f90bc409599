"""How long an ear may stay beside a machine."""

from collections.abc import Sequence

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.limits import known_word, not_below_zero, within

_LOWEST, _HIGHEST = Quantity.of(80, "dBA"), Quantity.of(130, "dBA")
_LAST = Quantity.of(115, "dBA")  # of the levels that OSHA allows for any time: 29 CFR 1910.95, Table G-16
# The level that is allowed for 8 h and the step that halves the time.
_RULES = {"OSHA": (90, 5), "NIOSH": (85, 3)}
_OSHA = (
    "29 CFR 1910.95, appendix A; its table reads as 8 h halved every 5 dB over 90 dBA, a formula from memory"
)
_NIOSH = "NIOSH noise criteria: 8 h at 85 dBA, halved every 3 dB"


def noise_hours(level: Quantity, rule: str = "OSHA") -> Quantity:
    """Return the hours allowed at a sound level, by the OSHA rule or the stricter NIOSH one.

    Takes 80 to 130 dBA, to 115 dBA by the OSHA rule; raises TradeFault for others. Not rounded, as the printed
    Table G-16 is (92 dBA: 6 h). Source: 29 CFR 1910.95, Table G-16 and appendix A; NIOSH noise criteria.
    """
    hours = _reference_hours(level, rule)
    if known_word("rule", rule, _RULES) == "OSHA" and level > _LAST:
        raise TradeFault(f"OSHA allows no time at {level}; its table ends at {_LAST}", "keep away from it")
    return hours


def _reference_hours(level: Quantity, rule: str) -> Quantity:
    """Return the hours that make a whole dose at a sound level."""
    limit, step = _RULES[known_word("rule", rule, _RULES)]
    above = float(within("level", level, _LOWEST, _HIGHEST).number("dBA")) - limit
    return Quantity.of(8 / 2 ** (above / step), "h")


def noise_dose(exposures: Sequence[tuple[Quantity, Quantity]], rule: str = "OSHA") -> Quantity:
    """Return the noise dose of a day, in percent of what OSHA allows or NIOSH recommends.

    Takes rows of a time and a level of 80 to 130 dBA; raises TradeFault for others, and for a day of no rows.
    Source: 29 CFR 1910.95, appendix A, I(1); NIOSH noise criteria.
    """
    if not exposures:
        raise TradeFault("there is no exposure", "give rows of a time and a level, as 2 h and 95 dBA")
    total = Quantity.of(0)
    for time, level in exposures:
        total += not_below_zero("time", time, "h") / _reference_hours(level, rule)
    return total.to("%")


_RULE = Argument("rule", "word", tuple(_RULES))

FUNCTIONS = (
    Function(
        "noise_hours", noise_hours, (Argument("level", "dBA"), _RULE), "h",
        "Hours allowed at a sound level, by OSHA none over 115 dBA.", f"{_OSHA}; {_NIOSH}", 'noise_hours("95 dBA", "OSHA")', optional=1,
    ),
    Function(
        "noise_dose", noise_dose, (Argument("exposures", "rows", of=("h", "dBA")), _RULE), "%",
        "Noise dose of a day, from the hours spent at each level.", f"{_OSHA}; {_NIOSH}",
        'noise_dose([["2 h", "95 dBA"], ["4 h", "85 dBA"]])', optional=1,
    ),
)  # fmt: skip
