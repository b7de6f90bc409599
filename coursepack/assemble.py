"""A term, from its sources to its sheets: solve everything, print what changed, put it away whole."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from importlib.resources import files
from pathlib import Path
from typing import Any

from coursepack.filing import RECORD, digest, is_whole, put_away, standing
from coursepack.lesson import Course, Exercise, Lesson, Term
from coursepack.numbers import EXAMPLE, draw_sets
from coursepack.pages import compose
from coursepack.pages.compose import Sheet
from coursepack.place import LessonFault, LessonFaults
from coursepack.press.job import PressJob
from coursepack.press.room import Press
from coursepack.proof import troubles
from coursepack.record import LessonRecord, edition, entry, lesson_record, written
from coursepack.solve import Solved, accepts, solve

CHUNK = 6  # benches in one job; fixed, so that the number of workers changes no byte
PRINT = "coursepack.printing:print_sheets"
READY = ("coursepack.printing:make_ready",)

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
    odd: bool = True
    pressed: dict[int, bytes] = field(default_factory=dict)


def assemble(
    course: Course, term: Term, folder: Path, build: Path, order: Order, press: Press, tell: Tell
) -> list[Path]:
    """Print a term into build/<term>; returns the files that were printed anew.

    Only what has changed is printed. Raises LessonFaults with every fault; then nothing in build/ is touched.
    """
    records = solve_term(course, term, order)
    home = build / term.name
    before = standing(home)
    due = [record for record in records if not _stands(record, before, home, order)]
    printed = _print(course, term, due, folder, order, press, tell)
    files_out = {name: data for sheets in printed.values() for name, data in sheets.items()}
    if due or not before:
        entries = _entries(records, printed, before)
        stale = _sheets_of(before) - {name for item in entries for name in item["sheets"]}
        put_away(home, {**files_out, RECORD: written(term, entries).encode()}, stale)
    return [home / name for name in files_out]


def solve_term(course: Course, term: Term, order: Order) -> list[LessonRecord]:
    """Draw and solve every exercise of the lessons asked for; raises LessonFaults with every fault."""
    wanted = [lesson for lesson in course.lessons if not order.lessons or lesson.number in order.lessons]
    faults: list[LessonFault] = []
    records = []
    for lesson in wanted:
        solved = [_solve_sets(exercise, term, faults) for exercise in lesson.exercises]
        if not faults:
            records.append(_record(course, term, lesson, solved))
    if faults:
        raise LessonFaults(faults)
    return records


def _solve_sets(exercise: Exercise, term: Term, faults: list[LessonFault]) -> list[Solved]:
    """Solve the example of a worked exercise, or sets 1 to the last of any other."""
    count = EXAMPLE if exercise.stage == "worked" else term.sets
    try:
        drawn = draw_sets(
            term.draw, exercise, term.measure, count, lambda numbers: accepts(exercise, term.measure, numbers)
        )
        wanted = drawn if exercise.stage == "worked" else drawn[1:]
        first = EXAMPLE if exercise.stage == "worked" else 1
        solved = [
            solve(exercise, numbers, term.measure, of_set) for of_set, numbers in enumerate(wanted, first)
        ]
        faults += [fault for one in solved for _, fault in troubles(one, answered=True)]
    except LessonFault as fault:
        faults.append(fault.at(exercise.place))
        return []
    return solved


def _record(course: Course, term: Term, lesson: Lesson, solved: Sequence[Sequence[Solved]]) -> LessonRecord:
    examples = [rows[0] for rows in solved if rows[0].of_set == EXAMPLE]
    asked = [rows for rows in solved if rows[0].of_set != EXAMPLE]
    sets = [[rows[number] for rows in asked] for number in range(term.sets)]
    machines = [course.machines[name] for name in lesson.machines]
    inherited = [exercise.passages for exercise in lesson.exercises if exercise.review]
    return lesson_record(
        term, lesson, examples, sets, repr((course.title, course.class_name, machines, inherited))
    )


def _stands(record: LessonRecord, before: Mapping[str, Any], home: Path, order: Order) -> bool:
    """True where a lesson's sheets stand in the folder just as they would be printed now."""
    found = _entry_of(before, record.lesson.id)
    names = {*_names(record.lesson), *(_bench_name(record.lesson, bench) for bench in order.benches)}
    same = before.get("edition") == edition() and found.get("mark") == record.mark
    return same and names <= set(found["sheets"]) and is_whole(home, found["sheets"])


def _entry_of(before: Mapping[str, Any], lesson: str) -> dict[str, Any]:
    found = [
        item for item in before.get("lessons", ()) if isinstance(item, dict) and item.get("lesson") == lesson
    ]
    return found[0] if found else {"sheets": {}}


def _sheets_of(before: Mapping[str, Any]) -> set[str]:
    return {name for item in before.get("lessons", ()) for name in item.get("sheets", ())}


def _entries(
    records: Sequence[LessonRecord], printed: Mapping[str, Mapping[str, bytes]], before: Mapping[str, Any]
) -> list[dict[str, Any]]:
    """Return the record's lessons: those printed now, those that stand, and those not asked for."""
    entries = {item["lesson"]: item for item in before.get("lessons", ())}
    for record in records:
        if record.lesson.id in printed:
            sheets = {name: digest(data) for name, data in printed[record.lesson.id].items()}
            entries[record.lesson.id] = entry(record, sheets)
    return sorted(entries.values(), key=lambda item: (item["number"], item["lesson"]))


def _stem(lesson: Lesson) -> str:
    return f"{lesson.number:02d}-{lesson.id}"


def _names(lesson: Lesson) -> tuple[str, str, str]:
    stem = _stem(lesson)
    return f"{stem}-reading.pdf", f"{stem}-exercises.pdf", f"INSTRUCTOR-{stem}-key.pdf"


def _bench_name(lesson: Lesson, bench: int) -> str:
    return f"{_stem(lesson)}-exercises-bench-{bench:02d}.pdf"


def _files(course: Course, term: Term, record: LessonRecord, order: Order) -> list[_File]:
    lesson, mark = record.lesson, record.mark
    reading, exercises, key = _names(lesson)
    benches = [
        compose.exercises(course, term, lesson, bench, record.sets[term.set_of(bench) - 1], mark)
        for bench in range(1, term.benches + 1)
    ]
    chunks = [benches[start : start + CHUNK] for start in range(0, len(benches), CHUNK)]
    return [
        _File(exercises, lesson, f"{lesson.title}: exercises", list(chunks)),
        _File(
            key,
            lesson,
            f"INSTRUCTOR: answer key, {lesson.title}",
            [[compose.key(course, term, lesson, record.sets, mark)]],
        ),
        _File(
            reading,
            lesson,
            f"{lesson.title}: reading",
            [[compose.reading(course, term, lesson, record.examples, mark)]],
        ),
        *(
            _File(
                _bench_name(lesson, bench), lesson, f"{lesson.title}: bench {bench}", [[benches[bench - 1]]]
            )
            for bench in order.benches
        ),
    ]


def _print(
    course: Course,
    term: Term,
    due: Sequence[LessonRecord],
    folder: Path,
    order: Order,
    press: Press,
    tell: Tell,
) -> dict[str, dict[str, bytes]]:
    """Print the sheets of the lessons that are due; returns them by lesson and file name."""
    waiting: dict[str, tuple[_File, int]] = {}
    for record in due:
        for file in _files(course, term, record, order):
            for number, sheets in enumerate(file.chunks):
                name = f"{file.name} part {number + 1}" if len(file.chunks) > 1 else file.name
                waiting[name] = (file, number)
                job = _job(name, file, sheets, term, folder)
                press.submit(
                    name, PRINT, job, tuple(sheet.drawings for sheet in sheets), place=file.lesson.place
                )
    done: dict[str, dict[str, bytes]] = {}
    for file in _finished(press, waiting):
        done.setdefault(file.lesson.id, {})[file.name] = _bound(file)
        tell(file.name)
    return done


def _finished(press: Press, waiting: Mapping[str, tuple[_File, int]]) -> Iterator[_File]:
    """Yield each file as its last job is done; raises LessonFaults, with every fault, when all have ended."""
    faults: list[LessonFault] = []
    for result in press.results():
        file, number = waiting[result.name]
        faults += result.faults
        file.pressed[number] = result.data
        if not faults and len(file.pressed) == len(file.chunks):
            yield file
    if faults:
        raise LessonFaults(faults)


def _bound(file: _File) -> bytes:
    if len(file.chunks) == 1:
        return file.pressed[0]
    from coursepack.press.binding import bind  # noqa: PLC0415 - a fifth of a second, and only packs of many benches need it

    return bind([file.pressed[number] for number in range(len(file.chunks))], odd=file.odd)


def _job(name: str, file: _File, sheets: Sequence[Sheet], term: Term, folder: Path) -> PressJob:
    pictures = {
        "squares": (files("coursepack.pages") / "style" / "squares.svg").read_bytes(),
        **_pictures(file.lesson, folder),
    }
    return PressJob(
        name=name,
        title=file.title,
        parts=tuple(sheet.html for sheet in sheets),
        css=compose.style(term.paper),
        pictures=pictures,
        odd=file.odd,
    )


def _pictures(lesson: Lesson, folder: Path) -> dict[str, bytes]:
    from coursepack.reading.checks import LINK  # noqa: PLC0415

    return {target: (folder / target).read_bytes() for mark, target in LINK.findall(lesson.source) if mark}
