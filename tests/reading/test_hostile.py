"""No source whatever makes the reader raise anything but lesson faults, and none keeps it busy."""

import random
import time
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from coursepack.draft import draft
from coursepack.lesson import MEASURES, Course
from coursepack.numbers import attempt_numbers
from coursepack.place import LessonFault, LessonFaults
from coursepack.reading.tables import MOST_FAULTS
from coursepack.solve import accepts, solve
from tests.faulty.desk import faults, read, sound_copy, term_of

LESSONS = Path(__file__).parents[2] / "lessons"
REAL = sorted(LESSONS.glob("*.md"))
SECOND = 1.0
JUNK = [
    "",
    "`",
    "```",
    '"',
    "[",
    "]",
    "{",
    "}",
    "=",
    "#",
    "\n",
    "\0",
    "9" * 30,
    "é",
    "<b>",
    " = ",
    "in",
    "\\",
    "'",
    "by",
    "to",
    "|",
]
ONE_DESK = settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=60
)


def blocks(name: str, text: str, count: int = 1) -> str:
    return "# T\n\n### E\n" + f"\n```{name}\n{text}\n```\n" * count


EXERCISE = '# T\n\n### E\n\n```exercise\nid = "e"\nstage = "worked"\naims = [1]\n```\n\n'
HOSTILE = {
    "fifty megabytes": "a" * 50_000_000,
    "a million blocks": "```given\n```\n" * 1_000_000,
    "as many blocks as fit": "```given\n```\n" * 15_000,
    "as many unknown blocks as fit": "```gven\n```\n" * 15_000,
    "a fence that never closes, with spaces": "```" + " " * 190_000 + "`",
    "a heading of number signs": "# " + "#" * 190_000 + "x",
    "many headings of number signs": ("# " + "#" * 1_900 + "x\n") * 100,
    "ten thousand brackets": "# T\n\n" + "(" * 10_000,
    "twenty thousand square brackets": "# T\n\n" + "[" * 20_000,
    "square brackets line by line": "# T\n\n" + ("[" * 60 + "\n") * 3_000,
    "square brackets in a plain fence": "# T\n\n```\n" + ("[" * 1_900 + "\n") * 100 + "```\n",
    "links that never close": "# T\n\n" + ("[a](" + "x" * 1_900 + "\n") * 100,
    "raw HTML in every line": "<b>\n" * 40_000,
    "braces without end": EXERCISE + "{x} {y} {z}\n\n" * 14_000,
    "TOML nested deep": blocks("lesson", "a = " + "[" * 900 + "]" * 900),
    "TOML nested in keys": blocks("lesson", "a" + ".a" * 900 + " = 1"),
    "TOML of very many keys": blocks("lesson", "\n".join(f"key{n} = {n}" for n in range(12_000))),
    "a text of many lines": blocks("lesson", 'a = """\n' + "x = 1\n" * 30_000 + '"""'),
    "very many given names": EXERCISE + "```given\n" + "\n".join(f'n{n} = "1 in"' for n in range(11_000)) + "\n```\n",
    "very many choices": EXERCISE + '```given\nn = """' + "1 in | " * 25_000 + '"""\n```\n',
    "a range of many words": EXERCISE + '```given\nn = """' + "1 to " * 35_000 + '"""\n```\n',
    "a range without end": EXERCISE + '```given\nn = "0 in to 999999999 in by 0.000000000001 in"\n```\n',
    "very many steps": EXERCISE + "```working\n" + "\n".join(f"n{n} = m{n} + 1  # s" for n in range(8_000)) + "\n```\n",
    "a step of powers": EXERCISE + "```working\na = 9**9**9  # s\n```\n",
    "a step of brackets": EXERCISE + "```working\na = " + "(" * 10_000 + "  # s\n```\n",
    "an import": EXERCISE + "```working\na = __import__('os').system('true')  # s\n```\n",
    "very many questions": EXERCISE + "```find\n" + "\n".join(f"[n{n}]" for n in range(20_000)) + "\n```\n",
    "very many exercises": "# T\n\n" + "".join(f'### E\n\n```exercise\nid = "e{n}"\nlike = "e{n - 1}"\n```\n' for n in range(3_500)),
    "a NUL": "# T\n\0",
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_lesson_is_a_fault_in_under_a_second(name: str, tmp_path: Path) -> None:
    folder = sound_copy(tmp_path)
    (folder / "03-hostile.md").write_text(HOSTILE[name], "utf-8")
    start = time.process_time()
    told = faults(folder)
    assert time.process_time() - start < SECOND
    assert told
    assert len(told) <= MOST_FAULTS
    assert all("03-hostile.md" in line for line in told)


@pytest.mark.parametrize("name", ["course.toml", "terms/spring.toml"])
@pytest.mark.parametrize(
    "text",
    [
        "a" + ".a" * 90_000 + " = 1",
        "a = " + "[" * 190_000,
        "a = " + "9" * 190_000,
        "sets." + "a." * 900 + "a = 1",
    ],
)
def test_a_hostile_course_or_term_is_a_fault_in_under_a_second(name: str, text: str, tmp_path: Path) -> None:
    folder = sound_copy(tmp_path)
    (folder / name).write_text(text, "utf-8")
    start = time.process_time()
    assert faults(folder)
    assert time.process_time() - start < SECOND


@given(data=st.binary(max_size=400))
@ONE_DESK
def test_no_bytes_whatever_raise_anything_but_faults(
    tmp_path_factory: pytest.TempPathFactory, data: bytes
) -> None:
    folder = sound_copy(tmp_path_factory.mktemp("desk"))
    for name in ("01-bevels.md", "course.toml", "terms/spring.toml"):
        (folder / name).write_bytes(data)
        with suppress(LessonFaults):
            term_of(folder)


@given(data=st.data())
@ONE_DESK
def test_no_cut_or_change_in_a_sound_source_raises_anything_but_faults(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    folder = sound_copy(tmp_path_factory.mktemp("desk"))
    path = folder / data.draw(
        st.sampled_from(["01-bevels.md", "02-guides.md", "course.toml", "terms/spring.toml"])
    )
    text = path.read_text("utf-8")
    for _ in range(data.draw(st.integers(1, 3))):
        at = data.draw(st.integers(0, len(text)))
        text = text[:at] + data.draw(st.sampled_from(JUNK)) + text[at + data.draw(st.integers(0, 12)) :]
    path.write_text(text, "utf-8")
    with suppress(LessonFaults):
        term_of(folder)
        solve_all(read(folder))


def solve_all(course: Course) -> None:
    """What is read is whole: it can be solved and drawn, or tells its fault."""
    for exercise in (exercise for lesson in course.lessons for exercise in lesson.exercises):
        assert exercise.steps
        assert exercise.finds
        for measure in MEASURES:
            with suppress(LessonFault):
                numbers = attempt_numbers(1, exercise, 1, measure, 0)
                if accepts(exercise, measure, numbers):
                    draft(solve(exercise, numbers, measure, 1), answered=True)


@pytest.mark.parametrize("path", REAL, ids=lambda path: path.stem)
def test_no_change_in_a_real_lesson_raises_anything_but_faults(path: Path, tmp_path: Path) -> None:
    folder = sound_copy(tmp_path)
    text, rng = path.read_text("utf-8"), random.Random(path.stem)  # noqa: S311 - draws, not secrets
    for _ in range(40):
        at = rng.randrange(len(text))
        spoilt = text[:at] + rng.choice(JUNK) + text[at + rng.randrange(20) :]
        (folder / "03-real.md").write_text(spoilt, "utf-8")
        with suppress(LessonFaults):
            solve_all(read(folder))
