"""The assembly map of a set of sheets: how they lie beside each other, small, with their names."""

from coursepack.drafting.part import Part, box_of
from coursepack.drafting.scale import SCALES, scale_text
from coursepack.drafting.sheet import LETTER_MM, SMALL_MM, Box, Drawing, Label, Line, Piece, Stroke
from coursepack.drafting.tiling import Tile, Tiling

TALLEST_MM = 120.0
UNDER_MM = 12.0  # for the line under the map


def assembly_map(part: Part, found: Tiling, room: tuple[float, float]) -> Drawing:
    """Draw the sheets of a part at the largest scale of ISO 5455 that fits a width and height in mm."""
    whole = box_of(corner for tile in found.tiles for corner in _corners(tile.room))
    scale = next(
        scale
        for scale in (*(s for s in SCALES if s < 1), SCALES[-1] / 2)
        if whole.width * scale <= room[0] - 4 and whole.height * scale <= TALLEST_MM
    )
    by = float(scale)
    outline = Piece((Stroke("outline", tuple(_scaled(line, by) for line in part.outlines)),))
    outline += Piece((Stroke("centre", (_scaled(part.straight, by),)),) if part.straight else ())
    piece = sum((_tile(tile, by) for tile in found.tiles), outline)
    moved = piece.moved((room[0] - whole.width * by) / 2 - whole.left * by, UNDER_MM - whole.bottom * by)
    text = f"Assembly map, scale {scale_text(scale)}. Not a template: do not cut from it."
    title = Label(text, room[0] / 2, 4.0, size_mm=SMALL_MM)
    alt = f"How the {len(found.tiles)} sheets of {part.name} lie beside each other."
    high = whole.height * by + UNDER_MM + 1.0
    return Drawing(room[0], high, scale_text(scale), moved.strokes, moved.fills, (*moved.labels, title), alt)


def _tile(tile: Tile, by: float) -> Piece:
    corners = _scaled(_corners(tile.room), by)
    box = box_of(corners)
    name = Label(tile.name, (box.left + box.right) / 2, box.top - LETTER_MM - 1.0, hand="title")
    return Piece((Stroke("dimension", (corners,)),), (), (name,))


def _corners(box: Box) -> Line:
    return (
        (box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top), (box.left, box.bottom),
    )  # fmt: skip


def _scaled(line: Line, by: float) -> Line:
    return tuple((x * by, y * by) for x, y in line)
