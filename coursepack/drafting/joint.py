"""Where two sheets of a set lie on each other: cross-hairs on both, a length measured across, and where to trim."""

from collections.abc import Iterable, Sequence
from itertools import islice

from coursepack.drafting.check_bars import INCH
from coursepack.drafting.clearance import crosses, is_free
from coursepack.drafting.label import label_box
from coursepack.drafting.part import box_of
from coursepack.drafting.sheet import SMALL_MM, Box, Label, Line, Piece, Point, Stroke
from coursepack.drafting.tiling import OVERLAP_MM, Tile

HAIR_MM = 4.0  # half the length of a cross-hair
ACROSS_MM = 4 * INCH  # measured across each joint
TICK_MM = 2.5
APART_MM = 0.5  # of the words at an edge from all else
EDGE_MM = 3.4  # from an edge to the foot of its words
NAME_MM = 9.0  # aside from a cross-hair to the middle of its name
NAME_UP_MM = (1.2, -3.4)  # and up to its foot
HAIRS_AT = (0.08, 0.92)  # shares of the joint's length
TRIM_AT = (0.22, 0.78, 0.3, 0.7, 0.4, 0.6, 0.5)
LENGTHS_AT = (
    0.5,
    0.44,
    0.56,
    0.38,
    0.62,
    0.3,
    0.7,
    0.76,
    0.24,
)  # the first ones past the reach of those of other joints


def joint(mine: Tile, other: Tile, lines: Sequence[Line]) -> Piece:
    """Draw, in the part's own mm, what a sheet shows of its joint with another.

    Both sheets carry the same two cross-hairs, named after both; each carries half of the length that is measured
    across, where it is clear of the lines, or at least its lettering is.
    """
    a, b, shared = mine.room, other.room, _shared(mine, other)
    level = mine.column != other.column
    name = "–".join(tile.name for tile in sorted((mine, other), key=_place))
    hairs = sum((_hair(_on(shared, share, level=level), a, name, lines) for share in HAIRS_AT), Piece())
    places = [_on(shared, share, level=level) for share in LENGTHS_AT]
    pairs = [tuple(_half(room, at, name, level=level) for room in (a, b)) for at in places]
    clear = [pair for pair in pairs if _is_clear(pair, lines)]
    quiet = [pair for pair in clear if not any(_meet(piece, lines) for piece in pair)]
    return hairs + [*quiet, *clear, *pairs][0][0]


def trim(mine: Tile, other: Tile, shown: Piece) -> Piece:
    """Draw the edge along which a sheet is trimmed, to lie on an earlier one; words where they are clear of what it shows."""
    if _place(mine) < _place(other):
        return Piece()
    shared = _shared(mine, other)
    start = shared.left, shared.top
    end = (shared.left, shared.bottom) if mine.column != other.column else (shared.right, shared.top)
    words = (_edge_words(f"trim here, lay on {other.name}", (start, end), share) for share in TRIM_AT)
    clear = (label for label in words if is_free(label, shown, APART_MM))
    return Piece((Stroke("hidden", ((start, end),)),), (), tuple(islice(clear, 1)))


def _shared(mine: Tile, other: Tile) -> Box:
    a, b = mine.room, other.room
    return Box(max(a.left, b.left), max(a.bottom, b.bottom), min(a.right, b.right), min(a.top, b.top))


def _place(tile: Tile) -> tuple[int, int]:
    return tile.row, tile.column


def _meet(piece: Piece, lines: Sequence[Line]) -> bool:
    """Whether the length that is measured runs over any line, or close to it."""
    room = box_of(point for stroke in piece.strokes for line in stroke.lines for point in line)
    return any(crosses(line, room) for line in lines)


def _edge_words(text: str, edge: Line, share: float) -> Label:
    """Letter an edge inside of it: upright at the left of a sheet, level at its top."""
    (x, y), (to_x, to_y) = edge
    at = x + share * (to_x - x), y + share * (to_y - y)
    if to_x == x:
        return Label(text, at[0] + EDGE_MM, at[1], "centre", 90, size_mm=SMALL_MM)
    return Label(text, at[0], at[1] - EDGE_MM, size_mm=SMALL_MM)


def _is_clear(pieces: Iterable[Piece], lines: Sequence[Line]) -> bool:
    boxes = [label_box(label) for piece in pieces for label in piece.labels]
    return not any(crosses(line, box) for line in lines for box in boxes)


def _on(shared: Box, share: float, *, level: bool) -> Point:
    """Return a point on the middle line of an overlap, a share of the way along it."""
    if level:
        return (shared.left + shared.right) / 2, shared.bottom + share * shared.height
    return shared.left + share * shared.width, (shared.bottom + shared.top) / 2


def _hair(at: Point, mine: Box, name: str, lines: Sequence[Line]) -> Piece:
    """Draw a cross-hair, its name beside it in one of the four corners: on this sheet, clear of the lines."""
    x, y = at
    cross = ((x - HAIR_MM, y), (x + HAIR_MM, y)), ((x, y - HAIR_MM), (x, y + HAIR_MM))
    way = 1.0 if (mine.left + mine.right) / 2 > x else -1.0
    corners = [(x + side * NAME_MM, y + up) for side in (way, -way) for up in NAME_UP_MM]
    names = [Piece((), (), (Label(name, *corner, size_mm=SMALL_MM),)) for corner in corners]
    return Piece((Stroke("dimension", cross),)) + next((n for n in names if _is_clear([n], lines)), names[0])


def _half(mine: Box, at: Point, name: str, *, level: bool) -> Piece:
    """Draw this sheet's half of the length: a tick, a line to the sheet's edge, its lettering."""
    along, aside = at if level else (at[1], at[0])
    middle = (mine.left + mine.right if level else mine.bottom + mine.top) / 2
    way = 1.0 if middle > along else -1.0
    end, edge = along + way * ACROSS_MM / 2, along - way * OVERLAP_MM / 2

    def placed(far: float, off: float) -> Point:
        return (far, aside + off) if level else (aside - off, far)

    lines = (placed(end, 0), placed(edge, 0)), (placed(end, -TICK_MM), placed(end, TICK_MM))
    x, y = placed((end + along + way * HAIR_MM * 2) / 2, 1.2)
    label = Label(f"{name}: tick to tick 4 in", x, y, "centre", 0 if level else 90, size_mm=SMALL_MM)
    return Piece((Stroke("dimension", lines),), (), (label,))
