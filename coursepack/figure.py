"""One figure by itself, for a page of one's own: any figure of the drafting room from sizes in shop text.

As in `figure("spar section", front="4 1/2 in", width="3/4 in", top="-8 deg", bottom="2 deg")`.
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction

from coursepack.draft import FIGURE_UNITS
from coursepack.drafting.catalogue import FIGURES, Figure
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.sheet import Drawing, Frame, Mark
from coursepack.formula import Literal, Node, Shape, Value, names_in
from coursepack.formulatext import read
from coursepack.place import FormulaFault, LessonFault, QuantityFault, did_you_mean
from coursepack.quantity import Measure, Quantity, printed, to_mark
from coursepack.shoptext import looks_like_quantity, parse
from coursepack.trade.catalogue import FUNCTIONS
from coursepack.units import kind_of
from coursepack.working import SHAPES, work

WIDE = Frame(118.0, 190.0)
_MARKS: Mapping[Measure, Mapping[str, str]] = {
    "inch": {"length": "1/64 in", "angle": "0.1 deg", "force": "1 lbf"},
    "metric": {"length": "0.1 mm", "angle": "0.1 deg", "force": "1 N"},
}


def figure(
    name: str,
    *,
    show: Iterable[str] | None = None,
    scale: str = "",
    measure: Measure = "inch",
    frame: Frame = WIDE,
    **sizes: str | Value,
) -> Drawing:
    """Draw a figure from its sizes: shop text ("4 1/2 in"), formulas over the sizes before them, or values.

    Shows every dimension that the sizes give, or those of `show`; derived ones are lettered to 1/64 in or
    0.1 mm. `scale` is as "1:2", without it the largest that fits the frame. Raises LessonFault for an unknown
    figure or size, for a size that is missing or of the wrong kind, and where the figure does not fit.
    """
    return drawing_of(name, sizes, show, scale, measure, frame)


def drawing_of(
    name: str,
    sizes: Mapping[str, str | Value],
    show: Iterable[str] | None,
    scale: str,
    measure: Measure,
    frame: Frame = WIDE,
) -> Drawing:
    """Draw a figure from a mapping of its sizes; see `figure`."""
    form = known_figure(name)
    room = Frame(frame.width, frame.height, Fraction(*map(int, scale.split(":"))) if scale else None)
    return form.draw(worked(form, sizes), letters(form, sizes, show, measure), room)


def letters(
    form: Figure,
    sizes: Mapping[str, str | Value],
    show: Iterable[str] | None = None,
    measure: Measure = "inch",
) -> dict[str, Mark]:
    """Return how each dimension of a figure is lettered; raises LessonFault for one that it does not have."""
    true = form.measure(worked(form, sizes))
    taken = {name: value for name, value in _values(form, sizes).items() if isinstance(value, Quantity)}
    for wanted in show or ():
        if wanted not in true:
            raise LessonFault(f"the figure has no dimension '{wanted}'", did_you_mean(wanted, true))
    return {
        name: Mark(printed(abs(taken[name])) if name in taken else _lettered(form, name, true[name], measure))
        for name in (true if show is None else show)
    }


def parts(name: str, sizes: Mapping[str, str | Value]) -> tuple[Part, ...]:
    """Return the parts of a figure to print at full size; raises LessonFault where it has none."""
    form = known_figure(name)
    if form.cut is None:
        cut = ", ".join(sorted(each.name for each in FIGURES.values() if each.cut))
        raise LessonFault(f"the figure '{name}' has no part to cut out", f"take one of {cut}")
    return form.cut(worked(form, sizes))


def known_figure(name: str) -> Figure:
    """Return a figure by its name; raises LessonFault with the nearest name."""
    if name not in FIGURES:
        raise LessonFault(f"there is no figure '{name}'", did_you_mean(name, FIGURES))
    return FIGURES[name]


def worked(form: Figure, sizes: Mapping[str, str | Value]) -> Sizes:
    """Return what a figure takes as true sizes; raises LessonFault for what is missing or does not fit."""
    values = _values(form, sizes)
    if missing := [name for name in form.takes if name not in values and name not in form.optional]:
        raise LessonFault(f"the figure '{form.name}' needs {', '.join(missing)}", f"give {missing[0]}=…")
    lengths = {
        name: _number(name, kind, values[name])
        for name, kind in form.takes.items()
        if name in values and kind not in SHAPES
    }
    return Sizes(lengths, {name: value for name, value in values.items() if isinstance(value, Shape)})


def _values(form: Figure, sizes: Mapping[str, str | Value]) -> dict[str, Value]:
    _refuse_unused(form, sizes)
    values: dict[str, Value] = {}
    for name, given in sizes.items():
        values[name] = work(_read(given), values) if isinstance(given, str) else given
        kind = form.takes.get(name)
        if kind in SHAPES and not isinstance(values[name], Shape):
            raise LessonFault(f"'{name}' is {given}, not {kind}", f'write {name}={kind}("…")')
    return values


def _refuse_unused(form: Figure, sizes: Mapping[str, str | Value]) -> None:
    """A name that the figure does not take must stand in a formula, else it is misspelt."""
    formulas = [_read(text) for text in sizes.values() if isinstance(text, str)]
    used = {name.name for node in formulas for name in names_in(node)}
    for name in sizes:
        if name not in form.takes and name not in used:
            raise LessonFault(f"the figure '{form.name}' takes no '{name}'", did_you_mean(name, form.takes))


def _read(text: str) -> Node:
    """Read a size: shop text as it stands on a drawing, else a formula."""
    try:
        return Literal(parse(text), 0)
    except QuantityFault as fault:
        try:
            return read(text, FUNCTIONS)
        except FormulaFault as other:
            raise fault if looks_like_quantity(text) else other from fault


def _number(name: str, kind: str, value: Value) -> float:
    unit = FIGURE_UNITS[kind]
    if not isinstance(value, Quantity) or value.kind != kind_of(unit):
        raise LessonFault(f"'{name}' is {value}, not {kind}", f"give one such as 3 {unit}".rstrip())
    return float(value.number(unit))


def _lettered(form: Figure, name: str, true: float, measure: Measure) -> str:
    kind = form.kind_of(name)
    value = Quantity.of(true, FIGURE_UNITS[kind])
    mark = _MARKS[measure].get(kind)
    return printed(to_mark(value.to(parse(mark).unit_name), parse(mark)) if mark else value)
