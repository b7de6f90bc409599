"""FAA-H-8083-31, chapter 6: rib cap strips."""

import pytest

from coursepack.shoptext import parse
from coursepack.trade import joints


@pytest.mark.parametrize(
    ("strip", "scarf", "block"), [("1/4 in", "2 1/2 in", "4 in"), ("5/16 in", "3 1/8 in", "5 in")]
)
def test_a_cap_strip_scarf_is_10_thicknesses_and_its_block_16(strip: str, scarf: str, block: str) -> None:
    assert joints.cap_scarf(parse(strip), "scarf") == parse(scarf)
    assert joints.cap_scarf(parse(strip), "block") == parse(block)
