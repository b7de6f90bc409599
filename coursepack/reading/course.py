"""The course and its terms: course.toml, terms/NAME.toml, and all lessons beside them."""

import re
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

from coursepack.formula import Functions
from coursepack.lesson import BARS, MEASURES, UNSTRETCHED, Course, FigureForm, Machine, Term
from coursepack.place import LessonFault, LessonFaults, Place, did_you_mean
from coursepack.quantity import Measure, Quantity
from coursepack.reading.blocks import read_caution
from coursepack.reading.reader import LessonReader, lesson_paths
from coursepack.reading.source import text_of
from coursepack.reading.tables import Enough, Findings, Table, read_toml
from coursepack.shoptext import parse
from coursepack.units import kind_of

PAPERS = ("letter", "A4")
MOST_BENCHES = 60
MOST_STRETCH = Fraction(103, 100)  # a printer that is more than 3 % off was told to fit the page
_TERM_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,60}")
ONE_EACH = "one each"
ALL_ALIKE = "all alike"


def read_course(folder: Path, functions: Functions, figures: Mapping[str, FigureForm]) -> Course:
    """Read course.toml and all lessons of a folder; raises LessonFaults with every fault of them all."""
    findings = Findings()
    course = None
    with suppress(Enough):
        course = _course(folder, findings)
        with findings.at(Place(folder.name)):
            paths = lesson_paths(folder)
            machines = course.machines if course else None
            lessons = LessonReader(functions, figures, findings).read(paths, folder, machines)
            course = replace(course, lessons=lessons) if course else None
    if findings.faults or course is None:
        raise LessonFaults(findings.faults)
    return course


def _course(folder: Path, findings: Findings) -> Course | None:
    table = _table(folder / "course.toml", f"{folder.name}/course.toml", "the course", findings)
    if table is None:
        return None
    title, class_name = table.take("title", str), table.take("class", str)
    units, paper = _measure(table, "units", "inch"), table.one_of("paper", PAPERS, "letter")
    machines = _machines(table, findings)
    table.finish()
    return Course(title, class_name, units, paper, machines, ())


def _measure(table: Table, key: str, default: Measure) -> Measure:
    word = table.one_of(key, MEASURES, default)
    return "metric" if word == "metric" else "inch"


def _table(path: Path, name: str, what: str, findings: Findings) -> Table | None:
    with findings.at(Place(name)):
        return read_toml(text_of(path, name), Place(name), findings, what)
    return None


def _machines(table: Table, findings: Findings) -> dict[str, Machine]:
    machines: dict[str, Machine] = {}
    rows: list[Any] = table.take("machine", list, [])
    for number, row in enumerate(rows):
        if not isinstance(row, dict):
            table.fault(
                "machine", "a machine is not a table", "write [[machine]] and below it name and cautions"
            )
            continue
        inner = table.row("machine", number, row, "the machine")
        machine = _machine(inner)
        if machine.name in machines:
            findings.add(inner.home, f"the machine '{machine.name}' stands twice", "join the two")
        machines[machine.name] = machine
    return machines


def _machine(table: Table) -> Machine:
    name = table.take("name", str)
    table.what = f"the machine '{name}'"
    found: list[Any] = table.take("cautions", list, [])
    if not found:
        table.fault(
            "",
            f"the machine '{name}' has no cautions",
            'add cautions = [{ level = "warning", do = "…", otherwise = "…" }]',
        )
    cautions = []
    for number, values in enumerate(found):
        if isinstance(values, dict):
            cautions.append(read_caution(table.row("cautions", number, values, f"a caution of '{name}'")))
        else:
            table.fault(
                "cautions", "a caution is not a table", 'write { level = "…", do = "…", otherwise = "…" }'
            )
    table.finish()
    return Machine(name, tuple(cautions))


def read_term(folder: Path, name: str, course: Course) -> Term:
    """Read terms/NAME.toml; what it leaves out it has from the course. Raises LessonFaults."""
    findings = Findings()
    file = f"{folder.name}/terms/{name}.toml"
    path = folder / "terms" / f"{name}.toml"
    if not _TERM_NAME.fullmatch(name) or not path.is_file():
        known = [found.stem for found in (folder / "terms").glob("*.toml") if found.is_file()]
        raise LessonFaults(
            [
                LessonFault(
                    f"there is no term '{name}'", did_you_mean(name, known) or f"write {file}", Place(file)
                )
            ]
        )
    term = None
    with suppress(Enough):
        term = _term(name, _table(path, file, "the term", findings), course, findings)
    if findings.faults or term is None:
        raise LessonFaults(findings.faults)
    return term


def _term(name: str, table: Table | None, course: Course, findings: Findings) -> Term | None:
    if table is None:
        return None
    benches = table.whole("benches", 1, MOST_BENCHES)
    term = Term(
        name=name,
        title=table.take("title", str),
        draw=table.whole("draw", 0, 10**12),
        measure=_measure(table, "measure", course.units),
        paper=table.one_of("paper", PAPERS, course.paper),
        benches=benches,
        sets=_sets(table, benches),
        stretch=_stretch(table, findings),
    )
    table.finish()
    return term


def _stretch(table: Table, findings: Findings) -> tuple[Fraction, Fraction]:
    """Read what the check bars of a full-size sheet measured, and return what makes it good."""
    values: dict[str, Any] = table.take("printer", dict, {})
    if not values:
        return UNSTRETCHED
    printer = table.inner("printer", values, "the printer's table")
    found = [_one_way(printer, name, findings) for name in BARS]
    printer.finish()
    return found[0], found[1]


def _one_way(printer: Table, name: str, findings: Findings) -> Fraction:
    text = printer.take(name, str)
    inches, millimetres = BARS[name]
    if not text.strip():
        return Fraction(1)
    with findings.at(printer.place(name)):
        measured = parse(text)
        if measured.kind != kind_of("in"):
            raise LessonFault(
                f"'{name}' is {text}, not a length", f'write what the bar measured, as "{millimetres} mm"'
            )
        true = Quantity.of(inches, "in") if measured.unit_name == "in" else Quantity.of(millimetres, "mm")
        share = Fraction((true / measured).number())
        if not 1 / MOST_STRETCH <= share <= MOST_STRETCH:
            raise LessonFault(
                f"the bar of {true} is said to measure {text}; no printer is so far off",
                "print at 100 %, with no fitting to the page, and measure again",
            )
        return share
    return Fraction(1)


def _sets(table: Table, benches: int) -> int:
    value = table.values.get("sets", ONE_EACH)
    table.taken.add("sets")
    if value == ONE_EACH:
        return max(1, benches)
    if value == ALL_ALIKE:
        return 1
    if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= max(1, benches):
        return value
    table.fault(
        "sets",
        f"'sets' cannot be {value!r}" if isinstance(value, int | str) else "'sets' cannot be that",
        f'write "{ONE_EACH}", "{ALL_ALIKE}" or a number up to the benches',
    )
    return 1
