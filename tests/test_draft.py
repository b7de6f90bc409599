"""A figure is drawn in the sizes that it is lettered with, or not at all."""

from pathlib import Path

import pytest

from coursepack.draft import draft
from coursepack.place import LessonFault
from coursepack.solve import Solved
from coursepack.workbook import solve_term
from tests.faulty.desk import Edit, read, sound_copy, spoil, term_of

LESSON = "01-bevels.md"


def solved(desk: Path, *edits: Edit) -> Solved:
    """Solve the first exercise of the sound course, spoilt or not, with the numbers of its first set."""
    folder = spoil(sound_copy(desk), *edits)
    return solve_term(term_of(folder), read(folder).lessons)[0].examples[0]


def test_a_dimension_that_the_figure_has_otherwise_is_a_fault(tmp_path: Path) -> None:
    one = solved(tmp_path, (LESSON, "rear = front - drop ", "rear = front - 3 * drop "))
    with pytest.raises(
        LessonFault, match=r"the figure would letter 'rear' .* in, and draw it .* mm"
    ) as caught:
        draft(one, answered=True)
    assert caught.value.place
    assert str(caught.value.place) == "lessons/01-bevels.md:53"


@pytest.mark.parametrize("share", ["1", "1.01"])
def test_an_answer_may_differ_from_the_drawing_by_what_its_question_allows(
    share: str, tmp_path: Path
) -> None:
    one = solved(tmp_path, (LESSON, "rear = front - drop ", f"rear = front - {share} * drop "))
    assert draft(one, answered=True)  # a hundredth of a drop of 0.1 in, where 1/64 in is allowed
