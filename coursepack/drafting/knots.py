"""The face of a spar that stands on end: the zones where a knot may lie, a knot, and the next defect beyond it."""

from collections.abc import Iterator, Mapping
from math import cos, pi, sin

from coursepack.drafting.breaking import torn
from coursepack.drafting.dimension import Linear, Side, Spacing
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.placing import ways
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault

PAST_MM = 8.0  # on paper, of face beyond the knot and the next defect, before it is broken off
TALLEST_MM = 120.0  # on paper, from the knot to the next defect
GRAIN_MM = 2.4  # between lines of grain
POCKET = (0.9, 4.0)  # half the width and half the length of the next defect on paper, a pitch pocket
NOTE = "knot and pocket not to scale"
LEAST_KNOT_MM = 1.0  # radius on paper; a smaller one could not be seen


def spar_face(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a spar's face with a knot: its distance from the nearer edge, and that of the next defect.

    The lines of the center third are drawn where `third` is marked; elsewhere they would tell the answer.

    Sizes in mm: height of the face, edge (from the nearer edge to the knot's rim), next (clear wood from there to
    the next defect), knot (its diameter). Raises LessonFault where it does not fit, the knot lies off the face, or a
    dimension is asked that this figure does not have.
    """
    refuse_missing("spar face", marks, face_measure(sizes))
    if not 0 < sizes["edge"] <= (sizes["height"] - sizes["knot"]) / 2:
        raise LessonFault(
            "the knot is not between the nearer edge and the middle",
            "give edge and half of knot up to half of height",
        )
    fitted = at_scale(
        "spar face", lambda by, room, spacing: _draft(sizes, marks, by, room, spacing), frame, sizes["next"], lambda _: NOTE
    )  # fmt: skip
    return finished("Face of a spar", fitted, frame, _alt(marks), lambda _: NOTE)


def face_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm; the center third begins a third of the height from an edge."""
    return {**{name: sizes[name] for name in ("height", "edge", "next")}, "third": sizes["height"] / 3}


def _draft(
    sizes: Mapping[str, float], marks: Mapping[str, Mark], by: float, room: Frame, spacing: Spacing
) -> Piece:
    """Draw the nearer edge at x = 0, the knot below y = 0, and the next defect above it, beyond the clear wood."""
    height, edge, far = (sizes[name] * by for name in ("height", "edge", "next"))
    if far > TALLEST_MM:
        raise NoRoom
    radius = max(LEAST_KNOT_MM, sizes["knot"] * by / 2)
    low, high = -PAST_MM - 2 * radius, far + PAST_MM + POCKET[1]
    middle = edge + radius, -radius
    knot, pocket = _round(middle, radius, radius), _round((middle[0], far + POCKET[1]), *POCKET)
    thirds = (height / 3, height * 2 / 3) if "third" in marks else ()
    zones = tuple(((x, low), (x, high)) for x in thirds)
    sides = tuple(((x, low), (x, high)) for x in (0.0, height))
    strokes = (
        Stroke("outline", sides),
        Stroke("thin", (*(torn((0.0, y), (height, y)) for y in (low, high)), knot, pocket)),
        Stroke("hidden", zones),
    )
    layout = Layout(Piece(strokes), room)
    for choices in _dimensions(height, edge, far, (low, high), marks, spacing):
        layout.settle(choices)
    return layout.piece + Piece((Stroke("ring", tuple(_grain(height, (low, high), (middle, radius)))),))


def _dimensions(
    height: float,
    edge: float,
    far: float,
    ends: tuple[float, float],
    marks: Mapping[str, Mark],
    spacing: Spacing,
) -> Iterator[Iterator[Choice]]:
    low, high = ends
    places: tuple[tuple[str, Side, tuple[Point, Point], float], ...] = (
        ("edge", "below", ((0.0, low), (edge, low)), low),
        ("height", "above", ((0.0, high), (height, high)), high),
        ("third", "above", ((0.0, high), (height / 3, high)), high),
        ("next", "right", ((height, 0.0), (height, far)), height),
    )
    for name, side, both, line in places:
        if name in marks:
            first = 2 * spacing.row if name == "third" and "height" in marks else None  # a row for each
            yield ways(Linear(name, marks[name], side, both, line, spacing, first, sideways="third" in marks))


def _round(middle: Point, across: float, along: float) -> Line:
    turns = [2 * pi * number / 24 for number in range(24)]
    points = [(middle[0] + across * cos(turn), middle[1] + along * sin(turn)) for turn in turns]
    return (*points, points[0])


def _grain(height: float, ends: Point, knot: tuple[Point, float]) -> Iterator[Line]:
    """Give lines of grain that part round the knot, as fibers do."""
    (at, up), radius = knot
    low, high = ends[0] + 1.5, ends[1] - 1.5
    ys = [low + (high - low) * n / 60 for n in range(61)]
    count = max(2, round(height / GRAIN_MM))
    for number in range(count):
        x = (number + 0.5) * height / count
        side = 1 if x >= at else -1
        push = max(0.0, radius + 0.7 - abs(x - at))
        line = tuple((x + side * push * _bell(y - up, radius), y) for y in ys)
        if all(0.4 < place < height - 0.4 for place, _ in line):
            yield line


def _bell(y: float, radius: float) -> float:
    return 1 / (1 + (y / (2.2 * radius)) ** 4)


def _alt(marks: Mapping[str, Mark]) -> str:
    names = {
        "height": "height of the face", "edge": "from the nearer edge to the rim of the knot", "next": "clear wood from the knot to the next defect",
        "third": "from the edge to the center third",
    }  # fmt: skip
    return f"A spar's face with a knot and the next defect beyond it. {listed(names, marks)}"
