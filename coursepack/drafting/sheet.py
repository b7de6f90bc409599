"""What a drawing is made of, in millimetres on paper with y up: strokes, fills and lettering. No library."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from typing import Literal, NamedTuple

from coursepack.drafting.lettering import FRACTION_SLASH, MIDDLE_EM, set_out, width_em

Point = tuple[float, float]
Line = tuple[Point, ...]
LineKind = Literal["outline", "thin", "dimension", "hidden", "centre", "ring"]
Hand = Literal["print", "answer", "blank", "title"]

LETTER_MM = 3.175  # 9 pt
SMALL_MM = 2.9  # 8.2 pt, for the line under a figure
RULE_MM = 13.0  # length of the rule that a student writes on
WRITING_MM = 7.0  # height kept free above it
BOX_PAD_MM = 0.9  # between an answer and its box
BESIDE_MM = 0.9  # between a rule and its unit


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


# line types after ISO 128: thick and thin 2:1, dashed for what is removed or hidden, long-dash dot for centres
PENS: dict[LineKind, Pen] = {
    "ring": Pen(0.18, "#808080"),
    "hidden": Pen(0.3, "#000000", (2.4, 1.0)),
    "thin": Pen(0.3, "#000000"),
    "centre": Pen(0.25, "#000000", (6.0, 1.0, 0.6, 1.0)),
    "dimension": Pen(0.25, "#000000"),
    "outline": Pen(0.6, "#000000"),
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
    """A line of lettering on the baseline y; `angle` is 0 or 90 degrees. On a blank, text is the unit."""

    text: str
    x: float
    y: float
    align: Literal["left", "centre", "right"] = "centre"
    angle: Literal[0, 90] = 0
    hand: Hand = "print"
    size_mm: float = LETTER_MM
    of: str = ""


@dataclass(frozen=True)
class Mark:
    """How a dimension is lettered: printed, left as a blank (text is its unit), or answered in the second hand."""

    text: str
    hand: Hand = "print"


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
    """A finished figure: size in mm, the scale as it is lettered, what is drawn, and the text for who cannot see it."""

    width: float
    height: float
    scale_text: str
    strokes: tuple[Stroke, ...]
    fills: tuple[Fill, ...]
    labels: tuple[Label, ...]
    alt: str


def _moved(line: Line, dx: float, dy: float) -> Line:
    return tuple((x + dx, y + dy) for x, y in line)


def label_box(label: Label) -> Box:
    """Room that a label takes in mm, with its box, or with its rule, writing space and unit.

    An answer takes at least the room of the blank it fills, so that the key keeps the sheet's layout.
    """
    width, low, high = _extent(label)
    left = label.x - {"left": 0.0, "centre": width / 2, "right": width}[label.align]
    if label.angle == 90:
        start = label.y + left - label.x
        return Box(label.x - high, start, label.x - low, start + width)
    return Box(left, label.y + low, left + width, label.y + high)


def _extent(label: Label) -> tuple[float, float, float]:
    middle = MIDDLE_EM * label.size_mm
    if label.hand == "blank":
        return (
            _blank_width(label.text, label.size_mm),
            middle - WRITING_MM / 2 - 0.3,
            middle + WRITING_MM / 2 + 0.3,
        )
    half = (0.64 if FRACTION_SLASH in label.text else 0.5) * label.size_mm
    width = width_em(label.text, bold=label.hand != "print") * label.size_mm
    if label.hand != "answer":
        return width, middle - half, middle + half
    unit = label.text[-1] if label.text.endswith(("°", "%", "″")) else label.text.rpartition(" ")[2]
    half = max(half + BOX_PAD_MM, WRITING_MM / 2) + 0.3
    return max(width + 2 * BOX_PAD_MM + 0.6, _blank_width(unit, label.size_mm)), middle - half, middle + half


def _blank_width(unit: str, size_mm: float) -> float:
    return RULE_MM + (BESIDE_MM + width_em(unit) * size_mm if unit else 0.0)


def label_lines(label: Label) -> tuple[Line, ...]:
    """Give the lines that belong to a label: a blank's rule, an answer's box, the bars of fractions."""
    box = label_box(label)
    if label.hand == "blank":
        return (((box.left, box.bottom + 0.3), (box.left + RULE_MM, box.bottom + 0.3)),)
    x, y = label_start(label)
    middle = y + MIDDLE_EM * label.size_mm
    _, width, spans = set_out(label.text, bold=label.hand != "print")
    bars = tuple(tuple((x + em * label.size_mm, middle) for em in span) for span in spans)
    if label.hand != "answer":
        return bars
    tall = (0.64 if spans else 0.5) * label.size_mm + BOX_PAD_MM / 2
    left, right = x - BOX_PAD_MM, x + width * label.size_mm + BOX_PAD_MM
    low, high = middle - tall, middle + tall
    return (*bars, ((left, low), (right, low), (right, high), (left, high), (left, low)))


def label_start(label: Label) -> Point:
    """Where a label's text starts: x and baseline in mm. Its characters follow by their widths, unkerned."""
    box = label_box(label)
    if label.hand == "blank":
        return box.left + RULE_MM + BESIDE_MM, box.bottom + 0.6
    if label.hand == "answer":
        return (box.left + box.right - width_em(label.text, bold=True) * label.size_mm) / 2, label.y
    return (label.x, box.bottom) if label.angle == 90 else (box.left, label.y)


def centred(mark: Mark, middle: Point, size_mm: float = LETTER_MM, of: str = "") -> Label:
    """Letter a mark with its middle at a point."""
    return Label(
        mark.text, middle[0], middle[1] - MIDDLE_EM * size_mm, hand=mark.hand, size_mm=size_mm, of=of
    )


def bounds(piece: Piece | Drawing) -> Box:
    """Room in mm that a piece takes on paper."""
    points = [p for s in piece.strokes for line in s.lines for p in line] + [
        p for f in piece.fills for p in f.polygon
    ]
    boxes = [label_box(label) for label in piece.labels]
    xs = [x for x, _ in points] + [x for b in boxes for x in (b.left, b.right)]
    ys = [y for _, y in points] + [y for b in boxes for y in (b.bottom, b.top)]
    return Box(min(xs), min(ys), max(xs), max(ys))


def line_box(line: Line) -> Box:
    """Room in mm that a polyline takes, never quite nothing, so that a level line can meet a box."""
    xs, ys = [x for x, _ in line], [y for _, y in line]
    return Box(min(xs), min(ys), max(xs), max(ys)).grown(1e-9)


def crosses(line: Line, box: Box) -> bool:
    """Whether any part of a polyline lies inside a box."""
    return any(_segment_meets(a, b, box) for a, b in pairwise(line))


def _segment_meets(a: Point, b: Point, box: Box) -> bool:
    if (
        max(a[0], b[0]) <= box.left
        or min(a[0], b[0]) >= box.right
        or max(a[1], b[1]) <= box.bottom
        or min(a[1], b[1]) >= box.top
    ):
        return False
    start, end = 0.0, 1.0
    for from_, to, low, high in ((a[0], b[0], box.left, box.right), (a[1], b[1], box.bottom, box.top)):
        if to == from_:
            continue
        near, far = sorted(((low - from_) / (to - from_), (high - from_) / (to - from_)))
        start, end = max(start, near), min(end, far)
    return start < end


def lettering_clashes(labels: Iterable[Label], others: Piece | Drawing, apart: float = 0.0) -> Iterator[str]:
    """Name each label that a line or an arrowhead runs through, or nearer by than a distance in mm."""
    boxes = [(label, label_box(label).grown(apart)) for label in labels]
    lines = [(f"a {stroke.kind} line", line) for stroke in others.strokes for line in stroke.lines]
    lines += [("an arrowhead", (*fill.polygon, fill.polygon[0])) for fill in others.fills]
    for what, line in lines:
        room = line_box(line)
        near = (label for label, box in boxes if room.meets(box) and crosses(line, box))
        yield from (f"{what} runs through '{label.text}'" for label in near)


def clashes(drawing: Drawing) -> list[str]:
    """Say what overlaps in a drawing or leaves it: label with label, line, arrowhead or edge. Empty when clean."""
    paper = Box(0, 0, drawing.width, drawing.height).grown(1e-6)
    found = list(lettering_clashes(drawing.labels, drawing))
    for number, label in enumerate(drawing.labels):
        box = label_box(label)
        found += [
            f"'{label.text}' overlaps '{o.text}'" for o in drawing.labels[:number] if box.meets(label_box(o))
        ]
    room = bounds(drawing)
    if (
        room.left < paper.left
        or room.bottom < paper.bottom
        or room.right > paper.right
        or room.top > paper.top
    ):
        found.append("something leaves the frame")
    return found
