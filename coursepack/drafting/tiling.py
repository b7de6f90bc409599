"""A part that is larger than a sheet: how few sheets hold it, and what of it lies on each.

Sheets overlap by OVERLAP_MM, so that two of them are laid on each other by the cross-hairs that both carry.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from coursepack.drafting.sheet import Box, Line, Point

OVERLAP_MM = 14.0
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # without I and O, which read as figures


@dataclass(frozen=True)
class Tile:
    """One sheet of a set: its name, its row and column, and the room of the part that it shows, in mm."""

    name: str
    row: int
    column: int
    room: Box

    def is_beside(self, other: "Tile") -> bool:
        """Whether the two share an edge."""
        return abs(self.row - other.row) + abs(self.column - other.column) == 1


@dataclass(frozen=True)
class Tiling:
    """The sheets that a part needs; `turned` where it lies on its side, a quarter turn to the left."""

    tiles: tuple[Tile, ...]
    turned: bool


def tiling(lines: Iterable[Line], room: Box, clear: float) -> Tiling:
    """Lay a part on the fewest sheets, turned a quarter where that saves one.

    Takes the part's lines and the room of a sheet in mm, and the clear space to keep round the part.
    """
    lines = list(lines)
    ways = [
        Tiling(_tiles(drawn, room, clear), turned)
        for drawn, turned in ((lines, False), (_turned(lines), True))
    ]
    return min(ways, key=lambda way: (len(way.tiles), way.turned))


def turned(point: Point) -> Point:
    """Return a point after a quarter turn to the left."""
    return -point[1], point[0]


def _turned(lines: Iterable[Line]) -> list[Line]:
    return [tuple(turned(point) for point in line) for line in lines]


def _tiles(lines: list[Line], room: Box, clear: float) -> tuple[Tile, ...]:
    """Return the sheets of a grid that hold any line, row by row from the top, centred on the part."""
    xs, ys = zip(*(point for line in lines for point in line), strict=True)
    columns = _starts(min(xs) - clear, max(xs) + clear, room.width)
    rows = _starts(min(ys) - clear, max(ys) + clear, room.height)[::-1]
    found = []
    for row, low in enumerate(rows):
        for column, left in enumerate(columns):
            tile = Box(left, low, left + room.width, low + room.height)
            if any(True for line in lines for _ in clipped(line, tile)):
                found.append(Tile(f"{_LETTERS[row]}{column + 1}", row, column, tile))
    return tuple(found)


def _starts(low: float, high: float, size: float) -> list[float]:
    """Return where sheets of a size begin that cover a span, the spare room shared between both ends."""
    step = size - OVERLAP_MM
    count = max(1, ceil((high - low - OVERLAP_MM) / step - 1e-9))
    spare = count * step + OVERLAP_MM - (high - low)
    return [low - spare / 2 + number * step for number in range(count)]


def clipped(line: Line, room: Box) -> Iterator[Line]:
    """Yield the pieces of a polyline that lie in a room, in order."""
    piece: list[Point] = []
    for a, b in pairwise(line):
        inside = _part_inside(a, b, room)
        if inside is None:
            continue
        start, end = inside
        if piece and piece[-1] == start:
            piece.append(end)
            continue
        if len(piece) > 1:
            yield tuple(piece)
        piece = [start, end]
    if len(piece) > 1:
        yield tuple(piece)


def _part_inside(a: Point, b: Point, room: Box) -> tuple[Point, Point] | None:
    """Return the two ends of what lies inside of a straight line, or None; an end inside is kept as it is."""
    start, end = 0.0, 1.0
    spans = ((a[0], b[0], room.left, room.right), (a[1], b[1], room.bottom, room.top))
    for from_, to, low, high in spans:
        if from_ == to:
            if not low <= from_ <= high:
                return None
            continue
        near, far = sorted(((low - from_) / (to - from_), (high - from_) / (to - from_)))
        start, end = max(start, near), min(end, far)
    if start >= end:
        return None
    return _between(a, b, start), _between(a, b, end)


def _between(a: Point, b: Point, share: float) -> Point:
    if share in {0.0, 1.0}:
        return b if share else a
    return a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])
