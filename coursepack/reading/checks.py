"""What must hold in an exercise before any number is drawn: its names, their order and their units."""

from collections.abc import Mapping
from dataclasses import dataclass

from coursepack.formula import TRUTH, WORD, Call, Kinds, ListKind, Name, Node, names_in, walk
from coursepack.lesson import Exercise, FigureForm, Find, Given, Rule, Step
from coursepack.place import FormulaFault, LessonFault, Place, did_you_mean
from coursepack.reading.blocks import pointed
from coursepack.reading.figure_checks import Known, check_figure
from coursepack.reading.source import NUMBER, Prose, braces
from coursepack.reading.table_checks import check_table
from coursepack.reading.tables import Findings
from coursepack.units import kind_name
from coursepack.working import dimension_in, kind_in, kind_words


@dataclass(frozen=True)
class Doubts:
    """What of an exercise has a fault already: blocks that could not be read, names, and names whose meaning is lost."""

    blocks: frozenset[str] = frozenset()
    names: frozenset[str] = frozenset()
    meanings: frozenset[str] = frozenset()

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
        self._verdicts()
        for table in self.exercise.tables:
            check_table(table, self.exercise, self._known(), self.findings)
        if self.exercise.figure:
            check_figure(self.exercise.figure, figures, self._known(), self.findings)
        self._prose()
        self._plain_texts()
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
        if not given.means.strip() and given.name not in self.doubts.meanings:
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

    def _verdicts(self) -> None:
        for verdict in self.exercise.verdicts:
            self._rule(verdict.rule)
        if self.exercise.verdicts and self.exercise.stage in ("worked", "bench"):
            self.findings.add(
                self.exercise.place,
                f"a {self.exercise.stage} exercise has no line for a verdict",
                "say it in the prose, or make the exercise faded or alone",
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

    def _known(self) -> Known:
        finds = frozenset(find.name for find in self.exercise.finds)
        return Known(self.kinds, self.doubted, finds, all_found="find" not in self.doubts.blocks)

    def _prose(self) -> None:
        """Every {name} is known; where the student is to find a number, the prose does not print it."""
        given = {given.name for given in self.exercise.given}
        open_names = given if self.exercise.stage in ("faded", "alone") else set(self.kinds)
        for passage in self.exercise.passages:
            if isinstance(passage, Prose):
                self._braces(passage, open_names)

    def _plain_texts(self) -> None:
        """A {name} stands for its number in the prose only."""
        exercise = self.exercise
        texts = [
            *((given.means, given.place) for given in exercise.given),
            *((step.sentence, step.place) for step in exercise.steps),
            *((find.ask, find.place) for find in exercise.finds),
            *((slip.say, slip.place) for find in exercise.finds for slip in find.slips),
        ]
        for text, place in texts:
            if name := NUMBER.search(text):
                self.findings.add(
                    place,
                    f"'{name[0]}' would be printed as it stands",
                    "put it into the text of the exercise",
                )

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
        used |= {name for table in self.exercise.tables for name in table.columns}
        rules = [*self.exercise.rules, *(verdict.rule for verdict in self.exercise.verdicts)]
        used |= {name.name for rule in rules for name in names_in(rule.node)}
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
            if step.name in used:
                continue
            unused = LessonFault(
                f"the step '{step.name}' is never used", "ask for it, or take it out", step.place
            )
            if step.place.line > self.exercise.place.line:
                self.findings.note(unused)
            elif str(unused) not in self.findings.told:  # the worked one uses it
                self.findings.add(
                    self.exercise.place,
                    f"the step '{step.name}', taken over with the working, is never used here",
                    "ask for it, or write a working block of its own",
                )
