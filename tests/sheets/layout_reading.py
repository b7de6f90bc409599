"""Where things stand on the pages of a sheet, in mm, as the layout engine has laid them."""

from collections.abc import Iterator, Sequence
from typing import Any

from coursepack.inking import inked
from coursepack.pages.compose import Sheet
from coursepack.press import layout
from coursepack.press.job import PressJob

MM = 25.4 / 96  # a CSS pixel in mm


def laid_out(job: PressJob, sheets: Sequence[Sheet], part: int = 0) -> list[Any]:
    """Lay one part of a job out as the press does; returns the box of each page."""
    whole = inked(job, [sheet.drawings for sheet in sheets])
    document = layout._lay_out(whole.parts[part], whole.css, layout._Fetcher(whole.pictures))
    return [page._page_box for page in document.pages]


def boxes(page: Any, tag: str, of_class: str) -> Iterator[Any]:
    """Yield the box that stands on a page for each element of a tag and a class."""
    seen = set()
    for box in page.descendants():
        element = box.element
        if element is None or element.tag != tag or element in seen:
            continue
        seen.add(element)  # the boxes inside it, of its lines and texts, are of the same element
        if of_class in element.get("class", "").split():
            yield box


def exercise_places(pages: Sequence[Any]) -> list[tuple[int, float]]:
    """The page (counted from 1) and the height in mm at which each exercise begins."""
    found: dict[Any, tuple[int, float]] = {}
    for number, page in enumerate(pages, 1):
        for box in boxes(page, "section", "exercise"):
            found.setdefault(box.element, (number, box.position_y * MM))
    return list(found.values())
