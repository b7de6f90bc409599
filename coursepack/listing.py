"""What a lesson can call on, as lists to read at the bench: the functions of the trade, and the figures."""

from collections.abc import Iterable, Iterator, Mapping
from textwrap import fill

from coursepack.drafting.catalogue import Figure
from coursepack.formula import Argument, Function, Functions, Value
from coursepack.formulatext import read
from coursepack.quantity import Quantity, exact, plain
from coursepack.trade.catalogue import sources_of_rows
from coursepack.working import work

WIDTH = 100
_PLAIN = "a number"


def listing(functions: Functions) -> str:
    """Return every function with its arguments and their units, one example with its answer, and its source."""
    return "\n\n".join("\n".join(_entry(function, functions)) for function in functions.values())


def figure_listing(figures: Mapping[str, Figure]) -> str:
    """Return every figure with what it takes, the dimensions that it can show or ask, and whether it is cut out."""
    return "\n\n".join("\n".join(_figure_entry(figure)) for figure in figures.values())


def _figure_entry(figure: Figure) -> Iterator[str]:
    yield figure.name
    needed = [f"{name}: {kind}" for name, kind in figure.takes.items() if name not in figure.optional]
    spare = [f"[{name}: {kind}]" for name, kind in figure.takes.items() if name in figure.optional]
    yield _indented(f"takes {', '.join([*needed, *spare])}")
    yield _indented(f"dimensions: {', '.join(figure.dimensions)}")
    if figure.is_cut:
        yield _indented("its parts can be printed at full size")


def answer(value: Value, *, unrounded: bool = False) -> str:
    """Return a value as a line of text: a comparison as yes or no, a list item by item."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(answer(item, unrounded=unrounded) for item in value)
    if isinstance(value, Quantity):
        return exact(value) if unrounded else plain(value)
    return str(value)


def _entry(function: Function, functions: Functions) -> Iterator[str]:
    least = len(function.takes) - function.optional
    takes = [_named(argument) for argument in function.takes[:least]]
    takes += [f"[{_named(argument)}]" for argument in function.takes[least:]]
    more = ", …" if function.repeats else ""
    yield f"{function.name}({', '.join(takes)}{more}) → {_unit(function.gives)}"
    yield _indented(function.says)
    for argument in function.takes:
        if argument.words:
            yield _indented(f"{argument.name}: {_listed(argument.words)}")
    yield _indented(f"{function.example} = {answer(work(read(function.example, functions), {}))}")
    yield _indented(f"source: {function.source}")
    for source, words in sources_of_rows(function.name).items():
        yield _indented(f"{_listed(words)}: {source}")


def _named(argument: Argument) -> str:
    if argument.unit == "word":
        return f"{argument.name}: word"
    if argument.unit in {"list", "rows"}:
        return f"{argument.name}: {argument.unit} of {' and '.join(_unit(unit) for unit in argument.of)}"
    return f"{argument.name}: {_unit(argument.unit)}"


def _unit(unit: str) -> str:
    return {
        "": _PLAIN, "any": "any unit", "same": "the same unit", "root": "its root", "truth": "yes or no", ":": "slope",
    }.get(unit, unit)  # fmt: skip


def _listed(words: Iterable[str]) -> str:
    return ", ".join(words)


def _indented(text: str) -> str:
    return fill(
        text,
        WIDTH,
        initial_indent="    ",
        subsequent_indent="      ",
        break_long_words=False,
        break_on_hyphens=False,
    )
