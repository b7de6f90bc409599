"""Where lettering stood too close to a line or away from its own: lesson figures, in both measures, to a ruler."""

from math import dist

import pytest

from coursepack.drafting.clearance import crosses, is_free
from coursepack.drafting.label import label_box, label_lines
from coursepack.drafting.nose_rib import nose_rib
from coursepack.drafting.nose_rib_template import nose_rib_parts
from coursepack.drafting.part import Sizes
from coursepack.drafting.planing import CIRCLE_MM, planing_passes
from coursepack.drafting.rib import rib_outline
from coursepack.drafting.saw_reach import saw_reach
from coursepack.drafting.sheet import Box, Drawing, Frame, Label, Line, Mark, Piece
from coursepack.drafting.straightedge import straightedge_on_loft
from coursepack.trade.airfoil import airfoil
from tests.drafting.draws import draw
from tests.drafting.measuring import tips

INCH = 25.4
COLUMN, ACROSS = Frame(58, 190), Frame(174, 105)
BLANK, ANSWER = Mark("mm", "blank"), Mark("3.0\u00a0mm", "answer")
CLARK_Y = {"section": airfoil("Clark Y")}


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def label_of(drawing: Drawing, name: str) -> Label:
    (found,) = [label for label in drawing.labels if label.of == name]
    return found


def others(drawing: Drawing, name: str) -> Piece:
    """All that is drawn, without the lettering and the arrowheads of one dimension."""
    fills = tuple(fill for fill in drawing.fills if fill.of != name)
    return Piece(drawing.strokes, fills, tuple(label for label in drawing.labels if label.of != name))


def starting_hole(mark: Mark, chord: float) -> Drawing:
    sizes = {"chord": chord, "length": 0.15 * chord, "hole": 0.0918 * chord - 38, "aft": 0.1 * chord}
    sizes |= {"middle": 0.0501 * chord, "start": INCH / 16}
    return nose_rib(Sizes(sizes, CLARK_Y), {"length": Mark("153\u00a0mm"), "start": mark}, COLUMN)


@pytest.mark.parametrize("chord", [1020.0, 1060.0, 43.5 * INCH, 45.5 * INCH])
def test_the_leader_of_a_starting_hole_meets_the_beginning_of_the_rule_and_the_box_of_the_answer(
    chord: float,
) -> None:
    for mark in (BLANK, ANSWER):
        drawing = starting_hole(mark, chord)
        label = label_of(drawing, "start")
        (line,) = label_lines(label)
        ends = [end for each in lines(drawing, "dimension") for end in each]
        assert min(dist(end, line[0]) for end in ends) < 1e-6
        assert is_free(label, Piece((), drawing.fills)), "an arrowhead lies in it"


@pytest.mark.parametrize("chord", [20 * INCH, 25 * INCH, 500.0, 1120.0])
@pytest.mark.parametrize("name", ["front_height", "front_depth"])
def test_a_height_at_the_front_spar_is_drawn_ahead_of_the_rib_where_no_member_lies_under_it(
    name: str, chord: float
) -> None:
    sizes = {"chord": chord, "capstrip": 5.0, "front_station": 0.12 * chord, "rear_station": 0.6 * chord}
    sizes |= {"spar_width": 19.0, "bays": 4.0, "upright": 6.0}
    for mark in (BLANK, ANSWER):
        drawing = rib_outline(Sizes(sizes, CLARK_Y), {"chord": Mark("500\u00a0mm"), name: mark}, ACROSS)
        nose = min(x for line in lines(drawing, "outline") for x, _ in line)
        assert all(x < nose - 5 for x, _ in tips(drawing, name))
        room = label_box(label_of(drawing, name))
        (x, _), _ = tips(drawing, name)
        assert room.right < nose or room.left <= x <= room.right


@pytest.mark.parametrize(
    ("rough", "finish"), [(26.0, 18.0), (29.0, 21.0), (33.0, 26.0), (1.125 * INCH, 0.8125 * INCH)]
)
def test_the_wood_off_each_face_is_lettered_over_its_own_arrows_and_these_keep_off_the_circles(
    rough: float, finish: float
) -> None:
    marks = {"rough": Mark("26\u00a0mm"), "finish": Mark("18\u00a0mm")}
    for mark in (BLANK, ANSWER):
        drawing = planing_passes({"rough": rough, "finish": finish}, marks | {"allowance_each": mark}, COLUMN)
        (x, _), _ = tips(drawing, "allowance_each")
        room = label_box(label_of(drawing, "allowance_each"))
        assert room.left < x < room.right
        numbers = [label for label in drawing.labels if label.text in {"1", "2", "3", "4"}]
        heads = [point for fill in drawing.fills if fill.of == "allowance_each" for point in fill.polygon]
        for number in numbers:
            box = label_box(number)
            middle = (box.left + box.right) / 2, (box.bottom + box.top) / 2
            assert min(dist(middle, point) for point in heads) > CIRCLE_MM + 1.2


INCH_SAW = {
    "throat": "16\u00a0in",
    "along": "7\u202f5⁄8\u00a0in",
    "across": "3\u202f1⁄4\u00a0in",
    "hole": "2\u202f5⁄8\u00a0in",
}
METRIC_SAW = {"throat": "450\u00a0mm", "along": "215\u00a0mm", "across": "95\u00a0mm", "hole": "52\u00a0mm"}
SAWS = [
    (METRIC_SAW, {"throat": 450.0, "hole": 52.0, "along": 215.0, "across": 95.0}),
    (METRIC_SAW, {"throat": 400.0, "hole": 65.0, "along": 280.0, "across": 95.0}),
    (INCH_SAW, {"throat": 16 * INCH, "hole": 2.625 * INCH, "along": 8.25 * INCH, "across": 3.25 * INCH}),
    (INCH_SAW, {"throat": 16 * INCH, "hole": 2.0625 * INCH, "along": 9.375 * INCH, "across": 3 * INCH}),
    (INCH_SAW, {"throat": 20 * INCH, "hole": 3.75 * INCH, "along": 12.25 * INCH, "across": 3.5 * INCH}),
]


@pytest.mark.parametrize(("texts", "sizes"), SAWS)
def test_lettering_on_the_work_stands_apart_and_its_leaders_reach_no_dimension_line_beside_it(
    texts: dict[str, str], sizes: dict[str, float]
) -> None:
    marks = {name: Mark(text) for name, text in texts.items()}
    drawing = saw_reach(sizes, marks | {"reach": BLANK, "spare": BLANK}, COLUMN)
    for name in ("along", "across"):
        room = label_box(label_of(drawing, name)).grown(1.4)
        assert not any(room.meets(label_box(each)) for each in drawing.labels if each.of != name)
        slanted = [line for line in lines(drawing, "dimension") if line[0][0] != line[-1][0]]
        slanted = [line for line in slanted if line[0][1] != line[-1][1]]
        for of in ("throat", "reach", "spare"):
            (x, low), (_, high) = tips(drawing, of)
            upright = Box(x, min(low, high), x, max(low, high)).grown(1.0)
            assert not any(crosses(line, upright) for line in slanted)


@pytest.mark.parametrize(
    ("sizes", "texts"),
    [
        ({"base": 150.0, "fore": 54.5, "rear": 77.0, "width": 19.0}, ("54.5\u00a0mm", "77\u00a0mm")),
        ({"base": 200.0, "fore": 46.5, "rear": 76.5, "width": 19.0}, ("46.5\u00a0mm", "76.5\u00a0mm")),
        ({"base": 200.0, "fore": 46.0, "rear": 75.0, "width": 19.0}, ("46\u00a0mm", "75\u00a0mm")),
        ({"base": 8 * INCH, "fore": 46.8, "rear": 79.4}, ("1\u202f27⁄32\u00a0in", "3\u202f1⁄8\u00a0in")),
        ({"base": 7 * INCH, "fore": 54.0, "rear": 77.4}, ("2\u202f1⁄8\u00a0in", "3\u202f3⁄64\u00a0in")),
    ],
)
@pytest.mark.parametrize("frame", [COLUMN, ACROSS])
def test_the_heights_under_a_straightedge_are_lettered_clear_of_every_line(
    sizes: dict[str, float], texts: tuple[str, str], frame: Frame
) -> None:
    marks = {"base": Mark("200\u00a0mm"), "bevel": Mark("°", "blank")}
    marks |= {name: Mark(text) for name, text in zip(("fore", "rear"), texts, strict=True)}
    drawing = straightedge_on_loft(sizes, marks, frame)
    for name in ("fore", "rear"):
        assert is_free(label_of(drawing, name), others(drawing, name), 1.15)


def test_the_grain_arrow_of_a_nose_rib_ends_short_of_every_line() -> None:
    for seed in range(60):
        _, sizes, _, _ = draw("nose rib", seed)
        (part,) = nose_rib_parts(sizes)
        assert part.grain is not None
        (left, y), (right, _) = part.grain
        arrow = Box(left - 3.9, y - 1, right + 3.9, y + 1)
        drawn = [*part.outlines, *(line for stroke in part.guides for line in stroke.lines)]
        assert not any(crosses(line, arrow) for line in drawn)
