"""Cutting plans against published instances whose optimum is known, and against plain search."""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.stock import cutting_plan
from coursepack.trade.stock_plan import CuttingPlan
from coursepack.trade.stock_ways import full

Counts = dict[int, int]

# Wikipedia, "Cutting stock problem": master rolls of 5600 mm, 308 possible patterns, the optimum is 73 rolls.
PAPER: Counts = {
    1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10, 2050: 12, 2100: 14, 2140: 16,
    2150: 18, 2200: 20,
}  # fmt: skip

# Chvátal, Linear Programming (1983), chapter 13, as given in the NEOS Guide, "Cutting Stock Problem": rolls of
# 100 in, 37 patterns. The optimum follows from the worths below.
CHVATAL: Counts = {45: 97, 36: 610, 31: 395, 14: 211}
CHVATAL_WORTHS = {45: Fraction(1, 2), 36: Fraction(1, 2), 31: Fraction(1, 4), 14: Fraction(0)}

# Falkenauer (1996), uniform class, instance u120_00, from OR-Library (binpack1) and BPPLIB: bins of 150, 120 items;
# BPPLIB lists 48 as lower and upper bound.
FALKENAUER: Counts = {
    98: 3, 96: 2, 94: 1, 93: 2, 92: 1, 91: 2, 90: 1, 87: 1, 86: 1, 85: 2, 84: 5, 83: 2, 82: 2, 81: 1, 80: 3, 79: 2,
    78: 4, 76: 1, 74: 2, 73: 4, 72: 1, 71: 1, 70: 3, 69: 3, 67: 1, 66: 1, 64: 1, 62: 2, 60: 2, 59: 1, 58: 3, 57: 4,
    55: 3, 50: 1, 49: 3, 47: 1, 46: 2, 45: 2, 44: 2, 43: 4, 42: 5, 41: 3, 39: 2, 38: 3, 37: 1, 36: 3, 35: 1, 33: 3,
    32: 2, 30: 3, 29: 1, 28: 1, 27: 2, 26: 1, 25: 2, 24: 1, 23: 2, 20: 1,
}  # fmt: skip

PUBLISHED = {"paper": (PAPER, 5600, 73), "chvatal": (CHVATAL, 100, 453), "u120_00": (FALKENAUER, 150, 48)}


def length(value: Fraction | int) -> Quantity:
    return Quantity.of(value, "mm")


def planned(pieces: Counts, boards: Sequence[tuple[int, int]], prices: Sequence[int] = ()) -> CuttingPlan:
    return cutting_plan(
        [(length(piece), Quantity.of(count)) for piece, count in pieces.items()],
        [(length(board), Quantity.of(count)) for board, count in boards],
        length(0),
        length(0),
        [Quantity.of(price) for price in prices],
    )


@pytest.mark.parametrize("name", PUBLISHED)
def test_a_published_instance_takes_as_many_boards_as_its_optimum(name: str) -> None:
    pieces, board, optimum = PUBLISHED[name]
    plan = planned(pieces, [(board, 1000)])
    assert len(plan.boards) == optimum
    assert plan.bound == Quantity.of(optimum)
    lengths = [[int(piece.number("mm")) for piece in cut.pieces] for cut in plan.boards]
    assert all(sum(cut) <= board for cut in lengths)
    assert Counter(piece for cut in lengths for piece in cut) == pieces


def patterns(pieces: Sequence[int], room: int) -> Iterator[tuple[int, ...]]:
    if not pieces:
        yield ()
        return
    for count in range(room // pieces[0] + 1):
        yield from ((count, *rest) for rest in patterns(pieces[1:], room - count * pieces[0]))


@pytest.mark.parametrize(("pieces", "board", "published"), [(PAPER, 5600, 308), (CHVATAL, 100, 37)])
def test_the_full_ways_hold_every_published_pattern(pieces: Counts, board: int, published: int) -> None:
    widths = sorted(pieces, reverse=True)
    ways = list(full(widths, [pieces[width] for width in widths], board))
    every = {pattern for pattern in patterns(widths, board) if any(pattern)}
    held = {p for p in every if any(all(n <= m for n, m in zip(p, way, strict=True)) for way in ways)}
    assert len(held) == len(every) == published
    assert set(ways) <= every


def test_no_plan_of_the_textbook_instance_takes_fewer_than_453_rolls() -> None:
    widths = sorted(CHVATAL, reverse=True)
    worths = [CHVATAL_WORTHS[width] for width in widths]
    dearest = max(
        sum((n * worth for n, worth in zip(pattern, worths, strict=True)), Fraction(0))
        for pattern in patterns(widths, 100)
    )
    assert dearest == 1
    assert sum(CHVATAL[width] * CHVATAL_WORTHS[width] for width in widths) == Fraction("452.25")


# Plain search


def searched(
    pieces: Sequence[int], boards: Sequence[int], supply: tuple[int, ...], prices: Sequence[int], kerf: int
) -> int | None:
    """Return the least cost by trying every set of pieces on every board, None where there is no plan."""

    @cache
    def rest(open_pieces: int, left: tuple[int, ...]) -> int | None:
        if not open_pieces:
            return 0
        found = []
        for part in _parts_with_the_first(open_pieces):
            parts = [piece for n, piece in enumerate(pieces) if part >> n & 1]
            for row, board in enumerate(boards):
                if left[row] and sum(parts) + kerf * (len(parts) - 1) <= board:
                    after = rest(open_pieces & ~part, (*left[:row], left[row] - 1, *left[row + 1 :]))
                    found += [] if after is None else [after + prices[row]]
        return min(found, default=None)

    return rest((1 << len(pieces)) - 1, supply)


def _parts_with_the_first(mask: int) -> Iterator[int]:
    first = mask & -mask
    part = others = mask & ~first
    while True:
        yield first | part
        if not part:
            return
        part = (part - 1) & others


@settings(max_examples=150, deadline=None)
@given(
    pieces=st.lists(st.integers(2, 12), min_size=1, max_size=7),
    stock=st.lists(
        st.tuples(st.integers(12, 20), st.integers(1, 3), st.integers(1, 9)), min_size=1, max_size=3
    ),
    kerf=st.integers(0, 2),
    data=st.data(),
)
def test_a_small_plan_costs_what_plain_search_finds(
    pieces: list[int], stock: list[tuple[int, int, int]], kerf: int, data: st.DataObject
) -> None:
    is_priced = data.draw(st.booleans())
    boards, supply, prices = ([row[place] for row in stock] for place in range(3))
    least = searched(pieces, boards, tuple(supply), prices if is_priced else [1] * len(stock), kerf)
    rows = [(length(piece), Quantity.of(1)) for piece in pieces]
    given_boards = [(length(board), Quantity.of(n)) for board, n in zip(boards, supply, strict=True)]
    asked = [Quantity.of(price) for price in prices] if is_priced else []
    if least is None:
        with pytest.raises(TradeFault, match="the boards do not give all"):
            cutting_plan(rows, given_boards, length(kerf), length(0), asked)
        return
    plan = cutting_plan(rows, given_boards, length(kerf), length(0), asked)
    assert plan.bound == Quantity.of(least)
    assert (plan.price or Quantity.of(len(plan.boards))) == Quantity.of(least)
