"""Outlines of wooden parts in plain floats, shared by the mathematics and the drawings.

Lengths are millimetres, angles degrees. A section stands upright with its front face at x = 0 and its lower
front corner at the origin; x runs aft, y runs up. One sign rule: a bevel is positive where its edge rises
going aft, so the rear height is front + width × (tan top − tan bottom). Plane geometry, no source needed.
"""

from math import radians, tan

from coursepack.place import TradeFault

Point = tuple[float, float]


def rise_across(width_mm: float, bevel_deg: float) -> float:
    """Height in mm that an edge gains going aft across a width; negative where the edge falls."""
    return width_mm * tan(radians(bevel_deg))


def rear_height(front_mm: float, width_mm: float, top_deg: float, bottom_deg: float) -> float:
    """Height of the rear face in mm."""
    return front_mm + rise_across(width_mm, top_deg) - rise_across(width_mm, bottom_deg)


def bevelled_section(
    front_mm: float, width_mm: float, top_deg: float, bottom_deg: float
) -> tuple[Point, ...]:
    """Four corners of a section with both edges bevelled: lower front, lower rear, upper rear, upper front.

    Raises TradeFault where a size is not positive, a bevel is not between −45 and 45 degrees, or the edges
    meet before the rear face.
    """
    if front_mm <= 0 or width_mm <= 0:
        raise TradeFault("a section needs a positive height and width", "give sizes above zero")
    if max(abs(top_deg), abs(bottom_deg)) > 45:
        raise TradeFault(
            f"a bevel of {max(top_deg, bottom_deg, key=abs):g} degrees is no edge bevel",
            "stay within 45 degrees",
        )
    low, rear = rise_across(width_mm, bottom_deg), rear_height(front_mm, width_mm, top_deg, bottom_deg)
    if rear <= 0:
        raise TradeFault("the two bevels leave no rear face", "take a higher front face or smaller bevels")
    return ((0.0, 0.0), (width_mm, low), (width_mm, low + rear), (0.0, front_mm))


def rectangle(width_mm: float, height_mm: float, centre: Point = (0.0, 0.0)) -> tuple[Point, ...]:
    """Four corners of an upright rectangle, from lower left round to upper left.

    Raises TradeFault where a size is not positive.
    """
    if width_mm <= 0 or height_mm <= 0:
        raise TradeFault("a blank needs a positive width and thickness", "give sizes above zero")
    x, y = width_mm / 2, height_mm / 2
    return tuple((centre[0] + a, centre[1] + b) for a, b in ((-x, -y), (x, -y), (x, y), (-x, y)))


def shrunk(size_mm: float, after_mm: float, times: float = 1.0) -> float:
    """Size after drying in mm, its change drawn a number of times as large (1 gives the true size)."""
    return size_mm - times * (size_mm - after_mm)


def planed_levels(
    rough_mm: float, finish_mm: float, top: int, bottom: int
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Levels in mm above the rough bottom face after each equal pass: those of the top face, then the bottom's.

    The last of each is the finished face. Raises TradeFault where nothing is to be planed off, or with no pass.
    """
    if not 0 < finish_mm < rough_mm:
        raise TradeFault(
            "the finished size must lie between zero and the rough size", "give a rough size that is larger"
        )
    if top < 0 or bottom < 0 or top + bottom == 0:
        raise TradeFault(
            "planing needs at least one pass", "count passes as whole numbers from 0, one face at least 1"
        )
    cut = (rough_mm - finish_mm) / (top + bottom)
    return tuple(rough_mm - cut * n for n in range(1, top + 1)), tuple(cut * n for n in range(1, bottom + 1))
