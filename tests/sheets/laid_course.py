"""The lessons of the course, each laid out once for all that is measured on its pages."""

from collections.abc import Sequence
from functools import cache
from typing import Any

from tests.sheets.layout_reading import laid_out
from tests.sheets.printed_course import REAL, Prepared, prepared

TERMS = ("demo", "metric")


@cache
def course_of(term: str) -> Prepared:
    return prepared(REAL, term)


@cache
def pages_of(term: str, lesson: str, kind: str) -> Sequence[Any]:
    """Return the pages of a lesson's reading, of its key, or of its exercises for bench 1."""
    course = course_of(term)
    return laid_out(*course.job(course.record(lesson), kind))
