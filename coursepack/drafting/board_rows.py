"""Where the pieces of a cutting plan lie along its boards, in mm of their own length."""

from collections import Counter
from dataclasses import dataclass

from coursepack.drafting.part import Sizes
from coursepack.place import LessonFault
from coursepack.quantity import Quantity
from coursepack.trade.stock_plan import CutBoard, CuttingPlan

MOST = 4  # kinds of boards that are drawn

Span = tuple[float, float]  # from one end to the other along a board


@dataclass(frozen=True)
class Row:
    """A kind of board in mm of its own length: how many, where its pieces lie and how each is named, its offcut."""

    number: int
    board: CutBoard
    count: int
    length: float
    pieces: tuple[tuple[Span, Quantity], ...]
    offcut: Span | None


def plan_rows(sizes: Sizes) -> tuple[tuple[Row, ...], int]:
    """Return the kinds of boards to draw, the first of the plan, and how many more kinds it has."""
    plan = sizes.shapes["plan"]
    assert isinstance(plan, CuttingPlan)  # noqa: S101 - the reading gives a figure shapes of its kinds only
    kinds = Counter(str(board) for board in plan.boards)
    boards = list({str(board): board for board in plan.boards}.values())
    rows = tuple(
        _row(number, board, kinds[str(board)], sizes["kerf"], sizes["trim"])
        for number, board in enumerate(boards[:MOST], 1)
    )
    return rows, len(boards) - len(rows)


def _row(number: int, board: CutBoard, count: int, kerf: float, trim: float) -> Row:
    """Lay the pieces along a board from the trimmed end on, a kerf between them."""
    length, left, at = true_mm(board.length), true_mm(board.offcut), trim
    pieces: list[tuple[Span, Quantity]] = []
    for piece in board.pieces:
        pieces.append(((at, at + true_mm(piece)), piece))
        at += true_mm(piece) + kerf
    end = length - trim
    # what is left is an offcut behind its kerf, or less than a kerf, and lost
    if abs(end - left - at) > 1e-6 if left else not -1e-6 <= end - at + kerf < kerf + 1e-6:
        raise LessonFault(
            f"the pieces, kerfs and trim of '{board}' are not as long as the board",
            "give the figure the kerf and the trim that the plan was made with",
        )
    return Row(number, board, count, length, tuple(pieces), (at, end) if left else None)


def true_mm(length: Quantity) -> float:
    """Return a length in mm."""
    return float(length.number("mm"))
