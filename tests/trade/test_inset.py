"""A line inside another: plane geometry by hand."""

from math import cos, hypot, pi, sin

import pytest

from coursepack.trade.inset import cut_at, inset, unfolded


def test_the_inset_of_a_circle_is_a_smaller_circle_about_the_same_middle() -> None:
    around = tuple((50 * cos(pi * n / 90), 50 * sin(pi * n / 90)) for n in range(181))
    assert [hypot(*point) for point in inset(around, 4.0)[1:-1]] == pytest.approx([46.0] * 179)


def test_the_inset_of_a_straight_line_lies_on_its_left() -> None:
    # direction (3, 4) / 5, to the left of it (-4, 3) / 5
    found = inset(((0.0, 0.0), (0.0, 0.0), (3.0, 4.0), (6.0, 8.0)), 10.0)
    assert [x for point in found for x in point] == pytest.approx([-8, 6, -5, 10, -2, 14])


def test_a_line_that_crosses_itself_turns_the_corner_at_once() -> None:
    loop = (0.0, 0.0), (4.0, 4.0), (8.0, 4.0), (8.0, 0.0), (4.0, 0.0), (0.0, 4.0), (-2.0, 6.0)
    assert unfolded(loop) == ((0.0, 0.0), (2.0, 2.0), (0.0, 4.0), (-2.0, 6.0))


def test_a_line_that_nowhere_crosses_itself_stays_as_it_is() -> None:
    line = (0.0, 0.0), (4.0, 4.0), (8.0, 4.0), (8.0, 0.0)
    assert unfolded(line) == line


def test_a_line_is_cut_where_it_passes_a_station() -> None:
    line = (10.0, 8.0), (6.0, 4.0), (0.0, 2.0), (4.0, 0.0), (10.0, -3.0)
    assert cut_at(line, 7.0) == ((7.0, 5.0), (6.0, 4.0), (0.0, 2.0), (4.0, 0.0), (7.0, -1.5))


def test_a_line_that_ends_ahead_of_a_station_keeps_its_end() -> None:
    line = (5.0, 8.0), (0.0, 2.0), (10.0, -3.0)
    assert cut_at(line, 6.0) == ((5.0, 8.0), (0.0, 2.0), (6.0, -1.0))
