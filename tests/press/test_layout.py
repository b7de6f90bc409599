import os
import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest
from pikepdf import Array, Dictionary, Stream

from coursepack.press.job import PressFault, PressJob
from coursepack.press.layout import print_pdf
from tests.press.pdf_reading import bookmarks, elements, opened, parent_tree, texts
from tests.press.sheets import STYLE, document, sheet

PIXEL_PNG = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108000000003a7e9b55"
    "0000000a49444154789c63f80f0001010100dae11f230000000049454e44ae426082"
)


def printed(*parts: str, css: str = STYLE, **settings: object) -> bytes:
    return print_pdf(PressJob("the test sheet", "Exercises", parts, css, **settings))  # type: ignore[arg-type]


def body(text: str) -> str:
    return document("Bench 1", text)


def test_each_part_counts_its_own_pages_and_begins_on_an_odd_page() -> None:
    with opened(printed(sheet(1, 3), sheet(2))) as pdf:
        feet = [re.findall(r"page \d of \d", page.whole) for page in texts(pdf)]
    assert feet == [["page 1 of 3"], ["page 2 of 3"], ["page 3 of 3"], [], ["page 1 of 1"]]


def test_parts_follow_without_a_blank_page_when_odd_beginnings_are_not_asked_for() -> None:
    with opened(printed(sheet(1), sheet(2), odd=False)) as pdf:
        assert len(pdf.pages) == 2


def test_a_blank_page_has_the_size_of_the_page_before_it() -> None:
    with opened(printed(sheet(1), sheet(2), css=STYLE.replace("letter", "A4"))) as pdf:
        assert {tuple(round(float(side)) for side in page.mediabox) for page in pdf.pages} == {
            (0, 0, 595, 842)
        }


def test_bookmarks_are_the_parts_and_their_headings() -> None:
    with opened(printed(sheet(1, 2), sheet(2))) as pdf:
        assert bookmarks(pdf) == [
            (1, "Bench 1", 1),
            (2, "Bench 1, leaf 1", 1),
            (2, "Bench 1, leaf 2", 2),
            (1, "Bench 2", 3),
            (2, "Bench 2, leaf 1", 3),
        ]


def test_a_heading_that_is_the_title_is_not_bookmarked_twice() -> None:
    with opened(printed(body("<h1>Bench 1</h1><h2>Rear face</h2>"))) as pdf:
        assert bookmarks(pdf) == [(1, "Bench 1", 1), (2, "Rear face", 1)]


@pytest.mark.parametrize("face", ["serif", "sans"])
@pytest.mark.parametrize("fraction", ["11⁄32", "63⁄64", "1⁄2", "5⁄12", "2⁄3", "9⁄10"])
def test_a_fraction_is_one_glyph_and_is_found_again_as_it_was_written(face: str, fraction: str) -> None:
    family = f"<p style='font-family: Bench {face.title()}'>"
    with opened(printed(body(f"{family}cut 4\u202f{fraction} in, or <b>{fraction}</b></p>"))) as pdf:
        page = texts(pdf)[0]
    assert page.glyphs.count(fraction) == 2
    assert f"4\u202f{fraction} in" in page.tagged


@pytest.mark.parametrize("text", ["1⁄25", "111⁄32", "1⁄320", "5⁄7", "12⁄2"])
def test_what_is_no_mark_of_a_rule_is_never_stacked_in_part(text: str) -> None:
    with opened(printed(body(f"<p>{text}</p>"))) as pdf:
        page = texts(pdf)[0]
    assert page.tagged == text
    assert "⁄" in page.glyphs


def test_every_space_and_hyphen_is_found_again_as_itself() -> None:
    text = "a b\u00a0c\u2009d\u202fe-f\u2010g\u2011h"
    with opened(printed(body(f"<p>{text}</p>"))) as pdf:
        assert texts(pdf)[0].tagged == text


def test_greek_in_italics_is_set_in_the_italic() -> None:
    with opened(printed(body("<p><i>tan θ</i></p>"))) as pdf:
        fonts = pdf.pages[0].obj.Resources.Font.values()
        holding = [str(font.BaseFont)[8:] for font in fonts if b"<03b8>" in font.ToUnicode.read_bytes()]
    assert holding == ["Bench-Serif-Italic"]


def test_only_our_own_type_is_used() -> None:
    with opened(
        printed(body("<p style='font-family: Arial, serif'>plain <i>it</i> <tt>code</tt></p>"))
    ) as pdf:
        fonts = {str(font.BaseFont)[8:] for font in pdf.pages[0].obj.Resources.Font.values()}
    assert {name.split("-")[0] for name in fonts} == {"Bench"}


@pytest.mark.parametrize(
    "asks",
    [
        "<img alt='x' src='http://example.org/x.png'>",
        "<img alt='x' src='file:///etc/passwd'>",
        "<img alt='x' src='data:image/png;base64,AAAA'>",
        "<img alt='x' src='picture:other.png'>",
        "<p style='background: url(https://example.org/x.png)'>x</p>",
        "<svg xmlns='http://www.w3.org/2000/svg'><title>x</title><image href='file:///x.png' width='9' height='9'/></svg>",
        "<link rel='stylesheet' href='http://example.org/x.css'>",
        "<a rel='attachment' href='file:///etc/passwd'>x</a>",
    ],
)
def test_a_page_gets_nothing_that_was_not_handed_over(asks: str) -> None:
    with pytest.raises(PressFault, match=r"the test sheet: .*a page asks for '(http|file|data|picture)"):
        printed(body(asks), pictures={"plane.png": PIXEL_PNG})


def test_a_file_is_never_attached() -> None:
    with opened(printed(body("x<link rel='attachment' href='file:///etc/passwd'>"))) as pdf:
        assert len(pdf.attachments) == 0


def test_a_picture_handed_over_is_printed() -> None:
    page = body("<img alt='A plane' src='picture:my%20plane.png'>")
    with opened(printed(page, pictures={"my plane.png": PIXEL_PNG})) as pdf:
        assert [str(each.Alt) for each in elements(pdf) if each.S == "/Figure"] == ["A plane"]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("<p style='colour: red'>x</p>", "colour"),
        ("<p>漢</p>", r"U\+6F22"),
        ("<a href='#nowhere'>x</a>", "nowhere"),
        ("<img alt='x' src='plane.png'>", "plane.png"),
        ("<img src='picture:plane.png'>", "no required alt"),
    ],
)
def test_what_the_engine_warns_of_is_a_fault(text: str, says: str) -> None:
    with pytest.raises(PressFault, match=f"the test sheet: .*{says}"):
        printed(body(text), pictures={"plane.png": PIXEL_PNG})


def test_running_heads_are_artifacts_and_every_mark_has_its_tag() -> None:
    with opened(printed(sheet(1, 2), sheet(2))) as pdf:
        tree, pages = parent_tree(pdf), texts(pdf)
        tagged = {each.objgen for each in elements(pdf)}
        for number, page in enumerate(pages):
            assert "of" not in page.tagged.replace("Spar of", "")
            for mark in page.text.keys() - {-1}:
                assert tree[number][mark].objgen in tagged
    assert "Lesson 6, exercises" in pages[0].text[-1]


def test_header_cells_have_names_of_their_own_and_every_cell_finds_its_headers() -> None:
    with opened(printed(sheet(1, 2), sheet(2))) as pdf:
        cells = elements(pdf)
        names = [str(each.ID) for each in cells if "/ID" in each]
        used = [str(name) for each in cells if each.S == "/TD" for name in each.A.Headers]
        indexed = [str(name) for name in list(pdf.Root.StructTreeRoot.IDTree.Names)[0::2]]
    assert max(Counter(names).values()) == 1
    assert len(used) == 6
    assert set(used) <= set(names)
    assert indexed == sorted(names)


def test_a_figure_has_its_text_and_a_frame_where_it_stands_on_the_page() -> None:
    page = body("<div style='height: 50mm'></div>" + sheet(1)[sheet(1).index("<svg") :])
    with opened(printed(page)) as pdf:
        figure = next(each for each in elements(pdf) if each.S == "/Figure")
        left, low, right, high = (float(side) for side in figure.A.BBox)
    points = 72 / 25.4
    margin = 8 * 0.75  # the body's own margin in the engine's style sheet is 8 px
    assert str(figure.Alt) == "Spar of bench 1, leaf 1"
    assert (left, right - left, high - low) == pytest.approx(
        (20 * points, 60 * points, 20 * points), abs=0.1 + margin
    )
    assert high == pytest.approx(792 - 70 * points, abs=0.1 + margin)


def test_a_link_leads_to_the_table_of_its_own_sheet() -> None:
    with opened(printed(sheet(1), sheet(2))) as pdf:
        names = list(pdf.Root.Names.Dests.Names)
        places = {str(name): spot[0].objgen for name, spot in zip(names[0::2], names[1::2], strict=True)}
        for page in (pdf.pages[0], pdf.pages[2]):
            assert places[str(page.obj.Annots[0].Dest)] == page.obj.objgen
            assert str(page.obj.Annots[0].Contents) == "t1"


def test_a_full_size_sheet_asks_the_printer_not_to_scale() -> None:
    with opened(printed(sheet(1), full_size=True)) as pdf:
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
    with opened(printed(sheet(1))) as pdf:
        assert "/PrintScaling" not in pdf.Root.ViewerPreferences


def test_the_file_says_what_it_is_in_its_metadata_and_holds_no_date_or_path() -> None:
    with opened(printed(sheet(1), subject="INSTRUCTOR")) as pdf:
        assert (str(pdf.Root.Lang), str(pdf.docinfo.Title), str(pdf.docinfo.Subject)) == (
            "en",
            "Exercises",
            "INSTRUCTOR",
        )
        assert bool(pdf.Root.MarkInfo.Marked)
        streams = [each.read_bytes() for each in pdf.objects if isinstance(each, Stream)]
        words = str([each for each in pdf.objects if isinstance(each, Dictionary | Array)]).encode()
    for data in [*streams, words]:
        assert not re.search(rb"CreationDate|ModDate|CreateDate|EmbeddedFile|JavaScript", data)
        assert str(Path(__file__).parents[1]).encode() not in data
        assert sys.prefix.encode() not in data


SCRIPT = """
import hashlib
from coursepack.press.layout import print_pdf
from coursepack.press.job import PressJob
from tests.press.sheets import STYLE, sheet
print(hashlib.sha256(print_pdf(PressJob("x", "Exercises", (sheet(1, 2), sheet(2)), STYLE))).hexdigest())
"""


def test_the_same_bytes_come_from_any_hash_seed_time_zone_and_folder(tmp_path: Path) -> None:
    def run(seed: str, zone: str, folder: Path) -> str:
        root = str(Path(__file__).parents[1])
        settings = {"PYTHONHASHSEED": seed, "TZ": zone, "PYTHONPATH": root}
        command = [sys.executable, "-c", SCRIPT]
        return subprocess.run(
            command, env=os.environ | settings, cwd=folder, check=True, capture_output=True, text=True
        ).stdout

    assert run("1", "Pacific/Auckland", tmp_path) == run("2", "America/Denver", Path.cwd())
