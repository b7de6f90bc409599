"""A strip before the planer: rough outline, the passes that come off, the finished size, the feed."""

from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from fractions import Fraction
from math import cos, pi, sin

from coursepack.drafting.dimension import Linear, Side, Spacing
from coursepack.drafting.feed import along_the_board
from coursepack.drafting.label import centred
from coursepack.drafting.placing import ways
from coursepack.drafting.rings import around, growth_rings
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import SMALL_MM, Drawing, Frame, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.trade.outline import planed_levels, rectangle

CIRCLE_MM = 2.35  # radius of a face number's circle
CIRCLE = tuple((CIRCLE_MM * cos(pi * n / 12), CIRCLE_MM * sin(pi * n / 12)) for n in (*range(24), 0))
INSET_MM = 1.0
BARE_MM = 4.4  # from the middle, clear of the face numbers: a small dimension on the part's own lines
NEAR_MM = 3.6  # a small dimension's row, between the part and the first full row
FREE_MM = 30.0  # lettering above the part stands on its line, with no face beside it to keep clear of
GREAT, SMALL = ("rough", "finish"), ("allowance_each", "cut")  # heights
UNKNOWN_WIDTH = 1.25  # of the rough thickness, where a lesson gives none
LAYERS = 6  # passes a face: more would run together, and only the first is drawn
LAYER_MM = 0.7  # as would thinner ones


@dataclass(frozen=True)
class Strip:
    """A strip's end on paper in mm: rough and finished corners, levels after each pass."""

    outer: Line
    inner: Line
    above: tuple[float, ...]
    below: tuple[float, ...]


def planing_passes(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw the end of a strip with the layers that each pass takes off, and the strip's side on its way in.

    Sizes in mm and counts: rough, finish, and where known rough_width, finish_width, passes_top,
    passes_bottom (the bottom's are the top's where only those are given).
    Raises LessonFault where it does not fit, or a dimension is asked that follows from no given size.
    """
    true = planing_measure(sizes)
    for name in marks:
        if name not in true:
            raise LessonFault(
                f"these planing passes have no dimension '{name}'", f"they have {', '.join(true)}"
            )

    def note(scale: Fraction) -> str:
        return "only the first pass drawn" if _crowded(*_levels(sizes, float(scale))) else ""

    fitted = at_scale(
        "planing passes",
        lambda by, room, spacing: _draft(sizes, marks, by, room, spacing),
        frame,
        max(sizes["rough"], sizes.get("rough_width", 0.0)),
        note,
    )
    return finished("Planing passes", fitted, frame, _alt(marks), note)


def planing_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm; an allowance only where both faces lose the same."""
    true = {name: sizes[name] for name in ("rough", "finish", "rough_width", "finish_width") if name in sizes}
    top, bottom = _passes(sizes)
    if top == bottom:
        true["allowance_each"] = (sizes["rough"] - sizes["finish"]) / 2
    if top + bottom:
        true["cut"] = (sizes["rough"] - sizes["finish"]) / (top + bottom)
    return true


def _passes(sizes: Mapping[str, float]) -> tuple[int, int]:
    top = round(sizes.get("passes_top", sizes.get("passes_bottom", 0)))
    return top, round(sizes.get("passes_bottom", top))


def _levels(sizes: Mapping[str, float], scale: float) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Levels on paper after each pass; one unnumbered layer a face where the passes are not known."""
    top, bottom = _passes(sizes)
    if top + bottom == 0:
        top, bottom = 1, 1
    return planed_levels(sizes["rough"] * scale, sizes["finish"] * scale, top, bottom)


def _crowded(above: tuple[float, ...], below: tuple[float, ...]) -> bool:
    """Whether the layers of a face are too many, or too thin on paper, for a line each."""
    levels = max(above, below, key=len)
    return len(levels) > LAYERS or (len(levels) > 1 and abs(levels[1] - levels[0]) < LAYER_MM)


def _draft(
    sizes: Mapping[str, float], marks: Mapping[str, Mark], scale: float, room: Frame, spacing: Spacing
) -> Piece:
    strip = _strip(sizes, scale)
    spots = _face_spots(strip)
    strokes = (
        Stroke("outline", (_closed(strip.inner),)),
        Stroke("thin", (_closed(strip.outer), *(_circle(spot) for spot in spots))),
        Stroke("layer", tuple(_layers(strip))),
    )
    numbers = tuple(centred(Mark(str(n)), spot, SMALL_MM) for n, spot in enumerate(spots, 1))
    beside = spacing.beside("rough" in marks, "finish" in marks)
    layout = _dimensioned(
        strip, spots, marks, spacing, lambda: Layout(Piece(strokes, (), numbers), room, beside)
    )
    box = layout.box
    rings = around(growth_rings(strip.inner, 0.0, 0.9), spots, CIRCLE_MM + 0.7)
    view = along_the_board().moved((box.left + box.right) / 2, box.bottom - 6.0)
    return layout.piece + Piece((rings,)) + view


def _strip(sizes: Mapping[str, float], scale: float) -> Strip:
    rough = sizes["rough"] * scale
    above, below = _levels(sizes, scale)
    low, high = below[-1] if below else 0.0, above[-1] if above else rough
    wide = sizes.get("rough_width", sizes.get("finish_width", UNKNOWN_WIDTH * sizes["rough"])) * scale
    narrow = sizes["finish_width"] * scale if "finish_width" in sizes else wide
    return Strip(
        rectangle(wide, rough, (0, rough / 2)),
        rectangle(narrow, high - low, (0, (low + high) / 2)),
        above,
        below,
    )


def _closed(corners: Line) -> Line:
    return (*corners, corners[0])


def _layers(strip: Strip) -> Iterator[Line]:
    (left, _), (right, _) = strip.outer[:2]
    crowded = _crowded(strip.above, strip.below)
    for levels in (strip.above[:-1], strip.below[:-1]):
        yield from (((left, y), (right, y)) for y in levels[: 1 if crowded else None])


def _face_spots(strip: Strip) -> tuple[Point, ...]:
    """Where the numbers of the faces stand: 1 top, 2 bottom, 3 and 4 the edges, inside where they fit."""
    (left, low), _, (right, high), _ = strip.inner
    inset = CIRCLE_MM + INSET_MM
    tops, sides = (high - inset, low + inset), (left + inset, right - inset)
    if high - low < 6 * CIRCLE_MM + 4 * INSET_MM or right - left < 6 * CIRCLE_MM + 4 * INSET_MM:
        tops = (strip.outer[2][1] + inset, strip.outer[0][1] - inset)
    if high - low < 2 * CIRCLE_MM + INSET_MM or right - left < 4 * CIRCLE_MM + 3 * INSET_MM:
        sides = (strip.outer[0][0] - inset, strip.outer[1][0] + inset)
    middle = (low + high) / 2
    return (0.0, tops[0]), (0.0, tops[1]), (sides[0], middle), (sides[1], middle)


def _circle(spot: Point) -> Line:
    return tuple((spot[0] + x, spot[1] + y) for x, y in CIRCLE)


def _dimensioned(
    strip: Strip,
    spots: tuple[Point, ...],
    marks: Mapping[str, Mark],
    spacing: Spacing,
    bare: Callable[[], Layout],
) -> Layout:
    """Place the dimensions: the small heights before the great ones, or where these then have no room, after them."""
    for names in (SMALL + GREAT, *(() if spacing.close else (GREAT + SMALL,))):
        with suppress(NoRoom):
            layout = bare()
            for choices in _dimensions(strip, spots, marks, spacing, names):
                layout.settle(choices)
            return layout
    raise NoRoom


def _dimensions(
    strip: Strip,
    spots: tuple[Point, ...],
    marks: Mapping[str, Mark],
    spacing: Spacing,
    names: tuple[str, ...],
) -> Iterator[Iterator[Choice]]:
    """Give the ways of each dimension; a great height goes past its lower end, for the small ones stand above."""
    left = min(strip.outer[0][0], spots[2][0] - CIRCLE_MM)
    right = max(strip.outer[1][0], spots[3][0] + CIRCLE_MM)
    beside = names[0] in SMALL and any(name in marks for name in SMALL)
    for name in names:
        if name in marks:
            side, ends = _heights(name, strip)
            line = left if side == "left" else right
            below = beside and name in GREAT
            dim = Linear(name, marks[name], side, ends, line, spacing, low_first=below)
            yield ways(dim) if name in GREAT else _small(dim)
    beneath = min(strip.outer[0][1], spots[1][1] - CIRCLE_MM)
    for name, corners in (("finish_width", strip.inner), ("rough_width", strip.outer)):
        if name in marks:
            ends = (corners[0], corners[1])
            yield ways(Linear(name, marks[name], "below", ends, beneath, spacing))


def _heights(name: str, strip: Strip) -> tuple[Side, tuple[Point, Point]]:
    """Where a height is measured: its side of the strip and its two ends."""
    outer, inner = strip.outer, strip.inner
    places: dict[str, tuple[Side, tuple[Point, Point]]] = {
        "rough": ("left", (outer[0], outer[3])),
        "finish": ("right", (inner[1], inner[2])),
        "allowance_each": ("right", (inner[2], outer[2])),
        "cut": ("left", _first_pass(strip)),
    }
    return places[name]


def _small(dim: Linear) -> Iterator[Choice]:
    """Place a small height close beside the part, lettered above it, or else on it, beside the number of its face."""
    yield from ways(replace(dim, line=dim.line - dim.outward * FREE_MM, first=FREE_MM + NEAR_MM), 1)
    yield from ways(replace(dim, line=dim.outward * BARE_MM, first=0.0, bare=True), 1)
    yield from ways(dim)


def _first_pass(strip: Strip) -> tuple[Point, Point]:
    """Give the ends of the first pass on the top face, or on the bottom where only that is planed."""
    corner = strip.outer[3] if strip.above else strip.outer[0]
    return corner, (corner[0], strip.above[0] if strip.above else strip.below[0])


def _alt(marks: Mapping[str, Mark]) -> str:
    names = {
        "rough": "rough thickness", "finish": "finished thickness", "rough_width": "rough width",
        "finish_width": "finished width", "allowance_each": "wood to come off each face",
        "cut": "depth of one pass",
    }  # fmt: skip
    above = (
        "End view of a strip with its finished size inside its rough size, "
        "faces 1 top, 2 bottom, 3 and 4 the edges."
    )
    return f"{above} {listed(names, marks)} The board is fed the way its upper grain arrow points, and the lower one points back."
