"""The ways to cut a board, and what they are worth, in whole numbers."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from coursepack.place import TradeFault

MOST_WAYS = 120_000
FINE = 10**9  # worths are taken to a thousand-millionth of the unit of cost


@dataclass(frozen=True)
class Order:
    """Pieces and boards in whole units of length, widths from the longest to the shortest.

    A piece's width holds its kerf, a board's room one kerf more than its usable length, so that n pieces pay
    n − 1 kerfs where they use a board up.
    """

    widths: tuple[int, ...]
    wanted: tuple[int, ...]
    rooms: tuple[int, ...]
    supply: tuple[int, ...]
    costs: tuple[int, ...]


@dataclass(frozen=True, order=True)
class Way:
    """One way to cut a board: its row in the order, and the pieces of each kind."""

    board: int
    counts: tuple[int, ...]


@dataclass(frozen=True)
class Weighed:
    """Ways with what their pieces are worth, the best worth a board of each row gives, and what is wanted of it.

    Worths are whole numbers of FINE parts of the unit of cost.
    """

    ways: tuple[Way, ...]
    values: tuple[int, ...]
    best: tuple[int, ...]
    need: int


def all_ways(order: Order) -> tuple[Way, ...]:
    """Return every way that leaves no room for a wanted piece; raises TradeFault where there are too many."""
    ways: list[Way] = []
    for board, room in enumerate(order.rooms):
        for counts in full(order.widths, order.wanted, room):
            if any(counts):
                ways.append(Way(board, counts))
            if len(ways) > MOST_WAYS:
                raise TradeFault(
                    f"there are more than {MOST_WAYS} ways to cut these boards",
                    "plan the shortest pieces apart, or cut them from the offcuts",
                )
    return tuple(ways)


def full(
    widths: Sequence[int], wanted: Sequence[int], room: int, short: int | None = None
) -> Iterator[tuple[int, ...]]:
    """Yield every way to fill a room so that no wanted piece fits in what is left, most long pieces first.

    `short` is the width of the shortest longer piece of which the way has fewer than are wanted.
    """
    if not widths:
        if short is None or room < short:
            yield ()
        return
    for count in range(min(wanted[0], room // widths[0]), -1, -1):
        lacking = short if count == wanted[0] else widths[0]
        for rest in full(widths[1:], wanted[1:], room - count * widths[0], lacking):
            yield (count, *rest)


def weigh(order: Order, ways: Sequence[Way], worths: Sequence[int]) -> Weighed:
    """Return the ways weighed with a worth for each kind of piece, zero or more."""
    values = tuple(_weight(way.counts, worths) for way in ways)
    best = [0] * len(order.rooms)
    for way, value in zip(ways, values, strict=True):
        best[way.board] = max(best[way.board], value)
    return Weighed(tuple(ways), values, tuple(best), _weight(order.wanted, worths))


def _weight(counts: Sequence[int], worths: Sequence[int]) -> int:
    return sum(n * worth for n, worth in zip(counts, worths, strict=True))


def bound(order: Order, weighed: Weighed) -> int:
    """Return a cost that no plan goes below, whatever the worths are: the duality of linear programming.

    Boards give the worth that is wanted, each at most its best; where a best is above the board's cost, all
    boards of that row may bring the difference.
    """
    over = [
        max(0, best - cost * FINE) * n
        for best, cost, n in zip(weighed.best, order.costs, order.supply, strict=True)
    ]
    return max(1, -((sum(over) - weighed.need) // FINE))


def by_hand(order: Order, boards: Sequence[int]) -> tuple[Way, ...] | None:
    """Cut the longest pieces first, each from the first board with room; None where the boards do not suffice."""
    rows = [row for row, n in enumerate(boards) for _ in range(n)]
    left, cut = [order.rooms[row] for row in rows], [[0] * len(order.widths) for _ in rows]
    for kind, width in enumerate(order.widths):
        for _ in range(order.wanted[kind]):
            place = next((n for n, room in enumerate(left) if room >= width), None)
            if place is None:
                return None
            left[place] -= width
            cut[place][kind] += 1
    return tuple(Way(row, tuple(counts)) for row, counts in zip(rows, cut, strict=True))
