"""TOML with places: every key knows its line in the source, and every fault of a table is collected."""

import re
import tomllib
from collections.abc import Iterable, Mapping
from types import TracebackType
from typing import Any, TypeVar

from coursepack.place import LessonFault, Place, did_you_mean

T = TypeVar("T")


class Findings:
    """Faults collected on the way, so that all of them can be told at once."""

    def __init__(self) -> None:
        self.faults: list[LessonFault] = []

    def add(self, place: Place, message: str, remedy: str = "") -> None:
        """Note a fault at a place."""
        self.faults.append(LessonFault(message, remedy, place))

    def at(self, place: Place) -> "_Collecting":
        """Collect, in a `with` statement, a LessonFault that is raised inside, giving it this place if it has none."""
        return _Collecting(self, place)


class _Collecting:
    def __init__(self, findings: Findings, place: Place) -> None:
        self.findings = findings
        self.place = place

    def __enter__(self) -> None:
        pass

    def __exit__(
        self, _kind: type[BaseException] | None, fault: BaseException | None, _trace: TracebackType | None
    ) -> bool:
        if not isinstance(fault, LessonFault):
            return False
        self.findings.faults.append(fault.at(self.place))
        return True


class Table:
    """A TOML table that is read key by key; what is missing, wrong or left over becomes a fault."""

    def __init__(
        self, values: Mapping[str, Any], text: str, start: Place, findings: Findings, what: str
    ) -> None:
        self.values = dict(values)
        self.text = text
        self.start = start
        self.findings = findings
        self.what = what
        self.taken: set[str] = set()

    def place(self, key: str = "") -> Place:
        """Return the line where a key (or a table of that name) stands, or the start of the table."""
        stem = re.escape(key)
        pattern = (
            rf'(?m)^[ \t]*(?:\[+[^\]\n]*?"?{stem}"?\]+|"?{stem}"?[ \t]*[.=])|[{{,][ \t]*"?{stem}"?[ \t]*='
        )
        found = re.search(pattern, self.text) if key else None
        lead = self.text[: found.start()].count("\n") + 1 if found else 0
        if found and found[0].startswith("\n"):
            lead += 1
        return Place(self.start.path, self.start.line + lead) if self.start.line or found else self.start

    def fault(self, key: str, message: str, remedy: str = "") -> None:
        """Note a fault at a key."""
        self.findings.add(self.place(key), message, remedy)

    def take(self, key: str, kind: type[T], default: T | None = None) -> T:
        """Return the value of a key of the type asked; a missing one without default, or a wrong type, is a fault."""
        self.taken.add(key)
        value = self.values.get(key)
        fits = isinstance(value, kind) and not (kind is int and isinstance(value, bool))
        if fits and isinstance(value, kind):
            return value
        if value is None and default is not None:
            return default
        want = _TYPE_NAMES[kind]
        if value is None:
            self.fault("", f"{self.what} has no '{key}'", f"add {key} = {_SAMPLES[kind]}")
        else:
            self.fault(key, f"'{key}' is not {want}", f"write {key} = {_SAMPLES[kind]}")
        return default if default is not None else kind()

    def texts(self, key: str, default: tuple[str, ...] | None = None) -> tuple[str, ...]:
        """Return a list of texts."""
        values: list[Any] = self.take(key, list, None if default is None else list(default))
        if not all(isinstance(value, str) and value.strip() for value in values):
            self.fault(key, f"'{key}' is not a list of texts", f'write {key} = ["…", "…"]')
            return ()
        return tuple(values)

    def one_of(self, key: str, allowed: Iterable[str], default: str | None = None) -> str:
        """Return a text that must be one of those allowed."""
        value = self.take(key, str, default)
        words = tuple(allowed)
        if key in self.values and value not in words:
            self.fault(key, f"'{key}' cannot be '{value}'", did_you_mean(value, words))
        return value if value in words else words[0]

    def whole(self, key: str, least: int, most: int, default: int | None = None) -> int:
        """Return a whole number within limits."""
        value = self.take(key, int, default)
        if key in self.values and isinstance(self.values[key], int) and not least <= value <= most:
            self.fault(key, f"'{key}' is {value}", f"it goes from {least} to {most}")
        return value

    def left_over(self) -> list[str]:
        """Return the keys that nobody has taken."""
        return [key for key in self.values if key not in self.taken]

    def finish(self, known: Iterable[str] = ()) -> None:
        """Every key that was not taken is a fault."""
        for key in self.left_over():
            self.fault(key, f"{self.what} has no key '{key}'", did_you_mean(key, [*self.taken, *known]))


_TYPE_NAMES: Mapping[type, str] = {str: "a text", int: "a whole number", list: "a list", dict: "a table"}
_SAMPLES: Mapping[type, str] = {str: '"…"', int: "1", list: '["…"]', dict: "{ … }"}


def read_toml(text: str, start: Place, findings: Findings, what: str) -> Table | None:
    """Read TOML whose first line stands after `start`; a syntax fault carries its line in the file."""
    try:
        return Table(tomllib.loads(text), text, start, findings, what)
    except tomllib.TOMLDecodeError as trouble:
        message, line = _where(str(trouble), text)
        findings.add(
            Place(start.path, start.line + line),
            f"the TOML cannot be read: {message}",
            'write lines such as key = "text"',
        )
    except RecursionError:
        findings.add(start, "the TOML is nested too deeply", "keep it flat")
    return None


def _where(message: str, text: str) -> tuple[str, int]:
    found = re.search(r" \(at (?:line (\d+), column \d+|end of document)\)", message)
    if not found:
        return message, 1
    line = int(found[1]) if found[1] else text.count("\n") + 1
    return message[: found.start()], line
