"""Runs a command of this Python and watches it: seconds by the clock, seconds of processor, and memory."""

import os
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

_TICK = os.sysconf("SC_CLK_TCK") if hasattr(os, "sysconf") else 100
_EVERY_S = 0.02


@dataclass(frozen=True)
class Run:
    """Seconds by the clock; seconds of processor and the peak in MB of the largest process, both 0 where there is no /proc."""

    seconds: float
    cpu: float
    peak: float


def run(words: Sequence[str]) -> Run:
    """Run `python *words` in a session of its own; raises CalledProcessError where it fails."""
    used: dict[int, float] = {}
    peak = 0.0
    start = time.perf_counter()
    process = subprocess.Popen([sys.executable, *words], stdout=subprocess.DEVNULL, start_new_session=True)
    while process.poll() is None:
        for pid in _session(process.pid):
            used[pid] = max(used.get(pid, 0.0), _processor(pid))
            peak = max(peak, _peak(pid))
        time.sleep(_EVERY_S)
    seconds = time.perf_counter() - start
    if process.returncode:
        raise subprocess.CalledProcessError(process.returncode, process.args)
    return Run(seconds, sum(used.values()), peak)


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
