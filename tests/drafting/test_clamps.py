from fractions import Fraction
from itertools import pairwise

import pytest

from coursepack.drafting.clamps import PAD_TALL_MM, clamp_layout, clamps_measure
from coursepack.drafting.clearance import clashes
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.place import LessonFault
from tests.drafting.measuring import measured, scale_of, tips

# 18 in over 5 clamps: 3.6 in from clamp to clamp and 1.8 in from the ends; 600 mm over 8: 75 and 37.5 mm
INCH = {"length": 457.2, "thick": 19.05, "clamps": 5.0}
METRIC = {"length": 600.0, "thick": 20.0, "clamps": 8.0, "caul": 45.0}
ASKED = {"length": Mark("18 in"), "end": Mark("in", "blank"), "spacing": Mark("in", "blank")}
ALL = ASKED | {"thick": Mark("3⁄4 in"), "caul": Mark("1 1⁄2 in")}


def drawn(marks: dict[str, Mark], frame: Frame | None = None, **sizes: float) -> Drawing:
    return clamp_layout(INCH | sizes, marks, frame or Frame())


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def screws(drawing: Drawing) -> list[float]:
    return [start[1] for start, _ in lines(drawing, "centre")]


def test_the_spacing_is_the_length_over_the_clamps_and_the_end_half_of_it() -> None:
    true = clamps_measure(INCH)
    assert true["spacing"] / 25.4 == pytest.approx(3.6)
    assert true["end"] / 25.4 == pytest.approx(1.8)
    assert clamps_measure(METRIC)["spacing"] == pytest.approx(75)
    assert clamps_measure(METRIC)["end"] == pytest.approx(37.5)


@pytest.mark.parametrize(("sizes", "spacing", "end"), [(INCH, 91.44, 45.72), (METRIC, 75.0, 37.5)])
def test_every_screw_lies_where_the_spacing_and_the_ends_say(
    sizes: dict[str, float], spacing: float, end: float
) -> None:
    drawing = clamp_layout(sizes, {}, Frame())
    (_, low), (_, high) = lines(drawing, "outline")[1]
    at, scale = screws(drawing), scale_of(drawing)
    assert len(at) == sizes["clamps"]
    assert [(b - a) / scale for a, b in pairwise(at)] == pytest.approx([spacing] * (len(at) - 1))
    assert [(at[0] - low) / scale, (high - at[-1]) / scale] == pytest.approx([end, end])


@pytest.mark.parametrize("name", ["length", "thick", "caul", "end", "spacing"])
@pytest.mark.parametrize("sizes", [INCH, METRIC])
def test_each_dimension_is_as_long_as_it_says(sizes: dict[str, float], name: str) -> None:
    true = {"length": sizes["length"], "thick": sizes["thick"], "caul": sizes.get("caul", 38.1)}
    true |= {"spacing": true["length"] / sizes["clamps"], "end": true["length"] / sizes["clamps"] / 2}
    assert measured(clamp_layout(sizes, ALL, Frame(118)), name) == pytest.approx(true[name])


def test_the_spacing_is_measured_from_screw_to_screw_and_the_end_from_the_end_of_the_joint() -> None:
    drawing = drawn(ASKED)
    at = screws(drawing)
    low = lines(drawing, "outline")[1][0][1]
    assert sorted(y for _, y in tips(drawing, "spacing")) == pytest.approx(at[:2])
    assert sorted(y for _, y in tips(drawing, "end")) == pytest.approx([low, at[0]])


def test_the_glue_line_parts_two_equal_parts_and_has_its_name_and_arrow() -> None:
    drawing = drawn({})
    outer, glue = lines(drawing, "outline")
    xs = sorted({x for x, _ in outer})
    assert glue[0][0] == pytest.approx(sum(xs) / 2)
    assert (xs[1] - xs[0]) / scale_of(drawing) == pytest.approx(2 * 19.05)
    assert tips(drawing, "GLUE LINE") == [glue[1]]
    assert "GLUE LINE" in {label.text for label in drawing.labels}


@pytest.mark.parametrize(("caul", "across"), [({}, 38.1), ({"caul": 50.0}, 50.0)])
def test_a_caul_is_twice_as_thick_as_the_part_unless_said(caul: dict[str, float], across: float) -> None:
    drawing = drawn({}, **caul)  # type: ignore[arg-type] # the names are sizes
    for line in lines(drawing, "thin")[:2]:
        xs = [x for x, _ in line]
        assert (max(xs) - min(xs)) / scale_of(drawing) == pytest.approx(across)


def test_each_screw_has_a_pad_on_either_caul() -> None:
    drawing = drawn({})
    pads = [
        sum(y for _, y in line[:4]) / 4
        for line in lines(drawing, "thin")
        if len(line) == 5 and line[2][1] - line[0][1] == pytest.approx(PAD_TALL_MM)
    ]
    assert sorted(pads) == pytest.approx(sorted(screws(drawing) * 2))


def test_a_single_clamp_stands_in_the_middle_and_has_no_spacing() -> None:
    assert clamps_measure({"length": 100.0, "thick": 20.0, "clamps": 1.0})["end"] == 50
    drawing = drawn({}, length=100.0, clamps=1.0)
    assert "one clamp." in drawing.alt
    with pytest.raises(LessonFault, match=r"no dimension 'spacing'; it has length, thick, caul, end$"):
        drawn({"spacing": Mark("in", "blank")}, clamps=1.0)


@pytest.mark.parametrize("clamps", [0.0, 2.5, -3.0])
def test_clamps_come_in_whole_numbers_from_one_up(clamps: float) -> None:
    with pytest.raises(LessonFault) as caught:
        drawn({}, clamps=clamps)
    assert str(caught.value) == f"{clamps:g} clamps press no joint; give a whole number from 1 up"


def test_a_joint_too_long_for_the_page_is_drawn_smaller() -> None:
    assert drawn({}).scale_text == "1:5"
    assert drawn({}, length=900.0, clamps=8.0).scale_text == "1:10"
    with pytest.raises(LessonFault, match="does not fit 58 × 190 mm at 1:2; scale 1:5 would fit"):
        drawn({}, Frame(58, 190, Fraction(1, 2)))


def test_the_length_moves_over_to_the_handles_where_the_left_side_is_full() -> None:
    length, blank = {"length": Mark("600 mm")}, Mark("mm", "blank")
    for marks, is_right in ((length, False), (length | {"end": blank, "spacing": blank}, True)):
        drawing = clamp_layout(METRIC | {"caul": 40.0}, marks, Frame())
        glue = lines(drawing, "outline")[1][0][0]
        assert all((x > glue) == is_right for x, _ in tips(drawing, "length"))
        assert clashes(drawing) == []


def test_the_sheet_says_what_is_to_be_found_and_the_key_what_it_is() -> None:
    assert drawn(ASKED).alt == (
        "A joint from above: two parts along their glue line, a caul on either side, pressed by 5 clamps at equal "
        "spacing. Length of the joint: 18 in. Distance from either end to the first clamp: to be found. "
        "Spacing from clamp to clamp: to be found."
    )
    assert "from clamp to clamp: 3 5/8 in." in drawn(ASKED | {"spacing": Mark("3 5⁄8 in", "answer")}).alt
