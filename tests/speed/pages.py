"""Counts the pages of a folder of sheets."""

from dataclasses import dataclass
from pathlib import Path

from pikepdf import Page, Pdf


@dataclass(frozen=True)
class Printed:
    """Pages with text that were pressed, pages that reach a reader, and the blank backs among them."""

    pressed: int
    delivered: int
    blank: int


def printed(folder: Path, benches: int) -> Printed:
    """Count the pages of every PDF in a folder; a reading that is pressed once is delivered to every bench."""
    pressed = delivered = blank = 0
    for path in sorted(folder.glob("*.pdf")):
        with Pdf.open(path) as pdf:
            written = sum(_has_text(page) for page in pdf.pages)
            blank += len(pdf.pages) - written
        pressed += written
        delivered += written * (benches if path.stem.endswith("reading") else 1)
    return Printed(pressed, delivered, blank)


def _has_text(page: Page) -> bool:
    page.contents_coalesce()
    return b"BT" in page.obj.Contents.read_bytes()
