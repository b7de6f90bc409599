"""Drawing numbers: each from a hash of the term's draw number, lesson, exercise, set and name.

Nothing depends on order: adding an exercise or a lesson changes no other number.
"""

import hashlib
import math
from collections.abc import Callable, Iterator, Mapping
from itertools import product

from coursepack.formula import Value
from coursepack.lesson import Exercise
from coursepack.place import LessonFault
from coursepack.quantity import Measure

MOST_TRIES = 2_000
TRIES_A_CHOICE = 20  # enough to meet each combination: one in e^20 is missed
CLEAR_TRIES = 40  # for numbers whose answers are clear of a tie, before others are taken too
MOST_LISTED = 4_000
EXAMPLE = 0  # the set that the reading's worked example takes; benches' sets count from 1

Numbers = Mapping[str, Value]
Accepts = Callable[[Numbers], bool]


def pick(draw: int, exercise: Exercise, of_set: int, name: str, attempt: int, count: int) -> int:
    """Return a number from 0 to count - 1, the same for the same arguments on any machine."""
    words = f"{draw}/{exercise.lesson}/{exercise.id}/{of_set}/{name}/{attempt}"
    return int.from_bytes(hashlib.sha256(words.encode()).digest()[:12]) % count


def attempt_numbers(draw: int, exercise: Exercise, of_set: int, measure: Measure, attempt: int) -> Numbers:
    """Return one attempt at a set's numbers, whether or not it meets the requirements."""
    return {
        given.name: given.choices[measure][
            pick(draw, exercise, of_set, given.name, attempt, len(given.choices[measure]))
        ]
        for given in exercise.given
    }


def draw_sets(
    draw: int, exercise: Exercise, measure: Measure, count: int, accepts: Accepts, is_clear: Accepts = lambda _: True
) -> list[Numbers]:  # fmt: skip
    """Draw the example and sets 1 to `count`; sets differ while the choices last.

    Numbers that are clear, their answers not close to a tie in rounding, go before others. Raises LessonFault where no draw meets the requirements.
    """
    taken: list[Numbers] = []
    for of_set in range(count + 1):
        taken.append(_one_set(draw, exercise, of_set, measure, taken, accepts, is_clear))
    return taken


def _one_set(
    draw: int, exercise: Exercise, of_set: int, measure: Measure, used: list[Numbers], accepts: Accepts, is_clear: Accepts
) -> Numbers:  # fmt: skip
    fits: Numbers | None = None  # used before, where there is no other
    close: Numbers | None = None  # new, but an answer lies close to a tie
    for attempt in range(min(MOST_TRIES, TRIES_A_CHOICE * (how_many(exercise, measure) or MOST_TRIES))):
        if close and attempt >= CLEAR_TRIES:
            return close
        numbers = attempt_numbers(draw, exercise, of_set, measure, attempt)
        is_new = numbers not in used
        if not (is_new or fits is None) or not accepts(numbers):
            continue
        if is_new and is_clear(numbers):
            return numbers
        close, fits = (close or numbers, fits) if is_new else (close, numbers)
    found = close or _first_listed(exercise, measure, used, accepts) or fits
    if found is None:
        raise _no_draw(exercise, measure)
    return found


def _no_draw(exercise: Exercise, measure: Measure) -> LessonFault:
    rules = " and ".join(rule.text for rule in exercise.rules)
    place = exercise.rules[0].place if exercise.rules else exercise.place
    return LessonFault(
        f"no draw of '{exercise.id}' in {measure} meets {rules or 'its requirements'}",
        "widen the choices or ease the requirement",
        place,
    )


def how_many(exercise: Exercise, measure: Measure) -> int | None:
    """Return the number of all combinations of choices, or None where there are too many to list."""
    count = math.prod(len(given.choices[measure]) for given in exercise.given)
    return count if count <= MOST_LISTED else None


def every(exercise: Exercise, measure: Measure) -> Iterator[Numbers]:
    """Yield every combination of choices, in a fixed order."""
    names = [given.name for given in exercise.given]
    for values in product(*(given.choices[measure] for given in exercise.given)):
        yield dict(zip(names, values, strict=True))


def _first_listed(
    exercise: Exercise, measure: Measure, used: list[Numbers], accepts: Accepts
) -> Numbers | None:
    if how_many(exercise, measure) is None:
        return None
    return next(
        (numbers for numbers in every(exercise, measure) if numbers not in used and accepts(numbers)), None
    )
