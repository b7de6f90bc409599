"""Machines and measuring tools: speeds, bands, tapers, levels and verniers."""

import math

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.arithmetic import sin, tan
from coursepack.trade.limits import above_zero, acute, is_metric, not_below_zero

_PI = Quantity.of(math.pi)
_NAVY = "NAVEDTRA 14043, Builder 3 & 2, volume 1, chapter 3"


def rim_speed(diameter: Quantity, spindle: Quantity) -> Quantity:
    """Return the speed of a rim, in ft/min, or m/s for a metric diameter: π × diameter × spindle speed.

    Takes a length and a spindle speed above zero; raises TradeFault for others. Source: geometry of the circle.
    """
    speed = _PI * above_zero("diameter", diameter, "in") * above_zero("spindle", spindle, "rpm")
    return speed.to("m/s" if is_metric(diameter) else "ft/min")


def drill_spindle(diameter: Quantity, surface_speed: Quantity) -> Quantity:
    """Return the spindle speed, in rpm, that gives a drill its surface speed: speed / (π × diameter).

    Takes a length and a speed above zero; raises TradeFault for others.
    Source: open textbook Machining, chapter 8, part 5.
    """
    around = _PI * above_zero("diameter", diameter, "in")
    return (above_zero("surface_speed", surface_speed, "ft/min") / around).to("rpm")


def band_length(wheel: Quantity, centres: Quantity) -> Quantity:
    """Return the length of a band over two equal wheels, in the unit of the diameter: π × wheel + 2 × centres.

    Takes the diameter of one wheel and the distance of the centres, at least one diameter; raises TradeFault.
    Source: NAVEDTRA 14043, Builder 3 & 2, volume 1, chapter 3.
    """
    if above_zero("centres", centres, "in") < above_zero("wheel", wheel, "in"):
        raise TradeFault(f"the centres are {centres} apart", f"two wheels of {wheel} need at least {wheel}")
    return _PI * wheel + Quantity.of(2) * centres


def tightest_radius(blade_width: Quantity) -> Quantity:
    """Return the smallest practical radius for a band-saw blade, in the unit of its width: 8 × width.

    Takes a length above zero; raises TradeFault for others. A practical limit, not the least possible; other
    tables allow less. Source: NAVEDTRA 14043, Builder 3 & 2, volume 1, chapter 3.
    """
    return Quantity.of(8) * above_zero("blade_width", blade_width, "in")


def taper_offset(length: Quantity, angle: Quantity) -> Quantity:
    """Return the offset at the end of a one-edge taper, in the unit of the length: length × tan angle.

    Takes a length above zero, measured along the straight edge, and an angle between -90 and 90 deg; raises
    TradeFault for others. Source: geometry of the right triangle.
    """
    return above_zero("length", length, "in") * tan(acute("angle", angle))


def level_rise(length: Quantity, angle: Quantity) -> Quantity:
    """Return how far to raise one end of a level to tilt it by an angle, in the unit of its length: length × sin angle.

    Takes a length above zero, measured along the level, and an angle between -90 and 90 deg; raises TradeFault
    for others. Source: geometry of the right triangle.
    """
    return above_zero("length", length, "in") * sin(acute("angle", angle))


def vernier_reading(main: Quantity, line: Quantity, step: Quantity) -> Quantity:
    """Return the reading of a vernier: the main scale, and the line that coincides times the least step.

    Takes lengths and a line number, zero or more, and a step above zero; raises TradeFault for others.
    Source: Army Ordnance OD1642.
    """
    not_below_zero("line", line, "")
    return not_below_zero("main", main, "in") + line * above_zero("step", step, "in")


FUNCTIONS = (
    Function(
        "rim_speed", rim_speed, (Argument("diameter", "in"), Argument("spindle", "rpm")), "ft/min",
        "Speed of the rim of a saw, wheel or cutter.", "geometry of the circle",
        'rim_speed("10 in", "3450 rpm")', "pi() * diameter * spindle",
    ),
    Function(
        "drill_spindle", drill_spindle, (Argument("diameter", "in"), Argument("surface_speed", "ft/min")), "rpm",
        "Spindle speed that gives a drill its surface speed.", "open textbook Machining, chapter 8, part 5",
        'drill_spindle("1/4 in", "350 ft/min")', "surface_speed / (pi() * diameter)",
    ),
    Function(
        "band_length", band_length, (Argument("wheel", "in"), Argument("centres", "in")), "in",
        "Length of a band over two equal wheels.", _NAVY, 'band_length("14 in", "22 in")', "pi() * wheel + 2 * centres",
    ),
    Function(
        "tightest_radius", tightest_radius, (Argument("blade_width", "in"),), "in",
        "Smallest practical radius for a band-saw blade.", _NAVY, 'tightest_radius("1/2 in")', "8 * blade_width",
    ),
    Function(
        "taper_offset", taper_offset, (Argument("length", "in"), Argument("angle", "deg")), "in",
        "Offset at the end of a one-edge taper.", "geometry of the right triangle",
        'taper_offset("12 in", "3 deg")', "length * tan(angle)",
    ),
    Function(
        "level_rise", level_rise, (Argument("length", "in"), Argument("angle", "deg")), "in",
        "How far to raise one end of a level to tilt it.", "geometry of the right triangle",
        'level_rise("9 in", "8 deg")', "length * sin(angle)",
    ),
    Function(
        "vernier_reading", vernier_reading, (Argument("main", "in"), Argument("line", ""), Argument("step", "in")), "in",
        "Reading of a vernier scale.", "Army Ordnance OD1642",
        'vernier_reading("1.475 in", 11, "0.001 in")', "main + line * step",
    ),
)  # fmt: skip
