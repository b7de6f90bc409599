"""The workers that print: each job in a process of its own, within limits of time and memory.

Importing this is cheap; what the workers import is named, not imported, so that they make ready while the main
process reads lessons. On Linux one server process imports the press once and forks each worker from it (a new
worker is there in milliseconds, and their memory is shared); elsewhere forking a process with loaded system
libraries is not safe, so each worker starts afresh.
"""

import math
import multiprocessing
import multiprocessing.forkserver
import pickle
import signal
import sys
import tempfile
import threading
import time
from collections import deque
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from multiprocessing.connection import wait
from multiprocessing.context import ForkServerContext, SpawnContext
from types import TracebackType
from typing import Self

from coursepack.place import LessonFault, Place
from coursepack.press.hand import work
from coursepack.press.job import Limits, Pressed, PressFault

_SERVED = sys.platform == "linux"
_LOOK_SECONDS = 0.02  # between two looks at the workers
_MOST_WORKERS = 4  # more only help on a term far larger than a class
_READY_TO_PRINT = ("coursepack.press.layout:make_ready",)


@dataclass(frozen=True)
class _Task:
    name: str
    message: bytes
    place: Place | None


class Press:
    """Workers that take jobs and give results in the order in which they are done.

    Use it in a `with` statement: the workers start at once and make ready; at the end, or on an error or Ctrl-C,
    they are ended. `warm` names functions ('module:function') that they call while they wait for the first.
    The main module is imported by the workers too, so it does nothing without `if __name__ == "__main__"`.
    """

    def __init__(
        self,
        workers: int | None = None,
        limits: Limits | None = None,
        warm: tuple[str, ...] = _READY_TO_PRINT,
    ) -> None:
        self._count = workers or min(multiprocessing.cpu_count(), _MOST_WORKERS)
        self._limits = limits or Limits()
        self._warm = warm
        self._tasks: list[_Task] = []
        self._hands: list[_Hand] = []
        self._done: deque[Pressed] = deque()
        self._desk = threading.Lock()
        self._awaited = threading.Event()  # the results; until then a thread sees to the workers
        self._foreman = threading.Thread(target=self._oversee, daemon=True)

    def __enter__(self) -> Self:
        self._folder = tempfile.TemporaryDirectory(prefix="coursepack-", ignore_cleanup_errors=True)
        if _SERVED:
            _start_server(self._warm)
        else:
            self._fill()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._take_over()
        for hand in self._hands:
            hand.end()
        self._folder.cleanup()

    def submit(
        self, name: str, function: Callable[..., bytes] | str, *arguments: object, place: Place | None = None
    ) -> None:
        """Queue a job under the name that its result and its faults will bear.

        The function is called with the arguments in a worker. It stands at the top of a module; as text,
        'module:function', it is imported by the worker only.
        """
        self._tasks.append(_Task(name, pickle.dumps((name, function, arguments)), place))
        if self._foreman.ident is None:
            self._foreman.start()  # it also hires, since the server answers only when it has imported all
        self._done.extend(self._answers())
        self._deal()

    def results(self) -> Iterator[Pressed]:
        """Give the result of each job as it is done, until none is left."""
        self._take_over()
        self._fill()
        self._deal()
        while self._done or self._tasks or any(hand.task for hand in self._hands):
            if not self._done:
                self._wait()
            self._done.extend(self._answers())
            self._deal()  # before a result is looked at, which keeps the main process busy
            while self._done:
                yield self._done.popleft()

    def _fill(self) -> None:
        while len(self._hands) < self._count:
            self._hands.append(self._hire())
            self._deal()

    def _oversee(self) -> None:
        """Hire the workers and keep them busy while the main process makes more jobs."""
        self._fill()
        while not self._awaited.wait(_LOOK_SECONDS):
            self._done.extend(self._answers())
            self._deal()

    def _take_over(self) -> None:
        self._awaited.set()
        if self._foreman.is_alive():
            self._foreman.join()

    def _hire(self) -> "_Hand":
        return _Hand(self._limits, self._warm, self._folder.name)

    def _largest(self) -> _Task:
        """Take the waiting job with most to print, so that at the end no worker waits long for another's."""
        task = max(self._tasks, key=lambda waiting: len(waiting.message))
        self._tasks.remove(task)
        return task

    def _deal(self) -> None:
        """Give waiting jobs to idle workers, and put new workers in the place of those that are gone."""
        with self._desk:
            for place, hand in enumerate(self._hands):
                if not self._tasks:
                    return
                if hand.task is None:
                    if not (hand.fit and hand.process.is_alive()):
                        hand.end()
                        self._hands[place] = self._hire()
                    self._hands[place].take(self._largest())

    def _wait(self) -> None:
        """Wait until a worker answers, ends or runs out of time."""
        busy = [hand for hand in self._hands if hand.task]
        patience = max(0.0, min(hand.deadline for hand in busy) - time.monotonic())
        wait([end for hand in busy for end in (hand.line, hand.process.sentinel)], patience)

    def _answers(self) -> list[Pressed]:
        """Return what the workers have answered so far."""
        with self._desk:
            answers = [hand.answer() for hand in self._hands if hand.task]
        return [answer for answer in answers if answer is not None]


class _Hand:
    """One worker, seen from the main process."""

    def __init__(self, limits: Limits, warm: tuple[str, ...], folder: str) -> None:
        context = _context()
        self.line, theirs = context.Pipe()
        self.process = context.Process(target=work, args=(theirs, limits, warm, folder), daemon=True)
        with _deaf_to_interrupts():
            self.process.start()
        theirs.close()
        self.task: _Task | None = None
        self.deadline = math.inf
        self.fit = True
        self._limits = limits

    def take(self, task: _Task) -> None:
        """Hand the worker a job."""
        self.task = task
        self.deadline = time.monotonic() + self._limits.seconds
        with suppress(OSError):  # it has just ended; its answer will say so
            self.line.send_bytes(task.message)

    def answer(self) -> Pressed | None:
        """Return what came of the job, or nothing while it is at work."""
        task = self.task
        if task is None or not (self.line.poll() or self._gone() or self._late()):
            return None
        self.task = None
        data, notes, faults = self._read(task)
        for fault in faults:
            if task.place:
                fault.at(task.place)
        return Pressed(task.name, data, tuple(faults), notes)

    def _gone(self) -> bool:
        return not self.process.is_alive()

    def _late(self) -> bool:
        return time.monotonic() >= self.deadline

    def _read(self, task: _Task) -> tuple[bytes, tuple[str, ...], list[LessonFault]]:
        if self.line.poll():
            with suppress(EOFError, OSError):
                data, notes, faults, self.fit = self.line.recv()
                return data, notes, faults
        self.fit = False
        return b"", (), [self._end_of(task)]

    def _end_of(self, task: _Task) -> PressFault:
        """Say why a job has no answer."""
        if self._late() and not self._gone():
            return PressFault(f"{task.name}: took more than {self._limits.seconds:g} s and was stopped")
        self.process.join(1)
        code = self.process.exitcode or 0
        name = signal.Signals(-code).name if code < 0 else f"exit {code}"
        return PressFault(
            f"{task.name}: its worker was ended from outside or crashed ({name})", "try it again"
        )

    def end(self) -> None:
        """End the worker, whatever it does."""
        with suppress(OSError):
            self.process.kill()
        self.process.join()
        self.line.close()


def _context() -> ForkServerContext | SpawnContext:
    return multiprocessing.get_context("forkserver") if _SERVED else multiprocessing.get_context("spawn")


def _start_server(warm: tuple[str, ...]) -> None:
    """Start, unless it runs, the process that imports the press once and forks the workers."""
    modules = [address.partition(":")[0] for address in warm]
    multiprocessing.set_forkserver_preload(modules)
    with _deaf_to_interrupts():
        multiprocessing.forkserver.ensure_running()


@contextmanager
def _deaf_to_interrupts() -> Iterator[None]:
    """Let a process that is started inherit that Ctrl-C is not for it."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
