"""The same term prints the same sheets, whatever the process, and whatever stands beside them."""

import subprocess
from pathlib import Path

from tests.small_term import LESSON, assemble_small, command, contents, surroundings, write_small_term

REVIEW = """
### Again

```exercise
id = "again"
stage = "alone"
aims = [1]
like = "bevels/rear"
```
"""


def test_two_processes_that_have_nothing_in_common_print_the_same_bytes(tmp_path: Path) -> None:
    builds = []
    for name, workers, seed, zone, language in (
        ("here", "1", "1", "Pacific/Auckland", "C"),
        ("there", "2", "4711", "America/St_Johns", "tr_TR.UTF-8"),
    ):
        home = tmp_path / name / "a folder of its own"
        lessons = write_small_term(home / "sources" / "lessons")
        builds.append(home / "out")
        subprocess.run(
            command(lessons, builds[-1], "--workers", workers, "--bench", "2"),
            cwd=home,
            env=surroundings(PYTHONHASHSEED=seed, TZ=zone, LANG=language, LC_ALL=language),
            check=True,
            capture_output=True,
        )
    first, second = (contents(build) for build in builds)
    assert sorted(first) == [
        "small",
        "small/01-bevels-exercises-bench-02.pdf",
        "small/01-bevels-exercises.pdf",
        "small/01-bevels-reading.pdf",
        "small/INSTRUCTOR-01-bevels-key.pdf",
        "small/record.json",
    ]
    assert first == second


def test_another_lesson_changes_no_byte_of_this_one(tmp_path: Path) -> None:
    lessons, build = write_small_term(tmp_path / "lessons"), tmp_path / "build"
    assemble_small(lessons, build)
    before = contents(build / "small")
    other = LESSON.replace("# Two bevels", "# Two more").replace("number = 1", "number = 2")
    other += REVIEW
    (lessons / "02-more.md").write_text(other, "utf-8")
    assemble_small(lessons, tmp_path / "afresh")
    after = contents(tmp_path / "afresh" / "small")
    ours = {name for name in before if "01-bevels" in name}
    assert len(ours) == 3
    assert {name: after[name] for name in ours} == {name: before[name] for name in ours}
    assert len(after) == len(before) + 3


def test_a_sentence_of_the_reading_prints_the_reading_only(tmp_path: Path) -> None:
    lessons, build = write_small_term(tmp_path / "lessons"), tmp_path / "build"
    assemble_small(lessons, build)
    before = contents(build / "small")
    text = LESSON.replace("off the rear face.\n", "off the rear face.\n\nMeasure twice.\n", 1)
    (lessons / "01-bevels.md").write_text(text, "utf-8")
    done = subprocess.run(command(lessons, build), check=True, capture_output=True, text=True)
    assert done.stdout.splitlines()[:-1] == ["  01-bevels-reading.pdf"]
    after = contents(build / "small")
    changed = {name for name in before if after[name] != before[name]}
    assert changed == {"01-bevels-reading.pdf", "record.json"}
    assemble_small(lessons, tmp_path / "afresh")
    assert contents(tmp_path / "afresh" / "small") == after
