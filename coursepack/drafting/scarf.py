"""A scarf from its side, standing on end: glue line, run, slope as a small triangle, and a cap strip's block."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from itertools import accumulate, count, takewhile
from math import atan2, cos, degrees, radians, sin

from coursepack.drafting.breaking import TOOTH_MM, torn
from coursepack.drafting.dimension import (
    ARROW_MM,
    CLEAR_MM,
    GAP_MM,
    TAIL_MM,
    Linear,
    Side,
    Spacing,
    arrowhead,
)
from coursepack.drafting.label import centred, label_box
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.placing import ways
from coursepack.drafting.rings import SPACINGS_MM
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import SMALL_MM, Box, Drawing, Fill, Frame, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault

PAST_MM = 7.0  # on paper, of wood beyond the scarf and its block, before it is broken off
TALLEST_MM = 120.0  # on paper, of the scarf or its block
BLOCK_END = 5  # a block's ends run out 5 to 1: FAA-H-8083-31, chapter 6
LEG_MM = 32.0  # on paper, of the slope triangle's long leg
ARC_MM = 26.0  # from the triangle's sharp corner to the arc of its angle
NEAR_MM = 4.0  # from the triangle's long leg to its dimension line, where no arrow stands between
UNDER_MM = 8.0  # from all else to the triangle, where it stands under them
NOTE = "pieces on end"


def scarf(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw two pieces at a scarf, their long parts broken off, and beside them the triangle of its slope.

    Sizes in mm: thickness, run of the scarf along the face, and where a block backs it block, its length, and
    block_thick (else as thick as the pieces). Raises LessonFault where it does not fit, the block does not cover
    the scarf, or a dimension is asked that this scarf does not have.
    """
    refuse_missing("scarf", marks, scarf_measure(sizes))
    _refuse_short_block(sizes)
    fitted = at_scale(
        "scarf",
        lambda by, room, spacing: _draft(sizes, marks, by, room, spacing),
        frame,
        max(sizes["run"], sizes.get("block", 0.0)),
        lambda _: NOTE,
    )
    return finished("Scarf", fitted, frame, _alt(sizes, marks), lambda _: NOTE)


def scarf_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm; the angle in degrees, the slope as the run for a rise of 1."""
    thickness, run = sizes["thickness"], sizes["run"]
    slope = round(run / thickness, 6)
    true = {"thickness": thickness, "run": run, "slope": int(slope) if slope.is_integer() else slope}
    true["angle"] = degrees(atan2(thickness, run))
    if "block" in sizes:
        true |= {"block": sizes["block"], "past": (sizes["block"] - run) / 2}
    return true


def _refuse_short_block(sizes: Mapping[str, float]) -> None:
    if "block" in sizes and sizes["block"] - sizes["run"] < 2 * sizes["thickness"]:
        raise LessonFault(
            "the block is too short for the scarf", "let it reach past both ends by the thickness or more"
        )


@dataclass(frozen=True)
class Joint:
    """A scarf on paper in mm: thickness, run, and its block's length and thickness, zero where it has none."""

    thick: float
    run: float
    block: float
    deep: float

    @property
    def beyond(self) -> float:
        """How far the block reaches past either end of the scarf."""
        return max(0.0, self.block - self.run) / 2

    @property
    def low(self) -> float:
        """Where the lower piece is broken off."""
        return -self.beyond - PAST_MM

    @property
    def high(self) -> float:
        """Where the upper piece is broken off."""
        return self.run + self.beyond + PAST_MM


def _draft(
    sizes: Mapping[str, float], marks: Mapping[str, Mark], scale: float, room: Frame, spacing: Spacing
) -> Piece:
    """Lay the figure out with the slope's triangle beside the pieces, or under them where that is too wide."""
    block = sizes.get("block", 0.0)
    deep = sizes.get("block_thick", sizes["thickness"]) if block else 0.0
    joint = Joint(*(scale * size for size in (sizes["thickness"], sizes["run"], block, deep)))
    if max(joint.run, joint.block) > TALLEST_MM:
        raise NoRoom
    try:
        return _laid_out(joint, marks, room, spacing, _beside)
    except NoRoom:
        if {"slope", "angle"}.isdisjoint(marks):
            raise
        return _laid_out(joint, marks, room, spacing, _under)


def _laid_out(
    joint: Joint,
    marks: Mapping[str, Mark],
    room: Frame,
    spacing: Spacing,
    place: Callable[[Joint, Box], Point],
) -> Piece:
    layout = Layout(_pieces(joint), room)
    for choices in _lengths(joint, marks, spacing):
        layout.settle(choices)
    if not {"slope", "angle"}.isdisjoint(marks):
        for choices in _triangle(place(joint, layout.box), joint, marks, spacing):
            layout.settle(choices)
    return layout.piece + Piece((Stroke("ring", tuple(_grain(joint))),))


def _beside(joint: Joint, box: Box) -> Point:
    """Return the triangle's upper left corner to the right of all, level with the scarf's middle."""
    return box.right, (joint.run + LEG_MM) / 2


def _under(joint: Joint, box: Box) -> Point:
    """Return the triangle's upper left corner under all, in the middle."""
    return joint.thick / 2 - ARROW_MM - TAIL_MM, box.bottom - UNDER_MM


def _pieces(joint: Joint) -> Piece:
    sides = tuple(((x, joint.low), (x, joint.high)) for x in (0.0, joint.thick))
    glue_line = (joint.thick, 0.0), (0.0, joint.run)
    block = (_block(joint),) if joint.block else ()
    return Piece(
        (
            Stroke("outline", (*sides, glue_line, *block)),
            Stroke("thin", tuple(torn((0.0, y), (joint.thick, y)) for y in (joint.low, joint.high))),
        )
    )


def _block(joint: Joint) -> Line:
    """Draw the block on the right of the pieces, its ends running out."""
    low, high = -joint.beyond, joint.run + joint.beyond
    out = min(BLOCK_END * joint.deep, joint.block / 2)
    right = joint.thick + joint.deep
    return (joint.thick, low), (right, low + out), (right, high - out), (joint.thick, high)


def _grain(joint: Joint) -> Iterator[Line]:
    """Give the grain of both pieces, along them and up to the glue line."""
    for x in _across(joint.thick, 0):
        yield (x, joint.low + TOOTH_MM), (x, joint.run * (1 - x / joint.thick))
    for x in _across(joint.thick, 3):
        yield (x, joint.run * (1 - x / joint.thick)), (x, joint.high - TOOTH_MM)


def _across(thick: float, first: int) -> Iterator[float]:
    """Give where the grain's lines lie, closer in a thin piece, and unlike in pieces that begin unlike."""
    by = min(1.0, thick / 9)
    gaps = (by * SPACINGS_MM[n % len(SPACINGS_MM)] * (0.6 if n == first else 1) for n in count(first))
    yield from takewhile(lambda x: x < thick - 0.8, accumulate(gaps))


def _lengths(joint: Joint, marks: Mapping[str, Mark], spacing: Spacing) -> Iterator[Iterator[Choice]]:
    """Give the ways of the lengths along the pieces; the run goes from feather edge to feather edge."""
    low, high = (joint.thick, -joint.beyond), (joint.thick, joint.run + joint.beyond)
    tip = (0.0, joint.run)
    places: dict[str, tuple[Side, tuple[Point, Point], float]] = {
        "run": ("left", ((joint.thick, 0.0), tip), 0.0),
        "past": ("left", (tip, high), 0.0),
        "block": ("right", (low, high), joint.thick + joint.deep),
    }
    for name, (side, ends, line) in places.items():
        if name in marks:
            yield ways(Linear(name, marks[name], side, ends, line, spacing))
    if "thickness" in marks:
        faces, line = ((0.0, joint.low), (joint.thick, joint.low)), joint.low - TOOTH_MM
        yield ways(Linear("thickness", marks["thickness"], "below", faces, line, spacing))


def _triangle(
    place: Point, joint: Joint, marks: Mapping[str, Mark], spacing: Spacing
) -> Iterator[Iterator[Choice]]:
    """Give the ways of the slope's triangle right of and below a place, its long side along the glue line."""
    short = LEG_MM * joint.thick / joint.run
    clear = ARROW_MM + TAIL_MM + CLEAR_MM if "angle" in marks else 3 * GAP_MM
    corner = (place[0] + clear + short, place[1] - LEG_MM)
    yield _legs(corner, short, "slope" in marks)
    if "angle" in marks:
        yield _angle(corner, degrees(atan2(short, LEG_MM)), marks["angle"], spacing)
    if "slope" in marks:
        ends = corner, (corner[0], corner[1] + LEG_MM)
        first = clear if "angle" in marks else NEAR_MM
        yield ways(Linear("slope", marks["slope"], "right", ends, corner[0], spacing, first))


def _legs(corner: Point, short: float, lettered: bool) -> Iterator[Choice]:  # noqa: FBT001 - whether the 1 stands on it
    """Draw the triangle; the rise of 1 is lettered over its short leg."""
    x, y = corner
    shape = Stroke("thin", ((corner, (x, y + LEG_MM), (x - short, y + LEG_MM), corner),))
    one = centred(Mark("1"), (x - short / 2, y + LEG_MM + 2.4), SMALL_MM)
    yield Choice(label_box(one), partial(Piece, (shape,), (), (one,) if lettered else ()))


def _angle(corner: Point, angle_deg: float, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of the angle at the sharp corner: reversed arrows on an arc, lettered about either tail."""

    def at(turn_deg: float) -> Point:
        return corner[0] + ARC_MM * cos(radians(turn_deg)), corner[1] + ARC_MM * sin(radians(turn_deg))

    def arc(start: float, end: float) -> Line:
        return tuple(at(start + (end - start) * n / 6) for n in range(7))

    def head(turn: float, sign: int) -> Fill:
        tip, back = at(turn), at(turn + sign * degrees(ARROW_MM / ARC_MM))
        return arrowhead(tip, (tip[0] - back[0], tip[1] - back[1]), "angle")

    low, high, tail = 90.0, 90.0 + angle_deg, degrees((ARROW_MM + TAIL_MM) / ARC_MM)
    strokes = (Stroke("dimension", (arc(low - tail, low), arc(low, high), arc(high, high + tail))),)
    size = label_box(centred(mark, (0, 0), spacing.letter))
    right, left = at(low - tail), at(high + tail)
    half, above = size.width / 2 + CLEAR_MM, size.height / 2 + CLEAR_MM
    for middle in (
        (right[0] + half, right[1]),
        (corner[0] + half, right[1] - above),
        (left[0] - half, left[1]),
        (corner[0] + half, right[1] - above - 3),
    ):
        label = centred(mark, middle, spacing.letter, "angle")
        yield Choice(label_box(label), partial(Piece, strokes, (head(low, -1), head(high, 1)), (label,)))


def _alt(sizes: Mapping[str, float], marks: Mapping[str, Mark]) -> str:
    names = {
        "thickness": "thickness of the pieces", "run": "run of the scarf, the length of the cut along the face",
        "slope": "slope, the run for a rise of 1", "angle": "angle of the glue line to the face",
        "block": "length of the block", "past": "length of the block past each end of the scarf",
    }  # fmt: skip
    backed = ", with a block glued over the joint" if "block" in sizes else ""
    return f"Side view of two pieces on end, joined by a scarf{backed}. {listed(names, marks)}"
