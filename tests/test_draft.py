"""A figure is drawn in the sizes that it is lettered with, or nothing is printed."""

import re
from pathlib import Path

import pytest

from coursepack.place import LessonFaults
from coursepack.record import LessonRecord
from coursepack.workbook import solve_term
from tests.faulty.desk import Edit, read, sound_copy, spoil, term_of

LESSON = "01-bevels.md"


def solve_spoilt(desk: Path, *edits: Edit) -> list[LessonRecord]:
    folder = spoil(sound_copy(desk), *edits)
    return solve_term(term_of(folder), read(folder).lessons)


def test_a_dimension_that_the_figure_has_otherwise_is_a_fault(tmp_path: Path) -> None:
    with pytest.raises(LessonFaults) as caught:
        solve_spoilt(tmp_path, (LESSON, "rear = front - drop ", "rear = front - 3 * drop "))
    told = [str(fault) for fault in caught.value.faults]
    assert told
    assert all(
        re.match(r"lessons/01-bevels.md:53: the figure would letter 'rear' .* in, and draw it .* mm; ", line)
        for line in told
    )


@pytest.mark.parametrize("share", ["1", "1.01"])
def test_an_answer_may_differ_from_the_drawing_by_what_its_question_allows(
    share: str, tmp_path: Path
) -> None:  # a hundredth of a drop of 0.1 in, where 1/64 in is allowed
    records = solve_spoilt(tmp_path, (LESSON, "rear = front - drop ", f"rear = front - {share} * drop "))
    assert [record.lesson.id for record in records] == ["bevels", "guides"]
