"""A scroll saw from above: how far the work reaches round the blade, and the throat that it must swing in.

The work can be swung right round the blade only where its farthest point stays nearer than the frame. While a hole
is sawn, the blade stands on the hole's line; the farthest point is then the hole's radius farther away than the
work's farthest corner is from the middle of the hole. Plane geometry. The tightest turn of a blade is 8 times its
width: NAVEDTRA 14043, Builder 3 & 2, volume 1, chapter 3, a practical limit for band saws.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from math import hypot

from coursepack.drafting.clearance import crosses
from coursepack.drafting.dimension import Linear, Side, Spacing
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.nose_shape import circle
from coursepack.drafting.oblique import Oblique, across, oblique_ways
from coursepack.drafting.placing import ways
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout
from coursepack.drafting.sheet import (
    SMALL_MM,
    Box,
    Drawing,
    Frame,
    Label,
    Line,
    LineKind,
    Mark,
    Piece,
    Point,
    Stroke,
)
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.quantity import Quantity
from coursepack.trade.machines import tightest_radius

FRAME_MM = 7.0  # on paper: half the width of the frame
DEEP_MM = 6.0  # on paper: how much of the frame is drawn behind the throat
NAME_MM = 2.4  # on paper, from the frame's face to the foot of its name
BLADE_MM = 1.2  # on paper: half of the stroke that marks the blade
FAN = range(17, 32)  # of the circle's 96 pieces: the part of the work's reach that is drawn
TURNS = (225, 210, 240, 195, 255, 180, 270, 165, 150)  # degrees, from the middle of the turn to its arrow
UPRIGHT = ("throat", "reach", "spare")  # dimensions beside the work
WELL_APART_MM = 1.5  # on paper: lettering from other lettering and lines, and leaders from lettering
NEAR = 1.5  # times the hole's radius: how far the work goes on past the hole on its near sides


@dataclass(frozen=True)
class Reach:
    """The work on the saw, in mm: throat, hole, and from its middle along and across to the farthest corner; the blade.

    `blade` is the blade's width, 0 where it does not matter. Raises LessonFault for a corner inside the
    hole and for work that hits the frame.
    """

    throat: float
    hole: float
    along: float
    across: float
    blade: float = 0.0

    def __post_init__(self) -> None:
        if min(self.along, self.across) <= self.hole / 2:
            raise LessonFault(
                "the hole reaches the edge of the work", "give 'along' and 'across' from its middle"
            )
        if self.reach >= self.throat:
            raise LessonFault(
                f"the work reaches {self.reach:.4g} mm, and the throat is {self.throat:.4g} mm",
                "take a shorter piece of work",
            )

    @property
    def corner(self) -> float:
        """From the hole's middle to the farthest corner."""
        return hypot(self.along, self.across)

    @property
    def reach(self) -> float:
        """From the blade on the hole's line to the farthest corner."""
        return self.corner + self.hole / 2

    @property
    def radius(self) -> float:
        """Radius of the tightest turn of the blade, 0 without a blade."""
        return float(tightest_radius(Quantity.of(self.blade, "mm")).number("mm")) if self.blade else 0.0

    @property
    def work(self) -> Line:
        """The closed outline of the work, the blade at 0, 0 and the farthest corner straight behind it."""
        near = NEAR * self.hole / 2
        left, low = -min(self.along, near), -min(self.across, near)
        corners = (
            (self.along, self.across),
            (left, self.across),
            (left, low),
            (self.along, low),
            (self.along, self.across),
        )
        return tuple(self.turned(corner) for corner in corners)

    def turned(self, point: Point) -> Point:
        """Turn a point, seen from the hole's middle, so that the corner lies straight behind the blade."""
        cos, sin = self.across / self.corner, self.along / self.corner
        x, y = point
        return x * cos - y * sin, x * sin + y * cos + self.hole / 2


def saw_reach(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw the work on a scroll saw from above, the frame at the rear, at the largest scale that fits.

    Sizes in mm: throat, from the blade to the frame; hole, the diameter that is sawn; along and across, from its middle
    to the farthest corner of the work; blade, its width, where its tightest turn is to be seen. Raises LessonFault
    where it does not fit, the work hits the frame, or a dimension is asked that it does not have.
    """
    refuse_missing("saw", marks, saw_reach_measure(sizes))
    reach = _reach_of(sizes)
    fitted = at_scale(
        "saw reach",
        lambda by, room, spacing: _draft(reach, by, marks, room, spacing),
        frame,
        max(reach.throat, reach.reach),
    )
    return finished("Saw reach", fitted, frame, _alt(reach, marks))


def saw_reach_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm; spare is what the throat has left behind the work."""
    reach = _reach_of(sizes)
    true = {name: sizes[name] for name in ("throat", "hole", "along", "across")}
    true |= {"reach": reach.reach, "spare": reach.throat - reach.reach}
    return true | ({"radius": reach.radius} if reach.blade else {})


def _reach_of(sizes: Mapping[str, float]) -> Reach:
    throat, hole, along, across = (sizes[name] for name in ("throat", "hole", "along", "across"))
    return Reach(throat, hole, along, across, sizes.get("blade", 0.0))


def _draft(reach: Reach, scale: float, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    layout = Layout(_view(reach, scale), room)
    for upright in _linear(reach, scale, marks, spacing):
        layout.settle(ways(upright))
    xs = {fill.polygon[0][0] for fill in layout.piece.fills if fill.of in UPRIGHT}
    lines = [Box(x, 0.0, x, reach.throat * scale).grown(WELL_APART_MM) for x in xs]
    for dim in _oblique(reach, scale, marks, spacing):
        layout.settle(_clear_of(lines, partial(oblique_ways, dim)))
    if "radius" in marks:
        turn = (-reach.radius * scale, 0.0), reach.radius * scale
        of_radius = partial(across, "radius", marks["radius"], turn, spacing, TURNS, start=0)
        layout.settle(_clear_of(lines, of_radius))
    return layout.piece


def _clear_of(lines: list[Box], ways: Callable[[], Iterator[Choice]]) -> Iterator[Choice]:
    """Give the ways whose lettering stands well apart, and no leader meets an upright dimension line.

    A leader that met such a line would seem to belong to it. Where none has room, any that stands apart; then all.
    """
    for choice in ways():
        if not any(_reaches(choice, line) for line in lines):
            yield choice._replace(apart=WELL_APART_MM)
    yield from (choice._replace(apart=WELL_APART_MM) for choice in ways())
    yield from ways()


def _reaches(choice: Choice, line: Box) -> bool:
    """Whether a dimension would reach an upright line: its lettering stands past that, unless all of it lies below."""
    past = choice.room.right > line.left if line.left > 0 else choice.room.left < line.right
    return past and (
        choice.room.top > line.bottom
        or any(crosses(each, line) for stroke in choice.drawn().strokes for each in stroke.lines)
    )


def _view(reach: Reach, scale: float) -> Piece:
    """Draw frame, blade, work and the circle that the work swings in, without any dimension."""
    hole = circle((0.0, reach.hole / 2), reach.hole / 2)
    fan = circle((0.0, 0.0), reach.reach)[FAN.start : FAN.stop]
    turn = (circle((-reach.radius, 0.0), reach.radius),) if reach.blade else ()
    return Piece(
        (
            _stroke("outline", scale, reach.work, hole),
            _stroke("hidden", scale, fan),
            _stroke("thin", scale, *turn),
            Stroke("outline", (_frame(reach.throat * scale), ((0.0, -BLADE_MM), (0.0, BLADE_MM)))),
        ),
        labels=(Label("FRAME", 0.0, reach.throat * scale + NAME_MM, size_mm=SMALL_MM),),
    )


def _stroke(kind: LineKind, scale: float, *lines: Line) -> Stroke:
    return Stroke(kind, tuple(tuple((x * scale, y * scale) for x, y in line) for line in lines))


def _frame(face: float) -> Line:
    """Draw the frame on paper, open where it goes on to the rear."""
    rear = face + DEEP_MM
    return (-FRAME_MM, rear), (-FRAME_MM, face), (FRAME_MM, face), (FRAME_MM, rear)


def _oblique(reach: Reach, scale: float, marks: Mapping[str, Mark], spacing: Spacing) -> Iterator[Oblique]:
    """Lay out what is measured on the work from the hole's middle, along its edges."""
    for name, foot in (("along", (reach.along, 0.0)), ("across", (0.0, reach.across))):
        if name in marks:
            ends = [(x * scale, y * scale) for x, y in (reach.turned((0.0, 0.0)), reach.turned(foot))]
            yield Oblique(name, marks[name], (ends[0], ends[1]), spacing)


def _linear(reach: Reach, scale: float, marks: Mapping[str, Mark], spacing: Spacing) -> Iterator[Linear]:
    """Lay out the throat on the left, reach and what the throat has left on the right, the hole below."""
    half = FRAME_MM / scale
    xs, ys = zip(*reach.work, strict=True)
    left, right, low = min(*xs, -half), max(*xs, half), min(ys)
    radius = reach.hole / 2
    places: dict[str, tuple[Side, tuple[Point, Point], float]] = {
        "reach": ("right", ((0.0, 0.0), (0.0, reach.reach)), right),
        "spare": ("right", ((0.0, reach.reach), (half, reach.throat)), right),
        "throat": ("left", ((0.0, 0.0), (-half, reach.throat)), left),
        "hole": ("below", ((-radius, radius), (radius, radius)), low),
    }
    for name, (side, ends, line) in places.items():
        if name in marks:
            one, other = ((x * scale, y * scale) for x, y in ends)
            yield Linear(name, marks[name], side, (one, other), line * scale, spacing)


def _alt(reach: Reach, marks: Mapping[str, Mark]) -> str:
    names = {
        "throat": "throat, from the blade to the frame",
        "along": "from the hole's middle along the work to its far end",
        "across": "from the hole's middle across the work to its farther edge",
        "hole": "diameter of the hole",
        "reach": "from the blade to the work's farthest corner",
        "spare": "what the throat has left behind the work",
        "radius": "radius of the blade's tightest turn",
    }
    turn = ", and the tightest turn of its blade" if reach.blade else ""
    return (
        "A scroll saw from above. The blade stands on the line of a hole in the work, and the work is swung so that "
        f"its farthest corner points to the frame{turn}. {listed(names, marks)}"
    )
