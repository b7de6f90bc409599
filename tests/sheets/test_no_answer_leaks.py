"""No answer reaches a student's file, by whatever way."""

import re
from collections.abc import Mapping
from dataclasses import replace

import pytest

from coursepack import draft as drafting
from coursepack.assemble import Order
from coursepack.drafting.sheet import Drawing
from coursepack.pages import compose
from coursepack.place import Place
from coursepack.reading.source import Prose
from coursepack.record import LessonRecord
from coursepack.solve import Solved
from tests.press.pdf_reading import bookmarks, opened
from tests.sheets.leaks import DYE, changed, dyed, hidden_steps, leaks_in, leaks_of
from tests.sheets.printed_course import Prepared

LESSONS = ("braces", "weights")
HEIGHTS = re.compile(r' class="fresh"|(?:min-)?height: [\d.]+mm| style="(?:min-)?height: [\d.]+mm"')


@pytest.fixture(scope="module")
def braces(small: Prepared) -> LessonRecord:
    return dyed(small.record("braces"))


@pytest.mark.parametrize("lesson", LESSONS)
@pytest.mark.parametrize("kind", ["exercises", "reading"])
def test_nothing_of_an_answer_is_handed_to_the_press(small: Prepared, lesson: str, kind: str) -> None:
    _, sheets = small.job(dyed(small.record(lesson)), kind)
    assert leaks_of(sheets) == []


def test_no_object_of_a_students_file_holds_an_answer(small: Prepared, braces: LessonRecord) -> None:
    assert leaks_in(small.pressed(braces, "exercises")) == []


def test_the_dye_is_found_in_the_key_so_it_would_be_found_elsewhere(
    small: Prepared, braces: LessonRecord
) -> None:
    _, sheets = small.job(braces, "key")
    told = leaks_of(sheets)
    figures = [drawing.alt for sheet in sheets for drawing in sheet.drawings]
    assert len(told) > 20
    assert [DYE in alt for alt in figures] == [True, True]
    pages = leaks_in(small.pressed(braces, "key"))
    assert [DYE in text for text in pages if "alone · 4 marks" in text] == [True]


def test_a_figure_that_named_its_answer_would_be_found(
    small: Prepared, braces: LessonRecord, monkeypatch: pytest.MonkeyPatch
) -> None:
    def telling(solved: Solved, *, answered: bool) -> Drawing | None:
        told, kept = draft(solved, answered=True), draft(solved, answered=answered)
        return replace(kept, alt=told.alt) if told and kept else None

    draft = drafting.draft
    monkeypatch.setattr(compose, "draft", telling)
    _, sheets = small.job(braces, "exercises")
    assert [DYE in text for text in leaks_of(sheets)].count(True) == 2 * small.term.benches
    assert any("Rear" in text or "rear" in text for text in leaks_in(small.pressed(braces, "exercises")))


def test_prose_that_printed_its_answer_would_be_found(small: Prepared, braces: LessonRecord) -> None:
    def telling(solved: Solved) -> Solved:
        last = hidden_steps(solved.exercise)[-1]
        prose = Prose(f"It is {{{last}}}.", Place("", 1))
        return replace(solved, exercise=replace(solved.exercise, passages=(prose,)))

    _, sheets = small.job(changed(braces, telling), "exercises")
    assert len(leaks_of(sheets)) == 4 * small.term.benches


def test_a_title_bookmark_or_file_name_that_told_an_answer_would_be_found(
    small: Prepared, braces: LessonRecord
) -> None:
    telling = replace(braces, lesson=replace(braces.lesson, title=f"Rear face of {DYE} in"))
    found = leaks_in(small.pressed(telling, "exercises"))
    assert f"Rear face of {DYE} in: exercises" in found
    assert f"Bench 1: Rear face of {DYE} in" in found


def test_the_sheet_is_the_same_whatever_the_answers_are(small: Prepared) -> None:
    """Only the heights kept for working may differ, as they are reckoned from the length of the equations."""
    for lesson in LESSONS:
        record = small.record(lesson)
        true, other = small.job(record, "exercises")[1], small.job(dyed(record), "exercises")[1]
        assert [HEIGHTS.sub("", sheet.html) for sheet in true] == [
            HEIGHTS.sub("", sheet.html) for sheet in other
        ]


def test_a_students_file_has_nothing_attached_and_no_more_about_itself_than_its_title(
    pressed: Mapping[tuple[str, str], bytes],
) -> None:
    for lesson in LESSONS:
        with opened(pressed[lesson, "exercises"]) as pdf:
            assert set(pdf.docinfo.keys()) == {"/Title", "/Producer"}
            assert list(pdf.attachments) == []
            assert "/Annots" not in pdf.pages[0].obj
            assert all(title.startswith("Bench ") for _, title, _ in bookmarks(pdf))


def test_file_names_are_those_of_lessons_and_benches(small: Prepared, braces: LessonRecord) -> None:
    assert small.file_names(braces, Order(benches=(2,))) == [
        "01-braces-reading.pdf",
        "01-braces-exercises.pdf",
        "INSTRUCTOR-01-braces-key.pdf",
        "01-braces-exercises-bench-02.pdf",
    ]
