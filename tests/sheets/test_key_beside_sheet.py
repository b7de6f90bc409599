"""The key lies beside the sheet: every exercise of the course begins at the same place on both, on both papers."""

from pathlib import Path

import pytest

from tests.sheets.layout_reading import exercise_places, laid_out
from tests.sheets.printed_course import REAL, Prepared, prepared

SAME_HEIGHT = 6.0  # mm


@pytest.fixture(scope="module", params=["demo", "metric"])
def real(request: pytest.FixtureRequest) -> Prepared:
    return prepared(REAL, request.param)


def test_both_papers_are_tried() -> None:
    terms = [prepared(REAL, name).term for name in ("demo", "metric")]
    assert [term.paper for term in terms] == ["letter", "A4"]


def test_every_exercise_of_the_key_begins_where_that_of_the_sheet_of_bench_1_does(real: Prepared) -> None:
    for record in real.records:
        sheet = exercise_places(laid_out(*real.job(record, "exercises")))
        key = exercise_places(laid_out(*real.job(record, "key")))
        where = Path(record.lesson.place.path).name
        assert len(sheet) == len(record.sets[0]) == len(key), where
        for number, (asked, answered) in enumerate(zip(sheet, key, strict=True), 1):
            told = f"{where}, exercise {number}: sheet {asked}, key {answered}"
            assert asked[0] == answered[0], told
            assert asked[1] == pytest.approx(answered[1], abs=SAME_HEIGHT), told
