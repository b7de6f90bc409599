"""A board's face and edge side by side, standing on end: its grain, and a check line along it on each."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from itertools import count

from coursepack.drafting.breaking import TOOTH_MM, torn
from coursepack.drafting.dimension import GAP_MM, OVERRUN_MM, Linear, Side, Spacing
from coursepack.drafting.label import centred, label_box
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.placing import STAND_OFF_MM, ways
from coursepack.drafting.rings import SPACINGS_MM
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import SMALL_MM, Drawing, Frame, Label, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault

PAST_MM = 7.0  # on paper, of board beyond either end of the check lines, before it is broken off
TALLEST_MM = 110.0  # on paper, of the run
BETWEEN_MM = 9.0  # from the face to the edge, at least: the run of both is lettered there
NAME_GAP_MM = 3.6
NOTE = "check lines black, grain gray"


def grain_slope(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a board's face and edge over the run of its check lines, both ends of the board broken off.

    Sizes in mm: run along the board, wide (of the face), thick (of the edge), rise_face and rise_edge, how far
    the check line moves across each over the run. Raises LessonFault where it does not fit, a check line leaves
    the board, or a dimension is asked that this figure does not have.
    """
    refuse_missing("grain slope", marks, slope_measure(sizes))
    for name, side in (("rise_face", "wide"), ("rise_edge", "thick")):
        if not 0 <= sizes[name] <= sizes[side]:
            raise LessonFault(
                f"the check line with '{name}' leaves the board", f"give it zero to its '{side}'"
            )
    fitted = at_scale(
        "grain slope",
        lambda by, room, spacing: _draft(sizes, marks, by, room, spacing),
        frame,
        sizes["run"],
        lambda _: NOTE,
    )
    return finished("Slope of grain", fitted, frame, _alt(marks), lambda _: NOTE)


def slope_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm."""
    return {name: sizes[name] for name in ("run", "wide", "thick", "rise_face", "rise_edge")}


@dataclass(frozen=True)
class View:
    """The face or the edge on paper in mm: where it begins, how far it goes across, its check line."""

    left: float
    across: float
    rise: float
    run: float

    @property
    def right(self) -> float:
        """Where it ends."""
        return self.left + self.across

    @property
    def foot(self) -> Point:
        """The low end of its check line, which stands in the middle of the view."""
        return self.left + (self.across - self.rise) / 2, 0.0

    @property
    def tip(self) -> Point:
        """The high end of its check line."""
        return self.foot[0] + self.rise, self.run

    @property
    def plumb(self) -> Point:
        """The point over the foot, level with the tip: a line to it runs with the board."""
        return self.foot[0], self.run


def _draft(
    sizes: Mapping[str, float], marks: Mapping[str, Mark], scale: float, room: Frame, spacing: Spacing
) -> Piece:
    run = sizes["run"] * scale
    if run > TALLEST_MM:
        raise NoRoom
    face = View(0.0, sizes["wide"] * scale, sizes["rise_face"] * scale, run)
    between = _between(marks, spacing)
    edge = View(face.right + between, sizes["thick"] * scale, sizes["rise_edge"] * scale, run)
    layout = Layout(_board(face) + _board(edge), room)
    if "run" in marks:
        layout.settle(_run(face, edge, marks["run"], spacing))
    for choices in _dimensions(face, edge, marks, spacing):
        layout.settle(choices)
    under = layout.box.bottom - NAME_GAP_MM
    names = tuple(
        Label(name, (view.left + view.right) / 2, under, size_mm=SMALL_MM)
        for name, view in (("FACE", face), ("EDGE", edge))
    )
    return layout.piece + Piece((Stroke("ring", (*_grain(face), *_grain(edge))),), (), names)


def _between(marks: Mapping[str, Mark], spacing: Spacing) -> float:
    """Give the room from the face to the edge in mm: enough for the lettering of the run."""
    if "run" not in marks:
        return BETWEEN_MM
    lettered = label_box(centred(marks["run"], (0, 0), spacing.letter))
    return max(BETWEEN_MM, lettered.width + 2 * STAND_OFF_MM)


def _run(face: View, edge: View, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of the run, halfway between the check lines that share it."""
    middle = (edge.left - face.right) / 2
    for choice in ways(Linear("run", mark, "right", (face.foot, face.tip), face.right, spacing, middle), 1):
        yield choice._replace(drawn=partial(_shared, choice.drawn, edge, face.right + middle + OVERRUN_MM))


def _shared(drawn: Callable[[], Piece], edge: View, start: float) -> Piece:
    lines = tuple(((start, y), (x - GAP_MM, y)) for x, y in (edge.foot, edge.plumb))
    return drawn() + Piece((Stroke("dimension", lines),))


def _board(view: View) -> Piece:
    low, high = -PAST_MM, view.run + PAST_MM
    sides = tuple(((x, low), (x, high)) for x in (view.left, view.right))
    return Piece(
        (
            Stroke("outline", sides),
            Stroke("thin", (*_breaks(view, low, high), (view.foot, view.tip))),
            Stroke("centre", ((view.foot, view.plumb),)),
        )
    )


def _breaks(view: View, *levels: float) -> Iterator[Line]:
    """Yield the lines where a view is broken off at some levels, from side to side of the board."""
    for y in levels:
        yield torn((view.left, y), (view.left + view.across, y))


def _grain(view: View) -> Iterator[Line]:
    """Give the grain of a view: lines beside its check line, in its direction, to the sides and the breaks."""
    lean, (start, _) = view.rise / view.run, view.foot
    low, high = TOOTH_MM - PAST_MM, view.run + PAST_MM - TOOTH_MM
    beyond = (low, -TOOTH_MM), (view.run + TOOTH_MM, high)
    yield from filter(None, (_within(view, start, lean, part) for part in beyond))
    for way in (-1, 1):
        at = start
        for turn in count():
            at += way * SPACINGS_MM[turn % len(SPACINGS_MM)]
            line = _within(view, at, lean, (low, high))
            if not line:
                break
            yield line


def _within(view: View, at: float, lean: float, ends: tuple[float, float]) -> Line:
    """Give the part of a leaning line, at a place where y is 0, that lies inside a view and between two heights."""
    low, high = ends
    if lean > 0:
        low, high = max(low, (view.left - at) / lean), min(high, (view.right - at) / lean)
    elif not view.left < at < view.right:
        return ()
    return ((at + lean * low, low), (at + lean * high, high)) if low < high else ()


def _dimensions(
    face: View, edge: View, marks: Mapping[str, Mark], spacing: Spacing
) -> Iterator[Iterator[Choice]]:
    top, low = face.run + PAST_MM + TOOTH_MM, -PAST_MM - TOOTH_MM
    corners = {view: ((view.left, -PAST_MM), (view.right, -PAST_MM)) for view in (face, edge)}
    places: dict[str, tuple[Side, tuple[Point, Point], float]] = {
        "rise_face": ("above", (face.plumb, face.tip), top),
        "rise_edge": ("above", (edge.plumb, edge.tip), top),
        "wide": ("below", corners[face], low),
        "thick": ("below", corners[edge], low),
    }
    for name, (side, ends, line) in places.items():
        if name in marks:
            yield ways(Linear(name, marks[name], side, ends, line, spacing))


def _alt(marks: Mapping[str, Mark]) -> str:
    names = {
        "run": "run of both check lines along the board",
        "rise_face": "rise of the check line across the face",
        "rise_edge": "rise of the check line across the edge", "wide": "width of the face",
        "thick": "thickness, the width of the edge",
    }  # fmt: skip
    board = "A board's face and its edge beside it, standing on end"
    return f"{board}, with a check line along the grain on each. {listed(names, marks)}"
