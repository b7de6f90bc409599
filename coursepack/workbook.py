"""Every exercise of a term, drawn and solved for all its sets."""

from collections.abc import Iterator, Sequence

from coursepack.draft import refuse_other_size
from coursepack.lesson import Exercise, Lesson, Term
from coursepack.numbers import EXAMPLE, draw_sets
from coursepack.place import LessonFault, LessonFaults
from coursepack.proof import troubles
from coursepack.record import LessonRecord, lesson_record
from coursepack.solve import Solved, accepts, is_clear, solve


def solve_term(term: Term, lessons: Sequence[Lesson]) -> list[LessonRecord]:
    """Draw and solve every exercise of the lessons; raises LessonFaults with every fault."""
    return list(solve_in_turn(term, lessons))


def solve_in_turn(term: Term, lessons: Sequence[Lesson]) -> Iterator[LessonRecord]:
    """Yield each lesson as it is solved, until one has a fault; raises LessonFaults with those of all at the end."""
    faults: list[LessonFault] = []
    for lesson in lessons:
        solved = [_solve_sets(exercise, term, faults) for exercise in lesson.exercises]
        if not faults:
            yield _record(term, lesson, solved)
    if faults:
        raise LessonFaults(faults)


def _solve_sets(exercise: Exercise, term: Term, faults: list[LessonFault]) -> list[Solved]:
    """Solve the example of a worked exercise, or sets 1 to the last of any other."""
    worked = exercise.stage == "worked"
    try:
        drawn = draw_sets(
            term.draw,
            exercise,
            term.measure,
            EXAMPLE if worked else term.sets,
            lambda numbers: accepts(exercise, term.measure, numbers),
            lambda numbers: is_clear(exercise, term.measure, numbers),
        )
        wanted = list(enumerate(drawn))[:1] if worked else list(enumerate(drawn))[1:]
        solved = [solve(exercise, numbers, term.measure, of_set) for of_set, numbers in wanted]
        faults += [fault for one in solved for _, fault in troubles(one)]
        for one in solved:
            refuse_other_size(one)
    except LessonFault as fault:
        faults.append(fault.at(exercise.place))
        return []
    return solved


def _record(term: Term, lesson: Lesson, solved: Sequence[Sequence[Solved]]) -> LessonRecord:
    examples = [rows[0] for rows in solved if rows[0].of_set == EXAMPLE]
    asked = [rows for rows in solved if rows[0].of_set != EXAMPLE]
    sets = [[rows[number] for rows in asked] for number in range(term.sets)]
    return lesson_record(term, lesson, examples, sets)
