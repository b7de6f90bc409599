"""A law of splines: what is smooth enough already is not bent."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coursepack.trade.spline import through

# Close knots magnify what floats lose.
NOISE = 1e-6


@given(
    cubic=st.tuples(*[st.floats(-3, 3)] * 4),
    knots=st.lists(st.integers(0, 40), min_size=5, max_size=12, unique=True),
)
def test_a_spline_through_points_of_a_cubic_is_the_cubic(cubic: tuple[float, ...], knots: list[int]) -> None:
    a, b, c, d = cubic

    def height(x: float) -> float:
        return a + x * (b + x * (c + x * d))

    places = sorted(knot / 10 for knot in knots)
    first_slope = b + places[0] * (2 * c + 3 * d * places[0])
    for curve in (
        through([(x, height(x)) for x in places]),
        through([(x, height(x)) for x in places], first_slope),
    ):
        for x in range(41):
            if places[0] <= x / 10 <= places[-1]:
                assert curve.at(x / 10) == pytest.approx(height(x / 10), abs=NOISE)
