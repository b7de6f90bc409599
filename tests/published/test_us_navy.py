"""U.S. Navy courses: NAVEDTRA 14043, Builder 3 & 2, volume 1, chapter 3; Engineering Aid Basic, 6-3."""

import pytest

from coursepack.shoptext import parse
from coursepack.trade import machines, milling

HALF_OF_A_HUNDREDTH = 0.005


def test_a_radius_of_4_inches_takes_a_half_inch_blade_in_builder_chapter_3() -> None:
    assert machines.tightest_radius(parse("1/2 in")) == parse("4 in")


def test_a_band_goes_once_round_a_wheel_and_twice_between_the_centres_in_builder_chapter_3() -> None:
    # Two 14 in wheels 22 in apart, worked by hand: 44 + 14 pi.
    found = machines.band_length(parse("14 in"), parse("22 in"))
    assert float(found.number("in")) == pytest.approx(87.98, abs=HALF_OF_A_HUNDREDTH)


def test_a_board_foot_is_a_foot_by_a_foot_by_an_inch_in_engineering_aid_6_3() -> None:
    assert milling.board_feet(parse("1 in"), parse("1 ft"), parse("1 ft")) == parse("1 bd ft")


def test_under_an_inch_counts_as_an_inch_in_engineering_aid_6_3() -> None:
    assert milling.board_feet(parse("1/2 in"), parse("6 in"), parse("2 ft")) == parse("1 bd ft")
