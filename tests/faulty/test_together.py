"""Many faults at once, and the command that tells them."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.faulty.desk import Edit, faults, sound_copy, spoil

TEN: list[Edit] = [
    ("01-bevels.md", "minutes   = 90", "minutes   = 0"),
    ("01-bevels.md", '["band saw"]', '["hand saw"]'),
    ("01-bevels.md", "An edge is cut", "An <i>edge</i> is cut"),
    ("01-bevels.md", "3/4 in | 1 in", "3/4 in | 1 inn"),
    ("01-bevels.md", "tan(top)", "tam(top)"),
    ("01-bevels.md", 'metric = "0.1 mm" }', 'metric = "0.1 mmm" }'),
    ("01-bevels.md", "spar section", "spar sections"),
    ("01-bevels.md", "aims  = [2]", "aims  = [2]\nmark  = 3"),
    ("02-guides.md", '"alone"', '"lone"'),
    ("course.toml", '"danger"', '"dangerous"'),
]  # fmt: skip
TOLD = [
    "lessons/01-bevels.md:5: 'minutes' is 0; it goes from 1 to 1440",
    "lessons/01-bevels.md:6: the course has no machine 'hand saw'; did you mean 'band saw'?",
    "lessons/01-bevels.md:19: raw HTML is not read; write plain Markdown; a bare < needs a space after it",
    "lessons/01-bevels.md:31: '1 inn': 'inn' is not a unit; write in, ft, mm, deg, %, psi, rpm or another shop unit",
    "lessons/01-bevels.md:39: there is no function 'tam' (at character 9, “tam(top)”); did you mean 'tan'?",
    "lessons/01-bevels.md:46: '0.1 mmm': 'mmm' is not a unit; write in, ft, mm, deg, %, psi, rpm or another shop unit",
    "lessons/01-bevels.md:53: there is no figure 'spar sections'; did you mean 'spar section'?",
    "lessons/01-bevels.md:66: the exercise block has no key 'mark'; did you mean 'marks'?",
    "lessons/02-guides.md:17: 'stage' cannot be 'lone'; did you mean 'alone'?",
    "lessons/course.toml:13: 'level' cannot be 'dangerous'; did you mean 'danger'?",
]


def coursepack(*arguments: str, folder: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "coursepack", *arguments]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False, timeout=60)


def standing(folder: Path) -> dict[str, tuple[bytes, int]]:
    return {
        str(path): (path.read_bytes(), path.stat().st_mtime_ns)
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_ten_faults_are_told_at_once_in_the_order_of_their_lines(tmp_path: Path) -> None:
    assert faults(spoil(sound_copy(tmp_path), *TEN)) == TOLD


@pytest.mark.parametrize("command", ["proof", "assemble"])
def test_the_command_tells_every_fault_leaves_with_1_and_touches_nothing(
    command: str, tmp_path: Path
) -> None:
    spoil(sound_copy(tmp_path), *TEN)
    sheets = tmp_path / "build" / "spring"
    sheets.mkdir(parents=True)
    (sheets / "02-guides-reading.pdf").write_bytes(b"%PDF of last week")
    before = standing(tmp_path)
    done = coursepack(command, *(["spring"] if command == "assemble" else []), folder=tmp_path)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.splitlines() == [*TOLD, "10 faults"]
    assert standing(tmp_path) == before


def test_a_requirement_that_no_draw_meets_is_told_by_proof_with_its_line(tmp_path: Path) -> None:
    spoil(sound_copy(tmp_path), ("01-bevels.md", "rear > front / 2", "rear > 2 * front"))
    done = coursepack("proof", folder=tmp_path)
    assert done.returncode == 1
    assert done.stderr.splitlines()[0] == (
        "lessons/01-bevels.md:33: no draw of 'rear' in inch meets rear > 2 * front; widen the choices or ease the requirement"
    )


def test_a_requirement_that_no_draw_meets_stops_the_assembling(tmp_path: Path) -> None:
    spoil(sound_copy(tmp_path), ("01-bevels.md", "rear > front / 2", "rear > 2 * front"))
    done = coursepack("assemble", "spring", folder=tmp_path)
    assert done.returncode == 1
    assert "lessons/01-bevels.md:33: no draw of 'rear' in inch meets rear > 2 * front" in done.stderr
    assert not list((tmp_path / "build").rglob("*"))
