"""A sound course on a desk of its own, to be spoilt line by line and read again."""

import shutil
from collections.abc import Sequence
from pathlib import Path

from coursepack.drafting.catalogue import FIGURES
from coursepack.lesson import Course, Term
from coursepack.place import LessonFaults
from coursepack.reading.course import read_course, read_term
from coursepack.trade.catalogue import FUNCTIONS

SOUND = Path(__file__).parent / "sound"
Edit = tuple[str, str, str]  # a file, a text that stands in it once, and what takes its place


def sound_copy(desk: Path) -> Path:
    """Lay out the sound course as a folder named lessons."""
    return Path(shutil.copytree(SOUND, desk / "lessons"))


def spoil(folder: Path, *edits: Edit) -> Path:
    for name, old, new in edits:
        text = (folder / name).read_text("utf-8")
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {name}"
        (folder / name).write_text(text.replace(old, new), "utf-8")
    return folder


def read(folder: Path) -> Course:
    return read_course(folder, FUNCTIONS, FIGURES)


def term_of(folder: Path) -> Term:
    return read_term(folder, "spring", read(folder))


def faults(folder: Path) -> list[str]:
    """Read a course and return the lines it is told; none for a sound one."""
    try:
        term_of(folder)
    except LessonFaults as many:
        return [str(fault) for fault in many.faults]
    return []


def after(desk: Path, edits: Sequence[Edit]) -> list[str]:
    return faults(spoil(sound_copy(desk), *edits))
