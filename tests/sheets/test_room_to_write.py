"""Answer spaces that fit handwriting, type that is read at a bench; measured on the laid-out pages."""

from collections.abc import Iterator
from typing import Any

import pytest

from tests.sheets.laid_course import TERMS, pages_of
from tests.sheets.layout_reading import MM, boxes, laid_out
from tests.sheets.printed_course import REAL, Prepared

LESSONS = sorted(path.stem[3:] for path in REAL.glob("*.md"))
HAND_MM = 9.0
BODY_PT = 11.0
POINT = 72 / 96  # a CSS pixel in points
SMALLER = {
    "under",
    "right",
    "tag",
    "to",
    "note",
    "facts",
    "frac",
    "accept",
}  # labels and directions beside the body


@pytest.fixture(scope="module")
def pages(small: Prepared) -> list[Any]:
    return laid_out(*small.job(small.record("braces"), "exercises"))


def test_every_answer_line_is_nine_millimetres_high_with_its_unit_beside(pages: list[Any]) -> None:
    lines = [line for page in pages for line in boxes(page, "span", "line")]
    assert len(lines) == 1 + 2 + 1 + 1  # the answers of four exercises
    for line in lines:
        assert line.height * MM >= HAND_MM
        assert line.width * MM >= 25
        assert line.border_bottom_width > 0
    answers = [box for page in pages for box in boxes(page, "span", "answer")]
    assert [_text(box)[-2:] for box in answers] == ["in"] * 5


def test_nothing_stands_in_the_room_of_an_answer_line(pages: list[Any]) -> None:
    for page in pages:
        texts = [box for box in page.descendants() if type(box).__name__ == "TextBox" and box.text.strip()]
        for line in boxes(page, "span", "line"):
            inside = [
                text.text
                for text in texts
                if text.position_x < line.position_x + line.width
                and line.position_x < text.position_x + text.width
                and text.position_y < line.position_y + line.height
                and line.position_y < text.position_y + text.height
            ]
            assert inside == []


def test_a_reading_at_the_bench_has_its_own_high_cell_with_the_unit(pages: list[Any]) -> None:
    cells = [cell for page in pages for cell in boxes(page, "td", "unit")]
    assert [_text(cell) for cell in cells] == ["in", "in"]
    assert all(cell.height * MM >= HAND_MM for cell in cells)


@pytest.mark.parametrize("lesson", LESSONS)
@pytest.mark.parametrize("term", TERMS)
def test_every_open_cell_of_the_course_has_the_height_of_a_line_written_by_hand(
    term: str, lesson: str
) -> None:
    cells = [box for page in pages_of(term, lesson, "exercises") for box in page.descendants()]
    opened = [box for box in cells if type(box).__name__ == "TableCellBox" and not _text(box)]
    assert len(opened) > 1
    assert all(cell.border_height() * MM >= HAND_MM for cell in opened)


def test_the_room_for_working_grows_with_the_steps_in_whole_squares(pages: list[Any]) -> None:
    rooms = [room.border_height() * MM for page in pages for room in boxes(page, "div", "room")]
    assert [room / 5 for room in rooms] == pytest.approx([round(room / 5) for room in rooms])
    assert len(rooms) == 4
    assert rooms[2] < rooms[3]  # one step left, three steps left
    assert min(rooms) >= 15


def test_the_body_of_students_sheets_is_eleven_points_or_more(small: Prepared, pages: list[Any]) -> None:
    reading = laid_out(*small.job(small.record("braces"), "reading"))
    sizes = [size for page in (*pages, *reading) for size in _body_sizes(page)]
    assert len(sizes) > 100
    assert min(sizes) >= BODY_PT


def test_nothing_on_any_sheet_is_smaller_than_seven_points(small: Prepared) -> None:
    key = laid_out(*small.job(small.record("braces"), "key"))
    sizes = [
        box.style["font_size"] * POINT
        for page in key
        for box in page.descendants()
        if type(box).__name__ == "TextBox"
    ]
    assert round(min(sizes), 2) >= 7


def _body_sizes(box: Any) -> Iterator[float]:
    """The size of each text of the body: without labels, raised and lowered figures, small headings and margins."""
    if type(box).__name__ == "TextBox" and box.text.strip():
        yield box.style["font_size"] * POINT
    for inner in getattr(box, "children", ()):
        if not _is_beside(inner):
            yield from _body_sizes(inner)


def _is_beside(box: Any) -> bool:
    if type(box).__name__ == "MarginBox":
        return True
    classes = set() if box.element is None else set(box.element.get("class", "").split())
    return box.element_tag in ("sub", "sup", "h2", "h3") or bool(SMALLER & classes)


def _text(box: Any) -> str:
    texts = [inner.text for inner in box.descendants() if type(inner).__name__ == "TextBox"]
    return "".join(texts).strip()
