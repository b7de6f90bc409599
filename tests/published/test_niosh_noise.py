"""NIOSH recommended limit for noise: 85 dBA for 8 h, halved every 3 dB."""

import pytest

from coursepack.quantity import Quantity
from coursepack.shoptext import parse
from coursepack.trade import hearing

TABLE = ((85, "8 h"), (88, "4 h"), (91, "2 h"), (94, "60 min"), (97, "30 min"), (100, "15 min"))


@pytest.mark.parametrize(("level", "time"), TABLE)
def test_time_halves_every_3_decibels(level: int, time: str) -> None:
    found = hearing.noise_hours(Quantity.of(level, "dBA"), "NIOSH")
    assert float(found.number("h")) == pytest.approx(float(parse(time).number("h")))


def test_four_hours_at_85_and_two_at_88_fill_the_day() -> None:
    # 4/8 + 2/4, worked by hand.
    found = hearing.noise_dose([(parse("4 h"), parse("85 dBA")), (parse("2 h"), parse("88 dBA"))], "NIOSH")
    assert float(found.number("%")) == pytest.approx(100)
