"""Trying many draws of every exercise in both measures, before a term does."""

import math
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor

from coursepack.draft import draft, refuse_other_size
from coursepack.lesson import MEASURES, Course, Exercise
from coursepack.numbers import Numbers, attempt_numbers, every, how_many
from coursepack.place import LessonFault, Place
from coursepack.quantity import Measure, Quantity
from coursepack.solve import Answer, Solved, accepts, solve, verdict_of
from coursepack.units import kind_of

DRAWS = 500
_MOST_ATTEMPTS = 10 * DRAWS  # where a requirement turns most draws down
_EASE = "narrow the choices or add a require"
_DRAW = 0  # the draw number of the trial; a term's own draws are checked again when it is assembled
_SIZES = {kind_of(name) for name in ("in", "in²", "in³", "lb", "lbf", "psi", "1/in", "min", "ft/min", "rpm")}


def prove(course: Course) -> Iterator[tuple[Exercise, Measure, list[LessonFault]]]:
    """Yield, for every exercise and measure, what goes wrong in the draws tried: once for each kind of trouble.

    Exercises that draw the same numbers for the same working are tried once.
    """
    cases = [(exercise, measure) for exercise in _different(course) for measure in MEASURES]
    with ProcessPoolExecutor() as workers:
        proved = workers.map(prove_exercise, *zip(*cases, strict=True))
        for (exercise, measure), faults in zip(cases, proved, strict=True):
            yield exercise, measure, faults


def _different(course: Course) -> list[Exercise]:
    seen: dict[str, Exercise] = {}
    for lesson in course.lessons:
        for exercise in lesson.exercises:
            choices = [(given.name, sorted(given.choices.items())) for given in exercise.given]
            parts = (
                exercise.root,
                choices,
                exercise.rules,
                exercise.steps,
                exercise.finds,
                exercise.tables,
                exercise.figure,
            )
            seen.setdefault(repr(parts), exercise)
    return list(seen.values())


def prove_exercise(exercise: Exercise, measure: Measure) -> list[LessonFault]:
    """Return the faults of one exercise in one measure, each with the numbers that did it."""
    found: dict[str, LessonFault] = {}
    tried = 0
    try:
        for numbers in _trials(exercise, measure):
            if not accepts(exercise, measure, numbers):
                continue
            tried += 1
            if tried > DRAWS:
                break
            solved = solve(exercise, numbers, measure, 0)
            for trouble, fault in (*troubles(solved), *figure_trouble(solved, answered=bool(tried % 2))):
                found.setdefault(trouble, fault)
    except LessonFault as fault:
        found["stopped"] = fault.at(exercise.place)
    if not tried and not found:
        found["unmet"] = LessonFault(
            f"no draw of '{exercise.id}' in {measure} meets {' and '.join(rule.text for rule in exercise.rules)}",
            "widen the choices or ease the requirement",
            exercise.rules[0].place,
        )
    return list(found.values())


def _trials(exercise: Exercise, measure: Measure) -> Iterator[Numbers]:
    count = how_many(exercise, measure)
    if count is not None and count <= DRAWS:
        return every(exercise, measure)
    return (attempt_numbers(_DRAW, exercise, 0, measure, attempt) for attempt in range(_MOST_ATTEMPTS))


def troubles(solved: Solved) -> Iterator[tuple[str, LessonFault]]:
    """Yield what is wrong with the numbers of one solved draw: a key for the kind of trouble, and the fault."""
    for name, value in solved.values.items():
        if isinstance(value, Quantity) and not math.isfinite(value.value):
            yield f"{name} finite", _fault(solved, f"'{name}' is not a finite number")
        elif isinstance(value, Quantity) and value.value < 0 and value.kind in _SIZES:
            yield f"{name} size", _fault(solved, f"'{name}' is {value}, an impossible size")
    for answer in solved.answers:
        yield from _turned(solved, answer)
        name = answer.find.name
        if answer.value.value == 0:
            yield f"{name} zero", _fault(solved, f"the answer '{name}' rounds to zero")
        for slip in answer.slips:
            if answer.low <= slip.value <= answer.high:
                yield (
                    f"{name} {slip.slip.name}",
                    _fault(
                        solved,
                        f"the slip '{slip.slip.name}' gives {slip.value}, which is accepted as right",
                        place=slip.slip.place,
                    ),
                )


def _turned(solved: Solved, answer: Answer) -> Iterator[tuple[str, LessonFault]]:
    """Yield where a student whose answer is accepted would circle another verdict than the key."""
    exercise, name = solved.exercise, answer.find.name
    for taken in (answer.value, answer.low, answer.high):
        try:
            word = verdict_of(exercise, {**solved.values, name: taken})
        except LessonFault:
            word = "none"
        if word != solved.verdict:
            message = f"the verdict is '{solved.verdict}', and '{word}' with {taken}, which is accepted for '{name}'"
            remedy = "keep the answer clear of the limit with a require"
            yield f"{name} verdict", _fault(solved, message, remedy, exercise.verdicts[0].rule.place)


def figure_trouble(solved: Solved, *, answered: bool) -> Iterator[tuple[str, LessonFault]]:
    """Yield what is wrong with the figure of one solved draw, on the sheet or, `answered`, on the key."""
    try:
        refuse_other_size(solved)
        draft(solved, answered=answered)
    except LessonFault as fault:
        yield "figure", _fault(solved, fault.message, fault.remedy, fault.place)


def _fault(solved: Solved, message: str, remedy: str = _EASE, place: Place | None = None) -> LessonFault:
    given = ", ".join(f"{name} = {value}" for name, value in solved.numbers.items())
    return LessonFault(
        f"{message} (in {solved.exercise.lesson}/{solved.exercise.id}, {solved.measure}, with {given})",
        remedy,
        place or solved.exercise.place,
    )
