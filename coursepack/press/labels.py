"""The labels of figures, each set in one piece.

The layout engine sets the text of a drawing letter by letter, each letter twice as a paragraph of its own: that is a
tenth of the work on a sheet of exercises. A label of the drawing room is a plain line, black, in one face, that
starts at a point. Here it is set as one paragraph, each character where its advance width puts it, as the drafting
room reckons and the engine would have it. Any other text is left to the engine.
"""

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
# what a label is told, and what it has from its drawing without a meaning for text
_NEEDED = frozenset({"x", "y", "font-family", "font-size"})
_PLAIN = _NEEDED | {"style", "font-weight", "role", "version"}
_WEIGHTS = {"400": 400, "normal": 400, "700": 700, "bold": 700}


@contextmanager
def in_one_piece() -> Iterator[None]:
    """Have the layout engine set plain labels in one piece for as long as this lasts."""
    images.SVG = _Drawing
    try:
        yield
    finally:
        images.SVG = SVG


class _Drawing(SVG):  # type: ignore[misc] # the library has no types
    """A drawing as the engine reads it, but for its labels."""

    def draw_node(self, node: Any, font_size: float, *rest: Any, **settings: Any) -> None:
        if node.tag == "text" and _is_plain(node):
            self._label(node, size(node.get("font-size"), font_size, font_size))
        else:
            super().draw_node(node, font_size, *rest, **settings)

    def _label(self, node: Any, type_size: float) -> None:
        x, y = self.point(node.get("x"), node.get("y"), type_size)
        style = _style(node.get("font-family"), node.get("font-weight", "400"), type_size, self.font_config)
        layout = create_layout(node.text, style, self.context, None, 0)
        self.stream.set_color(_BLACK)
        self.stream.begin_text()
        draw_first_line(self.stream, TextBox(layout, style), "none", "none", Matrix(d=-1, e=x, f=y))
        self.stream.end_text()


def _is_plain(node: Any) -> bool:
    """Say whether a text is one line at one point and asks for nothing but its type."""
    if not node.text or list(node) or not _NEEDED <= node.attrib.keys() <= _PLAIN:
        return False
    return " " not in node.get("x") + node.get("y") and node.get("font-weight", "400") in _WEIGHTS


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
