"""A caliper's main scale with its vernier, enlarged, and where its lines lie close a detail of those that coincide."""

from collections.abc import Mapping
from fractions import Fraction
from math import isclose

from coursepack.drafting.breaking import torn
from coursepack.drafting.clearance import bounds
from coursepack.drafting.dimension import Spacing
from coursepack.drafting.entries import entries
from coursepack.drafting.label import centred
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.readings import TORN_MM, is_multiple
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import NoRoom
from coursepack.drafting.sheet import SMALL_MM, TIGHT_MM, Drawing, Frame, Label, Line, Mark, Piece, Stroke
from coursepack.drafting.vernier_scale import (
    EDGE_MM,
    Vernier,
    View,
    known_vernier,
    main_lines,
    setting,
    vernier_lines,
)
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.quantity import printed

BEAM_MM, PLATE_MM = 13.0, 10.6  # on paper, height of the main scale and of the vernier
PAD_MM = 2.0  # on paper, of the vernier beyond its first and last line
CLOSEST_MM = 0.97  # on paper, of lines that can be told apart
PLAIN_MM = 0.35  # on paper, of a step that is seen without a detail
DETAIL_SCALE = 10
MOST_LINES = 9  # of a vernier, in a detail
BRACKET_MM = 1.4  # under the lines that are seen in the detail
NAMES = {"main": "Main scale", "line": "Line that coincides", "reading": "Reading"}


def vernier_figure(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a caliper's two scales at the largest scale that fits, or the frame's, set to a reading.

    Sizes in mm and counts: reading, and step, what the vernier reads to; where they are to be asked main, the
    division before the vernier's zero, and line, the vernier's line that coincides. Raises LessonFault for a
    vernier that is not made, a reading between two of its steps, a main or line that is not the reading's, where
    it does not fit, and for a dimension that it does not have.
    """
    refuse_missing("vernier reading", marks, vernier_measure(sizes))
    vernier = known_vernier(sizes["step"])
    _refuse_other_settings(sizes, vernier)

    def note(scale: Fraction) -> str:
        detail = f", detail A {DETAIL_SCALE}:1" if _needs_detail(vernier, float(scale)) else ""
        return f"reads to {printed(vernier.step)}{detail}"

    fitted = at_scale(
        "vernier reading",
        lambda by, room, spacing: _draft(sizes["reading"], vernier, marks, by, room, spacing),
        frame,
        0.0,
        note,
    )
    return finished("Vernier reading", fitted, frame, _alt(vernier, marks), note)


def vernier_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of the reading in mm; of the main scale and the line that coincides where they are given."""
    return {name: sizes[name] for name in NAMES if name in sizes}


def _refuse_other_settings(sizes: Mapping[str, float], vernier: Vernier) -> None:
    reading = sizes["reading"]
    if reading < 0 or not is_multiple(reading, vernier.by):
        raise LessonFault(
            "no line of the vernier coincides", f"give the reading as a multiple of {vernier.step}"
        )
    main, line = setting(reading, vernier)
    for name, true in (("main", main * vernier.division), ("line", line)):
        if name in sizes and not isclose(sizes[name], true, abs_tol=1e-6):
            raise LessonFault(f"the reading does not have this '{name}'", "take both from the same exercise")


def _needs_detail(vernier: Vernier, scale: float) -> bool:
    return vernier.by * scale < PLAIN_MM


def _draft(
    reading: float, vernier: Vernier, marks: Mapping[str, Mark], scale: float, room: Frame, spacing: Spacing
) -> Piece:
    view = _view(reading, vernier, scale, room.width - 2 * TORN_MM)
    drawn = _scales(view, reading, vernier, torn_off=True)
    low = -PLATE_MM - 1.0
    if _needs_detail(vernier, scale):
        near = _detail(reading, vernier, view.width)
        drawn += _bracket(view, near, reading, vernier)
        drawn += _shown_larger(near, reading, vernier, view.width, bounds(drawn).bottom - 2.0)
        low = bounds(drawn).bottom - 1.0
    return drawn + entries(NAMES, marks, view.width / 2, low, spacing)


def _view(reading: float, vernier: Vernier, scale: float, width: float) -> View:
    """Return what is seen of the main scale: the whole vernier, and a number to its left if there is room."""
    seen, length = width / scale, vernier.own * vernier.lines
    pad = (PAD_MM + EDGE_MM) / scale
    spare = seen - length - 2 * pad
    if spare < 0 or vernier.own * scale < CLOSEST_MM:
        raise NoRoom
    unit = vernier.numbered * vernier.division
    back = reading - unit * int(reading / unit + 1e-9) - pad + 2 * EDGE_MM / scale
    left = max(back, spare / 2) if back <= spare else spare * 0.2
    view = View(reading - pad - left, reading - pad - left + seen, scale, 0, vernier.lines)
    if not any(text for *_, text in main_lines(view, vernier, whole=True)):
        raise NoRoom
    return view


def _detail(reading: float, vernier: Vernier, width: float) -> View:
    """Return the lines to show larger: those round the one that coincides, which is not always in the middle."""
    count = min(MOST_LINES, int((width - 2 * PAD_MM) / (vernier.own * DETAIL_SCALE)) + 1)
    main, line = setting(reading, vernier)
    before = 1 + (7 * main + 3 * line) % (count - 2)
    first = min(max(0, line - before), vernier.lines + 1 - count)
    last, pad = first + count - 1, PAD_MM / DETAIL_SCALE
    start, end = (reading + number * vernier.own for number in (first, last))
    return View(start - pad, end + pad, DETAIL_SCALE, first, last)


def _scales(view: View, reading: float, vernier: Vernier, *, torn_off: bool) -> Piece:
    """Draw the main scale over the vernier, both with their lines and numbers."""
    main = [*main_lines(view, vernier)]
    own = [*vernier_lines(view, reading, vernier)]
    ticks = (*(((x, 0.0), (x, tall)) for x, tall, _ in main), *(((x, 0.0), (x, -tall)) for x, tall, _ in own))
    labels = [centred(Mark(text), (x, BEAM_MM - 2.7), _size(text, vernier)) for x, _, text in main if text]
    labels += [centred(Mark(text), (x, 2.7 - PLATE_MM), TIGHT_MM) for x, _, text in own if text]
    edges = _broken_off(view, reading, vernier) if torn_off else _framed(view)
    return Piece((*edges, Stroke("layer", ticks)), (), tuple(labels))


def _size(text: str, vernier: Vernier) -> float:
    return TIGHT_MM if vernier.is_inch and text.startswith(".") else SMALL_MM


def _broken_off(view: View, reading: float, vernier: Vernier) -> tuple[Stroke, ...]:
    """Draw the beam, broken off at both ends, and the vernier's plate under it."""
    width = view.width
    left, right = (
        view.on_paper(reading) - PAD_MM,
        view.on_paper(reading + vernier.own * vernier.lines) + PAD_MM,
    )
    plate: Line = ((left, 0.0), (left, -PLATE_MM), (right, -PLATE_MM), (right, 0.0))
    return (
        Stroke("outline", (((0.0, BEAM_MM), (width, BEAM_MM)), plate)),
        Stroke(
            "thin",
            (
                ((0.0, 0.0), (width, 0.0)),
                torn((0.0, 0.0), (0.0, BEAM_MM)),
                torn((width, 0.0), (width, BEAM_MM)),
            ),
        ),
    )


def _framed(view: View) -> tuple[Stroke, ...]:
    width = view.width
    frame = (0.0, -PLATE_MM), (width, -PLATE_MM), (width, BEAM_MM), (0.0, BEAM_MM), (0.0, -PLATE_MM)
    return (Stroke("thin", (frame, ((0.0, 0.0), (width, 0.0)))),)


def _bracket(view: View, near: View, reading: float, vernier: Vernier) -> Piece:
    """Draw a bracket under the vernier's lines that are shown larger, with the letter of the detail."""
    left, right = (view.on_paper(reading + line * vernier.own) for line in (near.first, near.last))
    high = -PLATE_MM - 0.9
    line = (left, high), (left, high - BRACKET_MM), (right, high - BRACKET_MM), (right, high)
    letter = centred(Mark("A"), ((left + right) / 2, high - BRACKET_MM - 2.3), SMALL_MM)
    return Piece((Stroke("thin", (line,)),), (), (letter,))


def _shown_larger(near: View, reading: float, vernier: Vernier, width: float, top: float) -> Piece:
    """Draw the detail under a height, in the middle, with its name over it."""
    drawn = _scales(near, reading, vernier, torn_off=False)
    name = Label(f"A  {DETAIL_SCALE}:1", near.width / 2, BEAM_MM + 1.4, size_mm=SMALL_MM)
    return (drawn + Piece(labels=(name,))).moved((width - near.width) / 2, top - BEAM_MM - 4.6)


def _alt(vernier: Vernier, marks: Mapping[str, Mark]) -> str:
    names = {
        "main": "main scale before the vernier's zero",
        "line": "line that coincides",
        "reading": "reading",
    }
    scales = (
        f"A caliper's main scale over its vernier of {vernier.lines} divisions, which reads to {vernier.step}"
    )
    return f"{scales}. {listed(names, marks)}"
