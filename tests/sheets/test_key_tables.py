"""No text of a key's table runs into its neighbour or out of the page: measured on the laid-out pages of the course."""

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import pytest

from coursepack.pages.columns import WHOLE, column_widths
from tests.sheets.laid_course import TERMS, pages_of
from tests.sheets.layout_reading import MM
from tests.sheets.printed_course import REAL

LESSONS = sorted(path.stem[3:] for path in REAL.glob("*.md"))
OVER = 0.05  # mm
UNBROKEN = re.compile(r"[^ \n]+")  # a no-break space breaks no line


@pytest.mark.parametrize("lesson", LESSONS)
@pytest.mark.parametrize("term", TERMS)
def test_every_text_stands_within_its_cell_and_every_cell_within_the_page(term: str, lesson: str) -> None:
    cells = 0
    for page in pages_of(term, lesson, "key"):
        low, high = _sides(page)
        for cell in (box for box in page.descendants() if type(box).__name__ == "TableCellBox"):
            cells += 1
            left, right = cell.position_x * MM, (cell.position_x + cell.border_width()) * MM
            assert low - OVER <= left < right <= high + OVER
            for text, start, end in _texts(cell):
                told = f"'{text}' from {start:.2f} to {end:.2f} mm, its cell from {left:.2f} to {right:.2f}"
                assert left - OVER <= start <= end <= right + OVER, told
    assert cells > 100


@pytest.mark.parametrize("lesson", LESSONS)
@pytest.mark.parametrize("term", TERMS)
def test_no_text_of_a_table_stands_over_another(term: str, lesson: str) -> None:
    for page in pages_of(term, lesson, "key"):
        for row in (box for box in page.descendants() if type(box).__name__ == "TableRowBox"):
            cells = [texts for texts in map(list, map(_texts, row.children)) if texts]
            for before, after in pairwise(cells):
                assert max(end for *_, end in before) <= min(start for _, start, _ in after), (before, after)


@pytest.mark.parametrize("lesson", LESSONS)
@pytest.mark.parametrize("term", TERMS)
def test_no_number_of_a_table_is_broken(term: str, lesson: str) -> None:
    for page in pages_of(term, lesson, "key"):
        for cell in (box for box in page.descendants() if type(box).__name__ == "TableCellBox"):
            words = UNBROKEN.findall("".join(cell.element.itertext()))
            lines = [box for box in cell.descendants() if type(box).__name__ == "LineBox"]
            assert [word for line in lines for word in UNBROKEN.findall(_said(line))] == words


def test_the_columns_of_a_table_fill_the_page_and_the_wide_ones_have_what_they_need() -> None:
    widths = column_widths(["Set", "glued", "a_long_name"], [["1", "196800 mm²", "5"]], [True, False, False])
    assert sum(widths) == WHOLE
    assert widths[1] > widths[2] > widths[0]


def test_columns_of_several_words_give_way_where_a_page_has_no_room_for_all() -> None:
    words, number = "a plank of old western hemlock from the yard", "1234567890 mm"
    widths = column_widths(["kind", *"abcdef"], [[words, *[number] * 6]], [False] * 7)
    assert sum(widths) == WHOLE
    assert min(widths[1:]) >= min(column_widths(["a"] * 8, [[number] * 8], [False] * 8))


def test_a_table_too_wide_for_the_page_and_signs_that_the_type_lacks_still_have_widths() -> None:
    widths = column_widths(["\u25e6"] * 20, [["1234567890 mm"] * 20], [False] * 20)
    assert sum(widths) == WHOLE
    assert min(widths) >= 1


def _said(line: Any) -> str:
    return "".join(box.text for box in line.descendants() if type(box).__name__ == "TextBox")


def _sides(page: Any) -> tuple[float, float]:
    left = page.content_box_x() * MM
    return left, left + page.width * MM


def _texts(cell: Any) -> Iterator[tuple[str, float, float]]:
    for box in cell.descendants():
        if type(box).__name__ == "TextBox" and box.text.strip():
            yield box.text, box.position_x * MM, (box.position_x + box.width) * MM
