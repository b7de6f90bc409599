"""Whether there is type for every sign of a lesson, told with its line before anything is printed."""

from collections.abc import Iterator

from coursepack.lesson import Lesson
from coursepack.place import LessonFault, Place

# what every face has, so that most lessons are looked through without making one
EVERYDAY = frozenset({*map(chr, (*range(0x20, 0x7F), *range(0xA0, 0x100))), *"\t–—‘’“”…−×÷≤≥≈√"})


def signs_lacking(lesson: Lesson) -> Iterator[LessonFault]:
    """Yield a fault for each line of a lesson with a sign that there is no type for."""
    for number, line in enumerate(lesson.source.split("\n"), 1):
        if doubtful := dict.fromkeys(sign for sign in line if sign not in EVERYDAY):
            yield from _lacking(doubtful, Place(lesson.place.path, number))


def _lacking(signs: dict[str, None], place: Place) -> Iterator[LessonFault]:
    from coursepack.pages.lettering import has_sign  # noqa: PLC0415 - it makes the type, which takes time

    if lacking := [f"'{sign}' (U+{ord(sign):04X})" for sign in signs if not has_sign(sign)]:
        yield LessonFault(f"there is no type for {', '.join(lacking)}", "write it otherwise", place)
