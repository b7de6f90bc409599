"""Finds answers where none may be: every answer is replaced by a number that nothing else on a sheet can show."""

import io
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

import pikepdf
from pikepdf import Array, Dictionary, Object, Pdf, Stream

from coursepack.lesson import Exercise
from coursepack.pages.compose import Sheet
from coursepack.quantity import Quantity
from coursepack.record import LessonRecord
from coursepack.solve import Answer, Solved, SolvedTable
from tests.press.pdf_reading import texts

DYE = "98765"  # no given number of the small course has these figures in a row
ASKED = ("faded", "alone")


def hidden_steps(exercise: Exercise) -> list[str]:
    """The names that a student finds: the last steps of a faded exercise, all of one done alone."""
    names = [step.name for step in exercise.steps]
    return names[len(names) - exercise.fade :] if exercise.stage == "faded" else names


def dyed(record: LessonRecord) -> LessonRecord:
    """Return the record with all that students find, in every set, dyed."""
    return changed(record, _dyed)


def dyed_but_for_sizes(record: LessonRecord) -> LessonRecord:
    """As `dyed`, with the true values left for figures that are drawn from them."""
    return changed(record, lambda solved: replace(_dyed(solved), values=solved.values))


def _dyed(solved: Solved) -> Solved:
    hidden = hidden_steps(solved.exercise)
    steps = tuple(replace(s, value=_dye(s.value)) if s.step.name in hidden else s for s in solved.steps)
    worked = {step.step.name: step.value for step in steps}
    answers = tuple(_dyed_answer(answer) for answer in solved.answers)
    tables = tuple(_dyed_table(table) for table in solved.tables)
    return replace(solved, steps=steps, answers=answers, values={**solved.values, **worked}, tables=tables)


def _dyed_table(table: SolvedTable) -> SolvedTable:
    rows = tuple((value, tuple(_dye(cell) for cell in cells)) for value, cells in table.rows)
    return replace(table, rows=rows)


def _dyed_answer(answer: Answer) -> Answer:
    slips = tuple(replace(slip, value=_dye(slip.value)) for slip in answer.slips)
    return replace(
        answer,
        unrounded=_dye(answer.unrounded),
        value=_dye(answer.value),
        low=_dye(answer.low),
        high=_dye(answer.high),
        also=tuple(f"{DYE}.5 mm" for _ in answer.also),
        slips=slips,
    )


def _dye(value: Quantity) -> Quantity:
    return Quantity.of(Fraction(DYE) + Fraction(1, 64), value.unit_name)


def changed(record: LessonRecord, change: Callable[[Solved], Solved]) -> LessonRecord:
    """Return the record with every exercise that students work on paper changed."""
    sets = tuple(
        tuple(change(solved) if solved.exercise.stage in ASKED else solved for solved in one_set)
        for one_set in record.sets
    )
    return replace(record, sets=sets)


def leaks_of(sheets: Sequence[Sheet]) -> list[str]:
    """The dye in what is handed to the press: HTML, labels of drawings and their alternative texts."""
    told = []
    for sheet in sheets:
        told += [sheet.title, *sheet.html.split("\n")]
        told += [text for drawing in sheet.drawings for text in (drawing.alt, drawing.scale_text)]
        told += [label.text for drawing in sheet.drawings for label in drawing.labels]
    return [text for text in told if DYE in text]


def leaks_in(data: bytes) -> list[str]:
    """The dye anywhere in a PDF: what is shown or hidden on pages, and every string, name and stream of it."""
    with Pdf.open(io.BytesIO(data)) as pdf:
        shown = [page.whole for page in texts(pdf)]
        return [text for text in [*shown, *_strings(pdf)] if DYE in text]


def _strings(pdf: Pdf) -> Iterator[str]:
    for item in [*pdf.objects, pdf.trailer]:
        yield from _inside(item, 0)


def _inside(item: Object, depth: int) -> Iterator[str]:
    if isinstance(item, Stream):
        if item.get("/Subtype") != "/Image":
            yield item.read_bytes().decode("latin-1")
        yield from _inside(item.stream_dict, depth)
    elif isinstance(item, Dictionary):
        for key, value in item.items():
            yield key
            yield from () if _is_apart(value, depth) else _inside(value, depth + 1)
    elif isinstance(item, Array):
        for value in item:
            yield from () if _is_apart(value, depth) else _inside(value, depth + 1)
    elif isinstance(item, pikepdf.String | pikepdf.Name):
        yield str(item)


def _is_apart(value: object, depth: int) -> bool:
    """True for an object with a number of its own: it is met in the list of all objects."""
    return depth > 0 and isinstance(value, Object) and value.is_indirect
