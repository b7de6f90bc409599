from collections.abc import Mapping
from html.parser import HTMLParser
from pathlib import Path

import pytest

from coursepack.drafting.sheet import FIGURE_MARK
from coursepack.pages.compose import Sheet, style
from tests.sheets.printed_course import Prepared, prepared, write_small_course

VOID = {"meta", "br", "img", "hr"}


class Shape(HTMLParser):
    """Notes every tag, and every one that is closed out of turn or never."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[str] = []
        self.headings: list[str] = []
        self.wrong: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        del attrs
        self.tags.append(tag)
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.wrong.append(tag)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_small_course(tmp_path_factory.mktemp("compose") / "lessons")


@pytest.fixture(scope="module")
def small(folder: Path) -> Prepared:
    return prepared(folder, "small")


@pytest.fixture(scope="module")
def sheets(small: Prepared) -> Mapping[str, Sheet]:
    """The first sheet of each kind of the first lesson."""
    record = small.record("braces")
    return {kind: small.job(record, kind)[1][0] for kind in ("reading", "exercises", "key")}


def test_every_tag_is_closed_in_turn(small: Prepared) -> None:
    for record in small.records:
        for kind in ("reading", "exercises", "key"):
            for sheet in small.job(record, kind)[1]:
                shape = Shape(sheet.html)
                assert (shape.wrong, shape.open) == ([], [])


def test_every_drawing_has_one_mark_where_it_goes(sheets: Mapping[str, Sheet]) -> None:
    assert [len(sheets[kind].drawings) for kind in sheets] == [1, 2, 2]
    for sheet in sheets.values():
        assert [sheet.html.count(FIGURE_MARK.format(number)) for number in range(3)] == [
            1 if number < len(sheet.drawings) else 0 for number in range(3)
        ]


def test_no_brace_is_left_where_a_number_belongs(sheets: Mapping[str, Sheet]) -> None:
    for sheet in sheets.values():
        assert "{" not in sheet.html
        assert "A bay is" in sheet.html or "bay" in sheet.html


def test_a_table_a_list_and_a_picture_of_the_prose_stand_in_the_reading(sheets: Mapping[str, Sheet]) -> None:
    html = sheets["reading"].html
    assert "<td>3\xa0in</td>\n<td>4\xa0in</td>\n<td>5\xa0in</td>" in html
    assert "<li>Measure the height with the rule.</li>" in html
    assert (
        '<img alt="A brace across a bay, from the lower left to the upper right" src="picture:brace.png">'
        in html
    )
    assert "<em>right triangle</em>" in html


def test_a_picture_of_the_lesson_goes_to_the_press_with_its_sheets(small: Prepared, folder: Path) -> None:
    job = small.job(small.record("braces"), "reading")[0]
    assert job.pictures["brace.png"] == (folder / "brace.png").read_bytes()
    assert set(small.job(small.record("weights"), "reading")[0].pictures) == {"squares"}


def test_a_caution_stands_before_the_steps_it_is_about(sheets: Mapping[str, Sheet]) -> None:
    html = sheets["exercises"].html
    machine = html.index("Keep the hands beside the line of the blade.")
    caution = html.index("Set the upper guide close above the strip.")
    assert machine < caution < html.index("Mark the rough length on the strip.")
    assert "△ DANGER</b> Set the upper guide close above the strip. The open blade takes a finger." in html


def test_the_mathematics_has_fractions_roots_powers_subscripts_and_choices(
    sheets: Mapping[str, Sheet],
) -> None:
    html = sheets["reading"].html
    assert '<span class="frac"><span><i>wide</i></span><span>2</span></span>' in html
    assert (
        '√<span class="root"><i>high</i><sup>2</sup> + <i>wide</i><sub>half</sub><sup>2</sup></span>' in html
    )
    assert "1⁄4\xa0in if <i>long</i> &gt; 9\xa0in, otherwise 1⁄8\xa0in" in html


def test_every_lesson_says_that_its_pieces_are_for_practice(small: Prepared) -> None:
    for record in small.records:
        assert "practice piece, not for flight" in small.job(record, "reading")[1][0].html
        assert "practice piece, not for flight" in small.job(record, "exercises")[0].css


def test_a_key_that_rests_on_a_published_table_names_it(folder: Path, tmp_path: Path) -> None:
    plain = prepared(folder, "small").record("weights")
    assert "Published values used" not in prepared(folder, "small").job(plain, "key")[1][0].html
    other = write_small_course(tmp_path / "lessons")
    text = (other / "02-weights.md").read_text("utf-8")
    text = text.replace(
        'water / dry * "100 %"  #', 'water / dry * "100 %" + 0 * shrinkage(wood, "radial")  #'
    )
    (other / "02-weights.md").write_text(text, "utf-8")
    changed = prepared(other, "small")
    html = changed.job(changed.record("weights"), "key")[1][0].html
    assert "Published values used: " in html
    assert "Wood Handbook" in html


@pytest.mark.parametrize(("paper", "inner", "outer"), [("letter", 25.0, 15.9), ("A4", 22.0, 13.0)])
def test_a_text_block_of_175_mm_and_an_inner_margin_for_holes_fit_each_paper(
    paper: str, inner: float, outer: float
) -> None:
    width = {"letter": 215.9, "A4": 210.0}[paper]
    css = style(paper)
    assert f"size: {paper};" in css
    assert f"margin: 15mm {outer:g}mm 18mm {inner:g}mm;" in css
    assert width - inner - outer == pytest.approx(175, abs=0.1)
    assert inner >= 20  # holes are punched 12 mm from the edge, 6 mm wide
    assert not any(word in css for word in ("PAPER", "INNER", "OUTER"))


def test_the_style_sheet_knows_black_one_grey_and_the_paper_only() -> None:
    colours = {word.strip(";)},") for word in style("letter").split() if word.startswith("#")}
    assert {colour for colour in colours if colour[1:].isalnum() and len(colour) in (4, 7)} <= {
        "#000",
        "#808080",
        "#fff",
    }
