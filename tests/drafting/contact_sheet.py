"""A contact sheet of every figure, asked and answered; `python -m tests.drafting.contact_sheet FILE.png` makes it."""

import io
import sys
from collections.abc import Sequence
from pathlib import Path

from PIL import Image

from coursepack.drafting.catalogue import FIGURES
from coursepack.drafting.ink import png
from tests.drafting.accept import STATES, drawn

DOTS_PER_INCH = 110
ACROSS = 8
APART = 16


def contact_sheet() -> Image.Image:
    """Every figure of the table in both states, side by side, in rows."""
    pictures = [_picture(name, state) for name in FIGURES for state in STATES]
    rows = [pictures[start : start + ACROSS] for start in range(0, len(pictures), ACROSS)]
    width = max(sum(picture.width + APART for picture in row) for row in rows) + APART
    heights = [max(picture.height for picture in row) + APART for row in rows]
    sheet = Image.new("L", (width, sum(heights) + APART), 255)
    top = APART
    for row, height in zip(rows, heights, strict=True):
        _paste(sheet, row, top)
        top += height
    return sheet


def _paste(sheet: Image.Image, row: Sequence[Image.Image], top: int) -> None:
    left = APART
    for picture in row:
        sheet.paste(picture, (left, top))
        left += picture.width + APART


def _picture(name: str, state: str) -> Image.Image:
    return Image.open(io.BytesIO(png(drawn(name, state), DOTS_PER_INCH))).convert("L")


if __name__ == "__main__":
    contact_sheet().save(Path(sys.argv[1]))
