"""Drawings as the drawing room makes them, put on the page in few steps.

The layout engine sets the text of a drawing letter by letter, each letter twice as a paragraph of its own, and reads
a path number by number: that is a fifth of the work on a sheet of exercises. Our labels are plain lines, black, in
one face, that start at a point; our lines are straight. So a label is set as one paragraph, each character where its
advance width puts it, as the drafting room reckons and the engine would have it, and a path goes into the page as it
is written, in the words of PDF. Whatever is not as plain as that is left to the engine.
Sources: SVG 1.1, 8.3 (path data); ISO 32000-1, 8.5.2 (path construction).
"""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from typing import Any

from weasyprint import images
from weasyprint.css.properties import INITIAL_VALUES
from weasyprint.draw.text import draw_first_line
from weasyprint.matrix import Matrix
from weasyprint.svg import SVG
from weasyprint.svg.text import TextBox
from weasyprint.svg.utils import color, size
from weasyprint.text.line_break import create_layout

_BLACK = color("black")
# what a node is told, and what it has from its drawing without a meaning for it
_SAID = {"class", "role", "version"}
_PLAIN_TEXT = _SAID | {"x", "y", "font-family", "font-size", "font-weight"}
_PLAIN_PATH = _SAID | {
    "d",
    "fill",
    "stroke",
    "stroke-width",
    "stroke-linejoin",
    "stroke-dasharray",
    "stroke-dashoffset",
}
_WEIGHTS = {"400": 400, "normal": 400, "700": 700, "bold": 700}
_NUMBER = r"-?\d+(?:\.\d+)?"
_STRAIGHT = re.compile(rf"(?:[ML] {_NUMBER} {_NUMBER}\s+|z\s+)+")
_STEP = re.compile(r"([ML]) (\S+) (\S+)")
_IN_PDF = str.maketrans("MLz", "mlh")


@contextmanager
def in_few_steps() -> Iterator[None]:
    """Have the layout engine draw plain drawings in few steps for as long as this lasts."""
    images.SVG = _Drawing
    try:
        yield
    finally:
        images.SVG = SVG


class _Drawing(SVG):  # type: ignore[misc] # the library has no types
    """A drawing as the engine reads it, but for its plain labels and lines."""

    def draw_node(self, node: Any, font_size: float, *rest: Any, **settings: Any) -> None:
        if node.tag == "text" and _is_plain_text(node):
            self._letter(node, size(node.get("font-size"), font_size, font_size))
        elif node.tag == "path" and _is_plain_path(node):
            self._stroke(node, font_size)
        else:
            super().draw_node(node, font_size, *rest, **settings)

    def _letter(self, node: Any, type_size: float) -> None:
        x, y = self.point(node.get("x"), node.get("y"), type_size)
        style = _style(node.get("font-family"), node.get("font-weight", "400"), type_size, self.font_config)
        layout = create_layout(node.text, style, self.context, None, 0)
        self.stream.set_color(_BLACK)
        self.stream.begin_text()
        draw_first_line(self.stream, TextBox(layout, style), "none", "none", Matrix(d=-1, e=x, f=y))
        self.stream.end_text()

    def _stroke(self, node: Any, font_size: float) -> None:
        self.stream.push_state()
        fill, stroke = self.set_graphical_state(node, font_size)
        self.stream.stream.append(_STEP.sub(r"\2 \3 \1", node.get("d")).translate(_IN_PDF).encode())
        self.fill_stroke(fill, stroke)
        self.stream.pop_state()


def _is_plain_text(node: Any) -> bool:
    """Say whether a text is one line at one point and asks for nothing but its type."""
    if (
        not node.text
        or list(node)
        or not {"x", "y", "font-family", "font-size"} <= node.attrib.keys() <= _PLAIN_TEXT
    ):
        return False
    return " " not in node.get("x") + node.get("y") and node.get("font-weight", "400") in _WEIGHTS


def _is_plain_path(node: Any) -> bool:
    """Say whether a path is straight lines from point to point, and asks for nothing but its ink."""
    return node.attrib.keys() <= _PLAIN_PATH and bool(_STRAIGHT.fullmatch(node.get("d", "")))


@cache
def _style(family: str, weight: str, type_size: float, fonts: Any) -> "_Style":
    style = _Style(INITIAL_VALUES)
    style.font_config = fonts
    style["font_family"] = [name.strip("'\" ") for name in family.split(",")]
    style["font_weight"], style["font_size"] = _WEIGHTS[weight], type_size
    style["font_kerning"] = style["font_variant_ligatures"] = "none"
    return style


class _Style(dict[str, Any]):
    """A style as the engine's text setter asks for it: a mapping that knows its fonts."""

    font_config: Any
