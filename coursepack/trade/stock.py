"""Cutting pieces to length from boards: the fewest boards, or those of least cost, and what is left of them."""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity, to_mark
from coursepack.trade.limits import above_zero, not_below_zero, whole_number
from coursepack.trade.stock_mix import best_mix
from coursepack.trade.stock_plan import (
    CutBoard,
    CuttingPlan,
    boards_needed,
    longest_offcut,
    offcut,
    plan_price,
    plan_yield,
    stock_length,
)
from coursepack.trade.stock_ways import Order, Way

Rows = Sequence[tuple[Quantity, Quantity]]

MOST_KINDS = 60
MOST_PIECES = 5_000
_CENT = Quantity.of(Fraction(1, 100))
_SOURCE = (
    "integer programming over cutting patterns: Gilmore and Gomory, Operations Research 9 (1961); "
    "n pieces that use a board up take n - 1 kerfs, others n: common practice"
)


def cutting_plan(
    pieces: Rows, boards: Rows, kerf: Quantity, trim: Quantity, prices: Sequence[Quantity] = ()
) -> CuttingPlan:
    """Return the plan of the fewest boards, or with a price a board for each row of boards, of the least cost.

    Takes rows of a length and a count. Of plans as good, that of the least length of boards is taken. Every cut
    loses a kerf, so n pieces from a board lose n, or n − 1 where they use it up; less than a kerf left over is
    lost. The trim is lost at each of the two ends of every board, its own kerf counted in it. Lengths are exact
    fractions (one that is not counts to twelve digits), prices count to the hundredth.

    Raises TradeFault for a count that is not whole, a size below zero, a piece longer than every board, too
    few boards, too many kinds of pieces or ways to cut, and where no plan was proved the best in time.
    Source: Gilmore and Gomory, Operations Research 9 (1961); kerf and trim: common practice.
    """
    wanted, stock = _counted("piece", pieces), _counted("board", boards)
    loss, lost = (not_below_zero(name, size, "in") for name, size in (("kerf", kerf), ("trim", trim)))
    kinds = _kinds(wanted)
    rooms = [_exact(length) - 2 * _exact(lost) for length, _ in stock]
    _check_lengths(kinds, stock, rooms)
    order = _order(kinds, rooms, _exact(loss), [count for _, count in stock], _costs(stock, prices))
    return _plan(kinds, stock, rooms, _exact(loss), _without_spares(order, best_mix(order)), prices)


@dataclass(frozen=True)
class _Kind:
    """Pieces of one length: as it was written, in exact inches, and how many."""

    length: Quantity
    inches: Fraction
    count: int


def _exact(length: Quantity) -> Fraction:
    inches = length.number("in")
    return inches if isinstance(inches, Fraction) else Fraction(f"{inches:.12g}")


def _counted(name: str, rows: Rows) -> list[tuple[Quantity, int]]:
    if not rows:
        raise TradeFault(f"there is no {name}", "give rows of a length and a count, as 22 in and 6")
    return [
        (above_zero(f"{name} length", length, "in"), whole_number(f"{name} count", count))
        for length, count in rows
    ]


def _kinds(wanted: Sequence[tuple[Quantity, int]]) -> list[_Kind]:
    """Join the rows of one length, from the longest on."""
    written: dict[Fraction, Quantity] = {}
    counts: Counter[Fraction] = Counter()
    for length, count in wanted:
        written.setdefault(_exact(length), length)
        counts[_exact(length)] += count
    if len(counts) > MOST_KINDS or counts.total() > MOST_PIECES:
        raise TradeFault(
            f"there are {counts.total()} pieces of {len(counts)} lengths",
            f"plan at most {MOST_PIECES} of {MOST_KINDS} lengths at a time",
        )
    return [_Kind(written[inches], inches, counts[inches]) for inches in sorted(counts, reverse=True)]


def _check_lengths(
    kinds: Sequence[_Kind], stock: Sequence[tuple[Quantity, int]], rooms: Sequence[Fraction]
) -> None:
    longest = max(rooms)
    if kinds[0].inches > longest:
        board = stock[rooms.index(longest)][0]
        raise TradeFault(
            f"a piece of {kinds[0].length} is longer than every board: {board} less its trim is the longest",
            "give a longer board, or a scarfed piece as two",
        )


def _costs(stock: Sequence[tuple[Quantity, int]], prices: Sequence[Quantity]) -> list[int]:
    """Return the cost of each row of boards in cents, or 1 for each where there are no prices."""
    if not prices:
        return [1 for _ in stock]
    if len(prices) != len(stock):
        raise TradeFault(
            f"there are {len(prices)} prices for {len(stock)} rows of boards", "give one price for each row"
        )
    return [int(_price(price).number() * 100) for price in prices]


def _price(price: Quantity) -> Quantity:
    return above_zero("price", to_mark(above_zero("price", price, ""), _CENT), "")


def _order(
    kinds: Sequence[_Kind],
    rooms: Sequence[Fraction],
    kerf: Fraction,
    supply: Sequence[int],
    costs: Sequence[int],
) -> Order:
    """Bring all lengths to whole numbers of their common part; a board that is all trim has no room."""
    pieces = sum(kind.count for kind in kinds)
    widths, spaces = [kind.inches + kerf for kind in kinds], [max(Fraction(0), room) + kerf for room in rooms]
    unit, money = math.lcm(*(size.denominator for size in (*widths, *spaces))), math.gcd(*costs)
    return Order(
        tuple(int(width * unit) for width in widths),
        tuple(kind.count for kind in kinds),
        tuple(int(space * unit) for space in spaces),
        tuple(min(count, pieces) for count in supply),
        tuple(cost // money for cost in costs),
    )


def _without_spares(order: Order, ways: Sequence[Way]) -> list[Way]:
    """Leave out the pieces that are not wanted, each from the board with the most room left, so that it is one offcut."""
    cut = [list(way.counts) for way in ways]
    for kind, wanted in enumerate(order.wanted):
        for _ in range(sum(counts[kind] for counts in cut) - wanted):
            holding = [n for n, counts in enumerate(cut) if counts[kind]]
            place = max(holding, key=lambda n: (_left(order, ways[n].board, cut[n]), -n))
            cut[place][kind] -= 1
    return [Way(way.board, tuple(counts)) for way, counts in zip(ways, cut, strict=True)]


def _left(order: Order, board: int, counts: Sequence[int]) -> int:
    return order.rooms[board] - sum(n * width for n, width in zip(counts, order.widths, strict=True))


def _plan(
    kinds: Sequence[_Kind],
    stock: Sequence[tuple[Quantity, int]],
    rooms: Sequence[Fraction],
    kerf: Fraction,
    ways: Sequence[Way],
    prices: Sequence[Quantity],
) -> CuttingPlan:
    """Write the ways out in the lengths that were given, the longest boards and pieces first."""
    in_order = sorted(ways, key=lambda way: (-rooms[way.board], way.board, tuple(-n for n in way.counts)))
    boards = tuple(_cut(kinds, stock[way.board][0], rooms[way.board], kerf, way) for way in in_order)
    if not prices:
        return CuttingPlan(boards, Quantity.of(len(boards)))
    price = sum((_price(prices[way.board]) for way in ways), Quantity.of(0))
    return CuttingPlan(boards, price, price)


def _cut(kinds: Sequence[_Kind], board: Quantity, room: Fraction, kerf: Fraction, way: Way) -> CutBoard:
    pieces = [kind for kind, n in zip(kinds, way.counts, strict=True) for _ in range(n)]
    left = room - sum(piece.inches + kerf for piece in pieces)
    offcut = Quantity.of(max(Fraction(0), left), "in").to(board.unit_name)
    return CutBoard(board, tuple(piece.length for piece in pieces), offcut)


_PLAN = (Argument("plan", "plan"),)
_EXAMPLE = 'cutting_plan([["30 in", 4], ["22 in", 6]], [["96 in", 10]], "1/8 in", "1/2 in")'
_PRICED = 'cutting_plan([["30 in", 4], ["22 in", 6]], [["96 in", 10], ["72 in", 10]], "1/8 in", "1/2 in", [12.5, 8])'

FUNCTIONS = (
    Function(
        "cutting_plan", cutting_plan,
        (
            Argument("pieces", "rows", of=("in", "")), Argument("boards", "rows", of=("in", "")),
            Argument("kerf", "in"), Argument("trim", "in"), Argument("prices", "list", of=("",)),
        ),
        "plan", "Fewest boards that give the pieces, or the cheapest where each row of boards has a price; trim at both ends.",
        _SOURCE, _EXAMPLE, optional=1,
    ),
    Function(
        "boards_needed", boards_needed, _PLAN, "", "Boards that a plan cuts.", "common practice",
        f"boards_needed({_EXAMPLE})",
    ),
    Function(
        "plan_price", plan_price, _PLAN, "", "Price of a plan's boards.", "common practice", f"plan_price({_PRICED})",
    ),
    Function(
        "stock_length", stock_length, _PLAN, "in", "Length of all boards of a plan together.", "common practice",
        f"stock_length({_EXAMPLE})",
    ),
    Function(
        "offcut", offcut, _PLAN, "in", "Length of all offcuts of a plan together.", "common practice",
        f"offcut({_EXAMPLE})",
    ),
    Function(
        "longest_offcut", longest_offcut, _PLAN, "in", "Longest offcut of a plan.", "common practice",
        f"longest_offcut({_EXAMPLE})",
    ),
    Function(
        "plan_yield", plan_yield, _PLAN, "%", "Share of the boards' length that goes into pieces.", "common practice",
        f"plan_yield({_EXAMPLE})",
    ),
)  # fmt: skip
