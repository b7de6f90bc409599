"""The bevel guide of a spar: the wedge that makes a level of its edge, and the gauge held against the light.

One sign rule: a bevel is positive where its edge rises going aft. The guide lies on the edge with its thick end
where the edge is low, so that its upper side lies level.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import radians, tan

from coursepack.drafting.angle import Angle, angle_ways
from coursepack.drafting.breaking import torn
from coursepack.drafting.check_bars import INCH
from coursepack.drafting.dimension import GAP_MM, Linear, Side, Spacing
from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.placing import ways
from coursepack.drafting.rings import growth_rings
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout
from coursepack.drafting.sheet import SMALL_MM, Drawing, Frame, Label, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.trade.contour import Airfoil, spar_corners_mm

BASE_MM, THIN_MM = 100.0, 12.0  # of a guide whose lesson does not say
FENCE_MM = 60.0  # of the gauge, down the front face
ARM_MM = 18.0  # how wide fence and arm are
PAST_MM = 14.0  # the arm reaches past the spar's rear face
SEEN_MM = 24.0  # on paper: how much of the spar is drawn below the guide
STEEPEST_DEG = 45.0
LEGS_MM = 8.0  # from the first row to where the legs of the bevel begin
EDGES = ("top", "bottom")


@dataclass(frozen=True)
class Guide:
    """A guide in mm: its base along the level side, its thin end, and the size of its bevel in degrees."""

    base: float
    thin: float
    bevel: float

    @property
    def thick(self) -> float:
        """Its thick end."""
        return self.thin + self.base * tan(radians(self.bevel))


def bevels(sizes: Sizes) -> dict[str, float]:
    """Return the bevels of the edges in degrees, as given, or of a spar that fills an airfoil.

    Takes top, bottom or both in degrees, or section, chord, station and width in mm. Raises LessonFault where
    neither edge is bevelled, or one by more than 45 degrees.
    """
    found = {edge: sizes[edge] for edge in EDGES if edge in sizes} or _in_airfoil(sizes)
    found = {edge: bevel for edge, bevel in found.items() if bevel}
    if not found:
        raise LessonFault("neither edge of the spar is bevelled", "give a bevel for the top or the bottom")
    for edge, bevel in found.items():
        if abs(bevel) > STEEPEST_DEG:
            raise LessonFault(f"the {edge} bevel is {bevel:g} deg", f"stay within {STEEPEST_DEG:g} deg")
    return found


def _in_airfoil(sizes: Sizes) -> dict[str, float]:
    section = sizes.shapes.get("section")
    if not isinstance(section, Airfoil) or not {"chord", "station"} <= sizes.keys():
        raise LessonFault(
            "the guide has no bevel", "give top, bottom or both, or a section with its chord and a station"
        )
    corners = spar_corners_mm(section, sizes["chord"], sizes["station"], sizes["width"])
    (_, low_front), (_, low_rear), (_, high_rear), (_, high_front) = corners
    rises = {"top": high_rear - high_front, "bottom": low_rear - low_front}
    return {edge: math.degrees(math.atan(rise / sizes["width"])) for edge, rise in rises.items()}


def _guide(sizes: Mapping[str, float], bevel: float) -> Guide:
    return Guide(sizes.get("base", BASE_MM), sizes.get("thin", THIN_MM), abs(bevel))


# The figure


def bevel_guide(sizes: Sizes, marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a guide on the top edge of a spar, or on the bottom edge of one turned over.

    Sizes: width in mm and what `bevels` takes, base and thin in mm where the lesson gives them. Raises
    LessonFault where it does not fit, or a dimension is asked that this guide does not have.
    """
    refuse_missing("bevel guide", marks, guide_measure(sizes))
    edge, bevel = next(iter(bevels(sizes).items()))
    falls = (bevel < 0) == (edge == "top")
    names = ("FRONT", "REAR") if falls else ("REAR", "FRONT")
    guide, width = _guide(sizes, bevel), sizes["width"]
    fitted = at_scale(
        "bevel guide",
        lambda by, room, spacing: _draft(guide, width, names, marks, by, room, spacing),
        frame,
        guide.base,
    )
    return finished("Bevel guide on a spar", fitted, frame, _alt(edge, marks))


def guide_measure(sizes: Sizes) -> dict[str, float]:
    """Give the true value of every dimension: mm, and degrees for the bevel of the edge that is drawn."""
    edge, bevel = next(iter(bevels(sizes).items()))
    guide = _guide(sizes, bevel)
    return {
        "base": guide.base,
        "thin": guide.thin,
        "thick": guide.thick,
        edge: guide.bevel,
        "width": sizes["width"],
    }


def _draft(
    guide: Guide, width: float, names: tuple[str, str], marks: Mapping[str, Mark], by: float, room: Frame, spacing: Spacing
) -> Piece:  # fmt: skip
    """Draw the spar's high face at x = 0, the guide in the middle over it with its level side at y = 0."""
    left = (width - guide.base) / 2 * by
    wedge = _wedge_line(guide, by, left)
    spar = _spar(wedge, width * by)
    rings = growth_rings(spar, 8.0, 1.1)
    strokes = Stroke("outline", (wedge, spar)), Stroke("thin", (torn(spar[0], spar[3]),)), rings
    layout = Layout(Piece(strokes, (), _faces(names, spar)), room)
    for choices in _dimensions(wedge, spar, guide.bevel, marks, spacing):
        layout.settle(choices)
    return layout.piece


def _wedge_line(guide: Guide, by: float, left: float) -> Line:
    right = left + guide.base * by
    return (left, 0.0), (left, -guide.thin * by), (right, -guide.thick * by), (right, 0.0), (left, 0.0)


def _spar(wedge: Line, width: float) -> Line:
    """Draw the spar's edge under the guide, and its faces down to where it is broken off."""
    (left, thin), (right, thick) = wedge[1], wedge[2]
    slope = (thick - thin) / (right - left)
    high, low = (thin + slope * (x - left) for x in (0.0, width))
    foot = low - SEEN_MM
    return (0.0, foot), (0.0, high), (width, low), (width, foot)


def _faces(names: tuple[str, str], spar: Line) -> tuple[Label, ...]:
    (left, foot), (right, _) = spar[0], spar[3]
    y = foot + 2.0
    return (
        Label(names[0], left - 1.6, y, "right", size_mm=SMALL_MM),
        Label(names[1], right + 1.6, y, "left", size_mm=SMALL_MM),
    )


def _dimensions(
    wedge: Line, spar: Line, bevel: float, marks: Mapping[str, Mark], spacing: Spacing
) -> Iterator[Iterator[Choice]]:
    left, right = wedge[0][0], wedge[2][0]
    lengths: tuple[tuple[str, Side, tuple[Point, Point], float], ...] = (
        ("thin", "left", (wedge[1], wedge[0]), left),
        ("thick", "right", (wedge[2], wedge[3]), right),
        ("base", "above", (wedge[0], wedge[3]), 0.0),
        ("width", "below", (spar[0], spar[3]), spar[0][1]),
    )
    for name, side, ends, line in lengths:
        if name in marks:
            yield ways(Linear(name, marks[name], side, ends, line, spacing))
    for name in EDGES:
        if name in marks:
            beyond = spacing.row + LEGS_MM if "thick" in marks else GAP_MM
            reach = beyond + 5.0 if "thick" in marks else spacing.bevel
            yield angle_ways(
                Angle(
                    name,
                    marks[name],
                    vertex=wedge[1],
                    edge_deg=-bevel,
                    leave=right,
                    start=right + beyond,
                    radius=right - left + reach,
                    upward=False,
                    letter=spacing.letter,
                    wedge=False,
                )
            )


def _alt(edge: str, marks: Mapping[str, Mark]) -> str:
    names = {
        "base": "base of the guide", "thin": "thin end", "thick": "thick end", "width": "thickness of the spar",
        "top": "bevel of the top edge", "bottom": "bevel of the bottom edge",
    }  # fmt: skip
    return (
        f"End view of a spar, its {edge} edge up, with a bevel guide lying across it. {listed(names, marks)}"
    )


# The parts


def bevel_guide_parts(sizes: Sizes) -> tuple[Part, ...]:
    """Return a guide and a check gauge for each bevelled edge, at full size; the sizes are those of the figure."""
    found = bevels(sizes).items()
    return tuple(
        part for edge, bevel in found for part in (_wedge(sizes, edge, bevel), _gauge(sizes, edge, bevel))
    )


def _wedge(sizes: Sizes, edge: str, bevel: float) -> Part:
    guide = _guide(sizes, bevel)
    falls = (bevel < 0) == (edge == "top")
    thick = f"{guide.thick:.2f} mm ({guide.thick / INCH:.3f} in)"
    label = Label(
        f"{edge} edge {guide.bevel:.2f}°",
        guide.base * 0.5,
        -guide.thin / 2 - MIDDLE_EM * SMALL_MM,
        size_mm=SMALL_MM,
    )
    return Part(
        f"bevel guide, {edge} edge",
        (_wedge_line(guide, 1.0, 0.0),),
        labels=(label,),
        notes=(f"{edge} edge: {guide.bevel:.2f}°, thick end {thick} to the {'rear' if falls else 'front'}",),
    )


def _gauge(sizes: Sizes, edge: str, bevel: float) -> Part:
    """Draw the gauge with its inside corner on the spar's front corner: the spar's edge fills it."""
    reach = sizes["width"] + PAST_MM
    rise = reach * tan(radians(bevel))
    up = 1.0 if edge == "top" else -1.0
    corners: Line = (
        (0.0, -up * FENCE_MM), (0.0, 0.0), (reach, rise), (reach, rise + up * ARM_MM),
        (-ARM_MM, up * ARM_MM), (-ARM_MM, -up * FENCE_MM), (0.0, -up * FENCE_MM),
    )  # fmt: skip
    middle = -ARM_MM / 2 + MIDDLE_EM * SMALL_MM
    fence = Label("FRONT FACE", middle, -up * FENCE_MM * 0.5, "centre", 90, size_mm=SMALL_MM)
    return Part(f"check gauge, {edge} edge", (corners,), labels=(fence,))
