"""The scale of a figure and the lines of lettering under it."""

from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from coursepack.drafting.clearance import bounds
from coursepack.drafting.dimension import SPACINGS, Spacing
from coursepack.drafting.lettering import wrapped
from coursepack.drafting.settling import NoRoom
from coursepack.drafting.sheet import LETTER_MM, SMALL_MM, Box, Drawing, Frame, Label, Piece
from coursepack.place import LessonFault

# the preferred scales of ISO 5455 that a shop sheet needs, the largest first
SCALES = tuple(Fraction(text) for text in ("5", "2", "1", "1/2", "1/5", "1/10", "1/20", "1/50"))
NO_SCALE = Fraction(0)
MARGIN_MM = 0.5
ENLARGED_MM = 50.0  # a part is not drawn larger than life beyond this size on paper
TITLE_GAP_MM = 3.5
LINE_MM = 3.9

Note = Callable[[Fraction], str]  # what more must be said under the figure at a scale
Draft = Callable[[float, Frame, Spacing], Piece]
Chart = Callable[[Frame, Spacing], Piece]


class Fitted(NamedTuple):
    """A drafted piece, the scale at which it fits, NO_SCALE for a diagram, and the room it takes in mm."""

    piece: Piece
    scale: Fraction
    room: Box


def scale_text(scale: Fraction) -> str:
    """Letter a scale: paper to part, as in 1:2 or 5:1; nothing for a diagram."""
    return f"{scale.numerator}:{scale.denominator}" if scale else ""


def at_scale(
    name: str,
    draft: Draft,
    frame: Frame,
    greatest_mm: float,
    note: Note = lambda _: "",
    scales: tuple[Fraction, ...] = SCALES,
) -> Fitted:
    """Draft a figure at the asked scale, or the largest of `scales` that fits its frame; enlarged only if small.

    Raises LessonFault where it does not fit, naming the scale that would.
    """
    asked = (
        (frame.scale,)
        if frame.scale
        else tuple(s for s in scales if s <= 1 or s * greatest_mm <= ENLARGED_MM)
    )
    for fitted in _that_fit(draft, frame, asked, note):
        return fitted
    fit = next(_that_fit(draft, frame, scales, note), None)
    cure = (
        f"scale {scale_text(fit.scale)} would fit"
        if fit
        else "give it the wide frame, or show fewer dimensions"
    )
    at = f" at {scale_text(frame.scale)}" if frame.scale else ""
    raise LessonFault(f"the figure '{name}' does not fit {frame.width:g} × {frame.height:g} mm{at}", cure)


def _that_fit(draft: Draft, frame: Frame, scales: tuple[Fraction, ...], note: Note) -> Iterator[Fitted]:
    for scale in scales:
        title = TITLE_GAP_MM + LINE_MM * len(title_lines("x", scale, note(scale), frame.width))
        room = replace(frame, width=frame.width - 2 * MARGIN_MM, height=frame.height - title - 2 * MARGIN_MM)
        for spacing in SPACINGS:
            with suppress(NoRoom):
                piece = draft(float(scale), room, spacing)
                box = bounds(piece)
                if box.width <= room.width and box.height <= room.height:
                    yield Fitted(piece, scale, box)


def without_scale(name: str, chart: Chart, frame: Frame) -> Fitted:
    """Draft a diagram that shows no part, so has no scale.

    Raises LessonFault where it does not fit its frame, or where a scale is asked for.
    """
    if frame.scale:
        raise LessonFault(f"the figure '{name}' is a diagram and has no scale", "leave the scale out")
    title = TITLE_GAP_MM + LINE_MM * len(title_lines("x", NO_SCALE, "", frame.width))
    room = replace(frame, width=frame.width - 2 * MARGIN_MM, height=frame.height - title - 2 * MARGIN_MM)
    for spacing in SPACINGS:
        with suppress(NoRoom):
            piece = chart(room, spacing)
            box = bounds(piece)
            if box.width <= room.width and box.height <= room.height:
                return Fitted(piece, NO_SCALE, box)
    raise LessonFault(
        f"the figure '{name}' does not fit {frame.width:g} × {frame.height:g} mm",
        "give it the wide frame, or show fewer dimensions",
    )


def title_lines(name: str, scale: Fraction, note: str, width_mm: float) -> list[str]:
    """Letter what stands under a figure: its name and scale, and at full size that it is no template."""
    use = " Do not cut from this figure." if scale == 1 else ""
    to_scale = f"Scale {scale_text(scale)}" if scale else "Not to scale"
    scale_line = f"{to_scale}; {note}." if note else f"{to_scale}."
    return [name, *wrapped(f"{scale_line}{use}", SMALL_MM, width_mm - 2 * MARGIN_MM)]


def finished(name: str, fitted: Fitted, frame: Frame, alt: str, note: Note = lambda _: "") -> Drawing:
    """Centre a drafted piece on its paper, as high as it needs, with its title under it."""
    piece, scale, box = fitted
    lines = title_lines(name, scale, note(scale), frame.width)
    under = MARGIN_MM + LINE_MM * len(lines) + TITLE_GAP_MM
    placed = piece.moved((frame.width - box.width) / 2 - box.left, under - box.bottom)
    title = tuple(_title(text, number, len(lines), frame) for number, text in enumerate(lines))
    height = under + box.height + MARGIN_MM
    return Drawing(
        frame.width, height, scale_text(scale), placed.strokes, placed.fills, placed.labels + title, alt
    )


def _title(text: str, number: int, lines: int, frame: Frame) -> Label:
    y = MARGIN_MM + 1.1 + LINE_MM * (lines - 1 - number)
    if number == 0:
        return Label(text, frame.width / 2, y, hand="title", size_mm=LETTER_MM)
    return Label(text, frame.width / 2, y, size_mm=SMALL_MM)
