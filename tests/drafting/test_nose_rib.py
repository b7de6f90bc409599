"""Nose rib and saw reach, measured; Clark Y ordinates from the published table, percent of the chord."""

from itertools import pairwise
from math import dist

import pytest

from coursepack.drafting.nose_rib import nose_rib, nose_rib_measure
from coursepack.drafting.nose_rib_template import nose_rib_parts
from coursepack.drafting.nose_shape import nose_rib_of
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.saw_reach import saw_reach, saw_reach_measure
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.place import LessonFault
from coursepack.trade.airfoil import airfoil
from tests.drafting.measuring import measured, scale_of, tips

CHORD = 1000.0
NOSE = {"chord": CHORD, "length": 150.0, "hole": 60.0, "aft": 100.0, "middle": 50.1, "start": 4.0}
SAW = {"throat": 400.0, "hole": 60.0, "along": 240.0, "across": 70.0, "blade": 3.0}
WIDE = Frame(118, 190)


def sizes(**changed: float) -> Sizes:
    return Sizes(NOSE | changed, {"section": airfoil("Clark Y")})


def drawn(*names: str, **changed: float) -> Drawing:
    return nose_rib(sizes(**changed), {name: Mark("9 mm") for name in names}, WIDE)


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def part() -> Part:
    (found,) = nose_rib_parts(sizes())
    return found


def test_the_height_at_the_spar_is_that_of_the_published_table() -> None:
    # 10.68 % − 0.15 % of 1000 mm at station 15 %
    assert nose_rib_measure(sizes())["height"] == pytest.approx(105.3, abs=0.05)


def test_the_full_size_contour_passes_through_the_published_ordinates() -> None:
    contour = part().outlines[0]
    for station, upper, lower in ((25, 65.0, 14.7), (50, 79.0, 9.3), (75, 88.5, 6.3), (100, 96.0, 4.2)):
        for ordinate in (upper, lower):
            assert min(dist(point, (station, ordinate)) for point in dense(contour)) < 0.1


def dense(line: Line) -> list[tuple[float, float]]:
    steps = [n / 50 for n in range(51)]
    return [
        (x + (to_x - x) * n, y + (to_y - y) * n) for (x, y), (to_x, to_y) in pairwise(line) for n in steps
    ]


def test_the_hole_of_the_full_size_part_is_round_about_its_middle() -> None:
    assert [dist(point, (100.0, 50.1)) for point in part().outlines[1]] == pytest.approx([30.0] * 97)


def test_the_edge_is_the_least_wood_between_hole_and_contour() -> None:
    contour, hole = part().outlines
    least = min(dist(point, (100.0, 50.1)) for point in dense(contour)) - 30.0
    assert nose_rib_measure(sizes())["edge"] == pytest.approx(least, abs=0.01)
    assert least < 96.0 - 50.1 - 30.0  # straight up there is more wood
    assert measured(drawn("edge"), "edge") == pytest.approx(least, abs=0.01)
    assert len(hole) == 97


def test_the_saw_leaves_the_middle_of_the_starting_hole_and_comes_to_touch_the_line() -> None:
    rib = nose_rib_of(sizes())
    path = rib.saw_path
    assert path[0] == pytest.approx((115.0, 50.1))  # 100 + 30 / 2
    assert path[-1] == pytest.approx((70.0, 50.1))
    reaches = [dist(point, (100.0, 50.1)) for point in path]
    assert reaches == sorted(reaches)
    assert reaches[-1] - reaches[-2] < 0.05  # it turns into the line
    assert [dist(point, (92.5, 50.1)) for point in path] == pytest.approx([22.5] * len(path))  # 3/4 of 30


def test_the_saws_way_is_dashed_and_only_drawn_with_a_starting_hole() -> None:
    assert len(lines(drawn("hole"), "hidden")) == 1
    without = Sizes({name: size for name, size in NOSE.items() if name != "start"}, sizes().shapes)
    assert lines(nose_rib(without, {}, WIDE), "hidden") == []
    assert "start" not in nose_rib_measure(without)


def test_the_dimension_of_the_starting_hole_ends_on_its_circle() -> None:
    drawing = drawn("start")
    (circle,) = lines(drawing, "thin")
    for tip in tips(drawing, "start"):
        assert min(dist(tip, point) for point in circle) < 0.1


def test_the_template_marks_both_middles_the_starting_hole_and_the_grain() -> None:
    found = part()
    (crosses,) = [stroke.lines for stroke in found.guides if stroke.kind == "dimension"]
    middles = [((a + c) / 2, (b + d) / 2) for (a, b), (c, d) in crosses]
    for middle in ((100.0, 50.1), (115.0, 50.1)):
        assert sum(dist(middle, other) < 1e-6 for other in middles) == 2
    assert [label.text for label in found.labels] == [
        "LIGHTENING HOLE", "STARTING HOLE", "SPAR FACE", "UPPER", "LOWER",
    ]  # fmt: skip
    upper, lower = found.labels[-2:]
    assert lower.y < 50.1 < upper.y
    assert found.grain is not None
    (x, y), (to_x, to_y) = found.grain
    assert y == to_y
    assert to_x > x


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        (
            {"hole": 95.0},
            "the lightening hole cuts the contour or the spar's face; make it smaller or move it",
        ),
        (
            {"aft": 130.0},
            "the lightening hole cuts the contour or the spar's face; make it smaller or move it",
        ),
        (
            {"aft": 160.0},
            "the lightening hole cuts the contour or the spar's face; make it smaller or move it",
        ),
        ({"start": 30.0}, "the starting hole reaches the line; drill it smaller than half of the hole"),
    ],
)
def test_a_hole_that_cannot_be_sawn_is_a_fault(changed: dict[str, float], message: str) -> None:
    with pytest.raises(LessonFault) as caught:
        drawn(**changed)
    assert str(caught.value) == message


def test_a_nose_rib_without_a_wing_section_is_a_fault() -> None:
    with pytest.raises(LessonFault) as caught:
        nose_rib(Sizes(NOSE), {}, WIDE)
    assert str(caught.value) == 'a nose rib needs a wing section; give section, such as airfoil("Clark Y")'


def saw(*names: str, **changed: float) -> Drawing:
    return saw_reach(SAW | changed, {name: Mark("9 mm") for name in names}, WIDE)


def test_the_work_reaches_one_radius_farther_than_its_corner_is_from_the_middle_of_the_hole() -> None:
    # √(240² + 70²) = 250
    assert saw_reach_measure(SAW)["reach"] == pytest.approx(280.0)
    assert saw_reach_measure(SAW)["spare"] == pytest.approx(120.0)


def test_a_blade_turns_in_eight_times_its_width() -> None:
    # NAVEDTRA 14043, chapter 3: the blade is 1/8 of the radius
    assert saw_reach_measure(SAW)["radius"] == pytest.approx(24.0)
    drawing = saw("radius")
    (turn,) = lines(drawing, "thin")
    xs = [x for x, _ in turn]
    assert (max(xs) - min(xs)) / 2 / scale_of(drawing) == pytest.approx(24.0)


def test_the_work_is_drawn_in_its_own_size_and_its_corner_farthest_from_the_blade() -> None:
    drawing = saw("reach", "throat")
    work = next(line for line in lines(drawing, "outline") if len(line) == 5)
    blade = min(tips(drawing, "reach"), key=lambda tip: tip[1])
    stroke = next(line for line in lines(drawing, "outline") if len(line) == 2)
    at = (stroke[0][0], (stroke[0][1] + stroke[1][1]) / 2)
    assert blade[1] == pytest.approx(at[1])
    scale = scale_of(drawing)
    assert max(dist(at, corner) for corner in work) / scale == pytest.approx(280.0)
    sides = sorted(dist(one, other) / scale for one, other in pairwise(work))
    assert sides == pytest.approx([70 + 45, 70 + 45, 240 + 45, 240 + 45])


@pytest.mark.parametrize(("name", "size"), [("along", 240.0), ("across", 70.0)])
def test_what_is_measured_on_the_work_starts_in_the_middle_of_the_hole(name: str, size: float) -> None:
    drawing = saw(name)
    hole = next(line for line in lines(drawing, "outline") if len(line) == 97)
    xs, ys = [x for x, _ in hole], [y for _, y in hole]
    middle = (max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2
    first, second = tips(drawing, name)
    assert first == pytest.approx(middle)
    assert dist(first, second) / scale_of(drawing) == pytest.approx(size)


def test_work_that_hits_the_frame_is_a_fault() -> None:
    with pytest.raises(LessonFault) as caught:
        saw(throat=280.0)
    assert (
        str(caught.value) == "the work reaches 280 mm, and the throat is 280 mm; take a shorter piece of work"
    )


def test_a_hole_at_the_edge_of_the_work_is_a_fault() -> None:
    with pytest.raises(LessonFault, match="the hole reaches the edge of the work"):
        saw(across=30.0)


def test_the_frame_stands_one_throat_behind_the_blade() -> None:
    drawing = saw("throat")
    frame = next(line for line in lines(drawing, "outline") if len(line) == 4)
    low, high = sorted(y for _, y in tips(drawing, "throat"))
    assert min(y for _, y in frame) == pytest.approx(high)
    assert (high - low) / scale_of(drawing) == pytest.approx(400.0)
