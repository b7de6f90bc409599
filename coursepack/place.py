"""Where a fault is, what is wrong and what would be right."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

_MOST_NAMES = 12


@dataclass(frozen=True, order=True)
class Place:
    """A line of a source file; line 0 stands for the file as a whole."""

    path: str
    line: int = 0

    def __str__(self) -> str:
        return f"{self.path}:{self.line}" if self.line else self.path


class LessonFault(Exception):  # noqa: N818 - a fault is what a lesson has; an error is what a program has
    """Something in a source that must be mended before anything is printed.

    Keeps its parts, so that a caller can collect faults, sort them by place and print them late.
    """

    def __init__(self, message: str, remedy: str = "", place: Place | None = None) -> None:
        super().__init__(message)
        self.message = message
        self.remedy = remedy
        self.place = place

    def at(self, place: Place) -> "LessonFault":
        """Give the fault its place, unless it has one already; return the fault."""
        if self.place is None:
            self.place = place
        return self

    def __str__(self) -> str:
        where = f"{self.place}: " if self.place else ""
        cure = f"; {self.remedy}" if self.remedy else ""
        return f"{where}{self.message}{cure}"


class QuantityFault(LessonFault):
    """A text that is no quantity, or quantities whose units do not fit."""


class FormulaFault(LessonFault):
    """A formula that cannot be read or worked; `column` points at the character (0-based, -1 for none)."""

    def __init__(self, message: str, remedy: str = "", place: Place | None = None, column: int = -1) -> None:
        super().__init__(message, remedy, place)
        self.column = column


class TradeFault(LessonFault):
    """A value that a function of the trade does not take; the remedy says what it takes."""


class LessonFaults(Exception):  # noqa: N818 - see LessonFault
    """All faults of all sources, in order of place."""

    def __init__(self, faults: list[LessonFault]) -> None:
        super().__init__(f"{len(faults)} faults")
        self.faults = sorted(faults, key=lambda fault: fault.place or Place(""))


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """Return the remedy for a misspelt name: the nearest one known, or all of them."""
    names = sorted(known)
    close = get_close_matches(name, names, n=1)
    if close:
        return f"did you mean '{close[0]}'?"
    return (
        f"known: {', '.join(names[:_MOST_NAMES])}{' …' if len(names) > _MOST_NAMES else ''}" if names else ""
    )
