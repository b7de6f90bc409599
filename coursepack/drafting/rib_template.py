"""A rib at full size: its outline to cut out, and on it what the rib is laid out and glued by."""

from collections.abc import Iterator, Sequence
from itertools import islice, product
from math import dist

from coursepack.drafting.clearance import crosses
from coursepack.drafting.label import label_box
from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.rib_view import RibLines, lines_of, spars_of
from coursepack.drafting.sheet import SMALL_MM, Box, Label, Line, Point, Stroke
from coursepack.trade.rib import Rib
from coursepack.trade.truss import jig_blocks

STATIONS = (
    1.25,
    2.5,
    5,
    7.5,
    10,
    15,
    20,
    30,
    40,
    50,
    60,
    70,
    80,
    90,
    95,
    100,
)  # percent, as in printed tables
TRUE_MM = 0.005  # of the contour's straight pieces to the section
TICK_MM = (3.0, 2.0)  # inward and outward from the contour
NUMBER_MM = 3.0  # from the tick's inner end, or the inner line, to the middle of its number
NUMBER_PLACES = tuple(product((0.0, 4.0, 8.0), (0.0, 4.0, -4.0, 8.0, -8.0)))  # down and aside from there
PAST_MM = 6.0  # of the datum, beyond nose and tail
BELOW_MM = 8.0  # a flat underside, of the line that the sheets are taped along
FLAT_MM = 2.0  # least distance at which the datum is told from the underside
STRAIGHT_NAMES = (0.15, 0.4, 0.65, 0.9)  # of the chord
NAME_HEIGHT = 0.22  # of an opening's height
GRAIN_MM = 40.0
GRAIN_HEIGHTS = (0.25, 0.75, 0.35, 0.65)  # off the middle, where lengths are measured from sheet to sheet
GRAIN_STATIONS = tuple(share / 100 for share in range(33, 66))


def rib_parts(sizes: Sizes) -> tuple[Part, ...]:
    """Return the rib as a part to cut out: its contour, and the openings of its spars as holes.

    Drawn on it: the datum, ticks at the stations of the printed tables, the inner line of the capstrips, members
    and gussets, the jig blocks around it. Sizes as for the figure; raises LessonFault where no rib can be built so.
    """
    lines = lines_of(sizes)
    rib, spars = lines.rib, spars_of(sizes)
    blocks = _jig(lines)
    openings = tuple(rib.opening(spar) for _, spar in spars)
    guides = [Stroke("dimension", (*_ticks(rib), *_block_marks(blocks))), Stroke("layer", blocks)]
    if rib.capstrip:
        guides.append(Stroke("hidden", tuple(_inner_lines(rib))))
    guides.append(Stroke("layer", (*lines.members, *lines.gussets)))
    outlines = (rib.contour(TRUE_MM), *lines.openings)
    drawn = [*outlines, _straight(rib), *(line for stroke in guides for line in stroke.lines)]
    names = tuple(
        _middled(name.upper(), _low_in(opening)) for (name, _), opening in zip(spars, openings, strict=True)
    )
    return (
        Part(
            "rib",
            outlines,
            tuple(guides),
            (*_numbers(rib, drawn), *names, *_names_of_the_straight(rib, drawn)),
            _grain(rib, drawn),
            _straight(rib),
            notes=_notes(rib),
        ),
    )


def _jig(lines: RibLines) -> tuple[Line, ...]:
    return tuple(jig_blocks(lines.rib, lines.truss, [_at(lines.rib, station) for station in STATIONS]))


def _at(rib: Rib, station: float) -> float:
    return rib.chord * station / 100


def _block_marks(blocks: Sequence[Line]) -> Iterator[Line]:
    """Yield the sides of each jig block a little way on into the rib, to mark them from when it is cut out."""
    for first, second, outer_second, outer_first, _ in blocks:
        for inner, outer in ((first, outer_first), (second, outer_second)):
            share = TICK_MM[0] / dist(inner, outer)
            yield inner, (inner[0] + share * (inner[0] - outer[0]), inner[1] + share * (inner[1] - outer[1]))


def _names_of_the_straight(rib: Rib, drawn: Sequence[Line]) -> Iterator[Label]:
    """Yield what the line to tape along is, under it here and there, where it is clear."""
    text = f"{BELOW_MM:g} mm (5⁄16 in) below the datum" if _is_flat(rib) else "datum"
    y = _straight(rib)[0][1] - SMALL_MM - 1.2
    for share in STRAIGHT_NAMES:
        label = Label(text, share * rib.chord, y, size_mm=SMALL_MM)
        if _is_clear(label_box(label), drawn):
            yield label


def _is_flat(rib: Rib) -> bool:
    """Tell whether the underside runs so near the datum that its line could not be told from a datum line."""
    return abs(rib.ordinate("lower", rib.chord / 2)) < FLAT_MM


def _straight(rib: Rib) -> tuple[Point, Point]:
    """Return the datum, or where the underside runs along it a line parallel to it, clear below."""
    y = -BELOW_MM if _is_flat(rib) else 0.0
    return (-PAST_MM, y), (rib.chord + PAST_MM, y)


def _ticks(rib: Rib) -> Iterator[Line]:
    """Yield a line across the contour on each station, and at station 0 a corner on the datum."""
    inward, outward = TICK_MM
    yield (-PAST_MM, 0.0), (PAST_MM, 0.0)
    yield (0.0, -PAST_MM), (0.0, PAST_MM)
    for share in STATIONS:
        station = _at(rib, share)
        for surface, up in (("upper", 1.0), ("lower", -1.0)):
            y = rib.ordinate(surface, station)
            yield (station, y + up * outward), (station, y - up * inward)


def _inner_lines(rib: Rib) -> Iterator[Line]:
    """Yield the inner line of each capstrip from block to block, and the faces of both blocks."""
    start, end = rib.nose, rib.tail
    for surface in ("upper", "lower"):
        yield rib.inner_line(surface, start, end)
    for station in (start, end):
        yield rib.inside("lower", station), rib.inside("upper", station)


def _numbers(rib: Rib, drawn: Sequence[Line]) -> Iterator[Label]:
    """Yield the station's number in percent near each upper tick, inside and clear of what is drawn there."""
    yield from islice((label for label in _origins() if _is_clear(label_box(label), drawn)), 1)
    for share in STATIONS:
        station = _at(rib, share)
        top = rib.ordinate("upper", station) - max(rib.capstrip, TICK_MM[0]) - NUMBER_MM
        places = (_middled(f"{share:g}", (station + aside, top - down)) for down, aside in NUMBER_PLACES)
        yield from islice((label for label in places if _is_clear(label_box(label), drawn)), 1)


def _origins() -> Iterator[Label]:
    """Yield the places for the name of the cross where stations and ordinates begin."""
    for x, y in ((0.0, -PAST_MM - 3), (0.0, PAST_MM + 3), (-PAST_MM - 3, 3.0), (-PAST_MM - 3, -3.0)):
        yield _middled("0", (x, y))


def _middled(text: str, at: Point) -> Label:
    return Label(text, at[0], at[1] - MIDDLE_EM * SMALL_MM, size_mm=SMALL_MM)


def _low_in(opening: Line) -> Point:
    """Return where an opening is named: low in it, since lengths are measured across joints halfway up."""
    low, _, high, _ = opening
    return (low[0] + high[0]) / 2, low[1] + NAME_HEIGHT * (high[1] - low[1])


def _grain(rib: Rib, drawn: Sequence[Line]) -> tuple[Point, Point] | None:
    """Return the arrow along the grain, where it is clear of what is drawn; None where it has no room."""
    half = min(GRAIN_MM, 0.1 * rib.chord) / 2
    for share, up in product(GRAIN_STATIONS, GRAIN_HEIGHTS):
        x = share * rib.chord
        y = (1 - up) * rib.ordinate("lower", x) + up * rib.ordinate("upper", x)
        if _is_clear(Box(x - half, y - 2.0, x + half, y + 5.0), drawn):
            return (x - half, y), (x + half, y)
    return None


def _is_clear(room: Box, drawn: Sequence[Line]) -> bool:
    return not any(crosses(line, room.grown(0.5)) for line in drawn)


def _notes(rib: Rib) -> tuple[str, ...]:
    section = f"section {rib.section.name}: {rib.section.datum}"
    marks = "large cross: station 0 on the datum; ticks: the stations of the table, in percent of the chord"
    blocks = "oblongs outside the contour: inner ends of the jig blocks, their sides marked inside it"
    inner = ("dashed: inner line of the capstrips",) if rib.capstrip else ()
    below = f"dash-dotted: parallel to the datum, {BELOW_MM:g} mm (5⁄16 in) below it"
    return (section, marks, blocks, *inner, below if _is_flat(rib) else "dash-dotted: the datum")
