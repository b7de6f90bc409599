"""A blank's end grain before and after drying."""

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from math import dist

from coursepack.drafting.dimension import ARROW_MM, Linear, Side, Spacing, arrowhead
from coursepack.drafting.label import centred, label_box, label_start
from coursepack.drafting.lettering import width_em
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.placing import ways
from coursepack.drafting.rings import growth_rings
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout, NoRoom, around
from coursepack.drafting.sheet import Box, Drawing, Frame, Label, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed
from coursepack.trade.outline import rectangle, shrunk

TIMES = (1, 2, 5, 10, 20, 50)
SEEN_MM = 2.0  # on paper: a smaller change is drawn larger
MOST_PART = 0.3  # and never more than this part of either size
WORD = "rings"
BETWEEN_MM = 0.9
NOTE_GAP_MM = 3.0
TALLEST_MM = 100.0  # of a blank turned up its column
# where each size is measured: on a level blank, and on one that is turned up the column
SIDES: dict[str, tuple[Side, Side]] = {
    "thick": ("left", "above"), "thick_after": ("right", "below"),
    "wide": ("above", "left"), "wide_after": ("below", "right"),
}  # fmt: skip


def end_grain(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a blank's end wet (thin) and dried (thick), its change drawn larger where it would not be seen.

    Sizes in mm, degrees and counts: wide, thick, wide_after, thick_after, rings (0 flat-grained, 90 edge-grained);
    times, how many times as large the change is drawn, so that figures can be compared. Raises LessonFault where it does not fit, or a dimension is asked that it does not have.
    """
    refuse_missing("end grain", marks, grain_measure(sizes))
    change = "shrinkage" if sizes["wide_after"] <= sizes["wide"] else "swelling"

    def note(scale: Fraction) -> str:
        times = drawn_times(sizes, float(scale))
        return f"{change} drawn {times} times as large" if times > 1 else ""

    def draft(scale: float, room: Frame, spacing: Spacing) -> Piece:
        with suppress(NoRoom):
            return _draft(_ends(sizes, scale, turned=False), sizes["rings"], marks, room, spacing)
        if sizes["wide"] * scale > TALLEST_MM:
            raise NoRoom
        return _draft(_ends(sizes, scale, turned=True), sizes["rings"] + 90.0, marks, room, spacing)

    fitted = at_scale("end grain", draft, frame, sizes["wide"], note)
    times = drawn_times(sizes, float(fitted.scale))
    return finished("End grain", fitted, frame, _alt(marks, times), note)


def grain_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm or degrees."""
    return {name: sizes[name] for name in ("wide", "thick", "wide_after", "thick_after", "rings")}


def drawn_times(sizes: Mapping[str, float], scale: float) -> int:
    """How many times as large the change of size is drawn at a scale: as given, else 1 where it shows as it is.

    It is one of TIMES, and no more than the section bears.
    """
    changes = {name: abs(sizes[name] - sizes[f"{name}_after"]) for name in ("wide", "thick")}
    largest = max(changes.values())
    if largest == 0:
        return 1
    seen = next((times for times in TIMES if times * largest * scale >= SEEN_MM), TIMES[-1])
    wanted = sizes.get("times", seen)
    most = min(MOST_PART * sizes[name] / change for name, change in changes.items() if change)
    return max(times for times in TIMES if times == 1 or times <= min(wanted, most))


@dataclass(frozen=True)
class Ends:
    """The end of a blank on paper in mm, wet and dried, level or turned up the column."""

    wet: Line
    dry: Line
    turned: bool

    @property
    def reach(self) -> Point:
        """How far the larger of the two reaches from the middle, along and up."""
        return max(self.wet[2][0], self.dry[2][0]), max(self.wet[2][1], self.dry[2][1])


def _ends(sizes: Mapping[str, float], scale: float, *, turned: bool) -> Ends:
    times = drawn_times(sizes, scale)
    names = ("thick", "wide") if turned else ("wide", "thick")
    across, up = (sizes[name] * scale for name in names)
    less, lower = (shrunk(sizes[name], sizes[f"{name}_after"], times) * scale for name in names)
    wet, dry = rectangle(across, up), rectangle(less, lower)
    return Ends(wet, dry, turned)


def _draft(ends: Ends, rings: float, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    wet, dry = ends.wet, ends.dry
    piece = Piece((Stroke("outline", ((*dry, dry[0]),)), Stroke("thin", ((*wet, wet[0]),))))
    if "rings" in marks:
        piece += _ring_note(marks["rings"], ends.reach[1], dry, spacing.letter)
    beside = ("wide", "wide_after") if ends.turned else ("thick", "thick_after")
    layout = Layout(piece, room, spacing.beside(*(name in marks for name in beside)))
    note = around([label_box(label) for label in piece.labels]) if piece.labels else layout.box
    for choices in _dimensions(ends, marks, note, spacing):
        layout.settle(choices)
    return layout.piece + Piece((growth_rings(dry, rings, 0.7),))


def _ring_note(mark: Mark, high: float, dry: Line, letter: float) -> Piece:
    """Letter the rings' angle over the middle of the blank, with an arrow to a ring."""
    size = label_box(centred(mark, (0, 0), letter))
    word = width_em(WORD) * letter
    y = high + NOTE_GAP_MM + size.height / 2
    left = -(word + BETWEEN_MM + size.width) / 2
    label = centred(mark, (left + word + BETWEEN_MM + size.width / 2, y), letter, "rings")
    words = Label(WORD, left, label_start(label)[1], "left", size_mm=letter)
    tip = (0.0, dry[2][1] - min(ARROW_MM + 0.5, (dry[2][1] - dry[1][1]) / 2))
    foot = (0.0, high + NOTE_GAP_MM - 0.5)
    return Piece((Stroke("dimension", ((foot, tip),)),), (arrowhead(tip, (0, -1), "rings"),), (words, label))


def _dimensions(
    ends: Ends, marks: Mapping[str, Mark], note: Box, spacing: Spacing
) -> Iterator[Iterator[Choice]]:
    """Give the ways of each dimension, the shorter first: it stands inside the longer."""
    lengths = {name: _length(ends, name) for name in SIDES if name in marks}
    for name in sorted(lengths, key=lengths.__getitem__):
        side = SIDES[name][ends.turned]
        if side == "above" and note.top > ends.reach[1] and note.width > 2 * ends.reach[0]:
            side = "below"  # its extension lines would run through the note on the rings
        across = ends.reach[side in {"above", "below"}] * (-1 if side in {"left", "below"} else 1)
        over = note.top - ends.reach[1] if side == "above" else 0.0
        first = over + spacing.row - NOTE_GAP_MM * (over > 0)
        corners = _corners(ends, name, side)
        yield ways(Linear(name, marks[name], side, corners, across, spacing, first, sideways=ends.turned))


def _corners(ends: Ends, name: str, side: Side) -> tuple[Point, Point]:
    """Give the two corners that a size is measured between on a side."""
    outline = ends.dry if name.endswith("_after") else ends.wet
    first = {"below": 0, "right": 1, "above": 2, "left": 3}[side]
    return outline[first], outline[(first + 1) % 4]


def _length(ends: Ends, name: str) -> float:
    return dist(*_corners(ends, name, SIDES[name][ends.turned]))


def _alt(marks: Mapping[str, Mark], times: int) -> str:
    names = {
        "wide": "width before drying", "thick": "thickness before drying", "wide_after": "width after drying",
        "thick_after": "thickness after drying", "rings": "angle of the growth rings to the wide face",
    }  # fmt: skip
    larger = f" The change of size is drawn {times} times as large." if times > 1 else ""
    drawn = "End grain of a blank, its size before drying in a thin line and after drying in a thick one."
    return f"{drawn}{larger} {listed(names, marks)}"
