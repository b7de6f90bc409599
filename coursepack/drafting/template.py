"""Full-size sheets of parts, as drawings: what is cut out, glued to card and laid on the wood.

A sheet's drawing is SHEET_MM large. With some lines of text over it, it stands in the room that Letter and A4
both have (184 × 254 mm, 12.7 mm to spare), and it carries a check bar along the paper and one across.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import islice

from coursepack.drafting.assembly_map import assembly_map
from coursepack.drafting.check_bars import check_bar
from coursepack.drafting.clearance import is_free
from coursepack.drafting.dimension import arrowhead
from coursepack.drafting.joint import joint, trim
from coursepack.drafting.label import label_box
from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.part import Part, box_of
from coursepack.drafting.sheet import SMALL_MM, Box, Drawing, Fill, Label, Line, Piece, Stroke
from coursepack.drafting.tiling import Tile, Tiling, clipped, tiling, turned
from coursepack.lesson import BARS

SHEET_MM = (184.0, 212.0)
ROOM = Box(14.0, 12.0, 184.0, 212.0)  # for the part, beside the check bars
CLEAR_MM = 4.0
APART_MM = 8.0  # between parts on one sheet
NAME_MM = 7.0  # for a part's name under it
CHECKS = check_bar(BARS["along"], (6.5, 6.5), upright=True) + check_bar(
    BARS["across"], (20.0, 6.5), upright=False
)


@dataclass(frozen=True)
class TemplateSheet:
    """One full-size sheet: its drawing, its name (empty where it stands alone), the parts on it."""

    drawing: Drawing
    name: str
    parts: tuple[Part, ...]
    is_map: bool = False


def template_sheets(parts: Sequence[Part]) -> list[TemplateSheet]:
    """Lay parts out at full size: small ones together, a larger one on as many sheets as it needs, after a map."""
    small: list[Part] = []
    sheets: list[TemplateSheet] = []
    for part in parts:
        found = tiling(part.lines, ROOM, CLEAR_MM)
        lying = lain(part) if found.turned else part
        if len(found.tiles) > 1:
            sheets += _set_of_sheets(lying, found)
        else:
            small.append(lying)
    return [*_shared(small), *sheets]


def stretched(drawing: Drawing, along: Fraction, across: Fraction) -> Drawing:
    """Return a drawing made longer along and across the paper, so that a printer that is off prints it true."""
    by = float(across), float(along)

    def placed(line: Line) -> Line:
        return tuple((x * by[0], y * by[1]) for x, y in line)

    return replace(
        drawing,
        width=drawing.width * by[0],
        height=drawing.height * by[1],
        strokes=tuple(
            Stroke(stroke.kind, tuple(placed(line) for line in stroke.lines)) for stroke in drawing.strokes
        ),
        fills=tuple(Fill(placed(fill.polygon), fill.of) for fill in drawing.fills),
        labels=tuple(replace(label, x=label.x * by[0], y=label.y * by[1]) for label in drawing.labels),
    )


def lain(part: Part) -> Part:
    """Lay a part on its side, a quarter turn to the left, with its lettering."""

    def lay(line: Line) -> Line:
        return tuple(turned(point) for point in line)

    return replace(
        part,
        outlines=tuple(lay(line) for line in part.outlines),
        guides=tuple(
            Stroke(stroke.kind, tuple(lay(line) for line in stroke.lines)) for stroke in part.guides
        ),
        labels=tuple(_lain(label) for label in part.labels),
        grain=part.grain and (turned(part.grain[0]), turned(part.grain[1])),
        straight=part.straight and (turned(part.straight[0]), turned(part.straight[1])),
    )


def _lain(label: Label) -> Label:
    """Turn a label round the middle of its text: level lettering then reads from the right, and upright lettering level."""
    x, y = turned((label.x, label.y))
    return (
        replace(label, x=x, y=y, angle=90)
        if not label.angle
        else replace(label, x=x, y=y - 2 * MIDDLE_EM * label.size_mm, angle=0)
    )


# Parts that share a sheet


def _shared(parts: Sequence[Part]) -> Iterator[TemplateSheet]:
    """Fill sheets from the top with rows of parts."""
    sheet: list[list[Part]] = []
    high = ROOM.top - CLEAR_MM
    for row in _rows(parts):
        tall = _height(row)
        if sheet and high - tall < ROOM.bottom:
            yield _one_sheet(sheet)
            sheet, high = [], ROOM.top - CLEAR_MM
        sheet.append(row)
        high -= tall + APART_MM
    if sheet:
        yield _one_sheet(sheet)


def _rows(parts: Sequence[Part]) -> Iterator[list[Part]]:
    """Put parts beside each other, in their order, while they fit across."""
    row: list[Part] = []
    for part in parts:
        if (
            row
            and sum(each.box.width + APART_MM for each in row) + part.box.width > ROOM.width - 2 * CLEAR_MM
        ):
            yield row
            row = []
        row.append(part)
    if row:
        yield row


def _height(row: Sequence[Part]) -> float:
    return max(part.box.height for part in row) + NAME_MM


def _one_sheet(rows: Sequence[Sequence[Part]]) -> TemplateSheet:
    pieces = []
    high = ROOM.top - CLEAR_MM
    for row in rows:
        spare = ROOM.width - sum(part.box.width for part in row)
        left = ROOM.left + spare / (len(row) + 1)
        for part in row:
            pieces.append(_named(part, left, high))
            left += part.box.width + spare / (len(row) + 1)
        high -= _height(row) + APART_MM
    parts = [part for row in rows for part in row]
    names = ", ".join(part.name for part in parts)
    return TemplateSheet(_on_paper(pieces, f"Full-size outlines to cut out: {names}."), "", tuple(parts))


def _named(part: Part, left: float, top: float) -> Piece:
    box = part.box
    name = Label(part.name, left + box.width / 2, top - box.height - 5.0, hand="title")
    return _piece(part).moved(left - box.left, top - box.top) + Piece((), (), (name,))


def _piece(part: Part) -> Piece:
    return Piece((*part.guides, Stroke("thin", part.outlines)), (), part.labels) + _grain(part)


def _grain(part: Part) -> Piece:
    """Draw the grain arrow of a part, its word beside the arrow's middle."""
    if part.grain is None:
        return Piece()
    (x, y), (to_x, to_y) = part.grain
    along = to_x - x, to_y - y
    heads = arrowhead((to_x, to_y), along, "GRAIN"), arrowhead((x, y), (-along[0], -along[1]), "GRAIN")
    middle = (x + to_x) / 2, (y + to_y) / 2
    if abs(along[1]) > abs(along[0]):
        word = Label("GRAIN", middle[0] - 1.2, middle[1], "centre", 90, size_mm=SMALL_MM)
    else:
        word = Label("GRAIN", middle[0], middle[1] + 1.2, size_mm=SMALL_MM)
    return Piece((Stroke("dimension", (part.grain,)),), heads, (word,))


def _on_paper(pieces: Iterable[Piece], alt: str) -> Drawing:
    whole = sum(pieces, CHECKS)
    return Drawing(*SHEET_MM, "1:1", whole.strokes, whole.fills, whole.labels, alt)


# A part on several sheets


def _set_of_sheets(part: Part, found: Tiling) -> Iterator[TemplateSheet]:
    yield TemplateSheet(assembly_map(part, found, SHEET_MM), "map", (part,), is_map=True)
    whole = _piece(part) + Piece((Stroke("centre", (part.straight,)),) if part.straight else ())
    lines = [line for stroke in whole.strokes for line in stroke.lines]
    for tile in found.tiles:
        beside = [other for other in found.tiles if tile.is_beside(other)]
        shown = sum((joint(tile, other, lines) for other in beside), _cut_out(whole, tile.room))
        shown = sum((trim(tile, other, shown) for other in beside), shown)
        moved = (shown + _tile_name(tile, shown)).moved(
            ROOM.left - tile.room.left, ROOM.bottom - tile.room.bottom
        )
        alt = f"Sheet {tile.name} of {part.name}, at full size."
        yield TemplateSheet(_on_paper([moved], alt), tile.name, (part,))


def _tile_name(tile: Tile, shown: Piece) -> Piece:
    """Letter a sheet's name large where it is clear of all that the sheet shows."""
    places = (
        Label(
            tile.name,
            tile.room.left + across * tile.room.width,
            tile.room.bottom + up * tile.room.height,
            hand="title",
            size_mm=8.0,
        )
        for up in (0.7, 0.25, 0.8, 0.15, 0.5)
        for across in (0.5, 0.3, 0.7, 0.2, 0.8)
    )
    clear = (name for name in places if is_free(name, shown, 2.0))
    return Piece((), (), tuple(islice(clear, 1)))


def _cut_out(piece: Piece, room: Box) -> Piece:
    """Keep what lies in a room: lines cut at its edge, lettering and arrowheads that lie in it whole."""
    strokes = tuple(
        Stroke(stroke.kind, lines)
        for stroke in piece.strokes
        if (lines := tuple(part for line in stroke.lines for part in clipped(line, room)))
    )
    fills = tuple(fill for fill in piece.fills if room.holds(box_of(fill.polygon)))
    return Piece(strokes, fills, tuple(label for label in piece.labels if room.holds(label_box(label))))
