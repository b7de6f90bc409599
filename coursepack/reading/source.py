"""A source file as pieces with their lines: headings, prose and fenced blocks."""

import re
import unicodedata
from dataclasses import dataclass
from pathlib import Path

from coursepack.place import LessonFault, Place, did_you_mean

MOST_BYTES = 200_000
MOST_LINE = 2_000
MOST_TITLE = 90
MOST_WORD = 60  # letters in a row; more are wider than the text
MOST_BLOCKS = 400
MOST_BRACKETS = 60
MOST_IN_PARAGRAPH = 300
BRACES = re.compile(r"\{([^{}\n]*)\}")
NUMBER = re.compile(r"\{[a-z][a-z0-9_]*\}")
_HALF = re.compile(r"\{[a-z]|[a-z0-9_]\}")
BLOCKS = ("lesson", "exercise", "given", "working", "find", "table", "figure", "caution")


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
    """A fenced block with a name, known or not; `place` is the line of its opening fence.

    The text of one that is not closed holds what comes after it, too.
    """

    name: str
    text: str
    place: Place
    is_closed: bool = True

    def line(self, inner: int) -> Place:
        """Return the place of a line of the block's text, counted from 1."""
        return Place(self.place.path, self.place.line + inner)


Piece = Heading | Prose | Block


def text_of(path: Path, name: str) -> str:
    """Return the text of a source; raises LessonFault for a file that is too large, binary or not UTF-8."""
    place = Place(name)
    try:
        with path.open("rb") as source:
            data = source.read(MOST_BYTES + 1)
    except OSError as trouble:
        raise LessonFault(f"the file cannot be read ({trouble.strerror})", place=place) from trouble
    if len(data) > MOST_BYTES:
        raise LessonFault(f"the file is larger than {MOST_BYTES // 1000} kB", "split it", place)
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise LessonFault("the file is UTF-16", "save it as UTF-8", place)
    if b"\0" in data:
        line = data[: data.index(b"\0")].count(b"\n") + 1
        raise LessonFault(
            "the file is not text: it holds a NUL byte", "save it as plain UTF-8 text", Place(name, line)
        )
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as trouble:
        line = data[: trouble.start].count(b"\n") + 1
        raise LessonFault("the file is not UTF-8 here", "save it as UTF-8", Place(name, line)) from trouble


_FENCE = re.compile(r" {0,3}(`{3,}|~{3,})([^`]*)$")
_HEADING = re.compile(r" {0,3}(#{1,6})\s+(.*)$")
_RAW_HTML = re.compile(r"<[A-Za-z/!?]")
_ADDRESS = re.compile(r"\]\([^)]*\)")
_UNPRINTABLE = ("Cc", "Cf", "Co", "Cs", "Cn", "Zl", "Zp")


def pieces(text: str, name: str) -> tuple[list[Piece], list[LessonFault]]:
    """Split a lesson into its pieces; returns them with the faults found on the way."""
    lines, faults = checked_lines(text, name)
    found, more = _Splitter(name).split(lines)
    return found, faults + more


def checked_lines(text: str, name: str) -> tuple[list[str], list[LessonFault]]:
    """Return the lines of a source, with those emptied that are too long or hold what no page can print."""
    lines, faults = [], []
    for number, line in enumerate(text.split("\n"), 1):
        fault = _line_fault(line)
        lines.append("" if fault else line)
        faults += [fault.at(Place(name, number))] if fault else []
    return lines, faults


def _line_fault(line: str) -> LessonFault | None:
    if len(line) > MOST_LINE:
        return LessonFault(f"the line is longer than {MOST_LINE} characters", "break it")
    for character in line if not line.isprintable() else "":
        if character not in "\t\u00ad" and unicodedata.category(character) in _UNPRINTABLE:
            return LessonFault(f"the character U+{ord(character):04X} cannot be printed", "take it out")
    return None


class _Splitter:
    def __init__(self, name: str) -> None:
        self.name = name
        self.found: list[Piece] = []
        self.faults: list[LessonFault] = []
        self.prose: list[str] = []
        self.prose_line = 0
        self.marks = 0
        self.blocks = 0

    def split(self, lines: list[str]) -> tuple[list[Piece], list[LessonFault]]:
        number = 0
        while number < len(lines):
            line = lines[number]
            if fence := _FENCE.match(line):
                number = self.block(lines, number, fence)
                continue
            if heading := _HEADING.match(line):
                self.flush()
                self.heading(heading, number)
            else:
                self.keep(line, number)
            number += 1
        self.flush()
        return self.found, self.faults

    def heading(self, heading: re.Match[str], number: int) -> None:
        title = _title(heading[2])
        if len(title) > MOST_TITLE:
            self.fault(number, f"the heading has more than {MOST_TITLE} characters", "shorten it")
        if NUMBER.search(title):
            self.fault(number, "a heading prints no numbers", "put {name} into the text of the exercise")
        self.check_words(title, number)
        self.found.append(Heading(len(heading[1]), title, self.place(number)))

    def headings_within(self, lines: list[str], start: int, end: int) -> None:
        """Take the headings that a block without an end has swallowed."""
        for number in range(start + 1, end):
            if (heading := _HEADING.match(lines[number])) and len(heading[1]) > 1:
                self.heading(heading, number)

    def place(self, number: int) -> Place:
        return Place(self.name, number + 1)

    def fault(self, number: int, message: str, remedy: str) -> None:
        self.faults.append(LessonFault(message, remedy, self.place(number)))

    def keep(self, line: str, number: int) -> None:
        self.check_markup(line, number)
        self.append(line, number)

    def append(self, line: str, number: int) -> None:
        if not self.prose:
            self.prose_line = number
        self.prose.append(line)

    def check_markup(self, line: str, number: int) -> None:
        if _RAW_HTML.search(line):
            self.fault(
                number, "raw HTML is not read", "write plain Markdown; a bare < needs a space after it"
            )
        if _HALF.search(BRACES.sub("", line)):
            self.fault(number, "a brace has no partner", "write {name} for a number of the exercise")
        self.check_words(_ADDRESS.sub("", line), number)
        self.check_marks(line, number)

    def check_words(self, line: str, number: int) -> None:
        if long := next((word for word in line.split() if len(word) > MOST_WORD), ""):
            self.fault(number, f"the word '{long[:20]}…' is wider than the text", "put a space into it")

    def check_marks(self, line: str, number: int) -> None:
        """A Markdown reader takes ages over very many brackets in one paragraph."""
        marks = sum(line.count(mark) for mark in "[]()*_`|>")
        before = self.marks
        self.marks = before + marks if line.strip() else 0
        if marks > MOST_BRACKETS:
            self.fault(number, "too many brackets, stars or ticks in one line", "break the line")
        elif self.marks > MOST_IN_PARAGRAPH >= before:
            self.fault(
                number, "too many brackets, stars or ticks in one paragraph", "put an empty line between"
            )

    def flush(self) -> None:
        if any(line.strip() for line in self.prose):
            first = next(n for n, line in enumerate(self.prose) if line.strip())
            text = "\n".join(self.prose[first:]).rstrip()
            self.found.append(Prose(text, self.place(self.prose_line + first)))
        self.prose = []
        self.marks = 0

    def block(self, lines: list[str], number: int, fence: re.Match[str]) -> int:
        """Take a fenced block in; returns the number of the line after it."""
        self.blocks += 1
        if self.blocks > MOST_BLOCKS:
            self.fault(number, f"the lesson has more than {MOST_BLOCKS} blocks", "split the lesson")
            return len(lines)
        end, is_closed = _end_of(lines, number, fence[1])
        name = fence[2].strip()
        if not is_closed:
            self.fault(number, "the block is never closed", f"close it with {fence[1]}")
        if end == len(lines):
            return end
        if not name:
            for inner in range(number, end + 1):
                self.check_marks(lines[inner], inner)
                self.append(lines[inner], inner)
        else:
            if name not in BLOCKS:
                self.fault(number, f"there is no block '{name}'", did_you_mean(name, BLOCKS))
            self.flush()
            text = "\n".join(lines[number + 1 : end])
            self.found.append(Block(name, text, self.place(number), is_closed))
            if not is_closed:
                self.headings_within(lines, number, end)
        return end + is_closed


def _end_of(lines: list[str], start: int, fence: str) -> tuple[int, bool]:
    """Return the line that closes a block, or the one where the next block opens before that."""
    close = re.compile(rf" {{0,3}}{fence[0]}{{{len(fence)},}}\s*")
    for number in range(start + 1, len(lines)):
        if close.fullmatch(lines[number]):
            return number, True
        opens = _FENCE.match(lines[number])
        if opens and opens[1].startswith(fence) and opens[2].strip() in BLOCKS:
            return number, False
    return len(lines), False


def _title(text: str) -> str:
    """Take off the number signs that may close a heading."""
    bare = text.rstrip().rstrip("#")
    return bare.rstrip() if not bare or bare[-1].isspace() else text.rstrip()


def braces(passage: Prose) -> list[tuple[Place, str]]:
    """Return each {name} of a passage with its place."""
    found = []
    for offset, line in enumerate(passage.text.split("\n")):
        found += [
            (Place(passage.place.path, passage.place.line + offset), name) for name in BRACES.findall(line)
        ]
    return found
