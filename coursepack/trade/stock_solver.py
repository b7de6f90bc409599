"""Linear and integer programs over ways of cutting boards; the only module that knows the solver.

Whole numbers go in. The caller checks in whole numbers what comes out.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from coursepack.place import TradeFault

MOST_SECONDS = 20.0
_MOST_PRESOLVED = 5_000  # with more columns, presolving alone runs far past the time limit
_NONE, _UNCLEAR = 2, 4  # statuses: proved that there is no plan; none, or the solver cannot tell


@dataclass(frozen=True)
class Program:
    """Columns, each the pieces it gives and the row of boards it is cut from; the pieces wanted; the boards there are."""

    columns: Sequence[tuple[tuple[int, ...], int]]
    wanted: Sequence[int]
    boards: Sequence[int]


@dataclass(frozen=True)
class Answer:
    """How often each column is taken; None where no plan exists, or where that was left open."""

    times: tuple[int, ...] | None
    is_open: bool = False


def worths(costs: Sequence[int], program: Program) -> tuple[float, ...] | None:
    """Return what one more piece of each kind costs, parts of columns being allowed; None if there is no plan.

    Raises TradeFault where the solver ends without either.
    """
    from scipy.optimize import linprog  # noqa: PLC0415 - heavy, and most runs plan no boards

    ends = [*(-count for count in program.wanted), *program.boards]
    found = linprog(costs, A_ub=_table(program, -1), b_ub=ends, method="highs")
    if found.status == _NONE:
        return None
    if found.status != 0:
        raise TradeFault("the solver ended without a bound", "plan fewer kinds of pieces at a time")
    return tuple(-float(worth) for worth in found.ineqlin.marginals[: len(program.wanted)])


def least(costs: Sequence[int], program: Program) -> Answer:
    """Return the whole times of each column that cost least together, proved with no gap."""
    from scipy.optimize import LinearConstraint, milp  # noqa: PLC0415 - heavy, and most runs plan no boards

    low = [*program.wanted, *(0 for _ in program.boards)]
    high = [*(float("inf") for _ in program.wanted), *program.boards]
    rows = LinearConstraint(_table(program, 1), low, high)
    for presolve in (len(costs) <= _MOST_PRESOLVED, False):
        options = {"mip_rel_gap": 0.0, "time_limit": MOST_SECONDS, "presolve": presolve}
        found = milp(costs, constraints=rows, integrality=[1] * len(costs), options=options)
        if found.status != _UNCLEAR:
            break
    if found.status != 0:
        return Answer(None, is_open=found.status != _NONE)
    return Answer(tuple(round(float(times)) for times in found.x))


def _table(program: Program, sign: int) -> Any:
    """Return the sparse table of the rows of pieces, with a sign, over the rows of boards."""
    from scipy.sparse import csc_array  # noqa: PLC0415 - heavy, and most runs plan no boards

    kinds, starts = len(program.wanted), [0]
    rows: list[int] = []
    data: list[float] = []
    for counts, board in program.columns:
        entries = [(row, sign * n) for row, n in enumerate(counts) if n] + [(kinds + board, 1)]
        rows.extend(row for row, _ in entries)
        data.extend(float(value) for _, value in entries)
        starts.append(len(rows))
    return csc_array((data, rows, starts), shape=(kinds + len(program.boards), len(program.columns)))
