"""Common practice, without a document; every number here is plain arithmetic, worked apart from the program."""

import pytest

from coursepack.quantity import Quantity, to_mark
from coursepack.shoptext import parse
from coursepack.trade import gluing, joints, milling, spar

HALF_OF_A_TEN_THOUSANDTH = 0.00005
HALF_OF_A_HUNDREDTH = 0.005


def test_a_spar_bevelled_8_degrees_on_top_and_2_below_loses_both_at_the_rear() -> None:
    # 5 - (0.14054 + 0.03492) = 4.82454 in; both edges fall inward, so the bottom rises going aft.
    rear = spar.rear_face(parse("5 in"), parse("1 in"), parse("-8 deg"), parse("2 deg"))
    assert float(rear.number("in")) == pytest.approx(4.82454, abs=HALF_OF_A_TEN_THOUSANDTH)
    assert to_mark(rear, parse("1/64 in")) == parse("4 53/64 in")


def test_a_five_sixteenths_excess_goes_in_five_passes_of_a_sixteenth() -> None:
    assert milling.passes(parse("5/16 in"), parse("1/16 in")) == Quantity.of(5)


def test_a_blank_already_to_size_takes_no_pass() -> None:
    assert milling.passes(parse("0 in"), parse("1/16 in")) == Quantity.of(0)


def test_a_six_inch_board_gives_seven_strips_of_three_quarters_with_an_eighth_kerf() -> None:
    # 7 × 3/4 + 6 × 1/8 = 6 in to the last fraction.
    assert milling.strips(parse("6 in"), parse("3/4 in"), parse("1/8 in")) == Quantity.of(7)


def test_a_96_inch_board_gives_eleven_pieces_of_8_inches_not_twelve() -> None:
    # 12 × 8 + 11 × 1/8 is over 96 in.
    assert milling.strips(parse("96 in"), parse("8 in"), parse("1/8 in")) == Quantity.of(11)


@pytest.mark.parametrize(
    ("slope", "degrees"), [("1:8", 7.13), ("1:10", 5.71), ("1:12", 4.76), ("1:15", 3.81)]
)
def test_scarf_angles_are_those_worked_by_hand(slope: str, degrees: float) -> None:
    assert float(joints.scarf_angle(parse(slope)).number("deg")) == pytest.approx(
        degrees, abs=HALF_OF_A_HUNDREDTH
    )


def test_a_scarf_5_thick_and_12_long_has_a_face_of_13() -> None:
    # The triangle of 5, 12 and 13, 2 in wide.
    slope = parse("5 in") / parse("12 in")
    assert float(joints.scarf_area(parse("2 in"), parse("5 in"), slope).number("in²")) == pytest.approx(26)


def test_two_lines_of_12_square_feet_at_50_pounds_a_thousand_take_1_2_pounds_of_glue() -> None:
    # 12 × 2 × 50 / 1,000
    assert gluing.glue_weight(parse("12 ft²"), parse("0.05 lb/ft²"), parse("2")) == parse("1.2 lb")
