"""What a page of a PDF is drawn with: colours, glyphs and fonts, from its content streams."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

import pikepdf
from pikepdf import Name, Object, Operator, Page, Stream

_NONE = pikepdf.Dictionary()
_GREY = {"g": "fill", "G": "line"}
_RGB = {"rg": "fill", "RG": "line"}
_ANY = {"sc": "fill", "scn": "fill", "SC": "line", "SCN": "line"}
_PAINTS = ("f", "f*", "B", "b", "S", "s")


@dataclass
class Inks:
    """Colours used by text and by lines and areas, and whatever is neither black, white nor grey."""

    text: set[float] = field(default_factory=set)
    drawn: set[float] = field(default_factory=set)
    coloured: list[str] = field(default_factory=list)


def inks(page: Page) -> Inks:
    """Read the colours of a page, figures and background patterns left aside: see `forms`."""
    return inks_of(pikepdf.parse_content_stream(page))


def inks_of(steps: Iterable[Any]) -> Inks:
    found, now, kept = Inks(), {"fill": 0.0, "line": 0.0}, []
    for step in steps:
        operands, operator = list(step.operands), str(step.operator)
        if operator == "q":
            kept.append(dict(now))
        elif operator == "Q":
            now = kept.pop()
        elif side := {**_GREY, **_RGB, **_ANY}.get(operator):
            _set(now, side, operands, found)
        elif operator in ("k", "K"):
            found.coloured.append(f"{operator} {operands}")
        elif operator in ("Tj", "TJ"):
            found.text.add(now["fill"])
        elif operator in _PAINTS:
            found.drawn.add(now["line" if operator in "Ss" else "fill"])
    return found


def _set(now: dict[str, float], side: str, operands: list[Object], found: Inks) -> None:
    numbers = [float(value) for value in operands if not isinstance(value, Name)]
    if len(set(numbers)) > 1:
        found.coloured.append(f"{side} {numbers}")
    if numbers:
        now[side] = numbers[0]


def forms(page: Page) -> Iterator[Stream]:
    """Yield the form objects and patterns that a page draws, and those within them."""
    ahead = [page.obj.get("/Resources", _NONE)]
    while ahead:
        resources = ahead.pop()
        for kind in ("/XObject", "/Pattern"):
            for thing in resources.get(kind, _NONE).values():
                if isinstance(thing, Stream) and thing.get("/Subtype") != "/Image":
                    yield thing
                    ahead.append(thing.get("/Resources", _NONE))


def contrast(grey: float) -> float:
    """Contrast of a grey (0 black, 1 white) with white paper. Source: WCAG 2.1, relative luminance and contrast ratio."""
    linear = grey / 12.92 if grey <= 0.03928 else ((grey + 0.055) / 1.055) ** 2.4
    return 1.05 / (linear + 0.05)


def glyph_codes(page: Page) -> list[int]:
    """The glyph numbers shown on a page (two bytes each in the fonts of the press)."""
    codes: list[int] = []
    streams = [
        pikepdf.parse_content_stream(page),
        *(pikepdf.parse_content_stream(form) for form in forms(page)),
    ]
    for step in (step for steps in streams for step in steps):
        if step.operator in (Operator("TJ"), Operator("Tj")):
            shown = step.operands[0]
            parts = list(shown) if isinstance(shown, pikepdf.Array) else [shown]
            raw = b"".join(bytes(part) for part in parts if isinstance(part, pikepdf.String))
            codes += [int.from_bytes(raw[at : at + 2], "big") for at in range(0, len(raw), 2)]
    return codes


def fonts(page: Page) -> Iterator[Object]:
    """Yield the fonts of a page and of its forms."""
    for holder in [page.obj, *forms(page)]:
        yield from holder.get("/Resources", _NONE).get("/Font", _NONE).values()
