"""A formula is printed as a textbook sets it, and what is printed means what is worked."""

import math
import re
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from coursepack.formula import Minus, Name, Node, Operation, Power, Value
from coursepack.formulatext import read
from coursepack.pages.lettering import advance
from coursepack.pages.mathematics import in_numbers, in_symbols, symbol, width_mm
from coursepack.place import FormulaFault
from coursepack.quantity import Quantity
from coursepack.shoptext import parse
from coursepack.trade.catalogue import FUNCTIONS
from coursepack.working import work

VALUES: dict[str, Value] = {
    "front": parse("4 11/32 in"), "width": parse("3/4 in"), "top": parse("8 deg"), "fall": parse("-3 in"), "wood": "white ash <&>", "count": parse("3"), "wide_after": parse("70 mm"),
}  # fmt: skip


def frac(above: str, below: str) -> str:
    return f'<span class="frac"><span>{above}</span><span>{below}</span></span>'


def root(inside: str) -> str:
    return f'√<span class="root">{inside}</span>'


def f(text: str) -> Node:
    return read(text, FUNCTIONS)


EM = 10 * 25.4 / 72  # mm
W, FR, T, C = "<i>width</i>", "<i>front</i>", "<i>top</i>", "<i>count</i>"


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("front - width", f"{FR} − {W}"), ("width * tan(top)", f"{W} × tan\u00a0{T}"), ("front / width", frac(FR, W)),
        ("(front - width) / 2", frac(f"{FR} − {W}", "2")), ("front - (width + 1)", f"{FR} − ({W} + 1)"),
        ("front * (width + 1)", f"{FR} × ({W} + 1)"), ("-front", f"−{FR}"), ("front * -width", f"{FR} × (−{W})"),
        ("front ** 2", f"{FR}<sup>2</sup>"), ("(front + 1) ** 2", f"({FR} + 1)<sup>2</sup>"), ("front ** -1", f"{FR}<sup>−1</sup>"),
        ("front ** (1/2)", root(FR)), ("front ** (1/3)", f"{FR}<sup>1⁄3</sup>"), ("sqrt(front / width)", root(frac(FR, W))),
        ("tan(top / 2)", f"tan\u00a0{frac(T, '2')}"), ("tan(top + top)", f"tan\u00a0({T} + {T})"), ("tan(top) ** 2", f"(tan\u00a0{T})<sup>2</sup>"),
        ("atan(front / width)", f"arctan\u00a0{frac(FR, W)}"), ("abs(front - width)", f"|{FR} − {W}|"), ("up(count)", f"round up\u202f({C})"),
        ("front if front > width else width", f"{FR} if {FR} &gt; {W}, otherwise {W}"), ("front <= width", f"{FR} ≤ {W}"),
        ('front - "3/4 in"', f"{FR} − 3⁄4\u00a0in"), ("wide_after * 2", "<i>wide</i><sub>after</sub> × 2"),
    ],
)  # fmt: skip
def test_a_formula_is_set_in_symbols(text: str, html: str) -> None:
    assert in_symbols(f(text)) == html


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("front - width", "4\u202f11⁄32\u00a0in − 3⁄4\u00a0in"), ("width * tan(top)", "3⁄4\u00a0in × tan\u00a08°"),
        ("width ** 2", "(3⁄4\u00a0in)<sup>2</sup>"), ("count ** 2", "3<sup>2</sup>"), ("fall ** 2", "(−3\u00a0in)<sup>2</sup>"),
        ("front - fall", "4\u202f11⁄32\u00a0in − (−3\u00a0in)"), ("front + fall", "4\u202f11⁄32\u00a0in + (−3\u00a0in)"),
        ("width * fall", "3⁄4\u00a0in × (−3\u00a0in)"), ("fall * width", "−3\u00a0in × 3⁄4\u00a0in"), ("front / count", frac("4\u202f11⁄32\u00a0in", "3")),
        ("1 if wood == 'a' else 2", "1 if white ash &lt;&amp;&gt; = a, otherwise 2"),
    ],
)  # fmt: skip
def test_a_formula_is_set_with_its_numbers(text: str, html: str) -> None:
    assert in_numbers(f(text), VALUES) == html


def test_a_symbol_is_italic_with_what_follows_the_underscore_below() -> None:
    assert symbol("rear") == "<i>rear</i>"
    assert symbol("wide_after_drying") == "<i>wide</i><sub>after drying</sub>"


def test_a_symbol_of_a_class_is_one_element() -> None:
    assert symbol("rear", "left") == '<i class="left">rear</i>'
    assert symbol("wide_half", "left") == '<span class="left"><i>wide</i><sub>half</sub></span>'


def test_what_is_written_into_a_formula_is_escaped() -> None:
    assert in_symbols(f("'<script>' == '&'")) == "&lt;script&gt; = &amp;"


NAMES = st.sampled_from(["a", "b", "c"]).map(lambda name: Name(name, 0))
TREES = st.recursive(
    NAMES,
    lambda below: st.one_of(
        st.builds(Operation, st.sampled_from("+-*/"), below, below, st.just(0)),
        st.builds(Minus, below, st.just(0)),
        st.builds(
            Power,
            below,
            st.sampled_from([Fraction(2), Fraction(-1), Fraction(3), Fraction(1, 2)]),
            st.just(0),
        ),
    ),
    max_leaves=7,
)
NUMBERS = st.tuples(*[st.integers(1, 9)] * 3).map(
    lambda n: {name: Quantity.of(value) for name, value in zip("abc", n, strict=True)}
)
FRAC = re.compile(
    r'<span class="frac"><span>((?:(?!<span|</span>).)*)</span><span>((?:(?!<span|</span>).)*)</span></span>'
)
ROOT = re.compile(r'√<span class="root">((?:(?!<span|</span>).)*)</span>')


def as_a_reader_reads_it(html: str) -> str:
    """What is printed, as a formula in one line: a fraction bar and a root's bar hold together like brackets."""
    text = re.sub(r"</?i>", "", html)
    while "<span" in text:
        text = ROOT.sub(r"sqrt(\1)", FRAC.sub(r"((\1)/(\2))", text))
    text = re.sub(r"<sup>(.*?)</sup>", r"**(\1)", text)
    return text.replace("−", "-").replace("×", "*").replace("\u00a0", " ")


@given(TREES, NUMBERS)
def test_what_is_printed_is_worth_what_is_worked(tree: Node, values: dict[str, Value]) -> None:
    try:
        worked = work(tree, values)
        printed = work(f(as_a_reader_reads_it(in_symbols(tree))), values)
    except FormulaFault:
        assume(False)  # noqa: FBT003 - a root of less than nothing, or a division by it, proves nothing
    assert isinstance(worked, Quantity)
    assert isinstance(printed, Quantity)
    assert math.isclose(worked.value, printed.value, rel_tol=1e-9)


def test_a_value_that_is_looked_up_within_a_step_stands_there_as_a_number() -> None:
    # Clark Y at 10 %: 9.60 and 0.42 in the published table
    step = f(
        'count * (table_ordinate("Clark Y", "10 %", "upper") - table_ordinate("Clark Y", "10 %", "lower"))'
    )
    assert in_numbers(step, VALUES) == "3 × (9.6\u00a0% − 0.42\u00a0%)"


def test_a_step_that_only_looks_a_value_up_says_where() -> None:
    step = f('table_ordinate("Clark Y", "10 %", "upper")')
    assert in_numbers(step, VALUES) == "table ordinate for Clark Y, 10\u00a0%, upper"


@pytest.mark.parametrize(
    ("html", "true"),
    [
        ("2 × 3\u00a0in", advance("2 × 3\u00a0in", "serif-regular", 10)),
        ("4\u202f11⁄32\u00a0in − 3⁄4\u00a0in ≈ 0.1054", advance("4\u202f11⁄32\u00a0in − 3⁄4\u00a0in ≈ 0.1054", "serif-regular", 10)),
        ("round up\u202f(2.667) = 3", advance("round up\u202f(2.667) = 3", "serif-regular", 10)),
        ("<i>wide</i><sub>after</sub>", advance("wide", "serif-italic", 10) + advance("after", "serif-regular", 7)),
        (frac("1", "<i>wide</i>"), advance("wide", "serif-italic", 9.2) + 0.3 * 0.92 * EM),
        (root("<b>4</b>"), advance("√", "serif-regular", 10) + advance("4", "serif-bold", 10) + 0.2 * EM),
    ],
)  # fmt: skip
def test_a_formula_is_no_wider_than_reckoned_and_hardly_narrower(html: str, true: float) -> None:
    assert true <= width_mm(html, 10) <= 1.2 * true


def test_what_holds_a_unit_together_takes_no_room() -> None:
    assert width_mm("6\u00a0m/\u2060min", 10) == width_mm("6\u00a0m/min", 10)
    assert width_mm("\x01", 10) == pytest.approx(EM / 2)
