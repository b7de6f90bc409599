"""A straightedge laid on a loft: it touches the contour over a spar, and two heights under it give the spar's bevel.

One sign rule: a bevel is positive where the edge rises going aft. Forward lies to the left.
"""

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import astuple, dataclass, replace
from functools import cached_property
from itertools import product
from math import atan, degrees, hypot

from coursepack.drafting.breaking import torn
from coursepack.drafting.dimension import GAP_MM, Linear, Side, Spacing
from coursepack.drafting.label import label_box
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.narrow_angle import Narrow, narrow_ways
from coursepack.drafting.oblique import Oblique, beside_ways, oblique_ways
from coursepack.drafting.placing import ways
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import (
    SMALL_MM,
    TIGHT_MM,
    Drawing,
    Frame,
    Label,
    Line,
    Mark,
    Piece,
    Point,
    Stroke,
)
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault

SPAR_MM = 19.05  # of a lesson that does not say
REACH, SAG = 0.34, 0.055  # of the base: how far the contour is drawn to either side, and falls away there
CHORDS = 24  # of the contour, to either side
NOTE = "contour not to scale"
BAR_MM = 2.2  # on paper: the straightedge from edge to edge
PAST_MM = 4.0  # on paper: it and the datum go beyond the base
BREAK_MM = 2.4  # on paper: a break to either side of the contour
AXIS_MM = (2.0, 0.8)  # on paper: the spar's middle line below the datum and above the straightedge
OVER_MM, BESIDE_MM, UNDER_MM = 1.7, 1.4, 4.0  # on paper: names from straightedge, spar and datum
NAMED_MM = 60.0  # on paper: over a shorter base only the directions are named
OUT_MM = (11.0, 7.5, 3.0, 15.0, 20.0, 26.0)  # on paper: where the bevel's arc may lie beyond the straightedge
WELL_CLEAR_MM = (1.6, 1.2)  # on paper: a height's lettering from its line and all others, if it can
ORDER = ("base", "rise", "bevel", "fore", "rear")  # heights have most places to choose from


@dataclass(frozen=True)
class Laid:
    """A straightedge over a loft, in mm: its base on the datum from 0, two heights, and the width of the spar."""

    base: float
    fore: float
    rear: float
    width: float

    @property
    def slope(self) -> float:
        """How far the touching edge rises for each mm aft."""
        return (self.rear - self.fore) / self.base

    @property
    def bevel(self) -> float:
        """Its angle with a level line in degrees, positive where it rises going aft."""
        return degrees(atan(self.slope))

    @property
    def ends(self) -> tuple[Point, Point]:
        """The touching edge over the ends of the base: the lower end, then the higher."""
        fore, rear = (0.0, self.fore), (self.base, self.rear)
        return (fore, rear) if self.slope > 0 else (rear, fore)

    def edge(self, x: float, over: float = 0.0) -> float:
        """Return the height of the touching edge, or of a line that lies so far over it."""
        return self.fore + self.slope * x + over * hypot(1, self.slope)

    @cached_property
    def sag(self) -> float:
        """How far the contour falls away from the edge at its ends, by no more than half its height."""
        lowest = min(self.edge((0.5 + reach) * self.base) for reach in (-REACH, REACH))
        return min(SAG * self.base, lowest / 2)

    def contour(self, x: float) -> float:
        """Return the height of the contour: it falls away as a parabola."""
        return self.edge(x) - self.sag * ((x / self.base - 0.5) / REACH) ** 2


def straightedge_on_loft(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a straightedge that touches the upper contour over a spar, with the heights that its bevel comes from.

    Sizes in mm: base, on the datum, half of it ahead of the touching place; fore and rear, heights of the touching
    edge over its ends; and width of the spar. Raises LessonFault where it does not fit, what is no such loft, or a
    dimension is asked that it does not have.
    """
    refuse_missing("straightedge on a loft", marks, straightedge_measure(sizes))
    true = astuple(_laid(sizes))

    def draft(by: float, room: Frame, spacing: Spacing) -> Piece:
        return _draft(Laid(*(size * by for size in true)), marks, room, spacing)

    fitted = at_scale("straightedge on a loft", draft, frame, sizes["base"], lambda _: NOTE)
    return finished("Straightedge on a loft", fitted, frame, _alt(marks), lambda _: NOTE)


def straightedge_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension: mm, and degrees for the bevel; the rise counts up from the lower end."""
    laid = _laid(sizes)
    rise = abs(laid.rear - laid.fore)
    return {"base": laid.base, "fore": laid.fore, "rear": laid.rear, "rise": rise, "bevel": laid.bevel}


def _laid(sizes: Mapping[str, float]) -> Laid:
    laid = Laid(sizes["base"], sizes["fore"], sizes["rear"], sizes.get("width", SPAR_MM))
    differ, apart = "give 'fore' and 'rear' that differ", abs(laid.rear - laid.fore)
    for wrong, fault, cure in (
        (min(laid.fore, laid.rear) <= 0, "does not clear the datum", "give 'fore' and 'rear' above zero"),
        (not 0 < 2 * laid.width < laid.base, "has too short a base", "give one of more than twice 'width'"),
        (apart > laid.base, "slopes by more than 45 deg", f"{differ} by no more than 'base'"),
        (not apart, "lies level and shows no bevel", differ),
    ):
        if wrong:
            raise LessonFault(f"the straightedge {fault}", cure)
    return laid


def _draft(laid: Laid, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    view = _view(laid, marks)
    for out in OUT_MM:
        with suppress(NoRoom):
            layout = Layout(view, room)
            for name in sorted(marks, key=ORDER.index):
                layout.settle(_ways(name, laid, marks[name], spacing, out))
            return layout.piece
    raise NoRoom


def _view(laid: Laid, marks: Mapping[str, Mark]) -> Piece:
    """Draw datum, contour, spar and straightedge, and a vertical at each end of the base."""
    middle, half, (start, low), (end, _) = laid.base / 2, laid.width / 2, *laid.ends
    places = [laid.base * (0.5 + REACH * number / CHORDS) for number in range(-CHORDS, CHORDS + 1)]
    contour = tuple((x, laid.contour(x)) for x in places)
    faces = tuple(((x, 0.0), (x, laid.contour(x))) for x in (middle - half, middle + half))
    axis = (middle, -AXIS_MM[0]), (middle, laid.edge(middle, BAR_MM) + AXIS_MM[1])
    level = (((start, low), (end, low)),) if "rise" in marks else ()
    strokes = (
        Stroke("outline", (contour,)),
        Stroke("thin", (_bar(laid), *faces, *_breaks(contour))),
        Stroke("centre", (((-PAST_MM, 0.0), (laid.base + PAST_MM, 0.0)), axis)),
        Stroke("dimension", (_vertical(laid, "fore"), _vertical(laid, "rear"), *level)),
    )
    return Piece(strokes, (), tuple(_names(laid)))


def _breaks(contour: Line) -> Iterator[Line]:
    """Draw a short wave across each end of the contour."""
    for (x, y), (inner_x, inner_y) in (contour[:2], contour[:-3:-1]):
        share = BREAK_MM / hypot(inner_x - x, inner_y - y)
        u, v = (inner_x - x) * share, (inner_y - y) * share
        yield torn((x - v, y + u), (x + v, y - u))


def _bar(laid: Laid) -> Line:
    """Draw the straightedge, its lower edge the touching one."""
    (x, y), (to_x, to_y) = low = [(x, laid.edge(x)) for x in (-PAST_MM, laid.base + PAST_MM)]
    v = BAR_MM / hypot(1, laid.slope)
    return (*low, (to_x - v * laid.slope, to_y + v), (x - v * laid.slope, y + v), low[0])


def _vertical(laid: Laid, name: str) -> tuple[Point, Point]:
    """Return a height as a line, so that its outer side is on its left: up at the forward end, down at the rear."""
    return ((0.0, 0.0), (0.0, laid.fore)) if name == "fore" else ((laid.base, laid.rear), (laid.base, 0.0))


def _names(laid: Laid) -> Iterator[Label]:
    yield _over(laid, Label("FORWARD", BESIDE_MM, 0.0, "left", size_mm=SMALL_MM))
    yield _over(laid, Label("AFT", laid.base - BESIDE_MM, 0.0, "right", size_mm=SMALL_MM))
    if laid.base >= NAMED_MM:
        yield _over(laid, Label("STRAIGHTEDGE", laid.base / 2, 0.0, size_mm=SMALL_MM))
        yield Label("SPAR", (laid.base + laid.width) / 2 + BESIDE_MM, BESIDE_MM, "left", size_mm=SMALL_MM)
        yield Label("DATUM", BESIDE_MM, -UNDER_MM, "left", size_mm=SMALL_MM)


def _over(laid: Laid, name: Label) -> Label:
    """Raise a name until it is just clear of the straightedge under it."""
    box = label_box(name)
    return replace(name, y=max(laid.edge(x, BAR_MM) for x in (box.left, box.right)) + OVER_MM)


def _ways(name: str, laid: Laid, mark: Mark, spacing: Spacing, out: float) -> Iterator[Choice]:
    """Give the ways of a dimension; the bevel's corner is the lower end of the touching edge."""
    low, high = laid.ends
    if name == "base":
        return ways(Linear(name, mark, "below", ((0.0, 0.0), (laid.base, 0.0)), 0.0, spacing))
    if name == "rise":
        side: Side = "right" if laid.slope > 0 else "left"
        return ways(Linear(name, mark, side, ((high[0], low[1]), high), high[0], spacing))
    if name == "bevel":
        past = (laid.base + PAST_MM) * hypot(1, laid.slope)
        turns, feet = (0.0, laid.bevel), (-GAP_MM, past)
        if laid.slope < 0:
            turns, feet = (180.0 + laid.bevel, 180.0), (past, -GAP_MM)
        return narrow_ways(Narrow(name, mark, low, turns, feet, (past + out,), spacing))
    return _height_ways(Oblique(name, mark, _vertical(laid, name), spacing))


def _height_ways(height: Oblique) -> Iterator[Choice]:
    """Give the ways of a height: lettered well clear of its line, the spar and the contour, rather small than close."""
    for letter, clear in product((height.spacing.letter, TIGHT_MM), WELL_CLEAR_MM):
        roomy = replace(height, spacing=replace(height.spacing, letter=letter), clear=clear)
        for choice in beside_ways(roomy):
            yield choice._replace(apart=clear)
    yield from oblique_ways(height)


def _alt(marks: Mapping[str, Mark]) -> str:
    names = {
        "base": "base on the datum", "fore": "height of the straightedge at the forward end",
        "rear": "height of the straightedge at the rear end", "rise": "difference of the two heights",
        "bevel": "bevel, between the straightedge and a level line",
    }  # fmt: skip
    return (
        "Side view of a loft, forward to the left. A straightedge over the upper contour touches it midway between the "
        "two faces of a spar. On the datum a base, half of it ahead of that place and half behind, and at each end "
        f"a vertical up to the straightedge. {listed(names, marks)}"
    )
