"""Runs a command of this Python and watches it: seconds by the clock, seconds of processor, and memory."""

import os
import subprocess
import sys
import threading
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Self

_TICK = os.sysconf("SC_CLK_TCK") if hasattr(os, "sysconf") else 100
_EVERY_S = 0.1  # to look is work, too


@dataclass(frozen=True)
class Run:
    """Seconds by the clock; seconds of processor and the peak in MB of the largest process, both 0 where there is no /proc."""

    seconds: float
    cpu: float
    peak: float


def run(words: Sequence[str]) -> Run:
    """Run `python *words` in a session of its own; raises CalledProcessError where it fails.

    Modules are kept compiled between runs, as on a user's machine, whatever this process was told.
    """
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    start = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, *words], stdout=subprocess.DEVNULL, start_new_session=True, env=kept
    )
    with _Watch(process.pid) as watch:
        process.wait()
        seconds = time.perf_counter() - start
    if process.returncode:
        raise subprocess.CalledProcessError(process.returncode, process.args)
    return Run(seconds, sum(watch.used.values()), watch.peak)


class _Watch:
    """Looks now and then, in a thread, at what the processes of a session have used."""

    def __init__(self, leader: int) -> None:
        self.used: dict[int, float] = {}
        self.peak = 0.0
        self._leader = leader
        self._done = threading.Event()
        self._thread = threading.Thread(target=self._look)

    def __enter__(self) -> Self:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._done.set()
        self._thread.join()

    def _look(self) -> None:
        while not self._done.wait(_EVERY_S):
            for pid in _session(self._leader):
                self.used[pid] = max(self.used.get(pid, 0.0), _processor(pid))
                self.peak = max(self.peak, _peak(pid))


def _session(leader: int) -> list[int]:
    found = (int(folder.name) for folder in Path("/proc").glob("[0-9]*"))
    return [pid for pid in found if (fields := _fields(pid)) and int(fields[3]) == leader]


def _fields(pid: int) -> list[str]:
    """Return the fields of /proc/PID/stat from the third on (proc(5)), or none when it has ended."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    except OSError:
        return []


def _processor(pid: int) -> float:
    fields = _fields(pid)
    return (int(fields[11]) + int(fields[12])) / _TICK if fields else 0.0


def _peak(pid: int) -> float:
    try:
        status = Path(f"/proc/{pid}/status").read_text()
    except OSError:
        return 0.0
    kilobytes = [line.split()[1] for line in status.splitlines() if line.startswith("VmHWM")]
    return int(kilobytes[0]) / 1000 if kilobytes else 0.0
