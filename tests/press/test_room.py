import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from coursepack.place import LessonFault, LessonFaults, Place
from coursepack.press import room
from coursepack.press.job import Limits, Pressed, PressFault, PressJob
from coursepack.press.room import Press
from tests.press.sheets import STYLE, sheet

NOTHING_WARM = ()
PRINT = "coursepack.press.layout:print_pdf"


@pytest.fixture(params=["served", "spawned"], autouse=True)
def _way_to_start(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    if request.param == "spawned":
        monkeypatch.setattr(room, "_SERVED", False)


@pytest.fixture
def press() -> Iterator[Press]:
    with Press(2, Limits(seconds=2.5, memory=1 << 30), NOTHING_WARM) as press:
        yield press


def upper(text: str) -> bytes:
    return text.upper().encode()


def hang(started: str) -> bytes:
    Path(started).touch()
    while True:
        time.sleep(0.01)


def leave(mark: str) -> bytes:
    Path(mark).touch()
    return b"left"


def swell() -> bytes:
    return b"".join(bytes(1 << 26) for _ in range(64))


def end_itself() -> bytes:
    os.kill(os.getpid(), signal.SIGKILL)
    return b""


def stumble() -> bytes:
    return {"a": b""}["b"]


def dig() -> bytes:
    return dig()


def refuse() -> bytes:
    raise LessonFault("the range has no value", "give one", Place("lessons/04.md", 37))


def refuse_twice() -> bytes:
    raise LessonFaults(
        [LessonFault("second", place=Place("b.md", 2)), LessonFault("first", place=Place("a.md", 1))]
    )


def process_id() -> bytes:
    return str(os.getpid()).encode()


def litter() -> bytes:
    Path(tempfile.mkdtemp(), "leaf").touch()
    return tempfile.gettempdir().encode()


def test_a_worker_takes_the_next_job_while_the_main_process_is_busy(tmp_path: Path) -> None:
    with Press(1, Limits(), NOTHING_WARM) as press:
        for name in ("first", "second", "third"):
            press.submit(name, leave, str(tmp_path / name))
        deadline = time.monotonic() + 20
        while not (tmp_path / "third").exists() and time.monotonic() < deadline:
            time.sleep(0.01)  # asks for no result
        assert (tmp_path / "third").exists()
        assert {result.name for result in press.results()} == {"first", "second", "third"}


def collected(press: Press) -> dict[str, Pressed]:
    return {each.name: each for each in press.results()}


def words(pressed: Pressed) -> list[str]:
    return [str(fault) for fault in pressed.faults]


def test_jobs_are_done_and_given_back_under_their_names(press: Press) -> None:
    for name in "abcde":
        press.submit(name, upper, name)
    done = collected(press)
    assert {name: each.data for name, each in done.items()} == {name: upper(name) for name in "abcde"}
    assert not any(each.faults for each in done.values())


def test_results_can_be_taken_more_than_once(press: Press) -> None:
    press.submit("a", upper, "a")
    assert set(collected(press)) == {"a"}
    press.submit("b", upper, "b")
    assert set(collected(press)) == {"b"}
    assert collected(press) == {}


def test_a_function_can_be_named_instead_of_imported(press: Press) -> None:
    press.submit("a", f"{__name__}:upper", "a")
    assert collected(press)["a"].data == b"A"


def test_a_job_that_hangs_is_stopped_and_named_and_the_others_are_done(press: Press, tmp_path: Path) -> None:
    press.submit("the key of lesson 4", hang, str(tmp_path / "started"), place=Place("lessons/04.md"))
    for name in "abcde":
        press.submit(name, upper, name)
    done = collected(press)
    assert words(done["the key of lesson 4"]) == [
        "lessons/04.md: the key of lesson 4: took more than 2.5 s and was stopped"
    ]
    assert [done[name].data for name in "abcde"] == [b"A", b"B", b"C", b"D", b"E"]


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux keeps a process to its memory")
def test_a_job_that_swells_is_stopped_and_named(press: Press) -> None:
    press.submit("the reading", swell)
    press.submit("a", upper, "a")
    done = collected(press)
    assert words(done["the reading"]) == ["the reading: needs more than 1024 MiB of memory"]
    assert done["a"].data == b"A"


def test_a_killed_worker_is_a_fault_that_names_its_job_and_the_others_are_done(press: Press) -> None:
    for name in ("a", "x", "y", "b", "c"):
        press.submit(name, *([end_itself] if name in "xy" else [upper, name]))
    done = collected(press)
    assert words(done["x"]) == ["x: its worker was ended from outside or crashed (SIGKILL); try it again"]
    assert words(done["y"]) == ["y: its worker was ended from outside or crashed (SIGKILL); try it again"]
    assert [done[name].data for name in "abc"] == [b"A", b"B", b"C"]


def test_workers_killed_while_they_wait_are_replaced(press: Press) -> None:
    press.submit("a", upper, "a")
    collected(press)
    for hand in press._hands:
        hand.process.kill()
        hand.process.join()
    press.submit("b", upper, "b")
    assert collected(press)["b"].data == b"B"


def test_an_error_of_the_program_is_a_fault_with_its_place_in_the_program(press: Press) -> None:
    press.submit("the key", stumble)
    press.submit("a", upper, "a")
    done = collected(press)
    line = stumble.__code__.co_firstlineno + 1
    assert words(done["the key"]) == [f"the key: KeyError: 'b' (test_room.py:{line})"]
    assert isinstance(done["the key"].faults[0], PressFault)
    assert done["a"].data == b"A"


def test_a_page_that_nests_too_deeply_is_a_fault(press: Press) -> None:
    press.submit("the key", dig)
    assert words(collected(press)["the key"]) == ["the key: nests too deeply"]


def test_faults_of_lessons_come_through_as_they_are(press: Press) -> None:
    press.submit("one", refuse)
    press.submit("many", refuse_twice)
    done = collected(press)
    assert words(done["one"]) == ["lessons/04.md:37: the range has no value; give one"]
    assert words(done["many"]) == ["a.md:1: first", "b.md:2: second"]


def test_two_workers_print_the_same_bytes_as_one() -> None:
    def run(workers: int) -> dict[str, bytes]:
        with Press(workers) as press:
            for bench in (1, 2, 3):
                press.submit(f"bench {bench}", PRINT, PressJob(f"bench {bench}", "E", (sheet(bench),), STYLE))
            done = collected(press)
        assert not any(each.faults for each in done.values())
        return {name: each.data for name, each in done.items()}

    assert run(1) == run(2)


def test_nothing_is_left_behind() -> None:
    with Press(2, warm=NOTHING_WARM) as other:
        other.submit("litter", litter)
        other.submit("a", process_id)
        done = collected(other)
        workers = [hand.process for hand in other._hands]
    assert not Path(done["litter"].data.decode()).exists()
    assert not any(worker.is_alive() for worker in workers)


INTERRUPTED = """
import sys
from coursepack.press import room
from coursepack.press.room import Press
from tests.press.test_room import hang
if __name__ == "__main__":
    room._SERVED = sys.argv[2] == "True"
    with Press(2, warm=()) as press:
        press.submit("a", hang, sys.argv[1] + "-a")
        press.submit("b", hang, sys.argv[1] + "-b")
        for each in press.results():
            print("a result")
"""


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no process groups of this kind")
def test_ctrl_c_ends_everything_without_a_word_from_the_workers(tmp_path: Path) -> None:
    script, started = tmp_path / "script.py", tmp_path / "started"
    script.write_text(INTERRUPTED)
    child = subprocess.Popen(
        [sys.executable, str(script), str(started), str(room._SERVED)],
        env=os.environ | {"PYTHONPATH": str(Path(__file__).parents[1])},
        start_new_session=True, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    until = time.monotonic() + 20
    while not all(Path(f"{started}-{job}").exists() for job in "ab") and time.monotonic() < until:
        time.sleep(0.02)
    os.killpg(child.pid, signal.SIGINT)
    out, err = child.communicate(timeout=5)
    assert out == ""
    assert err.count("Traceback") == 1
    assert err.rstrip().endswith("KeyboardInterrupt")
    assert child.returncode != 0
    assert is_gone(child.pid)


def is_gone(group: int) -> bool:
    """Say whether every process of a group has ended, within a few seconds."""
    until = time.monotonic() + 5
    while time.monotonic() < until:
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.05)
    return False
