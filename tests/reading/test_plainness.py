from dataclasses import replace
from pathlib import Path

import pytest

from coursepack.lesson import Lesson, Section
from coursepack.place import Place
from coursepack.reading.plainness import Plainness, plainness
from coursepack.reading.source import Prose
from tests.sheets.printed_course import REAL, Prepared, prepared, write_small_course


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Prepared:
    return prepared(write_small_course(tmp_path_factory.mktemp("plain") / "lessons"), "small")


def measured(small: Prepared, text: str) -> Plainness:
    """How plain a lesson is whose only prose is a text that begins at line 10."""
    lesson: Lesson = small.record("braces").lesson
    section = Section("", 2, (Prose(text, Place("lessons/01-braces.md", 10)),))
    return plainness(replace(lesson, sections=(section,), exercises=()))


def words(count: int) -> str:
    return " ".join(["wood"] * count)


def test_an_instruction_of_21_words_is_noted_and_one_of_20_is_not(small: Prepared) -> None:
    found = measured(small, f"1. {words(20)}.\n2. {words(21)}.")
    assert found.notes == ((Place("lessons/01-braces.md", 11), "a sentence of 21 words; 20 are plenty"),)


def test_a_description_of_26_words_is_noted_and_one_of_25_is_not(small: Prepared) -> None:
    found = measured(small, f"{words(25)}.\n\n{words(26)}.")
    assert found.notes == ((Place("lessons/01-braces.md", 12), "a sentence of 26 words; 25 are plenty"),)


def test_a_paragraph_of_more_than_150_words_is_noted_at_its_first_line(small: Prepared) -> None:
    sentence = f"{words(10)}.\n"
    assert measured(small, sentence * 15).notes == ()
    found = measured(small, "Wood.\n\n" + sentence * 16)
    assert found.notes == ((Place("lessons/01-braces.md", 12), "a paragraph of 160 words; 150 are plenty"),)


def test_shall_is_noted(small: Prepared) -> None:
    assert [note for _, note in measured(small, "You shall plane it.").notes] == [
        "'shall' is read as 'may' by some; write 'must'"
    ]
    assert measured(small, "You must plane it. The shallow side is up.").notes == ()


def test_a_list_with_dashes_is_a_description(small: Prepared) -> None:
    assert measured(small, f"- {words(22)}.").notes == ()


def test_the_cells_of_a_table_are_no_sentence(small: Prepared) -> None:
    row = f"| {words(15)} | {words(15)} |"
    assert measured(small, f"{row}\n|---|---|\n{row}") == Plainness(0.0, ())
    found = measured(small, f"{row}\n\n{words(26)}.")
    assert found.notes == ((Place("lessons/01-braces.md", 12), "a sentence of 26 words; 25 are plenty"),)


def test_numbers_signs_and_marks_of_emphasis_are_no_words(small: Prepared) -> None:
    assert (
        measured(small, f"{words(25)} 3 1/2 4.5 = × *and*.").notes[0][1].startswith("a sentence of 26 words")
    )
    assert measured(small, f"{words(25)} 3 1/2 4.5 = ×.").notes == ()


def test_the_grade_is_that_of_the_formula_for_words_of_one_syllable(small: Prepared) -> None:
    # ten words a sentence, one syllable a word: 0.39 × 10 + 11.8 × 1 − 15.59
    assert measured(small, f"{words(10)}. {words(10)}.").grade == pytest.approx(0.39 * 10 + 11.8 - 15.59)


def test_the_grade_is_that_of_the_formula_for_words_of_two_syllables(small: Prepared) -> None:
    # 'moisten' is mois-ten: five words a sentence, two syllables a word
    text = " ".join(["moisten"] * 5) + "."
    assert measured(small, text).grade == pytest.approx(0.39 * 5 + 11.8 * 2 - 15.59)


def test_longer_sentences_and_longer_words_give_a_higher_grade(small: Prepared) -> None:
    plain = measured(small, "Plane the board. Look at the grain.").grade
    longer = measured(small, "Plane the board and look at the grain.").grade
    harder = measured(small, "Manufacture the component. Investigate the orientation.").grade
    assert plain < longer
    assert plain < harder


def test_a_lesson_without_prose_has_grade_zero_and_no_note(small: Prepared) -> None:
    assert measured(small, "1/2 × 3 = 1 1/2") == Plainness(0.0, ())


def test_prose_taken_over_from_another_lesson_is_not_measured_again(small: Prepared) -> None:
    again = small.record("weights").lesson
    assert all(place.path == "lessons/02-weights.md" for place, _ in plainness(again).notes)


@pytest.mark.parametrize("path", sorted(path.stem[3:] for path in Path(REAL).glob("*.md")))
def test_the_lessons_of_the_course_are_plain(path: str) -> None:
    real = prepared(REAL, "demo")
    found = plainness(real.record(path).lesson)
    assert found.notes == ()
    assert found.grade <= 8  # our own bar for adults who work wood but not algebra
