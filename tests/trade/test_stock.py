"""Cutting plans: what they refuse, the kerf and the trim, and laws that hold for every plan."""

import math
import subprocess
import sys
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coursepack.formulatext import read
from coursepack.place import FormulaFault, TradeFault
from coursepack.quantity import Quantity
from coursepack.trade import stock_mix
from coursepack.trade.catalogue import FUNCTIONS
from coursepack.trade.stock import cutting_plan
from coursepack.trade.stock_plan import (
    CuttingPlan,
    boards_needed,
    longest_offcut,
    offcut,
    plan_price,
    plan_yield,
    stock_length,
)
from coursepack.trade.stock_solver import Answer
from coursepack.working import work

Number = Fraction | int
Rows = Sequence[tuple[Number, int]]


def rows(lengths: Rows, unit: str = "in") -> list[tuple[Quantity, Quantity]]:
    return [(Quantity.of(length, "in").to(unit), Quantity.of(count)) for length, count in lengths]


def planned(
    pieces: Rows,
    boards: Rows,
    kerf: Number = 0,
    trim: Number = 0,
    prices: Sequence[Number] = (),
    unit: str = "in",
) -> CuttingPlan:
    loss, lost = (Quantity.of(size, "in").to(unit) for size in (kerf, trim))
    priced = [Quantity.of(price) for price in prices]
    return cutting_plan(rows(pieces, unit), rows(boards, unit), loss, lost, priced)


def inches(quantity: Quantity) -> Fraction:
    return Fraction(quantity.number("in"))


def cuts(plan: CuttingPlan) -> list[tuple[Number, list[Number]]]:
    return [(inches(board.length), [inches(piece) for piece in board.pieces]) for board in plan.boards]


FAULTS = {
    'cutting_plan([["3 ft", 1]], [["30 in", 4]], "0 in", "0 in")': (
        "a piece of 3 ft is longer than every board: 30 in less its trim is the longest;"
        " give a longer board, or a scarfed piece as two"
    ),
    'cutting_plan([["30 in", 1]], [["30 in", 4]], "0 in", "1/16 in")': (
        "a piece of 30 in is longer than every board: 30 in less its trim is the longest;"
        " give a longer board, or a scarfed piece as two"
    ),
    'cutting_plan([["30 in", 7]], [["96 in", 2]], "0 in", "0 in")': (
        "the boards do not give all 7 pieces; give more boards, or longer ones"
    ),
    'cutting_plan([["8 in", 2], ["5 in", 2]], [["13 in", 1], ["10 in", 1]], "0 in", "0 in")': (
        "the boards do not give all 4 pieces; give more boards, or longer ones"
    ),
    'cutting_plan([["30 in", 1.5]], [["96 in", 2]], "0 in", "0 in")': (
        "piece count is 1.5; piece count must be a whole number"
    ),
    'cutting_plan([["30 in", 1]], [["96 in", 0]], "0 in", "0 in")': (
        "board count is 0; board count must be above zero"
    ),
    'cutting_plan([["-30 in", 1]], [["96 in", 1]], "0 in", "0 in")': (
        "piece length is -30 in; piece length must be above zero"
    ),
    'cutting_plan([["30 in", 1]], [["96 in", 1]], "-1/8 in", "0 in")': (
        "kerf is -1/8 in; kerf must be zero or more"
    ),
    'cutting_plan([["30 in", 1]], [["96 in", 1]], "1/8 in", "-1 in")': (
        "trim is -1 in; trim must be zero or more"
    ),
    'cutting_plan([["30 in", 1]], [["96 in", 1]], "1/8 in", "0 in", [4, 5])': (
        "there are 2 prices for 1 rows of boards; give one price for each row"
    ),
    'cutting_plan([["30 in", 1]], [["96 in", 1]], "1/8 in", "0 in", [0.001])': (
        "price is 0; price must be above zero"
    ),
    'cutting_plan([["1 in", 5001]], [["96 in", 99]], "0 in", "0 in")': (
        "there are 5001 pieces of 1 lengths; plan at most 5000 of 60 lengths at a time"
    ),
    'cutting_plan([["2 in", 40], ["2.1 in", 40], ["2.2 in", 40], ["2.3 in", 40], ["2.4 in", 40]], [["16 ft", 9]], "0 in", "0 in")': (
        "there are more than 120000 ways to cut these boards;"
        " plan the shortest pieces apart, or cut them from the offcuts"
    ),
    'plan_price(cutting_plan([["30 in", 1]], [["96 in", 1]], "1/8 in", "0 in"))': (
        "the boards of this plan have no price; give cutting_plan a list of prices last"
    ),
}


@pytest.mark.parametrize("formula", FAULTS)
def test_what_cannot_be_planned_is_a_fault_that_says_what_can(formula: str) -> None:
    with pytest.raises(FormulaFault) as caught:
        work(read(formula, FUNCTIONS), {})
    assert str(caught.value) == FAULTS[formula]


@pytest.mark.parametrize("name", ["piece", "board"])
def test_a_plan_of_nothing_is_a_fault(name: str) -> None:
    one: Rows = [(30, 1)]
    with pytest.raises(TradeFault, match=f"there is no {name}; give rows of a length and a count"):
        planned([] if name == "piece" else one, [] if name == "board" else one)


# 5 + 3 + 2 and 4 + 3 + 3; longest first begins with 5 + 4 and needs a third board
TIGHT: Rows = [(5, 1), (4, 1), (3, 3), (2, 1)]
TWO_BOARDS: Rows = [(10, 5)]


def test_the_solver_finds_what_longest_first_does_not() -> None:
    assert sum(length * count for length, count in TIGHT) == 20
    assert len(planned(TIGHT, TWO_BOARDS).boards) == 2
    assert len(longest_first([5, 4, 3, 3, 3, 2], 10, 0)) == 3


def test_a_solver_that_runs_out_of_time_is_a_fault_and_no_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(stock_mix, "least", lambda *_: Answer(None, is_open=True))
    with pytest.raises(TradeFault, match=r"no plan was proved in 20 s: cheaper ones than of 2 boards do not"):
        planned(TIGHT, TWO_BOARDS)


@pytest.mark.parametrize("times", [0, 9])
def test_a_plan_of_the_solver_that_does_not_hold_is_a_fault(
    monkeypatch: pytest.MonkeyPatch, times: int
) -> None:
    monkeypatch.setattr(stock_mix, "least", lambda costs, _: Answer((times,) * len(costs)))
    with pytest.raises(TradeFault, match="the solver's plan does not hold when it is counted"):
        planned(TIGHT, TWO_BOARDS)


# Kerf and trim

EIGHTH = Fraction(1, 8)


def test_three_pieces_that_use_a_board_up_take_two_kerfs() -> None:
    plan = planned([(32, 3)], [(Fraction(385, 4), 2)], EIGHTH)
    assert len(plan.boards) == 1
    assert inches(offcut(plan)) == 0


def test_a_board_a_hair_shorter_does_not_give_them() -> None:
    assert len(planned([(32, 3)], [(Fraction(385, 4) - Fraction(1, 10**9), 2)], EIGHTH).boards) == 2


def test_three_pieces_that_leave_an_offcut_take_three_kerfs() -> None:
    assert inches(offcut(planned([(32, 3)], [(97, 1)], EIGHTH))) == 97 - 96 - 3 * EIGHTH


def test_less_than_a_kerf_left_over_is_sawdust() -> None:
    assert inches(offcut(planned([(32, 3)], [(96 + Fraction(5, 16), 1)], EIGHTH))) == 0


def test_the_trim_is_lost_at_both_ends() -> None:
    assert inches(offcut(planned([(90, 1)], [(96, 1)], 0, Fraction(1, 2)))) == 5


def test_a_board_that_is_all_trim_is_not_used() -> None:
    assert cuts(planned([(10, 1)], [(2, 5), (12, 1)], 0, 1)) == [(12, [10])]


# What is best


def test_with_prices_three_cheap_boards_go_before_one_dear() -> None:
    plan = planned([(30, 3)], [(96, 9), (30, 9)], 0, 0, [10, 3])
    assert cuts(plan) == [(30, [30])] * 3
    assert plan_price(plan) == Quantity.of(9)
    assert plan.bound == Quantity.of(9)


def test_without_prices_one_long_board_goes_before_three_short() -> None:
    assert cuts(planned([(30, 3)], [(30, 9), (96, 9)])) == [(96, [30, 30, 30])]


def test_of_plans_with_as_many_boards_the_shorter_boards_are_taken() -> None:
    assert cuts(planned([(30, 4)], [(96, 9), (60, 9)])) == [(60, [30, 30])] * 2


def test_no_more_boards_are_used_than_there_are() -> None:
    assert cuts(planned([(30, 4)], [(96, 1), (30, 9)])) == [(96, [30, 30, 30]), (30, [30])]


def test_prices_count_to_the_hundredth() -> None:
    assert plan_price(planned([(30, 1)], [(96, 1)], 0, 0, [Fraction(12345, 1000)])) == Quantity.of(
        Fraction(1235, 100)
    )


# for twelve benches: parts with their counts, and lengths of boards
CLASSES: dict[str, tuple[Rows, list[int]]] = {
    "ribs": ([(28, 12), (22, 24), (20, 12), (16, 12), (14, 24), (11, 24), (10, 12), (9, 12)], [72]),
    "blocks": ([(48, 12), (36, 12), (24, 24), (12, 24), (6, 48), (5, 48), (4, 48), (3, 96)], [96, 120]),
}


@pytest.mark.parametrize("name", CLASSES)
def test_a_class_of_twelve_benches_with_eight_parts_needs_no_more_than_its_wood(name: str) -> None:
    parts, boards = CLASSES[name]
    plan = planned(parts, [(board, 60) for board in boards], EIGHTH)
    wood = sum((length + EIGHTH) * count for length, count in parts)
    assert len(plan.boards) == math.ceil(wood / (max(boards) + EIGHTH))


def test_a_plan_says_its_boards_and_what_is_left_on_one_line() -> None:
    plan = planned([(30, 4), (22, 6)], [(96, 10)], EIGHTH, Fraction(1, 2))
    assert str(plan) == (
        "3 boards, the fewest that suffice: 96 in into 3 × 30 in, 4 5/8 in left;"
        " 96 in into 30 in + 2 × 22 in, 20 5/8 in left; 96 in into 4 × 22 in, 6 1/2 in left"
    )
    assert str(planned([(30, 2)], [(30, 2)], 0, 0, [4])) == (
        "2 boards, for 8, the least that suffices: 2 of 30 in into 30 in, 0 in left"
    )


def test_the_figures_of_a_plan_are_those_of_its_boards() -> None:
    plan = planned([(30, 4), (22, 6)], [(96, 10)], EIGHTH, Fraction(1, 2))
    assert stock_length(plan) == Quantity.of(3 * 96, "in")
    assert offcut(plan) == Quantity.of(Fraction(37, 8) + Fraction(165, 8) + Fraction(13, 2), "in")
    assert longest_offcut(plan) == Quantity.of(Fraction(165, 8), "in")
    assert plan_yield(plan) == Quantity.of(Fraction(100 * (4 * 30 + 6 * 22), 3 * 96), "%")


# Laws

LENGTHS = st.fractions(2, 40, max_denominator=16)
PIECES = st.lists(st.tuples(LENGTHS, st.integers(1, 6)), min_size=1, max_size=5)
KERFS = st.fractions(0, Fraction(1, 4), max_denominator=32)
TRIMS = st.fractions(0, 1, max_denominator=16)
LONG = st.fractions(42, 120, max_denominator=8)
quick = settings(max_examples=40, deadline=None)


def longest_first(pieces: Sequence[Number], board: Number, kerf: Number) -> list[Fraction]:
    """Return what is left of each board when every piece goes to the first board that still has room for it."""
    left: list[Fraction] = []
    for piece in sorted(pieces, reverse=True):
        place = next((n for n, room in enumerate(left) if room >= piece), None)
        if place is None:
            left.append(Fraction(board))
            place = len(left) - 1
        left[place] -= piece + kerf
    return left


def each(pieces: Rows) -> list[Fraction]:
    return [Fraction(length) for length, count in pieces for _ in range(count)]


@quick
@given(pieces=PIECES, boards=st.lists(LONG, min_size=1, max_size=3), kerf=KERFS, trim=TRIMS)
def test_a_plan_never_exceeds_a_board_and_cuts_every_piece_once(
    pieces: Rows, boards: list[Fraction], kerf: Fraction, trim: Fraction
) -> None:
    plan = planned(pieces, [(board, 30) for board in boards], kerf, trim)
    for board, cut in zip(plan.boards, cuts(plan), strict=True):
        length, parts = cut
        assert parts == sorted(parts, reverse=True)
        room = length - 2 * trim - sum(parts) - (len(parts) - 1) * kerf
        assert room >= 0
        assert inches(board.offcut) == max(room - kerf, 0)
    assert Counter(piece for _, parts in cuts(plan) for piece in parts) == Counter(each(pieces))


@quick
@given(pieces=PIECES, board=LONG, kerf=KERFS, trim=TRIMS)
def test_a_plan_lies_between_the_wood_it_needs_and_longest_first(
    pieces: Rows, board: Fraction, kerf: Fraction, trim: Fraction
) -> None:
    count = len(planned(pieces, [(board, 30)], kerf, trim).boards)
    wood = sum(piece + kerf for piece in each(pieces)) / (board - 2 * trim + kerf)
    assert wood <= count <= len(longest_first(each(pieces), board - 2 * trim, kerf))


@quick
@given(pieces=PIECES, boards=st.lists(LONG, min_size=1, max_size=3), kerf=KERFS, data=st.data())
def test_a_plan_does_not_depend_on_units_nor_on_the_order_of_the_pieces(
    pieces: Rows, boards: list[Fraction], kerf: Fraction, data: st.DataObject
) -> None:
    stock = [(board, 30) for board in boards]
    other = planned(data.draw(st.permutations(list(pieces))), stock, kerf, unit="mm")
    assert cuts(other) == cuts(planned(pieces, stock, kerf))
    assert other.boards[0].offcut.unit_name == "mm"


@quick
@given(pieces=PIECES, board=LONG, price=st.integers(1, 9))
def test_one_kind_of_board_costs_least_where_it_is_fewest(pieces: Rows, board: Fraction, price: int) -> None:
    dear = planned(pieces, [(board, 30)], 0, 0, [price])
    assert plan_price(dear) == boards_needed(planned(pieces, [(board, 30)])) * Quantity.of(price)


SAME = """
import sys
from coursepack.trade.catalogue import FUNCTIONS
from coursepack.formulatext import read
from coursepack.working import work
assert "scipy.optimize" not in sys.modules
print(work(read(sys.argv[1], FUNCTIONS), {}))
assert "scipy.optimize" in sys.modules
"""


def test_another_process_makes_the_same_plan_and_reads_the_solver_only_for_it() -> None:
    formula = (
        'cutting_plan([["5 in", 3], ["4 in", 4], ["3 in", 9], ["2 in", 3]], [["10 in", 9]], "0 in", "0 in")'
    )
    texts = {
        subprocess.run(
            [sys.executable, "-c", SAME, formula],
            env={"PYTHONHASHSEED": seed},
            check=True,
            capture_output=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert texts == {f"{work(read(formula, FUNCTIONS), {})}\n".encode()}
