"""The choices of a number, 'a to b by c', 'a | b | c' or one value, and marks of a rule; both for each measure."""

from collections.abc import Iterable, Mapping
from fractions import Fraction

from coursepack.lesson import MEASURES
from coursepack.place import LessonFault
from coursepack.quantity import Measure, Quantity
from coursepack.reading.tables import Table
from coursepack.shoptext import looks_like_quantity, parse

MOST_CHOICES = 2_000
# a scale weighs grams in either measure, so weights are not among them
_ELSEWHERE: Mapping[Measure, frozenset[str]] = {
    "inch": frozenset(("mm", "cm", "m", "mm²", "cm²", "m²", "kPa", "MPa", "N", "°C", "m/min", "mm/min")),
    "metric": frozenset(("in", "ft", "in²", "ft²", "bd ft", "psi", "lbf", "°F", "ft/min", "in/min")),
}


def choices(text: str) -> tuple[Quantity | str, ...]:
    """Read 'a to b by c', 'a | b | c' or one value; raises LessonFault for a range with no value."""
    first, to, rest = " ".join(text.split()).partition(" to ")
    last, by, step = rest.partition(" by ")
    if to and by:
        return _range(*(parse(part) for part in (first, last, step)))
    if to and looks_like_quantity(text):
        raise LessonFault(f"the range '{text}' has no step", "write it such as 4 in to 5 in by 1/16 in")
    if "," in text and looks_like_quantity(text):
        raise LessonFault(
            f"'{text}' has a comma", "put | between choices, and a point before decimals: 3/4 in | 0.8 in"
        )
    parts = text.split("|")
    if len(parts) > MOST_CHOICES:
        raise LessonFault(f"there are more than {MOST_CHOICES} choices", "write a range")
    return tuple(_choice(part.strip()) for part in parts)


def _choice(text: str) -> Quantity | str:
    if not text:
        raise LessonFault("a choice is empty", "write one such as 3/4 in | 7/8 in")
    return parse(text) if looks_like_quantity(text) else text


def _range(first: Quantity, last: Quantity, step: Quantity) -> tuple[Quantity, ...]:
    name = first.unit_name
    start, end, stride = (Fraction(part.number(name)) for part in (first, last, step))
    if stride <= 0 or end < start:
        raise LessonFault(
            f"the range {first} to {last} by {step} has no value", "go upward, by a step above zero"
        )
    count = (end - start) // stride + 1
    if count > MOST_CHOICES:
        raise LessonFault(f"the range has {count} values", f"keep it to {MOST_CHOICES}: take a larger step")
    return tuple(Quantity.of(start + number * stride, name) for number in range(count))


def choices_by_measure(table: Table, name: str) -> dict[Measure, tuple[Quantity | str, ...]]:
    """Return a table's choices for each measure; raises LessonFault as `choices`, and for a unit of the other one."""
    found = {measure: choices(text) for measure, text in _by_measure(table, name).items()}
    if "both" not in table.values:
        for measure, row in found.items():
            _check_home(measure, row)
    return found


def _check_home(measure: Measure, row: Iterable[Quantity | str]) -> None:
    for value in row:
        if isinstance(value, Quantity) and value.unit_name in _ELSEWHERE[measure]:
            raise LessonFault(f"'{value}' stands under '{measure}'", "give it in a unit of that measure")


def _by_measure(table: Table, name: str) -> dict[Measure, str]:
    """Return a table's text for each measure: inch and metric, or both; raises LessonFault where one is missing."""
    if "both" in table.values:
        table.taken.add("both")
        found: dict[Measure, object] = dict.fromkeys(MEASURES, table.values["both"])
    else:
        table.taken.update(MEASURES)
        found = {measure: table.values.get(measure) for measure in MEASURES}
    table.finish(("both",))
    texts = {measure: text for measure, text in found.items() if isinstance(text, str)}
    if len(texts) != len(MEASURES):
        raise LessonFault(
            f"'{name}' needs both measures", 'write { inch = "…", metric = "…" } or { both = "…" }'
        )
    return texts


def marks(table: Table, key: str) -> Mapping[Measure, Quantity] | None:
    """Return the marks of a rule or the tolerances that a key holds, or note their fault."""
    value = table.values.get(key)
    table.taken.add(key)
    if isinstance(value, str):
        value = {"both": value}
    with table.findings.at(table.place(key)):
        if not isinstance(value, dict):
            raise LessonFault(
                f"{table.what} has no '{key}'", f'add {key} = {{ inch = "1/64 in", metric = "0.1 mm" }}'
            )
        inner = table.inner(key, value, f"'{key}'")
        found = {measure: parse(text) for measure, text in _by_measure(inner, key).items()}
        if "both" not in inner.values:
            for measure, mark in found.items():
                _check_home(measure, [mark])
        if any(mark.value <= 0 for mark in found.values()):
            raise LessonFault(f"'{key}' is not above zero", 'write a mark such as "1/64 in"')
        return found
    return None
