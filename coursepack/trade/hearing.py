"""How long an ear may stay beside a machine."""

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.limits import known_word, not_below_zero, within

_LOWEST, _HIGHEST = Quantity.of(80, "dBA"), Quantity.of(130, "dBA")
# The level that is allowed for 8 h and the step that halves the time.
_RULES = {"OSHA": (90, 5), "NIOSH": (85, 3)}
_OSHA = (
    "29 CFR 1910.95, appendix A; its table reads as 8 h halved every 5 dB over 90 dBA, a formula from memory"
)
_NIOSH = "NIOSH noise criteria: 8 h at 85 dBA, halved every 3 dB"


def noise_hours(level: Quantity, rule: str = "OSHA") -> Quantity:
    """Return the hours allowed at a sound level, by the OSHA rule or the stricter NIOSH one.

    Takes 80 to 130 dBA; raises TradeFault for others. Not rounded, as the printed Table G-16 is (92 dBA: 6 h).
    Source: 29 CFR 1910.95, appendix A; NIOSH noise criteria.
    """
    limit, step = _RULES[known_word("rule", rule, _RULES)]
    above = float(within("level", level, _LOWEST, _HIGHEST).number("dBA")) - limit
    return Quantity.of(8 / 2 ** (above / step), "h")


def noise_dose(*exposures: Quantity) -> Quantity:
    """Return the noise dose of a day, in percent of what OSHA allows, from times and levels in turn.

    Takes pairs of a time and a level of 80 to 130 dBA; raises TradeFault for others.
    Source: 29 CFR 1910.95, appendix A, I(1).
    """
    return _dose("OSHA", exposures)


def niosh_dose(*exposures: Quantity) -> Quantity:
    """Return the noise dose of a day, in percent of what NIOSH recommends, from times and levels in turn.

    Takes pairs of a time and a level of 80 to 130 dBA; raises TradeFault for others.
    Source: NIOSH noise criteria.
    """
    return _dose("NIOSH", exposures)


def _dose(rule: str, exposures: tuple[Quantity, ...]) -> Quantity:
    if not exposures or len(exposures) % 2:
        raise TradeFault(
            "a time or a level is missing", "give pairs of a time and a level, as 2 h and 95 dBA"
        )
    total = Quantity.of(0)
    for time, level in zip(exposures[::2], exposures[1::2], strict=True):
        total += not_below_zero("time", time, "h") / noise_hours(level, rule)
    return total.to("%")


_PAIRS = tuple(
    Argument(f"{name}_{number}", unit)
    for number in range(1, 5)
    for name, unit in (("time", "h"), ("level", "dBA"))
)

FUNCTIONS = (
    Function(
        "noise_hours", noise_hours, (Argument("level", "dBA"), Argument("rule", "word", tuple(_RULES))), "h",
        "Hours allowed at a sound level.", _OSHA, 'noise_hours("95 dBA", "OSHA")', optional=1,
    ),
    Function(
        "noise_dose", noise_dose, _PAIRS, "%", "Noise dose of a day by the OSHA rule, times and levels in turn.",
        _OSHA, 'noise_dose("2 h", "95 dBA", "4 h", "85 dBA")', optional=6,
    ),
    Function(
        "niosh_dose", niosh_dose, _PAIRS, "%", "Noise dose of a day by the NIOSH rule, times and levels in turn.",
        _NIOSH, 'niosh_dose("4 h", "85 dBA", "2 h", "88 dBA")', optional=6,
    ),
)  # fmt: skip
