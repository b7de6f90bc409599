"""Dimensions laid out as numbers before any ink: what is measured, and how close dimensions stand.

Arrangement after ISO 129-1: extension lines with a 1 mm gap and 2 mm overrun, arrowheads 3:1, rows 8.5 mm
apart, lettering upright and breaking the dimension line (one direction for all lettering).
"""

from dataclasses import dataclass
from functools import cached_property
from math import hypot
from typing import Literal

from coursepack.drafting.label import centred, label_box
from coursepack.drafting.sheet import LETTER_MM, TIGHT_MM, Box, Fill, Label, Mark, Point

GAP_MM = 1.0
OVERRUN_MM = 2.0
ARROW_MM = 3.0
TAIL_MM = 2.5  # of a reversed arrow, behind its head
CLEAR_MM = 0.8  # round lettering

Side = Literal["left", "right", "above", "below"]


@dataclass(frozen=True)
class Spacing:
    """How close dimensions stand, in mm: size of lettering, from row to row, from a face to an arc."""

    letter: float = LETTER_MM
    row: float = 8.5
    bevel: float = 15.5
    close: bool = False  # lettering wider than its row goes past an end, over or under the part

    def beside(self, *sides: bool) -> float:
        """Width that the sides where heights are measured take at least, in mm."""
        return sum(sides) * (self.row + OVERRUN_MM)


ROOMY = Spacing()
# from the one that looks best to the one that takes the least width
SPACINGS = (ROOMY, Spacing(TIGHT_MM, 6.8, 12.0), Spacing(TIGHT_MM, 6.8, 12.0, close=True))


@dataclass(frozen=True)
class Linear:
    """A length between two features, measured along y (left, right) or x (above, below).

    `line` is where the rows start from: x of the outermost line there for an upright dimension, else y.
    """

    name: str
    mark: Mark
    side: Side
    ends: tuple[Point, Point]
    line: float
    spacing: Spacing = ROOMY
    first: float | None = None  # the first row, where it is not the spacing's
    low_first: bool = False  # lettering that does not fit between goes past the low end first
    sideways: bool = False  # a level length's lettering goes past an end rather than under its line
    bare: bool = False  # the part's own lines take the place of extension lines

    @cached_property
    def room(self) -> Box:
        """Room of the lettering, its middle at the origin."""
        return label_box(centred(self.mark, (0, 0), self.spacing.letter))

    @cached_property
    def needs(self) -> float:
        """How much of its line the lettering takes, with a clear space at both ends."""
        return (self.room.height if self.upright else self.room.width) + 2 * CLEAR_MM

    def lettered(self, middle: Point) -> Label:
        """Letter the dimension with its middle at a point."""
        return centred(self.mark, middle, self.spacing.letter, self.name)

    def row(self, number: int) -> float:
        """Where a row lies across the length."""
        first = self.spacing.row if self.first is None else self.first
        return self.line + self.outward * (first + number * self.spacing.row)

    @cached_property
    def upright(self) -> bool:
        """Whether the length is measured along y."""
        return self.side in {"left", "right"}

    @cached_property
    def outward(self) -> int:
        """Which way its rows lie from the part: 1 towards greater x or y, else −1."""
        return 1 if self.side in {"right", "above"} else -1

    def paper(self, along: float, across: float) -> Point:
        """Turn a place along the length and a row across it into a point."""
        return (across, along) if self.upright else (along, across)

    @cached_property
    def span(self) -> tuple[float, float]:
        """Low and high end along the measured direction."""
        low, high = sorted(end[1] if self.upright else end[0] for end in self.ends)
        return low, high


def arrowhead(tip: Point, towards: Point, of: str) -> Fill:
    """Give a slim arrowhead, length to width 3:1, whose tip points in a direction."""
    size = hypot(*towards)
    x, y = towards[0] / size * ARROW_MM, towards[1] / size * ARROW_MM
    back = (tip[0] - x, tip[1] - y)
    return Fill((tip, (back[0] - y / 6, back[1] + x / 6), (back[0] + y / 6, back[1] - x / 6)), of)
