"""A source file as pieces with their lines: headings, prose and fenced blocks."""

import re
from dataclasses import dataclass
from pathlib import Path

from coursepack.place import LessonFault, Place, did_you_mean

MOST_BYTES = 400_000
MOST_LINE = 2_000
MOST_BLOCKS = 400
MOST_BRACKETS = 60
BLOCKS = ("lesson", "exercise", "given", "working", "find", "figure", "caution")


@dataclass(frozen=True)
class Heading:
    """A heading, its level and the line it stands on."""

    level: int
    text: str
    place: Place


@dataclass(frozen=True)
class Prose:
    """Plain Markdown between headings and blocks; `place` is its first line."""

    text: str
    place: Place


@dataclass(frozen=True)
class Block:
    """A fenced block that coursepack reads; `place` is the line of its opening fence."""

    name: str
    text: str
    place: Place

    def line(self, inner: int) -> Place:
        """Return the place of a line of the block's text, counted from 1."""
        return Place(self.place.path, self.place.line + inner)


Piece = Heading | Prose | Block


def text_of(path: Path, name: str) -> str:
    """Return the text of a source; raises LessonFault for a file that is too large, binary or not UTF-8."""
    place = Place(name)
    try:
        if path.stat().st_size > MOST_BYTES:
            raise LessonFault(f"the file is larger than {MOST_BYTES // 1000} kB", "split the lesson", place)
        data = path.read_bytes()
    except OSError as trouble:
        raise LessonFault(f"the file cannot be read ({trouble.strerror})", place=place) from trouble
    if b"\0" in data:
        raise LessonFault("the file is not text: it holds a NUL byte", "save it as plain UTF-8 text", place)
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as trouble:
        line = data[: trouble.start].count(b"\n") + 1
        raise LessonFault("the file is not UTF-8 here", "save it as UTF-8", Place(name, line)) from trouble


_FENCE = re.compile(r" {0,3}(`{3,}|~{3,})\s*([^`]*)$")
_HEADING = re.compile(r" {0,3}(#{1,6})\s+(.*?)\s*#*\s*$")


def pieces(text: str, name: str) -> tuple[list[Piece], list[LessonFault]]:
    """Split a lesson into its pieces; returns them with the faults found on the way."""
    return _Splitter(name).split(text.split("\n"))


class _Splitter:
    def __init__(self, name: str) -> None:
        self.name = name
        self.found: list[Piece] = []
        self.faults: list[LessonFault] = []
        self.prose: list[str] = []
        self.prose_line = 0

    def split(self, lines: list[str]) -> tuple[list[Piece], list[LessonFault]]:
        number = 0
        while number < len(lines):
            line = lines[number]
            if fence := _FENCE.match(line):
                number = self.block(lines, number, fence)
                continue
            if heading := _HEADING.match(line):
                self.flush()
                self.found.append(Heading(len(heading[1]), heading[2], self.place(number)))
            else:
                self.keep(line, number)
            number += 1
        self.flush()
        self.count_blocks()
        return self.found, self.faults

    def place(self, number: int) -> Place:
        return Place(self.name, number + 1)

    def fault(self, number: int, message: str, remedy: str) -> None:
        self.faults.append(LessonFault(message, remedy, self.place(number)))

    def keep(self, line: str, number: int) -> None:
        if len(line) > MOST_LINE:
            self.fault(number, f"the line is longer than {MOST_LINE} characters", "break it")
            return
        self.check_markup(line, number)
        if not self.prose:
            self.prose_line = number
        self.prose.append(line)

    def check_markup(self, line: str, number: int) -> None:
        if re.search(r"<\s*[A-Za-z/!?]", line):
            self.fault(
                number, "raw HTML is not read", "write plain Markdown; a bare < needs a space after it"
            )
        if sum(line.count(mark) for mark in "[]()*_`") > MOST_BRACKETS:
            self.fault(number, "too many brackets, stars or ticks in one line", "break the line")

    def flush(self) -> None:
        if any(line.strip() for line in self.prose):
            first = next(n for n, line in enumerate(self.prose) if line.strip())
            text = "\n".join(self.prose[first:]).rstrip()
            self.found.append(Prose(text, self.place(self.prose_line + first)))
        self.prose = []

    def block(self, lines: list[str], number: int, fence: re.Match[str]) -> int:
        """Take a fenced block in; returns the number of the line after it."""
        end = number + 1
        while end < len(lines) and not re.fullmatch(
            rf" {{0,3}}{fence[1][0]}{{{len(fence[1])},}}\s*", lines[end]
        ):
            end += 1
        name = fence[2].strip()
        if end == len(lines):
            self.fault(number, "the block is never closed", f"close it with {fence[1]}")
        elif not name:
            for inner in range(number, end + 1):
                self.prose = self.prose or []
                self.prose_line = self.prose_line if self.prose else inner
                self.prose.append(lines[inner])
        elif name not in BLOCKS:
            self.fault(number, f"there is no block '{name}'", did_you_mean(name, BLOCKS))
        else:
            self.flush()
            self.found.append(Block(name, "\n".join(lines[number + 1 : end]), self.place(number)))
        return end + 1

    def count_blocks(self) -> None:
        if sum(isinstance(piece, Block) for piece in self.found) > MOST_BLOCKS:
            self.fault(0, f"the lesson has more than {MOST_BLOCKS} blocks", "split the lesson")
