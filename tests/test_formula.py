"""The formula language: what it takes, what it refuses and where it points."""

import time
from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from coursepack.formula import WORD, Kinds, Literal, Minus, Name, Operation, Power, Value, names_in
from coursepack.formulatext import read
from coursepack.place import FormulaFault
from coursepack.quantity import Quantity
from coursepack.shoptext import parse
from coursepack.trade.catalogue import FUNCTIONS
from coursepack.units import kind_of
from coursepack.working import kind_in, work

VALUES: dict[str, Value] = {
    "front": parse("5 in"), "width": parse("1 in"), "top": parse("45 deg"), "count": parse("3"), "wood": "white ash",
}  # fmt: skip
KINDS: dict[str, Kinds] = {name: v.kind if isinstance(v, Quantity) else WORD for name, v in VALUES.items()}
SECOND = 1.0


def answer(text: str) -> Value:
    return work(read(text, FUNCTIONS), VALUES)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1 + 2 * 3", "7"), ("(1 + 2) * 3", "9"), ("8 / 4 / 2", "1"), ("2 - 3 - 4", "-5"), ("-2 ** 2", "-4"), ("2 ** -1", "0.5"),
        ("4 ** (1/2)", "2"), ("4 ** (-1/2)", "0.5"), ("+3", "3"), ("--3", "3"), ("1.5 * 2", "3"), ("1e3", "1000"),
        ("front - width / 4", "4 3/4 in"), ('front + "25.4 mm"', "6 in"), ('"1 3/8 in" * 2', "2 3/4 in"),
        ("front * width", "5 in²"), ("front / width", "5"), ("front ** 2", "25 in²"), ("abs(width - front)", "4 in"),
        ("front if front > width else width", "5 in"), ("width if 1 < count < 3 else front", "5 in"),
        ("min(front, width, '3/4 in')", "3/4 in"), ("up(count / 2)", "2"), ("front if wood == 'white ash' else width", "5 in"),
        ("  front  ", "5 in"), ("front\t+ width", "6 in"),
    ],
)  # fmt: skip
def test_a_formula_is_worked_as_it_is_written(text: str, value: str) -> None:
    found = answer(text)
    assert isinstance(found, Quantity)
    assert found == parse(value)


@pytest.mark.parametrize(
    ("text", "holds"),
    [
        ("front > width", True), ("front <= width", False), ("1 < 2 < 3", True), ("3 > 2 > 2", False),
        ("'5 in' == front", True), ("'127 mm' == front", True), ("wood != 'white ash'", False),
    ],
)  # fmt: skip
def test_a_comparison_is_true_or_not(text: str, holds: bool) -> None:  # noqa: FBT001
    assert answer(text) is holds


def test_the_tree_keeps_the_signs_and_the_columns() -> None:
    node = read("front - width ** 2 * -3", FUNCTIONS)
    assert node == Operation(
        "-",
        Name("front", 0),
        Operation("*", Power(Name("width", 8), Fraction(2), 8), Minus(Literal(parse("3"), 22), 21), 21),
        8,
    )
    assert [name.name for name in names_in(read("a if b > c else d + a", FUNCTIONS))] == [
        "a",
        "b",
        "c",
        "d",
        "a",
    ]


READING = [
    ("", 0, "there is no formula"), ("   ", 0, "there is no formula"), ("front -", 7, "the formula cannot be read here"),
    ("(front", 0, "the formula cannot be read here"), ("front)", 5, "the formula cannot be read here"),
    ("front = 3", 6, "the formula cannot be read here"), ("a; b", 1, "the formula cannot be read here"),
    ("9**9**9", 3, "a power is a plain number, not a name or a sum"), ("2 ** count", 5, "a power is a plain number, not a name or a sum"),
    ("2 ** (1/0)", 8, "a power is a plain number, not a name or a sum"), ("front ** 99", 9, "the power 99 is out of range"),
    ("2 ** (1/99)", 8, "the power 1/99 is out of range"), ('2 ** ("1 in" / "2 mm")', 15, "a power is a plain number, not a name or a sum"),
    ("__import__('os')", 0, "there is no function '__import__'"), ("1 + eval('1')", 4, "there is no function 'eval'"),
    ("1 + front.real", 4, "this does not belong in a formula"), ("front[0]", 0, "this does not belong in a formula"),
    ("1 + (lambda: 1)", 5, "this does not belong in a formula"), ("[x for x in y]", 0, "this does not belong in a formula"),
    ("1 + {1: 2}", 4, "this does not belong in a formula"), ("{1, 2}", 0, "this does not belong in a formula"), ("(1, 2)", 0, "this does not belong in a formula"),
    ("1 + f'{front}'", 4, "this does not belong in a formula"), ("1 + b'3 in'", 4, "this does not belong in a formula"),
    ("1 + (x := 3)", 5, "this does not belong in a formula"), ("tan(angle=top)", 0, "this does not belong in a formula"),
    ("max(*top)", 4, "this does not belong in a formula"), ("max(1, **top)", 0, "this does not belong in a formula"),
    ("1 + True", 4, "this does not belong in a formula"), ("1 + None", 4, "this does not belong in a formula"), ("1 + ...", 4, "this does not belong in a formula"),
    ("1 + 3j", 4, "this does not belong in a formula"), ("1 if a and b else 2", 5, "this does not belong in a formula"), ("~3", 0, "this does not belong in a formula"),
    ("not 3", 0, "this does not belong in a formula"), ("tan(1)(2)", 0, "this does not belong in a formula"), ("await x", 0, "this does not belong in a formula"),
    ("7 // 2", 0, "this sign is not in the formula language"), ("7 % 2", 0, "this sign is not in the formula language"), ("1 + 7 @ 2", 4, "this sign is not in the formula language"),
    ("1 << 9", 0, "this sign is not in the formula language"), ("a is b", 0, "this comparison is not in the formula language"), ("a in b", 0, "this comparison is not in the formula language"),
    ("1 + '3 furlong'", 4, "'3 furlong': 'furlong' is not a unit"), ("1 + 1e12", 4, "the number is too large"), ("1e999", 0, "the number is too large"),
    ("tan()", 0, "tan takes 1 value, not 0"), ("1 + tan(1, 2)", 4, "tan takes 1 value, not 2"),
    ("a\\\n+ b", 1, "this character has no place in a formula"), ("'\\x41'", 1, "this character has no place in a formula"), ("a\0", 1, "this character has no place in a formula"),
    ("a + \u2028b", 4, "this character has no place in a formula"), ("'\ud800'", 1, "this character has no place in a formula"),
    ("1if 1 < 2 else 3", 0, "the formula cannot be read here"),
    ("'½ in' + a.b", 9, "this does not belong in a formula"), ("   7 % 2", 3, "this sign is not in the formula language"), ("'½ in' + $", 9, "the formula cannot be read here"),
]  # fmt: skip
SIZE = [
    ("(" * 10_000 + "1" + ")" * 10_000, 400, "the formula has more than 400 characters"), ("1+" * 5_000 + "1", 400, "the formula has more than 400 characters"),
    ("(" * 30 + "1" + ")" * 30, 24, "the formula is nested too deeply"), ("[" * 399, 24, "the formula is nested too deeply"),
    ("-" * 390 + "1", 97, "the formula is nested too deeply"), ("+".join("1" * 190), 0, "the formula is nested too deeply"),
    ("9" * 399, 0, "the number is too large"), ("2**" * 100 + "2", 288, "the formula is nested too deeply"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "column", "told"),
    [*READING, *SIZE],
    ids=lambda value: str(value)[:24].encode("unicode_escape").decode(),
)
def test_what_is_no_formula_is_a_fault_that_points_at_the_character(
    text: str, column: int, told: str
) -> None:
    start = time.process_time()
    with pytest.raises(FormulaFault) as caught:
        read(text, FUNCTIONS)
    assert time.process_time() - start < SECOND
    assert (caught.value.message, caught.value.column) == (told, column)


KIND = [
    ("front + top", 8, "an angle cannot be added to a length"), ("front - 1", 8, "a plain number cannot be taken from a length"),
    ("front > top", 0, "a length cannot be compared with an angle"), ("wood + front", 0, "a word stands where a quantity is needed"),
    ("-wood", 1, "a word stands where a quantity is needed"), ("(front > width) * 2", 1, "a comparison stands where a quantity is needed"),
    ("tan(front)", 4, "tan: angle is an angle, not a length"), ("tan(wood)", 4, "tan: angle is a quantity, not a word"),
    ("abs(wood)", 4, "abs: value is a quantity, not a word"), ("min(front, top)", 11, "min: other is a length, not an angle"),
    ("min(front, width, 3)", 18, "min: other is a length, not a plain number"), ("min(count, front)", 11, "min: other is a plain number, not a length"),
    ("shrinkage(front, 'radial')", 10, "shrinkage: species is a word in quotes, not a length"),
    ("shrinkage('white ash', 'sideways')", 23, "shrinkage: 'sideways' is not known"),
    ("front if width else top", 9, "the part after 'if' is not a comparison"), ("front if 1 < 2 else top", 0, "one side is a length, the other an angle"),
    ("front ** (1/3)", 0, "a quantity with a unit takes whole and half powers"), ("fronts + 1", 0, "'fronts' is not known here"),
    ("wood < 'white ash'", 0, "words have no order"), ("(1 < 2) == (2 < 3)", 0, "a comparison cannot be compared with a comparison"),
    ("sqrt(front) + 1", 14, "a plain number cannot be added to [length]^1/2"), ("sqrt(wood)", 5, "sqrt: value is a quantity, not a word"),
    ("[front, width] + front", 0, "a list stands where a quantity is needed"), ("[front] == [front]", 0, "a list cannot be compared with a list"),
    ("noise_dose(front)", 11, "noise_dose: exposures is a list of rows of a time, a sound level"),
    ("noise_dose([[front, width]])", 11, "noise_dose: exposures is a list of rows of a time, a sound level"),
    ("tan([top])", 4, "tan: angle is a quantity, not a list"), ("abs(airfoil('Clark Y'))", 4, "abs: value is a quantity, not an airfoil"),
    ("area(front)", 5, "area: section is a section, not a length"),
    ("1 if pocket_allowed(front, width, top) else 2", 34, "pocket_allowed: depth is a length, not an angle"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "column", "told"), KIND)
def test_units_that_do_not_fit_are_found_without_any_numbers(text: str, column: int, told: str) -> None:
    with pytest.raises(FormulaFault) as caught:
        kind_in(read(text, FUNCTIONS), KINDS)
    assert (caught.value.message, caught.value.column) == (told, column)


@pytest.mark.parametrize(
    ("text", "name"),
    [("front * width", "in²"), ("front / width", ""), ("front ** 2 / width", "in"), ("sqrt(front * width)", "in"), ("1 if pocket_allowed(front, width, width) else 2", ""), ('strength(wood, "hardness", "dry")', "lbf"), ("(front * width) ** (1/2)", "in"), ("front ** 0", ""), ("tan(top) * width", "in"), ("atan(front / width)", "deg"), ("1 / front", "1/in")],
)  # fmt: skip
def test_the_kind_of_a_formula_is_that_of_its_value(text: str, name: str) -> None:
    node = read(text, FUNCTIONS)
    value = work(node, VALUES)
    assert isinstance(value, Quantity)
    assert kind_in(node, KINDS) == kind_of(name) == value.kind


WORKING = [
    ("front / (width - width)", 9, "division by zero"), ("front + top", 8, "45 deg (an angle) cannot be added to 5 in (a length)"),
    ("(1 - 5) ** (1/2)", 0, "-4 is negative and has no such root"), ("0 ** -1", 0, "0 cannot be raised to the power -1"),
    ("tan('90 deg')", 0, "angle is 90 deg"), ("asin(2)", 0, "value is 2"), ("nosuch", 0, "'nosuch' is not known here"),
    ("wood < 'b'", 0, "these cannot be compared"), ("tan(wood)", 4, "tan: angle does not fit"), ("1 if 3 else 2", 5, "a comparison is needed here"),
    ("(1e11 ** 9) ** 9", 1, None), ("'8 in' ** (1/3)", 0, "8 in takes whole and half powers, not 1/3"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "column", "told"), WORKING)
def test_a_formula_without_a_value_is_a_fault_with_its_column(
    text: str, column: int, told: str | None
) -> None:
    with pytest.raises(FormulaFault) as caught:
        answer(text)
    assert told is None or caught.value.message == told
    assert told is None or caught.value.column == column


PIECES = st.sampled_from(
    ["front", "width", "top", "(", ")", "+", "-", "*", "/", "**", "2", "9", "0", "1/2", "'3 in'", "'", '"8 deg"', " if ", " else ", "<", "==", "tan(", "min(", ",", "lambda", ".", "[", "{", ":", "½", "\\", "é", "f'", "b'", "0x", "_"]
)  # fmt: skip


@given(st.text(max_size=60) | st.lists(PIECES, max_size=30).map("".join))
@example("'\\N{DIGIT ONE}'")
@example("0_")
@example("1__import__")
def test_no_text_whatever_makes_reading_or_working_raise_anything_but_a_formula_fault(text: str) -> None:
    with suppress(FormulaFault):
        node = read(text, FUNCTIONS)
        with suppress(FormulaFault):
            kind_in(node, KINDS)
        str(work(node, VALUES))


@given(st.lists(PIECES, max_size=20).map("".join))
def test_the_column_of_a_fault_stands_in_the_text(text: str) -> None:
    try:
        read(text, FUNCTIONS)
    except FormulaFault as fault:
        column = fault.column
        assert 0 <= column <= len(text)


@given(st.integers(1, 640), st.integers(1, 64), st.sampled_from(["in", "ft", "mm", "m"]))
def test_an_answer_does_not_change_when_its_inputs_are_given_in_other_units(
    n: int, den: int, unit: str
) -> None:
    node = read("front * width / (front + width) - width ** 2 / front", FUNCTIONS)
    values: dict[str, Value] = {"front": Quantity.of(Fraction(n, den), "in"), "width": parse("7/8 in")}
    others: dict[str, Value] = {
        name: value.to(unit) for name, value in values.items() if isinstance(value, Quantity)
    }
    one, other = work(node, values), work(node, others)
    assert isinstance(one, Quantity)
    assert isinstance(other, Quantity)
    assert one.number("mm") == other.number("mm")
