"""The type of the pages: Bench Serif and Bench Sans, made when they are needed from two open families.

They are Source Serif Pro and Source Sans Pro (SIL Open Font License 1.1) with stacked fractions added: the
text 11⁄32 (digits, U+2044, digits) is drawn as one glyph, and is found again as 11⁄32 in the finished PDF.
The licence reserves the name 'Source', so the changed faces bear names of their own.
"""

import re
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from coursepack.pages.foundry import Cut, Face, cast

_CUTS: Mapping[str, Cut] = MappingProxyType(
    {
        "serif-regular": Cut(
            "font_source_serif_pro", "SourceSerifPro-Regular", "Bench Serif", "Regular", 400
        ),
        "serif-italic": Cut("font_source_serif_pro", "SourceSerifPro-It", "Bench Serif", "Italic", 400),
        "serif-bold": Cut("font_source_serif_pro", "SourceSerifPro-Bold", "Bench Serif", "Bold", 700),
        "sans-regular": Cut("font_source_sans_pro", "SourceSansPro-Regular", "Bench Sans", "Regular", 400),
        "sans-bold": Cut("font_source_sans_pro", "SourceSansPro-Bold", "Bench Sans", "Bold", 700),
    }
)
_MM_PER_POINT = 25.4 / 72
_FRACTION_OR_CHARACTER = re.compile(r"(?<!\d)\d{1,2}⁄\d{1,2}(?!\d)|.", re.DOTALL)


def faces() -> Mapping[str, bytes]:
    """Return the font files by name (serif-regular, serif-italic, serif-bold, sans-regular, sans-bold)."""
    return MappingProxyType({name: _face(name).data for name in _CUTS})


def font_face_css() -> str:
    """Return the @font-face rules; their addresses, type:NAME, are served by the press from memory."""
    return "\n".join(
        f'@font-face{{font-family:"{cut.family}";font-style:{"italic" if cut.slanted else "normal"};'
        f'font-weight:{cut.weight};src:url("type:{name}")}}'
        for name, cut in _CUTS.items()
    )


def has_sign(sign: str) -> bool:
    """Return whether the face of the text has a character."""
    return sign in _face("serif-regular").advances


def advance(text: str, face: str, size_pt: float) -> float:
    """Return the width in mm of a line of text set at `size_pt`, before kerning.

    Raises KeyError for a character or a face that there is none of.
    """
    widths = _face(face).advances
    total = sum(_width(part, widths) for part in _FRACTION_OR_CHARACTER.findall(text))
    return total * size_pt * _MM_PER_POINT / 1000


def _width(part: str, widths: Mapping[str, int]) -> int:
    return widths[part] if part in widths else sum(widths[char] for char in part)


@cache
def _face(name: str) -> Face:
    cut = _CUTS[name]
    return cast(cut, _CUTS["serif-regular"] if cut.slanted else None)
