"""What the README shows is what the program does."""

import re
import shlex
import shutil
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest

from coursepack.cli import main
from coursepack.drafting.catalogue import FIGURES
from coursepack.reading.course import read_course, read_term
from coursepack.trade.catalogue import FUNCTIONS

HOME = Path(__file__).parent.parent
README = (HOME / "README.md").read_text("utf-8")


def fenced(name: str, ticks: str = "```") -> list[str]:
    return re.findall(rf"^{ticks}{name}\n(.*?)^{ticks}$", README, re.MULTILINE | re.DOTALL)


@pytest.fixture
def lessons(tmp_path: Path) -> Path:
    return shutil.copytree(HOME / "lessons", tmp_path / "lessons")


def test_the_sample_lesson_is_read_without_a_fault(lessons: Path) -> None:
    [sample] = fenced("markdown", "````")
    (lessons / "09-sticks.md").write_text(sample, "utf-8")
    course = read_course(lessons, FUNCTIONS, FIGURES)
    lesson = course.lessons[-1]
    assert (lesson.id, lesson.title) == ("sticks", "Blocks from one stick")
    assert [exercise.stage for exercise in lesson.exercises] == ["worked", "faded", "alone", "alone"]


def test_the_sample_term_is_read(lessons: Path) -> None:
    machine, *term_and_printer = fenced("toml")
    with (lessons / "course.toml").open("a", encoding="utf-8") as course:
        course.write(machine)
    (lessons / "terms" / "spring.toml").write_text("".join(term_and_printer), "utf-8")
    term = read_term(lessons, "spring", read_course(lessons, FUNCTIONS, FIGURES))
    assert (term.benches, term.sets, term.measure) == (12, 12, "inch")
    assert term.stretch == (Fraction(2000, 1994), Fraction(1500, 1503))


def test_the_calculator_answers_as_shown(capsys: pytest.CaptureFixture[str]) -> None:
    asked = re.findall(r"^\$ coursepack (reckon .*?)(?:  +#.*)?\n([^$].*)", README, re.MULTILINE)
    asked = [pair for pair in asked if "--list" not in pair[0]]
    assert len(asked) == 2
    for command, answer in asked:
        assert main(shlex.split(command)) == 0
        assert capsys.readouterr().out == f"{answer}\n"


def test_the_calculator_reads_lines_as_shown() -> None:
    [(lines, answers)] = re.findall(
        r"^\$ printf '(.*)' \| coursepack reckon -\n((?:[^`$].*\n)+)", README, re.MULTILINE
    )
    command = [sys.executable, "-m", "coursepack", "reckon", "-"]
    done = subprocess.run(
        command, input=lines.replace("\\n", "\n"), capture_output=True, text=True, check=True
    )
    assert done.stdout == answers


def test_every_command_of_the_program_has_an_example() -> None:
    [commands] = fenced("console")
    assert set(re.findall(r"coursepack (\w+)", commands)) == {"assemble", "proof", "reckon", "draft"}


def test_the_drawings_are_made_as_shown(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    asked = re.findall(r"^\$ coursepack (draft .* -o .*)$", README, re.MULTILINE)
    for command in asked:
        assert main(shlex.split(command)) == 0
    assert {path.name for path in tmp_path.iterdir()} == {shlex.split(command)[-1] for command in asked}


def test_the_first_two_sh_blocks_set_up_and_test() -> None:
    first, second = fenced("sh")
    assert first.splitlines()[-1].endswith("coursepack assemble")
    assert second == ".venv/bin/pytest\n"


def test_every_file_that_a_document_names_is_there() -> None:
    for name in ("README.md", "DEVELOPERS.md"):
        text = (HOME / name).read_text("utf-8")
        named = re.findall(r"!\[[^\]]*\]\(([^)]+)\)", text) + re.findall(
            r"`((?:coursepack|tests|\.ci)/[\w./-]+|lessons/[\d\w./-]*[a-z]\.toml)`", text
        )
        missing = [path for path in named if not (HOME / path).exists()]
        assert not missing, name
