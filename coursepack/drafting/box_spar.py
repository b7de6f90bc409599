"""A box spar's end: two caps of solid wood between two plywood webs, glued on from outside."""

from collections.abc import Iterator, Mapping

from coursepack.drafting.dimension import Linear, Spacing, arrowhead
from coursepack.drafting.hatching import within
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.placing import ways
from coursepack.drafting.rings import growth_rings
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice
from coursepack.drafting.sheet import SMALL_MM, Drawing, Frame, Label, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.spar_sections import (
    Heights,
    Place,
    SparView,
    face_labels,
    height_ways,
    hole_guides,
    hole_measure,
    hole_note,
    mm,
    settled,
    viewed,
)
from coursepack.drafting.wording import listed
from coursepack.trade import section_shapes
from coursepack.trade.section import Section

TAKEN = ("cap_width", "top_cap", "bottom_cap", "height", "web")
RINGS_DEG = (6.0, -10.0)  # of the bottom cap and the top cap: two pieces of wood are never alike
PLY_MM, LEAST_PLIES = 0.7, 3  # on paper, of a ply that is drawn
BARE_MM = 1.2  # on paper, of a web whose two faces leave no room for lines
WORD = "GLUE LINES"
LEADER_MM = 6.0  # from the lettering to the top of the webs


def box_spar(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a box section at the largest scale that fits, or the frame's.

    Sizes in mm: height and web of the webs, cap_width, top_cap and bottom_cap; hole and hole_height (its middle
    over the lower front corner) where a bolt goes through. Raises LessonFault where it does not fit, the sizes do
    not go together, or a dimension is asked that this section does not have.
    """
    true = box_measure(sizes)
    refuse_missing("box spar", marks, true)
    whole, note = box_section(sizes), hole_note(sizes)
    fitted = at_scale(
        "box spar",
        lambda by, room, spacing: _draft(viewed(whole, sizes, by), marks, room, spacing),
        frame,
        max(true["height"], true["width"]),
        note,
    )
    return finished("Box spar section", fitted, frame, _alt(sizes, marks), note)


def box_section(sizes: Mapping[str, float]) -> Section:
    """Return the section of the sizes; raises LessonFault where they do not go together."""
    return section_shapes.box(
        *(mm(sizes[name]) for name in ("cap_width", "top_cap", "bottom_cap", "height", "web"))
    )


def box_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm; the height between the caps only where no bolt lies in its way."""
    bottom, top, _, rear = box_section(sizes).outlines_mm()
    between = hole_measure(sizes) or {"between": top[0][1] - bottom[3][1]}
    return {**{name: sizes[name] for name in TAKEN}, "width": rear[1][0], **between}


def box_parts(sizes: Sizes) -> tuple[Part, ...]:
    """Return the section as a part to cut out, hollow; its glue lines and a bolt hole are only drawn on it."""
    view = viewed(box_section(sizes), sizes)
    bottom, top, front, rear = view.outlines
    outer, hollow = (front[0], rear[1], rear[2], front[3]), (bottom[3], bottom[2], top[1], top[0])
    outlines = tuple((*line, line[0]) for line in (outer, hollow))
    guides = (Stroke("thin", _glue_lines(view)), *hole_guides(view))
    notes = (
        "end view: the grain of the caps runs through the sheet",
        "thin lines: glue lines of caps and webs",
    )
    return (
        Part(
            "box spar section",
            outlines,
            guides,
            face_labels(view.box.width, view.box.height / 4),
            notes=notes,
        ),
    )


def _glue_lines(view: SparView) -> tuple[Line, ...]:
    """Give the faces of the caps that the webs are glued to, the top cap's first."""
    bottom, top = view.outlines[:2]
    return tuple(face for cap in (top, bottom) for face in ((cap[0], cap[3]), (cap[1], cap[2])))


def _draft(view: SparView, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    piece = Piece(view.strokes) + _glue_note(view)
    orders = (_dimensions(view, marks, spacing, last=last) for last in (False, True))
    drawn = settled(piece, room, spacing.beside("height" in marks), orders)
    return drawn + Piece((*_rings(view), *_layers(view)))


def _glue_note(view: SparView) -> Piece:
    """Letter the glue lines over the spar, with an arrow to the end of either."""
    high = view.box.top
    label = Label(WORD, view.box.width / 2, high + LEADER_MM + 0.5, size_mm=SMALL_MM)
    tips = [face[1] for face in _glue_lines(view)[:2]]
    foot = view.box.width / 2, high + LEADER_MM - 0.5
    leaders = tuple((foot, tip) for tip in tips)
    heads = tuple(arrowhead(tip, (tip[0] - foot[0], tip[1] - foot[1]), WORD) for tip in tips)
    return Piece((Stroke("dimension", leaders),), heads, (label,))


def _rings(view: SparView) -> Iterator[Stroke]:
    """Fill each cap with the rings of a piece of its own."""
    for cap, turn in zip(view.outlines[:2], RINGS_DEG, strict=True):
        yield within(growth_rings(cap, turn, 1.6), view.wood[0])


def _layers(view: SparView) -> Iterator[Stroke]:
    """Fill each web with lines along its plies, an odd number of them; a very thin web stays bare."""
    for web in view.outlines[2:]:
        (left, low), (right, _), (_, high), _ = web
        thick = right - left
        plies = max(LEAST_PLIES, round(thick / PLY_MM) | 1) if thick > BARE_MM else 1
        xs = (left + thick * number / plies for number in range(1, plies))
        yield within(Stroke("layer", tuple(((x, low), (x, high)) for x in xs)), view.wood[1])


def _dimensions(
    view: SparView, marks: Mapping[str, Mark], spacing: Spacing, *, last: bool
) -> Iterator[Iterator[Choice]]:
    """Give the ways of each dimension, the hole before the other heights or `last`."""
    if spacing.close:
        yield from _widths(view, marks, spacing)
    yield from height_ways(view, _heights(view), marks, spacing, holes_last=last)
    if not spacing.close:
        yield from _widths(view, marks, spacing)


def _widths(view: SparView, marks: Mapping[str, Mark], spacing: Spacing) -> Iterator[Iterator[Choice]]:
    """Give the ways of web, cap and whole under the spar, each further out than the one before."""
    web, rear = view.outlines[2], view.outlines[3]
    corners: tuple[tuple[str, tuple[Point, Point]], ...] = (
        ("cap_width", (web[1], rear[0])),
        ("web", (web[0], web[1])),
        ("width", (web[0], rear[1])),
    )
    for name, ends in corners:
        if name in marks:
            yield ways(
                Linear(name, marks[name], "below", ends, 0.0, spacing, low_first=True, sideways=name == "web")
            )


def _heights(view: SparView) -> Heights:
    bottom, top, web, _ = view.outlines
    return {
        "top_cap": _beside(view, top[0][1], top[3][1]),
        "bottom_cap": _beside(view, 0.0, bottom[3][1]),
        "between": _beside(view, bottom[3][1], top[0][1]),
        "height": _beside(view, 0.0, web[3][1])[1:],
    }


def _beside(view: SparView, low: float, high: float) -> tuple[Place, Place]:
    """Give the places of a height to the right and to the left of the spar."""
    left, right = view.box.left, view.box.right
    return ("right", ((right, low), (right, high))), ("left", ((left, low), (left, high)))


def _alt(sizes: Mapping[str, float], marks: Mapping[str, Mark]) -> str:
    names = {
        "height": "height of the webs", "cap_width": "width of the caps", "top_cap": "depth of the top cap",
        "bottom_cap": "depth of the bottom cap", "web": "thickness of a web", "width": "width over both webs",
        "between": "height between the caps", "hole": "diameter of the bolt hole",
        "hole_height": "middle of the bolt hole over the lower front corner",
    }  # fmt: skip
    hole = ", cut through its bolt hole" if "hole" in sizes else ""
    drawn = f"End view of a box spar section{hole}, front face left: two caps between two plywood webs"
    return f"{drawn}. {listed(names, marks)}"
