"""Sections: what a shape refuses, what is printed for it, and laws that hold for every section."""

from dataclasses import dataclass
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coursepack.formula import Value
from coursepack.formulatext import read
from coursepack.place import FormulaFault
from coursepack.quantity import Quantity
from coursepack.shoptext import parse
from coursepack.trade import section
from coursepack.trade.catalogue import FUNCTIONS
from coursepack.trade.outline import bevelled_section
from coursepack.trade.section import Section, drilled, transformed
from coursepack.trade.section_shapes import bevelled, bevelled_routed, box, hollow, rectangle, routed, tee
from coursepack.working import kind_in, work

# A tangent makes floats of the corners.
FLOAT_NOISE = 1e-9
FLAT = Quantity.of(0, "deg")
laws = settings(max_examples=50, deadline=None)

FAULTS = {
    'rectangle("0 in", "4 in")': "width is 0 in; width must be above zero",
    'rectangle("1 in", "-4 in")': "height is -4 in; height must be above zero",
    'bevelled("1 in", "4 in", "50 deg", "0 deg")': "a bevel of 50 degrees is no edge bevel; stay within 45 degrees",
    'bevelled("3 in", "1/2 in", "-8 deg", "8 deg")': (
        "the two bevels leave no rear face; take a higher front face or smaller bevels"
    ),
    'routed("1 in", "5 in", "1 1/8 in", "1 in")': "web is 1 1/8 in; web must be less than the width of 1 in",
    'routed("1 in", "5 in", "3/8 in", "2 1/2 in")': (
        "flanges of 2 1/2 in and 2 1/2 in meet; together they must be less than 5 in"
    ),
    'bevelled_routed("1 in", "4 in", "-10 deg", "10 deg", "3/8 in", "1 7/8 in")': (
        "flanges of 1 7/8 in and 1 7/8 in meet; together they must be less than 3.647 in"
    ),
    'bevelled_routed("1 in", "4 in", "-10 deg", "0 deg", "3/8 in", "1/20 in")': (
        "with a flange of 0.05 in a pocket comes out through a bevelled edge; flange must be more than 0.05510 in"
    ),
    'bevelled_routed("1 in", "4 in", "0 deg", "0 deg", "1 in", "1 in")': (
        "web is 1 in; web must be less than the width of 1 in"
    ),
    'box("1 in", "2 in", "3 in", "5 in", "1/8 in")': (
        "caps of 2 in and 3 in meet; together they must be less than 5 in"
    ),
    'box("1 in", "1 in", "1 in", "5 in", "0 in")': "web is 0 in; web must be above zero",
    'hollow("1 in", "2 in", "1/2 in", "1/4 in")': (
        "side walls of 1/2 in and 1/2 in meet; together they must be less than 1 in"
    ),
    'hollow("1 in", "2 in", "1/4 in", "1 in", "1 1/4 in")': (
        "top and bottom walls of 1 in and 1 1/4 in meet; together they must be less than 2 in"
    ),
    'tee("2 in", "3 in", "2 1/2 in", "1/2 in")': "web is 2 1/2 in; web must be less than the width of 2 in",
    'tee("2 in", "3 in", "1/2 in", "3 in")': "flange is 3 in; flange must be less than the height of 3 in",
    'drilled(rectangle("1 in", "4 in"), "3/8 in", "3/16 in")': (
        "a hole of 3/8 in at 3/16 in is not inside the section; keep its centre between 3/16 in and 3 13/16 in"
    ),
    'drilled(rectangle("1 in", "4 in"), "3/8 in", "-2 in")': (
        "a hole of 3/8 in at -2 in is not inside the section; keep its centre between 3/16 in and 3 13/16 in"
    ),
    'drilled(rectangle("1 in", "4 in"), "4 in", "2 in")': (
        "a hole of 4 in at 2 in is not inside the section; it must be smaller than 4 in"
    ),
    'drilled(bevelled("1 in", "4 in", "0 deg", "10 deg"), "1/4 in", "1/4 in")': (
        "a hole of 1/4 in at 1/4 in is not inside the section; keep its centre between 0.3013 in and 3.875 in"
    ),
    'drilled(bevelled("4 in", "2 in", "40 deg", "40 deg"), "1/4 in", "1 in")': (
        "a hole of 1/4 in at 1 in is not inside the section; no level hole meets both faces of it"
    ),
    'transformed(routed("1 in", "5 in", "3/8 in", "1 in"), 0.5)': (
        "a routed spar section 1 × 5 in has no webs of its own; take a box or a tee, whose webs may be other wood"
    ),
    'transformed(tee("2 in", "3 in", "1/2 in", "1/2 in"), 0)': "ratio is 0; ratio must be above zero",
    'area("3 in")': "area: section is a section, not a length",
}  # fmt: skip


def worked(formula: str) -> Value:
    node = read(formula, FUNCTIONS)
    kind_in(node, {})
    return work(node, {})


@pytest.mark.parametrize("formula", FAULTS)
def test_an_impossible_section_is_a_fault_that_says_what_is_possible(formula: str) -> None:
    with pytest.raises(FormulaFault) as caught:
        worked(formula)
    assert str(caught.value) == FAULTS[formula]


PRINTED = {
    'rectangle("1 in", "5 1/2 in")': "rectangular section 1 × 5 1/2 in, area 5.5 in²",
    'bevelled("3/4 in", "4 1/2 in", "0 deg", "0 deg")': "bevelled spar section 3/4 × 4 1/2 in at the front, area 3.375 in²",
    'routed("1 in", "5 1/2 in", "3/8 in", "1 1/4 in")': "routed spar section 1 × 5 1/2 in, area 3.625 in²",
    'drilled(rectangle("20 mm", "100 mm"), "8 mm", "50 mm")': (
        "rectangular section 20 × 100 mm, hole 8 mm at 50 mm, area 1840 mm²"
    ),
    'transformed(box("40 mm", "36 mm", "28 mm", "180 mm", "3 mm"), 0.5)': (
        "box spar section 46 × 180 mm, webs at 0.5, area 3100 mm²"
    ),
    'rectangle("3 cm", "20 mm")': "rectangular section 3 × 2 cm, area 6 cm²",
}  # fmt: skip


@pytest.mark.parametrize("formula", PRINTED)
def test_a_section_is_printed_on_one_line(formula: str) -> None:
    assert str(worked(formula)) == PRINTED[formula]


def test_a_bevelled_section_is_the_outline_that_is_drawn() -> None:
    spar = bevelled(*(parse(size) for size in ("20 mm", "100 mm", "-8 deg", "2 deg")))
    assert spar.outlines_mm() == (bevelled_section(100.0, 20.0, -8.0, 2.0),)


def test_a_box_is_drawn_as_two_caps_and_two_webs_around_them() -> None:
    spar = box(*(parse(f"{size} mm") for size in (40, 36, 28, 180, 3)))
    assert spar.outlines_mm() == (
        ((3, 0), (43, 0), (43, 28), (3, 28)),
        ((3, 144), (43, 144), (43, 180), (3, 180)),
        ((0, 0), (3, 0), (3, 180), (0, 180)),
        ((43, 0), (46, 0), (46, 180), (43, 180)),
    )


def test_a_hole_leaves_the_wood_below_it_and_the_wood_above_it() -> None:
    spar = drilled(rectangle(parse("20 mm"), parse("100 mm")), parse("10 mm"), parse("50 mm"))
    below, above = spar.outlines_mm()
    assert set(below) == {(0, 0), (20, 0), (20, 45), (0, 45)}
    assert set(above) == {(0, 55), (20, 55), (20, 100), (0, 100)}


SIZES = st.fractions(Fraction(1, 4), 4, max_denominator=64)
HEIGHTS = st.fractions(4, 12, max_denominator=64)
PARTS = st.fractions(Fraction(1, 8), Fraction(7, 16), max_denominator=64)
ANGLES = st.integers(-15, 15).map(lambda degrees: Quantity.of(degrees, "deg"))
UNITS = st.sampled_from(("mm", "cm", "ft"))


@dataclass(frozen=True)
class Drawn:
    """A section in inches, and the same one in another unit."""

    inch: Section
    other: Section


KINDS = ("rectangle", "bevelled", "routed", "box", "hollow", "tee")
WITH_WEBS = ("box", "tee")


@st.composite
def sections(draw: st.DrawFn, kinds: tuple[str, ...] = KINDS) -> Drawn:
    width, height = draw(SIZES), draw(HEIGHTS)
    web, top, bottom = (size * draw(PARTS) for size in (width, height, height))
    angles, unit = (draw(ANGLES), draw(ANGLES)), draw(UNITS)
    kind = draw(st.sampled_from(kinds))

    def made(name: str) -> Section:
        across, up, thick, deep, low = (
            Quantity.of(size, "in").to(name) for size in (width, height, web, top, bottom)
        )
        return {
            "rectangle": lambda: rectangle(across, up),
            "bevelled": lambda: bevelled(across, up, *angles),
            "routed": lambda: routed(across, up, thick, deep),
            "box": lambda: box(across, deep, low, up, thick),
            "hollow": lambda: hollow(across, up, thick, deep, low),
            "tee": lambda: tee(across, up, thick, deep),
        }[kind]()

    return Drawn(made("in"), made(unit))


def properties(found: Section) -> dict[str, float]:
    return {
        "in²": float(section.area(found).number("in²")),
        "in": float(section.centroid_height(found).number("in")),
        "in⁴": float(section.second_moment(found).number("in⁴")),
        "top": float(section.section_modulus(found, "top").number("in³")),
        "bottom": float(section.section_modulus(found, "bottom").number("in³")),
    }


@laws
@given(drawn=sections())
def test_units_do_not_matter(drawn: Drawn) -> None:
    assert properties(drawn.other) == pytest.approx(properties(drawn.inch), rel=FLOAT_NOISE)
    assert section.area(drawn.other).unit_name == f"{drawn.other.unit}²"
    assert section.second_moment(drawn.other).unit_name == f"{drawn.other.unit}⁴"


HALF = Quantity.of(Fraction(1, 2))
RULE_SIZES = st.integers(8, 256).map(lambda marks: Quantity.of(Fraction(marks, 64), "in"))


@laws
@given(cap=RULE_SIZES, deep=RULE_SIZES, low=RULE_SIZES, web=RULE_SIZES, hole=RULE_SIZES)
def test_a_section_of_rule_sizes_without_bevels_is_worked_in_exact_fractions(
    cap: Quantity, deep: Quantity, low: Quantity, web: Quantity, hole: Quantity
) -> None:
    height = deep + low + hole + web
    whole = box(cap, deep, low, height, web)
    for found in (
        whole,
        drilled(whole, hole, low + hole * HALF),
        transformed(whole, Quantity.of(Fraction(5, 8))),
    ):
        assert isinstance(section.area(found).value, Fraction)
        assert isinstance(section.centroid_height(found).value, Fraction)
        assert isinstance(section.second_moment(found).value, Fraction)
        assert isinstance(section.section_modulus(found, "top").value, Fraction)


@laws
@given(width=SIZES, front=HEIGHTS)
def test_a_bevelled_section_with_zero_bevels_is_the_rectangle(width: Fraction, front: Fraction) -> None:
    sizes = (Quantity.of(width, "in"), Quantity.of(front, "in"))
    plain, cut = rectangle(*sizes), bevelled(*sizes, FLAT, FLAT)
    assert properties(cut) == pytest.approx(properties(plain), rel=FLOAT_NOISE)


@laws
@given(width=SIZES, front=HEIGHTS, web=PARTS, flange=PARTS)
def test_a_bevelled_routed_section_with_zero_bevels_is_the_routed_one(
    width: Fraction, front: Fraction, web: Fraction, flange: Fraction
) -> None:
    across, up, thick, deep = (
        Quantity.of(size, "in") for size in (width, front, web * width, flange * front)
    )
    cut = bevelled_routed(across, up, FLAT, FLAT, thick, deep)
    assert properties(cut) == pytest.approx(properties(routed(across, up, thick, deep)), rel=FLOAT_NOISE)


@laws
@given(width=SIZES, height=HEIGHTS, web=PARTS, top=PARTS, bottom=PARTS)
def test_a_hollow_section_is_the_box_with_its_walls_for_caps_and_webs(
    width: Fraction, height: Fraction, web: Fraction, top: Fraction, bottom: Fraction
) -> None:
    inside, wall, roof, floor = width * (1 - 2 * web), width * web, height * top, height * bottom
    whole, up, side, high, low, cap = (
        Quantity.of(size, "in") for size in (width, height, wall, roof, floor, inside)
    )
    one, other = hollow(whole, up, side, high, low), box(cap, high, low, up, side)
    assert section.area(one) == section.area(other)
    assert section.centroid_height(one) == section.centroid_height(other)
    assert section.second_moment(one) == section.second_moment(other)


@laws
@given(cap=SIZES, height=HEIGHTS, web=SIZES, deep=PARTS, hole=PARTS)
def test_a_box_drilled_in_the_middle_loses_only_the_webs_there_exactly(
    cap: Fraction, height: Fraction, web: Fraction, deep: Fraction, hole: Fraction
) -> None:
    # Caps alike, so the axis stays; a hole no higher than the void takes 2 web × hole, and its own cube / 12.
    caps, slot = deep * height, hole * height * (1 - 2 * deep)
    across, up, thick, cap_deep, bolt = (Quantity.of(size, "in") for size in (cap, height, web, caps, slot))
    whole = box(across, cap_deep, cap_deep, up, thick)
    found = drilled(whole, bolt, Quantity.of(height / 2, "in"))
    lost = Quantity.of(2 * web * slot, "in²"), Quantity.of(2 * web * slot**3 / 12, "in⁴")
    assert section.area(found) == section.area(whole) - lost[0]
    assert section.second_moment(found) == section.second_moment(whole) - lost[1]
    assert section.centroid_height(found) == Quantity.of(height / 2, "in")


@laws
@given(drawn=sections(WITH_WEBS), ratio=st.fractions(Fraction(1, 8), 8, max_denominator=16))
def test_a_ratio_of_one_gives_a_section_back_and_the_last_ratio_counts(drawn: Drawn, ratio: Fraction) -> None:
    other = transformed(drawn.inch, Quantity.of(ratio))
    assert transformed(drawn.inch, Quantity.of(1)) == drawn.inch
    assert transformed(other, Quantity.of(1)) == drawn.inch
    lost = section.area(drawn.inch) - section.area(other)
    assert (lost.value > 0) == (ratio < 1)


@laws
@given(drawn=sections(), hole=PARTS, level=st.fractions(Fraction(1, 3), Fraction(2, 3), max_denominator=64))
def test_a_hole_takes_area_and_stiffness_away_and_the_faces_stay(
    drawn: Drawn, hole: Fraction, level: Fraction
) -> None:
    whole = drawn.inch
    low, high = whole.clear
    size = (high - low) * hole / 2
    found = drilled(whole, whole.length(size), whole.length(low + (high - low) * level))
    assert section.area(found) < section.area(whole)
    assert section.second_moment(found) < section.second_moment(whole)
    levels = [{y for line in each.outlines_mm() for _, y in line} for each in (whole, found)]
    assert (min(levels[0]), max(levels[0])) == (min(levels[1]), max(levels[1]))
