"""ANC-18, Design of Wood Aircraft Structures (1944)."""

import pytest

from coursepack.shoptext import parse
from coursepack.trade import joints, slope

TWO_DECIMALS = 0.0051

# A class example printed for the same formula: strengths 87.6 along the grain and 2 across it.
CLASS_EXAMPLE = ((5, 66.11), (10, 38.24), (15, 22.65), (20, 14.58), (30, 7.49), (45, 3.91))


@pytest.mark.parametrize(
    ("direction", "distance"), [("along", "1 1/2 in"), ("across", "1/2 in"), ("end", "2 in")]
)
def test_bolts_keep_the_distances_of_paragraph_2_9041(direction: str, distance: str) -> None:
    assert joints.bolt_spacing(parse("1/2 in"), direction) == parse(distance)


@pytest.mark.parametrize(("degrees", "printed"), CLASS_EXAMPLE)
def test_strength_at_an_angle_follows_eq_2_87(degrees: int, printed: float) -> None:
    found = slope.hankinson(parse("87.6 MPa"), parse("2 MPa"), parse(f"{degrees} deg"))
    assert float(found.number("MPa")) == pytest.approx(printed, abs=TWO_DECIMALS)
