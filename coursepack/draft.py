"""A solved exercise → its figure: true sizes in, lettering from the answers."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import isclose

from coursepack.drafting.catalogue import FIGURES
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.sheet import Drawing, Frame, Mark
from coursepack.formula import Shape, Value
from coursepack.lesson import FigureRequest, Find
from coursepack.place import LessonFault
from coursepack.quantity import Quantity, printed, printed_at, to_mark
from coursepack.reading.figure_checks import label_name
from coursepack.solve import Solved
from coursepack.working import SHAPES, quantity, work

SAME = 1e-6  # of a size as it is drawn and as it is lettered, relative and in mm or degrees
COLUMN_MM = (58.0, 190.0)  # wide and high, beside the text
ACROSS_MM = (174.0, 105.0)  # over it
FIGURE_UNITS: Mapping[str, str] = {
    "length": "mm", "angle": "deg", "count": "", "percent": "%", "ratio": "", "force": "N", "time": "h", "sound level": "dBA",
}  # fmt: skip


def draft(solved: Solved, *, answered: bool) -> Drawing | None:
    """Draw the exercise's figure, or return None if it has none.

    What is asked is a blank, or with `answered` the answer. Raises LessonFault, at the figure's line, where it
    does not fit its column.
    """
    request = solved.exercise.figure
    if request is None:
        return None
    figure, sizes = FIGURES[request.draw], _sizes(request, solved.values)
    try:
        return figure.draw(sizes, marks(request, solved, answered=answered), _frame(request))
    except LessonFault as fault:
        raise fault.at(request.place) from fault


def refuse_other_size(solved: Solved) -> None:
    """Raise LessonFault where the figure would letter a dimension with another size than it draws it in.

    An answer may differ by what its question allows, since a lesson may reckon what a drawing has to the full.
    """
    request = solved.exercise.figure
    if request is None:
        return
    figure = FIGURES[request.draw]
    try:
        drawn = figure.measure(_sizes(request, solved.values))
    except LessonFault as fault:
        raise fault.at(request.place) from fault
    for name in (*request.show, *request.ask):
        unit = FIGURE_UNITS[figure.kind_of(name)]
        lettered, find = _unrounded(request, solved, name), _find(request, solved, name)
        number = abs(float(lettered.number(unit)))
        allowed = float(find.within[solved.measure].number(unit)) if find else SAME
        if name in drawn and not isclose(number, abs(drawn[name]), rel_tol=SAME, abs_tol=allowed):
            raise LessonFault(
                f"the figure would letter '{name}' {lettered}, and draw it {Quantity.of(drawn[name], unit)}",
                f"give it what the figure '{figure.name}' means by '{name}' (coursepack draft --list), or leave it out",
                request.place,
            )


def _frame(request: FigureRequest) -> Frame:
    scale = Fraction(*(int(part) for part in request.scale.split(":"))) if request.scale else None
    return Frame(*(ACROSS_MM if request.wide else COLUMN_MM), scale)


def parts(solved: Solved) -> Sequence[Part]:
    """Return the parts of an exercise's figure that are printed at full size; none if it asks for none."""
    request = solved.exercise.figure
    if request is None or not request.full_size:
        return ()
    cut = FIGURES[request.draw].cut
    assert cut is not None  # noqa: S101 - the reading has refused a figure that has no parts
    try:
        return cut(_sizes(request, solved.values))
    except LessonFault as fault:
        raise fault.at(request.place) from fault


def _sizes(request: FigureRequest, values: Mapping[str, Value]) -> Sizes:
    """Return what a figure takes as true sizes: lengths in mm, angles in degrees, and its shapes."""
    there = {
        name: kind for name, kind in FIGURES[request.draw].takes.items() if _is_there(request, name, values)
    }
    shapes = {name: work(request.sizes[name], values) for name, kind in there.items() if kind in SHAPES}
    return Sizes(
        {name: _size(request, name, kind, values) for name, kind in there.items() if kind not in SHAPES},
        {name: shape for name, shape in shapes.items() if isinstance(shape, Shape)},
    )


def _is_there(request: FigureRequest, name: str, values: Mapping[str, Value]) -> bool:
    return name in request.sizes or name in values


def _size(request: FigureRequest, name: str, kind: str, values: Mapping[str, Value]) -> float:
    found = quantity(request.sizes[name], values) if name in request.sizes else values[name]
    if not isinstance(found, Quantity):
        raise LessonFault(f"the figure's '{name}' is not a quantity", place=request.place)
    return float(found.number(FIGURE_UNITS[kind]))


def marks(request: FigureRequest, solved: Solved, *, answered: bool) -> dict[str, Mark]:
    """Return how each dimension that a figure shows or asks is lettered: its size, a blank, or its answer."""
    marks = {name: Mark(printed(_labelled(request, solved, name))) for name in request.show}
    for name in request.ask:
        answer = solved.answer(label_name(request, name))
        if answer is None:  # a faded exercise has told it already
            marks[name] = Mark(printed(_labelled(request, solved, name)))
            continue
        is_check = solved.exercise.stage == "bench"  # those have no letters
        question = "" if is_check else solved.question(answer)
        unit = answer.value.unit_name.replace("deg", "°")
        marks[name] = (
            Mark(printed_at(answer.value, answer.mark), "answer", question)
            if answered
            else Mark(unit, "blank", question)
        )
    return marks


def _unrounded(request: FigureRequest, solved: Solved, name: str) -> Quantity:
    """Return the value that a dimension stands for."""
    known = label_name(request, name)
    value = solved.values[known] if known in solved.values else quantity(request.sizes[name], solved.values)
    if not isinstance(value, Quantity):
        raise LessonFault(f"the figure's '{name}' is not a quantity", place=request.place)
    return value


def _find(request: FigureRequest, solved: Solved, name: str) -> Find | None:
    """Return what asks for a dimension in the exercise or the worked one that it is like, if anything does."""
    known = label_name(request, name)
    return next((find for find in solved.exercise.finds if find.name == known), None)


def _labelled(request: FigureRequest, solved: Solved, name: str) -> Quantity:
    """Return the value that letters a dimension: at its mark where the exercise has one, else the number itself."""
    value, find = _unrounded(request, solved, name), _find(request, solved, name)
    return to_mark(value, find.nearest[solved.measure]) if find else value
