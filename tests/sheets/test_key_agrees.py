"""The key tells of the same numbers as the sheets, and tells enough to mark them."""

import re
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from pikepdf import Dictionary, Object, Pdf

from coursepack.drafting.catalogue import FIGURES
from coursepack.formula import Argument, Function
from coursepack.pages import compose
from coursepack.place import LessonFaults
from coursepack.quantity import Quantity, printed
from coursepack.reading.course import read_course, read_term
from coursepack.trade.catalogue import FUNCTIONS
from coursepack.workbook import solve_term
from tests.press.pdf_reading import elements, opened, texts
from tests.sheets.printed_course import Prepared, write_small_course

Sheets = Mapping[tuple[str, str], bytes]
Table = list[list[str]]


class _Reader:
    """The text of elements of a PDF."""

    def __init__(self, pdf: Pdf) -> None:
        self.pdf = pdf
        pages = zip(pdf.pages, texts(pdf), strict=True)
        self.pages = {page.obj.objgen: read.text for page, read in pages}

    def text(self, element: Object) -> str:
        page = self.pages.get(element.Pg.objgen, {}) if "/Pg" in element else {}
        parts = []
        for kid in element.get("/K", []):
            if isinstance(kid, Dictionary):
                parts.append(self.text(kid) if "/S" in kid else "")
            else:
                parts.append(page.get(int(kid), ""))
        return "".join(parts)

    def tables(self) -> list[Table]:
        return [
            [[self.text(cell) for cell in row.K] for row in elements_in(table, "/TR")]
            for table in elements_in(self.pdf.Root.StructTreeRoot, "/Table")
        ]


def elements_in(element: Object, kind: str) -> list[Object]:
    found: list[Object] = []
    for kid in element.get("/K", []):
        if isinstance(kid, Dictionary) and "/S" in kid:
            found += [kid] if str(kid.S) == kind else elements_in(kid, kind)
    return found


@pytest.fixture(scope="module")
def tables(pressed: Sheets) -> dict[int, Table]:
    """The tables of sets of the first lesson's key, by the number of the exercise."""
    with opened(pressed["braces", "key"]) as pdf:
        found = [table for table in _Reader(pdf).tables() if table[0][0] == "Set"]
    assert len(found) == 5
    return dict(enumerate(found, 1))


def test_handout_reading_and_key_carry_one_mark_and_another_lesson_another(
    pressed: Sheets, small: Prepared
) -> None:
    marks: dict[str, set[str]] = {}
    for (lesson, _), data in pressed.items():
        with opened(data) as pdf:
            told = " ".join(page.whole for page in texts(pdf))
        marks.setdefault(lesson, set()).update(re.findall(r"pack ([A-Z2-7]{8}) ·", told))
    assert marks == {record.lesson.id: {record.mark} for record in small.records}
    assert marks["braces"].isdisjoint(marks["weights"])


def test_the_numbers_of_every_bench_are_those_of_its_row_in_the_key(
    pressed: Sheets, small: Prepared, tables: dict[int, Table]
) -> None:
    for bench in (1, 2, 3):
        given = _given_on_the_sheet(pressed["braces", "exercises"], bench)
        for number, rows in tables.items():
            row = next(row for row in rows[1:] if row[0] == str(small.term.set_of(bench)))
            assert row[1 : 1 + len(given[number])] == given[number]
    assert sum(len(numbers) for numbers in given.values()) == 2 + 2 + 4 + 4 + 2


@pytest.mark.parametrize(
    ("sets", "told"), [(2, [("1", "1, 3"), ("2", "2")]), (1, [("1", "1, 2, 3")]), (3, [])]
)
def test_a_row_names_its_benches_where_they_share_sets(
    small: Prepared, sets: int, told: list[tuple[str, str]]
) -> None:
    term = replace(small.term, sets=sets)
    (record,) = solve_term(term, small.course.lessons[:1])
    html = compose.key(small.course, term, record.lesson, record.sets, record.mark).html
    table = html.partition('<table class="sets">')[2].partition("</table>")[0]
    assert re.findall(r"<tr><th>(\d+)</th><td>(\d[\d, ]*)</td>", table) == told
    assert ("Each bench works the set of its own number." in html) == (not told)


def _given_on_the_sheet(data: bytes, bench: int) -> dict[int, list[str]]:
    """The numbers given to a bench, by exercise: the last part of each row of 'symbol, meaning, number'."""
    with opened(data) as pdf:
        reader = _Reader(pdf)
        sections = [each for each in elements(pdf) if each.S == "/Sect"]
        sections = sections[5 * (bench - 1) : 5 * bench]
        rows = [[reader.text(row) for row in elements_in(one, "/P")] for one in sections]
        return {
            number: [
                found[1].replace("\u2009", "\u00a0") for text in row if (found := _GIVEN.fullmatch(text))
            ]
            for number, row in enumerate(rows, 1)
        }


# a row of what is given: the only plain space in it is the gap before the number
_GIVEN = re.compile(r"[^ ]+?(?:height|width|fall\u2009of|rise\u2009of)[^ ]* ([^ ]+)")


def test_a_row_of_the_key_answers_the_numbers_beside_it(tables: dict[int, Table]) -> None:
    """Worked again from the printed numbers alone, in plain floating point."""
    for row in tables[2][1:]:  # high, wide, wide_half, spare, long, cut_rough
        cells = dict(zip(tables[2][0], row, strict=True))
        long = (_inches(cells["high"]) ** 2 + (_inches(cells["wide"]) / 2) ** 2) ** 0.5
        assert _inches(cells["long"]) == round(long * 32) / 32
        assert _inches(cells["cutrough"]) == round((long + (0.25 if long > 9 else 0.125)) * 32) / 32


def _inches(text: str) -> float:
    *whole, last = text.removesuffix("\xa0in").split("\u202f")
    above, _, below = last.partition("⁄")
    return sum(map(float, whole)) + float(above) / float(below or 1)


def test_each_answer_has_its_limits_its_rounding_and_its_other_forms(small: Prepared) -> None:
    html = small.job(small.record("braces"), "key")[1][0].html
    for solved in small.record("braces").sets[0][:4]:
        for answer in solved.answers:
            low, high = (_shop(answer.value, sign) for sign in (-1, 1))
            assert f"accept {low} to {high}; also " in html
    assert html.count("to the nearest 1⁄32\xa0in") == 3
    assert len(re.findall(r"also [\d.]+\xa0in or [\d.]+\xa0mm\.|also [\d.]+\xa0mm\.", html)) == 5


def _shop(value: Quantity, sign: int) -> str:
    """A mark up or down in shop notation: every answer of these exercises is within one mark of its own rule."""
    mark = 32 if value.value.denominator <= 32 and value.value > 5 else 64  # type: ignore[union-attr]
    moved = value.value * mark + sign
    whole, part = divmod(int(moved), mark)
    while part and part % 2 == 0:
        part, mark = part // 2, mark // 2
    fraction = f"\u202f{part}⁄{mark}" if part else ""
    return f"{whole}{fraction}\xa0in"


def test_part_marks_add_up_to_the_marks_of_the_exercise_and_those_to_the_total(small: Prepared) -> None:
    html = small.job(small.record("braces"), "key")[1][0].html
    sections = html.split('<section class="exercise ')[1:]
    total = 0
    for section in sections:
        marks = int(re.search(r"· (\d+) marks?</span>", section)[1])  # type: ignore[index]
        total += marks
        parts = [int(part) for part in re.findall(r'class="part">\[(\d+)\]', section)]
        assert section.startswith("bench") or sum(parts) == marks
        assert 0 not in parts
    assert f"{total} marks</span></p>" in html
    assert len(sections) == 5


def test_every_slip_is_named_with_what_it_shows(small: Prepared) -> None:
    for record in small.records:
        html = small.job(record, "key")[1][0].html
        said = [
            slip.slip.say for solved in record.sets[0] for answer in solved.answers for slip in answer.slips
        ]
        assert len(said) > 3
        assert len(re.findall(r'<p class="slip">(?:\([a-h]\) )?<b>[^<]+</b> ', html)) == len(
            [
                one
                for solved in record.sets[0]
                if solved.exercise.stage != "bench"
                for a in solved.answers
                for one in a.slips
            ]
        )
        assert all(text.replace("'", "&#39;") in html for text in said)


def test_every_aim_has_an_exercise_in_the_table_of_the_key(pressed: Sheets) -> None:
    with opened(pressed["braces", "key"]) as pdf:
        table = next(table for table in _Reader(pdf).tables() if table[0][0] == "Aim")
    assert table[0] == ["Aim", "1", "2", "3", "4", "5"]
    assert [["■" in cell for cell in row[1:]] for row in table[1:]] == [
        [True, True, False, False, False], [False, False, True, True, False], [False, False, False, False, True],
    ]  # fmt: skip


def test_an_exercise_brought_back_serves_its_own_lessons_aim_no_more(pressed: Sheets) -> None:
    with opened(pressed["weights", "key"]) as pdf:
        table = next(table for table in _Reader(pdf).tables() if table[0][0] == "Aim")
    assert ["■" in cell for cell in table[1][1:]] == [True, False]


def test_an_answer_that_depends_on_the_unit_it_is_worked_in_is_a_fault(tmp_path: Path) -> None:
    """A function that takes the bare number of a weight differs in grams and ounces: the second way finds it out."""
    bare = Function(
        "bare",
        lambda weight: Quantity.of(weight.value),
        (Argument("weight", "g"),),
        "",
        "",
        "",
        'bare("1 g")',
    )
    folder = write_small_course(tmp_path / "lessons")
    text = (folder / "02-weights.md").read_text("utf-8")
    told = text.replace("water / dry *", "water / dry * bare(wet) / 60 *").replace("{wood}", "wood")
    (folder / "02-weights.md").write_text(told, "utf-8")
    course = read_course(folder, {**FUNCTIONS, "bare": bare}, FIGURES)
    term = read_term(folder, "small", course)
    with pytest.raises(LessonFaults) as found:
        solve_term(term, course.lessons)
    line = told[: told.index("[moisture]")].count("\n") + 1
    assert str(found.value.faults[0].place) == f"lessons/02-weights.md:{line}"
    assert "'moisture' comes out as" in found.value.faults[0].message
    assert "worked in other units" in found.value.faults[0].message


def test_every_table_of_sets_tells_how_far_its_answers_may_be_off(small: Prepared) -> None:
    record = small.record("braces")
    html = compose.key(small.course, small.term, record.lesson, record.sets, record.mark).html
    told = re.findall(r'<span class="within">(.*?)</span>', html)
    finds = [[answer.find for answer in one.answers] for one in record.sets[0]]
    assert len(told) == len(finds)
    for line, asked in zip(told, finds, strict=True):
        limits = [printed(find.within[small.term.measure]) for find in asked]
        assert line.replace("\u00a0", " ") == ", ".join(
            f"{find.name.replace('_', ' ')} ± {limit}".replace("\u00a0", " ")
            for find, limit in zip(asked, limits, strict=True)
        )


def test_sets_that_are_all_alike_take_one_row(small: Prepared) -> None:
    record = small.record("braces")
    (first, *_), count = record.sets, len(record.sets)
    alike = tuple(replace(first[0], of_set=number) for number in range(1, count + 1))
    sets = [(same, *row[1:]) for same, row in zip(alike, record.sets, strict=True)]
    rows = [
        [compose._SetTable(number, [row[number - 1] for row in each], small.term).rows for number in (1, 2)]
        for each in (record.sets, sets)
    ]
    assert [[len(table) for table in each] for each in rows] == [[count, count], [1, count]]
    assert rows[1][0] == [("all", "all", *rows[0][0][0][2:])]
