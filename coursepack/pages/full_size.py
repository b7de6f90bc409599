"""Full-size sheets ready for the page: every part that is cut out, with what must be said of it."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from markupsafe import Markup

from coursepack.draft import marks, parts
from coursepack.drafting.part import Part
from coursepack.drafting.sheet import Drawing, Mark
from coursepack.drafting.template import stretched, template_sheets
from coursepack.lesson import Exercise
from coursepack.solve import Solved

STAGES = ("worked", "bench")  # where the sizes are told; else a template would give them away


@dataclass(frozen=True)
class Cutting:
    """Parts to cut out: under which title, of what, how many of each, and their sizes in numbers."""

    title: str
    parts: Sequence[Part]
    material: str = "stiff card"
    quantity: int = 1
    sizes: Mapping[str, Mark] = field(default_factory=dict)


@dataclass(frozen=True)
class SheetView:
    """One full-size sheet: what it is a part of, its name and place in its set, its parts, its figure."""

    cutting: Cutting
    name: str
    number: int
    of: int
    parts: tuple[Part, ...]
    figure: Markup
    is_map: bool

    @property
    def cuts(self) -> list[str]:
        """What is said of the side of the line to cut, each thing once."""
        return list(dict.fromkeys(part.cut for part in self.parts))

    @property
    def notes(self) -> list[str]:
        """What else is said of the parts."""
        return list(dict.fromkeys(note for part in self.parts for note in part.notes))


def has_templates(exercises: Sequence[Exercise]) -> bool:
    """Tell whether any exercise sends its figure to the templates sheet."""
    return any(_is_cut(exercise) for exercise in exercises)


def _is_cut(exercise: Exercise) -> bool:
    return exercise.stage in STAGES and exercise.figure is not None and exercise.figure.full_size


def cuttings(solved: Sequence[Solved]) -> Iterator[Cutting]:
    """Yield what is to be cut out for some solved exercises."""
    for one in solved:
        figure = one.exercise.figure
        if figure and _is_cut(one.exercise):
            sizes = marks(figure, one, answered=True)
            yield Cutting(one.exercise.title, parts(one), figure.material, figure.quantity, sizes)


def sheet_views(
    cutting: Cutting, stretch: tuple[Fraction, Fraction], shelve: Callable[[Drawing], Markup]
) -> Iterator[SheetView]:
    """Yield the sheets of some parts, drawn longer where the class's printer needs it."""
    sheets = template_sheets(cutting.parts)
    for number, sheet in enumerate(sheets, 1):
        figure = shelve(stretched(sheet.drawing, *stretch))
        yield SheetView(cutting, sheet.name, number, len(sheets), sheet.parts, figure, sheet.is_map)
