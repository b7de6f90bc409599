from fractions import Fraction

import pytest

from coursepack.drafting.lettering import ADVANCE, set_out, width_em, wrapped
from coursepack.pages.lettering import advance
from coursepack.quantity import Quantity, printed


@pytest.mark.parametrize(("weight", "name"), [(0, "sans-regular"), (1, "sans-bold")])
def test_every_width_in_the_table_is_that_of_the_type_of_the_pages(weight: int, name: str) -> None:
    point = 72 / 25.4  # at this size a thousandth of an em is a thousandth of a mm
    # the slash of the pages is drawn wider than its source's, only where it stands between digits
    known = {c: w[weight] for c, w in ADVANCE.items() if c != "⁄"}
    assert known == {c: round(1000 * advance(c, name, point)) for c in known}


@pytest.mark.parametrize("text", ["1⁄16", "3⁄4", "11⁄32", "63⁄64"])
def test_a_stacked_fraction_is_about_as_wide_as_that_of_the_body_text(text: str) -> None:
    assert width_em(text) == pytest.approx(advance(text, "sans-regular", 72 / 25.4), abs=0.08)


def test_what_the_program_prints_has_no_character_of_unknown_width() -> None:
    sizes = [Quantity.of(Fraction(65, 16), "in"), Quantity.of(Fraction(251, 10), "mm"), Quantity.of(8, "deg")]
    assert {c for size in sizes for c in printed(size)} <= set(ADVANCE)


def test_a_line_is_as_wide_as_its_characters() -> None:
    assert width_em("140 mm") == pytest.approx((3 * 497 + 200 + 2 * 829) / 1000)


def test_a_stacked_fraction_is_as_wide_as_its_longer_number() -> None:
    assert width_em("1⁄16") == pytest.approx(0.64 * 2 * 0.497 + 2 * 0.047)
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


@pytest.mark.parametrize(("space", "em"), [(" ", 0.2), ("\u00a0", 0.2), ("\u202f", 0.14)])
def test_a_space_before_a_fraction_is_as_wide_as_the_type_makes_it(space: str, em: float) -> None:
    runs, width, _ = set_out(f"4{space}1⁄16")
    assert width == pytest.approx(0.497 + em + width_em("1⁄16"))
    assert runs[0].text == "4"
