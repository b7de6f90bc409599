"""A nose rib at full size: what is cut out of it, and on it where the blade goes in and how the grain runs."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

from coursepack.drafting.clearance import crosses
from coursepack.drafting.label import label_box
from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.nose_shape import NoseRib, circle, nose_rib_of
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.sheet import SMALL_MM, Box, Label, Line, Point, Stroke

PAST_MM = 6.0  # of the datum, beyond nose and spar face
CROSS_MM = 3.0  # each way from a centre
GRAIN_MM = 30.0
GRAIN_SPOTS = tuple(
    product((0.85, 0.15, 0.75, 0.25, 0.5), (0.9, 0.8, 0.7, 0.6, 0.3, 0.2, 0.5))
)  # height, station
NAME_SHARE = 0.55  # of the hole's radius, from its middle down to the starting hole's name


def nose_rib_parts(sizes: Sizes) -> tuple[Part, ...]:
    """Return the nose rib as a part to cut out: its contour up to the spar's face, and the lightening hole.

    Drawn on it: the datum, both centres, the starting hole and the saw's way from there to the line. Sizes as for
    the figure; raises LessonFault and TradeFault as there.
    """
    rib = nose_rib_of(sizes)
    outlines = rib.contour, circle(rib.middle, rib.radius)
    guides = (Stroke("dimension", tuple(_marks(rib))), *_way_in(rib))
    drawn = (*outlines, *(line for stroke in guides for line in stroke.lines))
    datum = (-PAST_MM, 0.0), (rib.length + PAST_MM, 0.0)
    return (
        Part(
            "nose rib",
            outlines,
            guides,
            tuple(_names(rib)),
            _grain(rib, drawn),
            datum,
            "Saw the hole first, inside its line; then the contour, outside the line. Trim to half of the line.",
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


def _way_in(rib: NoseRib) -> Iterator[Stroke]:
    if rib.start:
        yield Stroke("layer", (circle(rib.start_at, rib.start / 2),))
        yield Stroke("hidden", (rib.saw_path,))


def _names(rib: NoseRib) -> Iterator[Label]:
    """Yield the name of the starting hole, low in the waste where it has room, however the part is turned."""
    label = Label("STARTING HOLE", rib.middle[0], 0.0, size_mm=SMALL_MM)
    down, half = NAME_SHARE * rib.radius, label_box(label).width / 2
    if rib.start and down - half > CROSS_MM + 1 and down + half < rib.radius - 1:
        yield replace(label, y=rib.middle[1] - down - MIDDLE_EM * SMALL_MM)


def _grain(rib: NoseRib, drawn: tuple[Line, ...]) -> tuple[Point, Point] | None:
    """Return the arrow along the grain, where it is clear of what is drawn and inside the contour; None without room."""
    half = min(GRAIN_MM, 0.25 * rib.length) / 2
    low, high = rib.face[0][1], max(y for _, y in rib.contour)
    for up, along in GRAIN_SPOTS:
        x, y = along * rib.length, low + up * (high - low)
        if _is_inside(rib, (x, y)) and not any(
            crosses(line, Box(x - half, y - 2.0, x + half, y + 5.0)) for line in drawn
        ):
            return (x - half, y), (x + half, y)
    return None


def _is_inside(rib: NoseRib, at: Point) -> bool:
    """Tell whether a point lies between the upper and the lower contour."""
    x, y = at
    share = x / rib.chord
    return rib.section.ordinate(share, "lower") < y / rib.chord < rib.section.ordinate(share, "upper")


def _notes(rib: NoseRib) -> Iterator[str]:
    yield f"section {rib.section.name}: {rib.section.datum}"
    yield "the datum is marked at both ends; the straight end lies on the spar's front face"
    if rib.start:
        yield "dashed: the blade's way from the starting hole to the line"
