from itertools import pairwise
from math import atan2, cos, degrees, dist, radians, sin, tan

import pytest

from coursepack.drafting.clearance import clashes
from coursepack.drafting.levelling import levelled_blank, levelled_measure
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark, Point
from coursepack.place import LessonFault
from tests.drafting.draws import draw
from tests.drafting.measuring import detail_scale_of, measured, scale_of, tips

# 5/32 in over a level of 24 in is 15/32 in over supports 72 in apart; 1/16 in over a blade of 4 in
INCH = {"span": 1828.8, "level": 609.6, "depth": 127.0, "rise": 3.96875}
METRIC = {"span": 2000.0, "level": 600.0, "depth": 100.0, "tilt": 0.5, "overhang": 400.0, "supports": 3.0}
END = {"width": 25.4, "blade": 101.6, "gap": 1.5875}
WIDE = Frame(118, 190)
NOTHING = 1e-9
HALF_OF_THE_LAST_PLACE = 0.0005  # of the 0.029 deg that is printed
A_FIFTH_OF_A_PERCENT = 0.002  # 6.5 mm/m and 22.4 minutes are rounded


def drawn(show: str, sizes: dict[str, float] = INCH, frame: Frame = WIDE) -> Drawing:
    return levelled_blank(sizes, {name: Mark("9 in") for name in show.split()}, frame)


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def lean(line: Line) -> float:
    """How far a line falls to the right, in degrees."""
    (x0, y0), (x1, y1) = sorted((line[0], line[-1]))
    return degrees(atan2(y0 - y1, x1 - x0))


def level_foot(drawing: Drawing) -> tuple[Point, Point]:
    """The level's lower corners: its open outline stands after the blank's broken ends."""
    body = lines(drawing, "thin")[2]
    return body[0], body[-1]


def contacts(drawing: Drawing) -> list[Point]:
    """The upper right corners of the supports' tops, the first closed rectangles after the level's vial."""
    closed = [line for line in lines(drawing, "thin") if len(line) == 5 and line[0] == line[-1]][1:]
    return [line[2] for line in closed]


def through(point: Point, line: Line) -> float:
    """How far a point lies from a straight line, in mm on paper."""
    (x0, y0), (x1, y1) = line[0], line[-1]
    return ((x1 - x0) * (point[1] - y0) - (y1 - y0) * (point[0] - x0)) / dist(line[0], line[-1])


def test_the_packing_is_the_rise_times_the_span_over_the_level() -> None:
    true = levelled_measure(INCH)
    assert true["packing"] / 25.4 == pytest.approx(15 / 32)  # 5/32 × 72 / 24


def test_the_level_stands_on_the_blank_with_its_underside_along_it() -> None:
    drawing = drawn("level span")
    under, top = lines(drawing, "outline")
    left, right = level_foot(drawing)
    assert lean((left, right)) == pytest.approx(lean(top)) == pytest.approx(lean(under))
    assert through(left, top) == pytest.approx(0, abs=NOTHING)
    assert sin(radians(lean(top))) == pytest.approx(3.96875 / 609.6)
    assert dist(left, right) / scale_of(drawing) == pytest.approx(609.6)


def test_the_supports_bear_the_blank_and_the_low_one_is_lower_by_the_packing() -> None:
    drawing = drawn("span")
    high, low = contacts(drawing)
    under, _ = lines(drawing, "outline")
    assert [through(contact, under) for contact in (high, low)] == pytest.approx([0, 0], abs=NOTHING)
    assert dist(high, low) / scale_of(drawing) == pytest.approx(1828.8)
    assert (high[1] - low[1]) / scale_of(drawing) == pytest.approx(11.90625)  # 15/32 in


def test_the_bubble_stands_off_the_middle_of_the_vial_towards_the_high_end() -> None:
    drawing = drawn("level")
    vial = lines(drawing, "thin")[3]
    bubble = next(line for line in lines(drawing, "layer") if len(line) > 30)
    middle = sum(x for x, _ in vial[:4]) / 4
    xs = [x for x, _ in bubble]
    assert (min(xs) + max(xs)) / 2 < middle
    assert min(x for x, _ in vial) < min(xs)


@pytest.mark.parametrize(
    ("name", "detail", "size"), [("rise", "A", 3.96875), ("packing", "B", 11.90625), ("gap", "C", 1.5875)]
)
def test_a_small_length_is_measured_in_its_detail_at_the_scale_lettered_there(
    name: str, detail: str, size: float
) -> None:
    for frame in (Frame(), WIDE):
        drawing = drawn(name, INCH | END, frame)
        assert detail_scale_of(drawing, detail) >= 1
        assert dist(*tips(drawing, name)) / detail_scale_of(drawing, detail) == pytest.approx(size)
        assert [label.text for label in drawing.labels].count(detail) == 1


def test_the_rise_goes_from_the_levels_corner_down_to_the_level_line() -> None:
    drawing = drawn("rise")
    (datum,) = lines(drawing, "centre")
    top = lines(drawing, "outline")[2]
    scale = detail_scale_of(drawing, "A")
    high, low = sorted((y for _, y in tips(drawing, "rise")), reverse=True)
    assert low == pytest.approx(datum[0][1]) == pytest.approx(datum[1][1])
    assert sin(radians(lean(top))) == pytest.approx(3.96875 / 609.6)
    corner = next(line[0] for line in lines(drawing, "thin") if len(line) == 2 and line[0][1] == high)
    assert through(corner, top) == pytest.approx(0, abs=NOTHING)
    assert (high - low) / scale == pytest.approx(3.96875)


def test_the_packing_fills_what_lies_between_the_support_and_the_level_line() -> None:
    drawing = drawn("packing")
    (datum,) = lines(drawing, "centre")
    under = lines(drawing, "outline")[2]
    sides = lines(drawing, "hidden")
    scale = detail_scale_of(drawing, "B")
    assert [(high - low) / scale for (_, low), (_, high) in sides] == pytest.approx([11.90625] * 2)
    assert {high for _, (_, high) in sides} == {datum[0][1]}
    assert through(sides[1][0], under) == pytest.approx(0, abs=NOTHING)  # the support's right corner bears it


def test_the_blade_stands_plumb_and_the_face_falls_away_from_it_by_the_gap_at_its_tip() -> None:
    drawing = drawn("blade gap", INCH | END)
    face, (_, foot, corner, *_) = lines(drawing, "outline")[2:]
    scale = detail_scale_of(drawing, "END")
    tip = min(tips(drawing, "blade"), key=lambda point: point[1])[1]
    assert (corner[1] - tip) / scale == pytest.approx(101.6)
    falls = (corner[0] - foot[0]) / (corner[1] - foot[1])
    assert falls * 101.6 == pytest.approx(1.5875)
    (blade,) = [line for line in lines(drawing, "thin") if len(line) == 3 and line[0][0] == line[1][0]]
    off = abs(through(blade[1], face)) / detail_scale_of(drawing, "C")
    assert off == pytest.approx(1.5875 * cos(atan2(1.5875, 101.6)))  # square to the face, not to the blade


@pytest.mark.parametrize("name", ["span", "apart", "overhang", "length", "level"])
def test_each_length_along_the_blank_is_as_long_as_it_says(name: str) -> None:
    true = {"span": 2000.0, "apart": 1000.0, "overhang": 400.0, "length": 2800.0, "level": 600.0}
    drawing = drawn("span apart overhang length level", METRIC)
    assert measured(drawing, name) == pytest.approx(true[name])
    first, second = sorted(tips(drawing, name))
    assert lean((first, second)) == pytest.approx(0.5)


def test_lengths_in_one_row_never_lie_on_one_another() -> None:
    for seed in range(120):
        _, sizes, marks, frame = draw("levelled blank", seed)
        drawing = levelled_blank(sizes, marks, frame)
        tilt = radians(levelled_measure(sizes)["tilt"])
        rows: dict[float, list[tuple[float, float]]] = {}
        for name in marks.keys() & {"span", "apart", "overhang", "length", "level"}:
            (x0, y0), (x1, y1) = sorted(tips(drawing, name))
            rows.setdefault(round(y0 * cos(tilt) + x0 * sin(tilt), 6), []).append((x0, x1))
            assert (y0 - y1) / (x1 - x0) == pytest.approx(tan(tilt))
        for row in rows.values():
            assert all(end <= start + NOTHING for (_, end), (start, _) in pairwise(sorted(row)))


@pytest.mark.parametrize(("name", "turn"), [("tilt", 0.5), ("out", 0.9)])
def test_an_angle_is_read_between_its_arrowheads(name: str, turn: float) -> None:
    drawing = drawn(name, METRIC | {"width": 25.0, "blade": 100.0, "out": 0.9})
    corner = contacts(drawing)[0] if name == "tilt" else lines(drawing, "outline")[-1][2]
    (ax, ay), (bx, by) = tips(drawing, name)
    seen = degrees(atan2(ay - corner[1], ax - corner[0])) - degrees(atan2(by - corner[1], bx - corner[0]))
    assert abs(seen) == pytest.approx(turn)


# a measured example page (secondary): a 2 ft level lifted 5/32 in at one end, 6.5 mm/m, is tilted 22.4 minutes of arc
def test_a_two_foot_level_that_rises_5_32_is_tilted_22_4_minutes_and_its_blank_6_5_mm_in_a_metre() -> None:
    true = levelled_measure(INCH | {"span": 1000.0})
    assert true["tilt"] * 60 == pytest.approx(22.4, rel=A_FIFTH_OF_A_PERCENT)
    assert true["packing"] == pytest.approx(6.5, rel=A_FIFTH_OF_A_PERCENT)


# a general reference page (secondary): spirit levels of construction grade read about 0.5 mm/m, 0.029 deg
def test_half_a_millimetre_in_a_metre_is_0_029_degrees() -> None:
    true = levelled_measure({"span": 4000.0, "level": 1000.0, "depth": 100.0, "rise": 0.5})
    assert true["tilt"] == pytest.approx(0.029, abs=HALF_OF_THE_LAST_PLACE)
    assert true["packing"] == pytest.approx(2.0)


# a general reference page (secondary): 1/4 in in 10 ft is a tolerance often used in framing
def test_a_framers_quarter_inch_in_ten_feet_is_a_twentieth_over_a_level_of_two_feet() -> None:
    true = levelled_measure(INCH | {"span": 3048.0, "rise": 0.05 * 25.4})
    assert true["packing"] / 25.4 == pytest.approx(1 / 4)


def test_an_angle_that_is_given_comes_back_as_it_was_and_gives_its_length() -> None:
    true = levelled_measure(METRIC | {"width": 25.0, "blade": 100.0, "out": 1.0})
    assert (true["tilt"], true["out"]) == (0.5, 1.0)
    assert true["rise"] == pytest.approx(600 * sin(radians(0.5)))
    assert true["gap"] == pytest.approx(100 * tan(radians(1)))


@pytest.mark.parametrize("supports", [2, 3, 5])
def test_every_support_has_its_place_and_they_are_equally_far_apart(supports: int) -> None:
    drawing = drawn("span", METRIC | {"supports": float(supports)})
    places = contacts(drawing)
    assert len(places) == supports
    gaps = [dist(*pair) / scale_of(drawing) for pair in pairwise(places)]
    assert gaps == pytest.approx([2000 / (supports - 1)] * (supports - 1))


def test_a_blank_without_overhang_is_broken_off_and_one_with_it_is_drawn_whole() -> None:
    assert len(lines(drawn("span"), "outline")) == 2
    (whole,) = lines(drawn("span", METRIC), "outline")
    assert dist(whole[0], whole[1]) / scale_of(drawn("span", METRIC)) == pytest.approx(2800)


def test_only_what_is_shown_has_its_detail() -> None:
    texts = {label.text[0] for label in drawn("span level", INCH | END).labels if "\u2002" in label.text}
    assert texts == set()
    assert len(lines(drawn("rise packing"), "centre")) == 2


def test_the_details_stay_together_in_the_column_and_run_into_nothing() -> None:
    everything = "span level rise packing width blade gap"
    assert clashes(drawn(everything, INCH | END)) == []
    assert clashes(drawn("span level rise packing blade gap", INCH | END, Frame())) == []


@pytest.mark.parametrize(
    ("sizes", "message"),
    [
        ({"supports": 1.0}, "the blank lies over 1 supports; give a whole number from 2 to 5"),
        ({"supports": 2.5}, "the blank lies over 2.5 supports"),
        ({"rise": 60.0}, "give a rise of at most 1/20 of 'level'"),
        ({"rise": 0.0}, "too steeply for a level, or level"),
        ({"tilt": 0.4}, "this levelled blank needs 'rise' or 'tilt'; give one of the two"),
        ({"span": 300.0}, "the level reaches past the supports; give a shorter 'level'"),
        ({"depth": 0.0}, "'depth' is 0 mm; give a size above zero"),
        (END | {"blade": 130.0}, "the blade is longer than the blank is deep"),
        (END | {"gap": 0.0}, "the end is square, or comes to a point"),
        (END | {"gap": 40.0}, "the end is square, or comes to a point"),
        (END | {"out": 1.0}, "this levelled blank needs 'gap' or 'out'"),
        ({"blade": 50.0}, "the end of the blank has no 'width'; give width, blade and gap or out"),
    ],
)
def test_a_blank_that_cannot_be_is_a_fault(sizes: dict[str, float], message: str) -> None:
    with pytest.raises(LessonFault) as caught:
        drawn("span", INCH | sizes)
    assert message in str(caught.value)


def test_the_sheet_says_that_the_packing_is_to_be_found() -> None:
    marks = {"span": Mark("72 in"), "rise": Mark("5⁄32 in"), "packing": Mark("in", "blank")}
    assert levelled_blank(INCH, marks, Frame()).alt == (
        "A long blank from its side, over 2 supports, its left end high; a level stands on it, the bubble to the left. "
        "From the high support to the low one, along the blank: 72 in. How much higher the left end of the level "
        "stands than its right end: 5/32 in. Packing that the lowest support needs: to be found."
    )
