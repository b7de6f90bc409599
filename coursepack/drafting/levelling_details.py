"""Details of a blank that is levelled and squared, each at a scale of its own: rise, packing, end view, gap."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import atan2, cos, degrees, sin, tan

from coursepack.drafting.breaking import TOOTH_MM, torn
from coursepack.drafting.clearance import bounds
from coursepack.drafting.detail_shapes import (
    ROUND_MM,
    circle,
    letter_ways,
    rectangle,
)
from coursepack.drafting.dimension import Linear, Side, Spacing
from coursepack.drafting.levelling_view import Lie
from coursepack.drafting.narrow_angle import Narrow, narrow_ways
from coursepack.drafting.placing import ways
from coursepack.drafting.rings import growth_rings
from coursepack.drafting.scale import SCALES, scale_text
from coursepack.drafting.settling import Layout
from coursepack.drafting.sheet import SMALL_MM, Frame, Label, Line, Mark, Piece, Point, Stroke

RISE_MM, PACKING_MM, GAP_SEEN_MM = 7.0, 14.0, 7.0  # on paper at most, in its detail
END_MM = (20.0, 46.0)  # width and depth of the end view on paper at most
BODY_MM = 4.0  # on paper, of blank past what a detail measures
WINDOW_MM = 17.0  # on paper, of a detail
BESIDE_MM = 2.0  # of blank beside the level's end
SUPPORT_MM = 9.0  # width of the support's top in its detail
SAW_HORSE_MM = 5.0  # of it, before it is broken off
STOCK_MM = (16.0, 4.0)  # length and height of the square's stock
BLADE_MM = 3.6  # width of its blade
NAME_GAP_MM = 2.0
RINGS_DEG = 12.0
FURTHER_MM = (8.0, 12.0, 17.0)  # past the end, where its angle is read
UNDER_TIP = (
    5.6,
    5.2,
    5.9,
    6.2,
)  # directions of the detail's letter from the tip, in radians, clear of the wood
ROWS = 4


@dataclass(frozen=True)
class Squared:
    """The end of a blank under a square, true sizes in mm; `gap` opens between its face and the tip of the blade."""

    depth: float
    width: float
    blade: float
    gap: float

    @property
    def out(self) -> float:
        """How far its corner is out of square, in radians."""
        return atan2(self.gap, self.blade)

    @property
    def foot(self) -> float:
        """Width at the lower edge."""
        return self.width - self.depth * tan(self.out)


def scale_for(size: float, most_mm: float) -> Fraction:
    """Return the largest scale at which a true size in mm takes no more than so much paper."""
    return next((scale for scale in SCALES if scale * size <= most_mm), SCALES[-1])


def end_scale(end: Squared) -> Fraction:
    """Return the scale of the end view, never larger than life."""
    wide, deep = END_MM
    return min(Fraction(1), scale_for(end.width, wide), scale_for(max(end.depth, end.blade), deep))


def rise_detail(lie: Lie, mark: Mark, room: Frame, spacing: Spacing) -> Piece:
    """Draw the level's high end, and the level line through its low end under it."""
    scale = scale_for(lie.rise, RISE_MM)
    rise, slope = lie.rise * float(scale), tan(lie.tilt)
    left, right, low = -BESIDE_MM, WINDOW_MM - BESIDE_MM, -rise - BODY_MM
    tall = 7.0
    corner = tall * sin(lie.tilt), tall * cos(lie.tilt)
    top = (left, -left * slope), (right, -right * slope)
    body = torn(top[0], (left, low), (right, low), top[1])
    broken = torn(corner, (right, corner[1] - (right - corner[0]) * slope), top[1])
    piece = Piece(
        (
            Stroke("outline", (top,)),
            Stroke("thin", (body, ((0.0, 0.0), corner), broken)),
            Stroke("centre", (((left, -rise), (right, -rise)),)),
        ),
        (),
        (_name("A", scale, (left + right) / 2, corner[1] + TOOTH_MM),),
    )
    layout = Layout(piece, room)
    ends = (left - TOOTH_MM, 0.0), (left - TOOTH_MM, -rise)
    layout.settle(ways(Linear("rise", mark, "left", ends, left - TOOTH_MM, spacing), ROWS))
    return layout.piece


def packing_detail(lie: Lie, mark: Mark, room: Frame, spacing: Spacing) -> Piece:
    """Draw the low support's contact, the level line through the high one, and dashed the packing between."""
    scale = scale_for(lie.packing, PACKING_MM)
    packing, slope = lie.packing * float(scale), tan(lie.tilt)
    left, high, low = -SUPPORT_MM, packing + BODY_MM, -SAW_HORSE_MM
    edges = left - 2.0, WINDOW_MM + left - 2.0
    under = (edges[0], -edges[0] * slope), (edges[1], -edges[1] * slope)
    body = torn(under[0], (edges[0], high), (edges[1], high), under[1])
    support: Line = ((left, low), (left, 0.0), (0.0, 0.0), (0.0, low))
    piece = Piece(
        (
            Stroke("outline", (under,)),
            Stroke("thin", (body, support, torn(support[0], support[-1]))),
            Stroke("hidden", (((left, 0.0), (left, packing)), ((0.0, 0.0), (0.0, packing)))),
            Stroke("centre", (((edges[0], packing), (edges[1], packing)),)),
        ),
        (),
        (_name("B", scale, sum(edges) / 2, high + TOOTH_MM),),
    )
    layout = Layout(piece, room)
    start = edges[0] - TOOTH_MM
    ends = (start, 0.0), (start, packing)
    layout.settle(ways(Linear("packing", mark, "left", ends, start, spacing), ROWS))
    return layout.piece


def gap_detail(end: Squared, mark: Mark, room: Frame, spacing: Spacing) -> Piece:
    """Draw the tip of the square's blade and the blank's face that falls away from it."""
    scale = scale_for(end.gap, GAP_SEEN_MM)
    gap, lean = end.gap * float(scale), tan(end.out)
    high, left = 10.0, -gap - 8.0
    low = -min(BODY_MM, (end.depth - end.blade) * float(scale))
    face = (-gap + low * lean, low), (-gap + high * lean, high)
    body = torn(face[1], (left, high), (left, low), face[0])
    blade = (0.0, high), (0.0, 0.0), (BLADE_MM + 2, 0.0)
    piece = Piece(
        (
            Stroke("outline", (face,)),
            Stroke("thin", (body, blade, torn(blade[2], (BLADE_MM + 2, high), blade[0]))),
        ),
        (),
        (_name("C", scale, (left + BLADE_MM + 2) / 2, high + TOOTH_MM),),
    )
    layout = Layout(piece, room)
    line = low - TOOTH_MM
    ends = (-gap, low), (0.0, 0.0)
    layout.settle(ways(Linear("gap", mark, "below", ends, line, spacing), ROWS))
    return layout.piece


def end_view(end: Squared, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    """Draw the blank's end with a square on its upper edge, the blade down its face."""
    scale = end_scale(end)
    by = float(scale)
    wide, deep, foot, blade = (size * by for size in (end.width, end.depth, end.foot, end.blade))
    section = (0.0, 0.0), (foot, 0.0), (wide, deep), (0.0, deep)
    tip = wide, deep - blade
    circles = (circle(tip, ROUND_MM),) if "gap" in marks else ()
    strokes = (
        Stroke("outline", ((*section, section[0]),)),
        Stroke("thin", tuple(_square(tip, deep))),
        Stroke("dimension", circles),
    )
    layout = Layout(Piece(strokes), room)
    if "gap" in marks:
        layout.settle(letter_ways("C", tip, UNDER_TIP))
    if "out" in marks:
        layout.settle(narrow_ways(_out(end, by, marks["out"], spacing)))
    for linear in _end_lengths(section, tip, marks, spacing):
        layout.settle(ways(linear, ROWS))
    box = bounds(layout.piece)
    name = _name("END", scale, wide / 2, box.top)
    return layout.piece + Piece((growth_rings(section, RINGS_DEG),), (), (name,))


def _square(tip: Point, deep: float) -> Iterator[Line]:
    """Draw the square: its stock on the upper edge, its blade down to a tip."""
    x, low = tip
    yield rectangle(x, low, x + BLADE_MM, deep + STOCK_MM[1])
    yield rectangle(x - STOCK_MM[0], deep, x, deep + STOCK_MM[1])


def _end_lengths(section: Line, tip: Point, marks: Mapping[str, Mark], spacing: Spacing) -> Iterator[Linear]:
    """Lay out depth, width of the upper edge, and blade."""
    right, deep = tip[0] + BLADE_MM, section[3][1]
    places: dict[str, tuple[Side, tuple[Point, Point], float]] = {
        "depth": ("left", (section[0], section[3]), min(0.0, tip[0] - STOCK_MM[0])),
        "blade": ("right", ((right, tip[1]), (right, deep)), right),
        "width": ("below", (section[0], tip), 0.0),
    }
    for name, (side, ends, line) in places.items():
        if name in marks:
            yield Linear(name, marks[name], side, ends, line, spacing)


def _out(end: Squared, by: float, mark: Mark, spacing: Spacing) -> Narrow:
    """Lay out the angle between blade and face, under both."""
    corner = end.width * by, end.depth * by
    feet = end.depth * by / cos(end.out), end.blade * by
    radii = tuple(max(feet) + further for further in FURTHER_MM)
    return Narrow("out", mark, corner, (270 - degrees(end.out), 270.0), feet, radii, spacing)


def _name(letter: str, scale: Fraction, x: float, top: float) -> Label:
    return Label(f"{letter}\u2002{scale_text(scale)}", x, top + NAME_GAP_MM, size_mm=SMALL_MM)
