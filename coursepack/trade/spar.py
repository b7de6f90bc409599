"""Bevelled spars.

One sign rule: a bevel is positive where its edge rises going aft. So a top bevel above zero makes the rear
face higher, a bottom bevel above zero makes it lower; a top that falls to the rear is below zero.
"""

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.arithmetic import atan, cos, tan
from coursepack.trade.limits import above_zero, acute, of_kind

_GEOMETRY = "geometry of the right triangle: height is base times tangent"


def bevel_drop(width: Quantity, angle: Quantity) -> Quantity:
    """Return the height that an edge gains across a width, a length; below zero where the edge falls going aft.

    Takes a length above zero and an angle between -90 and 90 deg; raises TradeFault for others.
    """
    return above_zero("width", width, "in") * tan(acute("angle", angle))


def bevel_angle(drop: Quantity, width: Quantity) -> Quantity:
    """Return the bevel, in degrees, of an edge that gains a height across a width; the sign is that of the height.

    Takes two lengths, the width above zero; raises TradeFault for others.
    """
    return atan(of_kind("drop", drop, "in") / above_zero("width", width, "in"))


def rear_face(front: Quantity, width: Quantity, top: Quantity, bottom: Quantity) -> Quantity:
    """Return the height of the rear face: front + width × (tan top − tan bottom), in the unit of the front.

    A bevel is positive where its edge rises going aft. Takes lengths above zero and angles between -90 and
    90 deg; raises TradeFault for others, and where nothing is left of the rear face.
    """
    above_zero("front", front, "in")
    rear = front + bevel_drop(width, acute("top", top)) - bevel_drop(width, acute("bottom", bottom))
    if rear.value <= 0:
        raise TradeFault(
            f"the rear face comes to {rear}", "the bevels must leave some height at the rear face"
        )
    return rear


def capstrip_allowance(thickness: Quantity, top: Quantity, bottom: Quantity) -> Quantity:
    """Return the height that two capstrips take from each face of a spar, in the unit of the thickness.

    The strips are measured square to the bevelled edges: thickness / cos top + thickness / cos bottom. Takes a
    length above zero and angles between -90 and 90 deg; raises TradeFault for others.
    Source: geometry of the right triangle.
    """
    above_zero("thickness", thickness, "in")
    return thickness / cos(acute("top", top)) + thickness / cos(acute("bottom", bottom))


FUNCTIONS = (
    Function(
        "bevel_drop", bevel_drop, (Argument("width", "in"), Argument("angle", "deg")), "in",
        "Height that a bevelled edge gains across a width; positive where it rises going aft.", _GEOMETRY,
        'bevel_drop("3/4 in", "8 deg")', "width * tan(angle)",
    ),
    Function(
        "bevel_angle", bevel_angle, (Argument("drop", "in"), Argument("width", "in")), "deg",
        "Bevel of an edge that gains a height across a width.", _GEOMETRY,
        'bevel_angle("7/64 in", "3/4 in")', "atan(drop / width)",
    ),
    Function(
        "rear_face", rear_face,
        (Argument("front", "in"), Argument("width", "in"), Argument("top", "deg"), Argument("bottom", "deg")), "in",
        "Height of the rear face of a bevelled spar; a bevel is positive where its edge rises going aft.", _GEOMETRY,
        'rear_face("4 1/2 in", "3/4 in", "-8 deg", "2 deg")', "front + width * (tan(top) - tan(bottom))",
    ),
    Function(
        "capstrip_allowance", capstrip_allowance,
        (Argument("thickness", "in"), Argument("top", "deg"), Argument("bottom", "deg")), "in",
        "Height that two capstrips take from each face of a bevelled spar.", _GEOMETRY,
        'capstrip_allowance("3/16 in", "-8 deg", "2 deg")', "thickness / cos(top) + thickness / cos(bottom)",
    ),
)  # fmt: skip
