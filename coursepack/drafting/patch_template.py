"""A round plywood patch at full size: the patch to cut out, and a template of its opening to lay on the skin."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import islice, product
from math import acos, ceil, cos, pi, radians, sin

from coursepack.drafting.clearance import crosses
from coursepack.drafting.label import label_box
from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.patch import patch_measure, refuse_steep
from coursepack.drafting.sheet import SMALL_MM, Box, Label, Line, Point, Stroke

INCH = 25.4
ALONG = "the line from side to side lies along the face grain"
TRUE_MM = 0.005  # of a circle's straight pieces to the circle
RIM_MM = 7.0  # of card beside the slope's edge at its narrowest, ...
LEAST_MM = 22.0  # ... and from the middle to the card's edge, so that the grain arrow has a corner
CROSS_MM = 2.0  # each way from the middle, of the short line through it
GRAIN_MM = (24.0, 16.0, 12.0)  # the longest that has room
INSET_MM = 1.8  # of the grain arrow from the card's corner
HEAD_MM, WORD_MM = 1.0, 5.0  # room of the grain arrow below its line, and above it with its word
CLEAR_MM = 0.6  # round lettering
SHARES = (0.62, 0.5, 0.38, 0.75)  # of the way through a ring, where its name may stand
# degrees; first what is clear of a joint through the middle, and of the length measured across it
TURNS = (60, 120, -60, -120, 45, 135, -45, -135, -90, 90)


def patch_parts(sizes: Sizes) -> tuple[Part, ...]:
    """Return the patch, as wide as it is at the outer face, and a card with the trimmed hole cut out of it.

    Drawn on the patch: its inner face, dashed; on the card: the edge of the slope in the skin. Both bear a line
    from side to side through the middle, along the face grain. Sizes in mm as for the figure; raises LessonFault
    as there for a slope that is too steep.
    """
    refuse_steep(sizes)
    true = patch_measure(sizes)
    hole, edge = true["hole"] / 2, true["patch"] / 2
    return _patch(hole, edge, _patch_notes(true)), _opening(hole, edge, _opening_notes(true))


def _patch(hole: float, edge: float, notes: tuple[str, ...]) -> Part:
    outline, along = _circle(edge), ((-edge, 0.0), (edge, 0.0))
    guides = Stroke("hidden", (_circle(hole),)), Stroke("centre", (along,)), Stroke("layer", (_short(),))
    grain = _grain([*_spots(hole, edge), *_spots(0.0, hole)], (outline, *_lines(guides)))
    part = Part("patch", (outline,), guides, grain=grain, straight=along, notes=notes)
    return _named(part, "OUTER FACE", [*_spots(hole, edge), *_spots(0.0, hole)])


def _opening(hole: float, edge: float, notes: tuple[str, ...]) -> Part:
    far = max(edge + RIM_MM, LEAST_MM)
    card = (-far, -far), (far, -far), (far, far), (-far, far), (-far, -far)
    outlines, along = (card, _circle(hole)), ((-far, 0.0), (far, 0.0))
    guides = Stroke("layer", (_circle(edge),)), Stroke("centre", (along, ((0.0, -far), (0.0, far))))
    grain = _grain(_corners(far), (*outlines, *_lines(guides)))
    cut = "Cut the hole of the opening inside its line, its card along the edge."
    part = Part("opening", outlines, guides, grain=grain, straight=along, cut=cut, notes=notes)
    return _named(_named(part, "HOLE", _spots(0.0, hole)), "SLOPE", _spots(hole, edge))


def _circle(radius: float) -> Line:
    """Return a closed circle about 0, 0, from as many straight pieces as keep within TRUE_MM of it."""
    pieces = 4 * ceil(pi / acos(1 - TRUE_MM / radius) / 4)
    turns = (2 * pi * n / pieces for n in range(pieces + 1))
    return tuple((radius * cos(turn), radius * sin(turn)) for turn in turns)


def _short() -> Line:
    return (0.0, -CROSS_MM), (0.0, CROSS_MM)


def _lines(guides: Sequence[Stroke]) -> Iterator[Line]:
    return (line for stroke in guides for line in stroke.lines)


def _spots(inner: float, outer: float) -> list[Point]:
    """Give places between two radii, the best first."""
    return [
        (radius * cos(radians(turn)), radius * sin(radians(turn)))
        for share, turn in product(SHARES, TURNS)
        for radius in (inner + share * (outer - inner),)
    ]


def _corners(far: float) -> list[Point]:
    """Give the places of a grain arrow in the card's lower corners, the longest arrow's first."""
    low = -far + HEAD_MM + INSET_MM
    return [(side * (far - INSET_MM - length / 2), low) for length in GRAIN_MM for side in (-1, 1)]


def _grain(spots: Sequence[Point], drawn: Sequence[Line]) -> tuple[Point, Point] | None:
    """Return the longest arrow along the grain that is clear of what is drawn; None without room."""
    for length, (x, y) in product(GRAIN_MM, spots):
        arrow = (x - length / 2, y), (x + length / 2, y)
        if _is_clear(_arrow_box(arrow), drawn):
            return arrow
    return None


def _arrow_box(arrow: tuple[Point, Point]) -> Box:
    (left, y), (right, _) = arrow
    return Box(left, y - HEAD_MM, right, y + WORD_MM)


def _named(part: Part, text: str, spots: Sequence[Point]) -> Part:
    """Letter a name on a part at the first spot that is clear of all that the part bears; none without room."""
    taken = [_arrow_box(part.grain)] if part.grain else []
    taken += [label_box(label) for label in part.labels]
    drawn = (*part.lines, *(_around(box) for box in taken))
    labels = (Label(text, x, y - MIDDLE_EM * SMALL_MM, size_mm=SMALL_MM) for x, y in spots)
    clear = (label for label in labels if _is_clear(label_box(label), drawn))
    return replace(part, labels=(*part.labels, *islice(clear, 1)))


def _around(box: Box) -> Line:
    """Give the edges of a box and its diagonals, so that no other box lies clear inside it."""
    low, high = (box.left, box.bottom), (box.right, box.top)
    foot, head = (box.right, box.bottom), (box.left, box.top)
    return low, foot, high, head, low, high, foot, head


def _is_clear(room: Box, drawn: Sequence[Line]) -> bool:
    return not any(crosses(line, room.grown(CLEAR_MM)) for line in drawn)


def _patch_notes(true: Mapping[str, float]) -> tuple[str, ...]:
    slope = f"slope 1 in {true['run'] / true['skin']:.3g}"
    return (f"patch: {_size(true['patch'])} across, dashed its inner face; {slope}", ALONG)


def _opening_notes(true: Mapping[str, float]) -> tuple[str, ...]:
    return (f"opening: {_size(true['hole'])} across, round it the edge of the slope in the skin", ALONG)


def _size(mm: float) -> str:
    return f"{mm:.4g} mm ({mm / INCH:.4g} in)"
