"""Every function answers a formula, and what is printed for it is what it works."""

import pkgutil
from fractions import Fraction
from importlib import import_module

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from coursepack import trade
from coursepack.formula import TRUTH, WORD, Argument, Call, Function, Kinds, Shape, Value, Word, walk
from coursepack.formulatext import read
from coursepack.place import LessonFault, TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.catalogue import FUNCTIONS, source_of
from coursepack.units import kind_of
from coursepack.working import SHAPES, kind_in, wanted_kind, work

# Exact fractions meet floats where a tangent, a root or a circle stands in a formula.
FLOAT_NOISE = 1e-9

ALL = sorted(FUNCTIONS.values(), key=lambda function: function.name)
WRITTEN = [function for function in ALL if function.written]
MODULES = [
    module
    for found in pkgutil.iter_modules(trade.__path__)
    if hasattr(module := import_module(f"coursepack.trade.{found.name}"), "FUNCTIONS")
    and found.name != "catalogue"
]


def named(function: Function) -> str:
    return function.name


def kinds_of(function: Function) -> dict[str, Kinds]:
    return {a.name: WORD if a.unit == "word" else kind_of(a.unit) for a in function.takes}


def kind_of_value(value: Value) -> Kinds:
    if isinstance(value, bool):
        return TRUTH
    assert isinstance(value, Quantity | Shape)
    return value.kind


def example_of(function: Function) -> Call:
    calls = [part for part in walk(read(function.example, FUNCTIONS)) if isinstance(part, Call)]
    return next(call for call in calls if call.function is function)


@pytest.mark.parametrize("function", ALL, ids=named)
def test_example_runs_and_has_the_kind_that_was_promised(function: Function) -> None:
    node = read(function.example, FUNCTIONS)
    value = work(node, {})
    assert kind_of_value(value) == kind_in(node, {})


@pytest.mark.parametrize("function", ALL, ids=named)
def test_example_shows_its_own_function_and_the_record_is_complete(function: Function) -> None:
    assert f"{function.name}(" in function.example
    assert function.says.endswith(".")
    assert function.source


def test_no_two_functions_share_a_name() -> None:
    names = [function.name for module in MODULES for function in module.FUNCTIONS]
    assert sorted(names) == sorted(FUNCTIONS)


@pytest.mark.parametrize("function", WRITTEN, ids=named)
def test_written_formula_has_the_units_of_the_function(function: Function) -> None:
    assert kind_in(read(function.written, FUNCTIONS), kinds_of(function)) == wanted_kind(function.gives)


SIZES = {
    "in": ("in", "mm"), "deg": ("deg",), "%": ("%",), "rpm": ("rpm",), "ft/min": ("ft/min", "m/min"), "lb": ("lb", "g"),
    "in·lbf": ("in·lbf", "N·m"), "psi": ("psi", "kPa"), "in²": ("in²", "cm²"), "in³": ("in³", "ft³"), "lbf": ("lbf", "N"), "lb/ft²": ("lb/ft²", "g/m²"),
}  # fmt: skip


@st.composite
def quantities(draw: st.DrawFn, argument: Argument) -> Value:
    if argument.unit == "word":
        return draw(st.sampled_from(argument.words))
    if argument.unit == "":
        return Quantity.of(draw(st.integers(2, 12)))
    if argument.unit == ":":
        return Quantity.of(Fraction(1, draw(st.integers(3, 40))), ":")
    least, most = {"deg": (-20, 20), "%": (6, 14)}.get(argument.unit, (1, 96))
    value = draw(st.fractions(least, most, max_denominator=64))
    return Quantity.of(value, draw(st.sampled_from(SIZES[argument.unit])))


def alike(one: Quantity, other: Quantity) -> bool:
    there, here = float(one.value), float(other.number(one.unit_name))
    return abs(there - here) <= FLOAT_NOISE * max(abs(there), abs(here), 1e-3)


@pytest.mark.parametrize("function", WRITTEN, ids=named)
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
@given(data=st.data())
def test_written_formula_is_worth_what_the_function_is(function: Function, data: st.DataObject) -> None:
    values: dict[str, Value] = {a.name: data.draw(quantities(a), a.name) for a in function.takes}
    try:
        worked = function.work(*values.values())
    except TradeFault:
        assume(False)  # noqa: FBT003 - a draw that the function refuses proves nothing
    printed = work(read(function.written, FUNCTIONS), values)
    assert isinstance(worked, Quantity)
    assert isinstance(printed, Quantity)
    assert alike(worked, printed)


def words_and_places() -> list[tuple[Function, int]]:
    return [(f, n) for f in ALL for n, a in enumerate(example_of(f).arguments) if isinstance(a, Word)]


@pytest.mark.parametrize(("function", "place"), words_and_places(), ids=str)
def test_an_unknown_word_is_a_fault_that_names_known_ones(function: Function, place: int) -> None:
    arguments = [work(argument, {}) for argument in example_of(function).arguments]
    arguments[place] = "granite"
    with pytest.raises(TradeFault, match="'granite' is not known") as caught:
        function.work(*arguments)
    assert any(word in caught.value.remedy for word in function.takes[place].words)


SINGLE = {a.unit for f in ALL for a in f.takes} - {"any", "same", "list", "rows", *SHAPES}


def quantities_and_places() -> list[tuple[Function, int]]:
    return [
        (f, n)
        for f in ALL
        for n, a in enumerate(example_of(f).arguments)
        if not isinstance(a, Word) and f.takes[min(n, len(f.takes) - 1)].unit in SINGLE
    ]


@pytest.mark.parametrize(("function", "place"), quantities_and_places(), ids=str)
def test_a_wrong_unit_is_a_fault_that_says_what_is_allowed(function: Function, place: int) -> None:
    arguments = [work(argument, {}) for argument in example_of(function).arguments]
    arguments[place] = Quantity.of(3, "kg/m³")
    with pytest.raises(LessonFault) as caught:
        function.work(*arguments)
    assert isinstance(caught.value, TradeFault)
    assert caught.value.remedy


def test_the_source_of_a_value_from_memory_says_so() -> None:
    assert source_of("shrinkage", "red spruce", "radial").endswith("from memory of Wood Handbook, Table 4-3")
    assert "from memory" not in source_of("shrinkage", "white ash", "radial")


def test_the_source_of_an_airfoil_is_that_of_its_table() -> None:
    assert source_of("airfoil", "Clark Y").startswith("Clark Y: second-hand copy")
    assert "Public Domain Aeronautical Software" in source_of("airfoil", "NACA 2412")


def test_the_source_of_an_unknown_function_is_a_fault() -> None:
    with pytest.raises(TradeFault, match="there is no function 'shrinkage_of'") as caught:
        source_of("shrinkage_of")
    assert caught.value.remedy == "did you mean 'shrinkage'?"
