"""What must hold in an exercise's figure: its sizes, the dimensions it shows and those it asks."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from coursepack.formula import Kinds, Minus, Name, Node, names_in
from coursepack.lesson import FigureForm, FigureRequest
from coursepack.place import FormulaFault, did_you_mean
from coursepack.reading.tables import Findings
from coursepack.working import SHAPES, kind_in, kind_words, wanted_kind

FIGURE_KINDS = {
    "length": "in", "angle": "deg", "force": "lbf", "time": "h", "sound level": "dBA",
    **dict.fromkeys(("count", "percent", "ratio"), ""), **{shape: shape for shape in SHAPES},
}  # fmt: skip
_FIGURE_WORDS = {
    "length": "a length", "angle": "an angle", "count": "a count", "percent": "a percentage", "ratio": "a ratio",
    "force": "a force", "time": "a time", "sound level": "a sound level",
    "airfoil": "an airfoil", "section": "a section", "plan": "a plan",
}  # fmt: skip


@dataclass(frozen=True)
class Known:
    """What is known of the exercise that a figure or a table belongs to: its names, those in doubt, and what it asks."""

    kinds: Mapping[str, Kinds]
    doubted: Collection[str]
    finds: frozenset[str]
    all_found: bool  # no question of the exercise has a fault that hides it

    def doubts(self, node: Node | None) -> bool:
        """True where a formula holds a name that has a fault already."""
        return node is not None and any(name.name in self.doubted for name in names_in(node))


def check_figure(
    figure: FigureRequest, figures: Mapping[str, FigureForm], known: Known, findings: Findings
) -> None:
    """Note every fault of a figure."""
    form = figures.get(figure.draw)
    if form is None:
        findings.add(figure.place, f"there is no figure '{figure.draw}'", did_you_mean(figure.draw, figures))
        return
    for message, remedy in (*_cut_faults(figure, form, figures), *_unknown_sizes(figure, form)):
        findings.add(figure.place, message, remedy)
    for name, what in form.takes.items():
        with findings.at(figure.place):
            _check_size(figure, name, what, known, needed=name not in form.optional)
    for message, remedy in (*_dimension_faults(figure, form, known), *_asking_faults(figure, form, known)):
        findings.add(figure.place, message, remedy)


def label_name(figure: FigureRequest, dimension: str) -> str:
    """Return the exercise's name whose value letters a dimension: its own word, unless `with` names another.

    A name with a minus before it turns the drawing, not the number: a fall is lettered without a sign.
    """
    node = figure.sizes.get(dimension)
    named = node.operand if isinstance(node, Minus) else node
    return named.name if isinstance(named, Name) else dimension


def _check_size(figure: FigureRequest, name: str, what: str, known: Known, *, needed: bool) -> None:
    """Raise FormulaFault for a size that the figure takes and that is missing, or of another kind."""
    node = figure.sizes.get(name)
    if name in known.doubted or known.doubts(node):
        return
    kind = known.kinds.get(name) if node is None else kind_in(node, known.kinds)
    if kind is None:
        if needed:
            raise FormulaFault(f"the figure needs '{name}'", f'add with = {{ {name} = "…" }}')
    elif kind != wanted_kind(FIGURE_KINDS[what]):
        raise FormulaFault(
            f"the figure's '{name}' is {_FIGURE_WORDS[what]}, not {kind_words(kind)}",
            "use with to give another" if node is None else "",
        )


def _cut_faults(
    figure: FigureRequest, form: FigureForm, figures: Mapping[str, FigureForm]
) -> Iterator[tuple[str, str]]:
    if figure.full_size and not form.is_cut:
        cut = sorted(name for name, each in figures.items() if each.is_cut)
        yield f"the figure '{figure.draw}' has no part to cut out", f"take one of {', '.join(cut)}"


def _unknown_sizes(figure: FigureRequest, form: FigureForm) -> Iterator[tuple[str, str]]:
    for name in figure.sizes:
        if name not in form.takes and name not in form.dimensions:
            yield f"the figure takes no '{name}'", did_you_mean(name, form.takes)


def _dimension_faults(figure: FigureRequest, form: FigureForm, known: Known) -> Iterator[tuple[str, str]]:
    for name in (*figure.show, *figure.ask):
        if name not in form.dimensions:
            yield f"the figure has no dimension '{name}'", did_you_mean(name, form.dimensions)
        elif name not in known.kinds and name not in figure.sizes and name not in known.doubted:
            yield f"'{name}' is no number of this exercise", f'add with = {{ {name} = "…" }}'


def _asking_faults(figure: FigureRequest, form: FigureForm, known: Known) -> Iterator[tuple[str, str]]:
    for name in figure.ask:
        if name in form.dimensions and known.all_found and label_name(figure, name) not in known.finds:
            yield f"the figure asks '{name}', which no question finds", "ask what a find block asks"
    for name in sorted(known.finds & {label_name(figure, shown) for shown in figure.show}):
        yield f"the figure shows '{name}', which is asked for", "move it to ask"
