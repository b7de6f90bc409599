import pytest
from shapely import LineString, MultiLineString, Polygon

from coursepack.drafting.hatching import within
from coursepack.drafting.sheet import Line, Stroke

# a channel open at the top, and a square hole in its left wall
CHANNEL: Line = ((0, 0), (30, 0), (30, 20), (20, 20), (20, 6), (10, 6), (10, 20), (0, 20))
HOLE: Line = ((3, 12), (7, 12), (7, 16), (3, 16))


@pytest.mark.parametrize("height", [3.0, 6.5, 11.3, 14.0, 19.9, 25.0])
@pytest.mark.parametrize("rise", [0.0, 2.5, -4.0])
def test_a_line_is_kept_where_another_geometry_library_keeps_it(height: float, rise: float) -> None:
    line: Line = ((-5.0, height), (12.0, height + rise), (40.0, height))
    wood = Polygon(CHANNEL, [HOLE])
    kept = within(Stroke("ring", (line,)), (CHANNEL, HOLE)).lines
    assert MultiLineString(kept).length == pytest.approx(LineString(line).intersection(wood).length)
    assert all(wood.buffer(1e-9).covers(LineString(part)) for part in kept)


def test_a_line_that_bends_inside_the_wood_stays_one_line() -> None:
    line: Line = ((1.0, 1.0), (5.0, 3.0), (9.0, 1.0))
    assert within(Stroke("ring", (line,)), (CHANNEL,)).lines == (line,)
