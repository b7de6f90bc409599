"""What runs into what: the room of pieces, lines through lettering, and the check of a finished drawing."""

from collections.abc import Iterable, Iterator
from itertools import pairwise

from coursepack.drafting.label import label_box
from coursepack.drafting.sheet import Box, Drawing, Label, Line, Piece, Point


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
    if len(line) == 2:  # most are; measuring them is what drafting does most
        (a, b), (c, d) = line
        left, right = (a, c) if a < c else (c, a)
        low, high = (b, d) if b < d else (d, b)
        return Box(left - 1e-9, low - 1e-9, right + 1e-9, high + 1e-9)
    xs, ys = zip(*line, strict=True)
    return Box(min(xs) - 1e-9, min(ys) - 1e-9, max(xs) + 1e-9, max(ys) + 1e-9)


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


def is_free(label: Label, shown: Piece, apart: float = 0.0) -> bool:
    """Whether a label keeps a distance in mm from every line, arrowhead and label that is shown."""
    room = label_box(label).grown(apart)
    over_others = any(room.meets(label_box(other)) for other in shown.labels)
    return not over_others and not any(lettering_clashes([label], shown, apart))


def clashes(drawing: Drawing) -> list[str]:
    """Say what overlaps in a drawing or leaves it: label with label, line, head or edge. Empty when clean."""
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
