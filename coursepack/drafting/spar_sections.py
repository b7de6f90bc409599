"""What the sections of routed and box spars share: their outlines on paper, a bolt hole, names, parts to cut."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cached_property
from itertools import chain

from coursepack.drafting.dimension import Linear, Side, Spacing
from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.part import box_of
from coursepack.drafting.placing import ways
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import SMALL_MM, Box, Frame, Label, Line, Mark, Piece, Point, Stroke
from coursepack.place import LessonFault
from coursepack.quantity import Quantity
from coursepack.trade.section import Section, drilled

NAME_GAP_MM = 2.2
NAMES_APART_MM = 10.5  # so that FRONT and REAR do not run together over a thin spar
CENTRE_PAST_MM = 2.0  # of the bolt's centre line, beyond either face
HOLE_NOTE = "cut through the bolt hole"

Place = tuple[Side, tuple[Point, Point]]  # where a height is measured: its side of the section, its ends
Heights = Mapping[str, tuple[Place, ...]]  # the places that each height can take, the best first


@dataclass(frozen=True)
class SparView:
    """A section enlarged `by` a number of times, and what is left of it where a bolt goes through."""

    whole: Section
    cut: Section
    by: float = 1.0
    hole: tuple[float, float] | None = None  # the levels between which it is open, in mm of the part

    @cached_property
    def outlines(self) -> tuple[Line, ...]:
        """Each outline of the section without its hole, part by part, first corner not repeated."""
        return _enlarged(self.whole.outlines_mm(), self.by)

    @cached_property
    def wood(self) -> tuple[tuple[Line, ...], ...]:
        """The outlines of each part that are left where the hole is."""
        ends = [len(part.outlines) for part in self.cut.parts]
        lines = _enlarged(self.cut.outlines_mm(), self.by)
        starts = [sum(ends[:number]) for number in range(len(ends))]
        return tuple(lines[start : start + size] for start, size in zip(starts, ends, strict=True))

    @cached_property
    def box(self) -> Box:
        """The room of the section."""
        return box_of(point for line in self.outlines for point in line)

    @cached_property
    def hole_lines(self) -> tuple[Line, ...]:
        """The walls of the hole in every piece that it goes through, the lower ones first."""
        levels = () if self.hole is None else tuple(level * self.by for level in self.hole)
        lines = [line for part in self.wood for line in part]
        return tuple(
            wall for level in levels for line in lines for wall in _sides(line) if _is_level(wall, level)
        )

    @property
    def strokes(self) -> tuple[Stroke, ...]:
        """Its outlines thick, closed, with the walls of the hole; the middle of the bolt."""
        outlines = tuple((*line, line[0]) for line in self.outlines)
        return Stroke("outline", (*outlines, *self.hole_lines)), Stroke("centre", self.bolt)

    @property
    def bolt(self) -> tuple[Line, ...]:
        """The middle line of the bolt, past both faces; none without a hole."""
        if self.hole is None:
            return ()
        y = sum(self.hole) / 2 * self.by
        return (((self.box.left - CENTRE_PAST_MM, y), (self.box.right + CENTRE_PAST_MM, y)),)


def viewed(whole: Section, sizes: Mapping[str, float], by: float = 1.0) -> SparView:
    """Return a section as it is drawn, with a bolt hole where `hole` and `hole_height` give one in mm.

    Raises LessonFault where only one of the two is given, or the hole is not inside the section.
    """
    given = {"hole", "hole_height"} & sizes.keys()
    if not given:
        return SparView(whole, whole, by)
    if len(given) == 1:
        raise LessonFault(f"the bolt hole has only its '{given.pop()}'", "give hole and hole_height")
    half, middle = sizes["hole"] / 2, sizes["hole_height"]
    cut = drilled(whole, mm(sizes["hole"]), mm(middle))
    return SparView(whole, cut, by, (middle - half, middle + half))


def hole_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true sizes of a bolt hole in mm, where there is one."""
    return {name: sizes[name] for name in ("hole", "hole_height") if name in sizes}


def _hole_heights(view: SparView) -> Heights:
    """Give where a hole is measured: its middle from the lower front corner, its diameter at the rear or the front."""
    if view.hole is None:
        return {}
    low, high = (level * view.by for level in view.hole)
    xs = [x for wall in view.hole_lines for x, _ in wall]
    return {
        "hole_height": (("left", ((0.0, 0.0), (-CENTRE_PAST_MM, (low + high) / 2))),),
        "hole": (
            ("right", ((max(xs), low), (max(xs), high))),
            ("left", ((min(xs), low), (min(xs), high))),
        ),
    }


def height_ways(
    view: SparView, heights: Heights, marks: Mapping[str, Mark], spacing: Spacing, *, holes_last: bool
) -> Iterator[Iterator[Choice]]:
    """Give the ways of each height that is marked, in the order given; those of the hole before or after them."""
    lines = {"left": view.box.left, "right": view.box.right}
    groups = (_hole_heights(view), heights)
    for name, places in chain.from_iterable(group.items() for group in groups[:: -1 if holes_last else 1]):
        if name in marks:
            dims = (
                Linear(name, marks[name], side, ends, lines[side], spacing, low_first=name != "flange")
                for side, ends in places
            )
            yield chain.from_iterable(ways(dim) for dim in dims)


def settled(piece: Piece, room: Frame, beside: float, orders: Iterable[Iterable[Iterable[Choice]]]) -> Piece:
    """Lay out a figure with its dimensions, in the first order in which each finds room. Raises NoRoom in none."""
    for order in orders:
        with suppress(NoRoom):
            layout = Layout(piece, room, beside)
            for choices in order:
                layout.settle(choices)
            return layout.piece
    raise NoRoom


def mm(size: float) -> Quantity:
    """Return a length of a figure as a quantity."""
    return Quantity.of(size, "mm")


def hole_note(sizes: Mapping[str, float]) -> Callable[[object], str]:
    """Return what is said under the figure at any scale: that it is cut through the hole, if there is one."""
    note = HOLE_NOTE if "hole" in sizes else ""
    return lambda _: note


def face_names(width: float, high: float) -> tuple[Label, ...]:
    """Letter the front and the rear over a section."""
    apart, y = max(0.0, NAMES_APART_MM - width) / 2, high + NAME_GAP_MM
    return Label("FRONT", -apart, y), Label("REAR", width + apart, y)


def face_labels(width: float, middle: float) -> tuple[Label, ...]:
    """Letter the front and the rear along the faces of a part at full size."""
    right = width + 1.4 + 2 * MIDDLE_EM * SMALL_MM
    return (
        Label("FRONT", -1.4, middle, "centre", 90, size_mm=SMALL_MM),
        Label("REAR", right, middle, "centre", 90, size_mm=SMALL_MM),
    )


def hole_guides(view: SparView) -> tuple[Stroke, ...]:
    """Return the hole as it is drawn on a part at full size, and not cut."""
    return (Stroke("thin", view.hole_lines), Stroke("centre", view.bolt)) if view.hole else ()


def _enlarged(lines: Sequence[Line], by: float) -> tuple[Line, ...]:
    return tuple(tuple((x * by, y * by) for x, y in line) for line in lines)


def _sides(line: Line) -> Iterator[Line]:
    return zip(line, (*line[1:], line[0]), strict=True)


def _is_level(side: Line, level: float) -> bool:
    return all(abs(y - level) < 1e-6 for _, y in side)
