"""PS 20, American Softwood Lumber Standard: least dressed sizes, as reprinted."""

import pytest

from coursepack.shoptext import parse
from coursepack.trade import milling

# Nominal, dry, green: boards and dimension lumber.
THICKNESSES = (
    ("3/8 in", "5/16 in", "11/32 in"),
    ("1/2 in", "7/16 in", "15/32 in"),
    ("5/8 in", "9/16 in", "19/32 in"),
    ("3/4 in", "5/8 in", "11/16 in"),
    ("1 in", "3/4 in", "25/32 in"),
    ("1 1/4 in", "1 in", "1 1/32 in"),
    ("1 1/2 in", "1 1/4 in", "1 9/32 in"),
    ("2 in", "1 1/2 in", "1 9/16 in"),
    ("2 1/2 in", "2 in", "2 1/16 in"),
    ("3 in", "2 1/2 in", "2 9/16 in"),
    ("3 1/2 in", "3 in", "3 1/16 in"),
    ("4 in", "3 1/2 in", "3 9/16 in"),
    ("4 1/2 in", "4 in", "4 1/16 in"),
)

# Nominal, dry, green: face widths.
WIDTHS = (
    ("2 in", "1 1/2 in", "1 9/16 in"),
    ("3 in", "2 1/2 in", "2 9/16 in"),
    ("4 in", "3 1/2 in", "3 9/16 in"),
    ("5 in", "4 1/2 in", "4 5/8 in"),
    ("6 in", "5 1/2 in", "5 5/8 in"),
    ("7 in", "6 1/2 in", "6 5/8 in"),
    ("8 in", "7 1/4 in", "7 1/2 in"),
    ("9 in", "8 1/4 in", "8 1/2 in"),
    ("10 in", "9 1/4 in", "9 1/2 in"),
    ("11 in", "10 1/4 in", "10 1/2 in"),
    ("12 in", "11 1/4 in", "11 1/2 in"),
    ("14 in", "13 1/4 in", "13 1/2 in"),
    ("16 in", "15 1/4 in", "15 1/2 in"),
)

# Nominal, dry, green: timbers by the rule, 1/2 in off 5 and 6, 3/4 dry or 1/2 green off 7 to 15, 1 in off from 16.
TIMBERS = (
    ("5 in", "4 1/2 in", "4 1/2 in"),
    ("6 in", "5 1/2 in", "5 1/2 in"),
    ("8 in", "7 1/4 in", "7 1/2 in"),
    ("15 in", "14 1/4 in", "14 1/2 in"),
    ("16 in", "15 in", "15 in"),
)


@pytest.mark.parametrize(("nominal", "dry", "green"), THICKNESSES + TIMBERS)
def test_dressed_thickness_is_the_row(nominal: str, dry: str, green: str) -> None:
    assert milling.dressed(parse(nominal), "thickness", "dry") == parse(dry)
    assert milling.dressed(parse(nominal), "thickness", "green") == parse(green)


@pytest.mark.parametrize(("nominal", "dry", "green"), WIDTHS)
def test_dressed_width_is_the_row(nominal: str, dry: str, green: str) -> None:
    assert milling.dressed(parse(nominal), "width", "dry") == parse(dry)
    assert milling.dressed(parse(nominal), "width", "green") == parse(green)
