"""A lesson that lacks what a sheet must tell is not printed; each fault stands at its line."""

from pathlib import Path

import pytest

from coursepack.drafting.catalogue import FIGURES
from coursepack.place import LessonFaults
from coursepack.reading.course import read_course
from coursepack.trade.catalogue import FUNCTIONS
from tests.sheets.printed_course import SOURCES, Prepared, write_small_course


def faults_after(folder: Path, file: str, old: str, new: str) -> list[str]:
    """Every fault of the small course after a change of one place in one of its files."""
    path = write_small_course(folder / "lessons") / file
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), "utf-8")
    with pytest.raises(LessonFaults) as found:
        read_course(folder / "lessons", FUNCTIONS, FIGURES)
    return [str(fault) for fault in found.value.faults]


def test_an_aim_without_a_number_in_its_standard_is_a_fault(tmp_path: Path) -> None:
    told = faults_after(tmp_path, "02-weights.md", 'to = "within 0.2 %"', 'to = "well enough"')
    assert len(told) == 1
    assert told[0].startswith("lessons/02-weights.md:10: ")
    assert "a standard without a number" in told[0]


@pytest.mark.parametrize("key", ["do", "given", "to"])
def test_an_aim_that_does_not_say_what_is_done_given_or_reached_is_a_fault(tmp_path: Path, key: str) -> None:
    aim = {
        "do": "find the moisture of a strip",
        "given": "its weight before and after the oven",
        "to": "within 0.2 %",
    }
    told = faults_after(tmp_path, "02-weights.md", f'{key} = "{aim[key]}"', f'{key} = ""')
    assert len(told) == 1
    assert told[0].startswith("lessons/02-weights.md:10: ")
    assert f"'{key}'" in told[0]


@pytest.mark.parametrize(
    ("key", "line"),
    [
        ("minutes", "minutes   = 30"),
        ("tools", 'tools     = ["scale that reads 1 g"]'),
        ("materials", 'materials = ["the strips of lesson 1"]'),
        ("prepare", 'prepare   = ["set the scale to zero"]'),
        ("done", 'done      = "The weight is within 1 g."'),
    ],
)
def test_a_lesson_without_time_tools_materials_preparation_or_completion_is_a_fault(
    tmp_path: Path, key: str, line: str
) -> None:
    told = faults_after(tmp_path, "02-weights.md", line, "")
    assert len(told) == 1
    assert told[0].startswith("lessons/02-weights.md:3: ")
    assert f"has no '{key}'" in told[0]


def test_an_exercise_that_follows_no_worked_one_is_a_fault(tmp_path: Path) -> None:
    told = faults_after(
        tmp_path, "01-braces.md", 'id    = "rear"\nstage = "worked"', 'id    = "rear"\nstage = "alone"'
    )
    assert "'rear' follows no worked exercise of its structure" in told[0]
    assert any("'rear-faded' follows no worked exercise" in fault for fault in told)
    assert all("follows no worked exercise" in fault for fault in told)


def test_a_later_lesson_that_brings_nothing_back_is_a_fault_at_its_lesson_block(tmp_path: Path) -> None:
    whole = (SOURCES / "02-weights.md").read_text("utf-8")
    review = whole[whole.index("### A brace once more") :]
    (told,) = faults_after(tmp_path, "02-weights.md", review, "")
    assert told == (
        "lessons/02-weights.md:3: no exercise comes from an earlier lesson; "
        'bring one back: like = "lesson-id/exercise-id"'
    )


def test_the_first_lesson_is_not_asked_to_bring_anything_back(small: Prepared) -> None:
    reviews = {record.lesson.id: [one.review for one in record.lesson.exercises] for record in small.records}
    assert not any(reviews["braces"])
    assert reviews["weights"] == [False, False, True]


def test_an_exercise_brought_back_is_marked_so_on_sheet_and_key(small: Prepared) -> None:
    record = small.record("weights")
    for kind in ("exercises", "key"):
        html = small.job(record, kind)[1][0].html
        assert html.count("review, alone · 4 marks") == 1
        assert html.count("review") == 1


def test_the_steps_of_a_faded_exercise_are_left_blank_from_the_last_backwards(small: Prepared) -> None:
    sheet = small.job(small.record("braces"), "exercises")[1][0].html
    faded = sheet.split('<section class="exercise ')[1]
    assert faded.startswith("faded")
    shown, room = faded.split('<div class="room"')
    sentences = ("Half the width is one short side.", "The brace is the long side of a right triangle.",
                 "A long brace gets more to trim.", "Cut the strip this long at first.")  # fmt: skip
    assert [text in shown for text in sentences] == [True, True, False, False]
    assert [text in room for text in sentences] == [False, False, True, True]
    assert 'class="frac"' not in room
    assert "≈" not in room


def test_one_done_alone_has_nothing_in_its_room(small: Prepared) -> None:
    sheet = small.job(small.record("braces"), "exercises")[1][0].html
    alone = sheet.split('<section class="exercise ')[2]
    assert alone.startswith("alone")
    room = alone.split('<div class="room"')[1].split("</div>")[0].split(">", 1)[1]
    assert room.strip() == ""
