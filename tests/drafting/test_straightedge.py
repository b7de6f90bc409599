"""The straightedge on a loft: it touches in one place, midway over the spar, and its heights give the bevel."""

from fractions import Fraction
from itertools import combinations, pairwise
from math import atan2, degrees, dist

import pytest

from coursepack.drafting.clearance import clashes
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark, Point
from coursepack.drafting.straightedge import straightedge_measure, straightedge_on_loft
from coursepack.place import LessonFault
from tests.drafting.measuring import measured, scale_of, tips

# 3 1/32 − 2 7/64 = 59/64 in over 6 in: arctan(59 / 384) = 8.7350°; 79 − 48 = 31 mm over 200: arctan 0.155 = 8.8110°
INCH = {"base": 152.4, "fore": 53.578125, "rear": 76.99375}
METRIC = {"base": 200.0, "fore": 48.0, "rear": 79.0, "width": 19.0}
FALLING = {"base": 200.0, "fore": 79.0, "rear": 48.0}
CASES = [(INCH, 8.7350), (METRIC, 8.8110), (FALLING, -8.8110)]
STEEP = {"base": 150.0, "fore": 5.0, "rear": 150.0}
LOW = {"base": 150.0, "fore": 2.0, "rear": 1.0}
NAMES = ("base", "fore", "rear", "rise", "bevel")
ACROSS, COLUMN = Frame(174, 105), Frame(58, 190)


def drawn(sizes: dict[str, float], *names: str, frame: Frame = ACROSS) -> Drawing:
    texts = {"bevel": "8.7°"}
    return straightedge_on_loft(sizes, {name: Mark(texts.get(name, "2\u00a0in")) for name in names}, frame)


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def touching_edge(drawing: Drawing) -> tuple[Point, Point]:
    """The lower edge of the straightedge, which is the first thin line and closed."""
    bar = lines(drawing, "thin")[0]
    assert bar[0] == bar[-1]
    return bar[0], bar[1]


def height_of_edge(drawing: Drawing, x: float) -> float:
    (left, low), (right, high) = touching_edge(drawing)
    return low + (high - low) * (x - left) / (right - left)


def faces(drawing: Drawing) -> list[Line]:
    return lines(drawing, "thin")[1:3]


def datum(drawing: Drawing) -> float:
    (_, y), (_, also) = lines(drawing, "centre")[0]
    assert y == also
    return y


def verticals(drawing: Drawing) -> list[tuple[Point, Point]]:
    """The two ends of the base up to the straightedge, the lower point first."""
    first = [line for stroke in drawing.strokes if stroke.kind == "dimension" for line in stroke.lines][:2]
    found = [(min(line, key=lambda p: p[1]), max(line, key=lambda p: p[1])) for line in first]
    return sorted(found)


@pytest.mark.parametrize(("sizes", "bevel"), CASES)
def test_base_and_heights_are_to_scale_and_the_heights_stand_from_the_datum_up_to_the_touching_edge(
    sizes: dict[str, float], bevel: float
) -> None:
    drawing = drawn(sizes)
    scale, (fore, rear) = scale_of(drawing), verticals(drawing)
    assert (rear[0][0] - fore[0][0]) / scale == pytest.approx(sizes["base"])
    for (foot, top), size in ((fore, sizes["fore"]), (rear, sizes["rear"])):
        assert foot[0] == pytest.approx(top[0])
        assert foot[1] == pytest.approx(datum(drawing))
        assert top[1] == pytest.approx(height_of_edge(drawing, top[0]))
        assert (top[1] - foot[1]) / scale == pytest.approx(size)
    (left, low), (right, high) = touching_edge(drawing)
    assert degrees(atan2(high - low, right - left)) == pytest.approx(bevel, abs=1e-3)


@pytest.mark.parametrize("sizes", [INCH, METRIC, FALLING])
def test_the_arrows_of_each_length_stand_as_far_apart_as_it_is_long(sizes: dict[str, float]) -> None:
    drawing = drawn(sizes, *NAMES)
    for name in ("base", "fore", "rear"):
        assert measured(drawing, name) == pytest.approx(sizes[name])
    assert measured(drawing, "rise") == pytest.approx(abs(sizes["rear"] - sizes["fore"]))


@pytest.mark.parametrize("frame", [ACROSS, COLUMN])
@pytest.mark.parametrize(("sizes", "bevel"), CASES)
def test_the_bevel_stands_between_a_level_line_and_the_touching_edge_and_its_corner_is_the_lower_end(
    sizes: dict[str, float], bevel: float, frame: Frame
) -> None:
    drawing = drawn(sizes, "bevel", frame=frame)
    corner = min((top for _, top in verticals(drawing)), key=lambda p: p[1])
    level, edge = sorted(tips(drawing, "bevel"), key=lambda p: p[1])
    assert level[1] == pytest.approx(corner[1])
    assert edge[1] == pytest.approx(height_of_edge(drawing, edge[0]))
    assert dist(corner, level) == pytest.approx(dist(corner, edge))
    ahead = (
        1 if bevel > 0 else -1
    )  # the corner is at the forward end where the edge rises, at the rear where it falls
    assert ahead * (level[0] - corner[0]) > sizes["base"] * scale_of(drawing)
    turn = degrees(atan2(edge[1] - corner[1], abs(edge[0] - corner[0])))
    assert turn == pytest.approx(abs(bevel), abs=1e-3)


@pytest.mark.parametrize("frame", [ACROSS, COLUMN])
@pytest.mark.parametrize("sizes", [INCH, METRIC, FALLING, STEEP, LOW])
def test_the_contour_touches_in_the_middle_of_the_base_and_elsewhere_lies_between_edge_and_datum(
    sizes: dict[str, float], frame: Frame
) -> None:
    drawing = drawn(sizes, frame=frame)
    (contour,) = lines(drawing, "outline")
    (fore, _), (rear, _) = verticals(drawing)
    middle = (fore[0] + rear[0]) / 2
    gaps = [(x, height_of_edge(drawing, x) - y) for x, y in contour]
    touching = [x for x, gap in gaps if gap < 1e-9]
    assert touching == pytest.approx([middle])
    assert min(gap for _, gap in gaps) == pytest.approx(0, abs=1e-9)
    assert min(y for _, y in contour) > datum(drawing)
    assert fore[0] < contour[0][0] < contour[-1][0] < rear[0]


@pytest.mark.parametrize("sizes", [INCH, METRIC, FALLING])
def test_the_contour_is_convex(sizes: dict[str, float]) -> None:
    (contour,) = lines(drawn(sizes), "outline")
    slopes = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in pairwise(contour)]
    assert all(later < before for before, later in pairwise(slopes))


@pytest.mark.parametrize(("sizes", "width"), [(INCH, 19.05), (METRIC, 19.0)])
def test_the_spar_is_to_scale_and_its_faces_stand_evenly_about_the_touching_place(
    sizes: dict[str, float], width: float
) -> None:
    drawing = drawn(sizes)
    (fore, _), (rear, _) = verticals(drawing)
    front, back = faces(drawing)
    assert (back[0][0] - front[0][0]) / scale_of(drawing) == pytest.approx(width)
    assert (front[0][0] + back[0][0]) / 2 == pytest.approx((fore[0] + rear[0]) / 2)
    (contour,) = lines(drawing, "outline")
    for foot, top in (front, back):
        assert foot[0] == top[0]
        assert foot[1] == pytest.approx(datum(drawing))
        at_top = [y for x, y in contour if abs(x - top[0]) < 1.5]
        assert min(at_top) - 0.5 < top[1] < height_of_edge(drawing, top[0])


def test_forward_is_on_the_left_whether_the_edge_rises_or_falls_and_what_is_not_to_scale_is_said() -> None:
    for sizes in (INCH, FALLING):
        drawing = drawn(sizes)
        places = {label.text: label.x for label in drawing.labels}
        assert places["FORWARD"] < places["SPAR"] < places["AFT"]
        assert any("; contour not to scale." in text for text in places)


@pytest.mark.parametrize("sizes", [INCH, METRIC, FALLING])
@pytest.mark.parametrize("count", range(1, len(NAMES) + 1))
def test_any_choice_of_dimensions_stands_clear_across_the_page_at_half_size(
    sizes: dict[str, float], count: int
) -> None:
    frame = Frame(174, 105, Fraction(1, 2))
    for asked in NAMES:
        for shown in combinations([name for name in NAMES if name != asked], count - 1):
            unit = "°" if asked == "bevel" else "mm"
            marks = {name: Mark("8.7°" if name == "bevel" else "2\u202f31⁄32\u00a0in") for name in shown}
            drawing = straightedge_on_loft(sizes, marks | {asked: Mark(unit, "blank")}, frame)
            assert clashes(drawing) == []
            assert drawing.height < 90


def test_the_words_tell_what_is_shown_and_nothing_of_what_is_asked() -> None:
    marks = {"base": Mark("6\u00a0in"), "fore": Mark("2\u202f7⁄64\u00a0in"), "bevel": Mark("°", "blank")}
    assert straightedge_on_loft(INCH, marks, ACROSS).alt == (
        "Side view of a loft, forward to the left. A straightedge over the upper contour touches it midway between the "
        "two faces of a spar. On the datum a base, half of it ahead of that place and half behind, and at each end a "
        "vertical up to the straightedge. Base on the datum: 6 in. Height of the straightedge at the forward end: "
        "2 7/64 in. Bevel, between the straightedge and a level line: to be found."
    )


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"fore": 0.0}, "the straightedge does not clear the datum; give 'fore' and 'rear' above zero"),
        ({"rear": -1.0}, "the straightedge does not clear the datum; give 'fore' and 'rear' above zero"),
        ({"base": 0.0}, "the straightedge has too short a base; give one of more than twice 'width'"),
        ({"width": 76.2}, "the straightedge has too short a base; give one of more than twice 'width'"),
        ({"rear": 206.0}, "the straightedge slopes by more than 45 deg; give 'fore' and 'rear' that differ by no more than 'base'"),
        ({"rear": 53.578125}, "the straightedge lies level and shows no bevel; give 'fore' and 'rear' that differ"),
    ],
)  # fmt: skip
def test_what_no_straightedge_can_show_is_a_fault(changed: dict[str, float], message: str) -> None:
    with pytest.raises(LessonFault) as caught:
        drawn(INCH | changed)
    assert str(caught.value) == message


def test_a_slope_of_45_degrees_is_the_steepest() -> None:
    assert straightedge_measure({"base": 100.0, "fore": 10.0, "rear": 110.0})["bevel"] == pytest.approx(45)


@pytest.mark.parametrize(("sizes", "bevel"), CASES)
def test_the_true_sizes_are_those_given_the_difference_of_the_heights_and_the_bevel_with_its_sign(
    sizes: dict[str, float], bevel: float
) -> None:
    true = straightedge_measure(sizes)
    assert true["bevel"] == pytest.approx(bevel, abs=1e-3)
    assert true["rise"] == pytest.approx(31.0 if sizes is not INCH else 59 / 64 * 25.4)
    assert {name: true[name] for name in ("base", "fore", "rear")} == {
        name: sizes[name] for name in ("base", "fore", "rear")
    }


def test_no_other_dimension_can_be_marked() -> None:
    with pytest.raises(LessonFault) as caught:
        drawn(INCH, "width")
    assert str(caught.value) == (
        "this straightedge on a loft has no dimension 'width'; it has base, fore, rear, rise, bevel"
    )
