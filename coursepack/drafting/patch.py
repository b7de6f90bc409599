"""A round plywood patch let into a skin: from outside, and a section through its edge at a scale of its own."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from itertools import accumulate, cycle, pairwise, takewhile
from math import cos, pi, sin, sqrt

from coursepack.drafting.breaking import TOOTH_MM, level_line, torn
from coursepack.drafting.dimension import Linear, Side, Spacing
from coursepack.drafting.label import label_box
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.placing import ways
from coursepack.drafting.rings import SPACINGS_MM
from coursepack.drafting.scale import SCALES, at_scale, finished, scale_text
from coursepack.drafting.settling import Choice, Layout
from coursepack.drafting.sheet import SMALL_MM, Drawing, Frame, Label, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault

PAST_MM = 5.0  # on paper, of skin round the patch, before it is broken off
CENTRE_MM = 2.5  # a centre line goes on past the patch
END_MM = 8.0  # on paper, of patch and skin beside the slope in the section
LETTERED_MM = 15.0  # beside the section, for the thickness
SLOPE_MM = 55.0  # on paper, of the slope in the section at most
UNDER_MM = 7.0  # from the view to the section's names
NAME_GAP_MM = 1.6
NEAR_MM = 4.0  # from the section to the thickness's line
PLIES, PLY_MM = 3, 0.8  # plies thinner than that on paper would run together
CIRCLE = tuple((cos(pi * n / 60), sin(pi * n / 60)) for n in range(121))


def plywood_patch(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a round patch from outside, and under it a section through its edge, drawn larger.

    Sizes in mm: skin, its thickness; hole, the diameter of the hole at the inner face; run, the width of the
    slope round the hole. Raises LessonFault where it does not fit, the slope is as steep as it is thick, or a
    dimension is asked that this patch does not have.
    """
    true = patch_measure(sizes)
    refuse_missing("plywood patch", marks, true)
    refuse_steep(sizes)

    scale = section_scale(sizes, frame.width)
    edge = Edge(sizes["skin"] * float(scale), sizes["run"] * float(scale))

    def note(_: Fraction) -> str:
        return f"section {scale_text(scale)}, outer face up"

    fitted = at_scale(
        "plywood patch",
        lambda by, room, spacing: _draft(Patch.on_paper(sizes, by), edge, marks, room, spacing),
        frame,
        true["patch"],
        note,
    )
    return finished("Plywood patch", fitted, frame, _alt(marks), note)


def patch_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm; patch is the diameter of its edge at the outer face."""
    skin, hole, run = (sizes[name] for name in ("skin", "hole", "run"))
    return {"skin": skin, "hole": hole, "run": run, "patch": hole + 2 * run}


def refuse_steep(sizes: Mapping[str, float]) -> None:
    """Raise LessonFault where the slope is as steep as it is thick."""
    if sizes["run"] <= sizes["skin"]:
        raise LessonFault(
            "the slope of the patch is too steep", "give it a 'run' above the thickness of the skin"
        )


def section_scale(sizes: Mapping[str, float], width_mm: float) -> Fraction:
    """Return the scale of the section: the largest at which the slope fits a frame of a width in mm."""
    room = min(SLOPE_MM, width_mm - 2 * END_MM - LETTERED_MM)
    return next((scale for scale in SCALES if scale * sizes["run"] <= room), SCALES[-1])


@dataclass(frozen=True)
class Patch:
    """A patch from outside, on paper in mm about its middle: radius of the hole, and of its own edge."""

    hole: float
    edge: float

    @classmethod
    def on_paper(cls, sizes: Mapping[str, float], scale: float) -> "Patch":
        """Return the patch of some sizes at a scale."""
        hole = sizes["hole"] / 2 * scale
        return cls(hole, hole + sizes["run"] * scale)

    @property
    def skin(self) -> float:
        """From the middle to where the skin is broken off."""
        return self.edge + PAST_MM


@dataclass(frozen=True)
class Edge:
    """The section through a patch's edge on paper in mm: thickness, and run of the slope; the hole's edge at 0, 0."""

    skin: float
    run: float

    @property
    def left(self) -> float:
        """Where the patch is broken off."""
        return -END_MM

    @property
    def right(self) -> float:
        """Where the skin is broken off."""
        return self.run + END_MM


def _draft(patch: Patch, edge: Edge, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    layout = Layout(_view(patch), room)
    for choices in _across(patch, marks, spacing):
        layout.settle(choices)
    at = -(edge.left + edge.right) / 2, layout.box.bottom - UNDER_MM - edge.skin
    layout.settle(_section(edge, at))
    for choices in _through(edge, at, marks, spacing):
        layout.settle(choices)
    return layout.piece + Piece((Stroke("ring", tuple(_grain(patch))),))


def _view(patch: Patch) -> Piece:
    """Draw patch and skin from outside: the hole's edge is hidden behind the patch."""
    far, reach = patch.skin, patch.edge + CENTRE_MM
    corners = (-far, far), (far, far), (far, -far), (-far, -far), (-far, far)
    sides = tuple(torn(*side) for side in pairwise(corners))
    axes = ((-reach, 0.0), (reach, 0.0)), ((0.0, -reach), (0.0, reach))
    return Piece(
        (
            Stroke("outline", (_circle(patch.edge),)),
            Stroke("hidden", (_circle(patch.hole),)),
            Stroke("centre", axes),
            Stroke("thin", sides),
        )
    )


def _circle(radius: float) -> Line:
    return tuple((x * radius, y * radius) for x, y in CIRCLE)


def _grain(patch: Patch) -> Iterator[Line]:
    """Give the face grain, in one direction through skin and patch, off the patch's edge."""
    far = patch.skin - 2 * TOOTH_MM
    for first, side in ((SPACINGS_MM[0] / 2, 1), (SPACINGS_MM[1] / 2, -1)):
        gaps = cycle(SPACINGS_MM)
        for height in takewhile(lambda y: y < far, accumulate(gaps, initial=first)):
            y = side * height
            half = sqrt(max(0.0, patch.edge**2 - y**2))
            yield from (line for line in (((-far, y), (-half, y)), ((half, y), (far, y))) if half)
            yield ((-half, y), (half, y)) if half else ((-far, y), (far, y))


def _across(patch: Patch, marks: Mapping[str, Mark], spacing: Spacing) -> Iterator[Iterator[Choice]]:
    """Give the ways of both diameters: the patch's over the view, the hole's under it."""
    places: dict[str, tuple[Side, float, float]] = {
        "patch": ("above", patch.edge, patch.skin),
        "hole": ("below", patch.hole, -patch.skin),
    }
    for name, (side, radius, line) in places.items():
        if name in marks:
            ends = (-radius, 0.0), (radius, 0.0)
            yield ways(Linear(name, marks[name], side, ends, line, spacing))


def _section(edge: Edge, at: Point) -> Iterator[Choice]:
    """Draw the section with the hole's edge at a point: the outer face up, the plies, the names of its parts."""
    ply = edge.skin / PLIES
    levels = [n * ply for n in range(1, PLIES)] if ply >= PLY_MM else []
    ends = tuple(torn((x, 0.0), (x, edge.skin)) for x in (edge.left, edge.right))
    faces = tuple(((edge.left, y), (edge.right, y)) for y in (0.0, edge.skin))
    layers = tuple(level_line(ends, y) for y in levels)
    slope = (0.0, 0.0), (edge.run, edge.skin)
    names = (
        Label("PATCH", edge.left, edge.skin + NAME_GAP_MM, "left", size_mm=SMALL_MM),
        Label("SKIN", edge.right, edge.skin + NAME_GAP_MM, "right", size_mm=SMALL_MM),
    )
    strokes = Stroke("thin", (*faces, slope, *ends)), Stroke("layer", layers)
    piece = Piece(strokes, (), names).moved(*at)
    yield Choice(label_box(piece.labels[0]), partial(Piece, piece.strokes, (), piece.labels))


def _through(
    edge: Edge, at: Point, marks: Mapping[str, Mark], spacing: Spacing
) -> Iterator[Iterator[Choice]]:
    """Give the ways of what is measured in the section: the slope's run under it, the thickness beside it."""
    x, low = at
    high, right = low + edge.skin, x + edge.right
    if "run" in marks:
        ends = (x, low), (x + edge.run, high)
        yield ways(Linear("run", marks["run"], "below", ends, low, spacing))
    if "skin" in marks:
        faces = (right, low), (right, high)
        yield ways(Linear("skin", marks["skin"], "right", faces, right, spacing, NEAR_MM))


def _alt(marks: Mapping[str, Mark]) -> str:
    names = {
        "skin": "thickness of the skin", "hole": "diameter of the hole at the inner face",
        "run": "width of the slope round the hole", "patch": "diameter of the patch at the outer face",
    }  # fmt: skip
    return f"A round plywood patch in a skin, from outside, and a section through its edge. {listed(names, marks)}"
