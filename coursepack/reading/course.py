"""The course and its terms: course.toml, terms/NAME.toml, and all lessons beside them."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from coursepack.formula import Functions
from coursepack.lesson import MEASURES, Course, FigureForm, Machine, Term
from coursepack.place import LessonFault, LessonFaults, Place, did_you_mean
from coursepack.quantity import Measure
from coursepack.reading.blocks import read_caution
from coursepack.reading.reader import LessonReader, lesson_paths
from coursepack.reading.source import text_of
from coursepack.reading.tables import Findings, Table, read_toml

PAPERS = ("letter", "A4")
MOST_BENCHES = 60
ONE_EACH = "one each"
ALL_ALIKE = "all alike"


def read_course(folder: Path, functions: Functions, figures: Mapping[str, FigureForm]) -> Course:
    """Read course.toml and all lessons of a folder; raises LessonFaults with every fault of them all."""
    findings = Findings()
    course = Course("", "", "inch", "letter", {}, ())
    with findings.at(Place(f"{folder.name}/course.toml")):
        course = _course(folder, findings)
        paths = lesson_paths(folder)
        lessons = LessonReader(functions, figures, findings).read(paths, folder, course.machines)
        course = replace(course, lessons=lessons)
    if findings.faults:
        raise LessonFaults(findings.faults)
    return course


def _course(folder: Path, findings: Findings) -> Course:
    table = _table(folder / "course.toml", f"{folder.name}/course.toml", "the course", findings)
    title, class_name = table.take("title", str), table.take("class", str)
    units, paper = _measure(table, "units", "inch"), table.one_of("paper", PAPERS, "letter")
    rows: list[Any] = table.take("machine", list, [])
    machines = [machine for row in rows if (machine := _machine(row, table, findings))]
    table.finish()
    return Course(title, class_name, units, paper, {machine.name: machine for machine in machines}, ())


def _measure(table: Table, key: str, default: Measure) -> Measure:
    word = table.one_of(key, MEASURES, default)
    return "metric" if word == "metric" else "inch"


def _table(path: Path, name: str, what: str, findings: Findings) -> Table:
    table = read_toml(text_of(path, name), Place(name), findings, what)
    if table is None:
        raise LessonFaults(findings.faults)
    return table


def _machine(row: object, table: Table, findings: Findings) -> Machine | None:
    if not isinstance(row, dict):
        table.fault("machine", "a machine is not a table", "write [[machine]] and below it name and cautions")
        return None
    name = str(row.get("name", ""))
    place = _line_with(table, f'"{name}"')
    inner = Table(row, "", place, findings, f"the machine '{name}'")
    inner.take("name", str)
    found: list[Any] = inner.take("cautions", list, [])
    if not found:
        findings.add(
            place,
            f"the machine '{name}' has no cautions",
            'add cautions = [{ level = "warning", do = "…", otherwise = "…" }]',
        )
    cautions = [
        read_caution(Table(values, "", place, findings, f"a caution of '{name}'"))
        for values in found
        if isinstance(values, dict)
    ]
    inner.finish()
    return Machine(name, tuple(cautions))


def _line_with(table: Table, text: str) -> Place:
    at = table.text.find(text)
    return Place(table.start.path, table.text[:at].count("\n") + 1 if at >= 0 else 0)


def read_term(folder: Path, name: str, course: Course) -> Term:
    """Read terms/NAME.toml; what it leaves out it has from the course. Raises LessonFaults."""
    findings = Findings()
    file = f"{folder.name}/terms/{name}.toml"
    path = folder / "terms" / f"{name}.toml"
    if not path.is_file():
        known = [found.stem for found in (folder / "terms").glob("*.toml")]
        raise LessonFaults(
            [
                LessonFault(
                    f"there is no term '{name}'", did_you_mean(name, known) or f"write {file}", Place(file)
                )
            ]
        )
    table = _table(path, file, "the term", findings)
    benches = table.whole("benches", 1, MOST_BENCHES)
    term = Term(
        name=name,
        title=table.take("title", str),
        draw=table.whole("draw", 0, 10**12),
        measure=_measure(table, "measure", course.units),
        paper=table.one_of("paper", PAPERS, course.paper),
        benches=benches,
        sets=_sets(table, benches),
    )
    table.finish()
    if findings.faults:
        raise LessonFaults(findings.faults)
    return term


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
        f"'sets' cannot be '{value}'",
        f'write "{ONE_EACH}", "{ALL_ALIKE}" or a number up to the benches',
    )
    return 1
