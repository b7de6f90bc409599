"""A part at full size: what is cut, what is only drawn on it, and the sizes of a figure that it is made from."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from coursepack.drafting.sheet import Box, Label, Line, Point, Stroke
from coursepack.formula import Shape


class Sizes(dict[str, float]):
    """The true sizes of a figure in mm, degrees and counts, and beside them the shapes that it draws."""

    def __init__(self, sizes: Mapping[str, float], shapes: Mapping[str, Shape] | None = None) -> None:
        super().__init__(sizes)
        self.shapes: Mapping[str, Shape] = shapes or {}


@dataclass(frozen=True)
class Part:
    """A part in mm of its own size, y up.

    `outlines` are the closed lines to cut, the outer one first, then holes; `guides` are drawn on it and not
    cut; `grain` is an arrow along the fibres; `cut` says which side of the line the saw goes. A long part has
    `straight`, a line along it that the taped sheets must keep straight.
    """

    name: str
    outlines: tuple[Line, ...]
    guides: tuple[Stroke, ...] = ()
    labels: tuple[Label, ...] = ()
    grain: tuple[Point, Point] | None = None
    straight: tuple[Point, Point] | None = None
    cut: str = "Cut outside the line, then trim to it until half of the line is left."
    notes: tuple[str, ...] = field(default=())

    @cached_property
    def lines(self) -> tuple[Line, ...]:
        """All lines that are drawn of it."""
        return (*self.outlines, *(line for stroke in self.guides for line in stroke.lines))

    @cached_property
    def box_of_cut(self) -> Box:
        """The room that its outlines take, in mm."""
        return box_of(point for line in self.outlines for point in line)

    @cached_property
    def box(self) -> Box:
        """The room that the part takes, with its guides, in mm."""
        return box_of(point for line in self.lines for point in line)


def box_of(points: Iterable[Point]) -> Box:
    """Return the upright rectangle round some points, in mm."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))
