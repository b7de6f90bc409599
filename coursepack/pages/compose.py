"""Solved exercises, prose and figures → the HTML of a sheet. The only jinja2 import."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from jinja2 import DictLoader, Environment, StrictUndefined
from markupsafe import Markup

from coursepack.draft import draft
from coursepack.drafting.sheet import Drawing
from coursepack.formula import Value
from coursepack.lesson import Caution, Course, Exercise, Lesson, Passage, Term
from coursepack.pages.mathematics import in_numbers, in_symbols, symbol
from coursepack.pages.prose import prose_html
from coursepack.quantity import Quantity, is_exact, printed, typeset
from coursepack.solve import Answer, Solved, SolvedStep

Shelf = Callable[[Drawing], str]
FIGURE_MARK = "\ue100{}\ue101"
_LINE_MM, _FRACTION_LINE_MM, _ROOM_A_STEP_MM = 5.2, 9.6, 20.0
_SQUARE_MM = 5.0
_CHARACTER_MM = 2.1


@dataclass(frozen=True)
class Sheet:
    """The HTML of one sheet, with a mark where each of its drawings goes."""

    title: str
    html: str
    drawings: tuple[Drawing, ...]


@dataclass(frozen=True)
class StepLines:
    """A step as it is printed: its sentence, its name, and the right sides of its equations."""

    sentence: str
    name: str
    equations: tuple[tuple[str, str], ...]
    marks: int
    hidden: bool


@dataclass(frozen=True)
class ExerciseView:
    """An exercise ready for the page."""

    number: int
    solved: Solved
    body: str
    steps: tuple[StepLines, ...]
    figure: str
    caption: str
    room_mm: float
    symbol_mm: float

    @property
    def exercise(self) -> Exercise:
        return self.solved.exercise


class _Drawings:
    """Takes drawings in and gives each its mark in the HTML."""

    def __init__(self) -> None:
        self.taken: list[Drawing] = []

    def __call__(self, drawing: Drawing | None) -> Markup:
        if drawing is None:
            return Markup("")
        self.taken.append(drawing)
        return Markup(FIGURE_MARK.format(len(self.taken) - 1))


def reading(course: Course, term: Term, lesson: Lesson, examples: Sequence[Solved], mark: str) -> Sheet:
    """Compose what a student keeps: aims, cautions, the idea, the worked examples."""
    drawings = _Drawings()
    views = [_view(number, solved, drawings, answered=True) for number, solved in enumerate(examples, 1)]
    machines = [course.machines[name] for name in lesson.machines]
    return _sheet(
        "reading.html", "Reading", term, lesson, mark, drawings, course=course, views=views, machines=machines
    )


def exercises(
    course: Course, term: Term, lesson: Lesson, bench: int, solved: Sequence[Solved], mark: str
) -> Sheet:
    """Compose a bench's exercises: its numbers, figures with blanks, room to work, answer lines."""
    drawings = _Drawings()
    views = [_view(number, one, drawings, answered=False) for number, one in enumerate(solved, 1)]
    machines = [course.machines[name] for name in lesson.machines]
    total = sum(view.exercise.marks for view in views)
    return _sheet(
        "exercises.html", f"Bench {bench}", term, lesson, mark, drawings,
        course=course, views=views, bench=bench, of_set=term.set_of(bench), machines=machines, total=total, answered=False,
    )  # fmt: skip


def key(course: Course, term: Term, lesson: Lesson, sets: Sequence[Sequence[Solved]], mark: str) -> Sheet:
    """Compose the answer key: set 1 worked in full where the sheet has its blanks, then every set in tables."""
    drawings = _Drawings()
    views = [_view(number, one, drawings, answered=True) for number, one in enumerate(sets[0], 1)]
    tables = [
        _SetTable(number, [one_set[number - 1] for one_set in sets], term)
        for number in range(1, len(views) + 1)
    ]
    machines = [course.machines[name] for name in lesson.machines]
    total = sum(view.exercise.marks for view in views)
    return _sheet(
        "key.html", "Answer key", term, lesson, mark, drawings,
        course=course, views=views, tables=tables, machines=machines, total=total, bench=1, of_set=1, answered=True,
    )  # fmt: skip


class _SetTable:
    """The numbers, steps and answers of every set of one exercise."""

    def __init__(self, number: int, sets: Sequence[Solved], term: Term) -> None:
        self.number = number
        first = sets[0]
        self.title = first.exercise.title
        names = [*first.numbers, *(step.step.name for step in first.steps)]
        self.answers = [answer.find.name for answer in first.answers]
        self.columns = [name for name in names if name not in self.answers]
        self.rows = [self._row(solved, term) for solved in sets]

    def _row(self, solved: Solved, term: Term) -> tuple[str, str, list[str], list[str]]:
        benches = [str(bench) for bench in range(1, term.benches + 1) if term.set_of(bench) == solved.of_set]
        cells = [_short(solved.values[name]) for name in self.columns]
        return (
            str(solved.of_set),
            ", ".join(benches),
            cells,
            [printed(answer.value) for answer in solved.answers],
        )


def _short(value: Value) -> str:
    return printed(value) if isinstance(value, Quantity) else str(value)


def _sheet(
    template: str, name: str, term: Term, lesson: Lesson, mark: str, drawings: _Drawings, **more: Any
) -> Sheet:
    html = _pages().get_template(template).render(sheet=name, term=term, lesson=lesson, mark=mark, **more)
    return Sheet(f"{lesson.number} {lesson.title}: {name}", html, tuple(drawings.taken))


def _view(number: int, solved: Solved, drawings: _Drawings, *, answered: bool) -> ExerciseView:
    exercise = solved.exercise
    steps = tuple(
        _step_lines(step, solved, hidden)
        for step, hidden in zip(solved.steps, _hidden(exercise), strict=True)
    )
    body = "".join(_passage(passage, solved.values) for passage in exercise.passages)
    figure = drawings(draft(solved, answered=answered and exercise.stage != "bench"))
    longest = max((len(step.step.name) for step in solved.steps), default=4)
    return ExerciseView(
        number,
        solved,
        Markup(body),
        steps,
        figure,
        "",
        _room(exercise, steps),
        max(14.0, longest * _CHARACTER_MM),
    )


def _hidden(exercise: Exercise) -> list[bool]:
    """Tell for each step whether the student finds it: the last ones of a faded exercise, all of one alone."""
    count = len(exercise.steps)
    shown = {"worked": count, "faded": count - min(exercise.fade, count), "alone": 0, "bench": 0}[
        exercise.stage
    ]
    return [number >= shown for number in range(count)]


def _room(exercise: Exercise, steps: Sequence[StepLines]) -> float:
    """Return the height in mm kept for the student's working, which the key fills with the steps."""
    hidden = [step for step in steps if step.hidden]
    worked = sum(_height(step) for step in hidden) + 2
    asked = max(worked, len(hidden) * _ROOM_A_STEP_MM)
    return _SQUARE_MM * -(-asked // _SQUARE_MM)


def _height(step: StepLines) -> float:
    tall = sum(_FRACTION_LINE_MM if 'class="frac"' in right else _LINE_MM for _, right in step.equations)
    return tall + _LINE_MM * (1 + len(step.sentence) // 62)


def _step_lines(step: SolvedStep, solved: Solved, hidden: bool) -> StepLines:  # noqa: FBT001
    equations = [("=", in_symbols(step.step.node))]
    numbers = in_numbers(step.step.node, solved.values)
    result = _result(step.value)
    if numbers not in (equations[0][1], printed(step.value)):
        equations.append(("=", f"{numbers} {result}"))
    else:
        equations.append((result[0], result[2:]))
    answer = solved.answer(step.step.name)
    if answer and printed(answer.value) != printed(step.value):
        equations.append(
            (
                "≈",
                f'<b>{printed(answer.value)}</b> <span class="to">to the nearest {printed(answer.find.nearest[solved.measure])}</span>',
            )
        )
    marks = _part_marks(solved.exercise)[solved.steps.index(step)]
    sentence = step.step.sentence.rstrip(".") + "."
    pairs = tuple((sign, Markup(right)) for sign, right in equations)
    return StepLines(sentence, Markup(symbol(step.step.name)), pairs, marks, hidden)


def _result(value: Quantity) -> str:
    return f"{'=' if is_exact(value) else '≈'} {printed(value)}"


def _part_marks(exercise: Exercise) -> list[int]:
    """Share an exercise's marks out over its steps, the later ones taking what is over."""
    count = len(exercise.steps)
    each, over = divmod(exercise.marks, count)
    return [each + (number >= count - over) for number in range(count)]


def _passage(passage: Passage, values: Mapping[str, Value]) -> str:
    if isinstance(passage, Caution):
        return _macro("caution")(passage)
    return prose_html(passage.text, values)


def _macro(name: str) -> Callable[..., str]:
    macro: Callable[..., str] = getattr(_pages().get_template("parts.html").module, name)
    return macro


def _accepts(answer: Answer) -> str:
    return f"{printed(answer.low)} to {printed(answer.high)}"


@cache
def _pages() -> Environment:
    folder = files("coursepack.pages") / "templates"
    sources = {
        entry.name: entry.read_text("utf-8") for entry in folder.iterdir() if entry.name.endswith(".html")
    }
    pages = Environment(
        loader=DictLoader(sources),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    pages.filters |= {
        "printed": printed,
        "typeset": typeset,
        "shown": _short,
        "symbol": lambda name: Markup(symbol(name)),
        "accepts": _accepts,
        "prose": lambda passage: Markup(_passage(passage, {})),
        "letter": lambda number: "abcdefgh"[number - 1],
    }
    return pages


@cache
def style(paper: str) -> str:
    """Return the style sheet for a paper, 'letter' or 'A4'."""
    return (files("coursepack.pages") / "style" / "sheet.css").read_text("utf-8").replace("PAPER", paper)
