import font_source_sans_pro
import pytest
from fontTools.ttLib import TTFont

from coursepack.drafting.lettering import ADVANCE, set_out, width_em, wrapped


@pytest.mark.parametrize(("weight", "name"), [(0, "SourceSansPro"), (1, "SourceSansProBold")])
def test_every_width_in_the_table_is_the_fonts(weight: int, name: str) -> None:
    font = TTFont(font_source_sans_pro.font_files_otf[name])
    glyphs, metrics, em = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
    assert em == 1000
    assert {c: w[weight] for c, w in ADVANCE.items()} == {c: metrics[glyphs[ord(c)]][0] for c in ADVANCE}


def test_a_line_is_as_wide_as_its_characters() -> None:
    assert width_em("140 mm") == pytest.approx((3 * 497 + 200 + 2 * 829) / 1000)


def test_a_stacked_fraction_is_as_wide_as_its_longer_number() -> None:
    assert width_em("1⁄16") == pytest.approx(0.7 * 2 * 0.497 + 0.1)
    assert width_em("11⁄16") == width_em("1⁄16") > width_em("3⁄4")


def test_a_fraction_is_set_as_two_numbers_with_a_bar_between_words() -> None:
    runs, width, bars = set_out("4 11⁄32 in")
    assert [run.text for run in runs] == ["4", "11", "32", "in"]
    assert runs[1].y > runs[0].y > runs[2].y
    assert runs[1].x == runs[2].x
    assert 0 < bars[0][0] < bars[0][1] < runs[3].x < width


def test_a_slash_without_digits_on_both_sides_is_only_a_slash() -> None:
    assert [run.text for run in set_out("a⁄b")[0]] == ["a⁄b"]


def test_an_unknown_character_counts_as_a_wide_one() -> None:
    assert width_em("ж") == 1.0


def test_a_text_is_broken_only_between_words() -> None:
    assert wrapped("one two three", 1.0, width_em("one two")) == ["one two", "three"]
    assert wrapped("unbreakable", 10.0, 1.0) == ["unbreakable"]
