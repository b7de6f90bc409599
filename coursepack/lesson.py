"""What a lesson is once it is read: frozen records, each with its place in the source."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, Protocol

from coursepack.formula import Node
from coursepack.place import Place
from coursepack.quantity import Measure, Quantity
from coursepack.reading.source import Prose

Stage = Literal["worked", "faded", "alone", "bench"]
STAGES: tuple[Stage, ...] = ("worked", "faded", "alone", "bench")
MEASURES: tuple[Measure, ...] = ("inch", "metric")

# Signal words by how bad it is; the order and the meaning are those of ANSI Z535 (from memory).
LEVELS = ("danger", "warning", "caution", "notice")

# the two check bars of a full-size sheet: inches and millimetres
BARS = {"along": (8, 200), "across": (6, 150)}
UNSTRETCHED = Fraction(1), Fraction(1)


class FigureForm(Protocol):
    """What the reader needs to know of a figure: the sizes it takes and the dimensions it can letter."""

    @property
    def takes(self) -> Mapping[str, str]:
        """Each size's name, and whether it is a length, an angle, a count or a percent."""

    @property
    def optional(self) -> frozenset[str]:
        """The sizes that may be left out."""

    @property
    def dimensions(self) -> tuple[str, ...]:
        """What can be shown or asked."""

    @property
    def is_cut(self) -> bool:
        """Whether its parts can be printed at full size and cut out."""


@dataclass(frozen=True)
class Aim:
    """What a student can do afterwards, with what is given, and to what standard."""

    do: str
    given: str
    to: str


@dataclass(frozen=True)
class Caution:
    """A caution: what to do, and what happens otherwise."""

    level: str
    do: str
    otherwise: str


@dataclass(frozen=True)
class Machine:
    """A machine of the shop with its standard cautions."""

    name: str
    cautions: tuple[Caution, ...]


@dataclass(frozen=True)
class Given:
    """A number (or word) of an exercise, with its choices in each measure."""

    name: str
    choices: Mapping[Measure, tuple[Quantity | str, ...]]
    means: str
    place: Place


@dataclass(frozen=True)
class Rule:
    """A comparison that a draw must meet."""

    text: str
    node: Node
    place: Place


@dataclass(frozen=True)
class Step:
    """One line of the working: a name, its formula and what it finds, in a sentence."""

    name: str
    text: str
    node: Node
    sentence: str
    place: Place


@dataclass(frozen=True)
class Slip:
    """A known mistake: the formula that makes it, and what it shows."""

    name: str
    node: Node
    say: str
    place: Place


@dataclass(frozen=True)
class Find:
    """A question: the name asked for, the mark it is rounded to, the tolerance and the known slips."""

    name: str
    ask: str
    nearest: Mapping[Measure, Quantity]
    within: Mapping[Measure, Quantity]
    slips: tuple[Slip, ...]
    place: Place


@dataclass(frozen=True)
class Verdict:
    """A word that the student may circle, and the comparison under which it is the right one."""

    word: str
    rule: Rule


@dataclass(frozen=True)
class FigureRequest:
    """A figure that an exercise wants: which, what it letters, what it asks, where its sizes come from.

    It stands in the column beside the text, or with `wide` across the page. With `full_size` its parts are also
    printed at full size on the lesson's templates sheet, to be made `quantity` times of `material`.
    """

    draw: str
    show: tuple[str, ...]
    ask: tuple[str, ...]
    scale: str
    sizes: Mapping[str, Node]
    place: Place
    full_size: bool = False
    material: str = "stiff card"
    quantity: int = 1
    wide: bool = False


@dataclass(frozen=True)
class StepTable:
    """A table to fill in: some steps of the working, worked again for each of a row of values of one given number."""

    title: str
    given: str
    rows: Mapping[Measure, tuple[Quantity | str, ...]]
    columns: tuple[str, ...]
    nearest: Mapping[Measure, Quantity]
    place: Place


Passage = Prose | Caution | StepTable


@dataclass(frozen=True)
class Exercise:
    """An exercise, whole: what it took over from another one is filled in."""

    id: str
    lesson: str
    title: str
    stage: Stage
    aims: tuple[int, ...]
    marks: int
    fade: int
    root: str
    review: bool
    given: tuple[Given, ...]
    rules: tuple[Rule, ...]
    steps: tuple[Step, ...]
    finds: tuple[Find, ...]
    figure: FigureRequest | None
    passages: tuple[Passage, ...]
    place: Place
    verdicts: tuple[Verdict, ...] = ()

    @property
    def open_steps(self) -> tuple[Step, ...]:
        """The steps that the student finds: the last ones of a faded exercise, all of one that is done alone."""
        told = {"worked": len(self.steps), "faded": len(self.steps) - self.fade}.get(self.stage, 0)
        return self.steps[told:]

    @property
    def tables(self) -> tuple[StepTable, ...]:
        """The tables that the student fills in."""
        return tuple(passage for passage in self.passages if isinstance(passage, StepTable))

    @property
    def asked(self) -> tuple[Find, ...]:
        """The questions that the student answers; what the printed steps of a faded exercise tell is none."""
        if self.stage != "faded":
            return self.finds
        found = {step.name for step in self.open_steps}
        return tuple(find for find in self.finds if find.name in found)


@dataclass(frozen=True)
class Section:
    """A part of the reading under its heading."""

    title: str
    level: int
    passages: tuple[Passage, ...]


@dataclass(frozen=True)
class Lesson:
    """A lesson, whole and checked."""

    id: str
    number: int
    title: str
    minutes: int
    machines: tuple[str, ...]
    tools: tuple[str, ...]
    materials: tuple[str, ...]
    prepare: tuple[str, ...]
    done: str
    aims: tuple[Aim, ...]
    sections: tuple[Section, ...]
    exercises: tuple[Exercise, ...]
    place: Place
    source: str


@dataclass(frozen=True)
class Course:
    """The course: its title, its class, and the machines of the shop."""

    title: str
    class_name: str
    units: Measure
    paper: str
    machines: Mapping[str, Machine]
    lessons: tuple[Lesson, ...]


@dataclass(frozen=True)
class Term:
    """A term of the class: its draw number, its measure and paper, its benches and how many sets they share.

    `stretch` is how much longer, along and across, full-size sheets are drawn to make good what the class's
    printer loses.
    """

    name: str
    title: str
    draw: int
    measure: Measure
    paper: str
    benches: int
    sets: int
    stretch: tuple[Fraction, Fraction] = UNSTRETCHED

    def set_of(self, bench: int) -> int:
        """Return the set that a bench works, counted from 1; benches take the sets in turn."""
        return (bench - 1) % self.sets + 1
