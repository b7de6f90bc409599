"""Army Ordnance courses OD1621 and OD1642: verniers."""

from coursepack.shoptext import parse
from coursepack.trade import machines


def test_the_reading_of_figure_45_in_od1642_is_1_486_inches() -> None:
    main = parse("1.000 in") + parse("0.400 in") + parse("0.075 in")  # 1.000 + 0.400 + 3 × 0.025
    assert machines.vernier_reading(main, parse("11"), parse("0.001 in")) == parse("1.486 in")


def test_25_lines_of_a_thousandth_are_a_whole_division_of_the_scale_in_od1621() -> None:
    step = parse("0.025 in") / parse("25")
    assert machines.vernier_reading(parse("0 in"), parse("25"), step) == parse("0.025 in")
