"""The elastic line against Wood Handbook GTR-282, Table 9-1: the share kb of W L³ / (E I) at the places it names."""

import pytest

from coursepack.trade.beam_line import Ends, deflection_at

QUARTERS = (0.25, 0.75)


@pytest.mark.parametrize(
    ("ends", "loads", "place", "share"),
    [
        ("supported", (), 0.5, 5 / 384),
        ("clamped", (), 0.5, 1 / 384),
        ("supported", (0.5,), 0.5, 1 / 48),
        ("clamped", (0.5,), 0.5, 1 / 192),
        ("supported", QUARTERS, 0.5, 11 / 768),
        ("supported", QUARTERS, 0.25, 1 / 96),
        ("supported", QUARTERS, 0.75, 1 / 96),
        ("cantilever", (), 1.0, 1 / 8),
        ("cantilever", (1.0,), 1.0, 1 / 3),
    ],
)
def test_the_line_passes_through_the_deflections_of_the_table(
    ends: Ends, loads: tuple[float, ...], place: float, share: float
) -> None:
    assert deflection_at(place, ends, loads) == pytest.approx(share, rel=1e-12)


# Maxwell's law of reciprocal deflections: a load at one place moves another as much as the other way round
@pytest.mark.parametrize("ends", ["supported", "clamped", "cantilever"])
@pytest.mark.parametrize(("one", "other"), [(0.1, 0.7), (0.3, 0.35), (0.5, 0.95)])
def test_two_places_move_each_other_alike(ends: Ends, one: float, other: float) -> None:
    assert deflection_at(one, ends, (other,)) == pytest.approx(deflection_at(other, ends, (one,)), rel=1e-12)


@pytest.mark.parametrize("ends", ["supported", "clamped", "cantilever"])
@pytest.mark.parametrize("place", [0.2, 0.5, 0.9])
def test_a_uniform_load_is_as_many_small_ones(ends: Ends, place: float) -> None:
    many = tuple((number + 0.5) / 400 for number in range(400))
    assert deflection_at(place, ends) == pytest.approx(deflection_at(place, ends, many), rel=1e-4)
