from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import groupby
from pathlib import Path
from typing import Any

import pytest

from coursepack.pages.compose import _Drawings, _views
from coursepack.pages.views import HEADER, PAGE, ExerciseView, paged
from coursepack.quantity import printed
from tests.sheets.printed_course import Prepared, prepared, write_small_course


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Prepared:
    return prepared(write_small_course(tmp_path_factory.mktemp("views") / "lessons"), "small")


@pytest.fixture(scope="module")
def views(small: Prepared) -> Sequence[ExerciseView]:
    return _views(small.record("braces").sets[0], _Drawings(), answered=False)


def with_height(view: ExerciseView, height: float, **more: object) -> ExerciseView:
    """A view that takes a height in mm, as far as breaking pages goes."""

    class Fixed(ExerciseView):
        def height(self) -> float:
            return height

    values = {name: getattr(view, name) for name in view.__dataclass_fields__}
    return Fixed(**{**values, **more})


def breaks(heights: Sequence[float], views: Sequence[ExerciseView], paper: str = "letter") -> list[bool]:
    """Which of some exercises, of heights in mm, begin a new page."""
    rows = [with_height(views[0], height, number=number) for number, height in enumerate(heights, 1)]
    return [one.fresh for one in paged(rows, paper)]


def test_an_exercise_that_no_longer_fits_begins_a_new_page(views: Sequence[ExerciseView]) -> None:
    assert breaks([100, 100, 100], views) == [False, False, True]
    assert breaks([100, 100, 100, 100, 100], views) == [False, False, True, False, True]


def test_the_first_page_has_less_room_by_its_header(views: Sequence[ExerciseView]) -> None:
    room = PAGE["letter"] - HEADER
    assert breaks([room / 2, room / 2], views) == [False, False]
    assert breaks([room / 2, room / 2 + 1], views) == [False, True]


def test_one_taller_than_a_page_begins_where_it_stands_and_the_next_on_a_new_one(
    views: Sequence[ExerciseView],
) -> None:
    assert breaks([400, 50], views) == [False, True]


def test_a4_holds_more_than_letter(views: Sequence[ExerciseView]) -> None:
    assert breaks([110, 115], views, "letter") == [False, True]
    assert breaks([110, 115], views, "A4") == [False, False]


def test_work_at_the_bench_begins_a_page_of_its_own(views: Sequence[ExerciseView]) -> None:
    bench = next(view for view in views if view.exercise.stage == "bench")
    rows = [with_height(views[0], 20, number=1), with_height(bench, 20, number=2)]
    assert [one.fresh for one in paged(rows, "letter")] == [False, True]


def test_the_height_is_kept_only_where_another_exercise_follows_on_the_page(
    views: Sequence[ExerciseView],
) -> None:
    rows = [with_height(views[0], 90, number=number) for number in (1, 2, 3)]
    kept = [one.kept_mm for one in paged(rows, "letter")]
    assert kept[0] == pytest.approx(90 - 4.4)  # the margin above its heading is not part of it
    assert kept[1:] == [0, 0]


def test_what_a_page_has_to_spare_becomes_room_to_work_in_whole_squares(
    views: Sequence[ExerciseView],
) -> None:
    alone = paged([views[0]], "letter")[0]
    assert alone.room_mm - views[0].room_mm == 40  # never more than this
    numbered = [replace(view, number=number) for number, view in enumerate([*views, *views], 1)]
    rows = paged([view for view in numbered if view.exercise.stage != "bench"], "letter")
    pages = [list(page) for _, page in groupby(rows, key=count_of_pages())]
    for number, page in enumerate(pages):
        assert len({view.more_mm for view in page}) == 1
        assert page[0].more_mm in range(0, 45, 5)
        spare = sum(view.height() for view in page) + (HEADER if number == 0 else 0)
        assert spare <= PAGE["letter"]
    filled = paged([replace(views[2], number=1, figure_mm=190.0)], "letter")[0]
    assert filled.more_mm == 0


def count_of_pages() -> Callable[[ExerciseView], int]:
    """Return a function that tells the page of each exercise, asked in their order."""
    page = 0

    def page_of(view: ExerciseView) -> int:
        nonlocal page
        page += view.fresh
        return page

    return page_of


def test_a_wide_figure_stands_over_the_text_and_adds_its_height(small: Prepared) -> None:
    solved = small.record("braces").sets[0][2]
    figure = solved.exercise.figure
    assert figure
    wide = replace(solved, exercise=replace(solved.exercise, figure=replace(figure, wide=True)))
    beside, across = _views([solved, wide], _Drawings(), answered=False)
    assert (beside.across, across.beside) == ("", "")
    assert beside.beside
    assert across.across
    without = replace(across, figure_mm=0.0)
    assert across.height() == pytest.approx(without.height() + across.figure_mm)


def test_a_faded_exercise_shows_its_first_steps_and_leaves_the_last(views: Sequence[ExerciseView]) -> None:
    names = [step.name for step in views[0].shown], [step.name for step in views[0].hidden]
    assert names == (["wide_half", "long"], ["spare", "cut_rough"])


@pytest.mark.parametrize(
    ("marks", "shares"), [(2, [1, 1]), (3, [1, 2]), (5, [2, 3]), (6, [3, 3]), (7, [3, 4])]
)
def test_marks_are_shared_over_the_steps_left_and_the_last_take_what_is_over(
    small: Prepared, marks: int, shares: list[int]
) -> None:
    solved = small.record("braces").sets[0][0]
    marked = replace(solved, exercise=replace(solved.exercise, marks=marks))
    view = _views([marked], _Drawings(), answered=True)[0]
    assert [step.marks for step in view.steps] == [0, 0, *shares]


def test_a_step_is_printed_in_symbols_then_with_its_numbers_and_the_result(
    small: Prepared, views: Sequence[ExerciseView]
) -> None:
    solved = small.record("braces").sets[0][0]
    wide = printed(solved.numbers["wide"])  # type: ignore[arg-type]
    first = views[0].steps[0]
    assert first.sentence == "Half the width is one short side."
    assert [sign for sign, _ in first.equations] == ["=", "="]
    assert first.equations[0][1] == '<span class="frac"><span><i>wide</i></span><span>2</span></span>'
    assert first.equations[1][1].startswith(
        f'<span class="frac"><span>{wide}</span><span>2</span></span> =\xa0'
    )


def test_an_answer_stands_after_its_unrounded_step_in_the_second_hand(small: Prepared) -> None:
    solved = small.record("braces").sets[0][1]
    view = _views([solved], _Drawings(), answered=True)[0]
    long = next(step for step in view.steps if step.name == "long")
    assert long.equations[-1][1].endswith(f" <b>≈\xa0{printed(solved.answers[0].value)}</b>")


def test_symbol_meaning_and_value_share_the_width_of_the_column(views: Sequence[ExerciseView]) -> None:
    for view in views:
        assert view.symbol_mm + view.means_mm + view.value_mm == pytest.approx(view.text_mm)
        assert view.means_mm > 40


def test_the_room_without_a_figure_is_as_high_as_the_text_beside_it(views: Sequence[ExerciseView]) -> None:
    plain, drawn = views[0], views[2]
    spare = plain._text_height() - plain.room_mm
    assert 3 <= spare < 3 + 5  # its margins and less than a square are left
    assert drawn.room_mm == 20  # one step of 15 mm, in whole squares of 5 mm


def test_no_exercise_of_the_real_course_is_higher_on_the_page_than_reckoned() -> None:
    """What is reckoned too low would break the pages of sheet and key at different exercises."""
    from tests.sheets.layout_reading import MM, boxes, laid_out  # noqa: PLC0415 - the press is slow to load
    from tests.sheets.printed_course import REAL  # noqa: PLC0415

    real = prepared(Path(REAL), "demo")
    for record in real.records:
        reckoned = paged(_views(record.sets[0], _Drawings(), answered=True), real.term.paper)
        pages = laid_out(*real.job(record, "key"))
        measured = [box.height * MM for page in pages for box in boxes(page, "section", "exercise")]
        for view, measure in zip(reckoned, measured, strict=False):
            if view.exercise.stage != "bench":
                assert measure <= view.height() + 2, f"{record.lesson.id}/{view.exercise.id}"


@pytest.mark.parametrize("term", ["demo", "metric"])
def test_no_line_of_a_worked_step_is_a_sign_alone(term: str) -> None:
    from tests.sheets.layout_reading import boxes, laid_out  # noqa: PLC0415 - the press is slow to load
    from tests.sheets.printed_course import REAL  # noqa: PLC0415

    real = prepared(Path(REAL), term)
    for record in real.records:
        equations = [box for page in laid_out(*real.job(record, "key")) for box in boxes(page, "p", "eq")]
        lines = [line for equation in equations for line in equation.children]
        told = [_said(line) for line in lines]
        assert not {"", "=", "≈", "+", "−", "×"} & set(told), record.lesson.id
        assert len(told) >= len(equations) > 0
        second = [_said(line) for equation in equations for line in equation.children[1:]]
        assert [line for line in second if line.startswith(("=", "≈"))] == [], "not under the sign above it"


def _said(line: Any) -> str:
    return "".join(getattr(box, "text", "") for box in line.descendants()).strip()
