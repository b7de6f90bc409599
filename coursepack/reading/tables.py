"""TOML with places: every key knows its line in the source, and every fault of a table is collected."""

import re
import tomllib
from collections.abc import Iterable, Mapping
from types import TracebackType
from typing import Any, TypeVar

from coursepack.place import LessonFault, Place, did_you_mean
from coursepack.reading.source import checked_lines

T = TypeVar("T")


MOST_FAULTS = 300
MOST_KEYS = 100


class Enough(Exception):  # noqa: N818 - not a fault of a lesson, but the end of looking for more
    """There are more faults than anyone reads at once."""


class Findings:
    """Faults collected on the way, so that all of them can be told at once."""

    def __init__(self) -> None:
        self.faults: list[LessonFault] = []
        self.told: set[str] = set()

    def add(self, place: Place, message: str, remedy: str = "") -> None:
        """Note a fault at a place."""
        self.note(LessonFault(message, remedy, place))

    def note(self, fault: LessonFault) -> None:
        """Take a fault in, but not twice; raises Enough where there are too many to go on."""
        if str(fault) in self.told:
            return
        self.told.add(str(fault))
        self.faults.append(fault)
        if len(self.faults) >= MOST_FAULTS:
            raise Enough

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
        self.findings.note(fault.at(self.place))
        return True


class Table:
    """A TOML table that is read key by key; what is missing, wrong or left over becomes a fault.

    `text` is its own part of the source and `start` the place before its first line; `home` is where a fault of
    the table as a whole stands.
    """

    def __init__(
        self,
        values: Mapping[str, Any],
        text: str,
        start: Place,
        findings: Findings,
        what: str,
        home: Place | None = None,
    ) -> None:
        self.values = dict(values)
        self.text = text
        self.start = start
        self.findings = findings
        self.what = what
        self.home = home or start
        self.taken: set[str] = set()

    def inner(self, key: str, values: Mapping[str, Any], what: str) -> "Table":
        """Return the table that a key holds, with its own part of the source."""
        return self._part(_span(self.text, key) or (0, len(self.text)), values, what)

    def row(self, key: str, number: int, values: Mapping[str, Any], what: str) -> "Table":
        """Return one table of the list that a key holds, counted from 0."""
        start, end = _span(self.text, key) or (0, len(self.text))
        openings = [
            found.start() for found in _opening(self.text[start:end], key).finditer(self.text, start, end)
        ]
        bounds = [*openings, end]
        span = (bounds[number], bounds[number + 1]) if number < len(openings) else (start, end)
        return self._part(span, values, what)

    def _part(self, span: tuple[int, int], values: Mapping[str, Any], what: str) -> "Table":
        before = Place(self.start.path, self.start.line + self.text[: span[0]].count("\n"))
        home = Place(before.path, before.line + 1)
        return Table(values, self.text[slice(*span)], before, self.findings, what, home)

    def place(self, key: str = "") -> Place:
        """Return the line where a key (or a table of that name) stands, or the home of the table."""
        span = _span(self.text, key) if key else None
        return self.home if span is None else self._part(span, {}, "").home

    def fault(self, key: str, message: str, remedy: str = "") -> None:
        """Note a fault at a key."""
        self.findings.add(self.place(key), message, remedy)

    def take(self, key: str, kind: type[T], default: T | None = None, sample: str = "") -> T:
        """Return the value of a key of the type asked; a missing one without default, or a wrong type, is a fault."""
        sample = sample or _SAMPLES[kind]
        self.taken.add(key)
        value = self.values.get(key)
        if isinstance(value, kind) and not (kind is int and isinstance(value, bool)):
            if isinstance(value, str) and not value.strip():
                self.fault(key, f"'{key}' is empty", f"write {key} = {sample}")
            return value
        if value is None and default is not None:
            return default
        want = _TYPE_NAMES[kind]
        if value is None:
            self.fault("", f"{self.what} has no '{key}'", f"add {key} = {sample}")
        else:
            self.fault(key, f"'{key}' is not {want}", f"write {key} = {sample}")
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
        words = tuple(allowed)
        value = self.take(key, str, default, f'"{words[0]}"')
        if isinstance(self.values.get(key), str) and value.strip() and value not in words:
            self.fault(key, f"'{key}' cannot be '{value}'", did_you_mean(value, words))
        return value if value in words else words[0]

    def whole(self, key: str, least: int, most: int, default: int | None = None) -> int:
        """Return a whole number within limits."""
        value = self.take(key, int, default)
        if type(self.values.get(key)) is int and not least <= value <= most:
            self.fault(key, f"'{key}' is {value}", f"it goes from {least} to {most}")
        return value

    def left_over(self) -> list[str]:
        """Return the keys that nobody has taken."""
        return [key for key in self.values if key not in self.taken]

    def finish(self, known: Iterable[str] = ()) -> None:
        """Every key that was not taken is a fault."""
        for key in self.left_over():
            self.fault(key, f"{self.what} has no key '{key}'", did_you_mean(key, [*self.taken, *known]))


def _span(text: str, key: str) -> tuple[int, int] | None:
    """Return where a key's value stands in TOML: from its header or its name to the next one beside it."""
    heads = list(_HEADER.finditer(text)) if "[" in text else []
    if found := next((head for head in heads if _names(head, key)), None):
        others = (head.start() for head in heads if head.start() >= found.end() and not _names(head, key))
        return found.start(), next(others, len(text))
    name = next((name for name in _NAME.finditer(text) if name[1] == key), None)
    if name is None:
        return None
    after = _NEXT.search(text, name.end())
    return name.start(), after.start() if after else len(text)


def _names(head: re.Match[str], key: str) -> bool:
    """Whether a header, such as [size.slips.upside-down], names a key at any place."""
    return key in (part.strip(' \t"') for part in head[1].split("."))


def _opening(text: str, key: str) -> re.Pattern[str]:
    """Where one table of a list begins: at its [[header]], or at the brace of an inline table."""
    header = re.compile(rf'^[ \t]*\[\[[ \t]*"?{re.escape(key)}"?[ \t]*\]\]', re.MULTILINE)
    return header if header.match(text) else _INLINE


_INLINE = re.compile(r'\{[ \t]*"?[A-Za-z]+"?[ \t]*=')
_HEADER = re.compile(r"^[ \t]*\[+([^\]\n]*)\]", re.MULTILINE)
_NAME = re.compile(r'(?:^|[{,])[ \t]*"?([\w-]+)"?[ \t]*[.=]', re.MULTILINE)
_NEXT = re.compile(r"""^[ \t]*(?:"?[A-Za-z0-9_-]+"?[ \t]*=|\[)""", re.MULTILINE)

_TYPE_NAMES: Mapping[type, str] = {
    str: "a text",
    int: "a whole number",
    bool: "true or false",
    list: "a list",
    dict: "a table",
}
_SAMPLES: Mapping[type, str] = {str: '"…"', int: "1", bool: "true", list: '["…"]', dict: "{ … }"}


def read_toml(text: str, start: Place, findings: Findings, what: str) -> Table | None:
    """Read TOML whose first line stands after `start`; a syntax fault carries its line in the file."""
    lines, faults = checked_lines(text, start.path)
    for fault in faults:
        fault.place = Place(start.path, start.line + (fault.place.line if fault.place else 0))
        findings.note(fault)
    text = "\n".join(lines)
    try:
        values = tomllib.loads(text)
        if len(values) <= MOST_KEYS:
            return Table(values, text, start, findings, what)
        findings.add(start, f"{what} has more than {MOST_KEYS} keys", "take out what is not its own")
    except tomllib.TOMLDecodeError as trouble:
        message, line = _where(str(trouble), text)
        findings.add(
            Place(start.path, start.line + line),
            f"the TOML cannot be read: {message}",
            'write lines such as key = "text", and look for a missing comma, quote or bracket',
        )
    except (RecursionError, ValueError):
        findings.add(
            start, "the TOML is nested too deeply or holds a number that is too large", "keep it plain"
        )
    return None


def _where(message: str, text: str) -> tuple[str, int]:
    found = re.search(r" \(at (?:line (\d+), column \d+|end of document)\)", message)
    if not found:
        return message, 1
    line = int(found[1]) if found[1] else text.count("\n") + 1
    return message[: found.start()], line
