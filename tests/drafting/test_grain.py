from itertools import pairwise
from math import atan2, degrees, dist

import pytest

from coursepack.drafting.grain import drawn_times, end_grain, grain_measure
from coursepack.drafting.sheet import Drawing, Frame, Mark
from tests.drafting.measuring import outline

BLANK = {"wide": 127.0, "thick": 38.1, "wide_after": 125.5, "thick_after": 37.9, "rings": 0.0}


def drawn(marks: dict[str, Mark] | None = None, **sizes: float) -> Drawing:
    return end_grain(BLANK | sizes, marks or {"wide": Mark("5 in")}, Frame(118))


def test_the_true_sizes_are_those_given() -> None:
    assert grain_measure(BLANK) == BLANK


def test_a_change_that_shows_is_drawn_as_it_is() -> None:
    assert drawn_times(BLANK | {"wide_after": 118.0}, 0.5) == 1


@pytest.mark.parametrize(("after", "times"), [(124.5, 2), (125.5, 5), (126.5, 10), (127.0, 1)])
def test_a_small_change_is_drawn_larger(after: float, times: int) -> None:
    assert drawn_times(BLANK | {"wide_after": after, "thick_after": 38.1}, 0.5) == times


@pytest.mark.parametrize(("asked", "times"), [(5, 5), (3, 2), (1, 1), (50, 10)])
def test_a_change_is_drawn_as_large_as_is_asked_but_no_larger_than_the_section_bears(
    asked: float, times: int
) -> None:
    assert drawn_times(BLANK | {"wide_after": 124.5, "thick_after": 38.1, "times": asked}, 0.5) == times


def test_the_larger_change_is_told_under_the_figure_and_to_who_cannot_see_it() -> None:
    drawing = drawn()
    assert "Scale 1:2; shrinkage drawn 5 times as large." in {x.text for x in drawing.labels}
    assert "The change of size is drawn 5 times as large." in drawing.alt


def test_swelling_is_called_swelling() -> None:
    assert any("swelling drawn" in label.text for label in drawn(wide_after=128.0).labels)


def test_a_blank_stands_upright_in_the_column_where_it_is_larger_so() -> None:
    level, upright = (end_grain(BLANK, {"wide": Mark("5 in")}, Frame(width)) for width in (118.0, 58.0))
    for drawing, size in ((level, (127.0, 38.1)), (upright, (38.1, 127.0))):
        wet = next(line for stroke in drawing.strokes if stroke.kind == "thin" for line in stroke.lines)
        assert drawing.scale_text == "1:2"
        assert (2 * (wet[1][0] - wet[0][0]), 2 * (wet[2][1] - wet[1][1])) == pytest.approx(size)


@pytest.mark.parametrize("rings", [0.0, 30.0, 45.0, 60.0, 90.0])
@pytest.mark.parametrize(("width", "turned"), [(118.0, 0.0), (58.0, 90.0)])
def test_rings_cross_the_middle_at_their_angle_to_the_wide_face(
    rings: float, width: float, turned: float
) -> None:
    drawing = end_grain(BLANK | {"rings": rings}, {"wide": Mark("5 in")}, Frame(width))
    corners = outline(drawing)
    middle = ((corners[0][0] + corners[2][0]) / 2, (corners[0][1] + corners[2][1]) / 2)
    chords = [
        (a, b)
        for stroke in drawing.strokes
        if stroke.kind == "ring"
        for line in stroke.lines
        for a, b in pairwise(line)
    ]
    a, b = min(chords, key=lambda c: dist(((c[0][0] + c[1][0]) / 2, (c[0][1] + c[1][1]) / 2), middle))
    off = (degrees(atan2(b[1] - a[1], b[0] - a[0])) - rings - turned + 90) % 180 - 90
    assert abs(off) < 4.0
