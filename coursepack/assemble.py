"""A term, from its sources to its sheets: solve everything, print what changed, put it away whole."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from importlib.resources import files
from pathlib import Path
from typing import Any

from coursepack.filing import RECORD, digest, is_whole, put_away, standing, try_out
from coursepack.lesson import Course, Lesson, Term
from coursepack.pages import compose
from coursepack.pages.compose import Sheet
from coursepack.pages.full_size import has_templates
from coursepack.pages.signs import signs_lacking
from coursepack.place import LessonFault, LessonFaults
from coursepack.press.job import PressJob
from coursepack.press.room import Press
from coursepack.reading.links import read_pictures
from coursepack.record import LessonRecord, edition, entry, written
from coursepack.workbook import solve_in_turn

CHUNK = 6  # benches in one job; fixed, so that the number of workers changes no byte
PRINT = "coursepack.press.layout:print_noted"

Tell = Callable[[str], None]


@dataclass(frozen=True)
class Order:
    """What is asked for: lessons by number (none: all), single benches, and how many workers."""

    lessons: tuple[int, ...] = ()
    benches: tuple[int, ...] = ()
    workers: int | None = None


@dataclass
class _File:
    """One PDF on its way: the jobs it is made of, in order, and what they gave."""

    name: str
    lesson: Lesson
    title: str
    chunks: list[Sequence[Sheet]]
    css: str
    pictures: Mapping[str, bytes]
    odd: bool = True
    full_size: bool = False
    pressed: dict[int, bytes] = field(default_factory=dict)

    @property
    def made_from(self) -> str:
        """Return a hash of all that its bytes depend on, but for the edition."""
        sheets = [(sheet.html, sheet.drawings) for chunk in self.chunks for sheet in chunk]
        return digest(repr((self.title, sheets, self.css, sorted(self.pictures.items()), self.odd)).encode())


@dataclass(frozen=True)
class _Pack:
    """A lesson's record and the files that go with it."""

    record: LessonRecord
    files: list[_File]


def assemble(
    course: Course, term: Term, folder: Path, build: Path, order: Order, press: Press, tell: Tell
) -> list[Path]:
    """Print a term into build/<term>; returns the files that were printed anew.

    Only what has changed is printed. Raises LessonFaults with every fault; then nothing in build/ is touched.
    """
    home = build / term.name
    before = standing(home)
    origins = {lesson.id: _origin(course, term, lesson, folder) for lesson in course.lessons}
    due = [
        lesson
        for lesson in course.lessons
        if (not order.lessons or lesson.number in order.lessons)
        and not _stands(lesson, origins[lesson.id], before, home, order)
    ]
    try_out(home)
    if not due and before:
        return []
    if faults := [fault for lesson in due for fault in signs_lacking(lesson)]:
        raise LessonFaults(faults)
    packs = []
    waiting: dict[str, tuple[_File, int]] = {}
    for record in solve_in_turn(term, due):
        packs.append(_Pack(record, []))
        for file in _files(course, term, record, folder, order):  # one is printed while the next is composed
            packs[-1].files.append(file)
            if not _is_kept(file, before, home):
                waiting |= _hand_over(file, press)
    printed = {file.name: _bound(file) for file in _finished(press, tell, waiting)}
    entries = _entries(packs, origins, printed, before)
    stale = _sheets_of(before) - {name for item in entries for name in item["sheets"]}
    put_away(home, {**printed, RECORD: written(term, entries).encode()}, stale)
    return [home / name for name in printed]


def _surroundings(course: Course, lesson: Lesson) -> str:
    """Return what a lesson's sheets print of the course."""
    return repr((course.title, course.class_name, [course.machines[name] for name in lesson.machines]))


def _origin(course: Course, term: Term, lesson: Lesson, folder: Path) -> str:
    """Return a hash of all that a lesson's sheets are made from, lessons that it brings back among it."""
    brought_back = [exercise for exercise in lesson.exercises if exercise.review]
    pictures = sorted(read_pictures(lesson, folder).items())
    return digest(repr((term, lesson.source, brought_back, pictures, _surroundings(course, lesson))).encode())


def _stands(lesson: Lesson, origin: str, before: Mapping[str, Any], home: Path, order: Order) -> bool:
    """True where a lesson's sheets stand in the folder just as they would be printed now."""
    found = _entry_of(before, lesson.id)
    names = {*_names(lesson), *(_bench_name(lesson, bench) for bench in order.benches)}
    same = before.get("edition") == edition() and found.get("origin") == origin
    return same and names <= set(found["sheets"]) and is_whole(home, found["sheets"])


def _is_kept(file: _File, before: Mapping[str, Any], home: Path) -> bool:
    """True where a file of a lesson that has changed would be printed just as it stands."""
    found = _entry_of(before, file.lesson.id)
    known = found["sheets"].get(file.name)
    same = before.get("edition") == edition() and found.get("made_from", {}).get(file.name) == file.made_from
    return same and known is not None and is_whole(home, {file.name: known})


def _entry_of(before: Mapping[str, Any], lesson: str) -> dict[str, Any]:
    found = [
        item for item in before.get("lessons", ()) if isinstance(item, dict) and item.get("lesson") == lesson
    ]
    return found[0] if found else {"sheets": {}}


def _sheets_of(before: Mapping[str, Any]) -> set[str]:
    return {name for item in before.get("lessons", ()) for name in item.get("sheets", ())}


def _entries(
    packs: Sequence[_Pack],
    origins: Mapping[str, str],
    printed: Mapping[str, bytes],
    before: Mapping[str, Any],
) -> list[dict[str, Any]]:
    """Return the record's lessons: those that have changed, those that stand, and those not asked for."""
    entries = {item["lesson"]: item for item in before.get("lessons", ())}
    for pack in packs:
        lesson = pack.record.lesson.id
        known = _entry_of(before, lesson)["sheets"]
        sheets = {
            file.name: digest(printed[file.name]) if file.name in printed else known[file.name]
            for file in pack.files
        }
        made_from = {file.name: file.made_from for file in pack.files}
        entries[lesson] = {**entry(pack.record, sheets), "origin": origins[lesson], "made_from": made_from}
    return sorted(entries.values(), key=lambda item: (item["number"], item["lesson"]))


def _stem(lesson: Lesson) -> str:
    return f"{lesson.number:02d}-{lesson.id}"


def _names(lesson: Lesson) -> tuple[str, ...]:
    stem = _stem(lesson)
    templates = [_templates_name(lesson)] if has_templates(lesson.exercises) else []
    return f"{stem}-reading.pdf", f"{stem}-exercises.pdf", f"INSTRUCTOR-{stem}-key.pdf", *templates


def _templates_name(lesson: Lesson) -> str:
    return f"{_stem(lesson)}-templates.pdf"


def _bench_name(lesson: Lesson, bench: int) -> str:
    return f"{_stem(lesson)}-exercises-bench-{bench:02d}.pdf"


def _files(course: Course, term: Term, record: LessonRecord, folder: Path, order: Order) -> Iterator[_File]:
    """Yield the files of a lesson, each as it is composed; the reading first, which is soonest there."""
    lesson, mark = record.lesson, record.mark
    reading, exercises, key, *templates = _names(lesson)
    css, pictures = compose.style(term.paper), _pictures(lesson, folder)

    def file(name: str, title: str, *chunks: Sequence[Sheet]) -> _File:
        return _File(name, lesson, title, list(chunks), css, pictures)

    yield file(
        reading, f"{lesson.title}: reading", [compose.reading(course, term, lesson, record.examples, mark)]
    )
    benches = [
        compose.exercises(course, term, lesson, bench, record.sets[term.set_of(bench) - 1], mark)
        for bench in range(1, term.benches + 1)
    ]
    chunks = [benches[start : start + CHUNK] for start in range(0, len(benches), CHUNK)]
    yield file(exercises, f"{lesson.title}: exercises", *chunks)
    yield file(
        key, f"INSTRUCTOR: answer key, {lesson.title}", [compose.key(course, term, lesson, record.sets, mark)]
    )
    for bench in order.benches:
        yield file(_bench_name(lesson, bench), f"{lesson.title}: bench {bench}", [benches[bench - 1]])
    for name in templates:
        yield _templates(term, record, name, css)


def _templates(term: Term, record: LessonRecord, name: str, css: str) -> _File:
    """Return the file of full-size sheets: those of the worked examples, then those of the sets, like ones once."""
    lesson = record.lesson
    alike: dict[Sheet, list[int]] = {}
    for number, solved in enumerate(record.sets, 1):
        if has_templates([one.exercise for one in solved]):
            alike.setdefault(compose.templates(lesson, "", solved, term, record.mark), []).append(number)
    groups = [(_benches(term, numbers), record.sets[numbers[0] - 1]) for numbers in alike.values()]
    if has_templates([one.exercise for one in record.examples]):
        groups.insert(0, ("worked example", record.examples))
    sheets = [compose.templates(lesson, who, solved, term, record.mark) for who, solved in groups]
    title = f"{lesson.title}: templates, full size"
    return _File(name, lesson, title, [sheets], css, {}, odd=False, full_size=True)


def _benches(term: Term, sets: Sequence[int]) -> str:
    """Return the benches that work with some sets, in words."""
    found = [str(bench) for bench in range(1, term.benches + 1) if term.set_of(bench) in sets]
    if len(found) == term.benches:
        return "all benches"
    return f"bench{'es' if len(found) > 1 else ''} {', '.join(found)}"


def _hand_over(file: _File, press: Press) -> dict[str, tuple[_File, int]]:
    """Give the jobs of a file to the press; returns which job is which part of the file."""
    from coursepack.inking import inked  # noqa: PLC0415 - half a second, and only what is printed needs it

    waiting = {}
    for number, sheets in enumerate(file.chunks):
        name = f"{file.name} part {number + 1}" if len(file.chunks) > 1 else file.name
        waiting[name] = (file, number)
        job = inked(_job(name, file, sheets, number), [sheet.drawings for sheet in sheets])
        press.submit(name, PRINT, job, place=file.lesson.place)
    return waiting


def _finished(press: Press, tell: Tell, waiting: Mapping[str, tuple[_File, int]]) -> Iterator[_File]:
    """Yield each file as its last job is done; raises LessonFaults, with every fault, when all have ended."""
    faults: list[LessonFault] = []
    for result in press.results():
        file, number = waiting[result.name]
        faults += result.faults
        for note in result.notes:
            tell(f"note: {note}")
        file.pressed[number] = result.data
        if not faults and len(file.pressed) == len(file.chunks):
            yield file
            tell(file.name)
    if faults:
        raise LessonFaults(faults)


def _bound(file: _File) -> bytes:
    if len(file.chunks) == 1:
        return file.pressed[0]
    from coursepack.press.binding import bind  # noqa: PLC0415 - a fifth of a second, and only packs of many benches need it

    return bind([file.pressed[number] for number in range(len(file.chunks))], odd=file.odd)


def _job(name: str, file: _File, sheets: Sequence[Sheet], chunk: int = 0) -> PressJob:
    return PressJob(
        name=name,
        title=file.title,
        parts=tuple(sheet.html for sheet in sheets),
        css=file.css,
        pictures=file.pictures,
        odd=file.odd,
        full_size=file.full_size,
        chunk=chunk,
    )


def _pictures(lesson: Lesson, folder: Path) -> dict[str, bytes]:
    """Return what the sheets of a lesson may show, by address."""
    squares = (files("coursepack.pages") / "style" / "squares.svg").read_bytes()
    return {"squares": squares, **read_pictures(lesson, folder)}
