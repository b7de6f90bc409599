"""Reads back what was printed: text, marked content and tags, straight from the objects of a PDF."""

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass, field

import pikepdf
from pikepdf import Array, Dictionary, Object, Operator, Page, Pdf


def opened(data: bytes) -> Pdf:
    return Pdf.open(io.BytesIO(data))


@dataclass
class Marked:
    """The text of a page by its marks: a number for tagged text, -1 for running heads."""

    text: dict[int, str] = field(default_factory=dict)
    glyphs: list[str] = field(default_factory=list)

    @property
    def whole(self) -> str:
        return " ".join(self.text.values())

    @property
    def tagged(self) -> str:
        return " ".join(text for mark, text in self.text.items() if mark >= 0)


def read(page: Page) -> Marked:
    """Read a page's text through the ToUnicode tables of its fonts."""
    fonts = {name: _to_unicode(font) for name, font in page.obj.Resources.Font.items()}
    marked, mark, font = Marked(), [-1], {}
    for step in pikepdf.parse_content_stream(page):
        operands, operator = list(step.operands), step.operator
        if operator in (Operator("BDC"), Operator("BMC")):
            mark.append(_mark(operands))
        elif operator == Operator("EMC"):
            mark.pop()
        elif operator == Operator("Tf"):
            font = fonts[str(operands[0])]
        elif operator in (Operator("TJ"), Operator("Tj")):
            shown = [font[code] for code in _codes(operands[0])]
            marked.glyphs += shown
            marked.text[mark[-1]] = marked.text.get(mark[-1], "") + "".join(shown)
    return marked


def _mark(operands: list[Object]) -> int:
    return (
        int(operands[1].get("/MCID", -1)) if len(operands) > 1 and isinstance(operands[1], Dictionary) else -1
    )


def _codes(shown: Object) -> Iterator[int]:
    for part in shown if isinstance(shown, Array) else [shown]:
        if isinstance(part, pikepdf.String):
            raw = bytes(part)
            yield from (int.from_bytes(raw[at : at + 2], "big") for at in range(0, len(raw), 2))


def _to_unicode(font: Object) -> dict[int, str]:
    table = font.ToUnicode.read_bytes().decode()
    pairs = re.findall(r"<([0-9a-f]{4})> <([0-9a-f]+)>", table)
    return {int(code, 16): bytes.fromhex(text).decode("utf-16-be") for code, text in pairs}


def texts(pdf: Pdf) -> list[Marked]:
    return [read(page) if "/Font" in page.obj.get("/Resources", {}) else Marked() for page in pdf.pages]


def elements(pdf: Pdf) -> list[Object]:
    """Return all elements of the tag tree, in reading order."""

    def walk(kids: Object) -> Iterator[Object]:
        for kid in kids:
            if isinstance(kid, Dictionary) and "/S" in kid:
                yield kid
                yield from walk(kid.get("/K", Array()))

    return list(walk(pdf.Root.StructTreeRoot.K))


def parent_tree(pdf: Pdf) -> dict[int, Object]:
    numbers = list(pdf.Root.StructTreeRoot.ParentTree.Nums)
    return {int(key): value for key, value in zip(numbers[0::2], numbers[1::2], strict=True)}


def bookmarks(pdf: Pdf) -> list[tuple[int, str, int]]:
    """Return (depth, title, page counted from 1) of each bookmark, in order."""
    places = {page.obj.objgen: number for number, page in enumerate(pdf.pages, 1)}

    def walk(mark: Object | None, depth: int) -> Iterator[tuple[int, str, int]]:
        while mark is not None:
            yield depth, str(mark.Title), places[mark.Dest[0].objgen]
            yield from walk(mark.get("/First"), depth + 1)
            mark = mark.get("/Next")

    return list(walk(pdf.Root.Outlines.First, 1))
