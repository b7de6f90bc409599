"""A length that is measured along neither axis: arrowheads on its own line, lettering upright beside it or past it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import chain, product
from math import cos, dist, inf, radians, sin

from coursepack.drafting.dimension import ARROW_MM, CLEAR_MM, TAIL_MM, Spacing, arrowhead
from coursepack.drafting.label import centred, label_box
from coursepack.drafting.settling import Choice
from coursepack.drafting.sheet import Fill, Line, Mark, Piece, Point, Stroke

PLACES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.9, 0.1)  # of the length, where its lettering stands beside it
FURTHER_MM = (*range(0, 28, 3), 33, 40, 48)  # on paper: how much further past an end
ASIDE = (0, 1, -1)  # lettering past the line's end, or level with it on the right or the left


@dataclass(frozen=True)
class Oblique:
    """A length between two points on paper, whose own line is the dimension line; past its second end first."""

    name: str
    mark: Mark
    ends: tuple[Point, Point]
    spacing: Spacing

    @property
    def size(self) -> float:
        """Its length on paper in mm."""
        return dist(*self.ends)

    @property
    def way(self) -> Point:
        """The direction from its first to its second end."""
        (x, y), (to_x, to_y) = self.ends
        return (to_x - x) / self.size, (to_y - y) / self.size

    @property
    def is_short(self) -> bool:
        """Whether two arrowheads do not fit between the ends, and come from outside."""
        return self.size < 2 * ARROW_MM + 1

    def at(self, along: float, aside: float = 0.0) -> Point:
        """Return the point so far along from the first end and so far to the left of the line, in mm."""
        (x, y), (u, v) = self.ends[0], self.way
        return x + u * along - v * aside, y + v * along + u * aside


def oblique_ways(dim: Oblique) -> Iterator[Choice]:
    """Give the ways to place a length: lettered beside its line where that is long, then past either end."""
    beside = () if dim.is_short else _beside(dim)
    return chain(beside, _past(dim))


def across(
    name: str,
    mark: Mark,
    circle: tuple[Point, float],
    spacing: Spacing,
    turns_deg: Iterable[float],
    start: float = -1,
) -> Iterator[Choice]:
    """Give the ways of a circle's diameter, or from its middle (`start` 0) its radius, in some directions.

    The circle is its middle and radius on paper.
    """
    (x, y), radius = circle
    for turn in turns_deg:
        u, v = cos(radians(turn)) * radius, sin(radians(turn)) * radius
        yield from oblique_ways(
            Oblique(name, mark, ((x + start * u, y + start * v), (x + u, y + v)), spacing)
        )


def _beside(dim: Oblique) -> Iterator[Choice]:
    width, height = _room(dim)
    u, v = dim.way
    off = (abs(v) * width + abs(u) * height) / 2 + CLEAR_MM
    for share, side in product(PLACES, (1, -1)):
        yield _choice(dim, (dim.ends,), dim.at(share * dim.size, side * off))


def _past(dim: Oblique) -> Iterator[Choice]:
    width, height = _room(dim)
    u, v = dim.way
    half = min(width / 2 / abs(u) if u else inf, height / 2 / abs(v) if v else inf) + CLEAR_MM
    reach = ARROW_MM + TAIL_MM
    for further, second, aside in product(FURTHER_MM, (True, False), ASIDE):
        out = reach + further
        tails = _tails(dim, reach, out) if second else _tails(dim, out, reach)
        past = out if aside else out + half
        x, y = dim.at(dim.size + past if second else -past)
        yield _choice(dim, tails, (x + aside * (width / 2 + CLEAR_MM), y))


def _room(dim: Oblique) -> tuple[float, float]:
    box = label_box(centred(dim.mark, (0, 0), dim.spacing.letter))
    return box.width, box.height


def _tails(dim: Oblique, before: float, after: float) -> tuple[Line, ...]:
    """Draw the line past both ends; between them as well where the arrowheads stand inside."""
    start, end = dim.at(-before), dim.at(dim.size + after)
    return ((start, dim.ends[0]), (dim.ends[1], end)) if dim.is_short else ((start, end),)


def _choice(dim: Oblique, lines: tuple[Line, ...], middle: Point) -> Choice:
    label = centred(dim.mark, middle, dim.spacing.letter, dim.name)
    strokes = (Stroke("dimension", lines),)
    return Choice(label_box(label), partial(Piece, strokes, _heads(dim), (label,)))


def _heads(dim: Oblique) -> tuple[Fill, Fill]:
    (u, v), sign = dim.way, -1 if dim.is_short else 1
    first, second = dim.ends
    return (
        arrowhead(first, (-sign * u, -sign * v), dim.name),
        arrowhead(second, (sign * u, sign * v), dim.name),
    )
