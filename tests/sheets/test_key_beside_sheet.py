"""The key lies beside the sheet: every exercise and every answer of the course stands at one place on both, on both papers."""

from collections.abc import Sequence
from typing import Any

import pytest

from tests.sheets.laid_course import TERMS, course_of, pages_of
from tests.sheets.layout_reading import MM, boxes, exercise_places
from tests.sheets.printed_course import REAL

LESSONS = sorted(path.stem[3:] for path in REAL.glob("*.md"))
SAME_HEIGHT = 6.0  # mm
SAME_EDGE = 0.2  # mm


def test_both_papers_are_tried() -> None:
    assert [course_of(name).term.paper for name in TERMS] == ["letter", "A4"]


@pytest.mark.parametrize("lesson", LESSONS)
@pytest.mark.parametrize("term", TERMS)
def test_every_exercise_of_the_key_begins_where_that_of_the_sheet_of_bench_1_does(
    term: str, lesson: str
) -> None:
    sheet = exercise_places(pages_of(term, lesson, "exercises"))
    key = exercise_places(pages_of(term, lesson, "key"))
    assert len(sheet) == len(course_of(term).record(lesson).sets[0]) == len(key)
    for number, (asked, answered) in enumerate(zip(sheet, key, strict=True), 1):
        told = f"exercise {number}: sheet {asked}, key {answered}"
        assert asked[0] == answered[0], told
        assert asked[1] == pytest.approx(answered[1], abs=SAME_HEIGHT), told


@pytest.mark.parametrize("lesson", LESSONS)
@pytest.mark.parametrize("term", TERMS)
def test_every_answer_of_the_key_stands_in_the_row_and_at_the_edges_of_its_line_on_the_sheet(
    term: str, lesson: str
) -> None:
    heights = [
        [block.height * MM for page in pages_of(term, lesson, kind) for block in boxes(page, "p", "answers")]
        for kind in ("exercises", "key")
    ]
    assert heights[0] == pytest.approx(heights[1], abs=SAME_EDGE)
    sheet = _answer_places(pages_of(term, lesson, "exercises"))
    key = _answer_places(pages_of(term, lesson, "key"))
    assert len(sheet) == len(key) > 5
    for asked, answered in zip(sheet, key, strict=True):
        told = f"sheet {asked}, key {answered}"
        assert asked[1] == answered[1], told
        assert asked[2:] == pytest.approx(answered[2:], abs=SAME_EDGE), told


def _answer_places(pages: Sequence[Any]) -> list[tuple[str, int, float, float]]:
    """What is printed at each answer, its row in its exercise, and its left and right edge in mm."""
    found = []
    for block in (block for page in pages for block in boxes(page, "p", "answers")):
        rows: list[float] = []
        for answer in boxes(block, "span", "answer"):
            if not rows or answer.position_y > rows[-1] + 1:
                rows.append(answer.position_y)
            said = "".join(part.text for part in answer.descendants() if type(part).__name__ == "TextBox")
            left = answer.position_x * MM
            found.append((said, len(rows), left, left + answer.width * MM))
    return found
