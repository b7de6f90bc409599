"""Gluing: pressure, clamps and the weight of the glue."""

import math

from coursepack.formula import Argument, Function
from coursepack.quantity import Quantity, whole
from coursepack.trade.limits import above_zero, is_metric, whole_number
from coursepack.trade.wood import Row, Table

_AC = "FAA AC 43.13-1B, paragraph 1-10b"
_ANC = "ANC-19 (1943), paragraph 5.270: hardwoods by name, but as soft as spruce"

# Typical pressures. The circular's softwoods and hardwoods are taken before the groups of ANC-19, whose glues are
# those of 1943, but for the two light hardwoods that 200 psi would crush.
PRESSURES = Table(
    {"least": "psi", "most": "psi"},
    {
        "softwood": Row("125 150", _AC),
        "hardwood": Row("150 200", _AC),
        "Sitka spruce": Row("125 150", _AC),
        "red spruce": Row("125 150", _AC),
        "white spruce": Row("125 150", _AC),
        "black spruce": Row("125 150", _AC),
        "Engelmann spruce": Row("125 150", _AC),
        "Douglas-fir": Row("125 150", _AC),
        "noble fir": Row("125 150", _AC),
        "western hemlock": Row("125 150", _AC),
        "Port-Orford-cedar": Row("125 150", _AC),
        "western redcedar": Row("125 150", _AC),
        "eastern white pine": Row("125 150", _AC),
        "western white pine": Row("125 150", _AC),
        "yellow-poplar": Row("100 150", _ANC),
        "basswood": Row("100 150", _ANC),
        "white ash": Row("150 200", _AC),
        "yellow birch": Row("150 200", _AC),
        "sugar maple": Row("150 200", _AC),
        "mahogany": Row("150 200", _AC),
    },
)


def clamp_pressure(species: str, end: str = "least") -> Quantity:
    """Return the least or the most of the typical clamp pressure for a resorcinol joint, in psi.

    Takes a species, or softwood or hardwood; raises TradeFault for others. The glue's own data sheet comes first.
    Source: FAA AC 43.13-1B, paragraph 1-10b; the row of each species names its own.
    """
    return PRESSURES.value(species, end)


def clamp_force(pressure: Quantity, area: Quantity) -> Quantity:
    """Return the force that gives a joint its pressure, in lbf, or N for a metric area: pressure × area.

    Takes a pressure and an area above zero; raises TradeFault for others. Source: the definition of pressure.
    """
    force = above_zero("pressure", pressure, "psi") * above_zero("area", area, "in²")
    return force.to("N" if is_metric(area) else "lbf")


def clamps(force: Quantity, each: Quantity) -> Quantity:
    """Return the number of clamps that give a force, the last one rounded up.

    Takes two forces above zero; raises TradeFault for others. Source: common practice.
    """
    return whole(above_zero("force", force, "lbf") / above_zero("each", each, "lbf"), math.ceil)


def glue_weight(area: Quantity, rate: Quantity, lines: Quantity) -> Quantity:
    """Return the weight of glue for a number of glue lines of an area, in lb, or kg for a metric area.

    Takes an area, a spread by weight and area, and a whole number of lines, all above zero; raises TradeFault
    for others. A spread of 50 lb per 1,000 ft² is 0.05 lb/ft². Source: common practice.
    """
    whole_number("lines", lines)
    weight = above_zero("area", area, "in²") * above_zero("rate", rate, "lb/ft²") * lines
    return weight.to("kg" if is_metric(area) else "lb")


FUNCTIONS = (
    Function(
        "clamp_pressure", clamp_pressure,
        (Argument("species", "word", PRESSURES.species), Argument("end", "word", tuple(PRESSURES.columns))), "psi",
        "Least or most of the typical clamp pressure for a resorcinol joint.", _AC,
        'clamp_pressure("Sitka spruce", "most")', optional=1,
    ),
    Function(
        "clamp_force", clamp_force, (Argument("pressure", "psi"), Argument("area", "in²")), "lbf",
        "Force that gives a joint its pressure.", "definition of pressure", 'clamp_force("150 psi", "25 in²")',
        "pressure * area",
    ),
    Function(
        "clamps", clamps, (Argument("force", "lbf"), Argument("each", "lbf")), "", "Clamps that give a force.",
        "common practice", 'clamps("3750 lbf", "420 lbf")', "up(force / each)",
    ),
    Function(
        "glue_weight", glue_weight, (Argument("area", "in²"), Argument("rate", "lb/ft²"), Argument("lines", "")), "lb",
        "Weight of glue for a number of glue lines.", "common practice", 'glue_weight("12 ft²", "0.05 lb/ft²", 2)',
        "area * rate * lines",
    ),
)  # fmt: skip
