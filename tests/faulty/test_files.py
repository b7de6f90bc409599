"""Files that are no lessons at all."""

import os
from pathlib import Path

import pytest
from PIL import Image

from coursepack.place import LessonFault, LessonFaults
from coursepack.reading.links import read_pictures
from tests.faulty.desk import faults, read, sound_copy, spoil, term_of

BYTES = {
    "not UTF-8": (b"# Caf\xe9\n", "lessons/03-x.md:1: the file is not UTF-8 here; save it as UTF-8"),
    "not UTF-8 on its third line": (b"# A\n\n\xff\n", "lessons/03-x.md:3: the file is not UTF-8 here; save it as UTF-8"),
    "binary": (b"# A\0\n", "lessons/03-x.md:1: the file is not text: it holds a NUL byte; save it as plain UTF-8 text"),
    "UTF-16": ("# A\n".encode("utf-16"), "lessons/03-x.md: the file is UTF-16; save it as UTF-8"),
    "too large": (b"a\n" * 100_001, "lessons/03-x.md: the file is larger than 200 kB; split it"),
}  # fmt: skip


def test_the_sound_course_is_sound(tmp_path: Path) -> None:
    assert faults(sound_copy(tmp_path)) == []


@pytest.mark.parametrize("name", BYTES)
def test_a_file_that_is_no_text_is_one_fault(name: str, tmp_path: Path) -> None:
    data, told = BYTES[name]
    folder = sound_copy(tmp_path)
    (folder / "03-x.md").write_bytes(data)
    assert faults(folder) == [told]


def test_a_course_that_cannot_be_read_does_not_hide_the_faults_of_its_lessons(tmp_path: Path) -> None:
    folder = spoil(sound_copy(tmp_path), ("01-bevels.md", '"worked"', '"wroked"'))
    (folder / "course.toml").unlink()
    assert faults(folder) == [
        "lessons/01-bevels.md:25: 'stage' cannot be 'wroked'; did you mean 'worked'?",
        "lessons/course.toml: the file cannot be read (No such file or directory)",
    ]


def test_a_course_without_end_is_too_large(tmp_path: Path) -> None:
    folder = sound_copy(tmp_path)
    (folder / "course.toml").unlink()
    (folder / "course.toml").symlink_to("/dev/zero")
    assert faults(folder) == ["lessons/course.toml: the file is larger than 200 kB; split it"]


def test_a_folder_without_lessons_is_told_what_to_add(tmp_path: Path) -> None:
    folder = sound_copy(tmp_path)
    for path in folder.glob("*.md"):
        path.unlink()
    assert faults(folder) == [f"{folder}: there is no lesson here; add one such as 01-planing.md"]


def test_a_name_that_is_no_lessons_name_is_a_fault(tmp_path: Path) -> None:
    folder = sound_copy(tmp_path)
    (folder / "notes.md").write_text("# Notes\n")
    assert faults(folder) == [
        "lessons/notes.md: the file's name is not a lesson's; name it such as 04-scarf-joints.md"
    ]


def test_a_folder_or_a_link_to_nothing_that_is_named_as_a_lesson_is_a_fault(tmp_path: Path) -> None:
    folder = sound_copy(tmp_path)
    (folder / "03-x.md").mkdir()
    (folder / "04-y.md").symlink_to("nowhere")
    (folder / "05-z.MD").write_text("# Z\n")
    assert faults(folder) == [
        "lessons/03-x.md: a lesson is a file; move what is no lesson elsewhere",
        "lessons/04-y.md: a lesson is a file; move what is no lesson elsewhere",
        "lessons/05-z.MD: the file's name is not a lesson's; name it such as 04-scarf-joints.md",
    ]


def test_lessons_are_taken_in_the_order_of_their_numbers_not_of_their_names(tmp_path: Path) -> None:
    folder = spoil(sound_copy(tmp_path), ("02-guides.md", "number    = 2", "number    = 10"))
    spoil(folder, ("01-bevels.md", "number    = 1", "number    = 9"))
    (folder / "02-guides.md").rename(folder / "10-guides.md")
    (folder / "01-bevels.md").rename(folder / "9-bevels.md")
    assert [lesson.id for lesson in read(folder).lessons] == ["bevels", "guides"]


def test_two_lessons_of_one_number_or_one_id_are_a_fault(tmp_path: Path) -> None:
    folder = sound_copy(tmp_path)
    text = (folder / "01-bevels.md").read_text("utf-8")
    (folder / "001-bevels.md").write_text(text, "utf-8")
    assert faults(folder)[:2] == [
        "lessons/01-bevels.md: the number 1 is that of lessons/001-bevels.md too; give it another number",
        "lessons/01-bevels.md: the id bevels is that of lessons/001-bevels.md too; give it another id",
    ]


def test_a_picture_beside_the_lesson_is_sound_and_one_linked_from_outside_is_not(tmp_path: Path) -> None:
    folder = spoil(
        sound_copy(tmp_path), ("01-bevels.md", "An edge is cut", "![An edge](edge.png) An edge is cut")
    )
    Image.new("L", (1, 1)).save(tmp_path / "secret.png")
    Image.new("L", (1, 1)).save(folder / "edge.png")
    assert faults(folder) == []
    (folder / "edge.png").unlink()
    (folder / "edge.png").symlink_to(tmp_path / "secret.png")
    assert faults(folder) == [
        "lessons/01-bevels.md:19: the picture 'edge.png' is outside the lesson's folder; copy it beside the lesson"
    ]


def test_a_picture_that_is_too_large_is_a_fault(tmp_path: Path) -> None:
    folder = spoil(
        sound_copy(tmp_path), ("01-bevels.md", "An edge is cut", "![An edge](edge.png) An edge is cut")
    )
    (folder / "edge.png").write_bytes(b"")
    os.truncate(folder / "edge.png", 2_000_001)
    assert faults(folder) == [
        "lessons/01-bevels.md:19: the picture 'edge.png' is larger than 2 MB; save it smaller"
    ]


def test_only_pictures_in_prose_are_read_and_those_brought_back_with_their_exercise_too(
    tmp_path: Path,
) -> None:
    folder = spoil(
        sound_copy(tmp_path),
        ("01-bevels.md", "The blank is {width} wide.", "The blank is {width} wide.\n\n![Blank](blank.png)"),
        ("01-bevels.md", "# This is left.", "# As ![this](../secret.png)."),
    )
    (tmp_path / "secret.png").write_bytes(b"secret")
    Image.new("L", (1, 1)).save(folder / "blank.png")
    picture = (folder / "blank.png").read_bytes()
    for lesson in read(folder).lessons:
        assert read_pictures(lesson, folder) == {"blank.png": picture}
    lesson = read(folder).lessons[0]
    (folder / "blank.png").unlink()
    with pytest.raises(LessonFault, match=r"01-bevels.md:36: the picture 'blank.png' cannot be read"):
        read_pictures(lesson, folder)


@pytest.mark.parametrize("name", ["autumn", "../course", "../../etc/passwd", "", "spring.toml"])
def test_a_term_that_is_not_there_is_a_fault(name: str, tmp_path: Path) -> None:
    from coursepack.reading.course import read_term  # noqa: PLC0415

    folder = sound_copy(tmp_path)
    with pytest.raises(LessonFaults) as caught:
        read_term(folder, name, read(folder))
    assert [fault.message for fault in caught.value.faults] == [f"there is no term '{name}'"]


def test_a_byte_order_mark_and_the_line_ends_of_any_machine_change_nothing(tmp_path: Path) -> None:
    folder = sound_copy(tmp_path)
    plain = read(folder).lessons[0]
    for ends in ("\r\n", "\r"):
        text = (Path(__file__).parent / "sound" / "01-bevels.md").read_text("utf-8")
        (folder / "01-bevels.md").write_bytes(b"\xef\xbb\xbf" + text.replace("\n", ends).encode())
        assert read(folder).lessons[0] == plain


def test_a_bare_less_than_with_a_space_after_it_is_prose(tmp_path: Path) -> None:
    folder = spoil(
        sound_copy(tmp_path), ("01-bevels.md", "An edge is cut at a slope.", "A slope < 8 degrees, 3 < b.")
    )
    assert faults(folder) == []


def test_benches_take_the_sets_in_turn(tmp_path: Path) -> None:
    folder = spoil(sound_copy(tmp_path), ("terms/spring.toml", '"one each"', "2"))
    term = term_of(folder)
    assert [term.set_of(bench) for bench in (1, 2, 3)] == [1, 2, 1]
