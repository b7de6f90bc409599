"""An exercise and its numbers → steps and answers, worked with units and found a second way."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from coursepack.formula import Value, names_in
from coursepack.lesson import Exercise, Find, Rule, Slip, Step, StepTable
from coursepack.numbers import Numbers
from coursepack.place import FormulaFault, LessonFault, Place
from coursepack.quantity import Measure, Quantity, exact, is_rule_mark, plain, settled, to_mark
from coursepack.working import holds, quantity

SAME = 1e-9  # relative difference allowed between the two ways; both are the same mathematics in other units
NEAR_A_TIE = 0.1  # of a mark
_OTHER_UNIT = {"in": "mm", "mm": "in", "ft": "m", "m": "ft", "psi": "kPa", "kPa": "psi", "lb": "kg", "kg": "lb", "g": "oz", "oz": "g",
               "°F": "°C", "°C": "°F", "%": "", "ft/min": "m/min", "m/min": "ft/min", "lbf": "N", "N": "lbf", "in²": "mm²", "mm²": "in²"}  # fmt: skip


TableRow = tuple[Value, tuple[Quantity, ...]]


@dataclass(frozen=True)
class SolvedStep:
    """A step and its unrounded value."""

    step: Step
    value: Quantity


@dataclass(frozen=True)
class SolvedSlip:
    """A known mistake and the answer it leads to, rounded as the answer is."""

    slip: Slip
    value: Quantity


@dataclass(frozen=True)
class Answer:
    """The answer to one question: unrounded, at its mark, with its limits and the slips that miss it."""

    find: Find
    unrounded: Quantity
    value: Quantity
    mark: Quantity
    within: Quantity
    low: Quantity
    high: Quantity
    also: tuple[str, ...]
    slips: tuple[SolvedSlip, ...]


@dataclass(frozen=True)
class SolvedTable:
    """A table to fill in: for each row its value of the given number and the cells, at their mark."""

    table: StepTable
    mark: Quantity
    rows: tuple[TableRow, ...]


@dataclass(frozen=True)
class Solved:
    """An exercise with the numbers of one set, every step and every answer."""

    exercise: Exercise
    measure: Measure
    of_set: int
    numbers: Numbers
    steps: tuple[SolvedStep, ...]
    answers: tuple[Answer, ...]
    values: Mapping[str, Value]
    verdict: str = ""
    tables: tuple[SolvedTable, ...] = ()

    def answer(self, name: str) -> Answer | None:
        """Return the answer of that name, if it is asked."""
        return next((answer for answer in self.answers if answer.find.name == name), None)

    def question(self, answer: Answer) -> str:
        """Return the letter of the question that an answer belongs to, none where it is the only one."""
        return "abcdefgh"[self.answers.index(answer)] if len(self.answers) > 1 else ""

    def table(self, asked: StepTable) -> SolvedTable:
        """Return a table of the exercise, filled in."""
        return self.tables[self.exercise.tables.index(asked)]


def solve(exercise: Exercise, numbers: Numbers, measure: Measure, of_set: int) -> Solved:
    """Work an exercise; raises LessonFault, at the line of the step, where a value cannot be had.

    Every answer is found a second way, with all numbers in other units; a difference is a fault.
    """
    values = _worked(exercise, numbers, measure)
    steps = tuple(SolvedStep(step, _one(values, step.name)) for step in exercise.steps)
    answers = tuple(_answer(find, values, measure) for find in exercise.asked)
    _check_second_way(exercise, numbers, measure, answers)
    verdict = verdict_of(exercise, values)
    tables = tuple(_tabled(table, exercise, numbers, measure) for table in exercise.tables)
    return Solved(exercise, measure, of_set, numbers, steps, answers, values, verdict, tables)


def accepts(exercise: Exercise, measure: Measure, numbers: Numbers) -> bool:
    """True where the numbers meet every requirement of the exercise.

    Those on the given numbers alone come first, so that they can keep a step from what it cannot work.
    """
    early = [rule for rule in exercise.rules if numbers.keys() >= {name.name for name in names_in(rule.node)}]
    if not all(_meets(rule, numbers) for rule in early):
        return False
    late = [rule for rule in exercise.rules if rule not in early]
    values = _worked(exercise, numbers, measure) if late else numbers
    return all(_meets(rule, values) for rule in late)


def is_clear(exercise: Exercise, measure: Measure, numbers: Numbers) -> bool:
    """True where no answer lies within a tenth of its mark of a tie, which a student's rounding could turn over."""
    values = _worked(exercise, numbers, measure)
    for find in exercise.asked:
        mark = find.nearest[measure]
        share = float(_one(values, find.name).number(mark.unit_name)) / float(mark.value) % 1
        if abs(share - 0.5) < NEAR_A_TIE:
            return False
    return True


def verdict_of(exercise: Exercise, values: Mapping[str, Value]) -> str:
    """Return the word to circle, none where none is asked; raises LessonFault where not just one is right."""
    right = [verdict.word for verdict in exercise.verdicts if _meets(verdict.rule, values)]
    if exercise.verdicts and len(right) != 1:
        raise LessonFault(
            f"{' and '.join(right) or 'none'} of its verdicts is right",
            "let just one of their comparisons hold",
            exercise.verdicts[0].rule.place,
        )
    return "".join(right)


def _meets(rule: Rule, values: Mapping[str, Value]) -> bool:
    try:
        return holds(rule.node, values)
    except LessonFault as fault:
        raise fault.at(rule.place) from fault


def _worked(exercise: Exercise, numbers: Numbers, measure: Measure) -> dict[str, Value]:
    values: dict[str, Value] = dict(numbers)
    for step in exercise.steps:
        try:
            values[step.name] = settled(quantity(step.node, values), measure)
        except FormulaFault as fault:
            given = ", ".join(f"{name} = {value}" for name, value in numbers.items())
            raise FormulaFault(f"{fault.message} (with {given})", fault.remedy, step.place) from fault
    return values


def _one(values: Mapping[str, Value], name: str) -> Quantity:
    value = values[name]
    if not isinstance(value, Quantity):
        raise LessonFault(f"'{name}' is not a quantity")
    return value


def _answer(find: Find, values: Mapping[str, Value], measure: Measure) -> Answer:
    unrounded = _one(values, find.name)
    value = to_mark(unrounded, find.nearest[measure])
    within = find.within[measure].to(value.unit_name)
    slips = tuple(_slip(slip, values, find.nearest[measure]) for slip in find.slips)
    return Answer(
        find,
        unrounded,
        value,
        find.nearest[measure],
        within,
        value - within,
        value + within,
        _equivalents(value),
        slips,
    )


def _slip(slip: Slip, values: Mapping[str, Value], mark: Quantity) -> SolvedSlip:
    try:
        return SolvedSlip(slip, to_mark(quantity(slip.node, values), mark))
    except LessonFault as fault:
        raise fault.at(slip.place) from fault


def _equivalents(value: Quantity) -> tuple[str, ...]:
    """The same answer in the other forms a student may write: a decimal, millimetres, inches."""
    forms = []
    if is_rule_mark(value) and value.value != int(value.value):
        forms.append(exact(value))
    if value.unit_name in ("in", "mm"):
        unit, places = ("mm", 2) if value.unit_name == "in" else ("in", 3)
        rounded = to_mark(value.to(unit), Quantity.of(Fraction(1, 10**places), unit))
        forms.append(f"{float(rounded.value):.{places}f} {unit}")
    return tuple(form for form in forms if form != plain(value))


def _tabled(table: StepTable, exercise: Exercise, numbers: Numbers, measure: Measure) -> SolvedTable:
    """Work the steps again for each row; raises LessonFault as `solve` does, and where a cell has a second value."""
    mark = table.nearest[measure]
    rows = []
    for value in table.rows[measure]:
        own = {**numbers, table.given: value}
        values, again = (_worked(exercise, one, measure) for one in (own, _in_other_units(own)))
        for name in table.columns:
            _check_alike(name, _one(values, name), _one(again, name), table.place)
        rows.append((value, tuple(to_mark(_one(values, name), mark) for name in table.columns)))
    return SolvedTable(table, mark, tuple(rows))


def _check_second_way(
    exercise: Exercise, numbers: Numbers, measure: Measure, answers: tuple[Answer, ...]
) -> None:
    values = _worked(exercise, _in_other_units(numbers), measure)
    for answer in answers:
        _check_alike(answer.find.name, answer.unrounded, _one(values, answer.find.name), answer.find.place)


def _check_alike(name: str, value: Quantity, other: Quantity, place: Place) -> None:
    again = other.number(value.unit_name)
    if not math.isclose(again, value.value, rel_tol=SAME, abs_tol=SAME):
        raise LessonFault(
            f"'{name}' comes out as {value} and, worked in other units, as {again}",
            "look for a bare number that should carry a unit",
            place,
        )


def _in_other_units(numbers: Numbers) -> dict[str, Value]:
    return {name: _other(value) for name, value in numbers.items()}


def _other(value: Value) -> Value:
    """The same value in another unit of its kind."""
    if isinstance(value, Quantity) and value.unit_name in _OTHER_UNIT:
        return value.to(_OTHER_UNIT[value.unit_name])
    return value
