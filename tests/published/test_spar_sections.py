"""Sections by the formulas of books.

Wood Handbook FPL-GTR-282, Eq. 9-3 and 9-13; Hicks, Civil Engineering Formulas, fig. 2.1 and the page of unequal
flanges after it; Philpot, MecMovies 15.7; an unsigned worked tee on expertsmind.com; from memory of Timoshenko,
Strength of Materials, the transformed section; and sections worked once from outlines of their own with two
libraries, shapely 2.2.0 and sectionproperties 3.10.2.
"""

from fractions import Fraction
from math import radians, tan

import pytest

from coursepack.formulatext import read
from coursepack.quantity import Quantity
from coursepack.shoptext import parse
from coursepack.trade import beams, section
from coursepack.trade.catalogue import FUNCTIONS
from coursepack.trade.section import Section
from coursepack.trade.section_shapes import bevelled, box, rectangle, routed, tee
from coursepack.working import work

NINE_DIGITS = 1e-8  # as the worked sections are printed
FLOAT_NOISE = 1e-12
WIDTHS_AND_HEIGHTS = (
    (Fraction(20), Fraction(120)), (Fraction(3, 4), Fraction(19, 4)), (Fraction(1), Fraction(11, 2)), (Fraction(60), Fraction(18)),
)  # fmt: skip


def inches(value: Fraction | int, power: int = 1) -> Quantity:
    return Quantity.of(value, ("in", "in²", "in³", "in⁴")[power - 1])


def shape(formula: str) -> Section:
    found = work(read(formula, FUNCTIONS), {})
    assert isinstance(found, Section)
    return found


@pytest.mark.parametrize(("b", "h"), WIDTHS_AND_HEIGHTS)
def test_a_rectangle_has_the_second_moment_of_eq_9_3_and_the_modulus_of_eq_9_13_exactly(
    b: Fraction, h: Fraction
) -> None:
    spar = rectangle(inches(b), inches(h))
    assert section.area(spar) == inches(b * h, 2)
    assert section.centroid_height(spar) == inches(h / 2)
    assert section.second_moment(spar) == inches(b * h**3 / 12, 4)
    assert section.section_modulus(spar, "top") == inches(b * h**2 / 6, 3)
    assert section.section_modulus(spar, "bottom") == inches(b * h**2 / 6, 3)


def test_philpots_post_of_80_by_200_has_53_333_333_mm4() -> None:
    found = section.second_moment(rectangle(parse("80 mm"), parse("200 mm")))
    assert round(found.number("mm⁴")) == 53_333_333


# Hicks, fig. 2.1: box, hollow rectangle and symmetrical I alike. B and H without, b and h what is missing.
HOLLOWS = {
    'hollow("2 in", "3 in", "1/4 in", "3/8 in")': ("2", "3", "3/2", "9/4"),
    'box("1 1/2 in", "3/8 in", "3/8 in", "3 in", "1/4 in")': ("2", "3", "3/2", "9/4"),
    'routed("2 in", "3 in", "1/2 in", "3/8 in")': ("2", "3", "3/2", "9/4"),
    'routed("1 in", "5 1/2 in", "3/8 in", "1 1/4 in")': ("1", "11/2", "5/8", "3"),
    'box("1 1/2 in", "1 in", "1 in", "7 in", "1/8 in")': ("7/4", "7", "3/2", "5"),
}


@pytest.mark.parametrize("formula", HOLLOWS)
def test_what_is_missing_is_taken_away_as_in_hicks_fig_2_1(formula: str) -> None:
    big_b, big_h, b, h = (Fraction(size) for size in HOLLOWS[formula])
    found, cubes = shape(formula), big_b * big_h**3 - b * h**3
    assert section.area(found) == inches(big_b * big_h - b * h, 2)
    assert section.second_moment(found) == inches(cubes / 12, 4)
    assert section.section_modulus(found, "top") == inches(cubes / (6 * big_h), 3)
    assert section.section_modulus(found, "bottom") == inches(cubes / (6 * big_h), 3)


# Hicks, the I of unequal flanges: a web a thick, flanges B × d and b × d1, c1 to the outside of the first.
# A tee has only the first; a box is an I whose web is both webs. Turned over, c1 counts from the other flange.
UNEQUAL = {
    'tee("3 in", "4 in", "1/2 in", "3/4 in")': ("top", "3", "4", "1/2", "3/4", "1/2", "0"),
    'tee("1 1/4 in", "1 in", "1/8 in", "1/4 in")': ("top", "5/4", "1", "1/8", "1/4", "1/8", "0"),
    'box("1 1/2 in", "1 1/4 in", "1 in", "7 in", "1/8 in")': ("bottom", "7/4", "7", "1/4", "1", "7/4", "5/4"),
    'hollow("2 in", "3 in", "1/4 in", "3/8 in", "1/2 in")': ("bottom", "2", "3", "1/2", "1/2", "2", "3/8"),
}


@pytest.mark.parametrize("formula", UNEQUAL)
def test_unequal_flanges_are_those_of_hicks(formula: str) -> None:
    first, *sizes = UNEQUAL[formula]
    big_b, big_h, a, d, b, d1 = (Fraction(size) for size in sizes)
    big_b1, b1 = big_b - a, b - a
    c1 = (a * big_h**2 + big_b1 * d**2 + b1 * d1 * (2 * big_h - d1)) / (
        2 * (a * big_h + big_b1 * d + b1 * d1)
    )
    c2 = big_h - c1
    second = (big_b * c1**3 - big_b1 * (c1 - d) ** 3 + b * c2**3 - b1 * (c2 - d1) ** 3) / 3
    found = shape(formula)
    assert section.second_moment(found) == inches(second, 4)
    assert section.centroid_height(found) == inches(c1 if first == "bottom" else c2)
    assert section.section_modulus(found, first) == inches(second / c1, 3)
    other = {"top": "bottom", "bottom": "top"}[first]
    assert section.section_modulus(found, other) == inches(second / c2, 3)


def test_the_worked_tee_of_150_by_50_on_50_by_150_has_its_centroid_at_125_mm() -> None:
    # (7,500 × 175 + 7,500 × 75) / 15,000 on the page.
    found = section.centroid_height(tee(*(parse(f"{size} mm") for size in (150, 200, 50, 50))))
    assert found == parse("125 mm")


@pytest.mark.parametrize(("top", "bottom"), [(-8, 2), (5, 5), (0, -3), (11.5, 1.25)])
def test_a_bevelled_area_is_width_times_half_of_both_faces_as_a_trapezoids(top: float, bottom: float) -> None:
    # A = (a + b) h / 2, from memory of Molesworth's Pocket-Book; the parallel sides are the faces.
    rear = 100 + 20 * (tan(radians(top)) - tan(radians(bottom)))
    angles = (Quantity.of(angle, "deg") for angle in (top, bottom))
    found = section.area(bevelled(parse("20 mm"), parse("100 mm"), *angles))
    assert float(found.number("mm²")) == pytest.approx(20 * (100 + rear) / 2, rel=FLOAT_NOISE)


def test_equal_bevels_add_the_spread_of_a_shear_to_the_rectangle() -> None:
    # b h³ / 12 + A (b tan)² / 12, by hand: every fibre is only moved up by its distance times the tangent.
    rise = 20 * tan(radians(5))
    found = section.second_moment(bevelled(*(parse(size) for size in ("20 mm", "100 mm", "5 deg", "5 deg"))))
    by_hand = 20 * 100**3 / 12 + 2000 * rise**2 / 12
    assert float(found.number("mm⁴")) == pytest.approx(by_hand, rel=FLOAT_NOISE)


def test_webs_count_for_what_they_are_worth_about_a_common_axis_exactly() -> None:
    # Timoshenko, from memory: n A, n I, and n A d² about the centroid of all. Caps 1 1/2 × 1 1/4 and × 1 in,
    # webs 2 of 1/8 × 7 in at n = 1/2, worth one of 1/8 × 7.
    pieces = [(Fraction(3, 2), Fraction(5, 4), Fraction(51, 8)), (Fraction(3, 2), Fraction(1), Fraction(1, 2)), (Fraction(1, 8), Fraction(7), Fraction(7, 2))]  # fmt: skip
    whole = sum((b * h for b, h, _ in pieces), Fraction(0))
    axis = sum((b * h * y for b, h, y in pieces), Fraction(0)) / whole
    second = sum((b * h**3 / 12 + b * h * (y - axis) ** 2 for b, h, y in pieces), Fraction(0))
    found = section.transformed(
        box(*(parse(f"{size} in") for size in ("1 1/2", "1 1/4", "1", "7", "1/8"))), parse("0.5")
    )
    assert section.area(found) == inches(whole, 2)
    assert section.centroid_height(found) == inches(axis)
    assert section.second_moment(found) == inches(second, 4)


def test_a_bolt_hole_takes_its_own_rectangle_away_by_the_parallel_axes() -> None:
    # A rectangle 1 × 5 1/2 in with 1/2 in drilled at 1 3/4 in, less the hole's own I and A d².
    left, hole, off = Fraction(5), Fraction(1, 2), Fraction(1)
    axis = (Fraction(11, 2) * Fraction(11, 4) - hole * Fraction(7, 4)) / left
    second = Fraction(11, 2) ** 3 / 12 + Fraction(11, 2) * (axis - Fraction(11, 4)) ** 2
    second -= hole**3 / 12 + hole * (axis - Fraction(11, 4) + off) ** 2
    found = section.drilled(rectangle(parse("1 in"), parse("5 1/2 in")), parse("1/2 in"), parse("1 3/4 in"))
    assert section.centroid_height(found) == inches(axis)
    assert section.second_moment(found) == inches(second, 4)


def test_the_stress_of_eq_9_13_is_that_of_the_section_worked_by_hand() -> None:
    # b h² / 6 = 3/4 × 4² / 6 = 2 in³; 600 / 2 = 300 psi.
    modulus = section.section_modulus(rectangle(parse("3/4 in"), parse("4 in")), "bottom")
    assert beams.bending_stress(parse("600 in·lbf"), modulus) == parse("300 psi")


# Formula, unit, then area, height of the centroid, second moment, section modulus to the top and to the bottom.
WORKED = (
    ('rectangle("20 mm", "120 mm")', "mm", 2400, 60, 2880000, 48000, 48000),
    ('rectangle("60 mm", "18 mm")', "mm", 1080, 9, 29160, 3240, 3240),
    ('bevelled("0.75 in", "4.966 in", "-8.355 deg", "1.968 deg")', "in", 3.6735301, 2.46200322, 7.34620165, 2.93379038, 2.98383104),
    ('bevelled("20 mm", "100 mm", "5 deg", "5 deg")', "mm", 2000, 50.8748866, 1667176.95, 32770.1359, 32770.1359),
    ('routed("25 mm", "160 mm", "10 mm", "30 mm")', "mm", 2500, 80, 7283333.33, 91041.6667, 91041.6667),
    ('box("40 mm", "30 mm", "30 mm", "180 mm", "3 mm")', "mm", 3480, 90, 16596000, 184400, 184400),
    ('transformed(box("40 mm", "36 mm", "28 mm", "180 mm", "3 mm"), 0.5)', "mm", 3100, 95.9870968, 15509652.8, 184610.366, 161580.601),
    ('hollow("2 in", "3 in", "1/4 in", "3/8 in")', "in", 2.625, 1.5, 3.07617188, 2.05078125, 2.05078125),
    ('rectangle("30 mm", "20 mm")', "mm", 600, 10, 20000, 2000, 2000),
)  # fmt: skip


@pytest.mark.parametrize("row", WORKED, ids=lambda row: row[0])
def test_a_section_is_what_two_libraries_found(
    row: tuple[str, str, float, float, float, float, float],
) -> None:
    formula, unit, *printed = row
    spar = shape(formula)
    found = [
        section.area(spar).number(f"{unit}²"),
        section.centroid_height(spar).number(unit),
        section.second_moment(spar).number(f"{unit}⁴"),
        section.section_modulus(spar, "top").number(f"{unit}³"),
        section.section_modulus(spar, "bottom").number(f"{unit}³"),
    ]
    assert [float(value) for value in found] == pytest.approx(printed, rel=NINE_DIGITS)


def test_the_flange_of_a_routed_spar_is_its_depth_and_the_web_its_thickness() -> None:
    # Two flanges 1 × 1 1/4 in and a web 3/8 × 3 in.
    spar = routed(*(parse(f"{size} in") for size in ("1", "5 1/2", "3/8", "1 1/4")))
    assert section.area(spar) == inches(2 * Fraction(5, 4) + Fraction(3, 8) * 3, 2)
