import hashlib
import io
import os
import subprocess
import sys
from math import gcd
from pathlib import Path

import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

from coursepack.pages.lettering import advance, faces, font_face_css

NAMES = ["serif-regular", "serif-italic", "serif-bold", "sans-regular", "sans-bold"]
NEEDED = (
    "".join(chr(code) for code in range(0x20, 0x7F))
    + "\u00a0\u2009\u202f\u2010\u2011\u00ad"
    + "ÄÅÆÇÉÑÖØÜßàáäåæçèéêíñóöøúü–—‘’“”…•·§©"
    + "−×÷±√≤≥≈≠°′″½¼¾⅛⅜⅝⅞⁄→←αβγδθμπφΔΣΩ△■□✓"
)


@pytest.fixture(params=NAMES)
def font(request: pytest.FixtureRequest) -> TTFont:
    return TTFont(io.BytesIO(faces()[request.param]))


def bounds(font: TTFont, glyph: str) -> tuple[float, float, float, float]:
    outlines = font.getGlyphSet()
    pen = BoundsPen(outlines)
    outlines[glyph].draw(pen)
    left, low, right, high = pen.bounds
    return left, low, right, high


def test_the_five_faces_are_there_and_each_has_its_rule() -> None:
    css = font_face_css()
    assert list(faces()) == NAMES
    assert [css.count(f'url("type:{name}")') for name in NAMES] == [1] * 5
    assert css.count('font-family:"Bench Serif"') == 3
    assert css.count('font-family:"Bench Sans"') == 2
    assert css.count("font-style:italic") == 1
    assert css.count("font-weight:700") == 2


def test_every_character_that_a_sheet_needs_is_in_every_face(font: TTFont) -> None:
    characters = font.getBestCmap()
    assert [char for char in NEEDED if ord(char) not in characters] == []


def test_spaces_and_hyphens_that_look_alike_have_glyphs_of_their_own(font: TTFont) -> None:
    characters = font.getBestCmap()
    alike = " \u00a0\u2009\u202f-\u00ad\u2010\u2011"
    assert len({characters[ord(char)] for char in alike}) == len(alike)
    assert font["hmtx"][characters[0xA0]][0] == font["hmtx"]["space"][0]
    assert 0 < font["hmtx"][characters[0x202F]][0] <= font["hmtx"][characters[0x2009]][0]


def test_the_reserved_name_is_gone_from_every_name_and_the_licence_stays(font: TTFont) -> None:
    names = {record.nameID: str(record) for record in font["name"].names}
    cff = font["CFF "].cff
    called = [text for number, text in names.items() if number not in (0, 13, 14)]
    called += [*cff.fontNames, cff[0].FullName, cff[0].FamilyName]
    assert not any("source" in text.lower() for text in called)
    assert {names[1], cff[0].FamilyName} <= {"Bench Serif", "Bench Sans"}
    assert "Adobe" in names[0]
    assert "SIL Open Font License" in names[13]


def test_the_figures_are_lining_and_all_as_wide_as_each_other(font: TTFont) -> None:
    characters = font.getBestCmap()
    figures = [characters[ord(digit)] for digit in "0123456789"]
    cap = font["OS/2"].sCapHeight
    for figure in figures:
        _, low, _, high = bounds(font, figure)
        assert -25 <= low <= 10
        assert high == pytest.approx(cap, abs=45)
    assert len({font["hmtx"][figure][0] for figure in figures}) == 1


def fractions() -> list[tuple[int, int]]:
    return [
        (above, below)
        for below in (2, 3, 4, 5, 6, 8, 10, 12, 16, 32, 64)
        for above in range(1, below)
        if gcd(above, below) == 1
    ]


def test_every_mark_of_a_rule_has_its_stacked_fraction(font: TTFont) -> None:
    order = set(font.getGlyphOrder())
    assert [pair for pair in fractions() if f"stack{pair[0]}_{pair[1]}" not in order] == []


def test_a_stacked_fraction_is_centred_on_the_height_of_the_minus_and_stays_in_its_line(font: TTFont) -> None:
    _, low, _, high = bounds(font, "minus")
    for above, below in fractions():
        left, foot, right, head = bounds(font, f"stack{above}_{below}")
        width = font["hmtx"][f"stack{above}_{below}"][0]
        assert (head + foot) / 2 == pytest.approx((high + low) / 2, abs=15)
        assert head - foot > 880  # two rows of figures, more than half the height of a full one each
        assert head <= font["hhea"].ascent
        assert foot >= font["hhea"].descent
        assert left == pytest.approx(width - right, abs=1)
        assert 25 <= left <= 60


def test_the_files_hold_whole_tables(font: TTFont) -> None:
    for tag in font.keys():  # noqa: SIM118 - a font is no dictionary
        assert font[tag] is not None
    assert font["maxp"].numGlyphs == len(font.getGlyphOrder()) == len(font["CFF "].cff[0].CharStrings)


def test_another_process_at_another_time_and_place_makes_the_same_bytes(tmp_path: Path) -> None:
    script = (
        "import hashlib; from coursepack.pages.lettering import faces;"
        "print(hashlib.sha256(b''.join(faces().values())).hexdigest())"
    )
    settings = {"PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo", "PYTHONPATH": str(Path(__file__).parents[2])}
    other = subprocess.run(
        [sys.executable, "-c", script],
        env=os.environ | settings,
        cwd=tmp_path,
        check=True,
        capture_output=True,
        text=True,
    ).stdout.strip()
    assert other == hashlib.sha256(b"".join(faces().values())).hexdigest()


def test_the_advance_of_text_is_that_of_its_characters() -> None:
    # Source Serif Pro's figures are 500/1000 em wide, Source Sans Pro's 497 (their hmtx tables)
    assert advance("10", "serif-regular", 11) == pytest.approx(11 * 25.4 / 72)
    assert advance("4", "sans-regular", 8) == pytest.approx(0.497 * 8 * 25.4 / 72)
    assert advance("", "sans-bold", 8) == 0


def test_a_fraction_advances_as_one_glyph_only_where_it_is_stacked() -> None:
    font = TTFont(io.BytesIO(faces()["sans-regular"]))
    stacked = font["hmtx"]["stack11_32"][0] / 1000 * 10 * 25.4 / 72
    assert advance("11⁄32", "sans-regular", 10) == pytest.approx(stacked)
    assert advance("4\u202f11⁄32 in", "sans-regular", 10) == pytest.approx(
        stacked + advance("4\u202f", "sans-regular", 10) + advance(" in", "sans-regular", 10)
    )
    assert advance("111⁄32", "sans-regular", 10) > 5 * 0.497 * 10 * 25.4 / 72


def test_a_character_that_a_face_lacks_has_no_advance() -> None:
    with pytest.raises(KeyError):
        advance("漢", "sans-regular", 10)
