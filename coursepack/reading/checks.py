"""What must hold in a lesson before any number is drawn: names, units, aims, figures, pictures."""

import re
from collections.abc import Mapping
from pathlib import Path

from coursepack.formula import TRUTH, WORD, Functions, Kinds, Node, names_in
from coursepack.lesson import (
    MEASURES,
    Exercise,
    FigureForm,
    FigureRequest,
    Find,
    Given,
    Lesson,
    Machine,
    Rule,
    Step,
)
from coursepack.place import FormulaFault, Place, did_you_mean
from coursepack.quantity import Quantity, kind_name, kind_of
from coursepack.reading.blocks import pointed
from coursepack.reading.source import Prose
from coursepack.reading.tables import Findings, Table
from coursepack.working import dimension_in, kind_in, kind_words

BRACES = re.compile(r"\{([^{}\n]*)\}")
LINK = re.compile(r"(!?)\[[^\]\n]*\]\(([^)\s]*)[^)\n]*\)")
PICTURES = (".png", ".jpg", ".jpeg")
MOST_PICTURE_BYTES = 2_000_000
_FIGURE_KINDS = {"length": "in", "angle": "deg", "count": "", "percent": "", "ratio": ""}


def check_exercise(
    exercise: Exercise, figures: Mapping[str, FigureForm], functions: Functions, findings: Findings
) -> None:
    """Note every fault of one exercise."""
    _Exercise(exercise, functions, findings).check(figures)


class _Exercise:
    def __init__(self, exercise: Exercise, functions: Functions, findings: Findings) -> None:
        self.exercise = exercise
        self.functions = functions
        self.findings = findings
        self.kinds: dict[str, Kinds] = {}

    def check(self, figures: Mapping[str, FigureForm]) -> None:
        for given in self.exercise.given:
            self._given(given)
        for step in self.exercise.steps:
            self._step(step)
        for rule in self.exercise.rules:
            self._rule(rule)
        for find in self.exercise.finds:
            self._find(find)
        if self.exercise.figure:
            self._figure(self.exercise.figure, figures)
        self._prose()
        self._complete()
        self._unused()

    def _given(self, given: Given) -> None:
        found = {
            WORD if isinstance(value, str) else value.kind
            for row in given.choices.values()
            for value in row
            if not isinstance(value, bool)
        }
        if len(found) > 1:
            self.findings.add(
                given.place,
                f"the choices of '{given.name}' are of different kinds",
                "give all the same kind of unit",
            )
        self.kinds[given.name] = found.pop()

    def _kind(self, node: Node, text: str, place: Place) -> Kinds | None:
        with self.findings.at(place):
            try:
                return kind_in(node, self.kinds)
            except FormulaFault as fault:
                raise pointed(fault, text) from fault
        return None

    def _step(self, step: Step) -> None:
        kind = self._kind(step.node, step.text, step.place)
        if step.name in self.kinds:
            self.findings.add(step.place, f"'{step.name}' is given or worked already", "choose another name")
        if kind in (TRUTH, WORD):
            self.findings.add(step.place, "a step gives a quantity, not a word or a comparison")
        elif kind is not None:
            self.kinds[step.name] = kind

    def _rule(self, rule: Rule) -> None:
        kind = self._kind(rule.node, rule.text, rule.place)
        if kind not in (None, TRUTH):
            self.findings.add(
                rule.place, f"'{rule.text}' is not a comparison", "write one such as rear >= front / 2"
            )

    def _find(self, find: Find) -> None:
        kind = self.kinds.get(find.name)
        if find.name not in {step.name for step in self.exercise.steps}:
            self.findings.add(
                find.place,
                f"'{find.name}' is not worked in this exercise",
                did_you_mean(find.name, [step.name for step in self.exercise.steps]),
            )
            return
        for what, marks in (("nearest", find.nearest), ("within", find.within)):
            for mark in marks.values():
                if kind is not None and mark.kind != kind:
                    self.findings.add(
                        find.place,
                        f"'{find.name}' is {kind_words(kind)}, but {what} is {kind_name(mark.kind)} ({mark})",
                        "ask in a unit that fits",
                    )
        for slip in find.slips:
            with self.findings.at(slip.place):
                wrong = dimension_in(slip.node, self.kinds)
                if kind is not None and wrong != kind:
                    raise FormulaFault(
                        f"the slip '{slip.name}' is {kind_name(wrong)}, the answer {kind_words(kind)}"
                    )

    def _figure(self, figure: FigureRequest, figures: Mapping[str, FigureForm]) -> None:
        form = figures.get(figure.draw)
        if form is None:
            self.findings.add(
                figure.place, f"there is no figure '{figure.draw}'", did_you_mean(figure.draw, figures)
            )
            return
        for name in figure.sizes:
            if name not in form.takes and name not in form.dimensions:
                self.findings.add(
                    figure.place, f"the figure takes no '{name}'", did_you_mean(name, form.takes)
                )
        for name, what in form.takes.items():
            self._size(figure, name, what, name in form.optional)
        finds = {find.name for find in self.exercise.finds}
        for name in (*figure.show, *figure.ask):
            self._dimension(figure, form, name)
        for name in figure.ask:
            if label_name(figure, name) not in finds:
                self.findings.add(
                    figure.place,
                    f"the figure asks '{name}', which no question finds",
                    "ask what a find block asks",
                )
        for name in sorted(finds & {label_name(figure, shown) for shown in figure.show}):
            self.findings.add(
                figure.place, f"the figure shows '{name}', which is asked for", "move it to ask"
            )

    def _size(self, figure: FigureRequest, name: str, what: str, optional: bool) -> None:  # noqa: FBT001
        if name in figure.sizes:
            with self.findings.at(figure.place):
                kind = dimension_in(figure.sizes[name], self.kinds)
                if kind != kind_of(_FIGURE_KINDS[what]):
                    raise FormulaFault(f"the figure's '{name}' is a {what}, not {kind_name(kind)}")
        elif name not in self.kinds:
            if not optional:
                self.findings.add(
                    figure.place, f"the figure needs '{name}'", f'add with = {{ {name} = "…" }}'
                )
        elif self.kinds[name] != kind_of(_FIGURE_KINDS[what]):
            self.findings.add(
                figure.place,
                f"the figure's '{name}' is a {what}, not {kind_words(self.kinds[name])}",
                "use with to give another",
            )

    def _dimension(self, figure: FigureRequest, form: FigureForm, name: str) -> None:
        if name not in form.dimensions:
            self.findings.add(
                figure.place, f"the figure has no dimension '{name}'", did_you_mean(name, form.dimensions)
            )
        elif name not in self.kinds and name not in figure.sizes:
            self.findings.add(
                figure.place, f"'{name}' is no number of this exercise", f'add with = {{ {name} = "…" }}'
            )

    def _prose(self) -> None:
        """Every {name} is known; where the student is to find a number, the prose does not print it."""
        given = {given.name for given in self.exercise.given}
        open_names = given if self.exercise.stage in ("faded", "alone") else set(self.kinds)
        for passage in self.exercise.passages:
            if isinstance(passage, Prose):
                self._braces(passage, open_names)

    def _braces(self, passage: Prose, open_names: set[str]) -> None:
        for place, name in braces(passage):
            if name not in self.kinds:
                self.findings.add(place, f"'{{{name}}}' is not known here", did_you_mean(name, self.kinds))
            elif name not in open_names:
                self.findings.add(
                    place,
                    f"'{{{name}}}' would print an answer on the student's sheet",
                    "write the question without it",
                )

    def _complete(self) -> None:
        for what, there in (
            ("given", self.exercise.given),
            ("working", self.exercise.steps),
            ("find", self.exercise.finds),
        ):
            if not there:
                self.findings.add(
                    self.exercise.place,
                    f"the exercise has no {what} block",
                    "add one, or say like = the id of an exercise with one",
                )

    def _unused(self) -> None:
        used = {name.name for step in self.exercise.steps for name in names_in(step.node)}
        used |= {find.name for find in self.exercise.finds}
        used |= {name.name for rule in self.exercise.rules for name in names_in(rule.node)}
        used |= {
            name
            for passage in self.exercise.passages
            if isinstance(passage, Prose)
            for _, name in braces(passage)
        }
        if self.exercise.figure:
            used |= {*self.exercise.figure.show, *self.exercise.figure.ask}
            used |= {name.name for node in self.exercise.figure.sizes.values() for name in names_in(node)}
        for step in self.exercise.steps:
            if step.name not in used:
                self.findings.add(
                    step.place, f"the step '{step.name}' is never used", "ask for it, or take it out"
                )


def label_name(figure: FigureRequest, dimension: str) -> str:
    """Return the exercise's name whose value letters a dimension: its own word, unless `with` names another."""
    node = figure.sizes.get(dimension)
    names = names_in(node) if node is not None else []
    return names[0].name if node is not None and len(names) == 1 and names[0] == node else dimension


def braces(passage: Prose) -> list[tuple[Place, str]]:
    """Return each {name} of a passage with its place."""
    found = []
    for offset, line in enumerate(passage.text.split("\n")):
        found += [
            (Place(passage.place.path, passage.place.line + offset), name) for name in BRACES.findall(line)
        ]
    return found


def check_lesson(lesson: Lesson, table: Table, machines: Mapping[str, Machine], findings: Findings) -> None:
    """Note what is missing in a lesson as a whole: standards with a number, machines, stages, an exercise an aim."""
    for aim in lesson.aims:
        if aim.to and not re.search(r"\d", aim.to):
            table.fault(
                "aims", f"the aim '{aim.do}' has a standard without a number", 'write to = "within 1/64 in"'
            )
    for name in lesson.machines:
        if name not in machines:
            table.fault("machines", f"the course has no machine '{name}'", did_you_mean(name, machines))
    for number, aim in enumerate(lesson.aims, 1):
        if not any(number in exercise.aims for exercise in lesson.exercises):
            table.fault(
                "aims", f"no exercise serves aim {number}, '{aim.do}'", f"add {number} to an exercise's aims"
            )
    for exercise in lesson.exercises:
        _stage(exercise, lesson, findings)
        for number in exercise.aims:
            if not 1 <= number <= len(lesson.aims):
                findings.add(
                    exercise.place,
                    f"the lesson has no aim {number}",
                    f"its aims go from 1 to {len(lesson.aims)}",
                )


def _stage(exercise: Exercise, lesson: Lesson, findings: Findings) -> None:
    if exercise.stage in ("worked", "bench") or exercise.review:
        return
    before = lesson.exercises[: lesson.exercises.index(exercise)]
    if not any(other.root == exercise.root and other.stage == "worked" for other in before):
        findings.add(
            exercise.place,
            f"'{exercise.id}' follows no worked exercise of its structure",
            "say like = the id of a worked one before it",
        )


def check_passages(lesson: Lesson, folder: Path, findings: Findings) -> None:
    """Note braces in the reading (it has no numbers) and pictures or links that may not stand."""
    for section in lesson.sections:
        for passage in section.passages:
            if isinstance(passage, Prose):
                for place, name in braces(passage):
                    findings.add(
                        place, f"'{{{name}}}' stands outside an exercise", "numbers are given in exercises"
                    )
    passages = [passage for section in lesson.sections for passage in section.passages]
    passages += [
        passage
        for exercise in lesson.exercises
        for passage in exercise.passages
        if exercise.place.path == lesson.place.path
    ]
    for passage in passages:
        if isinstance(passage, Prose):
            _links(passage, folder, findings)


def _links(passage: Prose, folder: Path, findings: Findings) -> None:
    for offset, line in enumerate(passage.text.split("\n")):
        place = Place(passage.place.path, passage.place.line + offset)
        if re.match(r"\s{0,3}\[[^\]]+\]:", line):
            findings.add(place, "link definitions are not read", "write the link where it stands")
        for mark, target in LINK.findall(line):
            if mark:
                _picture(target, folder, place, findings)
            elif not target.startswith(("https://", "#")):
                findings.add(place, f"the link '{target}' cannot be printed", "links begin with https://")


def _picture(target: str, folder: Path, place: Place, findings: Findings) -> None:
    path = (folder / target).resolve()
    if ":" in target or not path.is_relative_to(folder.resolve()):
        findings.add(
            place, f"the picture '{target}' is outside the lesson's folder", "copy it beside the lesson"
        )
    elif path.suffix.lower() not in PICTURES:
        findings.add(place, f"the picture '{target}' is not PNG or JPEG", "save it as PNG")
    elif not path.is_file():
        findings.add(place, f"there is no picture '{target}'", "copy it beside the lesson")
    elif path.stat().st_size > MOST_PICTURE_BYTES:
        findings.add(
            place,
            f"the picture '{target}' is larger than {MOST_PICTURE_BYTES // 1_000_000} MB",
            "save it smaller",
        )


__all__ = ["MEASURES", "Quantity", "check_exercise", "check_lesson", "check_passages"]
