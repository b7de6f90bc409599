"""What happens when printing is cut short: a clear word, and the sheets that stood are whole."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from coursepack.assemble import Order, assemble
from coursepack.drafting.catalogue import FIGURES
from coursepack.place import LessonFaults
from coursepack.press.job import Limits
from coursepack.press.room import Press
from coursepack.reading.course import read_course, read_term
from coursepack.trade.catalogue import FUNCTIONS
from tests.small_term import assemble_small, command, contents, draw_anew, write_small_term

linux = pytest.mark.skipif(sys.platform != "linux", reason="finds the workers in /proc")
unix = pytest.mark.skipif(sys.platform == "win32", reason="uses signals and limits of Unix")


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Print the small term once; the folder holds lessons/ and build/."""
    home = tmp_path_factory.mktemp("printed")
    assemble_small(write_small_term(home / "lessons"), home / "build")
    draw_anew(home / "lessons")
    return home


@pytest.fixture
def home(printed: Path) -> Iterator[Path]:
    """Give the folder of a term that is printed and due again; afterwards all must stand as before."""
    before = contents(printed / "build")
    assert len(before) == 5
    yield printed
    assert contents(printed / "build") == before


def start(home: Path, *more: str) -> "subprocess.Popen[str]":
    words = command(home / "lessons", home / "build", *more)
    pipe = subprocess.PIPE
    return subprocess.Popen(words, stdout=pipe, stderr=pipe, text=True, start_new_session=True)


def run_python(code: str, home: Path) -> "subprocess.CompletedProcess[str]":
    words = [sys.executable, "-c", code, *command(home / "lessons", home / "build")[3:]]
    return subprocess.run(words, capture_output=True, text=True, check=False)


def wait_for_a_sheet(process: "subprocess.Popen[str]") -> None:
    assert process.stdout
    assert process.stdout.readline().endswith(".pdf\n")


@unix
def test_ctrl_c_in_the_middle_changes_nothing(home: Path) -> None:
    with start(home, "--workers", "1") as process:
        wait_for_a_sheet(process)
        os.killpg(process.pid, signal.SIGINT)  # as a terminal does: the workers get it too
        _, said = process.communicate(timeout=20)
    assert process.returncode == 130
    assert said == "stopped; nothing was changed\n"


@unix
def test_ctrl_c_at_the_start_changes_nothing(home: Path) -> None:
    code = (
        "import os, signal, sys, threading\n"
        "from coursepack import cli\n"
        "threading.Timer(0.5, os.kill, (os.getpid(), signal.SIGINT)).start()\n"
        "sys.exit(cli.main(sys.argv[1:]))\n"
    )
    done = run_python(code, home)
    assert (done.returncode, done.stderr) == (130, "stopped; nothing was changed\n")


def workers_of(pid: int) -> list[int]:
    """Return the workers below a main process: the children of its server process."""
    parents = {}
    for status in Path("/proc").glob("[0-9]*/stat"):
        try:
            fields = status.read_text().rpartition(")")[2].split()
        except OSError:  # it has just ended
            continue
        parents[int(status.parent.name)] = int(fields[1])
    servers = {child for child, parent in parents.items() if parent == pid}
    return [child for child, parent in parents.items() if parent in servers]


@linux
def test_workers_that_are_killed_are_named_by_the_sheets_they_were_at(home: Path) -> None:
    with start(home) as process:
        while process.poll() is None:
            for worker in workers_of(process.pid):
                with suppress(ProcessLookupError):  # it has just ended by itself
                    os.kill(worker, signal.SIGKILL)
            time.sleep(0.02)
        _, said = process.communicate(timeout=20)
    assert process.returncode == 1
    assert "INSTRUCTOR-01-bevels-key.pdf: its worker was ended from outside or crashed (SIGKILL)" in said
    assert said.splitlines()[0].startswith("lessons/01-bevels.md:")
    assert said.splitlines()[-1].endswith("faults")
    assert "Traceback" not in said


@unix
def test_a_disk_that_is_full_when_the_sheets_are_put_away_changes_nothing(home: Path) -> None:
    code = (
        "import resource, sys\n"
        "from coursepack import assemble, cli\n"
        "put_away = assemble.put_away\n"
        "def on_a_full_disk(*arguments):\n"
        "    resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))\n"
        "    put_away(*arguments)\n"
        "assemble.put_away = on_a_full_disk\n"
        "sys.exit(cli.main(sys.argv[1:]))\n"
    )
    done = run_python(code, home)
    assert done.returncode == 1
    assert "the sheets cannot be put away (File too large); what stood there is as it was" in done.stderr
    assert "Traceback" not in done.stderr


@unix
def test_a_disk_that_is_full_from_the_start_changes_nothing(home: Path) -> None:
    code = (
        "import resource, sys\n"
        "from coursepack import cli\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (1_000, 1_000))\n"
        "sys.exit(cli.main(sys.argv[1:]))\n"
    )
    done = run_python(code, home)
    assert done.returncode == 1
    assert (
        "lessons/01-bevels.md: the press cannot make ready: OSError: [Errno 27] File too large" in done.stderr
    )
    assert "Traceback" not in done.stderr


def test_a_build_folder_that_cannot_be_made_is_named_before_anything_is_printed(home: Path) -> None:
    in_the_way = home / "in the way"
    in_the_way.write_text("a file")
    words = command(home / "lessons", in_the_way)
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    in_the_way.unlink()
    assert (done.returncode, done.stdout) == (1, "")
    assert "in the way/small: the sheets cannot be put away (" in done.stderr
    assert "Traceback" not in done.stderr


@unix
@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write everywhere")
def test_a_build_folder_that_is_read_only_is_named(home: Path) -> None:
    (home / "build").chmod(0o555)
    words = command(home / "lessons", home / "build")
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    (home / "build").chmod(0o755)
    assert (done.returncode, done.stdout) == (1, "")
    assert "build/small: the sheets cannot be put away (Permission denied)" in done.stderr


def test_a_lesson_that_takes_the_press_too_long_is_stopped_and_named(home: Path) -> None:
    lessons = home / "lessons"
    course = read_course(lessons, FUNCTIONS, FIGURES)
    term = read_term(lessons, "small", course)
    with Press(1, Limits(seconds=0.05)) as press, pytest.raises(LessonFaults) as caught:
        assemble(course, term, lessons, home / "build", Order(), press, print)
    told = [str(fault) for fault in caught.value.faults]
    assert all(line.startswith("lessons/01-bevels.md: ") for line in told)
    assert any("01-bevels-reading.pdf: took more than 0.05 s and was stopped" in line for line in told)


def test_what_a_power_cut_left_behind_is_cleared_away(tmp_path: Path) -> None:
    lessons, build = write_small_term(tmp_path / "lessons"), tmp_path / "build"
    assemble_small(lessons, build)
    before = contents(build)
    (build / "small").rename(build / ".small-old")  # between the two steps of putting away
    (build / ".small-new-x1").mkdir()
    (build / ".small-new-x1" / "half.pdf").write_bytes(b"%PDF")
    assemble_small(lessons, build)
    assert contents(build) == before
