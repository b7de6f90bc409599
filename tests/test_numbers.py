"""Drawn numbers depend on the term, the exercise, the set and their own name; on nothing else."""

import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from coursepack.lesson import Exercise, Given
from coursepack.numbers import EXAMPLE, Numbers, attempt_numbers, draw_sets, every, how_many, pick
from coursepack.place import LessonFault, Place
from coursepack.quantity import Quantity
from tests.faulty.desk import Edit, read, sound_copy, spoil

PLACE = Place("lessons/01-x.md", 7)
DRAW = 41
PROGRAM = """
import json, sys
from pathlib import Path
from tests.faulty.desk import read
from coursepack.numbers import draw_sets
for lesson in read(Path(sys.argv[1])).lessons:
    for exercise in lesson.exercises:
        for measure in ("inch", "metric"):
            sets = draw_sets(41, exercise, measure, 6, lambda numbers: True)
            print(json.dumps([lesson.id, exercise.id, measure, [{name: str(v) for name, v in one.items()} for one in sets]]))
"""


def given(name: str, count: int) -> Given:
    values = tuple(Quantity.of(n, "in") for n in range(1, count + 1))
    return Given(name, {"inch": values, "metric": values}, name, PLACE)


def exercise(*found: Given, named: str = "e", lesson: str = "x") -> Exercise:
    return Exercise(named, lesson, "E", "alone", (1,), 1, 1, "x/e", False, found, (), (), (), None, (), PLACE)  # noqa: FBT003


def anything(_: Numbers) -> bool:
    return True


def sets(one: Exercise, count: int) -> list[Numbers]:
    return draw_sets(DRAW, one, "inch", count, anything)


def drawn(folder: Path) -> dict[str, list[Numbers]]:
    course = read(folder)
    found = [exercise for lesson in course.lessons for exercise in lesson.exercises]
    return {f"{one.lesson}/{one.id}": sets(one, 6) for one in found}


def in_a_fresh_interpreter(folder: Path, seed: str) -> list[str]:
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM, str(folder)],
        env={**os.environ, "PYTHONHASHSEED": seed, "TZ": "Pacific/Auckland" if seed == "1" else "UTC"},
        cwd=Path(__file__).parents[1], capture_output=True, text=True, check=True, timeout=60,
    )  # fmt: skip
    return done.stdout.splitlines()


def test_fresh_interpreters_with_other_hash_seeds_draw_the_same(tmp_path: Path) -> None:
    first, again = (in_a_fresh_interpreter(sound_copy(tmp_path / seed), seed) for seed in ("1", "2"))
    assert first == again
    assert len(first) == 6
    here = drawn(sound_copy(tmp_path))
    told = [json.loads(line) for line in first]
    for lesson, one, measure, numbers in told:
        if measure == "inch":
            assert numbers == [{name: str(v) for name, v in s.items()} for s in here[f"{lesson}/{one}"]]


def test_a_number_is_the_same_for_ever() -> None:
    # the first 12 bytes of SHA-256 of '41/x/e/1/a/0', taken with sha256sum, as a whole number modulo 1000
    assert pick(DRAW, exercise(), 1, "a", 0, 1000) == int("de4b9676726fc966059daad7", 16) % 1000


MORE: list[tuple[str, list[Edit]]] = [
    ("an exercise before it", [("01-bevels.md", "### Rear face\n", '### New\n\n```exercise\nid = "new"\nstage = "worked"\naims = [1]\n```\n\n```given\nfront = { both = "4 in | 5 in | 6 in", means = "m" }\n```\n\n```working\nrear = front / 2  # Half.\n```\n\n```find\n[rear]\nask = "What?"\nnearest = "1/64 in"\nwithin = "1/64 in"\n```\n\n### Rear face\n')]),
    ("words in the reading", [("01-bevels.md", "An edge is cut", "Now and then an edge is cut")]),
    ("another title and number of benches", [("terms/spring.toml", "benches = 3", "benches = 9"), ("01-bevels.md", "# Bevels\n", "# Bevelling\n")]),
    ("a step and a question", [("01-bevels.md", "```find\n", '```find\n[drop]\nask = "How much?"\nnearest = "1/64 in"\nwithin = "1/64 in"\n')]),
]  # fmt: skip


@pytest.mark.parametrize("case", MORE, ids=lambda case: str(case[0]))
def test_what_is_added_beside_an_exercise_changes_none_of_its_numbers(
    case: tuple[str, list[Edit]], tmp_path: Path
) -> None:
    before = drawn(sound_copy(tmp_path / "a"))
    after = drawn(spoil(sound_copy(tmp_path / "b"), *case[1]))
    assert {name: after[name] for name in before} == before


def test_a_lesson_added_changes_no_number(tmp_path: Path) -> None:
    before = drawn(sound_copy(tmp_path / "a"))
    folder = sound_copy(tmp_path / "b")
    text = (folder / "02-guides.md").read_text("utf-8").replace("number    = 2", "number    = 3")
    (folder / "03-more.md").write_text(text, "utf-8")
    after = drawn(folder)
    assert len(after) == len(before) + 1
    assert {name: after[name] for name in before} == before


def test_a_number_added_to_an_exercise_changes_none_of_the_others() -> None:
    few = sets(exercise(given("a", 1000), given("b", 1000)), 12)
    more = sets(exercise(given("c", 5), given("a", 1000), given("b", 1000)), 12)
    assert [{"a": one["a"], "b": one["b"]} for one in more] == few


def test_the_order_in_which_numbers_are_given_changes_none() -> None:
    assert sets(exercise(given("a", 9), given("b", 9)), 30) == sets(
        exercise(given("b", 9), given("a", 9)), 30
    )


@pytest.mark.parametrize("count", [1, 3, 7])
def test_a_set_drawn_alone_equals_the_set_drawn_with_the_others(count: int) -> None:
    one = exercise(given("a", 3), given("b", 4))
    assert sets(one, count)[count] == sets(one, 11)[count]


def test_benches_get_different_sets_while_the_choices_last_and_repeat_none_before() -> None:
    one = exercise(given("a", 3), given("b", 4))
    found = sets(one, 11)
    assert all(numbers not in found[:place] for place, numbers in enumerate(found))
    assert len(found) == how_many(one, "inch") == 12
    assert sets(one, 14)[:12] == found


def test_the_last_choice_that_fits_is_found_however_rare_it_is() -> None:
    one = exercise(given("a", 60), given("b", 60))
    rare = {"a": Quantity.of(17, "in"), "b": Quantity.of(60, "in")}
    assert draw_sets(DRAW, one, "inch", EXAMPLE, lambda numbers: numbers == rare) == [rare]


def test_other_terms_lessons_exercises_and_sets_draw_other_numbers() -> None:
    many = (given("a", 1000), given("b", 1000))
    ways = [
        attempt_numbers(draw, exercise(*many, named=named, lesson=lesson), of_set, "inch", attempt)
        for draw, named, lesson, of_set, attempt in [(1, "e", "x", 1, 0), (2, "e", "x", 1, 0), (1, "f", "x", 1, 0), (1, "e", "y", 1, 0), (1, "e", "x", 2, 0), (1, "e", "x", 1, 1)]
    ]  # fmt: skip
    assert all(way not in ways[:place] for place, way in enumerate(ways))


def test_every_choice_is_drawn_about_as_often_as_another() -> None:
    one = exercise(given("a", 10))
    counts = [0] * 10
    for of_set in range(2000):
        value = attempt_numbers(DRAW, one, of_set, "inch", 0)["a"]
        assert isinstance(value, Quantity)
        counts[int(value.value) - 1] += 1
    assert all(140 < count < 260 for count in counts)  # 200 each, within 4.5 standard deviations


def test_all_combinations_are_listed_once() -> None:
    listed = list(every(exercise(given("a", 3), given("b", 4)), "metric"))
    assert len(listed) == 12
    assert all(numbers not in listed[:place] for place, numbers in enumerate(listed))


def test_numbers_that_nothing_meets_are_a_fault_at_the_exercise() -> None:
    with pytest.raises(LessonFault) as caught:
        draw_sets(DRAW, exercise(given("a", 3)), "inch", 1, lambda _: False)
    assert caught.value.place == PLACE
    assert caught.value.message == "no draw of 'e' in inch meets its requirements"


def test_a_set_is_drawn_again_until_it_is_accepted() -> None:
    found = draw_sets(DRAW, exercise(given("a", 10)), "inch", 2, lambda n: n["a"] != Quantity.of(3, "in"))
    assert Quantity.of(3, "in") not in [numbers["a"] for numbers in found]


def test_numbers_clear_of_a_tie_go_before_others_and_others_are_taken_where_there_are_none() -> None:
    one = exercise(given("a", 10))
    odd = draw_sets(DRAW, one, "inch", 3, anything, lambda n: int(n["a"].value) % 2 == 1)  # type: ignore[union-attr]
    assert [int(numbers["a"].value) % 2 for numbers in odd] == [1, 1, 1, 1]  # type: ignore[union-attr]
    assert draw_sets(DRAW, one, "inch", 3, anything, lambda _: False) == draw_sets(
        DRAW, one, "inch", 3, anything
    )


def test_few_choices_are_not_tried_for_ever() -> None:
    asked: list[Numbers] = []

    def accepts(numbers: Numbers) -> bool:
        asked.append(numbers)
        return numbers["a"] == Quantity.of(2, "in")

    drawn = draw_sets(DRAW, exercise(given("a", 3)), "inch", 12, accepts)
    assert {str(numbers["a"]) for numbers in drawn} == {"2 in"}
    assert len(asked) < 13 * 3 * 25  # sets × choices × a few looks at each


def test_the_lessons_own_place_does_not_matter() -> None:
    one = exercise(given("a", 100))
    assert sets(replace(one, place=Place("elsewhere.md", 99)), 5) == sets(one, 5)
