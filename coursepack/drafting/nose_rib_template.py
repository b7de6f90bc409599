"""A nose rib at full size: what is cut out of it, and on it where the blade goes in and how the grain runs."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise, product
from math import dist, hypot

from coursepack.drafting.clearance import crosses
from coursepack.drafting.label import label_box
from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.nose_shape import NoseRib, circle, nose_rib_of
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.sheet import SMALL_MM, Box, Label, Line, Point, Stroke

INCH = 25.4
PAST_MM = 6.0  # of the datum, beyond nose and spar face
CROSS_MM = 3.0  # each way from a centre
GRAIN_MM = 30.0
GRAIN_CLEAR_MM = 4.0  # ahead of both its heads
GRAIN_SPOTS = tuple(
    product((0.85, 0.15, 0.75, 0.25, 0.5), (0.9, 0.8, 0.7, 0.6, 0.3, 0.2, 0.5))
)  # height, station
NAMES = {
    "LIGHTENING HOLE": 0.64,
    "STARTING HOLE": 0.32,
}  # down from the hole's middle, in shares of its radius
NAME_CLEAR_MM = 1.0
SIDE_MM = 10.0  # from the spar's face to the names of the sides


def nose_rib_parts(sizes: Sizes) -> tuple[Part, ...]:
    """Return the nose rib as a part to cut out: its sawn line up to the spar's face, and the lightening hole.

    Drawn on it: the datum, both centres, the starting hole and the saw's way from there to the line, and the contour
    where a capstrip comes between it and the sawn line. Sizes as for the figure; raises LessonFault and TradeFault
    as there.
    """
    rib = nose_rib_of(sizes)
    outlines = rib.sawn, circle(rib.middle, rib.radius)
    names = tuple(_names_in_the_hole(rib))
    leader = tuple(_leader(rib, names[-1]) for _ in names[1:])
    guides = (Stroke("dimension", (*_marks(rib), *leader)), *_way_in(rib), *_contour(rib))
    drawn = (*outlines, *(line for stroke in guides for line in stroke.lines))
    sides = tuple(_names_of_the_sides(rib, drawn))
    datum = (-PAST_MM, 0.0), (rib.length + PAST_MM, 0.0)
    return (
        Part(
            "nose rib",
            outlines,
            guides,
            (*names, *_name_of_the_face(rib, drawn), *sides),
            _grain(rib, (*drawn, *(_frame(label) for label in sides))),
            datum,
            f"Saw the hole first, inside its line; then the {_sawn(rib)}, outside the line. Trim to half of the line.",
            tuple(_notes(rib)),
        ),
    )


def _marks(rib: NoseRib) -> Iterator[Line]:
    """Yield a cross on the middle of each hole, the datum at both ends, and the upright at the leading edge."""
    yield (0.0, -PAST_MM), (0.0, PAST_MM)
    for end in (0.0, rib.length):
        yield (end - PAST_MM, 0.0), (end + PAST_MM, 0.0)
    for x, y in (rib.middle, rib.start_at) if rib.start else (rib.middle,):
        yield (x - CROSS_MM, y), (x + CROSS_MM, y)
        yield (x, y - CROSS_MM), (x, y + CROSS_MM)


def _contour(rib: NoseRib) -> Iterator[Stroke]:
    if rib.capstrip:
        yield Stroke("layer", (rib.contour[:-1],))


def _sawn(rib: NoseRib) -> str:
    return "inner outline" if rib.capstrip else "contour"


def _way_in(rib: NoseRib) -> Iterator[Stroke]:
    if rib.start:
        yield Stroke("layer", (circle(rib.start_at, rib.start / 2),))
        yield Stroke("hidden", (rib.saw_path,))


def _names_in_the_hole(rib: NoseRib) -> Iterator[Label]:
    """Yield the names of the lightening hole, low in it, and over it of the starting hole, where both have room."""
    for text, down in list(NAMES.items())[: 2 if rib.start else 1]:
        label = Label(text, rib.middle[0], 0.0, size_mm=SMALL_MM)
        away, half = down * rib.radius, label_box(label).width / 2
        if hypot(away + SMALL_MM, half) > rib.radius - NAME_CLEAR_MM or away < CROSS_MM + SMALL_MM:
            return
        yield replace(label, y=rib.middle[1] - away - MIDDLE_EM * SMALL_MM)


def _leader(rib: NoseRib, name: Label) -> Line:
    """Draw the line from the starting hole's name to its edge."""
    box, (x, y) = label_box(name), rib.start_at
    foot = min(x, box.right), box.top + NAME_CLEAR_MM
    share = rib.start / 2 / dist(foot, (x, y))
    return foot, (x + share * (foot[0] - x), y + share * (foot[1] - y))


def _name_of_the_face(rib: NoseRib, drawn: tuple[Line, ...]) -> Iterator[Label]:
    """Yield the name of the straight end, along it, where it is clear of what is drawn."""
    (x, low), (_, high) = rib.face
    label = Label("SPAR FACE", x - NAME_CLEAR_MM - SMALL_MM / 2, (low + high) / 2, angle=90, size_mm=SMALL_MM)
    if label_box(label).height < high - low and not any(crosses(line, label_box(label)) for line in drawn):
        yield label


def _names_of_the_sides(rib: NoseRib, drawn: tuple[Line, ...]) -> Iterator[Label]:
    """Yield which side is up and which down, each inside the sawn line near its end of the spar's face."""
    (x, low), (_, high) = rib.face
    for text, corner, inward in (("UPPER", high, -1), ("LOWER", low, 1)):
        for away in range(int(SMALL_MM), int((high - low) / 3)):
            label = Label(text, x - SIDE_MM, corner + inward * away, "right", size_mm=SMALL_MM)
            frame = _frame(label)
            room = Box(*frame[0], *frame[2])
            if all(_is_inside(rib, at) for at in frame) and not any(crosses(line, room) for line in drawn):
                yield label
                break


def _frame(label: Label) -> Line:
    """Return the outline of the room that a label takes."""
    box, clear = label_box(label), NAME_CLEAR_MM
    left, bottom, right, top = box.left - clear, box.bottom - clear, box.right + clear, box.top + clear
    return (left, bottom), (right, bottom), (right, top), (left, top), (left, bottom)


def _grain(rib: NoseRib, drawn: tuple[Line, ...]) -> tuple[Point, Point] | None:
    """Return the arrow along the grain, where it is clear of what is drawn and inside the sawn line, else None."""
    half = min(GRAIN_MM, 0.25 * rib.length) / 2
    low, high = rib.face[0][1], max(y for _, y in rib.contour)
    for up, along in GRAIN_SPOTS:
        x, y = along * rib.length, low + up * (high - low)
        if _is_inside(rib, (x, y)) and not any(
            crosses(line, Box(x - half - GRAIN_CLEAR_MM, y - 2.0, x + half + GRAIN_CLEAR_MM, y + 5.0))
            for line in drawn
        ):
            return (x - half, y), (x + half, y)
    return None


def _is_inside(rib: NoseRib, at: Point) -> bool:
    """Tell whether a point lies inside the sawn line: whether a line upward from it crosses that an odd number of times."""
    x, y = at
    over = (
        y < a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0])
        for a, b in pairwise(rib.sawn)
        if (a[0] > x) != (b[0] > x)
    )
    return sum(over) % 2 == 1


def _notes(rib: NoseRib) -> Iterator[str]:
    yield f"section {rib.section.name}: {rib.section.datum}"
    yield "the datum is marked at both ends; the straight end lies on the spar's front face"
    if rib.start:
        yield "dashed: the blade's way from the starting hole to the line"
    if rib.capstrip:
        size = f"{rib.capstrip:.4g} mm ({rib.capstrip / INCH:.4g} in)"
        yield f"thin: the contour, {size} outside the line, for the capstrip"
