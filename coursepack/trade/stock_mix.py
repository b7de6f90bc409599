"""The boards that suffice at the least cost, and how each is cut, proved.

Gilmore and Gomory, A linear programming approach to the cutting-stock problem, Operations Research 9 (1961):
each way to cut a board is a column, and a plan is how often each is taken. The linear program says what a
piece is worth; worked again in whole numbers, these worths give a bound, and refuse most sets of boards
without a search. The rest are tried from the cheapest on: the first that can be cut is the answer.
"""

from collections.abc import Iterator, Sequence
from hashlib import sha256
from operator import gt, lt

from coursepack.place import TradeFault
from coursepack.trade.stock_solver import MOST_SECONDS, Program, least, worths
from coursepack.trade.stock_ways import FINE, Order, Way, Weighed, all_ways, bound, by_hand, weigh

# So many of the best columns are tried before all: there is nearly always a plan among them. Columns that lose
# as much worth, but for the noise of the linear program, are taken in an order without a pattern, to be unlike.
_FEW = (600, 3_000)
_COARSE = FINE // 10**6
_MOST_SETS = 20_000


def best_mix(order: Order) -> tuple[Way, ...]:
    """Return the ways of the plan of least cost, of those the least room, of those always the same one.

    They may hold more pieces than are wanted, never fewer. Raises TradeFault where the boards do not suffice,
    where there are too many ways to cut one, or where no plan is proved the best in time.
    """
    ways = all_ways(order)
    worth = worths([order.costs[way.board] for way in ways], _program(order, ways, order.supply))
    if worth is None:
        raise _too_few(order)
    weighed = weigh(order, ways, [round(max(0.0, each) * FINE) for each in worth])
    for boards in _sets(order, weighed):
        taken = by_hand(order, boards) or _solved(order, weighed, boards)
        if taken is not None:
            return taken
    raise _too_few(order)


# Sets of boards, from the cheapest on


def _sets(order: Order, weighed: Weighed) -> Iterator[tuple[int, ...]]:
    """Yield the sets of boards that may suffice, by cost, then by room: so many of each row."""
    low, step, highest = bound(order, weighed), 1, _total(order.supply, order.costs)
    while low <= highest:
        found = []
        for boards in _between(order, weighed, low, low + step - 1):
            found.append((_total(boards, order.costs), _total(boards, order.rooms), boards))
            if len(found) > _MOST_SETS:
                raise TradeFault(
                    f"more than {_MOST_SETS} sets of boards may be the cheapest",
                    "give fewer kinds of boards, or rounder prices",
                )
        yield from (boards for _, _, boards in sorted(found))
        low, step = low + step, step * 2


def _between(
    order: Order, weighed: Weighed, low: int, high: int, taken: tuple[int, ...] = ()
) -> Iterator[tuple[int, ...]]:
    """Yield the sets that begin with those taken, cost from low to high, and may bring the worth that is needed."""
    row, spent = len(taken), _total(taken, order.costs)
    if _promise(order, weighed, taken, high - spent) < weighed.need:
        return
    if row == len(order.rooms):
        if spent >= low:
            yield taken
        return
    for n in range(min(order.supply[row], (high - spent) // order.costs[row]) + 1):
        yield from _between(order, weighed, low, high, (*taken, n))


def _promise(order: Order, weighed: Weighed, taken: Sequence[int], money: int) -> int:
    """Return the most worth that the boards taken bring with what the money left could buy of the others."""
    row = len(taken)
    dearest = [money * best // cost for best, cost in zip(weighed.best[row:], order.costs[row:], strict=True)]
    return _total(taken, weighed.best) + max(dearest, default=0)


def _total(counts: Sequence[int], each: Sequence[int]) -> int:
    return sum(n * value for n, value in zip(counts, each, strict=False))


# How a set of boards is cut


def _solved(order: Order, weighed: Weighed, boards: tuple[int, ...]) -> tuple[Way, ...] | None:
    """Cut a set of boards by the integer program; None where it is proved that they do not suffice.

    A way that gives up more worth than the whole set has to spare is in no plan.
    """
    spare = _total(boards, weighed.best) - weighed.need
    lost = [weighed.best[way.board] - value for way, value in zip(weighed.ways, weighed.values, strict=True)]
    fit = [(loss // _COARSE, way) for loss, way in zip(lost, weighed.ways, strict=True) if loss <= spare]
    ways = [way for _, _, way in sorted((loss, _mark(way), way) for loss, way in fit)]
    for count in (*(few for few in _FEW if few < len(ways)), len(ways)):
        taken = _taken(order, ways[:count], boards, is_all=count == len(ways))
        if taken is not None:
            return taken
    return None


def _taken(
    order: Order, ways: Sequence[Way], boards: Sequence[int], *, is_all: bool
) -> tuple[Way, ...] | None:
    if not ways:
        return None
    answer = least([_mark(way) for way in ways], _program(order, ways, boards))
    if answer.is_open and is_all:
        raise TradeFault(
            f"no plan was proved in {MOST_SECONDS:g} s: cheaper ones than of {sum(boards)} boards do not exist,"
            " these could neither be cut nor ruled out",
            "plan fewer kinds of pieces at a time",
        )
    if answer.times is None:
        return None
    taken = tuple(way for way, times in zip(ways, answer.times, strict=True) for _ in range(times))
    _check(order, boards, taken)
    return taken


def _check(order: Order, boards: Sequence[int], taken: Sequence[Way]) -> None:
    """Count a plan of the solver again in whole numbers; raises TradeFault where it does not hold."""
    given = [sum(way.counts[kind] for way in taken) for kind in range(len(order.widths))]
    used = [sum(way.board == row for way in taken) for row in range(len(boards))]
    if any(map(lt, given, order.wanted)) or any(map(gt, used, boards)):
        raise TradeFault("the solver's plan does not hold when it is counted", "plan fewer pieces at a time")


def _mark(way: Way) -> int:
    """Return a number without a pattern: the least sum of them is one plan, the same everywhere, of many as good."""
    return 1 + int.from_bytes(sha256(repr((way.board, way.counts)).encode()).digest()[:2], "big")


def _program(order: Order, ways: Sequence[Way], boards: Sequence[int]) -> Program:
    return Program([(way.counts, way.board) for way in ways], order.wanted, boards)


def _too_few(order: Order) -> TradeFault:
    return TradeFault(
        f"the boards do not give all {sum(order.wanted)} pieces", "give more boards, or longer ones"
    )
