"""A spar's end seen from its tip: front and rear face, both edges bevelled."""

import math
from collections.abc import Iterator, Mapping

from coursepack.drafting.dimension import GAP_MM, ROW_MM, Angle, Linear, angle_ways, settle, ways
from coursepack.drafting.rings import growth_rings
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.sheet import Drawing, Frame, Label, Line, Mark, Piece, Stroke, bounds
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.trade.outline import bevelled_section, rear_height, rise_across

NAME_GAP_MM = 2.2
BEVEL_MM = ROW_MM + 7.0  # from the rear face to the arc of a bevel
RINGS_DEG = 8.0  # edge grain on the front face, a little off square as in most stock


def spar_section(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a bevelled section at the largest scale that fits, or the frame's.

    Sizes in mm and degrees: front, width, top, bottom, and blank where the squared blank is to be seen.
    Raises LessonFault where it does not fit, or a dimension is asked that this section does not have.
    """
    true = spar_measure(sizes)
    _refuse_missing(marks, true)
    _refuse_low_blank(sizes)
    fitted = at_scale(
        "spar section",
        lambda by, room: _draft(sizes, marks, by, room),
        frame,
        max(sizes["front"], sizes["width"]),
    )
    return finished("Spar section", fitted, frame, _alt(marks))


def spar_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm or degrees; drop and rise only where the edges fall inwards."""
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


def _refuse_missing(marks: Mapping[str, Mark], true: Mapping[str, float]) -> None:
    for name in marks:
        if name not in true:
            raise LessonFault(f"this spar section has no dimension '{name}'", f"it has {', '.join(true)}")


def _refuse_low_blank(sizes: Mapping[str, float]) -> None:
    ys = [y for _, y in bevelled_section(*(sizes[name] for name in ("front", "width", "top", "bottom")))]
    if sizes.get("blank", math.inf) < max(ys) - min(ys) - 1e-6:
        raise LessonFault(
            "the squared blank is lower than the section cut from it",
            "give a blank as high as the higher face",
        )


def _draft(sizes: Mapping[str, float], marks: Mapping[str, Mark], scale: float, room: Frame) -> Piece:
    front, width = sizes["front"] * scale, sizes["width"] * scale
    section = bevelled_section(front, width, sizes["top"], sizes["bottom"])
    piece = Piece((Stroke("outline", ((*section, section[0]),)),))
    if "blank" in sizes:
        piece += Piece((Stroke("hidden", tuple(_wedges(section, sizes["blank"] * scale))),))
    piece += Piece((), (), _names(width, bounds(piece).top + NAME_GAP_MM))
    for choices in _dimensions(section, sizes, marks, scale):
        piece = settle(piece, choices, room)
    return piece + Piece((growth_rings(section, RINGS_DEG, 1.1),))


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
    section: Line, sizes: Mapping[str, float], marks: Mapping[str, Mark], scale: float
) -> Iterator[Iterator[Piece]]:
    (_, _), (width, low), (_, high), (_, front) = section
    rear = ((width, low), (width, high))
    if "front" in marks:
        yield ways(Linear("front", marks["front"], "left", (section[0], section[3]), 0.0))
    if "rear" in marks:
        yield ways(Linear("rear", marks["rear"], "right", rear, width))
    if "drop" in marks:
        yield ways(Linear("drop", marks["drop"], "right", (rear[1], (width, front)), width))
    if "rise" in marks:
        yield ways(Linear("rise", marks["rise"], "right", ((width, 0.0), rear[0]), width, low_first=True))
    if "blank" in marks:
        bottom = min(0.0, low)
        yield ways(
            Linear(
                "blank", marks["blank"], "left", ((0.0, bottom), (0.0, bottom + sizes["blank"] * scale)), 0.0
            )
        )
    yield from _bevels(section, sizes, marks)
    if "width" in marks:
        yield ways(Linear("width", marks["width"], "below", (section[0], section[1]), min(0.0, low)))


def _bevels(
    section: Line, sizes: Mapping[str, float], marks: Mapping[str, Mark]
) -> Iterator[Iterator[Piece]]:
    """Lay both bevels out far from their corners, where small angles open; past the rear's rows if there are any."""
    width = section[1][0]
    crowded = not {"rear", "drop", "rise"}.isdisjoint(marks)
    start = width + (ROW_MM + 3.0 if crowded else GAP_MM)
    for name, corner, upward in (("top", section[3], True), ("bottom", section[0], False)):
        if name in marks:
            yield angle_ways(
                Angle(
                    name,
                    marks[name],
                    vertex=corner,
                    edge_deg=sizes[name],
                    leave=width,
                    start=start,
                    radius=width + BEVEL_MM,
                    upward=upward,
                    wedge="blank" not in sizes,
                )
            )


def _alt(marks: Mapping[str, Mark]) -> str:
    names = {
        "front": "front face height", "width": "thickness from front to rear", "top": "bevel of the top edge",
        "bottom": "bevel of the bottom edge", "rear": "rear face height", "blank": "height of the squared blank",
        "drop": "height the top edge loses at the rear", "rise": "height the bottom edge loses at the rear",
    }  # fmt: skip
    return f"End view of a spar section, front face left and rear face right. {listed(names, marks)}"
