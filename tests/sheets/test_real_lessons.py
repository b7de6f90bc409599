"""The lessons of the course, composed and laid out for both terms, without a PDF."""

import re

import pytest

from coursepack.drafting.sheet import FIGURE_MARK
from tests.sheets.layout_reading import laid_out
from tests.sheets.leaks import dyed_but_for_sizes, leaks_of
from tests.sheets.printed_course import REAL, Prepared, prepared

KINDS = ("reading", "exercises", "key")
MOST_PAGES = 10
A_TENTH = 0.1  # of a mark
NOISE = 1e-9
LESSONS = sorted(path.stem[3:] for path in REAL.glob("*.md"))


@pytest.fixture(scope="module", params=["demo", "metric"])
def real(request: pytest.FixtureRequest) -> Prepared:
    return prepared(REAL, request.param)


@pytest.mark.parametrize("lesson", LESSONS)
def test_every_number_and_every_drawing_is_where_it_belongs(real: Prepared, lesson: str) -> None:
    record = real.record(lesson)
    for kind in KINDS:
        for sheet in real.job(record, kind)[1]:
            assert not re.search(r"[{}]|>None<|Undefined|&amp;(?:lt|gt|amp);", sheet.html)
            assert all(sheet.html.count(FIGURE_MARK.format(n)) == 1 for n in range(len(sheet.drawings)))
            assert record.mark in sheet.html


@pytest.mark.parametrize("lesson", LESSONS)
def test_no_answer_is_handed_to_the_press_for_a_students_sheet(real: Prepared, lesson: str) -> None:
    record = dyed_but_for_sizes(real.record(lesson))
    assert leaks_of(real.job(record, "exercises")[1]) == []
    assert leaks_of(real.job(record, "reading")[1]) == []
    assert len(leaks_of(real.job(record, "key")[1])) > 10


@pytest.mark.parametrize("lesson", LESSONS)
def test_a_students_sheet_has_no_more_than_ten_pages(real: Prepared, lesson: str) -> None:
    record = real.record(lesson)
    pages = {kind: len(laid_out(*real.job(record, kind))) for kind in ("reading", "exercises")}
    assert all(0 < count <= MOST_PAGES for count in pages.values()), pages


def test_no_bench_works_the_same_numbers_twice_in_exercises_of_one_kind(real: Prepared) -> None:
    examples = [one for record in real.records for one in record.examples]
    for bench in range(real.term.sets):
        worked = [*examples, *(one for record in real.records for one in record.sets[bench])]
        seen = [
            (one.exercise.root, {name: str(value) for name, value in one.numbers.items()}) for one in worked
        ]
        assert [pair for number, pair in enumerate(seen) if pair in seen[:number]] == []


def test_no_answer_stands_so_near_a_tie_that_rounding_a_step_would_turn_it(real: Prepared) -> None:
    near = [
        f"{record.lesson.id}/{one.exercise.id}"
        for record in real.records
        for one in (one for one_set in record.sets for one in one_set)
        for answer in one.answers
        if abs(float((answer.unrounded / answer.mark).number("")) % 1 - 0.5) < A_TENTH - NOISE
    ]
    assert near == []


@pytest.mark.parametrize("lesson", LESSONS)
def test_part_marks_add_up(real: Prepared, lesson: str) -> None:
    html = real.job(real.record(lesson), "key")[1][0].html
    total = 0
    for section in html.split('<section class="exercise ')[1:]:
        marks = re.search(r"· (\d+) marks?</span>", section)
        assert marks
        total += int(marks[1])
        parts = [int(part) for part in re.findall(r'class="part">\[(\d+)\]', section)]
        verdict = section.count("Circle (1 mark)")
        assert section.startswith("bench") or sum(parts) + verdict == int(marks[1])
    assert f"{total} marks</span></p>" in html


@pytest.mark.parametrize("lesson", LESSONS)
def test_a_lesson_goes_from_worked_to_faded_to_alone_to_the_bench(real: Prepared, lesson: str) -> None:
    found = real.record(lesson).lesson
    stages = [exercise.stage for exercise in found.exercises]
    assert {"worked", "faded", "alone", "bench"} == set(stages)
    assert len(stages) >= 5
    assert any(exercise.review for exercise in found.exercises) == (found.number > 1)
    order = ("worked", "faded", "alone")
    for root in {exercise.root for exercise in found.exercises if not exercise.review}:
        row = [one.stage for one in found.exercises if one.root == root and one.stage != "bench"]
        assert [order.index(stage) for stage in row] == sorted(order.index(stage) for stage in row)


@pytest.mark.parametrize("lesson", LESSONS)
def test_every_main_question_of_a_worked_example_knows_two_slips(real: Prepared, lesson: str) -> None:
    worked = [one for one in real.record(lesson).lesson.exercises if one.stage == "worked"]
    assert all(sum(len(find.slips) for find in one.finds) >= 2 for one in worked)
