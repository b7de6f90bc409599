"""What must stand together in a reading stands on one page: measured on the laid-out pages of the course."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import pytest

from coursepack.pages.compose import style
from coursepack.pages.prose import prose_html
from coursepack.press.job import PressJob
from coursepack.press.layout import print_pdf
from tests.sheets.laid_course import TERMS, pages_of
from tests.sheets.printed_course import REAL

LESSONS = sorted(path.stem[3:] for path in REAL.glob("*.md"))
KEPT = ("given", "ask")  # in this order: the numbers, the questions


@pytest.mark.parametrize("lesson", LESSONS)
@pytest.mark.parametrize("term", TERMS)
def test_the_numbers_and_the_questions_of_a_worked_example_stand_on_one_page(term: str, lesson: str) -> None:
    pages = _pages_of_elements(term, lesson)
    examples = [element for element in pages if "worked" in element.get("class", "").split()]
    for example in examples:
        parts = [part for part in example.iter() if _kind(part) in KEPT]
        assert {_kind(part) for part in parts} == set(KEPT)
        assert len({page for part in parts for page in pages[part]}) == 1
    assert examples


@pytest.mark.parametrize("lesson", LESSONS)
@pytest.mark.parametrize("term", TERMS)
def test_a_table_stands_on_the_page_of_what_is_said_just_before_it(term: str, lesson: str) -> None:
    pages = _pages_of_elements(term, lesson)
    for parent in pages:
        for before, after in pairwise(parent):
            if after.tag == "table":
                assert pages[before][-1] == pages[after][0] == pages[after][-1]


@pytest.mark.parametrize("lesson", LESSONS)
@pytest.mark.parametrize("term", TERMS)
def test_the_last_item_of_a_list_never_stands_alone_on_a_page(term: str, lesson: str) -> None:
    pages = _pages_of_elements(term, lesson)
    for items in [list(parent) for parent in pages if parent.tag in ("ol", "ul")]:
        assert len(items) == 1 or pages[items[-1]][0] == pages[items[-2]][-1]


def test_a_list_in_a_list_has_a_mark_that_the_type_has() -> None:
    html = prose_html("- one\n    - two\n        - three\n\n1. four\n    - five", {})
    page = f"<html lang='en'><body>{html}</body></html>"
    assert print_pdf(PressJob("lists", "lists", (page,), style("letter")))


def _pages_of_elements(term: str, lesson: str) -> dict[Any, list[int]]:
    """The pages on which each element of a reading stands, in order."""
    found: dict[Any, list[int]] = {}
    for number, page in enumerate(pages_of(term, lesson, "reading")):
        for element in _elements(page):
            if number not in (places := found.setdefault(element, [])):
                places.append(number)
    return found


def _elements(page: Any) -> Iterator[Any]:
    return (box.element for box in page.descendants() if box.element is not None)


def _kind(element: Any) -> str:
    return str(element.get("class", "")).partition(" ")[0]
