"""A nose rib from the side, with its lightening hole, its starting hole and the saw's way to the line."""

from collections.abc import Iterator, Mapping
from contextlib import suppress
from fractions import Fraction
from functools import partial
from math import dist

from coursepack.drafting.dimension import Linear, Side, Spacing
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.nose_shape import NoseRib, circle, nose_rib_of
from coursepack.drafting.oblique import Oblique, across, oblique_ways
from coursepack.drafting.part import Sizes
from coursepack.drafting.placing import ways
from coursepack.drafting.rib_view import CLOSEST_MM
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import Drawing, Frame, Line, LineKind, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed

CENTRE_MM = 2.5  # on paper: a centre line goes on past the hole
ROWS = 5  # that a dimension may go outward
FREE = ("aft", "hole", "start", "edge")  # dimensions that have more than one side
FIRST: tuple[tuple[str, ...], ...] = (  # which of them are placed before the others
    (), ("hole", "start", "edge", "aft"), ("edge",), ("edge", "start", "hole"),
    ("edge", "aft"), ("start", "hole", "edge"), ("edge", "start", "hole", "aft"),
)  # fmt: skip
TURNS = (-45, -60, -30, -75, 45, 60, 75, 90, 30, 15, 0, -15, -90, 105, 120, 135)  # fmt: skip  # degrees


def nose_rib(sizes: Sizes, marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a nose rib from the side, nose on the left, at the largest scale that fits, or the frame's.

    Its shape is `section`. Sizes in mm: chord, length to the spar's front face, hole, where its middle lies (aft of
    the leading edge, middle above the datum), and where they are to be seen start, the diameter of the starting hole,
    with the saw's way from there, and capstrip, the thickness that comes over the sawn line. Raises LessonFault where it does not fit or a dimension is asked that it does not have.
    """
    rib = nose_rib_of(sizes)
    refuse_missing("nose rib", marks, _measure(rib))
    note = partial(_note, rib)
    fitted = at_scale(
        "nose rib",
        lambda by, room, spacing: _draft(rib, by, marks, room, spacing),
        frame,
        rib.length,
        note,
    )
    return finished("Nose rib", fitted, frame, _alt(rib, marks), note)


def nose_rib_measure(sizes: Sizes) -> dict[str, float]:
    """Give the true value of every dimension in mm; height and edge, the least wood round the hole, are sawn."""
    return _measure(nose_rib_of(sizes))


def _measure(rib: NoseRib) -> dict[str, float]:
    low, high = rib.face
    true = {
        "length": rib.length, "height": high[1] - low[1], "hole": rib.hole, "edge": rib.edge,
        "aft": rib.middle[0], "middle": rib.middle[1],
    }  # fmt: skip
    return true | ({"start": rib.start} if rib.start else {})


def _draft(rib: NoseRib, scale: float, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    """Draw the rib with its dimensions; those that have more than one side come last, or first where they must."""
    if rib.length * scale > room.width:
        raise NoRoom
    for first in FIRST:
        with suppress(NoRoom):
            layout = Layout(_view(rib, scale), room)
            last = [name for name in FREE if name not in first]
            for choices in (
                *(_free_ways(rib, scale, name, marks[name], spacing) for name in first if name in marks),
                *(ways(dim, ROWS) for dim in _linear(rib, scale, marks, spacing)),
                *(_free_ways(rib, scale, name, marks[name], spacing) for name in last if name in marks),
            ):
                layout.settle(choices)
            return layout.piece
    raise NoRoom


def _view(rib: NoseRib, scale: float) -> Piece:
    """Draw the rib without any dimension."""
    (x, y), reach = rib.middle, rib.radius + CENTRE_MM / scale
    axes = ((x - reach, y), (x + reach, y)), ((x, y - reach), (x, y + reach))
    strokes = [
        _stroke("outline", scale, rib.sawn, circle(rib.middle, rib.radius)),
        _stroke("centre", scale, *axes),
    ]
    if _shows_contour(rib, scale):
        strokes.append(_stroke("layer", scale, rib.contour[:-1]))
    if rib.start:
        strokes.append(_stroke("thin", scale, circle(rib.start_at, rib.start / 2)))
        strokes.append(_stroke("hidden", scale, rib.saw_path))
    return Piece(tuple(strokes))


def _shows_contour(rib: NoseRib, scale: float) -> bool:
    """Whether the contour stands clear of the sawn line on paper."""
    return rib.capstrip * scale >= CLOSEST_MM


def _note(rib: NoseRib, scale: Fraction) -> str:
    left_out = ", contour left out" if rib.capstrip and not _shows_contour(rib, float(scale)) else ""
    return f"{rib.section.name}{left_out}"


def _stroke(kind: LineKind, scale: float, *lines: Line) -> Stroke:
    return Stroke(kind, tuple(tuple((x * scale, y * scale) for x, y in line) for line in lines))


def _linear(rib: NoseRib, scale: float, marks: Mapping[str, Mark], spacing: Spacing) -> Iterator[Linear]:
    """Lay out the dimensions that have one side; the length leaves the first row to the hole's diameter."""
    (x, y), low = rib.middle, min(rib.contour, key=_height)[1]
    under = 2 * spacing.row if "hole" in marks else None
    places: dict[str, tuple[Side, tuple[Point, Point], float, float | None]] = {
        "length": ("below", (_nose(rib), rib.face[0]), low, under),
        "height": ("right", rib.face, rib.length, None),
        "middle": ("left", ((0.0, 0.0), (x - rib.radius, y)), 0.0, None),
    }
    for name, (side, ends, line, first) in places.items():
        if name in marks:
            yield Linear(name, marks[name], side, _scaled(ends, scale), line * scale, spacing, first)


def _aft_ways(rib: NoseRib, scale: float, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of the station of the hole's middle: over the rib, else under all that stands there."""
    (x, y), radius, nose = rib.middle, rib.radius, _nose(rib)
    heights = sorted(py * scale for _, py in rib.contour)
    over, under = (_scaled((nose, (x, y + up * radius)), scale) for up in (1, -1))
    yield from ways(Linear("aft", mark, "above", over, heights[-1], spacing), ROWS)
    yield from ways(Linear("aft", mark, "below", under, heights[0], spacing, 3 * spacing.row), ROWS)


def _scaled(ends: tuple[Point, Point], scale: float) -> tuple[Point, Point]:
    (x, y), (to_x, to_y) = ends
    return (x * scale, y * scale), (to_x * scale, to_y * scale)


def _free_ways(rib: NoseRib, scale: float, name: str, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    if name == "aft":
        return _aft_ways(rib, scale, mark, spacing)
    if name == "edge":
        return oblique_ways(_edge(rib, scale, mark, spacing))
    return _diameter(rib, scale, name, mark, spacing)


def _diameter(rib: NoseRib, scale: float, name: str, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of a hole's diameter: the large one's under the rib first, else on a line through its middle."""
    (x, y), size = (rib.middle, rib.hole) if name == "hole" else (rib.start_at, rib.start)
    middle, radius = (x * scale, y * scale), size / 2 * scale
    if name == "hole":
        ends, low = (
            ((middle[0] - radius, middle[1]), (middle[0] + radius, middle[1])),
            min(rib.contour, key=_height),
        )
        yield from ways(Linear(name, mark, "below", ends, low[1] * scale, spacing), rows=1)
    yield from across(name, mark, (middle, radius), spacing, TURNS)


def _nose(rib: NoseRib) -> Point:
    """Return the leading edge at station 0, level with the foremost point of the contour."""
    return 0.0, min(rib.contour)[1]


def _height(point: Point) -> float:
    return point[1]


def _edge(rib: NoseRib, scale: float, mark: Mark, spacing: Spacing) -> Oblique:
    """Lay out the edge distance, square to the contour, from the hole's line outward."""
    (x, y), (to_x, to_y) = rib.middle, rib.nearest
    share = rib.radius / dist(rib.middle, rib.nearest)
    line = x + share * (to_x - x), y + share * (to_y - y)
    return Oblique("edge", mark, _scaled((line, rib.nearest), scale), spacing)


def _alt(rib: NoseRib, marks: Mapping[str, Mark]) -> str:
    names = {
        "length": "length from the leading edge to the spar's front face",
        "height": "height at the spar's front face",
        "hole": "diameter of the lightening hole",
        "aft": "station of the hole's middle, from the leading edge",
        "middle": "height of the hole's middle above the datum",
        "edge": f"least wood between the hole and the {'sawn line' if rib.capstrip else 'contour'}",
        "start": "diameter of the starting hole",
    }
    inside = ", sawn inside its contour for a capstrip" if rib.capstrip else ""
    path = ", a starting hole in it, and the saw's path from there to the line" if rib.start else ""
    return (
        f"Side view of a nose rib of section {rib.section.name}{inside}, with a round lightening hole{path}. "
        f"{listed(names, marks)}"
    )
