"""What must hold in a lesson as a whole: its machines, its stages, an exercise for every aim, links."""

from collections.abc import Collection, Iterable, Mapping
from pathlib import Path

from coursepack.lesson import Exercise, Lesson, Machine, Passage
from coursepack.place import did_you_mean
from coursepack.reading.links import check_links
from coursepack.reading.source import Prose, braces
from coursepack.reading.tables import Findings, Table


def check_lesson(
    lesson: Lesson,
    table: Table,
    machines: Mapping[str, Machine] | None,
    served: Collection[int],
    findings: Findings,
) -> None:
    """Note what is missing in a lesson as a whole: machines, stages, an exercise for every aim.

    `served` are the aims that its exercises name, those with faults too.
    """
    for name in lesson.machines:
        if machines is not None and name not in machines:
            table.fault("machines", f"the course has no machine '{name}'", did_you_mean(name, machines))
    for number, aim in enumerate(lesson.aims, 1):
        if number not in served:
            table.fault(
                "aims", f"no exercise serves aim {number}, '{aim.do}'", f"add {number} to an exercise's aims"
            )
    for exercise in lesson.exercises:
        _stage(exercise, lesson, findings)
        for number in exercise.aims:
            if lesson.aims and not 1 <= number <= len(lesson.aims):
                findings.add(
                    exercise.place,
                    f"the lesson has no aim {number}",
                    f"its aims go from 1 to {len(lesson.aims)}",
                )


def check_mixed_practice(likes: Iterable[str], table: Table) -> None:
    """Note a lesson that brings back no exercise of an earlier one (mixed practice); the first is not asked."""
    if not any("/" in like for like in likes):
        table.fault(
            "",
            "no exercise comes from an earlier lesson",
            'bring one back: like = "lesson-id/exercise-id"',
        )


def _stage(exercise: Exercise, lesson: Lesson, findings: Findings) -> None:
    if exercise.stage in ("worked", "bench") or exercise.review:
        return
    before = lesson.exercises[: lesson.exercises.index(exercise)]
    if not any(other.root == exercise.root and other.stage == "worked" for other in before):
        findings.add(
            exercise.place,
            f"'{exercise.id}' follows no worked exercise of its structure",
            "say like = the id of a worked one before it",
        )


def check_passages(lesson: Lesson, folder: Path, findings: Findings) -> None:
    """Note braces in the reading (it has no numbers) and pictures or links that may not stand."""
    for section in lesson.sections:
        for passage in section.passages:
            if isinstance(passage, Prose):
                for place, name in braces(passage):
                    findings.add(
                        place, f"'{{{name}}}' stands outside an exercise", "numbers are given in exercises"
                    )
    passages: list[Passage] = [passage for section in lesson.sections for passage in section.passages]
    passages += [
        passage
        for exercise in lesson.exercises
        for passage in exercise.passages
        if isinstance(passage, Prose) and passage.place.path == lesson.place.path
    ]
    for passage in passages:
        if isinstance(passage, Prose):
            check_links(passage, folder, findings)
