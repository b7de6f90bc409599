"""Each kind of block, read into its record: exercise, given, working, find, table, figure, caution."""

import re
from dataclasses import dataclass, field
from keyword import iskeyword
from typing import Any

from coursepack import formulatext
from coursepack.formula import Functions, Node
from coursepack.lesson import (
    LEVELS,
    MEASURES,
    STAGES,
    Caution,
    FigureRequest,
    Find,
    Given,
    Passage,
    Rule,
    Slip,
    Step,
    StepTable,
    Verdict,
)
from coursepack.place import FormulaFault, LessonFault, Place
from coursepack.reading.choices import choices, choices_by_measure, marks
from coursepack.reading.source import Block
from coursepack.reading.tables import Findings, Table, read_toml

NAME = re.compile(r"[a-z][a-z0-9_]{0,30}")
ID = re.compile(r"[a-z][a-z0-9-]{0,40}")
MOST_NAMES = 30
MOST_STEPS = 30
MOST_ROWS, MOST_COLUMNS = 40, 7
MOST_QUESTIONS = 8  # as many as there are letters to tell them apart
MOST_TO_CIRCLE = 50  # characters, so that the words stand on one line beside a figure
FULL_SIZE = "full size"
_VERDICT = 'write verdict = { passes = "rise <= 1", rejected = "rise > 1" }'
_ROWS = '{ station = "10 % | 20 % | 30 %" }'
_SCALE = re.compile(r"[1-9][0-9]?:[1-9][0-9]?")


@dataclass
class ExerciseDraft:
    """An exercise as its blocks say it, before what it takes over from another one is filled in.

    `broken` are its blocks that could not be read, `doubted` the names that have a fault already; no second one is
    told for what follows from the first.
    """

    title: str
    place: Place
    id: str = ""
    stage: str = "alone"
    aims: tuple[int, ...] = ()
    marks: int = 0
    fade: int = 0
    fade_place: Place | None = None
    like: str = ""
    verdicts: tuple[Verdict, ...] = ()
    given: dict[str, Given] = field(default_factory=dict)
    rules: tuple[Rule, ...] | None = None
    steps: tuple[Step, ...] = ()
    finds: tuple[Find, ...] = ()
    figure: FigureRequest | None = None
    passages: list[Passage] = field(default_factory=list)
    seen: set[str] = field(default_factory=set)
    broken: set[str] = field(default_factory=set)
    doubted: set[str] = field(default_factory=set)


class BlockReader:
    """Reads the blocks of one lesson; whatever is wrong goes to the findings."""

    def __init__(self, functions: Functions, findings: Findings) -> None:
        self.functions = functions
        self.findings = findings

    def table(self, block: Block) -> Table | None:
        """Read a block's TOML, or note its fault."""
        return read_toml(block.text, block.place, self.findings, f"the {block.name} block")

    def node(self, text: str, place: Place) -> Node | None:
        """Read a formula; a fault gets its place and points at the character."""
        with self.findings.at(place):
            try:
                return formulatext.read(text, self.functions)
            except FormulaFault as fault:
                raise pointed(fault, text) from fault
        return None

    def exercise(self, block: Block, draft: ExerciseDraft) -> None:
        """Take an exercise block into a draft."""
        draft.place = block.place
        if (table := self.table(block)) is None:
            draft.broken.add("exercise")
            return
        draft.id = table.take("id", str)
        if draft.id.strip() and not ID.fullmatch(draft.id):
            table.fault("id", f"'{draft.id}' cannot be an id", "write small letters, digits and hyphens")
        draft.stage = table.one_of("stage", STAGES)
        aims: list[Any] = table.take("aims", list, sample="[1]")
        if "aims" in table.values and not (aims and all(type(aim) is int for aim in aims)):
            table.fault("aims", "'aims' are the numbers of the lesson's aims", "write aims = [1]")
        draft.aims = tuple(aim for aim in aims if type(aim) is int)
        draft.marks = table.whole("marks", 1, 50, 0)
        draft.fade = table.whole("fade", 1, 20, 0)
        draft.like = table.take("like", str, "")
        draft.verdicts = self._verdicts(table, draft)
        draft.fade_place = table.place("fade")
        table.finish()

    def _verdicts(self, table: Table, draft: ExerciseDraft) -> tuple[Verdict, ...]:
        found: dict[str, Any] = table.take("verdict", dict, {})
        place = table.place("verdict")
        verdicts = []
        for word, text in found.items():
            if not isinstance(text, str) or not word.strip():
                table.fault("verdict", f"the verdict '{word}' has no comparison", _VERDICT)
            elif node := self.node(text, place):
                verdicts.append(Verdict(word, Rule(text, node, place)))
        if len(found) == 1:
            table.fault("verdict", "one verdict leaves no choice", _VERDICT)
        if len(" / ".join(found)) > MOST_TO_CIRCLE:
            table.fault(
                "verdict",
                f"the words to circle take more than {MOST_TO_CIRCLE} characters",
                "choose shorter ones",
            )
        if len(verdicts) < len(found):
            draft.broken.add("verdict")
        return tuple(verdicts)

    def given(self, block: Block, draft: ExerciseDraft) -> None:
        """Take a given block into a draft."""
        if (table := self.table(block)) is None:
            draft.broken.add("given")
            return
        if "require" in table.values:
            draft.rules = self._rules(table)
        names = table.left_over()
        if len(names) > MOST_NAMES:
            self.findings.add(
                block.place, f"more than {MOST_NAMES} numbers are given", "make two exercises of it"
            )
        for name in names[:MOST_NAMES]:
            draft.doubted.add(name)
            with self.findings.at(table.place(name)):
                self._check_name(name)
                draft.given[name] = self._one_given(table, name)
                draft.doubted.remove(name)

    def _check_name(self, name: str) -> None:
        if not NAME.fullmatch(name) or name in self.functions or iskeyword(name):
            raise LessonFault(
                f"'{name}' cannot be a name", "write a short word in small letters that is no function"
            )

    def _rules(self, table: Table) -> tuple[Rule, ...]:
        asked = table.values["require"]
        texts = (asked,) if isinstance(asked, str) else table.texts("require")
        table.taken.add("require")
        place = table.place("require")
        nodes = ((text, self.node(text, place)) for text in texts)
        return tuple(Rule(text, node, place) for text, node in nodes if node is not None)

    def _one_given(self, table: Table, name: str) -> Given:
        value, place = table.values[name], table.place(name)
        if isinstance(value, str):
            return Given(name, dict.fromkeys(MEASURES, choices(value)), "", place)
        if not isinstance(value, dict):
            raise LessonFault(
                f"'{name}' is neither a text nor a table", f'write {name} = "4 in to 5 in by 1/16 in"'
            )
        inner = table.inner(name, value, f"'{name}'")
        means = inner.take("means", str, "")
        return Given(name, choices_by_measure(inner, name), means, place)

    def working(self, block: Block, draft: ExerciseDraft) -> None:
        """Take a working block into a draft: `name = formula  # sentence` a line."""
        rows = [(block.line(number), line) for number, line in enumerate(block.text.split("\n"), 1)]
        rows = [(place, line) for place, line in rows if line.strip() and not line.lstrip().startswith("#")]
        if len(rows) > MOST_STEPS:
            self.findings.add(block.place, f"more than {MOST_STEPS} steps", "make two exercises of it")
        steps = [step for place, line in rows[:MOST_STEPS] if (step := self._step(line, place, draft))]
        if not steps:
            draft.broken.add("working")
        if not rows:
            self.findings.add(
                block.place,
                "the working has no step",
                "write lines such as drop = width * tan(top)  # Height lost",
            )
        draft.steps = tuple(steps)

    def _step(self, line: str, place: Place, draft: ExerciseDraft) -> Step | None:
        code, sentence = _comment_off(line)
        name, sign, text = (part.strip() for part in code.partition("="))
        if not sign or not re.fullmatch(r"\w+", name) or text.startswith("="):
            self.findings.add(place, "this is not a step", "write name = formula  # what it finds")
            draft.broken.add("working")
            return None
        with self.findings.at(place):
            self._check_name(name)
        node = self.node(text, place)
        if not sentence:
            self.findings.add(place, "the step has no sentence", "say after # what the step finds")
        if node is None:
            draft.doubted.add(name)
            return None
        return Step(name, text, node, sentence, place)

    def find(self, block: Block, draft: ExerciseDraft) -> None:
        """Take a find block into a draft."""
        if (table := self.table(block)) is None:
            draft.broken.add("find")
            return
        if len(table.values) > MOST_QUESTIONS:
            self.findings.add(
                block.place, f"more than {MOST_QUESTIONS} questions", "make two exercises of it"
            )
        rows = list(table.values.items())[:MOST_QUESTIONS]
        finds = [find for name, value in rows if (find := self._one_find(table, name, value))]
        draft.finds = tuple(finds)
        if len(finds) < len(table.values):
            draft.broken.add("find")

    def _one_find(self, outer: Table, name: str, value: object) -> Find | None:
        if not isinstance(value, dict):
            outer.fault(
                name, f"'{name}' is not a table", f"write [{name}] and below it ask, nearest and within"
            )
            return None
        table = outer.inner(name, value, f"[{name}]")
        ask = table.take("ask", str)
        nearest, within = marks(table, "nearest"), marks(table, "within")
        found: dict[str, Any] = table.take("slips", dict, {})
        shelf = table.inner("slips", found, "slips")
        slips = [self._slip(shelf, name, slip, values) for slip, values in found.items()]
        table.finish()
        if nearest is None or within is None:
            return None
        return Find(name, ask, nearest, within, tuple(slip for slip in slips if slip), table.home)

    def _slip(self, table: Table, find: str, name: str, values: object) -> Slip | None:
        if not isinstance(values, dict):
            table.fault(
                name, f"the slip '{name}' is not a table", f"write [{find}.slips.{name}] with by and say"
            )
            return None
        inner = table.inner(name, values, f"the slip '{name}'")
        text, say = inner.take("by", str), inner.take("say", str)
        inner.finish()
        place = inner.place("by")
        node = self.node(text, place) if text.strip() else None
        return Slip(name, node, say, place) if node else None

    def step_table(self, block: Block) -> StepTable | None:
        """Read a table block."""
        if (table := self.table(block)) is None:
            return None
        title = table.take("title", str)
        found: dict[str, Any] = table.take("rows", dict, sample=_ROWS)
        columns = table.texts("columns")
        nearest = marks(table, "nearest")
        table.finish()
        if len(columns) > MOST_COLUMNS:
            table.fault("columns", f"the table has more than {MOST_COLUMNS} columns", "make two tables of it")
        if len(found) != 1:
            if "rows" in table.values:
                table.fault("rows", "the rows are those of one given number", f"write rows = {_ROWS}")
            return None
        (name,) = found
        with self.findings.at(table.place("rows")):
            rows = self._one_given(table.inner("rows", found, "rows"), name).choices
            if max(len(row) for row in rows.values()) > MOST_ROWS:
                raise LessonFault(f"the table has more than {MOST_ROWS} rows", "make two tables of it")
            return (
                StepTable(title, name, rows, columns, nearest, block.place) if columns and nearest else None
            )
        return None

    def figure(self, block: Block) -> FigureRequest | None:
        """Read a figure block."""
        if (table := self.table(block)) is None:
            return None
        draw, scale = table.take("draw", str), table.take("scale", str, "")
        full_size = scale.strip() == FULL_SIZE
        if scale.strip() and not full_size and not _SCALE.fullmatch(scale):
            table.fault("scale", f"'{scale}' is not a scale", f'write one such as 1:2, or "{FULL_SIZE}"')
        show, ask = table.texts("show", ()), table.texts("ask", ())
        wanted: dict[str, Any] = table.take("with", dict, {})
        sizes = self._sizes(table.inner("with", wanted, "with"))
        material, quantity = ("stiff card", 1)
        if full_size:
            material, quantity = table.take("material", str, material), table.whole("quantity", 1, 99, 1)
        wide = table.take("wide", bool, default=False)
        table.finish()
        if not draw.strip() or len(sizes) != len(wanted):
            return None
        own_scale = "" if full_size else scale
        return FigureRequest(
            draw, show, ask, own_scale, sizes, block.place, full_size, material, quantity, wide
        )

    def _sizes(self, table: Table) -> dict[str, Node]:
        found = {}
        for key in table.values:
            text = table.take(key, str)
            if text.strip() and (node := self.node(text, table.place(key))):
                found[key] = node
        return found

    def caution(self, block: Block) -> Caution | None:
        """Read a caution block."""
        table = self.table(block)
        return read_caution(table) if table else None


def read_caution(table: Table) -> Caution:
    """Read a caution from its table."""
    level = table.one_of("level", LEVELS)
    do, otherwise = table.take("do", str), table.take("otherwise", str)
    table.finish()
    return Caution(level, do, otherwise)


def _comment_off(line: str) -> tuple[str, str]:
    quoted = False
    for column, character in enumerate(line):
        quoted ^= character == '"'
        if character == "#" and not quoted:
            return line[:column].strip(), line[column + 1 :].strip()
    return line.strip(), ""


def pointed(fault: FormulaFault, text: str) -> LessonFault:
    """Put a pointer to the character into a formula's fault."""
    if fault.column < 0:
        return fault
    column = min(fault.column, len(text))
    near = text[column : column + 24] or "its end"
    return FormulaFault(
        f"{fault.message} (at character {column + 1}, “{near}”)", fault.remedy, fault.place, column
    )


__all__ = ["BlockReader", "ExerciseDraft", "pointed", "read_caution"]
