"""Lesson sources → lessons: every fault of every source at once."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from coursepack.formula import Functions
from coursepack.lesson import (
    Aim,
    Exercise,
    FigureForm,
    Given,
    Lesson,
    Machine,
    Passage,
    Section,
    Stage,
    StepTable,
)
from coursepack.place import LessonFault, Place, did_you_mean
from coursepack.reading.blocks import BlockReader, ExerciseDraft
from coursepack.reading.checks import Doubts, check_exercise
from coursepack.reading.lesson_checks import check_lesson, check_mixed_practice, check_passages
from coursepack.reading.source import BLOCKS, Block, Heading, Piece, Prose, pieces, text_of
from coursepack.reading.tables import Findings, Table

_AIMS = '[{ do = "…", given = "…", to = "within 1/64 in" }]'
_FILE = re.compile(r"([0-9]{1,3})-([a-z][a-z0-9-]*)\.md")


@dataclass
class LessonDraft:
    """A lesson on its way: its table, its parts in order, its exercises before taking over."""

    id: str
    number: int
    place: Place
    source: str
    title: str = ""
    table: Table | None = None
    has_table: bool = False
    sections: list[Section] = field(default_factory=list)
    exercises: list[ExerciseDraft] = field(default_factory=list)


class LessonReader:
    """Reads all lessons of a folder, in the order of their numbers."""

    def __init__(self, functions: Functions, figures: Mapping[str, FigureForm], findings: Findings) -> None:
        self.functions = functions
        self.figures = figures
        self.findings = findings
        self.doubts: dict[str, Doubts] = {}
        self.unread: set[str] = set()  # lessons with an exercise whose id could not be read

    def read(
        self, paths: list[Path], folder: Path, machines: Mapping[str, Machine] | None
    ) -> tuple[Lesson, ...]:
        """Read the lessons; what is wrong goes to the findings, and a lesson with faults may be missing.

        Without machines (the course has a fault) the machines that a lesson names are not looked up.
        """
        drafts = [draft for path in paths if (draft := self._draft(path, f"{folder.name}/{path.name}"))]
        lessons: list[Lesson] = []
        self.doubts = {}
        self.unread = {
            draft.id for draft in drafts if any("exercise" in one.broken for one in draft.exercises)
        }
        earlier: dict[str, Exercise] = {}
        for draft in drafts:
            exercises = self._exercises(draft, earlier)
            earlier |= {f"{draft.id}/{exercise.id}": exercise for exercise in exercises}
            with self.findings.at(draft.place):
                lessons += self._lesson(draft, exercises, machines, folder)
            if draft is not drafts[0] and draft.exercises and draft.table:
                check_mixed_practice([exercise.like for exercise in draft.exercises], draft.table)
        self._same_number(lessons)
        return tuple(sorted(lessons, key=lambda lesson: lesson.number))

    def _draft(self, path: Path, name: str) -> LessonDraft | None:
        named = _FILE.fullmatch(path.name)
        if not named:
            self.findings.add(
                Place(name), "the file's name is not a lesson's", "name it such as 04-scarf-joints.md"
            )
            return None
        if not path.is_file():
            self.findings.add(Place(name), "a lesson is a file", "move what is no lesson elsewhere")
            return None
        with self.findings.at(Place(name)):
            text = text_of(path, name)
            found, faults = pieces(text, name)
            for fault in faults:
                self.findings.note(fault)
            draft = LessonDraft(named[2], int(named[1]), Place(name), text)
            _Drafter(draft, BlockReader(self.functions, self.findings), self.findings).take(found)
            return draft
        return None

    def _exercises(self, draft: LessonDraft, earlier: Mapping[str, Exercise]) -> list[Exercise]:
        done: dict[str, Exercise] = {}
        for exercise in draft.exercises:
            if not exercise.id:
                continue
            if exercise.id in done:
                self.findings.add(
                    exercise.place, f"the id '{exercise.id}' stands twice in this lesson", "choose another id"
                )
                continue
            known = {**earlier, **done}
            if exercise.like and exercise.like not in known:
                lesson, slash, _ = exercise.like.partition("/")
                if (lesson if slash else draft.id) in self.unread:
                    continue  # it may be the one whose id could not be read
                self.findings.add(
                    exercise.place,
                    f"there is no exercise '{exercise.like}' before this one",
                    did_you_mean(exercise.like, known),
                )
                continue
            like = known.get(exercise.like)
            whole = _whole(exercise, draft.id, like, exercise.like in earlier)
            if exercise.fade > len(whole.steps) > 0 and exercise.fade_place:
                self.findings.add(
                    exercise.fade_place,
                    f"fade = {exercise.fade}, but the working has {len(whole.steps)} steps",
                    "let the student find no more than these",
                )
            done[exercise.id] = whole
            doubts = _doubts(exercise, self.doubts.get(f"{like.lesson}/{like.id}") if like else None)
            self.doubts[f"{whole.lesson}/{whole.id}"] = doubts
            check_exercise(whole, self.figures, doubts, self.findings)
        return list(done.values())

    def _lesson(
        self,
        draft: LessonDraft,
        exercises: list[Exercise],
        machines: Mapping[str, Machine] | None,
        folder: Path,
    ) -> list[Lesson]:
        table = draft.table
        if table is None:
            if not draft.has_table:
                self.findings.add(draft.place, "there is no lesson block", "add one under the title")
            return []
        lesson = Lesson(
            id=draft.id,
            number=table.whole("number", 1, 999),
            title=draft.title,
            minutes=table.whole("minutes", 1, 1440),
            machines=table.texts("machines", ()),
            tools=table.texts("tools"),
            materials=table.texts("materials"),
            prepare=table.texts("prepare"),
            done=table.take("done", str),
            aims=_aims(table),
            sections=tuple(draft.sections),
            exercises=tuple(exercises),
            place=draft.place,
            source=draft.source,
        )
        table.finish()
        if type(table.values.get("number")) is int and lesson.number != draft.number:
            table.fault(
                "number",
                f"the lesson is number {lesson.number}, but its file is {draft.place.path.rpartition('/')[2]}",
                "let both have the same number",
            )
        check_lesson(lesson, table, machines, _served(draft, lesson), self.findings)
        check_passages(lesson, folder, self.findings)
        return [lesson]

    def _same_number(self, lessons: list[Lesson]) -> None:
        for key in ("number", "id"):
            seen: dict[Any, Lesson] = {}
            for lesson in lessons:
                value = getattr(lesson, key)
                if value in seen:
                    self.findings.add(
                        lesson.place,
                        f"the {key} {value} is that of {seen[value].place} too",
                        f"give it another {key}",
                    )
                seen[value] = lesson


def _served(draft: LessonDraft, lesson: Lesson) -> set[int]:
    if any("exercise" in exercise.broken for exercise in draft.exercises):
        return set(range(1, len(lesson.aims) + 1))
    return {number for exercise in draft.exercises for number in exercise.aims}


def _aims(table: Table) -> tuple[Aim, ...]:
    aims = []
    found: list[Any] = table.take("aims", list, sample=_AIMS)
    for number, values in enumerate(found):
        if not isinstance(values, dict):
            table.fault(
                "aims", "an aim is not a table", 'write { do = "…", given = "…", to = "within 1/64 in" }'
            )
            continue
        aims.append(_aim(table.row("aims", number, values, "an aim")))
    if "aims" in table.values and not found:
        table.fault("aims", "the lesson has no aim", f"write aims = {_AIMS}")
    return tuple(aims)


def _aim(table: Table) -> Aim:
    aim = Aim(*(table.take(key, str) for key in ("do", "given", "to")))
    table.finish()
    if aim.to.strip() and not re.search(r"[0-9]", aim.to):
        table.fault(
            "to", f"the aim '{aim.do}' has a standard without a number", 'write to = "within 1/64 in"'
        )
    return aim


def _doubts(draft: ExerciseDraft, inherited: Doubts | None) -> Doubts:
    """What has a fault in an exercise: its own, and in what it takes over."""
    before = inherited or Doubts()
    own = {"given", "working", "find"} & draft.seen
    names = draft.doubted | (before.names - draft.given.keys() - {step.name for step in draft.steps})
    blocks = draft.broken | {name for name in before.blocks if name == "given" or name not in own}
    return Doubts(frozenset(blocks), frozenset(names), before.names | before.meanings)


class _Drafter:
    """Deals the pieces of a source out to its lesson, sections and exercises."""

    def __init__(self, draft: LessonDraft, reader: BlockReader, findings: Findings) -> None:
        self.draft = draft
        self.reader = reader
        self.findings = findings
        self.section = Section("", 2, ())
        self.heading = draft.place
        self.exercise: ExerciseDraft | None = None

    def take(self, found: list[Piece]) -> None:
        """Go through the pieces in order."""
        for piece in found:
            if isinstance(piece, Heading):
                self._heading(piece)
            elif isinstance(piece, Prose):
                self._passage(piece)
            else:
                with self.findings.at(piece.place):
                    self._block(piece)
        self._close()
        if not self.draft.title:
            self.findings.add(
                Place(self.draft.place.path, 1), "the lesson has no title", "begin with # and the title"
            )

    def _heading(self, piece: Heading) -> None:
        self._close()
        if piece.level == 1 and not self.draft.title:
            self.draft.title = piece.text
        elif piece.level == 1:
            self.findings.add(piece.place, "a second title", "use ## for a section and ### for an exercise")
        self.section = Section(piece.text if piece.level > 1 else "", piece.level, ())
        self.heading = piece.place

    def _close(self) -> None:
        if self.exercise:
            self.draft.exercises.append(self.exercise)
        elif self.section.passages or self.section.title:
            self.draft.sections.append(self.section)
        self.exercise = None
        self.section = Section("", 2, ())

    def _passage(self, passage: Any) -> None:
        if self.exercise:
            self.exercise.passages.append(passage)
        else:
            self.section = Section(self.section.title, self.section.level, (*self.section.passages, passage))

    def _block(self, block: Block) -> None:
        if block.name not in BLOCKS:
            if self.exercise:
                self.exercise.broken.add("working")
        elif not block.is_closed:
            self._unread(block)
        elif block.name == "lesson":
            self._lesson(block)
        elif block.name == "caution":
            if caution := self.reader.caution(block):
                self._passage(caution)
        elif block.name == "exercise":
            self._exercise(block)
        elif self.exercise is None:
            self.findings.add(
                block.place, f"a {block.name} block without an exercise", "put an exercise block before it"
            )
        else:
            self._part(block, self.exercise)

    def _unread(self, block: Block) -> None:
        """Note that a block was there, so that it is not missed."""
        if block.name == "lesson":
            self.draft.has_table = True
        elif block.name == "exercise":
            self.exercise = ExerciseDraft(self.section.title, block.place, broken={"exercise"})
        elif self.exercise:
            self.exercise.seen.add(block.name)
            self.exercise.broken.add(block.name)

    def _lesson(self, block: Block) -> None:
        if self.draft.has_table:
            self.findings.add(block.place, "a second lesson block", "keep one")
            return
        self.draft.has_table = True
        self.draft.table = self.reader.table(block) or self.draft.table

    def _exercise(self, block: Block) -> None:
        if self.exercise or not self.section.title:
            self.findings.add(
                block.place, "the exercise has no heading of its own", "put ### and its title above it"
            )
            self._close()
        self.exercise = ExerciseDraft(self.section.title, block.place)
        self.exercise.passages.extend(self.section.passages)
        self.reader.exercise(block, self.exercise)

    def _part(self, block: Block, exercise: ExerciseDraft) -> None:
        if block.name == "table":
            if table := self.reader.step_table(block):
                exercise.passages.append(table)
            else:
                exercise.broken.add("table")
            return
        if block.name in exercise.seen:
            self.findings.add(block.place, f"a second {block.name} block in this exercise", "join them")
            return
        exercise.seen.add(block.name)
        if block.name == "figure":
            exercise.figure = self.reader.figure(block)
            return
        take: Mapping[str, Callable[[Block, ExerciseDraft], None]] = {
            "given": self.reader.given, "working": self.reader.working, "find": self.reader.find,
        }  # fmt: skip
        take[block.name](block, exercise)


def _whole(draft: ExerciseDraft, lesson: str, like: Exercise | None, review: bool) -> Exercise:  # noqa: FBT001
    """Fill in what an exercise takes over from the one it is like."""
    steps = draft.steps or (like.steps if like else ())
    fade = min(draft.fade or (len(steps) + 1) // 2, len(steps))
    stage: Stage = draft.stage  # type: ignore[assignment]  # one_of has checked it
    return Exercise(
        id=draft.id,
        lesson=lesson,
        title=draft.title,
        stage=stage,
        aims=draft.aims,
        marks=draft.marks or (fade if stage == "faded" else len(steps)) + bool(draft.verdicts),
        fade=fade,
        root=like.root if like else f"{lesson}/{draft.id}",
        review=review or (like is not None and like.review and like.lesson == lesson),
        given=_given(draft, like),
        rules=draft.rules if draft.rules is not None else (like.rules if like else ()),
        steps=steps,
        finds=draft.finds or (like.finds if like else ()),
        figure=draft.figure or (like.figure if like else None),
        passages=tuple(draft.passages) or _told(like),
        place=draft.place,
        verdicts=draft.verdicts,
    )


def _told(like: Exercise | None) -> tuple[Passage, ...]:
    """Return the passages of an exercise but for its tables, which stay with its numbers."""
    passages = like.passages if like else ()
    return tuple(passage for passage in passages if not isinstance(passage, StepTable))


def _given(draft: ExerciseDraft, like: Exercise | None) -> tuple[Given, ...]:
    before = {given.name: given for given in like.given} if like else {}
    meant = {
        name: Given(
            name, given.choices, given.means or (before[name].means if name in before else ""), given.place
        )
        for name, given in draft.given.items()
    }
    return tuple({**before, **meant}.values())


def _by_number(path: Path) -> tuple[int, str]:
    named = _FILE.fullmatch(path.name)
    return (int(named[1]) if named else 0, path.name)


def lesson_paths(folder: Path) -> list[Path]:
    """Return the lesson files of a folder in the order of their numbers; raises LessonFault if there is none."""
    paths = sorted((path for path in folder.glob("*") if path.suffix.lower() == ".md"), key=_by_number)
    if not paths:
        raise LessonFault("there is no lesson here", "add one such as 01-planing.md", Place(str(folder)))
    return paths
