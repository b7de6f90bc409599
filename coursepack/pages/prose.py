"""Lesson prose → HTML: plain Markdown, nothing raw, numbers put in afterwards. The only markdown import."""

import re
from collections.abc import Mapping
from functools import lru_cache
from html import escape
from math import gcd
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.extensions import Extension
from markdown.treeprocessors import Treeprocessor

from coursepack.formula import Value
from coursepack.quantity import Quantity, printed

_BRACES = re.compile(r"\{([a-z][a-z0-9_]*)\}")
_FRACTION = re.compile(r"(?<![\d/.,-])(?:(\d+)[ -])?(\d{1,2})/(2|4|8|16|32|64)(?![\d/])")
_START = re.compile(r'<ol start="(\d+)">')
_UNIT = re.compile(
    r"(\d|\ue001) (in|ft|mm|cm|m|g|kg|lb|oz|%|°F|°C|rpm|deg|psi|kPa|min|h|ft/min|m/min)(?![\w/])"
)
_APOSTROPHE = re.compile(r"(?<=[A-Za-z])'(?=[A-Za-z])|(?<=s)'(?=\s)")
_TARGET = re.compile(r"(\]\([^)]*\))")
_HELD = re.compile("\ue000([a-z0-9_]+)\ue001")


class _Plain(Extension):  # type: ignore[misc] # the library has no types
    """Markdown without raw HTML, reference links or automatic links."""

    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802 - the library's name
        for name in ("html_block", "reference"):
            if name in md.parser.blockprocessors:
                md.parser.blockprocessors.deregister(name)
        md.preprocessors.deregister("html_block")
        for name in (
            "html",
            "autolink",
            "automail",
            "reference",
            "image_reference",
            "short_reference",
            "short_image_ref",
        ):
            if name in md.inlinePatterns:
                md.inlinePatterns.deregister(name)
        md.treeprocessors.register(_AllowedAddresses(md), "allowed", 0)


class _AllowedAddresses(Treeprocessor):  # type: ignore[misc] # as above
    """The last gate for addresses: a link is https, a picture is named to the press."""

    def run(self, root: Element) -> None:
        for link in root.iter("a"):
            if not link.get("href", "").startswith(("https://", "#")):
                link.attrib.pop("href", None)
        for picture in root.iter("img"):
            picture.set("src", "picture:" + picture.get("src", "").removeprefix("picture:"))


@lru_cache(maxsize=1)
def _markdown() -> Markdown:
    return Markdown(extensions=[_Plain(), "fenced_code", "sane_lists", "tables"], output_format="html")


@lru_cache(maxsize=512)
def _template(text: str) -> str:
    held = _BRACES.sub("\ue000\\1\ue001", text)
    html: str = _markdown().reset().convert(_set_outside_links(held))
    return _START.sub(_counted_from, html)


def _counted_from(found: re.Match[str]) -> str:
    """Tell where a list begins as the layout engine reads it, which takes no `start`."""
    return f'<ol style="counter-reset: list-item {int(found[1]) - 1}">'


def prose_html(text: str, values: Mapping[str, Value]) -> str:
    """Return the HTML of a passage, with each {name} printed in shop style."""
    return _HELD.sub(lambda held: escape(_printed(values[held[1]])), _template(text))


def set_fractions(text: str) -> str:
    """Set running text: stacked fractions (U+2044), no line break before or in a unit, and curved apostrophes."""
    return _APOSTROPHE.sub("’", _UNIT.sub(_with_unit, _FRACTION.sub(_stacked, text)))


def _with_unit(found: re.Match[str]) -> str:
    return f"{found[1]}\u00a0{unbroken(found[2])}"


def unbroken(size: str) -> str:
    """Keep a line from breaking behind the slash of a unit, as in m/min."""
    return size.replace("/", "/\u2060")


def _set_outside_links(text: str) -> str:
    return "".join(part if part.startswith("](") else set_fractions(part) for part in _TARGET.split(text))


def _stacked(found: re.Match[str]) -> str:
    above, below = int(found[2]), int(found[3])
    if above >= below or gcd(above, below) > 1:  # the type stacks lowest forms only
        return found[0]
    return f"{found[1]}\u202f{found[2]}⁄{found[3]}" if found[1] else f"{found[2]}⁄{found[3]}"


def _printed(value: Value) -> str:
    return unbroken(printed(value)) if isinstance(value, Quantity) else str(value)
