"""A blank that leans: from its end, at the bench, under its guide and level, with a square up its front face."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import hypot, radians, tan

from coursepack.drafting.breaking import TOOTH_MM, torn
from coursepack.drafting.clearance import bounds
from coursepack.drafting.detail_shapes import ROUND_MM, circle, letter_ways, rectangle
from coursepack.drafting.dimension import Linear, Spacing
from coursepack.drafting.levelling_details import BLADE_MM, GAP_SEEN_MM, STOCK_MM, scale_for
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.placing import ways
from coursepack.drafting.rings import growth_rings
from coursepack.drafting.scale import at_scale, finished, scale_text
from coursepack.drafting.settling import Layout
from coursepack.drafting.sheet import SMALL_MM, Drawing, Frame, Label, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault

TALL, WIDE = 1.25, 0.3  # of the blade: the blank over the bench, and its width where the lesson does not say
STEEPEST = 10  # a gap of more than 1 in 10 of the blade is seen without a gauge
FOOT_MM = 8.0  # on paper, of blank below the bench top
BENCH_MM = (
    24.0,
    4.0,
    0.8,
)  # on paper: its length before it is broken off, its thickness, and how near it comes
GUIDE_MM = (8.0, 16.0, 2.0)  # before and behind the front corner, and its thin end
LEVEL_MM = (20.0, 4.0)
VIAL_MM = (6.0, 1.6)
BUBBLE_MM = 2.2
DETAIL_MM = 10.0  # of blade and face, in the detail
UNDER_MM = 5.0  # from the view to the detail
SIGNS = "guide, level and bench not to scale"
ROWS = 4


@dataclass(frozen=True)
class Leaning:
    """A leaning blank, sizes in mm and the bevel of its guide in degrees."""

    blade: float
    gap: float
    bevel: float
    width: float

    @property
    def slope(self) -> float:
        """How far the front face goes to the rear for each mm up."""
        return self.gap / self.blade

    def face(self, y: float) -> Point:
        """Return the point of the front face at a height over the bench top."""
        return y * self.slope, y

    def corners(self, by: float) -> tuple[Point, Point]:
        """Return the ends of the top edge on paper: it falls by the guide's bevel from a level line."""
        x, y = self.face(TALL * self.blade * by)
        fall, across = tan(radians(self.bevel)), self.width * by * hypot(1, self.slope)
        rear = ((y + x * fall) * self.slope + across) / (1 + fall * self.slope)
        return (x, y), (rear, y - (rear - x) * fall)


def leaning_blank(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw the end of a blank that leans to the rear, while a level on its guide shows the edge in order.

    Sizes in mm and degrees: blade, of the square; gap at its tip; bevel, of the guide; and width of the blank.
    Raises LessonFault where it does not fit, the blank does not lean or leans too far, or a dimension is asked
    that it does not have.
    """
    refuse_missing("leaning blank", marks, leaning_measure(sizes))
    blank = _leaning(sizes)

    def draft(by: float, room: Frame, spacing: Spacing) -> Piece:
        view = _view(blank, by, marks, room, spacing)
        if "gap" not in marks:
            return view
        detail, low = _detail(blank, marks["gap"], room, spacing), bounds(view).bottom
        box = bounds(detail)
        return view + detail.moved(-(box.left + box.right) / 2, low - UNDER_MM - box.top)

    def note(_: Fraction) -> str:
        return SIGNS

    fitted = at_scale("leaning blank", draft, frame, TALL * blank.blade, note)
    return finished("Leaning blank", fitted, frame, _alt(marks), note)


def leaning_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm."""
    blank = _leaning(sizes)
    return {"blade": blank.blade, "gap": blank.gap}


def _leaning(sizes: Mapping[str, float]) -> Leaning:
    blade, gap = sizes["blade"], sizes["gap"]
    if not 0 < gap <= blade / STEEPEST:
        raise LessonFault(
            "the blank does not lean, or leans too far", f"give a gap of at most 1/{STEEPEST} of 'blade'"
        )
    return Leaning(blade, gap, sizes["bevel"], sizes.get("width", WIDE * blade))


def _view(blank: Leaning, by: float, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    """Draw bench, square and blank with the foot of the front face at 0, and guide and level over them."""
    front, rear = blank.corners(by)
    foot = blank.face(-FOOT_MM)
    behind = rear[0] - (rear[1] + FOOT_MM) * blank.slope, -FOOT_MM
    body = front, foot, behind, rear
    tip = 0.0, blank.blade * by
    strokes = (
        Stroke("outline", ((foot, front, rear, behind),)),
        Stroke("thin", (torn(foot, behind), *_bench(), *_square(tip), *_guide(blank, front))),
        Stroke("dimension", (circle(tip, ROUND_MM),) if "gap" in marks else ()),
    )
    names = (Label("REAR", max(rear[0], behind[0]) + 1.6, rear[1] / 2, "left", size_mm=SMALL_MM),)
    layout = Layout(Piece(strokes, (), names), room)
    if "gap" in marks:
        layout.settle(letter_ways("C", tip))
    if "blade" in marks:
        ends = (-BLADE_MM, 0.0), (-BLADE_MM, tip[1])
        layout.settle(ways(Linear("blade", marks["blade"], "left", ends, -STOCK_MM[0], spacing), ROWS))
    return layout.piece + Piece((growth_rings(body, 0.0),))


def _bench() -> tuple[Line, ...]:
    long, thick, near = BENCH_MM
    edge = (-long, 0.0), (-near, 0.0), (-near, -thick), (-long, -thick)
    return edge, torn(edge[0], edge[-1])


def _square(tip: Point) -> tuple[Line, ...]:
    """Draw the square: its stock on the bench top, its blade up to a tip."""
    x, high = tip
    return rectangle(x - BLADE_MM, 0.0, x, high), rectangle(x - STOCK_MM[0], 0.0, x - BLADE_MM, STOCK_MM[1])


def _guide(blank: Leaning, corner: Point) -> tuple[Line, ...]:
    """Draw the guide on the edge, its upper side level, and on it a level with its bubble in the middle."""
    before, after, thin = GUIDE_MM
    fall = tan(radians(blank.bevel))
    (x, y), top = corner, corner[1] + before * fall + thin
    low, high = (x - before, y + before * fall), (x + after, y - after * fall)
    wedge = (low[0], top), low, high, (high[0], top), (low[0], top)
    middle = (low[0] + high[0]) / 2
    level = rectangle(middle - LEVEL_MM[0] / 2, top, middle + LEVEL_MM[0] / 2, top + LEVEL_MM[1])
    vial, bubble = (
        _upright(middle, top + LEVEL_MM[1] / 2, wide, VIAL_MM[1]) for wide in (VIAL_MM[0], BUBBLE_MM)
    )
    return wedge, level, vial, bubble


def _upright(x: float, y: float, wide: float, tall: float) -> Line:
    return rectangle(x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2)


def _detail(blank: Leaning, mark: Mark, room: Frame, spacing: Spacing) -> Piece:
    """Draw the tip of the square's blade, and the face that leans away from it."""
    scale = scale_for(blank.gap, GAP_SEEN_MM)
    gap, right = blank.gap * float(scale), blank.gap * float(scale) + DETAIL_MM
    face = tuple((gap + y * blank.slope, y) for y in (-DETAIL_MM, DETAIL_MM / 2))
    body = torn(face[1], (right, face[1][1]), (right, -DETAIL_MM), face[0])
    left = -BLADE_MM - 2
    blade = (0.0, -DETAIL_MM), (0.0, 0.0), (left, 0.0)
    high = face[1][1] + TOOTH_MM
    layout = Layout(
        Piece(
            (
                Stroke("outline", (face,)),
                Stroke("thin", (body, blade, torn(blade[2], (left, -DETAIL_MM), blade[0]))),
            ),
        ),
        room,
    )
    layout.settle(ways(Linear("gap", mark, "above", ((0.0, 0.0), (gap, 0.0)), high, spacing), ROWS))
    box = bounds(layout.piece)
    name = Label(
        f"C\u2002{scale_text(scale)}", (left + right) / 2, box.bottom - SMALL_MM - 1, size_mm=SMALL_MM
    )
    return layout.piece + Piece((), (), (name,))


def _alt(marks: Mapping[str, Mark]) -> str:
    names = {
        "blade": "length of the square's blade",
        "gap": "gap between the tip of the blade and the front face",
    }
    return (
        "End view of a blank beside the bench top, leaning to the rear. A square on the bench touches its front face at "
        "the bottom and stands off at the tip. On its top edge a guide and a level, the bubble in the middle. "
        f"{listed(names, marks)}"
    )
