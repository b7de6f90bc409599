"""What a drawing is made of, in millimetres on paper with y up: strokes, fills and lettering. No library."""

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal, NamedTuple

Point = tuple[float, float]
Line = tuple[Point, ...]
LineKind = Literal["outline", "thin", "dimension", "hidden", "centre", "ring", "layer", "bar"]
Align = Literal["left", "centre", "right"]
Hand = Literal["print", "answer", "blank", "title"]

FIGURE_MARK = "\ue100{}\ue101"  # where a drawing goes in a text, by its number
LETTER_MM = 3.175  # 9 pt
SMALL_MM = 2.9  # 8.2 pt, for the line under a figure
TIGHT_MM = 2.83  # 8 pt, where the column is narrow


class Box(NamedTuple):
    """An upright rectangle in mm."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Size along x in mm."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Size along y in mm."""
        return self.top - self.bottom

    def grown(self, margin: float) -> "Box":
        """Give the box with a margin in mm on every side."""
        return Box(self.left - margin, self.bottom - margin, self.right + margin, self.top + margin)

    def holds(self, other: "Box") -> bool:
        """Whether another box lies in this one, or on its edge."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.bottom <= other.bottom
            and other.top <= self.top
        )

    def meets(self, other: "Box") -> bool:
        """Whether the two boxes share any room."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.bottom < other.top
            and other.bottom < self.top
        )


class Pen(NamedTuple):
    """How a kind of line is inked: width in mm, colour, dashes and gaps in mm."""

    width_mm: float
    colour: str
    dashes: tuple[float, ...] = ()


# line types after ISO 128: thick and thin 2:1, dashed for what is removed, long-dash dot for centres
PENS: dict[LineKind, Pen] = {
    "ring": Pen(0.18, "#808080"),
    "layer": Pen(0.18, "#000000"),  # lies close beside thick lines
    "hidden": Pen(0.3, "#000000", (2.4, 1.0)),
    "thin": Pen(0.3, "#000000"),
    "centre": Pen(0.25, "#000000", (6.0, 1.0, 0.6, 1.0)),
    "dimension": Pen(0.25, "#000000"),
    "outline": Pen(0.6, "#000000"),
    "bar": Pen(0.2, "#000000"),  # of a fraction, as thick as the type's minus sign
}


@dataclass(frozen=True)
class Stroke:
    """Polylines of one kind of line."""

    kind: LineKind
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class Fill:
    """A black polygon; an arrowhead's first point is its tip and `of` names its dimension."""

    polygon: Line
    of: str = ""


@dataclass(frozen=True)
class Label:
    """A line of lettering on the baseline y; `angle` is 0 or 90 degrees.

    On a blank, text is the unit, and `question` the letter of the question that it answers, "" where there is one only.
    """

    text: str
    x: float
    y: float
    align: Align = "centre"
    angle: Literal[0, 90] = 0
    hand: Hand = "print"
    size_mm: float = LETTER_MM
    of: str = ""
    question: str = ""


@dataclass(frozen=True)
class Mark:
    """How a dimension is lettered: printed, left blank (text is its unit), or answered in the second hand.

    Of several questions, `question` is the letter of the one that a blank or an answer belongs to.
    """

    text: str
    hand: Hand = "print"
    question: str = ""


@dataclass(frozen=True)
class Frame:
    """The room on paper in mm and the scale asked for, None for the largest that fits."""

    width: float = 58.0
    height: float = 190.0
    scale: Fraction | None = None


@dataclass(frozen=True)
class Piece:
    """A part of a drawing; pieces add up."""

    strokes: tuple[Stroke, ...] = ()
    fills: tuple[Fill, ...] = ()
    labels: tuple[Label, ...] = ()

    def __add__(self, other: "Piece") -> "Piece":
        return Piece(self.strokes + other.strokes, self.fills + other.fills, self.labels + other.labels)

    def moved(self, dx: float, dy: float) -> "Piece":
        """Give the same piece elsewhere on the paper."""
        return Piece(
            tuple(Stroke(s.kind, tuple(_moved(line, dx, dy) for line in s.lines)) for s in self.strokes),
            tuple(Fill(_moved(f.polygon, dx, dy), f.of) for f in self.fills),
            tuple(replace(label, x=label.x + dx, y=label.y + dy) for label in self.labels),
        )


@dataclass(frozen=True)
class Drawing:
    """A finished figure: size in mm, scale as lettered, what is drawn, and the text for who cannot see it."""

    width: float
    height: float
    scale_text: str
    strokes: tuple[Stroke, ...]
    fills: tuple[Fill, ...]
    labels: tuple[Label, ...]
    alt: str


def _moved(line: Line, dx: float, dy: float) -> Line:
    return tuple((x + dx, y + dy) for x, y in line)
