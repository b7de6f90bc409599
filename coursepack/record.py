"""The record of a term: every number and answer, and the mark that ties a sheet to its key for years."""

import hashlib
import json
from base64 import b32encode
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.metadata import version
from importlib.resources import files
from typing import Any

from coursepack.formula import Value
from coursepack.lesson import Lesson, Term
from coursepack.quantity import plain
from coursepack.solve import Solved, SolvedTable

_LIBRARIES = (
    "weasyprint",
    "matplotlib",
    "jinja2",
    "markdown",
    "pint",
    "fonttools",
    "font-source-serif-pro",
    "font-source-sans-pro",
)


@dataclass(frozen=True)
class LessonRecord:
    """A lesson's numbers and answers for every set, and the pack mark made from them."""

    lesson: Lesson
    examples: tuple[Solved, ...]
    sets: tuple[tuple[Solved, ...], ...]
    mark: str


def lesson_record(
    term: Term, lesson: Lesson, examples: Sequence[Solved], sets: Sequence[Sequence[Solved]]
) -> LessonRecord:
    """Make a lesson's record; its mark is a hash of the term, the numbers, the steps and the answers."""
    words = {"term": _term(term), "lesson": lesson.id, **_told(examples, sets)}
    digest = hashlib.sha256(json.dumps(words, sort_keys=True).encode()).digest()
    return LessonRecord(
        lesson, tuple(examples), tuple(tuple(row) for row in sets), b32encode(digest).decode()[:8]
    )


def written(term: Term, records: Sequence[Mapping[str, Any]]) -> str:
    """Return the record file's text."""
    return (
        json.dumps(
            {"term": _term(term), "edition": edition(), "lessons": list(records)},
            indent=1,
            sort_keys=True,
            ensure_ascii=False,
        )
        + "\n"
    )


def entry(record: LessonRecord, sheets: Mapping[str, str]) -> dict[str, Any]:
    """Return a lesson's part of the record file; `sheets` maps a file's name to its SHA-256."""
    lesson = record.lesson
    return {
        "lesson": lesson.id,
        "number": lesson.number,
        "title": lesson.title,
        "mark": record.mark,
        "sheets": dict(sheets),
        **_told(record.examples, record.sets),
    }


def _term(term: Term) -> dict[str, Any]:
    return {
        "name": term.name, "title": term.title, "draw": term.draw, "measure": term.measure,
        "paper": term.paper, "benches": term.benches, "sets": term.sets,
    }  # fmt: skip


def _told(examples: Sequence[Solved], sets: Sequence[Sequence[Solved]]) -> dict[str, Any]:
    return {
        "examples": [_one(solved) for solved in examples],
        "exercises": [_one(solved) for row in sets for solved in row],
    }


def _one(solved: Solved) -> dict[str, Any]:
    return {
        "exercise": solved.exercise.id,
        "set": solved.of_set,
        "numbers": {name: _text(value) for name, value in solved.numbers.items()},
        "steps": {step.step.name: plain(step.value) for step in solved.steps},
        "answers": {answer.find.name: plain(answer.value) for answer in solved.answers},
        **({"verdict": solved.verdict} if solved.verdict else {}),
        **({"tables": [_table(table) for table in solved.tables]} if solved.tables else {}),
    }


def _table(table: SolvedTable) -> list[dict[str, str]]:
    return [
        {
            table.table.given: _text(value),
            **{name: plain(cell) for name, cell in zip(table.table.columns, cells, strict=True)},
        }
        for value, cells in table.rows
    ]


def _text(value: Value) -> str:
    return value if isinstance(value, str) else str(value)


@cache
def edition() -> str:
    """Return a hash of the program and the libraries that shape a page: another edition prints everything anew."""
    digest = hashlib.sha256()
    for name in _LIBRARIES:
        digest.update(f"{name} {version(name)}\n".encode())
    _add_folder(digest, files("coursepack"))
    return digest.hexdigest()[:16]


def _add_folder(digest: Any, folder: Any) -> None:
    for item in sorted(folder.iterdir(), key=lambda item: str(item.name)):
        if item.is_dir() and item.name != "__pycache__":
            _add_folder(digest, item)
        elif item.is_file() and not item.name.endswith(".pyc"):
            digest.update(item.name.encode() + item.read_bytes())
