"""What a worker of the pressroom does: it takes a job from the line, does it within limits, and answers."""

import gc
import importlib
import math
import pickle
import signal
import sys
import tempfile
import traceback
from collections.abc import Callable
from contextlib import suppress
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

from coursepack.place import LessonFault, LessonFaults
from coursepack.press.job import Limits, PressFault

if sys.platform != "win32":
    import resource

# the data, the notes, the faults, and whether the worker is fit for another job
_Outcome = tuple[bytes, tuple[str, ...], list[LessonFault], bool]
_MOST_LITTER = 2_000_000  # objects left by earlier jobs, about 300 pages and 450 MB of them


def work(line: Connection, limits: Limits, warm: tuple[str, ...], folder: str) -> None:
    """Do jobs until the line closes; deaf to Ctrl-C, which is for the main process to answer."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    tempfile.tempdir = folder
    gc.disable()  # layout makes many objects that live as long as the job
    unready = _make_ready(warm)
    gc.freeze()
    _limit_memory(limits)
    with suppress(EOFError, OSError):
        while True:
            message = line.recv_bytes()
            _limit_processor(limits)
            line.send(unready or _outcome(message, limits))
            if gc.get_count()[0] > _MOST_LITTER:
                gc.collect()


def _make_ready(warm: tuple[str, ...]) -> _Outcome | None:
    """Load what the jobs need; return what stands in the way of them all, if anything does."""
    try:
        for address in warm:
            _called(address)()
    except Exception as error:  # noqa: BLE001 - the main process must hear of it, whatever it is
        words = f"the press cannot make ready: {type(error).__name__}: {error} ({_where(error)})"
        return b"", (), [PressFault(words)], False
    return None


def _outcome(message: bytes, limits: Limits) -> _Outcome:
    """Do one job: its function returns the data, or the data and notes for the instructor."""
    name = "a job"
    try:
        name, function, arguments = pickle.loads(message)  # noqa: S301 - written by the main process itself
        given = _called(function)(*arguments)
        data, notes = given if isinstance(given, tuple) else (given, ())
    except LessonFaults as many:
        return b"", (), many.faults, True
    except LessonFault as fault:
        return b"", (), [fault], True
    except MemoryError:
        return b"", (), [PressFault(f"{name}: needs more than {limits.memory >> 20} MiB of memory")], False
    except RecursionError:
        return b"", (), [PressFault(f"{name}: nests too deeply")], True
    except Exception as error:  # noqa: BLE001 - whatever it is, the other jobs go on
        return b"", (), [PressFault(f"{name}: {type(error).__name__}: {error} ({_where(error)})")], False
    return data, notes, [], True


def _where(error: Exception) -> str:
    last = traceback.extract_tb(error.__traceback__)[-1]
    return f"{Path(last.filename).name}:{last.lineno}"


def _called(function: Callable[..., bytes] | str) -> Callable[..., Any]:
    if not isinstance(function, str):
        return function
    module, _, name = function.partition(":")
    called: Callable[..., Any] = getattr(importlib.import_module(module), name)
    return called


def _limit_memory(limits: Limits) -> None:
    if sys.platform != "win32":
        with suppress(ValueError, OSError):  # macOS knows the limit, but does not take it
            resource.setrlimit(resource.RLIMIT_AS, (limits.memory, limits.memory))
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _limit_processor(limits: Limits) -> None:
    """Let a worker whose main process is gone end by itself."""
    if sys.platform != "win32":
        used = resource.getrusage(resource.RUSAGE_SELF)
        soft = math.ceil(used.ru_utime + used.ru_stime + 2 * limits.seconds) + 1
        with suppress(ValueError, OSError):
            resource.setrlimit(resource.RLIMIT_CPU, (soft, resource.getrlimit(resource.RLIMIT_CPU)[1]))
