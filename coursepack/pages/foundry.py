"""Makes the faces of the pages from their open sources: the glyphs, their names, and the file.

Sources: Adobe Technical Note 5177 (Type 2 charstrings), the OpenType specification, SIL Open Font License 1.1.
"""

import io
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from importlib.resources import files
from math import gcd, radians, tan
from types import MappingProxyType
from typing import Any

from fontTools.misc.psCharStrings import T2CharString
from fontTools.misc.roundTools import otRound
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.recordingPen import RecordingPen
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.pens.transformPen import TransformPen
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables._c_m_a_p import CmapSubtable

from coursepack.pages.ligatures import DIGITS, SLASH, WIDE_SLASH, substitutions

_DENOMINATORS = (2, 3, 4, 5, 6, 8, 10, 12, 16, 32, 64)
FRACTIONS = tuple((n, d) for d in _DENOMINATORS for n in range(1, d) if gcd(n, d) == 1)
_WINDOWS_ENGLISH = (3, 1, 0x409)
# What the italic lacks: Greek is slanted to suit (all of it, or the engine takes the upright face for the
# language's sake), signs of the trade stand as they are.
_BORROWED_SLANTED = "".join(chr(code) for code in range(0x0386, 0x03CF))
_BORROWED_UPRIGHT = "→←↑↓△■✓"


@dataclass(frozen=True)
class Cut:
    """One face: where its outlines come from, and what it is called."""

    package: str
    file: str
    family: str
    style: str
    weight: int

    @property
    def slanted(self) -> bool:
        """Say whether it is an italic."""
        return self.style == "Italic"


@dataclass(frozen=True)
class Face:
    """A finished face: its file, and the advance of each character and stacked fraction in 1/1000 em."""

    data: bytes
    advances: Mapping[str, int]


def cast(cut: Cut, lender: Cut | None) -> Face:
    """Make one face, the same bytes each time; the lender gives the signs that it lacks."""
    bench = _Bench(_open(cut))
    if lender:
        bench.borrow(_open(lender))
    bench.separate_lookalikes()
    bench.draw_missing()
    bench.stack_fractions()
    return Face(bench.finish(cut), MappingProxyType(bench.advances()))


def _open(cut: Cut) -> Any:
    data = (files(cut.package) / "files" / f"{cut.file}.otf").read_bytes()
    return TTFont(io.BytesIO(data), lazy=True, recalcBBoxes=False, recalcTimestamp=False)


@dataclass(frozen=True)
class _Shape:
    """An outline as charstring code that starts by moving to its first point."""

    start: tuple[int, int]
    end: tuple[int, int]
    code: bytes
    bounds: tuple[float, float, float, float]
    width: int


class _Bench:
    """A font while glyphs are added at its end, so that its kerning, by glyph number, stays true."""

    def __init__(self, font: Any) -> None:
        self.font = font
        self.top = font["CFF "].cff.topDictIndex[0]
        self.outlines = font.getGlyphSet()
        self.order: list[str] = list(font.getGlyphOrder())
        self.characters: dict[int, str] = dict(font.getBestCmap())
        self.fractions: dict[tuple[str, ...], str] = {}

    def add(self, name: str, width: int, code: bytes) -> None:
        """Add a glyph from charstring code without its width and end."""
        private = self.top.Private
        shift = b"" if width == private.defaultWidthX else _number(width - private.nominalWidthX)
        self._append(name, width, T2CharString(bytecode=shift + code + b"\x0e", private=private))

    def _append(self, name: str, width: int, charstring: T2CharString) -> None:
        charstrings = self.top.CharStrings
        charstrings.charStringsIndex.append(charstring)
        charstrings.charStrings[name] = len(self.order)
        self.order.append(name)
        self.font["hmtx"].metrics[name] = (width, 0)

    def shape(self, glyph: str, slope: float = 0.0, outlines: Any = None) -> _Shape:
        """Read a glyph's outline, slanted by `slope` (tangent of the angle)."""
        outlines = outlines or self.outlines
        drawn, pen, bounds = RecordingPen(), T2CharStringPen(None, outlines), BoundsPen(outlines)
        outlines[glyph].draw(TransformPen(drawn, (1, 0, slope, 1, 0, 0)))
        for each in (pen, bounds):
            drawn.replay(each)
        program = pen.getCharString(optimize=False).program[:-1]
        steps = [step for step in program if not isinstance(step, str)]
        body = T2CharString(program=[*program[3:], "endchar"])
        body.compile()
        end = sum(steps[0::2]), sum(steps[1::2])
        return _Shape((steps[0], steps[1]), end, body.bytecode[:-1], bounds.bounds, outlines[glyph].width)

    def borrow(self, upright: Any) -> None:
        """Take from the upright face the signs that this one lacks."""
        slope = tan(radians(-self.font["post"].italicAngle))
        cmap, outlines = upright.getBestCmap(), upright.getGlyphSet()
        for char in _BORROWED_SLANTED + _BORROWED_UPRIGHT:
            if ord(char) in cmap and ord(char) not in self.characters:
                lean = slope if char in _BORROWED_SLANTED else 0.0
                shape = self.shape(cmap[ord(char)], lean, outlines)
                self.characters[ord(char)] = name = f"bench{ord(char):04X}"
                self.add(name, otRound(shape.width), _join([(shape, (0, 0))])[0])

    def separate_lookalikes(self) -> None:
        """Give each space and hyphen a glyph of its own, so that a PDF gives back the very character."""
        space = self.font["hmtx"]["space"][0]
        for code, width in ((0xA0, space), (0x2009, 200), (0x202F, 140)):
            self.characters[code] = name = f"bench{code:04X}"
            self.add(name, width, b"")
        hyphen = self.shape("hyphen")
        for code in (0xAD, 0x2010, 0x2011):
            self.characters[code] = name = f"bench{code:04X}"
            self.add(name, otRound(hyphen.width), _join([(hyphen, (0, 0))])[0])

    def draw_missing(self) -> None:
        """Draw an open square like the full one, and a slash that clears figures of full height."""
        full = self.shape(self.characters[ord("■")])
        self.characters[ord("□")] = "bench25A1"
        self.add("bench25A1", otRound(full.width), _frame(full.bounds))
        slash = self.shape(SLASH)
        left, right = otRound(slash.bounds[0]), otRound(slash.bounds[2])
        self.add(WIDE_SLASH, right - left, _join([(slash, (-left, 0))])[0])

    def stack_fractions(self) -> None:
        """Draw every stacked fraction from the face's own small figures, about the height of its minus sign."""
        minus = self.shape("minus").bounds
        small = {digit: self.shape(f"{digit}.numr") for digit in DIGITS}
        for above, below in FRACTIONS:
            numerator, denominator = _digits(above), _digits(below)
            name = f"stack{above}_{below}"
            width, code = _stack([small[d] for d in numerator], [small[d] for d in denominator], minus)
            self.add(name, width, code)
            self.fractions[(*numerator, SLASH, *denominator)] = name

    def advances(self) -> dict[str, int]:
        """Return the advance of each character and fraction, by its text."""
        metrics = self.font["hmtx"].metrics
        plain = {chr(code): metrics[name][0] for code, name in self.characters.items()}
        plain["⁄"] = metrics[WIDE_SLASH][0]
        return plain | {f"{n}⁄{d}": metrics[f"stack{n}_{d}"][0] for n, d in FRACTIONS}

    def finish(self, cut: Cut) -> bytes:
        """Name the face, write its tables and return the file."""
        self.font.setGlyphOrder(self.order)
        self.top.charset = self.order
        self.font["maxp"].numGlyphs = len(self.order)
        self.font["cmap"].tables = [_cmap(self.characters)]
        self.font["GSUB"] = substitutions(self.order, self.fractions)
        _rename(self.font, cut)
        del self.font["DSIG"]
        out = io.BytesIO()
        self.font.save(out, reorderTables=None)
        return out.getvalue()


def _digits(number: int) -> tuple[str, ...]:
    return tuple(DIGITS[int(digit)] for digit in str(number))


def _number(value: int) -> bytes:
    """Write a whole number as a Type 2 charstring operand (Adobe Technical Note 5177, section 3.2)."""
    if -107 <= value <= 107:
        return bytes([value + 139])
    return b"\x1c" + value.to_bytes(2, "big", signed=True)


def _join(
    placed: Iterable[tuple[_Shape, tuple[int, int]]], at: tuple[int, int] = (0, 0)
) -> tuple[bytes, tuple[int, int]]:
    """Join shapes, each moved by its offset, into one outline; return its code and the last point."""
    code = b""
    for shape, (dx, dy) in placed:
        move = shape.start[0] + dx - at[0], shape.start[1] + dy - at[1]
        code += _number(move[0]) + _number(move[1]) + b"\x15" + shape.code  # 21 = rmoveto
        at = shape.end[0] + dx, shape.end[1] + dy
    return code, at


_SIDE, _OVERHANG, _CLEAR = 45, 22, 62


def _stack(
    above: list[_Shape], below: list[_Shape], minus: tuple[float, float, float, float]
) -> tuple[int, bytes]:
    """Set one row of figures over the other with a bar between; return the advance and the code."""
    low, high = otRound(minus[1]), otRound(minus[3])
    rows = [(above, high + _CLEAR - otRound(_foot(above))), (below, low - _CLEAR - otRound(_head(below)))]
    bar = max(_ink(row) for row, _ in rows) + 2 * _OVERHANG
    placed = [
        (shape, (_SIDE + (bar - _ink(row)) // 2 + x, y)) for row, y in rows for shape, x in _spread(row)
    ]
    code, at = _join(placed)
    return bar + 2 * _SIDE, code + _join([(_bar(bar, low, high), (_SIDE, 0))], at)[0]


def _spread(row: list[_Shape]) -> list[tuple[_Shape, int]]:
    """Set figures side by side, the ink of the first beginning at 0."""
    x, out = -otRound(row[0].bounds[0]), []
    for shape in row:
        out.append((shape, x))
        x += otRound(shape.width)
    return out


def _ink(row: list[_Shape]) -> int:
    shape, x = _spread(row)[-1]
    return x + int(otRound(shape.bounds[2]))


def _foot(row: list[_Shape]) -> float:
    """Return where the figures stand: the flat foot, not the overshoot of a round one."""
    return max(shape.bounds[1] for shape in row)


def _head(row: list[_Shape]) -> float:
    return min(shape.bounds[3] for shape in row)


def _bar(length: int, low: int, high: int) -> _Shape:
    sides = ((length, 0), (0, high - low), (-length, 0))
    code = b"".join(_number(dx) + _number(dy) + b"\x05" for dx, dy in sides)  # 5 = rlineto
    return _Shape((0, low), (0, high), code, (0, low, length, high), length)


def _frame(bounds: tuple[float, float, float, float]) -> bytes:
    """Draw the sides of a rectangle, one line's width thick."""
    left, low, right, high = map(otRound, bounds)
    thick = (right - left) // 12
    inner = _Shape((left + thick, low + thick), (right - thick, low + thick), b"", bounds, 0)
    turns = ((0, high - low - 2 * thick), (right - left - 2 * thick, 0), (0, 2 * thick + low - high))
    code = b"".join(_number(dx) + _number(dy) + b"\x05" for dx, dy in turns)
    outer = _bar(right - left, low, high)
    return _join([(outer, (left, 0)), (replace(inner, code=code), (0, 0))])[0]


def _cmap(characters: dict[int, str]) -> Any:
    table = CmapSubtable.newSubtable(4)
    table.platformID, table.platEncID, table.language = 3, 1, 0
    table.cmap = {code: name for code, name in sorted(characters.items()) if code < 0x10000}
    return table


def _rename(font: Any, cut: Cut) -> None:
    """Put our names in place of the reserved one; copyright and licence stay."""
    postscript = f"{cut.family}-{cut.style}".replace(" ", "")
    table = font["name"]
    table.names = [record for record in table.names if record.nameID in (0, 13, 14)]
    full = cut.family if cut.style == "Regular" else f"{cut.family} {cut.style}"
    for number, text in (
        (1, cut.family),
        (2, cut.style),
        (3, postscript),
        (4, full),
        (5, "Version 1.0"),
        (6, postscript),
    ):
        table.setName(text, number, *_WINDOWS_ENGLISH)
    fontset = font["CFF "].cff
    fontset.fontNames = [postscript]
    fontset[0].FullName, fontset[0].FamilyName = full, cut.family
