"""A strip before the planer: rough outline, the passes that come off, the finished size, and the way it is fed."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain
from math import cos, pi, sin

from coursepack.drafting.dimension import ARROW_MM, Linear, NoRoom, arrowhead, settle, ways
from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.rings import around, growth_rings
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.sheet import (
    SMALL_MM,
    Drawing,
    Frame,
    Label,
    Line,
    Mark,
    Piece,
    Point,
    Stroke,
    bounds,
    centred,
)
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.trade.outline import planed_levels, rectangle

CIRCLE_MM = 2.35  # radius of a face number's circle
INSET_MM = 1.0
BARE_MM = (
    3.2  # from the middle: beside the face numbers, where a small dimension stands on the part's own lines
)
NEAR_MM = 3.6  # a small dimension's row, between the part and the first full row
LAYERS = 6  # more would run together: then only the first and the last are drawn
ALONG_MM = (40.0, 6.0)  # the view along the board


@dataclass(frozen=True)
class Strip:
    """A strip's end on paper in mm: rough and finished corners, levels after each pass from above and below."""

    outer: Line
    inner: Line
    above: tuple[float, ...]
    below: tuple[float, ...]


def planing_passes(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw the end of a strip with the layers that each pass takes off, and the strip's side on its way in.

    Sizes in mm and counts: rough, finish, and where known rough_width, finish_width, passes_top, passes_bottom
    (the bottom's are the top's where only those are given).
    Raises LessonFault where it does not fit, or a dimension is asked that follows from no given size.
    """
    true = planing_measure(sizes)
    for name in marks:
        if name not in true:
            raise LessonFault(
                f"these planing passes have no dimension '{name}'", f"they have {', '.join(true)}"
            )
    said = "first and last pass drawn" if max(_passes(sizes)) > LAYERS else ""

    def note(_: Fraction) -> str:
        return said

    fitted = at_scale(
        "planing passes",
        lambda by, room: _draft(sizes, marks, by, room),
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


def _draft(sizes: Mapping[str, float], marks: Mapping[str, Mark], scale: float, room: Frame) -> Piece:
    strip = _strip(sizes, scale)
    spots = _face_spots(strip)
    thin = Stroke("thin", (_closed(strip.outer), *_layers(strip), *(_circle(spot) for spot in spots)))
    numbers = tuple(centred(Mark(str(n)), spot, SMALL_MM) for n, spot in enumerate(spots, 1))
    piece = Piece((Stroke("outline", (_closed(strip.inner),)), thin), (), numbers)
    for choices in _dimensions(strip, marks):
        piece = settle(piece, choices, room)
    box = bounds(piece)
    piece += Piece((around(growth_rings(strip.inner, 0.0, 0.9), spots, CIRCLE_MM + 0.7),))
    return piece + _along_the_board().moved((box.left + box.right) / 2, box.bottom - 6.0)


def _strip(sizes: Mapping[str, float], scale: float) -> Strip:
    rough = sizes["rough"] * scale
    above, below = _levels(sizes, scale)
    low, high = below[-1] if below else 0.0, above[-1] if above else rough
    wide = sizes.get("rough_width", sizes.get("finish_width", 2 * sizes["rough"])) * scale
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
    for levels in (strip.above[:-1], strip.below[:-1]):
        shown = levels if len(levels) < LAYERS else (levels[0], levels[-1])
        yield from (((left, y), (right, y)) for y in shown)


def _face_spots(strip: Strip) -> tuple[Point, ...]:
    """Where the numbers of the faces stand: 1 top, 2 bottom, 3 and 4 the edges, inside where they fit."""
    (left, low), _, (right, high), _ = strip.inner
    if right - left < 4 * CIRCLE_MM + 3 * INSET_MM:
        raise NoRoom
    inset = CIRCLE_MM + INSET_MM
    tops = (high - inset, low + inset)
    if high - low < 4 * CIRCLE_MM + 3 * INSET_MM or right - left < 6 * CIRCLE_MM + 4 * INSET_MM:
        tops = (strip.outer[2][1] + inset, strip.outer[0][1] - inset)
    middle = (low + high) / 2
    return (0.0, tops[0]), (0.0, tops[1]), (left + inset, middle), (right - inset, middle)


def _circle(spot: Point) -> Line:
    turns = (2 * pi * n / 24 for n in range(24))
    return _closed(
        tuple((spot[0] + CIRCLE_MM * cos(turn), spot[1] + CIRCLE_MM * sin(turn)) for turn in turns)
    )


def _dimensions(strip: Strip, marks: Mapping[str, Mark]) -> Iterator[Iterator[Piece]]:
    outer, inner = strip.outer, strip.inner
    left, right = outer[0][0], outer[1][0]
    beneath = min(outer[0][1], _face_spots(strip)[1][1] - CIRCLE_MM)
    if "rough" in marks:
        yield ways(Linear("rough", marks["rough"], "left", (outer[0], outer[3]), left))
    if "finish" in marks:
        yield ways(Linear("finish", marks["finish"], "right", (inner[1], inner[2]), right))
    if "allowance_each" in marks:
        ends = (inner[2], outer[2])
        near = Linear("allowance_each", marks["allowance_each"], "right", ends, right, NEAR_MM)
        over = Linear("allowance_each", marks["allowance_each"], "right", ends, BARE_MM, 0.0, bare=True)
        yield chain(ways(near), ways(over))
    if "cut" in marks:
        yield _cut_ways(strip, marks["cut"])
    for name, corners in (("finish_width", inner), ("rough_width", outer)):
        if name in marks:
            yield ways(Linear(name, marks[name], "below", (corners[0], corners[1]), beneath))


def _cut_ways(strip: Strip, mark: Mark) -> Iterator[Piece]:
    """Place the first pass on the top face, or on the bottom where only that is planed."""
    corner = strip.outer[3] if strip.above else strip.outer[0]
    level = strip.above[0] if strip.above else strip.below[0]
    ends = (corner, (corner[0], level))
    yield from ways(Linear("cut", mark, "left", ends, corner[0], NEAR_MM))
    yield from ways(Linear("cut", mark, "left", ends, -BARE_MM, 0.0, bare=True))


def _along_the_board() -> Piece:
    """Draw the strip from its side: fibres that fall the way it is fed, so that the knives do not lift them."""
    long, deep = ALONG_MM
    high, low = -5.0, -5.0 - deep
    ends = tuple(_ragged(x, low, high) for x in (-long / 2, long / 2))
    edges = tuple(((-long / 2, y), (long / 2, y)) for y in (low, high))
    fibres = tuple(_fibre(-long / 2 + 1.5 + n * 5.2, low, deep) for n in range(7))
    strokes = (Stroke("outline", edges), Stroke("thin", ends), Stroke("ring", fibres))
    return Piece(strokes) + _arrow("FEED", high + 2.8) + _arrow("GRAIN", low - 2.8)


def _ragged(x: float, low: float, high: float) -> Line:
    return tuple((x + (0.7 if n % 2 else -0.7) * (0 < n < 6), low + (high - low) * n / 6) for n in range(7))


def _fibre(x: float, low: float, deep: float) -> Line:
    return (x, low + 0.8 * deep), (x + 4.6, low + 0.2 * deep)


def _arrow(text: str, y: float) -> Piece:
    label = Label(text, -3.0, y - MIDDLE_EM * SMALL_MM, "right", size_mm=SMALL_MM)
    tip = (14.0, y)
    return Piece(
        (Stroke("thin", (((-1.5, y), (tip[0] - ARROW_MM, y)),)),), (arrowhead(tip, (1, 0), text),), (label,)
    )


def _alt(marks: Mapping[str, Mark]) -> str:
    names = {
        "rough": "rough thickness", "finish": "finished thickness", "rough_width": "rough width",
        "finish_width": "finished width", "allowance_each": "wood to come off each face", "cut": "depth of one pass",
    }  # fmt: skip
    above = "End view of a strip with its finished size inside its rough size, faces 1 top, 2 bottom, 3 and 4 the edges."
    return f"{above} {listed(names, marks)} The board is fed the way its grain arrow points."
