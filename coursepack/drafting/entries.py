"""Lines of lettering with what is asked, under a figure whose numbers have no two ends to measure between."""

from collections.abc import Mapping
from dataclasses import replace

from coursepack.drafting.dimension import Spacing
from coursepack.drafting.label import centred, label_box
from coursepack.drafting.sheet import Label, Mark, Piece

PITCH_MM = 8.4  # from line to line: what a student writes on needs that much
BESIDE_MM = 1.6  # from a name to its number


def entries(
    names: Mapping[str, str], marks: Mapping[str, Mark], middle: float, top: float, spacing: Spacing
) -> Piece:
    """Letter each name of a mark and the mark beside it, down from a height in mm, about a middle line."""
    shown = [name for name in names if name in marks]
    return Piece(
        labels=tuple(
            label
            for number, name in enumerate(shown)
            for label in _entry(
                name, names[name], marks[name], middle, top - PITCH_MM * (number + 0.5), spacing
            )
        )
    )


def _entry(
    name: str, word: str, mark: Mark, middle: float, y: float, spacing: Spacing
) -> tuple[Label, Label]:
    number = centred(mark, (0.0, y), spacing.letter, name)
    x = middle + BESIDE_MM / 2 + label_box(number).width / 2
    said = centred(Mark(word), (middle - BESIDE_MM / 2, y), spacing.letter)
    return replace(said, align="right"), replace(number, x=x)
