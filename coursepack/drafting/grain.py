"""A blank's end grain before and after drying."""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from coursepack.drafting.dimension import ARROW_MM, ROW_MM, Linear, arrowhead, settle, ways
from coursepack.drafting.lettering import width_em
from coursepack.drafting.rings import growth_rings
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.sheet import (
    LETTER_MM,
    Drawing,
    Frame,
    Label,
    Line,
    Mark,
    Piece,
    Stroke,
    bounds,
    centred,
    label_box,
)
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.trade.outline import rectangle, shrunk

TIMES = (1, 2, 5, 10, 20, 50)
SEEN_MM = 2.0  # on paper: a smaller change is drawn larger
MOST_PART = 0.3  # and never more than this part of either size
WORD = "rings"
BETWEEN_MM = 0.9
NOTE_GAP_MM = 3.0


def end_grain(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a blank's end wet (thin) and dried (thick), its change drawn larger where it would not be seen.

    Sizes in mm and degrees: wide, thick, wide_after, thick_after, rings (0 flat-grained, 90 edge-grained).
    Raises LessonFault where it does not fit, or a dimension is asked that it does not have.
    """
    true = grain_measure(sizes)
    for name in marks:
        if name not in true:
            raise LessonFault(f"this end grain has no dimension '{name}'", f"it has {', '.join(true)}")
    change = "shrinkage" if sizes["wide_after"] <= sizes["wide"] else "swelling"

    def note(scale: Fraction) -> str:
        times = drawn_times(sizes, float(scale))
        return f"{change} drawn {times} times as large" if times > 1 else ""

    fitted = at_scale(
        "end grain", lambda by, room: _draft(sizes, marks, by, room), frame, sizes["wide"], note
    )
    times = drawn_times(sizes, float(fitted[1]))
    return finished("End grain", fitted, frame, _alt(marks, times), note)


def grain_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm or degrees."""
    return {name: sizes[name] for name in ("wide", "thick", "wide_after", "thick_after", "rings")}


def drawn_times(sizes: Mapping[str, float], scale: float) -> int:
    """How many times as large the change of size is drawn at a scale: 1 where it shows as it is."""
    changes = {name: abs(sizes[name] - sizes[f"{name}_after"]) for name in ("wide", "thick")}
    largest = max(changes.values())
    if largest == 0:
        return 1
    wanted = next((times for times in TIMES if times * largest * scale >= SEEN_MM), TIMES[-1])
    most = min(MOST_PART * sizes[name] / change for name, change in changes.items() if change)
    return max(times for times in TIMES if times == 1 or times <= min(wanted, most))


def _draft(sizes: Mapping[str, float], marks: Mapping[str, Mark], scale: float, room: Frame) -> Piece:
    times = drawn_times(sizes, scale)
    wet = rectangle(sizes["wide"] * scale, sizes["thick"] * scale)
    wide, thick = (shrunk(sizes[name], sizes[f"{name}_after"], times) * scale for name in ("wide", "thick"))
    dry = rectangle(wide, thick)
    piece = Piece((Stroke("outline", ((*dry, dry[0]),)), Stroke("thin", ((*wet, wet[0]),))))
    high = max(wet[2][1], dry[2][1])
    if "rings" in marks:
        piece += _ring_note(marks["rings"], high, dry)
    above = bounds(Piece((), (), piece.labels)).top if piece.labels else high
    for choices in _dimensions(wet, dry, marks, above):
        piece = settle(piece, choices, room)
    return piece + Piece((growth_rings(dry, sizes["rings"], 0.7),))


def _ring_note(mark: Mark, high: float, dry: Line) -> Piece:
    """Letter the rings' angle over the middle of the blank, with an arrow to a ring."""
    size = label_box(centred(mark, (0, 0)))
    word = width_em(WORD) * LETTER_MM
    y = high + NOTE_GAP_MM + size.height / 2
    left = -(word + BETWEEN_MM + size.width) / 2
    label = centred(mark, (left + word + BETWEEN_MM + size.width / 2, y), of="rings")
    words = Label(WORD, left, label.y, "left")
    tip = (0.0, dry[2][1] - min(ARROW_MM + 0.5, (dry[2][1] - dry[1][1]) / 2))
    foot = (0.0, high + NOTE_GAP_MM - 0.5)
    return Piece((Stroke("dimension", ((foot, tip),)),), (arrowhead(tip, (0, -1), "rings"),), (words, label))


def _dimensions(wet: Line, dry: Line, marks: Mapping[str, Mark], above: float) -> Iterator[Iterator[Piece]]:
    right, low = max(wet[1][0], dry[1][0]), min(wet[0][1], dry[0][1])
    left, high = -right, -low
    if "thick" in marks:
        yield ways(Linear("thick", marks["thick"], "left", (wet[0], wet[3]), left))
    if "thick_after" in marks:
        yield ways(Linear("thick_after", marks["thick_after"], "right", (dry[1], dry[2]), right))
    if "wide" in marks:
        yield ways(
            Linear(
                "wide",
                marks["wide"],
                "above",
                (wet[3], wet[2]),
                high,
                above - high + ROW_MM - 3.0 * (above > high),
            )
        )
    if "wide_after" in marks:
        yield ways(Linear("wide_after", marks["wide_after"], "below", (dry[0], dry[1]), low))


def _alt(marks: Mapping[str, Mark], times: int) -> str:
    names = {
        "wide": "width before drying", "thick": "thickness before drying", "wide_after": "width after drying",
        "thick_after": "thickness after drying", "rings": "angle of the growth rings to the wide face",
    }  # fmt: skip
    larger = f" The change of size is drawn {times} times as large." if times > 1 else ""
    return f"End grain of a blank, its size before drying in a thin line and after drying in a thick one.{larger} {listed(names, marks)}"
