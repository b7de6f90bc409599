"""How plainly a lesson is written: a report for the instructor, never a fault."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from pyphen import Pyphen

from coursepack.lesson import Lesson
from coursepack.place import Place
from coursepack.reading.source import Prose

LONGEST_INSTRUCTION = 20  # words; these three are our own bars
LONGEST_SENTENCE = 25
LONGEST_PARAGRAPH = 150


@dataclass(frozen=True)
class Plainness:
    """The reading grade of a lesson's prose, and the places that could be plainer."""

    grade: float
    notes: tuple[tuple[Place, str], ...]


def plainness(lesson: Lesson) -> Plainness:
    """Measure a lesson's prose.

    The grade is that of Flesch and Kincaid (Kincaid and others, Research Branch Report 8-75, 1975; the
    coefficients are from memory), with syllables counted by hyphenation.
    """
    lines = [line for passage in _prose(lesson) for line in _paragraphs(passage)]
    sentences = [words for _, text, _ in lines for words in _sentences(text)]
    words = [word for sentence in sentences for word in sentence]
    syllables = sum(_syllables(word) for word in words)
    grade = 0.39 * len(words) / len(sentences) + 11.8 * syllables / len(words) - 15.59 if words else 0.0
    return Plainness(grade, tuple(note for line in lines for note in _notes(*line)))


def _prose(lesson: Lesson) -> Iterator[Prose]:
    for section in lesson.sections:
        yield from (passage for passage in section.passages if isinstance(passage, Prose))
    for exercise in lesson.exercises:
        if exercise.place.path == lesson.place.path:
            own = (passage for passage in exercise.passages if isinstance(passage, Prose))
            yield from (passage for passage in own if passage.place.path == lesson.place.path)


def _paragraphs(passage: Prose) -> Iterator[tuple[Place, str, bool]]:
    """Yield each paragraph or list item: its place, its text, and whether it is an instruction; a table is neither."""
    text, start, instruction = "", 0, False
    lines = ["" if line.startswith("|") else line for line in passage.text.split("\n")]
    for number, line in enumerate([*lines, ""]):
        item = re.match(r"\s*(?:(\d+[.)])|[-*+])\s+", line)
        if text and (item or not line.strip()):
            yield Place(passage.place.path, passage.place.line + start), text, instruction
            text = ""
        if not text:
            start, instruction = number, bool(item and item[1])
        text = f"{text} {line[item.end() if item else 0 :].strip()}".strip()


def _sentences(text: str) -> list[list[str]]:
    """Split a text into sentences of words; numbers and signs are no words."""
    plain = re.sub(r"\bpar\.|\be\.g\.|\bNo\.", "", re.sub(r"[*_`{}]", "", text))
    found = [re.findall(r"[A-Za-z][A-Za-z'’-]*", part) for part in re.split(r"[.!?:;]+(?:\s|$)", plain)]
    return [words for words in found if words]


def _syllables(word: str) -> int:
    return len(_hyphens().positions(word)) + 1


@cache
def _hyphens() -> Pyphen:
    return Pyphen(lang="en_US", left=1, right=2)


def _notes(place: Place, text: str, instruction: bool) -> Iterator[tuple[Place, str]]:  # noqa: FBT001
    most = LONGEST_INSTRUCTION if instruction else LONGEST_SENTENCE
    longest = max((len(words) for words in _sentences(text)), default=0)
    if longest > most:
        yield place, f"a sentence of {longest} words; {most} are plenty"
    count = sum(len(words) for words in _sentences(text))
    if count > LONGEST_PARAGRAPH:
        yield place, f"a paragraph of {count} words; {LONGEST_PARAGRAPH} are plenty"
    if re.search(r"\bshall\b", text):
        yield place, "'shall' is read as 'may' by some; write 'must'"
