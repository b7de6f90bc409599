"""A plan for cutting boards to length, and what it says. Lengths add up: no source needed."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from coursepack.formula import Shape
from coursepack.place import TradeFault
from coursepack.quantity import Quantity


@dataclass(frozen=True)
class CutBoard:
    """A board, the pieces cut from it from the longest on, and the length of its offcut."""

    length: Quantity
    pieces: tuple[Quantity, ...]
    offcut: Quantity

    def __str__(self) -> str:
        lengths = Counter(str(piece) for piece in self.pieces)
        cut = " + ".join(f"{n} × {length}" if n > 1 else length for length, n in lengths.items())
        return f"{self.length} into {cut}, {self.offcut} left"


@dataclass(frozen=True)
class CuttingPlan(Shape):
    """The boards of a plan, longest first; its price where boards have one.

    `bound` is what was proved that no plan goes below: a number of boards, or a price. No plan is given that
    does not reach it.
    """

    kind: ClassVar[str] = "plan"

    boards: tuple[CutBoard, ...]
    bound: Quantity
    price: Quantity | None = None

    def __str__(self) -> str:
        same = Counter(str(board) for board in self.boards)
        boards = "; ".join(f"{n} of {board}" if n > 1 else board for board, n in same.items())
        count = f"{len(self.boards)} board{'s' if len(self.boards) > 1 else ''}"
        best = (
            "the fewest that suffice" if self.price is None else f"for {self.price}, the least that suffices"
        )
        return f"{count}, {best}: {boards}"


def boards_needed(plan: CuttingPlan) -> Quantity:
    """Return the number of boards that a plan cuts."""
    return Quantity.of(len(plan.boards))


def plan_price(plan: CuttingPlan) -> Quantity:
    """Return the price of a plan's boards; raises TradeFault where they have none."""
    if plan.price is None:
        raise TradeFault("the boards of this plan have no price", "give cutting_plan a list of prices last")
    return plan.price


def stock_length(plan: CuttingPlan) -> Quantity:
    """Return the length of all boards of a plan together, in the unit of the first."""
    return _sum([board.length for board in plan.boards])


def offcut(plan: CuttingPlan) -> Quantity:
    """Return the length of all offcuts together; kerfs and trim are no offcut."""
    return _sum([board.offcut for board in plan.boards])


def longest_offcut(plan: CuttingPlan) -> Quantity:
    """Return the length of the longest offcut of a plan."""
    return max(board.offcut for board in plan.boards)


def plan_yield(plan: CuttingPlan) -> Quantity:
    """Return how much of the boards' length goes into pieces, in percent."""
    pieces = _sum([piece for board in plan.boards for piece in board.pieces])
    return (pieces / stock_length(plan)).to("%")


def _sum(lengths: Sequence[Quantity]) -> Quantity:
    return sum(lengths[1:], lengths[0])
