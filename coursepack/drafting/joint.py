"""Where two sheets of a set lie on each other: cross-hairs on both, and a length measured across the joint."""

from collections.abc import Iterable, Sequence

from coursepack.drafting.check_bars import INCH
from coursepack.drafting.clearance import crosses
from coursepack.drafting.label import label_box
from coursepack.drafting.sheet import SMALL_MM, Box, Label, Line, Piece, Point, Stroke
from coursepack.drafting.tiling import OVERLAP_MM, Tile

HAIR_MM = 4.0  # half the length of a cross-hair
ACROSS_MM = 4 * INCH  # measured across each joint
TICK_MM = 2.5
HAIRS_AT = (0.08, 0.92)  # shares of the joint's length
LENGTHS_AT = (0.5, 0.44, 0.56, 0.38, 0.62, 0.3, 0.7)  # the first ones past the reach of those of other joints


def joint(mine: Tile, other: Tile, lines: Sequence[Line]) -> Piece:
    """Draw, in the part's own mm, what a sheet shows of its joint with another.

    Both sheets carry the same two cross-hairs; each carries half of the length that is measured across, where
    the lettering of both is clear of the lines.
    """
    a, b = mine.room, other.room
    shared = Box(max(a.left, b.left), max(a.bottom, b.bottom), min(a.right, b.right), min(a.top, b.top))
    level = mine.column != other.column
    name = "–".join(sorted((mine.name, other.name)))
    places = [_on(shared, share, level=level) for share in LENGTHS_AT]
    pairs = [tuple(_half(room, at, name, level=level) for room in (a, b)) for at in places]
    half = next((pair[0] for pair in pairs if _is_clear(pair, lines)), pairs[0][0])
    return sum((_hair(_on(shared, share, level=level)) for share in HAIRS_AT), half)


def _is_clear(pieces: Iterable[Piece], lines: Sequence[Line]) -> bool:
    boxes = [label_box(label) for piece in pieces for label in piece.labels]
    return not any(crosses(line, box) for line in lines for box in boxes)


def _on(shared: Box, share: float, *, level: bool) -> Point:
    """Return a point on the middle line of an overlap, a share of the way along it."""
    if level:
        return (shared.left + shared.right) / 2, shared.bottom + share * shared.height
    return shared.left + share * shared.width, (shared.bottom + shared.top) / 2


def _hair(at: Point) -> Piece:
    x, y = at
    cross = ((x - HAIR_MM, y), (x + HAIR_MM, y)), ((x, y - HAIR_MM), (x, y + HAIR_MM))
    return Piece((Stroke("dimension", cross),))


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
