"""The small course of this folder, read and solved, and what its sheets are made of."""

import shutil
import struct
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from coursepack import assemble
from coursepack.assemble import Order
from coursepack.drafting.catalogue import FIGURES
from coursepack.inking import inked
from coursepack.lesson import Course, Lesson, Term
from coursepack.pages.compose import Sheet
from coursepack.press.job import PressJob
from coursepack.press.layout import print_pdf
from coursepack.reading.course import read_course, read_term
from coursepack.record import LessonRecord
from coursepack.trade.catalogue import FUNCTIONS
from coursepack.workbook import solve_term

SOURCES = Path(__file__).parent / "course"
REAL = Path(__file__).parents[2] / "lessons"


@dataclass(frozen=True)
class Prepared:
    """A term of a course, solved, with the folder it was read from."""

    course: Course
    term: Term
    folder: Path
    records: Sequence[LessonRecord]

    def record(self, lesson: str) -> LessonRecord:
        return next(record for record in self.records if record.lesson.id == lesson)

    def job(self, record: LessonRecord, kind: str) -> tuple[PressJob, Sequence[Sheet]]:
        """Return the job that prints a lesson's sheets of a kind ('reading', 'exercises' or 'key')."""
        files = assemble._files(self.course, self.term, record, self.folder, Order())
        file = next(file for file in files if file.name.endswith(f"-{kind}.pdf"))
        sheets = [sheet for chunk in file.chunks for sheet in chunk]
        return assemble._job(file.name, file, sheets), sheets

    def file_names(self, record: LessonRecord, order: Order) -> list[str]:
        """Return the names of a lesson's files."""
        files = assemble._files(self.course, self.term, record, self.folder, order)
        return [file.name for file in files]

    def pressed(self, record: LessonRecord, kind: str) -> bytes:
        job, sheets = self.job(record, kind)
        return print_pdf(inked(job, [sheet.drawings for sheet in sheets]))


def write_small_course(folder: Path) -> Path:
    """Copy the small course to a new folder and put the picture that it shows beside it."""
    shutil.copytree(SOURCES, folder)
    (folder / "brace.png").write_bytes(grey_png(240, 120))
    return folder


def prepared(folder: Path, term: str) -> Prepared:
    course = read_course(folder, FUNCTIONS, FIGURES)
    of_term = read_term(folder, term, course)
    return Prepared(course, of_term, folder, solve_term(of_term, course.lessons))


def lesson_of(course: Course, name: str) -> Lesson:
    return next(lesson for lesson in course.lessons if lesson.id == name)


def grey_png(width: int, height: int) -> bytes:
    """Return a PNG of one grey. Source: ISO/IEC 15948 (PNG), clause 11."""
    rows = (b"\0" + b"\xa0" * width) * height
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    parts = [(b"IHDR", head), (b"IDAT", zlib.compress(rows)), (b"IEND", b"")]
    return b"\x89PNG\r\n\x1a\n" + b"".join(_part(name, data) for name, data in parts)


def _part(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
