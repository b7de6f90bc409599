"""Which dimensions of a figure can be marked."""

from collections.abc import Mapping

from coursepack.drafting.sheet import Mark
from coursepack.place import LessonFault


def refuse_missing(what: str, marks: Mapping[str, Mark], true: Mapping[str, float]) -> None:
    """Raise LessonFault for a dimension that is marked and that this figure does not have."""
    for name in marks:
        if name not in true:
            raise LessonFault(f"this {what} has no dimension '{name}'", f"it has {', '.join(true)}")
