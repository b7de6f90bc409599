"""The columns of the tables of all sets: each as wide as what stands in it, the rest shared out alike.

The tables are of fixed layout, for speed, so a width is not for the engine to find.
"""

import re
from collections.abc import Sequence

from coursepack.drafting.lettering import width_em

WHOLE, GAP = 175, 1.4  # mm, the table and the padding of a cell, as in sheet.css
_MM_PER_POINT = 25.4 / 72
_SIZE, _BELOW = 9.0 * _MM_PER_POINT, 7.2 * _MM_PER_POINT  # mm, of a cell and of a subscript in a heading
_WORD = re.compile(r"[^ -]+-?|-")


def column_widths(heads: Sequence[str], rows: Sequence[Sequence[str]], bold: Sequence[bool]) -> list[int]:
    """Return the widths in mm, of a whole page together.

    `heads` are names, `rows` their cells, and `bold` tells whose cells are in bold type. Where a page has no room for
    all in one line, the columns that have several words take what there is.
    """
    columns = [(head, [row[place] for row in rows], bold[place]) for place, head in enumerate(heads)]
    whole = [_needed(*column, r".+") for column in columns]
    if sum(whole) <= WHOLE:
        return _shared(whole, [1] * len(whole))
    least = [_needed(*column, _WORD) for column in columns]
    return _shared(least, [most - few for most, few in zip(whole, least, strict=True)])


def column_style() -> str:
    """Return a class for each width but the largest: a column without one takes what is left."""
    return "".join(f".c{wide} {{ width: {wide}mm }}\n" for wide in range(5, 61))


def _needed(head: str, cells: Sequence[str], bold: bool, part: str | re.Pattern[str]) -> int:  # noqa: FBT001
    """Return the width in whole mm that the widest part of a column needs, with its gap."""
    stem, _, below = head.partition("_")
    parts = re.findall(part, below.replace("_", " "))
    first = width_em(stem, bold=True) * _SIZE
    widths = [first + width_em(text, bold=True) * _BELOW for text in parts[:1] or [""]]
    widths += [width_em(text, bold=True) * _BELOW for text in parts[1:]]
    widths += [width_em(text, bold=bold) * _SIZE for cell in cells for text in re.findall(part, cell)]
    return int(max(widths) + GAP) + 1


def _shared(needed: Sequence[int], shares: Sequence[int]) -> list[int]:
    """Share out what the columns leave of the page, in whole mm; where they need more than all, each gives its part."""
    over = WHOLE - sum(needed)
    by = shares if over >= 0 and any(shares) else needed
    ends = [round(over * sum(by[: place + 1]) / sum(by)) for place in range(len(by))]
    return [wide + end - before for wide, end, before in zip(needed, ends, [0, *ends], strict=False)]
