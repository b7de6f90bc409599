"""An exercise made ready for the page: its steps as lines, its figure, and the room that each part takes.

The room is reckoned for the key, which has more to say; the sheet breaks its pages at the same exercises, so
that the two lie side by side.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from coursepack.drafting.sheet import Drawing
from coursepack.formula import Call, Name, Node, Operation, Value, walk
from coursepack.lesson import Caution, Exercise, Given, Passage, StepTable
from coursepack.pages.mathematics import TRIGONOMETRY, in_numbers, in_symbols, width_mm
from coursepack.pages.prose import set_fractions, unbroken
from coursepack.quantity import Quantity, is_exact, printed, printed_at
from coursepack.reading.source import Prose
from coursepack.solve import Answer, Solved, SolvedStep, SolvedTable, TableRow

BRACES = re.compile(r"\{([a-z][a-z0-9_]*)\}")

# millimetres, all of them those of sheet.css
BESIDE_FIGURE, BESIDE_WORK, WORK, WHOLE, SIDE = 112.0, 95.0, 75.0, 175.0, 58.0
PAGE = {"letter": 246.0, "A4": 264.0}
HEADER, HEADING, ANSWER_ROW, ACCEPTED_ROW = 29.5, 12.5, 11.5, 6.2
ANSWER = 44.0  # wide, beside its symbol and its unit
UNIT = 8.0
VERDICT = 29.0  # wide, beside its words
LINE, SMALL_LINE, WORK_LINE, FRACTION_LINE = 5.0, 4.4, 4.7, 8.9
CHARACTER, BOLD_CHARACTER, SMALL_CHARACTER = 1.76, 1.9, 1.48
SYMBOL_CHARACTER, EQUATION_CHARACTER = 2.1, 1.7
WIDEST_CHARACTER = 2.6  # on the mean of a line
TEXT_SIZE, WORK_SIZE = 11.0, 10.0  # points
HEADING_MARGIN, FIGURE_MARGIN = 4.4, 2.0
SQUARE = 5.0
EQUALS = 4.2
BEFORE_EQUALS = 18.0
SYMBOLS = (13, 14, 15, 16, 17, 18, 20, 22, 25, 30, 35, 40, 50, 60)
ROOM_A_STEP, ROOM_MARGIN = 15.0, 3.0
MOST_MORE, UNSPENT = 40.0, 12.0
TABLE_ROW, TABLE_MARGIN = 9.3, 8.6
LONG_TABLE, BOTH_HALVES = 10, 8  # rows that still stand in one half, and columns that two take at most


@dataclass(frozen=True)
class StepLines:
    """A step as it is printed: its sentence, its name, and the right sides of its equations."""

    sentence: str
    name: str
    equations: tuple[tuple[str, str], ...]
    marks: int
    hidden: bool

    def height(self, width: float, line: float) -> float:
        """Return its height in mm, set in a column of a width with lines of a height."""
        tall = sum(_equation_height(right, width - BEFORE_EQUALS, line) for _, right in self.equations)
        return tall + line * _lines(self.sentence, width) + 1.8


@dataclass(frozen=True)
class ExerciseView:
    """An exercise ready for the page.

    `fresh` puts it on a new one; `kept_mm` is the height kept for it, of which `more_mm` is room to work that the
    page has to spare.
    """

    number: int
    solved: Solved
    body: Markup
    steps: tuple[StepLines, ...]
    figure: Markup
    figure_mm: float
    has_open_place: bool
    text_mm: float
    work_mm: float
    symbol_mm: int
    value_mm: float
    fresh: bool = False
    kept_mm: float = 0.0
    more_mm: float = 0.0

    @property
    def exercise(self) -> Exercise:
        """The exercise itself."""
        return self.solved.exercise

    @property
    def means_mm(self) -> float:
        """The width left between a symbol and its value."""
        return round(self.text_mm - self.symbol_mm - self.value_mm, 2)

    @property
    def beside(self) -> Markup:
        """The figure that stands beside the text, if any."""
        return Markup("") if self._is_wide else self.figure

    @property
    def across(self) -> Markup:
        """The figure that stands over the text, if any."""
        return self.figure if self._is_wide else Markup("")

    @property
    def _is_wide(self) -> bool:
        return _is_wide(self.exercise)

    def is_short(self, item: Given) -> bool:
        """True where what a number means stands on one line between its symbol and its value."""
        return _lines(item.means, self.means_mm) == 1

    def rounding(self, answer: Answer) -> str:
        """Return how an answer is rounded, in words."""
        node = next(step.step.node for step in self.solved.steps if step.step.name == answer.find.name)
        if isinstance(node, Operation) and node.sign == "*" and isinstance(node.left, Call):
            way = node.left.function.name
            if way in ("up", "down"):
                return f"rounded {way} to whole steps of {self._step(node.right, answer)}"
        if answer.mark != Quantity.of(1):
            return f"to the nearest {printed(answer.mark)}"
        return "a whole number" if _is_call(node, "up", "down") else "to the nearest whole number"

    def _step(self, node: Node, answer: Answer) -> str:
        value = self.solved.values[node.name] if isinstance(node, Name) else answer.mark
        return shown(value)

    @property
    def uses_angles(self) -> bool:
        """Whether a step takes a function of an angle."""
        calls = (
            node for step in self.solved.steps for node in walk(step.step.node) if isinstance(node, Call)
        )
        return any(call.function.name in TRIGONOMETRY for call in calls)

    @property
    def hidden(self) -> list[StepLines]:
        """The steps that the student finds."""
        return [step for step in self.steps if step.hidden]

    @property
    def shown(self) -> list[StepLines]:
        """The steps that are printed for the student."""
        return [step for step in self.steps if not step.hidden]

    @property
    def room_mm(self) -> float:
        """The height kept for the student's working, in whole squares; the key fills it with the steps.

        Where it stands beside the text it is as high as that, and higher only where the steps need it.
        """
        worked = sum(step.height(self.work_mm, WORK_LINE) for step in self.hidden) + 1
        needed = SQUARE * -(-max(worked, len(self.hidden) * ROOM_A_STEP) // SQUARE)
        beside = 0.0 if self.beside else SQUARE * ((self._text_height() - ROOM_MARGIN) // SQUARE)
        return max(needed, beside) + self.more_mm

    @property
    def open_mm(self) -> float:
        """The height kept for each step that the student finishes."""
        return max(LINE, self.room_mm / max(1, len(self.hidden)) - 8)

    def height(self) -> float:
        """Return the height in mm that the exercise takes on the key."""
        text, room = self._text_height(), self.room_mm + ROOM_MARGIN
        if not self.beside:
            over = self.figure_mm + FIGURE_MARGIN if self.across else 0.0
            return HEADING + over + max(text, room) + self._answers_height(WHOLE) + self._slips_height(WHOLE)
        side = self.figure_mm + len(self.solved.answers) * 2 * SMALL_LINE + 6
        answers = self._answers_height(WHOLE - SIDE)
        return HEADING + max(text + room + answers + self._slips_height(self.text_mm), side)

    def _answers_height(self, width: float) -> float:
        """Return the height of the answer lines, as many in a row as have room."""
        rows, used = 1, 0.0
        asked = [
            ANSWER + _symbol_width(answer.find.name) + UNIT * bool(answer.value.unit_name)
            for answer in self.solved.answers
        ]
        if words := [verdict.word for verdict in self.exercise.verdicts]:
            asked.append(VERDICT + len(" / ".join(words)) * CHARACTER)
        for wide in asked:
            rows, used = (rows, used + wide) if used + wide <= width else (rows + 1, wide)
        return ANSWER_ROW * rows

    def _slips_height(self, width: float) -> float:
        """Return the height of the slips, with the accepted forms above them where no figure has them beside it."""
        accepted = 0.0 if self.beside else len(self.solved.answers) * ACCEPTED_ROW
        texts = [
            f"{printed_at(slip.value, answer.mark)} {slip.slip.say}"
            for answer in self.solved.answers
            for slip in answer.slips
        ]
        return accepted + sum(SMALL_LINE * _lines(text, width, SMALL_CHARACTER) + 0.8 for text in texts)

    def _text_height(self) -> float:
        """Return the height of what stands above the room for working, or beside it."""
        prose = sum(self._passage_height(one) for one in self.exercise.passages)
        given = sum(6.0 + LINE * (_lines(one.means, self.means_mm) - 1) for one in self.exercise.given) + 3.6
        asked = sum(LINE * self._asked_lines(answer) + 2.6 for answer in self.solved.answers)
        return prose + given + asked + sum(step.height(self.text_mm, LINE) for step in self.shown)

    def _passage_height(self, passage: Passage) -> float:
        if isinstance(passage, StepTable):
            return TABLE_MARGIN + TABLE_ROW * (1 + len(folded(self.solved.table(passage))))
        return LINE * _lines(self._told(passage), self.text_mm) + 1.6

    def _told(self, passage: Prose | Caution) -> str:
        """Return a passage about as long as it is printed."""
        if isinstance(passage, Caution):
            return f"△ CAUTION {passage.do} {passage.otherwise}"
        return BRACES.sub(lambda found: shown(self.solved.values[found[1]]), passage.text)

    def _asked_lines(self, answer: Answer) -> int:
        """Return the lines of a question; how it is rounded stays together at its end."""
        ask = (len(answer.find.ask) + 4) * BOLD_CHARACTER
        whole = ask + len(self.rounding(answer)) * SMALL_CHARACTER
        return 1 + int(whole // self.text_mm)


def _is_wide(exercise: Exercise) -> bool:
    return exercise.figure is not None and exercise.figure.wide


def folded(table: SolvedTable) -> list[list[TableRow | None]]:
    """Return the lines of a table to fill in: a long one stands in two halves side by side, where both have room."""
    rows = table.rows
    halves = 2 if len(rows) > LONG_TABLE and 2 * (1 + len(table.table.columns)) <= BOTH_HALVES else 1
    high = -(-len(rows) // halves)
    return [
        [rows[place] if place < len(rows) else None for place in range(line, halves * high, high)]
        for line in range(high)
    ]


def symbol_style() -> str:
    """Return a class for each width of a column of symbols, and for the equations behind it.

    The second line of an equation begins behind its equals sign; one that goes on with another, at that sign. They
    are classes because the engine works a `style` attribute out anew for each element and all that it holds.
    """
    return (
        "".join(
            f".w{wide} {{ width: {wide}mm }}\n"
            f".h{wide} {{ padding-left: {wide + EQUALS}mm; text-indent: -{wide + EQUALS}mm }}\n"
            for wide in SYMBOLS
        )
        + f".on {{ text-indent: -{EQUALS}mm }}\n"
    )


def _equation_height(right: str, width: float, line: float) -> float:
    if 'class="frac"' in right:
        return FRACTION_LINE * line / LINE
    return line * _lines(Markup(right).striptags(), width, EQUATION_CHARACTER * line / LINE)


def _symbol_width(name: str) -> float:
    stem, _, below = name.partition("_")
    return SYMBOL_CHARACTER * (len(stem) + 0.65 * len(below))


def _is_call(node: Node, *names: str) -> bool:
    return isinstance(node, Call) and node.function.name in names


def _lines(text: str, width: float, character: float = CHARACTER) -> int:
    return 1 + int(len(text) * character // width)


def view(number: int, solved: Solved, body: Markup, drawing: Drawing | None, figure: Markup) -> ExerciseView:
    """Make an exercise ready for the page."""
    exercise = solved.exercise
    beside = exercise.stage in ("worked", "bench") or (drawing is not None and not _is_wide(exercise))
    text_mm, work_mm = (BESIDE_FIGURE, BESIDE_FIGURE) if beside else (BESIDE_WORK, WORK)
    names = [*solved.numbers, *(step.step.name for step in solved.steps)]
    longest = max(_symbol_width(name) for name in names)
    symbol_mm = next((wide for wide in SYMBOLS if wide >= longest + 0.35), SYMBOLS[-1])
    text = text_mm - symbol_mm, TEXT_SIZE
    work = text if exercise.stage == "worked" else (work_mm - symbol_mm, WORK_SIZE)
    steps = tuple(
        _step_lines(step, solved, *(work if hidden else text), hidden=hidden)
        for step, hidden in ((step, step.step in exercise.open_steps) for step in solved.steps)
    )
    widest = max((len(shown(value)) for value in solved.numbers.values()), default=4)
    return ExerciseView(
        number=number,
        solved=solved,
        body=body,
        steps=steps,
        figure=figure,
        figure_mm=drawing.height if drawing else 0.0,
        has_open_place=drawing is not None
        and exercise.stage != "bench"
        and any(label.hand in ("blank", "answer") for label in drawing.labels),
        text_mm=text_mm,
        work_mm=work_mm,
        symbol_mm=symbol_mm,
        value_mm=round(max(16.0, widest * SYMBOL_CHARACTER + 2), 2),
    )


def paged(views: Sequence[ExerciseView], paper: str) -> list[ExerciseView]:
    """Break the pages: an exercise that no longer fits, or is done at the bench, begins a new one.

    What a page has to spare becomes room to work. Where another exercise follows on the same page the height is
    kept, so that it begins at one place on sheet and key.
    """
    pages: list[list[ExerciseView]] = [[]]
    used = HEADER
    for one in views:
        height = one.height()
        if pages[-1] and (one.exercise.stage == "bench" or used + height > PAGE[paper]):
            pages.append([])
            used = 0.0
        pages[-1].append(replace(one, fresh=not pages[-1] and len(pages) > 1))
        used += height
    heads = [HEADER, *[0.0] * (len(pages) - 1)]
    return [one for page, head in zip(pages, heads, strict=True) for one in _filled(page, PAGE[paper] - head)]


def _filled(page: Sequence[ExerciseView], high: float) -> list[ExerciseView]:
    """Share what a page has to spare among its exercises, in whole squares; keep the height of all but the last."""
    spare = (high - UNSPENT - sum(one.height() for one in page)) / len(page)
    more = SQUARE * max(0.0, min(MOST_MORE, spare) // SQUARE)
    roomy = [replace(one, more_mm=more) for one in page]
    return [*(replace(one, kept_mm=one.height() - HEADING_MARGIN) for one in roomy[:-1]), roomy[-1]]


def shown(value: Value) -> str:
    """Return a number or a word as it is printed."""
    return printed(value) if isinstance(value, Quantity) else str(value)


def _step_lines(
    step: SolvedStep, solved: Solved, room_mm: float, size_pt: float, *, hidden: bool
) -> StepLines:
    """Return a step as lines; its result has one of its own where the numbers leave it no room behind the symbol."""
    symbols = in_symbols(step.step.node)
    numbers = in_numbers(step.step.node, solved.values)
    result = _result(step, solved)
    if numbers in (symbols, unbroken(printed(step.value))):
        equations = [("=", symbols), (result[0], result[2:])]
    elif _fits(f"{numbers} {result}", room_mm, size_pt):
        equations = [("=", symbols), ("=", f"{numbers} {result}")]
    else:
        equations = [("=", symbols), ("=", numbers), (result[0], result[2:])]
    marks = _part_marks(solved.exercise)[solved.steps.index(step)]
    sentence = set_fractions(step.step.sentence).rstrip(".") + "."
    pairs = tuple((sign, Markup(right)) for sign, right in equations)
    return StepLines(sentence, step.step.name, pairs, marks, hidden)


def _fits(right: str, room_mm: float, size_pt: float) -> bool:
    """Whether an equation stands on one line, equals sign and all."""
    room = room_mm - EQUALS
    return len(Markup(right).striptags()) * WIDEST_CHARACTER < room or width_mm(right, size_pt) < room


def _result(step: SolvedStep, solved: Solved) -> str:
    """Return '= 1/2 in' or '≈ 0.1054 in', and for an answer its mark after it in the second hand.

    The sign is in that hand, too: the engine breaks a line wrongly before an element that a no-break space precedes.
    """
    text = f"{'=' if is_exact(step.value) else '≈'}\u00a0{unbroken(printed(step.value))}"
    answer = solved.answer(step.step.name)
    if answer and printed(step.value) not in (printed(answer.value), printed_at(answer.value, answer.mark)):
        return f"{text} <b>≈\u00a0{unbroken(printed_at(answer.value, answer.mark))}</b>"
    return text


def _part_marks(exercise: Exercise) -> list[int]:
    """Share an exercise's marks out over the steps that the student finds, the later ones taking what is over.

    One of them is for the verdict, where one is asked.
    """
    count, asked = len(exercise.steps), len(exercise.open_steps)
    each, over = divmod(max(0, exercise.marks - bool(exercise.verdicts)), max(1, asked))
    return [(each + (number >= count - over)) * (number >= count - asked) for number in range(count)]
