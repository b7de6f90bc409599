"""A figure while it grows: each dimension takes the first way that is clear of all before it."""

from collections.abc import Callable, Iterable
from typing import NamedTuple

from coursepack.drafting.clearance import crosses, line_box
from coursepack.drafting.label import label_box
from coursepack.drafting.sheet import Box, Fill, Frame, Label, Line, Piece, Stroke

APART_MM = 0.5  # at least, between lettering and what is not its own


class NoRoom(Exception):  # noqa: N818 - not a fault of the lesson until every scale has been tried
    """A dimension finds no clear place at this scale."""


class Choice(NamedTuple):
    """A way to place a dimension: the room of its lettering, and how it is drawn once that is free.

    `apart` is how far in mm its lettering keeps from what is not its own, and its lines from other lettering.
    """

    room: Box
    drawn: Callable[[], Piece]
    apart: float = APART_MM


class Measured:
    """A piece with the room of each of its lines, heads and labels, measured once."""

    def __init__(self, piece: Piece, labels: list[Box]) -> None:
        self.piece = piece
        self.labels = labels
        self.heads = [_boxed((*fill.polygon, fill.polygon[0])) for fill in piece.fills]
        self.lines = [_boxed(line) for stroke in piece.strokes for line in stroke.lines]
        self.lines += self.heads
        self.box = around([*labels, *(box for box, _ in self.lines)])


class Layout:
    """What of a figure has its place, and the room it must stay in.

    Raises NoRoom at once where the bare part, with what must stand beside it in mm, is wider than the room.
    """

    def __init__(self, piece: Piece, room: Frame, beside: float = 0.0) -> None:
        self.room = room
        self.parts = [Measured(piece, [label_box(label) for label in piece.labels])]
        self.box = self.parts[0].box
        if self.box.width + beside > room.width or self.box.height > room.height:
            raise NoRoom

    @property
    def piece(self) -> Piece:
        """All that has its place, as one piece."""
        strokes: list[Stroke] = []
        fills: list[Fill] = []
        labels: list[Label] = []
        for part in self.parts:
            strokes += part.piece.strokes
            fills += part.piece.fills
            labels += part.piece.labels
        return Piece(tuple(strokes), tuple(fills), tuple(labels))

    def settle(self, choices: Iterable[Choice]) -> None:
        """Add the first choice that is clear and stays inside the room. Raises NoRoom where none is."""
        for choice in choices:
            if not self._is_free(choice.room, choice.apart):
                continue
            part = Measured(choice.drawn(), [choice.room])
            box = around([self.box, part.box])
            if self._fits(box) and self._is_clear(part, choice.apart):
                self.parts.append(part)
                self.box = box
                return
        raise NoRoom

    def _is_free(self, room: Box, apart: float) -> bool:
        if not self._fits(around([self.box, room])):
            return False
        wider = room.grown(apart)
        return not any(wider.meets(old) for part in self.parts for old in part.labels)

    def _fits(self, box: Box) -> bool:
        return box.width <= self.room.width and box.height <= self.room.height

    def _is_clear(self, new: Measured, apart: float) -> bool:
        wider = [box.grown(apart) for box in new.labels]
        if _lettered_over(new.labels, new) or any(_lettered_over(wider, old) for old in self.parts):
            return False
        return not any(
            _heads_meet(new, old) or _lettered_over([box.grown(apart) for box in old.labels], new)
            for old in self.parts
        )


def around(boxes: Iterable[Box]) -> Box:
    """Give the room that holds all of some boxes."""
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return Box(min(lefts), min(bottoms), max(rights), max(tops))


def _boxed(line: Line) -> tuple[Box, Line]:
    return line_box(line), line


def _lettered_over(rooms: list[Box], lined: Measured) -> bool:
    """Whether any line or arrowhead runs through any of some rooms."""
    for left, bottom, right, top in rooms:
        for box, line in lined.lines:
            near = box.left < right and left < box.right and box.bottom < top and bottom < box.top
            if near and crosses(line, Box(left, bottom, right, top)):
                return True
    return False


def _heads_meet(new: Measured, old: Measured) -> bool:
    """Whether two arrowheads run into each other; two that are the same head of a chain do not."""
    return any(
        box.grown(-0.05).meets(other) and not _same(line, also)
        for box, line in new.heads
        for other, also in old.heads
    )


def _same(one: Line, other: Line) -> bool:
    return all(abs(p - q) < 1e-6 for a, b in zip(one, other, strict=True) for p, q in zip(a, b, strict=True))
