"""A long blank over its supports, out of level and out of square: a level on it, a square on its end, and details.

The rise of a level's end over its length is the packing under the low support over the distance between the
supports: the two right triangles are alike.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from functools import partial
from math import degrees

from coursepack.drafting.clearance import bounds
from coursepack.drafting.dimension import Spacing
from coursepack.drafting.levelling_details import (
    Squared,
    end_view,
    gap_detail,
    packing_detail,
    rise_detail,
)
from coursepack.drafting.levelling_lengths import side_view
from coursepack.drafting.levelling_view import Lie, View
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.scale import SCALES, at_scale, finished
from coursepack.drafting.sheet import Drawing, Frame, Mark, Piece
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.quantity import Quantity
from coursepack.trade.machines import level_rise, taper_offset

APART_MM = 6.0  # from one view to the next
BETWEEN_MM = 5.0  # from one view to the one under it
STEEPEST = 20  # a level's vial shows nothing of a rise of more than 1 in 20
MOST_SUPPORTS = 5
END = ("width", "blade", "gap", "out")
LINES = {"rise": "dash-dotted: level line", "packing": "dashed: packing"}  # in the details
SIGNS = "of level and square, only lengths to scale"


def levelled_blank(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a blank lying out of level over its supports from its side, with details of what is small, and its end.

    Sizes in mm, degrees and counts, along the blank: span between the outer supports; supports, their number, else 2;
    overhang past either, without which the blank is broken off; depth; level, its length; rise of its end, or tilt.
    For the end: width, blade, and gap at its tip, or out, the angle. Raises LessonFault where it does not fit,
    there is no such blank, or a dimension is asked that it does not have.
    """
    refuse_missing("levelled blank", marks, levelled_measure(sizes))
    lie, end = lie_of(sizes), end_of(sizes)

    def draft(by: float, room: Frame, spacing: Spacing) -> Piece:
        view = side_view(View(lie, by), marks, room, spacing)
        return _arranged(view, _insets(lie, end, marks, room, spacing), room)

    def note(_: Fraction) -> str:
        return "; ".join((*(text for name, text in LINES.items() if name in marks), SIGNS))

    scales = (*SCALES, Fraction(1, 100))
    fitted = at_scale("levelled blank", draft, frame, lie.length, note, scales)
    return finished("Levelled blank", fitted, frame, _alt(lie, end, marks), note)


def levelled_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm and degrees; packing lifts the low support to the high one."""
    lie, end = lie_of(sizes), end_of(sizes)
    true = {"span": lie.span, "level": lie.level, "rise": lie.rise, "packing": lie.packing}
    true["tilt"] = sizes.get("tilt", degrees(lie.tilt))
    true |= {"overhang": lie.overhang, "length": lie.length} if lie.overhang else {}
    true |= {"apart": lie.apart} if lie.supports > 2 else {}
    if end:
        true |= {"depth": end.depth, "width": end.width, "blade": end.blade, "gap": end.gap}
        true["out"] = sizes.get("out", degrees(end.out))
    return true


def lie_of(sizes: Mapping[str, float]) -> Lie:
    """Return how the blank of the sizes lies; raises LessonFault where it cannot."""
    _refuse_below_zero(sizes)
    supports, level = sizes.get("supports", 2.0), sizes["level"]
    if supports not in range(2, MOST_SUPPORTS + 1):
        raise LessonFault(
            f"the blank lies over {supports:g} supports", f"give a whole number from 2 to {MOST_SUPPORTS}"
        )
    rise = _one_of(sizes, "rise", "tilt", partial(level_rise, Quantity.of(level, "mm")))
    if not 0 < rise <= level / STEEPEST:
        raise LessonFault(
            "the blank lies too steeply for a level, or level",
            f"give a rise of at most 1/{STEEPEST} of 'level'",
        )
    lie = Lie(sizes["span"], round(supports), sizes.get("overhang", 0.0), sizes["depth"], level, rise)
    if level > lie.span:
        raise LessonFault("the level reaches past the supports", "give a shorter 'level'")
    return lie


def end_of(sizes: Mapping[str, float]) -> Squared | None:
    """Return the end of the blank under its square, None where no size of it is given; raises LessonFault."""
    if sizes.keys().isdisjoint(END):
        return None
    for name in ("width", "blade"):
        if name not in sizes:
            raise LessonFault(f"the end of the blank has no '{name}'", "give width, blade and gap or out")
    gap = _one_of(sizes, "gap", "out", partial(taper_offset, Quantity.of(sizes["blade"], "mm")))
    end = Squared(sizes["depth"], sizes["width"], sizes["blade"], gap)
    if end.gap <= 0 or end.foot <= 0:
        raise LessonFault("the end is square, or comes to a point", "give it a small 'gap' or 'out'")
    if end.blade > end.depth:
        raise LessonFault("the blade is longer than the blank is deep", "give a shorter 'blade'")
    return end


def _refuse_below_zero(sizes: Mapping[str, float]) -> None:
    for name in ("span", "level", "depth", "width", "blade"):
        if sizes.get(name, 1.0) <= 0:
            raise LessonFault(f"'{name}' is {sizes[name]:g} mm", "give a size above zero")


def _one_of(
    sizes: Mapping[str, float], length: str, angle: str, across: Callable[[Quantity], Quantity]
) -> float:
    """Return a length in mm that is given, or follows from an angle; raises LessonFault unless one of both is given."""
    if (length in sizes) == (angle in sizes):
        raise LessonFault(f"this levelled blank needs '{length}' or '{angle}'", "give one of the two")
    if length in sizes:
        return sizes[length]
    return float(across(Quantity.of(sizes[angle], "deg")).number("mm"))


def _insets(
    lie: Lie, end: Squared | None, marks: Mapping[str, Mark], room: Frame, spacing: Spacing
) -> Iterator[Piece]:
    """Draw the details and the end view that hold any of the dimensions."""
    if "rise" in marks:
        yield rise_detail(lie, marks["rise"], room, spacing)
    if "packing" in marks:
        yield packing_detail(lie, marks["packing"], room, spacing)
    if end and "gap" in marks:
        yield gap_detail(end, marks["gap"], room, spacing)
    if end and not marks.keys().isdisjoint(("depth", *END)):
        yield end_view(end, marks, room, spacing)


def _arranged(first: Piece, others: Iterable[Piece], room: Frame) -> Piece:
    """Put the first view over the others, which stand in rows, each as full as the room allows."""
    rows: list[list[Piece]] = [[first]]
    for view in others:
        if len(rows) > 1 and _wide([*rows[-1], view]) <= room.width:
            rows[-1].append(view)
        else:
            rows.append([view])
    placed, top = Piece(), 0.0
    for row in rows:
        left, high = -_wide(row) / 2, max(bounds(view).height for view in row)
        for view in row:
            box = bounds(view)
            placed += view.moved(left - box.left, top - box.top)
            left += box.width + APART_MM
        top -= high + BETWEEN_MM
    return placed


def _wide(row: Sequence[Piece]) -> float:
    return sum(bounds(view).width for view in row) + APART_MM * (len(row) - 1)


def _alt(lie: Lie, end: Squared | None, marks: Mapping[str, Mark]) -> str:
    names = {
        "span": "from the high support to the low one, along the blank", "apart": "from one support to the next",
        "overhang": "blank past either outer support", "length": "length of the blank", "level": "length of the level",
        "rise": "how much higher the left end of the level stands than its right end",
        "packing": "packing that the lowest support needs", "tilt": "angle of the blank to the level",
        "depth": "depth of the blank", "width": "width of its upper edge",
        "blade": "length of the square's blade", "gap": "gap between the face and the tip of the blade",
        "out": "angle that the corner is out of square",
    }  # fmt: skip
    squared = " Its end under a square, whose blade stands off the face at its tip." if end else ""
    return (
        f"A long blank from its side, over {lie.supports} supports, its left end high; a level stands on it, the bubble "
        f"to the left.{squared} {listed(names, marks)}"
    )
