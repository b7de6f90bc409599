"""What a file and its pages must have, on every page of every sheet of the small course."""

import re
from collections.abc import Iterator, Mapping
from itertools import pairwise

import pytest
from pikepdf import Dictionary, Object, Pdf

from tests.press.pdf_reading import elements, opened, texts
from tests.sheets.pdf_looks import contrast, fonts, forms, glyph_codes, inks, inks_of
from tests.sheets.printed_course import Prepared

import pikepdf  # isort: skip

Sheets = Mapping[tuple[str, str], bytes]
FOOT = re.compile(r"practice piece, not for flight · pack ([A-Z2-7]{8}) · page (\d+) of (\d+)")
SHEETS = [(lesson, kind) for lesson in ("braces", "weights") for kind in ("reading", "exercises", "key")]


@pytest.fixture(params=SHEETS, ids="-".join)
def sheet(request: pytest.FixtureRequest) -> tuple[str, str]:
    found: tuple[str, str] = request.param
    return found


@pytest.fixture
def pdf(sheet: tuple[str, str], pressed: Sheets) -> Iterator[Pdf]:
    with opened(pressed[sheet]) as found:
        yield found


def running_heads(pdf: Pdf) -> list[str]:
    """The text of each printed page that stands in no tag."""
    return [page.text[-1] for page in texts(pdf) if page.text]


def test_every_page_says_lesson_sheet_pack_and_page_of_how_many(
    sheet: tuple[str, str], pdf: Pdf, small: Prepared
) -> None:
    record = small.record(sheet[0])
    name = {"reading": "Reading", "exercises": "Exercises", "key": "Answer key"}[sheet[1]]
    feet = [FOOT.search(head) for head in running_heads(pdf)]
    pages = [(int(foot[2]), int(foot[3])) for foot in feet if foot]
    assert len(pages) == len([page for page in texts(pdf) if page.text])
    assert {foot[1] for foot in feet if foot} == {record.mark}
    assert all(
        f"{record.lesson.number} {record.lesson.title} · {name}" in head for head in running_heads(pdf)
    )
    for number, (page, of) in enumerate(pages):
        assert page == 1 if number == 0 or pages[number - 1][0] == pages[number - 1][1] else page > 1
        assert page <= of <= 10


def test_every_page_of_the_exercises_says_its_bench_and_set(pressed: Sheets, small: Prepared) -> None:
    with opened(pressed["braces", "exercises"]) as pdf:
        found = [re.search(r"bench (\d+), set (\d+)", head) for head in running_heads(pdf)]
    told = [(int(one[1]), int(one[2])) for one in found if one]
    assert len(told) == len(found)
    assert sorted(set(told)) == [(bench, small.term.set_of(bench)) for bench in (1, 2, 3)]


def test_only_the_key_says_instructor_and_it_does_everywhere(sheet: tuple[str, str], pdf: Pdf) -> None:
    is_key = sheet[1] == "key"
    heads = running_heads(pdf)
    assert all(head.startswith("INSTRUCTOR") == is_key for head in heads)
    for told in (str(pdf.docinfo.Title), pdf.Root.Metadata.read_bytes().decode(), texts(pdf)[0].tagged):
        assert ("INSTRUCTOR" in told) == is_key
    if not is_key:
        assert "INSTRUCTOR" not in "".join(page.whole for page in texts(pdf))


def test_title_and_language_are_told_and_shown(pdf: Pdf, sheet: tuple[str, str], small: Prepared) -> None:
    assert small.record(sheet[0]).lesson.title in str(pdf.docinfo.Title)
    assert str(pdf.Root.Lang) == "en"
    assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
    assert b"pdfuaid:part" in pdf.Root.Metadata.read_bytes()


def test_headings_begin_with_the_first_level_and_skip_none(pdf: Pdf) -> None:
    levels = [int(str(each.S)[2:]) for each in elements(pdf) if re.fullmatch(r"/H\d", str(each.S))]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_no_heading_or_paragraph_holds_another(pdf: Pdf) -> None:
    for each in elements(pdf):
        inner = [kid.S for kid in each.get("/K", []) if isinstance(kid, Dictionary) and "/S" in kid]
        assert each.S not in inner or each.S in ("/Span", "/Div", "/NonStruct")


def test_tables_are_rectangular_and_every_cell_has_its_header(pdf: Pdf, sheet: tuple[str, str]) -> None:
    tables = [each for each in elements(pdf) if each.S == "/Table"]
    assert bool(tables) == (sheet not in {("weights", "reading"), ("weights", "exercises")})
    for table in tables:
        rows = [[cell for cell in row.K if "/S" in cell] for row in _inside(table, "/TR")]
        assert len({len(row) for row in rows}) == 1
        assert all(cell.S == "/TH" for cell in rows[0])
        for cell in (cell for row in rows[1:] for cell in row if cell.S == "/TD"):
            assert len(cell.A.Headers) >= 1


def _inside(element: Object, kind: str) -> list[Object]:
    found: list[Object] = []
    for kid in element.get("/K", []):
        if isinstance(kid, Dictionary) and "/S" in kid:
            found += [kid] if str(kid.S) == kind else _inside(kid, kind)
    return found


def test_every_figure_has_a_text_for_who_cannot_see_it(pressed: Sheets) -> None:
    alts = {}
    for name, data in pressed.items():
        with opened(data) as pdf:
            figures = [each for each in elements(pdf) if each.S == "/Figure"]
            alts[name] = [str(each.Alt) for each in figures]
    assert [len(alts[name]) for name in alts] == [2, 6, 2, 0, 0, 0]
    assert all(len(text) > 20 for texts_of in alts.values() for text in texts_of)
    assert "A brace across a bay, from the lower left to the upper right" in alts["braces", "reading"]
    assert all("to be found" in text for text in alts["braces", "exercises"])


def test_every_font_is_embedded_and_no_glyph_is_missing(pdf: Pdf) -> None:
    for page in pdf.pages:
        assert 0 not in glyph_codes(page)  # glyph 0 of every font is .notdef
        for font in fonts(page):
            descriptor = font.DescendantFonts[0].FontDescriptor
            assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(descriptor.keys())
            assert "Bench" in str(descriptor.FontName)


def test_nothing_is_coloured_and_what_is_read_is_black(pdf: Pdf) -> None:
    for page in pdf.pages:
        found = inks(page)
        drawn = [inks_of(pikepdf.parse_content_stream(form)) for form in forms(page)]
        assert [ink for each in (found, *drawn) for ink in each.coloured] == []
        assert all(contrast(grey) >= 4.5 for each in (found, *drawn) for grey in each.text)
        assert all(contrast(grey) >= 3 for grey in found.drawn if grey < 1)


def test_running_heads_and_blank_pages_are_no_part_of_what_is_read_aloud(pdf: Pdf) -> None:
    for page in texts(pdf):
        assert "not for flight · pack" not in page.tagged


def test_a_page_is_read_in_the_order_in_which_it_is_worked(pressed: Sheets) -> None:
    with opened(pressed["braces", "exercises"]) as pdf:
        told = _in_order(pdf)
    parts = (
        "A brace across a bay", "Bench 1", "A brace, the last steps yours", "faded · 5 marks", "Another bay is",
        "height of the bay", "width of the bay", "How long do you cut the strip at first?", "Half the width",
        "A long brace gets more to trim.", "Cut the strip this long at first.",
    )  # fmt: skip
    places = [told.index(part) for part in parts]
    assert places == sorted(places)


def _in_order(pdf: Pdf) -> str:
    """The text of the tags of the first page, in the order of the tag tree."""
    first, read = pdf.pages[0].obj.objgen, texts(pdf)[0].text
    marks = [
        int(kid)
        for each in elements(pdf)
        if "/Pg" in each and each.Pg.objgen == first
        for kid in each.get("/K", [])
        if not isinstance(kid, Dictionary)
    ]
    return " ".join(read.get(mark, "") for mark in marks).replace("\u00a0", " ").replace("\u2009", " ")


def test_nothing_is_attached_runs_or_leads_out(pdf: Pdf) -> None:
    names = set()
    for each in pdf.objects:
        if isinstance(each, Dictionary):
            names |= set(each.keys()) | {
                str(value) for value in each.values() if isinstance(value, pikepdf.Name)
            }
    assert not names & {
        "/JavaScript",
        "/JS",
        "/URI",
        "/Launch",
        "/EmbeddedFile",
        "/EmbeddedFiles",
        "/AA",
        "/OpenAction",
    }


def test_no_path_of_this_machine_stands_in_a_file(pressed: Sheets, small: Prepared) -> None:
    for data in pressed.values():
        with opened(data) as pdf:
            streams = [each.read_bytes() for each in pdf.objects if isinstance(each, pikepdf.Stream)]
        for text in (data, *streams):
            assert str(small.folder).encode() not in text
            assert b"file:" not in text
