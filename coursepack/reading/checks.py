"""What must hold in a lesson before any number is drawn: names, units, aims, figures, pictures."""

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from coursepack.formula import TRUTH, WORD, Call, Kinds, ListKind, Minus, Name, Node, names_in, walk
from coursepack.lesson import (
    MEASURES,
    Exercise,
    FigureForm,
    FigureRequest,
    Find,
    Given,
    Lesson,
    Machine,
    Passage,
    Rule,
    Step,
)
from coursepack.place import FormulaFault, Place, did_you_mean
from coursepack.quantity import Quantity
from coursepack.reading.blocks import pointed
from coursepack.reading.links import LINK, check_links
from coursepack.reading.source import Prose
from coursepack.reading.tables import Findings, Table
from coursepack.units import kind_name
from coursepack.working import SHAPES, dimension_in, kind_in, kind_words, wanted_kind

BRACES = re.compile(r"\{([^{}\n]*)\}")
_FIGURE_WORDS = {
    "length": "a length", "angle": "an angle", "count": "a count", "percent": "a percentage", "ratio": "a ratio",
    "force": "a force", "time": "a time", "sound level": "a sound level",
    "airfoil": "an airfoil", "section": "a section", "plan": "a plan",
}  # fmt: skip
_FIGURE_KINDS = {
    "length": "in", "angle": "deg", "force": "lbf", "time": "h", "sound level": "dBA",
    **dict.fromkeys(("count", "percent", "ratio"), ""), **{shape: shape for shape in SHAPES},
}  # fmt: skip


@dataclass(frozen=True)
class Doubts:
    """What of an exercise has a fault already: blocks that could not be read, and names."""

    blocks: frozenset[str] = frozenset()
    names: frozenset[str] = frozenset()

    def __bool__(self) -> bool:
        return bool(self.blocks or self.names)


def check_exercise(
    exercise: Exercise, figures: Mapping[str, FigureForm], doubts: Doubts, findings: Findings
) -> None:
    """Note every fault of one exercise, but none that only follows from one noted before."""
    if not doubts.blocks & {"given", "working"}:
        _Exercise(exercise, doubts, findings).check(figures)


class _Exercise:
    def __init__(self, exercise: Exercise, doubts: Doubts, findings: Findings) -> None:
        self.exercise = exercise
        self.doubts = doubts
        self.doubted = set(doubts.names)
        self.findings = findings
        self.kinds: dict[str, Kinds] = {}
        self.words: dict[str, list[str]] = {}

    def check(self, figures: Mapping[str, FigureForm]) -> None:
        """Note every fault of the exercise."""
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
        if not self.doubts:
            self._complete()
        if not self.doubts and not self.doubted:
            self._unused()

    def _given(self, given: Given) -> None:
        found = [
            WORD if isinstance(value, str) else value.kind for row in given.choices.values() for value in row
        ]
        if len(set(found)) > 1:
            self.findings.add(
                given.place,
                f"the choices of '{given.name}' are of different kinds",
                "give all the same kind of unit",
            )
        if not given.means.strip():
            self.findings.add(
                given.place,
                f"'{given.name}' does not say what it means",
                f'write {given.name} = {{ both = "…", means = "…" }}',
            )
        self.kinds[given.name] = found[0]
        self.words[given.name] = [v for row in given.choices.values() for v in row if isinstance(v, str)]

    def _is_doubted(self, node: Node) -> bool:
        return any(name.name in self.doubted for name in names_in(node))

    def _kind(self, node: Node, text: str, place: Place) -> Kinds | None:
        if self._is_doubted(node):
            return None
        with self.findings.at(place):
            try:
                self._check_order(node)
                self._check_words(node)
                return kind_in(node, self.kinds)
            except FormulaFault as fault:
                raise pointed(fault, text) from fault
        return None

    def _check_order(self, node: Node) -> None:
        steps = {step.name for step in self.exercise.steps}
        for name in names_in(node):
            if name.name in steps and name.name not in self.kinds:
                raise FormulaFault(
                    f"'{name.name}' is used before it is worked", "move its step up", column=name.column
                )

    def _check_words(self, node: Node) -> None:
        calls = [part for part in walk(node) if isinstance(part, Call)]
        pairs = [pair for call in calls for pair in zip(call.function.takes, call.arguments, strict=False)]
        for takes, argument in pairs:
            if isinstance(argument, Name):
                for word in self.words.get(argument.name, ()):
                    if not takes.knows(word):
                        raise FormulaFault(
                            f"'{argument.name}' may be '{word}', which is not known here",
                            did_you_mean(word, takes.words),
                            column=argument.column,
                        )

    def _step(self, step: Step) -> None:
        kind = self._kind(step.node, step.text, step.place)
        if step.name in self.kinds:
            self.findings.add(step.place, f"'{step.name}' is given or worked already", "choose another name")
        if isinstance(kind, str | ListKind):
            self.findings.add(
                step.place,
                f"a step gives a quantity, not {kind_words(kind)}",
                "use it inside the formula of a quantity",
            )
        if isinstance(kind, tuple):
            self.kinds[step.name] = kind
            self.doubted.discard(step.name)
        else:
            self.doubted.add(step.name)

    def _rule(self, rule: Rule) -> None:
        kind = self._kind(rule.node, rule.text, rule.place)
        if kind not in (None, TRUTH):
            self.findings.add(
                rule.place, f"'{rule.text}' is not a comparison", "write one such as rear >= front / 2"
            )

    def _find(self, find: Find) -> None:
        kind = self.kinds.get(find.name)
        if find.name in self.doubted:
            return
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
            if self._is_doubted(slip.node):
                continue
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
        if figure.full_size and not form.is_cut:
            self.findings.add(
                figure.place,
                f"the figure '{figure.draw}' has no part to cut out",
                f"take one of {', '.join(sorted(name for name, each in figures.items() if each.is_cut))}",
            )
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
            if (
                name in form.dimensions
                and "find" not in self.doubts.blocks
                and label_name(figure, name) not in finds
            ):
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
        if name in self.doubted or (name in figure.sizes and self._is_doubted(figure.sizes[name])):
            return
        if name in figure.sizes:
            with self.findings.at(figure.place):
                kind = kind_in(figure.sizes[name], self.kinds)
                if kind != wanted_kind(_FIGURE_KINDS[what]):
                    raise FormulaFault(
                        f"the figure's '{name}' is {_FIGURE_WORDS[what]}, not {kind_words(kind)}"
                    )
        elif name not in self.kinds:
            if not optional:
                self.findings.add(
                    figure.place, f"the figure needs '{name}'", f'add with = {{ {name} = "…" }}'
                )
        elif self.kinds[name] != wanted_kind(_FIGURE_KINDS[what]):
            self.findings.add(
                figure.place,
                f"the figure's '{name}' is {_FIGURE_WORDS[what]}, not {kind_words(self.kinds[name])}",
                "use with to give another",
            )

    def _dimension(self, figure: FigureRequest, form: FigureForm, name: str) -> None:
        if name not in form.dimensions:
            self.findings.add(
                figure.place, f"the figure has no dimension '{name}'", did_you_mean(name, form.dimensions)
            )
        elif name not in self.kinds and name not in figure.sizes and name not in self.doubted:
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
            if name in self.doubted:
                continue
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
    """Return the exercise's name whose value letters a dimension: its own word, unless `with` names another.

    A name with a minus before it turns the drawing, not the number: a fall is lettered without a sign.
    """
    node = figure.sizes.get(dimension)
    named = node.operand if isinstance(node, Minus) else node
    return named.name if isinstance(named, Name) else dimension


def braces(passage: Prose) -> list[tuple[Place, str]]:
    """Return each {name} of a passage with its place."""
    found = []
    for offset, line in enumerate(passage.text.split("\n")):
        found += [
            (Place(passage.place.path, passage.place.line + offset), name) for name in BRACES.findall(line)
        ]
    return found


def check_lesson(
    lesson: Lesson,
    table: Table,
    machines: Mapping[str, Machine] | None,
    served: Collection[int],
    findings: Findings,
) -> None:
    """Note what is missing in a lesson as a whole: machines, stages, an exercise for every aim.

    `served` are the aims that its exercises name, those with faults too.
    """
    for name in lesson.machines:
        if machines is not None and name not in machines:
            table.fault("machines", f"the course has no machine '{name}'", did_you_mean(name, machines))
    for number, aim in enumerate(lesson.aims, 1):
        if number not in served:
            table.fault(
                "aims", f"no exercise serves aim {number}, '{aim.do}'", f"add {number} to an exercise's aims"
            )
    for exercise in lesson.exercises:
        _stage(exercise, lesson, findings)
        for number in exercise.aims:
            if lesson.aims and not 1 <= number <= len(lesson.aims):
                findings.add(
                    exercise.place,
                    f"the lesson has no aim {number}",
                    f"its aims go from 1 to {len(lesson.aims)}",
                )


def check_mixed_practice(likes: Iterable[str], table: Table) -> None:
    """Note a lesson that brings back no exercise of an earlier one (mixed practice); the first is not asked."""
    if not any("/" in like for like in likes):
        table.fault(
            "",
            "no exercise comes from an earlier lesson",
            'bring one back: like = "lesson-id/exercise-id"',
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
    passages: list[Passage] = [passage for section in lesson.sections for passage in section.passages]
    passages += [
        passage
        for exercise in lesson.exercises
        for passage in exercise.passages
        if isinstance(passage, Prose) and passage.place.path == lesson.place.path
    ]
    for passage in passages:
        if isinstance(passage, Prose):
            check_links(passage, folder, findings)


__all__ = [
    "LINK",
    "MEASURES",
    "Quantity",
    "check_exercise",
    "check_lesson",
    "check_mixed_practice",
    "check_passages",
]
