"""A routed spar's end: a pocket in each face, the web between them, flanges, both edges square or bevelled."""

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from itertools import product

from coursepack.drafting.dimension import Linear, Spacing
from coursepack.drafting.hatching import within
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.placing import ways
from coursepack.drafting.rings import growth_rings
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice
from coursepack.drafting.sheet import Box, Drawing, Frame, Line, Mark, Piece, Stroke
from coursepack.drafting.spar import RINGS_DEG, bevel_ways
from coursepack.drafting.spar_sections import (
    Heights,
    SparView,
    face_labels,
    face_names,
    height_ways,
    hole_guides,
    hole_measure,
    hole_note,
    mm,
    settled,
    viewed,
)
from coursepack.drafting.wording import listed
from coursepack.quantity import Quantity
from coursepack.trade import section_shapes
from coursepack.trade.section import Section

LEVELS = (0.25, 0.75, 0.5, 0.12, 0.88)  # of a pocket, at which web and depth are measured
CLEAR_MM = 4.0  # on paper, from there to the middle of a bolt


def routed_spar(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a routed section at the largest scale that fits, or the frame's.

    Sizes in mm and degrees: front, width, web, flange; top and bottom, the bevels, and hole and hole_height (its
    middle over the lower front corner) where there are such. Raises LessonFault where it does not fit, the sizes
    do not go together, or a dimension is asked that this section does not have.
    """
    refuse_missing("routed spar", marks, routed_measure(sizes))
    whole, note = routed_section(sizes), hole_note(sizes)
    fitted = at_scale(
        "routed spar",
        lambda by, room, spacing: _draft(viewed(whole, sizes, by), sizes, marks, room, spacing),
        frame,
        max(sizes["front"], sizes["width"]),
        note,
    )
    return finished("Routed spar section", fitted, frame, _alt(sizes, marks), note)


def routed_section(sizes: Mapping[str, float]) -> Section:
    """Return the section of the sizes; raises LessonFault where they do not go together."""
    front, width, web, flange = (mm(sizes[name]) for name in ("front", "width", "web", "flange"))
    top, bottom = (Quantity.of(sizes.get(name, 0.0), "deg") for name in ("top", "bottom"))
    return section_shapes.bevelled_routed(width, front, top, bottom, web, flange)


def routed_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm or degrees: bevels and hole only where there are such.

    The height of the pocket is given only where no bolt lies in its way.
    """
    (outline,) = routed_section(sizes).outlines_mm()
    names = ("front", "width", "web", "flange")
    return {
        **{name: sizes[name] for name in names},
        "depth": outline[9][0] - outline[8][0],
        "rear": outline[6][1] - outline[1][1],
        **{name: abs(sizes[name]) for name in ("top", "bottom") if sizes.get(name)},
        **(hole_measure(sizes) or {"pocket": outline[8][1] - outline[11][1]}),
    }


def routed_parts(sizes: Sizes) -> tuple[Part, ...]:
    """Return the section with its pockets as a part to cut out; a bolt hole is only drawn on it."""
    view = viewed(routed_section(sizes), sizes)
    (outline,) = view.outlines
    note = "end view: the grain runs through the sheet"
    labels = face_labels(sizes["width"], sizes["flange"] / 2)
    return (Part("routed spar section", ((*outline, outline[0]),), hole_guides(view), labels, notes=(note,)),)


def _draft(
    view: SparView, sizes: Mapping[str, float], marks: Mapping[str, Mark], room: Frame, spacing: Spacing
) -> Piece:
    names = face_names(view.box.width, view.box.top)
    piece = Piece(view.strokes, (), names)
    beside = spacing.beside("front" in marks, "rear" in marks)
    orders = (
        _dimensions(view, sizes, marks, spacing, last=last, low_first=low_first)
        for low_first, last in product((False, True), repeat=2)
    )
    return settled(piece, room, beside, orders) + Piece((_rings(view),))


def _rings(view: SparView) -> Stroke:
    """Fill what is left of the wood with rings, as they ran through the blank."""
    (outline,) = view.outlines
    blank = tuple(outline[corner] for corner in (0, 1, 6, 7))
    return within(growth_rings(blank, RINGS_DEG, 1.1), view.wood[0])


def _dimensions(
    view: SparView,
    sizes: Mapping[str, float],
    marks: Mapping[str, Mark],
    spacing: Spacing,
    *,
    last: bool,
    low_first: bool,
) -> Iterator[Iterator[Choice]]:
    """Give the ways of each dimension: those in the pockets first, lettered to the rear or with `low_first` in front.

    The hole comes before the other heights, or `last`.
    """
    (outline,) = view.outlines
    ends = outline[0], outline[1]
    width = (
        [Linear("width", marks["width"], "below", ends, view.box.bottom, spacing)] if "width" in marks else []
    )
    if spacing.close:
        yield from map(ways, width)
    for name, inside in (("web", _web_ways), ("depth", _depth_ways)):
        if name in marks:
            yield inside(view, marks[name], spacing, low_first=low_first)
    yield from height_ways(view, _heights(outline), marks, spacing, holes_last=last)
    crowded = not {"rear", "hole"}.isdisjoint(marks)
    yield from bevel_ways((outline[7], outline[0]), outline[1][0], sizes, marks, spacing, crowded=crowded)
    if not spacing.close:
        yield from map(ways, width)


def _web_ways(view: SparView, mark: Mark, spacing: Spacing, *, low_first: bool) -> Iterator[Choice]:
    """Measure the web between its own lines, lettered in a pocket or beyond, clear of the wood."""
    (outline,) = view.outlines
    inner, outer = outline[9][0], outline[3][0]
    wood = Box(inner, view.box.bottom, outer, view.box.top)
    for y in _levels(view):
        for choice in ways(_across("web", (inner, outer), y, mark, spacing, low_first=low_first), 1):
            if not wood.meets(choice.room):
                yield choice


def _depth_ways(view: SparView, mark: Mark, spacing: Spacing, *, low_first: bool) -> Iterator[Choice]:
    """Measure the depth of the rear pocket, or the front one, from the face that is drawn through across it."""
    (outline,) = view.outlines
    rear, front = (outline[2], outline[5]), (outline[11], outline[8])
    pockets = ((outline[3][0], rear[0][0]), rear), ((front[0][0], outline[9][0]), front)
    for (ends, face), y in product(pockets, _levels(view)):
        for choice in ways(_across("depth", ends, y, mark, spacing, low_first=low_first), 1):
            yield choice._replace(drawn=partial(_with_face, choice.drawn, face))


def _with_face(drawn: Callable[[], Piece], face: Line) -> Piece:
    return drawn() + Piece((Stroke("dimension", (face,)),))


def _across(
    name: str, ends: tuple[float, float], y: float, mark: Mark, spacing: Spacing, *, low_first: bool
) -> Linear:
    both = (ends[0], y), (ends[1], y)
    return Linear(name, mark, "below", both, y, spacing, 0.0, low_first=low_first, sideways=True, bare=True)


def _levels(view: SparView) -> Iterator[float]:
    """Give heights in both pockets, clear of the bolt."""
    (outline,) = view.outlines
    low, high = max(outline[3][1], outline[11][1]), min(outline[4][1], outline[8][1])
    bolts = [line[0][1] for line in view.bolt]
    levels = (low + share * (high - low) for share in LEVELS)
    return (y for y in levels if all(abs(y - bolt) > CLEAR_MM for bolt in bolts))


def _heights(outline: Line) -> Heights:
    front_pocket, rear_pocket = (outline[11], outline[8]), (outline[3], outline[4])
    is_square = outline[0][1] == outline[1][1] and outline[6][1] == outline[7][1]
    return {
        "flange": (("left", (outline[8], outline[7])), ("right", (outline[5], outline[6]))),
        "pocket": (("left", front_pocket), *((("right", rear_pocket),) if is_square else ())),
        "front": (("left", (outline[0], outline[7])),),
        "rear": (("right", (outline[1], outline[6])),),
    }


def _alt(sizes: Mapping[str, float], marks: Mapping[str, Mark]) -> str:
    names = {
        "front": "front face height", "width": "thickness from front to rear", "web": "thickness of the web",
        "flange": "depth of a flange on its face", "depth": "depth of a pocket",
        "pocket": "height of the pocket in the front face", "rear": "rear face height",
        "top": "bevel of the top edge", "bottom": "bevel of the bottom edge",
        "hole": "diameter of the bolt hole", "hole_height": "middle of the bolt hole over the lower front corner",
    }  # fmt: skip
    hole = ", cut through its bolt hole" if "hole" in sizes else ""
    drawn = f"End view of a routed spar section{hole}, front face left and rear face right, a pocket in each"
    return f"{drawn}. {listed(names, marks)}"
