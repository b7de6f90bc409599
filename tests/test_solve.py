"""An exercise is worked with its units, twice, and what no draw may give is told with its numbers."""

from pathlib import Path

import pytest

from coursepack.lesson import Exercise
from coursepack.numbers import Numbers
from coursepack.place import LessonFault
from coursepack.proof import figure_trouble, prove_exercise, troubles
from coursepack.quantity import plain
from coursepack.shoptext import parse
from coursepack.solve import accepts, is_clear, solve
from tests.faulty.desk import Edit, read, sound_copy, spoil

LESSON = "01-bevels.md"
DRAW: Numbers = {"front": parse("4 1/2 in"), "width": parse("1 in"), "top": parse("8 deg")}


def rear(desk: Path, *edits: Edit) -> Exercise:
    return read(spoil(sound_copy(desk), *edits)).lessons[0].exercises[0]


def told(exercise: Exercise, numbers: Numbers) -> list[str]:
    solved = solve(exercise, numbers, "inch", 1)
    return [fault.message for _, fault in (*troubles(solved), *figure_trouble(solved, answered=True))]


def test_steps_are_carried_unrounded_and_the_answer_is_rounded_once(tmp_path: Path) -> None:
    solved = solve(rear(tmp_path), DRAW, "inch", 1)
    drop, left = (step.value for step in solved.steps)
    # tan 8° = 0.14054: from any table of tangents
    assert drop.number("in") == pytest.approx(0.14054, abs=1e-5)
    assert left.number("in") == pytest.approx(4.5 - 0.14054, abs=1e-5)
    answer = solved.answers[0]
    assert plain(answer.value) == "4 23/64 in"  # 4.35946 in is 278.99 64ths: 4 23/64
    assert (plain(answer.low), plain(answer.high)) == ("4 11/32 in", "4 3/8 in")
    assert answer.also == ("4.359375 in", "110.73 mm")  # 279/64 in = 4.359375 in = 110.728125 mm
    assert [plain(slip.value) for slip in answer.slips] == [
        "4 41/64 in"
    ]  # 4.5 + 0.14054 = 4.64054 in, 297/64


def judged(desk: Path, *verdicts: str) -> Exercise:
    table = ", ".join(verdicts)
    return (
        read(
            spoil(
                sound_copy(desk),
                ("02-guides.md", 'stage = "alone"', f'stage = "alone"\nverdict = {{ {table} }}'),
            )
        )
        .lessons[1]
        .exercises[0]
    )


def test_the_verdict_is_the_word_whose_comparison_holds(tmp_path: Path) -> None:
    exercise = judged(tmp_path, "high = 'rear >= \"4 3/8 in\"'", "low = 'rear < \"4 3/8 in\"'")
    assert solve(exercise, DRAW, "inch", 1).verdict == "low"  # 4.35946 in, as above, is less than 4.375 in
    assert solve(exercise, {**DRAW, "width": parse("3/4 in")}, "inch", 1).verdict == "high"  # 4.39460 in
    assert exercise.marks == len(exercise.steps) + 1


@pytest.mark.parametrize(
    ("high", "told"),
    [("rear > front", "none of its verdicts is right"), ("rear > drop", "high and low of its verdicts")],
)
def test_a_draw_with_no_right_verdict_or_two_is_a_fault(tmp_path: Path, high: str, told: str) -> None:
    low = "rear < drop" if told.startswith("none") else "rear < front"
    exercise = judged(tmp_path, f'high = "{high}"', f'low = "{low}"')
    with pytest.raises(LessonFault, match=told):
        solve(exercise, DRAW, "inch", 1)


def tabled(desk: Path, rows: str, *edits: Edit) -> Exercise:
    like = 'like  = "bevels/rear"\n```\n'
    one = '\n```given\nwidth = { both = "1 in" }\n```\n'
    block = f'\n```table\ntitle = "Slopes"\nrows = {{ {rows} }}\ncolumns = ["drop"]\nnearest = {{ inch = "1/64 in", metric = "0.1 mm" }}\n```\n'
    return (
        read(spoil(sound_copy(desk), *edits, ("02-guides.md", like, like + one + block)))
        .lessons[1]
        .exercises[0]
    )


def test_a_table_works_the_steps_again_for_every_row(tmp_path: Path) -> None:
    exercise = tabled(tmp_path, 'top = "0 deg | 4 deg | 8 deg"')
    (table,) = solve(exercise, DRAW, "inch", 1).tables
    assert [(str(top), [plain(cell) for cell in cells]) for top, cells in table.rows] == [
        ("0 deg", ["0 in"]),
        ("4 deg", ["1/16 in"]),  # tan 4° = 0.06993, 4.48 64ths
        ("8 deg", ["9/64 in"]),  # tan 8° = 0.14054, 8.99 64ths
    ]
    (metric,) = solve(exercise, {**DRAW, "width": parse("25.4 mm")}, "metric", 1).tables
    assert [plain(cells[0]) for _, cells in metric.rows] == ["0 mm", "1.8 mm", "3.6 mm"]


def test_a_metric_term_asks_for_tenths_of_a_millimetre(tmp_path: Path) -> None:
    metric = {"front": parse("110 mm"), "width": parse("20 mm"), "top": parse("8 deg")}
    answer = solve(rear(tmp_path), metric, "metric", 1).answers[0]
    assert plain(answer.value) == "107.2 mm"  # 110 - 20 x 0.14054 = 107.189


def test_numbers_whose_answer_lies_close_to_a_tie_are_not_clear(tmp_path: Path) -> None:
    metric = {"front": parse("110 mm"), "width": parse("20 mm"), "top": parse("8 deg")}
    exercise = rear(tmp_path)
    assert is_clear(exercise, "metric", metric)  # 107.189 mm: 0.39 of a tenth from the tie
    close = {**metric, "front": parse("110.06 mm")}  # 107.249 mm: 0.01 of a tenth from it
    assert not is_clear(exercise, "metric", close)


def test_a_requirement_on_what_is_given_keeps_a_step_from_what_it_cannot_work(tmp_path: Path) -> None:
    exercise = rear(
        tmp_path,
        (LESSON, '"rear > front / 2"', '["width < front", "rear > front / 2"]'),
        (
            LESSON,
            "width * tan(top)  #",
            "(front - width) ** (1/2) * width / (front - width) ** (1/2) * tan(top)  #",
        ),
    )
    assert accepts(exercise, "inch", DRAW)
    assert not accepts(exercise, "inch", {**DRAW, "width": parse("4 1/2 in")})
    assert not accepts(exercise, "inch", {**DRAW, "width": parse("5 in")})


def test_a_requirement_on_a_step_turns_a_draw_down(tmp_path: Path) -> None:
    exercise = rear(tmp_path, (LESSON, '"rear > front / 2"', '"rear > 4 * width"'))
    assert accepts(exercise, "inch", DRAW)
    assert not accepts(exercise, "inch", {**DRAW, "width": parse("1 1/4 in")})


TROUBLES: dict[str, tuple[list[Edit], dict[str, str], str]] = {
    "a size below zero": ([], {"front": "1/8 in"}, "'rear' is -0.01554 in, an impossible size"),
    "an answer that rounds to zero": ([], {"front": "9/64 in"}, "the answer 'rear' rounds to zero"),
    "a slip that gives the right answer": ([(LESSON, '"front + drop"', '"front - drop * 1.01"')], {}, "the slip 'added' gives 4 23/64 in, which is accepted as right"),
    "a figure that does not fit": ([(LESSON, 'ask  = ["rear"]', 'ask  = ["rear"]\nscale = "1:1"')], {"front": "40 in"}, ""),
}  # fmt: skip


@pytest.mark.parametrize("name", TROUBLES)
def test_what_no_sheet_may_print_is_told_with_the_numbers_that_did_it(name: str, tmp_path: Path) -> None:
    edits, numbers, message = TROUBLES[name]
    found = told(rear(tmp_path, *edits), {**DRAW, **{key: parse(text) for key, text in numbers.items()}})
    given = (
        f"(in bevels/rear, inch, with front = {numbers.get('front', '4 1/2 in')}, width = 1 in, top = 8 deg)"
    )
    assert any(line.startswith(message) and line.endswith(given) for line in found), found


@pytest.mark.parametrize(("limit", "word"), [("4.37 in", "high"), ("4.35 in", "low")])
def test_an_accepted_answer_that_turns_the_verdict_is_told(tmp_path: Path, limit: str, word: str) -> None:
    exercise = judged(tmp_path, f"high = 'rear >= \"{limit}\"'", f"low = 'rear < \"{limit}\"'")
    found = told(exercise, DRAW)  # 4.35946 in: 4 23/64 in, accepted from 4 11/32 in to 4 3/8 in
    right = {"high": "low", "low": "high"}[word]
    assert found[0].startswith(f"the verdict is '{right}', and '{word}' with ")
    assert "which is accepted for 'rear' (in guides/again" in found[0]


def test_a_verdict_clear_of_every_accepted_answer_is_no_trouble(tmp_path: Path) -> None:
    exercise = judged(tmp_path, "high = 'rear >= \"4.38 in\"'", "low = 'rear < \"4.38 in\"'")
    assert told(exercise, DRAW) == []


def test_a_sound_draw_has_no_trouble(tmp_path: Path) -> None:
    assert told(rear(tmp_path), DRAW) == []


def test_proof_tells_each_kind_of_trouble_once_with_its_line(tmp_path: Path) -> None:
    exercise = rear(tmp_path, (LESSON, '"front + drop"', '"front - drop / 2 - drop / 2"'))
    found = prove_exercise(exercise, "metric")
    assert len(found) == 1
    assert found[0].message.startswith("the slip 'added' gives ")
    assert "which is accepted as right (in bevels/rear, metric, with front = " in found[0].message
    assert str(found[0].place) == "lessons/01-bevels.md:49"


def test_a_step_that_cannot_be_worked_is_told_at_its_line_with_the_numbers(tmp_path: Path) -> None:
    exercise = rear(tmp_path, (LESSON, "width * tan(top)  #", "width * tan(top * 20)  #"))
    with pytest.raises(LessonFault) as caught:
        solve(exercise, DRAW, "inch", 1)
    assert str(caught.value.place) == "lessons/01-bevels.md:39"
    assert caught.value.message == "angle is 160 deg (with front = 4 1/2 in, width = 1 in, top = 8 deg)"


def test_proof_goes_on_drawing_until_enough_meet_a_rare_requirement(tmp_path: Path) -> None:
    wide = (LESSON, '"3/4 in | 1 in"', '"1/8 in to 3 in by 1/64 in"')
    rare = (LESSON, '"rear > front / 2"', "'width < \"9/64 in\"'")
    assert prove_exercise(rear(tmp_path, wide, rare), "inch") == []
