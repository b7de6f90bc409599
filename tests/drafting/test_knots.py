"""The knot of a spar's face lies where its numbers say, measured from its rim."""

import pytest

from coursepack.drafting.knots import spar_face
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.place import LessonFault

SIZES = {
    "height": 120.0,
    "edge": 40.0,
    "next": 200.0,
    "knot": 30.0,
}  # a knot large enough to be drawn to scale
MARKS = {"edge": Mark("40 mm"), "next": Mark("200 mm")}
FRAME = Frame(150.0, 220.0)


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def test_edge_and_clear_wood_are_measured_from_the_rim() -> None:
    drawing = spar_face(SIZES, MARKS, FRAME)
    left = min(x for line in lines(drawing, "outline") for x, _ in line)
    right = max(x for line in lines(drawing, "outline") for x, _ in line)
    scale = (right - left) / SIZES["height"]
    closed = [
        line for line in lines(drawing, "thin") if len(line) == 25 and line[0] == pytest.approx(line[-1])
    ]
    knot, pocket = sorted(closed, key=lambda line: min(y for _, y in line))
    assert (min(x for x, _ in knot) - left) / scale == pytest.approx(SIZES["edge"])
    assert (max(x for x, _ in knot) - min(x for x, _ in knot)) / scale == pytest.approx(SIZES["knot"])
    clear = min(y for _, y in pocket) - max(y for _, y in knot)
    assert clear / scale == pytest.approx(SIZES["next"])


def test_a_knot_that_passes_the_middle_is_nearer_the_other_edge() -> None:
    with pytest.raises(LessonFault, match="not between the nearer edge and the middle"):
        spar_face({**SIZES, "edge": 46.0}, MARKS, FRAME)  # 46 + 30 / 2 is more than 60
