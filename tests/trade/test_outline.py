from math import radians, tan

import pytest

from coursepack.place import TradeFault
from coursepack.trade.outline import bevelled_section, planed_levels, rear_height, rectangle, shrunk


def test_a_bevel_is_positive_where_its_edge_rises_going_aft() -> None:
    corners = list(bevelled_section(100, 20, 5, 2))
    assert corners[0] == pytest.approx((0, 0))
    assert corners[1] == pytest.approx((20, 20 * tan(radians(2))))
    assert corners[2] == pytest.approx((20, 100 + 20 * tan(radians(5))))
    assert corners[3] == (0, 100)


def test_edges_that_slope_inwards_take_height_off_the_rear() -> None:
    assert rear_height(100, 20, -45, 45) == pytest.approx(60)


@pytest.mark.parametrize(
    ("front", "width", "top", "bottom", "message"),
    [
        (0, 20, 0, 0, "needs a positive height"),
        (100, 20, -50, 0, "a bevel of -50 degrees"),
        (30, 20, -45, 45, "leave no rear face"),
    ],
)
def test_a_section_that_cannot_be_is_refused(
    front: float, width: float, top: float, bottom: float, message: str
) -> None:
    with pytest.raises(TradeFault, match=message):
        bevelled_section(front, width, top, bottom)


def test_a_rectangle_stands_about_its_centre() -> None:
    assert rectangle(4, 2, (10, 5)) == ((8, 4), (12, 4), (12, 6), (8, 6))
    with pytest.raises(TradeFault, match="positive width and thickness"):
        rectangle(0, 2)


def test_a_change_may_be_drawn_larger_than_it_is() -> None:
    assert shrunk(100, 98) == 98
    assert shrunk(100, 98, 5) == 90


def test_equal_passes_end_on_the_finished_faces() -> None:
    top, bottom = planed_levels(30, 20, 3, 2)
    assert top == pytest.approx((28, 26, 24))
    assert bottom == pytest.approx((2, 4))
    assert top[-1] - bottom[-1] == pytest.approx(20)


@pytest.mark.parametrize(
    ("rough", "finish", "top", "bottom"),
    [(20, 20, 1, 1), (20, 25, 1, 1), (20, 0, 1, 1), (20, 10, 0, 0), (20, 10, -1, 2)],
)
def test_passes_that_plane_nothing_are_refused(rough: float, finish: float, top: int, bottom: int) -> None:
    with pytest.raises(TradeFault):
        planed_levels(rough, finish, top, bottom)
