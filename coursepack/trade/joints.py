"""Joints: scarfs, patches, nails and bolts."""

import math
from fractions import Fraction

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity, whole
from coursepack.trade.arithmetic import atan
from coursepack.trade.limits import above_zero, known_word, within

_ONE = Quantity.of(1)
_ROW = Quantity.of(Fraction(1, 2), "in")
_PITCH = Quantity.of(1, "in")
_HANDBOOK = "FAA-H-8083-31, chapter 6"

# How many times the strip's thickness. FAA-H-8083-31, chapter 6.
_CAP_PARTS = {"scarf": 10, "block": 16}

# How many times the skin's thickness. FAA AC 43.13-1B, paragraph 1-51 a, b and c.
_PATCH_PARTS = {
    "splayed hole": 15,
    "splayed taper": 5,
    "surface corner radius": 5,
    "surface bevel": 4,
    "scarf skin radius": 100,
    "scarf hole": 25,
    "scarf frame distance": 15,
}
_THICKEST_SPLAYED = Quantity.of(Fraction(1, 10), "in")

# How many diameters, edge to edge. ANC-18 (1944), paragraph 2.9041: loads across the grain.
_BOLT_PARTS = {"along": 3, "across": 1, "end": 4}


def _slope(slope: Quantity) -> Quantity:
    return within("slope", slope, Quantity.of(Fraction(1, 50), ":"), Quantity.of(Fraction(1, 2), ":"))


def scarf_length(thickness: Quantity, slope: Quantity) -> Quantity:
    """Return the run of a scarf, measured along the face, in the unit of the thickness: thickness / slope.

    Takes a length above zero and 1:50 to 1:2; raises TradeFault for others. Source: geometry; the slope is
    1:12 at the steepest for plywood (FAA AC 43.13-1B, paragraph 1-51c) and 1:15 for spars (ANC-19, 2.4110).
    """
    return above_zero("thickness", thickness, "in") / _slope(slope)


def scarf_angle(slope: Quantity) -> Quantity:
    """Return the angle of a scarf to the face, in degrees. Takes 1:50 to 1:2; raises TradeFault for others.

    Source: geometry of the right triangle.
    """
    return atan(_slope(slope))


def scarf_area(width: Quantity, thickness: Quantity, slope: Quantity) -> Quantity:
    """Return the glued area of a scarf: width × √(thickness² + run²), in the square of the width's unit.

    Takes lengths above zero and 1:50 to 1:2; raises TradeFault for others. Source: geometry of the right triangle.
    """
    run = scarf_length(thickness, slope)
    return above_zero("width", width, "in") * (thickness ** Fraction(2) + run ** Fraction(2)) ** Fraction(
        1, 2
    )


def cap_scarf(thickness: Quantity, part: str) -> Quantity:
    """Return the length of the scarf in a rib's cap strip, or of its block, in the unit of the strip's thickness.

    The part is scarf (10 thicknesses) or block (16). Takes a length above zero; raises TradeFault for others.
    Source: FAA-H-8083-31, chapter 6.
    """
    return above_zero("thickness", thickness, "in") * Quantity.of(
        _CAP_PARTS[known_word("part", part, _CAP_PARTS)]
    )


def patch_limits(skin: Quantity, part: str) -> Quantity:
    """Return one size of a plywood skin patch, in the unit of the skin's thickness.

    The part is 'splayed hole' or 'scarf hole' (the largest), 'splayed taper', 'surface bevel', 'surface corner
    radius', 'scarf skin radius' or 'scarf frame distance' (the least). Takes a length above zero, at most 1/10 in
    for a splayed patch; raises TradeFault for others. Source: FAA AC 43.13-1B, paragraph 1-51.
    """
    name = known_word("part", part, _PATCH_PARTS)
    if above_zero("skin", skin, "in") > _THICKEST_SPLAYED and name.startswith("splayed"):
        raise TradeFault(f"a skin of {skin} takes no splayed patch", f"the thickest is {_THICKEST_SPLAYED}")
    return skin * Quantity.of(_PATCH_PARTS[name])


def nail_pattern(width: Quantity, length: Quantity) -> Quantity:
    """Return the number of nails for gluing a joint: a row for each 1/2 in of width, nails 1 in apart in a row.

    Takes lengths above zero; raises TradeFault for others. Source: FAA AC 43.13-1B, paragraph 1-11c; a row for
    each 1/2 in of width: ANC-19 (1943), paragraph 5.4712.
    """
    rows = whole(above_zero("width", width, "in") / _ROW, math.ceil)
    return rows * whole(above_zero("length", length, "in") / _PITCH, math.ceil)


def bolt_spacing(diameter: Quantity, direction: str) -> Quantity:
    """Return the least distance of bolts loaded across the grain, edge to edge, in the unit of the diameter.

    The direction is along the grain (3 diameters), across it (1), or end for the end of the wood (4); a bushing
    counts by its outside. Takes a length above zero; raises TradeFault for others. Source: ANC-18 (1944),
    paragraph 2.9041.
    """
    times = _BOLT_PARTS[known_word("direction", direction, _BOLT_PARTS)]
    return above_zero("diameter", diameter, "in") * Quantity.of(times)


_THICKNESS, _SLOPE = Argument("thickness", "in"), Argument("slope", ":")

FUNCTIONS = (
    Function(
        "scarf_length", scarf_length, (_THICKNESS, _SLOPE), "in", "Run of a scarf along the face.",
        "geometry of the right triangle", 'scarf_length("1/8 in", "1:12")', "thickness / slope",
    ),
    Function(
        "scarf_angle", scarf_angle, (_SLOPE,), "deg", "Angle of a scarf to the face.",
        "geometry of the right triangle", 'scarf_angle("1:12")', "atan(slope)",
    ),
    Function(
        "scarf_area", scarf_area, (Argument("width", "in"), _THICKNESS, _SLOPE), "in²", "Glued area of a scarf.",
        "geometry of the right triangle", 'scarf_area("4 in", "3/4 in", "1:15")',
        "width * (thickness ** 2 + (thickness / slope) ** 2) ** (1/2)",
    ),
    Function(
        "cap_scarf", cap_scarf, (_THICKNESS, Argument("part", "word", tuple(_CAP_PARTS))), "in",
        "Length of a cap strip's scarf, or of the block behind it.", _HANDBOOK, 'cap_scarf("1/4 in", "block")',
    ),
    Function(
        "patch_limits", patch_limits, (Argument("skin", "in"), Argument("part", "word", tuple(_PATCH_PARTS))), "in",
        "A size of a plywood skin patch by its name: the largest hole, or the least of the others.", "FAA AC 43.13-1B, paragraph 1-51",
        'patch_limits("1/16 in", "splayed hole")',
    ),
    Function(
        "nail_pattern", nail_pattern, (Argument("width", "in"), Argument("length", "in")), "",
        "Nails for gluing a joint.", "FAA AC 43.13-1B, paragraph 1-11c; ANC-19 (1943), paragraph 5.4712",
        'nail_pattern("3/4 in", "6 in")', 'up(width / "1/2 in") * up(length / "1 in")',
    ),
    Function(
        "bolt_spacing", bolt_spacing, (Argument("diameter", "in"), Argument("direction", "word", tuple(_BOLT_PARTS))),
        "in", "Least distance of bolts loaded across the grain, edge to edge, not from center to center.", "ANC-18 (1944), paragraph 2.9041",
        'bolt_spacing("1/4 in", "along")',
    ),
)  # fmt: skip
