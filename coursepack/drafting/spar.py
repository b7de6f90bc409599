"""A spar's end seen from its tip: front and rear face, both edges bevelled."""

import math
from collections.abc import Iterator, Mapping

from coursepack.drafting.angle import Angle, angle_ways
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
from coursepack.trade.outline import bevelled_section, rear_height, rise_across

NAME_GAP_MM = 2.2
LEGS_MM = 3.0  # from the first row to where the legs of a bevel begin
RINGS_DEG = 8.0  # edge grain on the front face, a little off square as in most stock


def spar_section(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a bevelled section at the largest scale that fits, or the frame's.

    Sizes in mm and degrees: front, width, top, bottom, and blank where the squared blank is to be seen.
    Raises LessonFault where it does not fit, or a dimension is asked that this section does not have.
    """
    refuse_missing("spar section", marks, spar_measure(sizes))
    _refuse_low_blank(sizes)
    fitted = at_scale(
        "spar section",
        lambda by, room, spacing: _draft(sizes, marks, by, room, spacing),
        frame,
        max(sizes["front"], sizes["width"]),
    )
    return finished("Spar section", fitted, frame, _alt(marks))


def spar_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm or degrees; drop and rise only where edges fall in."""
    front, width, top, bottom = (sizes[name] for name in ("front", "width", "top", "bottom"))
    true = {"front": front, "width": width, "top": abs(top), "bottom": abs(bottom)}
    true["rear"] = rear_height(front, width, top, bottom)
    if "blank" in sizes:
        true["blank"] = sizes["blank"]
    if top < 0:
        true["drop"] = -rise_across(width, top)
    if bottom > 0:
        true["rise"] = rise_across(width, bottom)
    return true


def spar_parts(sizes: Sizes) -> tuple[Part, ...]:
    """Return the section as a part to glue to card and cut out; the sizes are those of the figure."""
    section = bevelled_section(*(sizes[name] for name in ("front", "width", "top", "bottom")))
    middle = sizes["front"] / 2
    faces = (
        Label("FRONT", -1.4, middle, "centre", 90, size_mm=SMALL_MM),
        Label(
            "REAR", sizes["width"] + 1.4 + 2 * MIDDLE_EM * SMALL_MM, middle, "centre", 90, size_mm=SMALL_MM
        ),
    )
    return (
        Part(
            "spar section",
            ((*section, section[0]),),
            labels=faces,
            notes=("end view: the grain runs through the sheet",),
        ),
    )


def _refuse_low_blank(sizes: Mapping[str, float]) -> None:
    ys = [y for _, y in bevelled_section(*(sizes[name] for name in ("front", "width", "top", "bottom")))]
    if sizes.get("blank", math.inf) < max(ys) - min(ys) - 1e-6:
        raise LessonFault(
            "the squared blank is lower than the section cut from it",
            "give a blank as high as the higher face",
        )


def _draft(
    sizes: Mapping[str, float], marks: Mapping[str, Mark], scale: float, room: Frame, spacing: Spacing
) -> Piece:
    front, width = sizes["front"] * scale, sizes["width"] * scale
    section = bevelled_section(front, width, sizes["top"], sizes["bottom"])
    strokes = [Stroke("outline", ((*section, section[0]),))]
    if "blank" in sizes:
        strokes.append(Stroke("hidden", tuple(_wedges(section, sizes["blank"] * scale))))
    high = max(y for stroke in strokes for line in stroke.lines for _, y in line)
    piece = Piece(tuple(strokes), (), _names(width, high + NAME_GAP_MM))
    layout = Layout(piece, room, spacing.beside("front" in marks or "blank" in marks, "rear" in marks))
    for choices in _dimensions(section, sizes, marks, scale, spacing):
        layout.settle(choices)
    return layout.piece + Piece((growth_rings(section, RINGS_DEG, 1.1),))


def _names(width: float, y: float) -> tuple[Label, ...]:
    apart = max(0.0, 10.5 - width) / 2
    return Label("FRONT", -apart, y), Label("REAR", width + apart, y)


def _wedges(section: Line, blank: float) -> Iterator[Line]:
    (_, _), (width, low), (_, high), (_, front) = section
    bottom = min(0.0, low)
    top = bottom + blank
    yield ((0.0, front), (0.0, top), (width, top), (width, high))
    yield ((0.0, 0.0), (0.0, bottom), (width, bottom), (width, low))


def _dimensions(
    section: Line, sizes: Mapping[str, float], marks: Mapping[str, Mark], scale: float, spacing: Spacing
) -> Iterator[Iterator[Choice]]:
    """Give the ways of each dimension; where it is close, the width takes its place under the part first."""
    width, low = section[1]
    across = ways(
        Linear(
            "width", marks.get("width", Mark("")), "below", (section[0], section[1]), min(0.0, low), spacing
        )
    )
    if "width" in marks and spacing.close:
        yield across
    for name in ("front", "rear", "drop", "rise", "blank"):
        if name in marks:
            side, ends = _heights(name, section, sizes.get("blank", 0.0) * scale)
            line = 0.0 if side == "left" else width
            yield ways(Linear(name, marks[name], side, ends, line, spacing, low_first=name == "rise"))
    yield from bevel_ways(
        (section[3], section[0]), section[1][0], sizes, marks, spacing,
        crowded=not {"rear", "drop", "rise"}.isdisjoint(marks), wedge="blank" not in sizes,
    )  # fmt: skip
    if "width" in marks and not spacing.close:
        yield across


def _heights(name: str, section: Line, blank: float) -> tuple[Side, tuple[Point, Point]]:
    """Where a height is measured: its side of the section and its two ends."""
    (_, _), (width, low), (_, high), (_, front) = section
    bottom = min(0.0, low)
    places: dict[str, tuple[Side, tuple[Point, Point]]] = {
        "front": ("left", (section[0], section[3])),
        "rear": ("right", (section[1], section[2])),
        "drop": ("right", ((width, high), (width, front))),
        "rise": ("right", ((width, 0.0), (width, low))),
        "blank": ("left", ((0.0, bottom), (0.0, bottom + blank))),
    }
    return places[name]


def bevel_ways(
    corners: tuple[Point, Point], width: float, sizes: Mapping[str, float], marks: Mapping[str, Mark], spacing: Spacing,
    *, crowded: bool, wedge: bool = True,
) -> Iterator[Iterator[Choice]]:  # fmt: skip
    """Lay both bevels out far from their front corners, top and bottom, where small angles open; past the rear's rows."""
    for name, corner, upward in zip(("top", "bottom"), corners, (True, False), strict=True):
        if name in marks:
            yield angle_ways(
                Angle(
                    name,
                    marks[name],
                    vertex=corner,
                    edge_deg=sizes[name],
                    leave=width,
                    start=width + (spacing.row + LEGS_MM if crowded else GAP_MM),
                    radius=width + spacing.bevel,
                    upward=upward,
                    letter=spacing.letter,
                    wedge=wedge,
                )
            )


def _alt(marks: Mapping[str, Mark]) -> str:
    names = {
        "front": "front face height", "width": "thickness from front to rear", "top": "bevel of the top edge",
        "bottom": "bevel of the bottom edge", "rear": "rear face height",
        "blank": "height of the squared blank",
        "drop": "height the top edge loses at the rear", "rise": "height the bottom edge loses at the rear",
    }  # fmt: skip
    return f"End view of a spar section, front face left and rear face right. {listed(names, marks)}"
