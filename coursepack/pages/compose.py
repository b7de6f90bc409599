"""Solved exercises, prose and figures → the HTML of a sheet. The only jinja2 import."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any

from jinja2 import DictLoader, Environment, StrictUndefined
from markupsafe import Markup, escape

from coursepack.draft import draft
from coursepack.drafting.sheet import FIGURE_MARK, Drawing
from coursepack.formula import Call, Name, Node, Value, Word, walk
from coursepack.lesson import BARS, UNSTRETCHED, Caution, Course, Lesson, Passage, StepTable, Term
from coursepack.pages.columns import column_style, column_widths
from coursepack.pages.full_size import Cutting, cuttings, sheet_views
from coursepack.pages.mathematics import symbol
from coursepack.pages.prose import prose_html, set_fractions
from coursepack.pages.views import ExerciseView, folded, paged, shown, symbol_style, view
from coursepack.quantity import Quantity, in_figures, printed, printed_at, typeset
from coursepack.reading.source import Prose
from coursepack.solve import Answer, Solved
from coursepack.trade.arithmetic import ORDINARY
from coursepack.trade.catalogue import source_of

Shelf = Callable[[Drawing], str]


@dataclass(frozen=True)
class Sheet:
    """The HTML of one sheet, with a mark where each of its drawings goes."""

    title: str
    html: str
    drawings: tuple[Drawing, ...]


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
    views = _views(examples, drawings, answered=True)
    machines = [course.machines[name] for name in lesson.machines]
    return _sheet(
        "reading.html", "Reading", term, lesson, mark, drawings, course=course, views=views, machines=machines
    )


def exercises(
    course: Course, term: Term, lesson: Lesson, bench: int, solved: Sequence[Solved], mark: str
) -> Sheet:
    """Compose a bench's exercises: its numbers, figures with blanks, room to work, answer lines."""
    drawings = _Drawings()
    views = paged(_views(solved, drawings, answered=False), term.paper)
    machines = [course.machines[name] for name in lesson.machines]
    total = sum(view.exercise.marks for view in views)
    return _sheet(
        "exercises.html", f"Bench {bench}", term, lesson, mark, drawings,
        course=course, views=views, bench=bench, of_set=term.set_of(bench), machines=machines, total=total,
    )  # fmt: skip


def key(course: Course, term: Term, lesson: Lesson, sets: Sequence[Sequence[Solved]], mark: str) -> Sheet:
    """Compose the answer key: set 1 worked in full where the sheet has its blanks, then every set in tables."""
    drawings = _Drawings()
    views = paged(_views(sets[0], drawings, answered=True), term.paper)
    tables = [
        _SetTable(number, [one_set[number - 1] for one_set in sets], term)
        for number in range(1, len(views) + 1)
    ]
    machines = [course.machines[name] for name in lesson.machines]
    total = sum(view.exercise.marks for view in views)
    return _sheet(
        "key.html", "Answer key", term, lesson, mark, drawings,
        course=course, views=views, tables=tables, machines=machines, total=total, sources=_sources(sets),
        own_sets=term.sets == term.benches,
    )  # fmt: skip


def templates(lesson: Lesson, who: str, solved: Sequence[Solved], term: Term, mark: str) -> Sheet:
    """Compose the full-size sheets of one set of numbers, for those who work with it."""
    heading = f"{lesson.title}: templates"
    foot = f"{lesson.number} {lesson.title} · Templates · {who}"
    return full_size(heading, foot, list(cuttings(solved)), term.stretch, who, mark)


def full_size(
    heading: str, foot: str, cut: Sequence[Cutting], stretch: tuple[Fraction, Fraction] = UNSTRETCHED, who: str = "", mark: str = "",
) -> Sheet:  # fmt: skip
    """Compose full-size sheets of parts, drawn longer along and across where a printer needs it."""
    drawings = _Drawings()
    views = [view for each in cut for view in sheet_views(each, stretch, drawings)]
    html = _pages().get_template("full-size.html").render(
        heading=heading, foot=foot, views=views, who=who, mark=mark, bars=BARS, correction=_correction(*stretch)
    )  # fmt: skip
    return Sheet(heading, html, tuple(drawings.taken))


def _correction(along: Fraction, across: Fraction) -> str:
    if along == across == 1:
        return ""
    return f"Drawn × {float(along):.4f} along and × {float(across):.4f} across for the class’s printer."


def _sources(sets: Sequence[Sequence[Solved]]) -> list[str]:
    """Return the published sources of the functions that the exercises call, each once."""
    found: dict[str, None] = {}
    for solved in (one for one_set in sets for one in one_set):
        for step in solved.exercise.steps:
            for call in (node for node in walk(step.node) if isinstance(node, Call)):
                words = [_word(argument, solved) for argument in call.arguments]
                told = source_of(call.function.name, *(word for word in words if word))
                found |= dict.fromkeys(told.split("; "))
    return [source for source in found if source != ORDINARY]


def _word(node: Node, solved: Solved) -> str:
    if isinstance(node, Word):
        return node.text
    value = solved.values.get(node.name, "") if isinstance(node, Name) else ""
    return value if isinstance(value, str) else ""


class _SetTable:
    """The numbers, steps and answers of every set of one exercise."""

    def __init__(self, number: int, sets: Sequence[Solved], term: Term) -> None:
        self.number = number
        first = sets[0]
        self.title = first.exercise.title
        names = [*first.numbers, *(step.step.name for step in first.steps)]
        self.answers = [answer.find.name for answer in first.answers]
        self.columns = [name for name in names if name not in self.answers]
        self.has_verdict = bool(first.verdict)
        self.limits = [_limit(answer) for answer in first.answers]
        rows = [self._row(solved, term) for solved in sets]
        alike = len(rows) > 1 and all(row[2:] == rows[0][2:] for row in rows)
        self.rows = [("all", "all", *rows[0][2:])] if alike else rows
        self.heads = self._heads(own_sets=term.sets == term.benches)

    def _heads(self, *, own_sets: bool) -> list[tuple[Markup, int]]:
        """Return what stands over each column, and its width in mm."""
        first, last = ["Set", *["Bench"] * (not own_sets)], ["verdict"] * self.has_verdict
        names = [*self.columns, *self.answers]
        rows = [
            [number, *[benches] * (not own_sets), *cells, *answers, *[verdict] * self.has_verdict]
            for number, benches, cells, answers, verdict in self.rows
        ]
        plain = len(first) + len(self.columns)
        bold = [place == 0 or place >= plain for place in range(len(rows[0]))]
        heads = [*map(escape, first), *(Markup(symbol(name)) for name in names), *map(escape, last)]
        return list(zip(heads, column_widths([*first, *names, *last], rows, bold), strict=True))

    def _row(self, solved: Solved, term: Term) -> tuple[str, str, list[str], list[str], str]:
        benches = [str(bench) for bench in range(1, term.benches + 1) if term.set_of(bench) == solved.of_set]
        cells = [_cell(solved.values[name]) for name in self.columns]
        return (
            str(solved.of_set),
            ", ".join(benches),
            cells,
            [printed_at(answer.value, answer.mark) for answer in solved.answers],
            solved.verdict,
        )


def _cell(value: Value) -> str:
    return in_figures(value) if isinstance(value, Quantity) else shown(value)


def _sheet(
    template: str, name: str, term: Term, lesson: Lesson, mark: str, drawings: _Drawings, **more: Any
) -> Sheet:
    html = _pages().get_template(template).render(sheet=name, term=term, lesson=lesson, mark=mark, **more)
    return Sheet(f"{lesson.number} {lesson.title}: {name}", html, tuple(drawings.taken))


def _views(solved: Sequence[Solved], drawings: _Drawings, *, answered: bool) -> list[ExerciseView]:
    return [_view(number, one, drawings, answered=answered) for number, one in enumerate(solved, 1)]


def _view(number: int, solved: Solved, drawings: _Drawings, *, answered: bool) -> ExerciseView:
    body = Markup("").join(
        Markup(_part(passage, solved, filled=answered)) for passage in solved.exercise.passages
    )
    drawing = draft(solved, answered=answered or solved.exercise.stage == "bench")  # whose sizes are told
    return view(number, solved, body, drawing, drawings(drawing))


def _part(passage: Passage, solved: Solved, *, filled: bool) -> str:
    if isinstance(passage, StepTable):
        table = solved.table(passage)
        return _macro("step_table")(table, folded(table), filled)
    return _passage(passage, solved.values)


def _passage(passage: Prose | Caution, values: Mapping[str, Value]) -> str:
    if isinstance(passage, Caution):
        return _macro("caution")(passage)
    return prose_html(passage.text, values)


def _macro(name: str) -> Callable[..., str]:
    macro: Callable[..., str] = getattr(_pages().get_template("parts.html").module, name)
    return macro


def _limit(answer: Answer) -> str:
    """Return how far an answer may be off, in any set."""
    off = "as it stands" if answer.within < answer.mark else f"± {printed(answer.within)}"
    return f"{answer.find.name.replace('_', ' ')} {off}"


def _accepts(answer: Answer) -> str:
    if answer.within < answer.mark:
        return f"only {printed_at(answer.value, answer.mark)}"
    return " to ".join(printed_at(limit, answer.mark) for limit in (answer.low, answer.high))


def _number_at(value: Quantity, mark: Quantity) -> str:
    """Return the printed number without its unit, which stands beside it or over it."""
    return printed_at(value, mark).removesuffix(_unit(value)).rstrip("\u00a0")


def _unit(value: Quantity) -> str:
    """Return a unit as it is printed; a slope has none."""
    return value.unit_name.replace("deg", "°").replace(":", "")


_THIN = str.maketrans(
    {" ": "\u2009", "\u00a0": "\u2009"}
)  # a justified line stretches plain and no-break spaces only


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
        "printed_at": printed_at,
        "number_at": _number_at,
        "typeset": typeset,
        "fractions": set_fractions,
        "unstretched": lambda text: text.translate(_THIN),
        "sentence": lambda text: text[:1].upper() + text[1:],
        "unit": _unit,
        "shown": shown,
        "symbol": lambda name, of_class="": Markup(symbol(name, of_class)),
        "accepts": _accepts,
        "prose": lambda passage: Markup(_passage(passage, {})),
        "lettered": lambda letter: f"({letter}) " if letter else "",
    }
    return pages


@cache
def style(paper: str) -> str:
    """Return the style sheet for a paper, 'letter' or 'A4'."""
    sheet = (
        (files("coursepack.pages") / "style" / "sheet.css")
        .read_text("utf-8")
        .replace("PAPER", paper)
        .replace("INNER", "22" if paper == "A4" else "25")
        .replace("OUTER", "13" if paper == "A4" else "15.9")
        .replace("FULL-SIZE", "21.5mm 13mm" if paper == "A4" else "12.7mm 15.95mm")
    )
    return symbol_style() + column_style() + sheet
