"""What marks a detail on paper in mm: its circle and its letter."""

from collections.abc import Iterator
from functools import partial
from math import cos, pi, sin

from coursepack.drafting.label import label_box
from coursepack.drafting.settling import Choice
from coursepack.drafting.sheet import SMALL_MM, Label, Line, Piece, Point

ROUND_MM = 2.0  # radius of the circle round what a detail shows
NAME_MM = 4.5  # from its middle to its letter
NAME_TURNS = (2.4, 0.8, 3.1, 0.0, 4.0, 5.5, 1.6, 4.7)  # directions of the letter, in radians


def circle(middle: Point, radius: float) -> Line:
    """Return a circle as a closed line."""
    turns = [2 * pi * number / 32 for number in range(33)]
    return tuple((middle[0] + radius * cos(turn), middle[1] + radius * sin(turn)) for turn in turns)


def letter_ways(letter: str, middle: Point, turns: tuple[float, ...] = NAME_TURNS) -> Iterator[Choice]:
    """Give the ways of the letter of a detail round its circle, in directions in radians."""
    for turn in turns:
        label = Label(
            letter, middle[0] + NAME_MM * cos(turn), middle[1] + NAME_MM * sin(turn) - 1, size_mm=SMALL_MM
        )
        yield Choice(label_box(label), partial(Piece, (), (), (label,)))


def rectangle(left: float, low: float, right: float, high: float) -> Line:
    """Return an upright rectangle as a closed line."""
    return (left, low), (right, low), (right, high), (left, high), (left, low)
