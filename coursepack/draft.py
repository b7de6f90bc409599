"""A solved exercise → its figure: true sizes in, lettering from the answers."""

from collections.abc import Mapping
from fractions import Fraction

from coursepack.drafting.catalogue import FIGURES
from coursepack.drafting.sheet import Drawing, Frame, Mark
from coursepack.formula import Value
from coursepack.lesson import FigureRequest
from coursepack.place import LessonFault
from coursepack.quantity import Quantity, printed, to_mark
from coursepack.reading.checks import label_name
from coursepack.solve import Solved
from coursepack.working import quantity

COLUMN_MM = 58.0
TALLEST_MM = 190.0
_UNITS: Mapping[str, str] = {"length": "mm", "angle": "deg", "count": "", "percent": "%", "ratio": ""}


def draft(solved: Solved, *, answered: bool) -> Drawing | None:
    """Draw the exercise's figure, or return None if it has none.

    What is asked is a blank, or with `answered` the answer. Raises LessonFault, at the figure's line, where it
    does not fit its column.
    """
    request = solved.exercise.figure
    if request is None:
        return None
    figure = FIGURES[request.draw]
    sizes = {
        name: _size(request, name, kind, solved.values)
        for name, kind in figure.takes.items()
        if _is_there(request, name, solved.values)
    }
    scale = Fraction(*(int(part) for part in request.scale.split(":"))) if request.scale else None
    try:
        return figure.draw(
            sizes, _marks(request, solved, answered=answered), Frame(COLUMN_MM, TALLEST_MM, scale)
        )
    except LessonFault as fault:
        raise fault.at(request.place) from fault


def _is_there(request: FigureRequest, name: str, values: Mapping[str, Value]) -> bool:
    return name in request.sizes or name in values


def _size(request: FigureRequest, name: str, kind: str, values: Mapping[str, Value]) -> float:
    found = quantity(request.sizes[name], values) if name in request.sizes else values[name]
    if not isinstance(found, Quantity):
        raise LessonFault(f"the figure's '{name}' is not a quantity", place=request.place)
    return float(found.number(_UNITS[kind]))


def _marks(request: FigureRequest, solved: Solved, *, answered: bool) -> dict[str, Mark]:
    marks = {name: Mark(printed(_labelled(request, solved, name))) for name in request.show}
    for name in request.ask:
        answer = solved.answer(label_name(request, name))
        if answer is None:  # a faded exercise has told it already
            marks[name] = Mark(printed(_labelled(request, solved, name)))
            continue
        unit = answer.value.unit_name.replace("deg", "°")
        marks[name] = Mark(printed(answer.value), "answer") if answered else Mark(unit, "blank")
    return marks


def _labelled(request: FigureRequest, solved: Solved, name: str) -> Quantity:
    """Return the value that letters a dimension: at its mark where the exercise has one, else the number itself."""
    known = label_name(request, name)
    value = solved.values[known] if known in solved.values else quantity(request.sizes[name], solved.values)
    if not isinstance(value, Quantity):
        raise LessonFault(f"the figure's '{name}' is not a quantity", place=request.place)
    find = next((find for find in solved.exercise.finds if find.name == known), None)
    return to_mark(value, find.nearest[solved.measure]) if find else value
