"""A part larger than a sheet: the fewest sheets, and every line of it on one of them."""

from itertools import pairwise
from math import ceil, cos, dist, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coursepack.drafting.sheet import Box, Line
from coursepack.drafting.tiling import OVERLAP_MM, clipped, tiling, turned

ROOM = Box(14, 12, 184, 212)  # 170 × 200
CLEAR = 4.0


def ring(wide: float, high: float, count: int = 120) -> Line:
    turns = [2 * pi * number / count for number in range(count)]
    points = [(wide / 2 * cos(turn), high / 2 * sin(turn)) for turn in turns]
    return (*points, points[0])


def frame(wide: float, high: float) -> Line:
    return (0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high), (0.0, 0.0)


def length(line: Line) -> float:
    return sum(dist(a, b) for a, b in pairwise(line))


@pytest.mark.parametrize(
    ("wide", "high", "count", "is_turned"),
    [
        (100, 150, 1, False),  # fits
        (190, 150, 1, True),  # fits on its side
        (300, 150, 2, False),  # (300 + 8 - 14) / 156 = 1.9
        (1524, 190, 10, False),  # a 60 in rib that one sheet's height holds: (1524 + 8 - 14) / 156 = 9.7
        (1524, 150, 9, True),  # and one that its width holds: (1524 + 8 - 14) / 186 = 8.2
    ],
)  # fmt: skip
def test_a_part_takes_the_fewest_sheets(wide: float, high: float, count: int, is_turned: bool) -> None:  # noqa: FBT001
    found = tiling([frame(wide, high)], ROOM, CLEAR)
    assert (len(found.tiles), found.turned) == (count, is_turned)


def test_a_sheet_with_nothing_on_it_is_left_out() -> None:
    corner: Line = ((0.0, 0.0), (600.0, 0.0), (0.0, 700.0), (0.0, 0.0))
    found = tiling([corner], ROOM, CLEAR)
    assert len(found.tiles) < ceil((608 - 14) / 156) * ceil((708 - 14) / 186)


@given(st.floats(20, 2000), st.floats(20, 800))
def test_all_sheets_together_show_the_whole_line_and_neighbours_overlap(wide: float, high: float) -> None:
    line = ring(wide, high)
    found = tiling([line], ROOM, CLEAR)
    shown = tuple(turned(point) for point in line) if found.turned else line
    for point in shown:
        assert any(inside(point, tile.room) for tile in found.tiles)
    for tile in found.tiles:
        for other in found.tiles:
            if tile.is_beside(other):
                wide_shared = min(tile.room.right, other.room.right) - max(tile.room.left, other.room.left)
                high_shared = min(tile.room.top, other.room.top) - max(tile.room.bottom, other.room.bottom)
                assert min(wide_shared, high_shared) == pytest.approx(OVERLAP_MM)


def inside(point: tuple[float, float], room: Box) -> bool:
    return (
        room.left - 1e-9 <= point[0] <= room.right + 1e-9
        and room.bottom - 1e-9 <= point[1] <= room.top + 1e-9
    )


@given(st.lists(st.tuples(st.floats(-50, 250), st.floats(-50, 250)), min_size=2, max_size=8, unique=True))
def test_what_is_cut_at_a_sheets_edge_lies_in_it_and_is_never_longer(
    points: list[tuple[float, float]],
) -> None:
    line = tuple(points)
    pieces = list(clipped(line, ROOM))
    assert all(inside(point, ROOM) for piece in pieces for point in piece)
    assert sum(length(piece) for piece in pieces) <= length(line) + 1e-6


def test_a_line_that_leaves_and_comes_back_is_two_pieces() -> None:
    line: Line = ((20.0, 50.0), (300.0, 50.0), (300.0, 60.0), (20.0, 60.0))
    assert list(clipped(line, ROOM)) == [((20.0, 50.0), (184.0, 50.0)), ((184.0, 60.0), (20.0, 60.0))]
