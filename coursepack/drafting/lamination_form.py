"""A bent lamination: strips glued while bent over a form, the piece after release, and the form at full size.

Both radii are to the middle of the stack, as in the trade's functions. Lengths in mm, the middle of the form's curve
at 0, 0 and its crown straight up. After release the piece is held flush at the left end of the form, so that all of
the spring shows at its right end; the length of the middle of the stack does not change. Plane geometry.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import acos, ceil, cos, dist, radians, sin, sqrt

from coursepack.drafting.check_bars import INCH
from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.sheet import SMALL_MM, Label, Line, Point, Stroke
from coursepack.place import LessonFault
from coursepack.quantity import Quantity
from coursepack.trade import bending

QUARTER_DEG = 90.0
TRUE_MM = 0.005  # of the straight pieces of an arc to the arc
DEEP_MM = 50.0  # of the form behind its curve, for the clamps: common practice
GAUGE_MM = 30.0  # of the check gauge behind its curve
TICK_MM = 8.0  # each way, across the face at both ends of the piece
STRAIGHT_MM, GRAIN_UP_MM = 6.0, 14.0  # from the form's back up to its straight line and to the grain arrow
GRAIN_MM = 30.0
NAME_MM, HALF_NAME_MM = 12.0, 9.0  # from the curve down to the lettering of its radius, and half its length


@dataclass(frozen=True)
class Bend:
    """A stack of strips on its form, in mm and degrees: both radii to the middle of the stack; `trim` past each end.

    Raises LessonFault where the stack is too thick for the form, the piece closes instead of springing open, or the
    bend is no bend.
    """

    form: float
    final: float
    laminations: int
    thin: float
    angle: float = QUARTER_DEG
    trim: float = 0.0

    def __post_init__(self) -> None:
        if self.thin <= 0 or self.trim < 0:
            raise LessonFault("a lamination has no thickness", "give sizes above zero")
        if self.face <= 0:
            raise LessonFault(
                "the stack is too thick for the form", "take a larger radius or a thinner stack"
            )
        if self.final <= self.form:
            raise LessonFault("the piece does not spring open", "give a final radius above the form's")
        if not 0 < self.angle <= 180:
            raise LessonFault(f"a form bends by no {self.angle:g} deg", "stay above 0 and within 180 deg")

    @property
    def stack(self) -> float:
        """Thickness of all laminations."""
        return self.laminations * self.thin

    @property
    def face(self) -> float:
        """Radius that the form is sawn to."""
        return self.form - self.stack / 2

    @property
    def outer(self) -> float:
        """Radius of the stack's outer face on the form."""
        return self.form + self.stack / 2

    @property
    def final_face(self) -> float:
        """Radius of the piece's inner face after release."""
        return self.final - self.stack / 2

    @property
    def arc(self) -> float:
        """Length of the middle of the stack along the bend."""
        return self.form * radians(self.angle)

    @property
    def end(self) -> float:
        """Direction of the right end from the middle of the curve, in degrees clockwise from the crown."""
        return self.angle / 2

    @property
    def after(self) -> float:
        """The bend that is left after release, in degrees."""
        return self.angle * self.form / self.final

    @cached_property
    def centre(self) -> Point:
        """The middle of the piece's curve after release."""
        return self.on(self.form - self.final, -self.end)

    def on(self, radius: float, turn: float) -> Point:
        """Return the point at a radius and a direction in degrees clockwise from the crown."""
        return radius * sin(radians(turn)), radius * cos(radians(turn))

    def released(self, radius: float, turn: float) -> Point:
        """Return the point of the released piece at a radius of its own, so many degrees from its held end."""
        (x, y), (dx, dy) = self.centre, self.on(radius, turn - self.end)
        return x + dx, y + dy

    @property
    def spring(self) -> float:
        """From the inner corner of the free end on the form to where it springs."""
        return dist(self.on(self.face, self.end), self.released(self.final_face, self.after))

    def arc_on(self, radius: float, true: float = TRUE_MM) -> Line:
        """Return the arc over the form at a radius, from its left to its right end, true to so many mm."""
        return tuple(self.on(radius, turn - self.end) for turn in steps(radius, self.angle, true))

    def arc_released(self, radius: float, true: float = TRUE_MM) -> Line:
        """Return an arc of the released piece at a radius of its own, from its held to its free end."""
        return tuple(self.released(radius, turn) for turn in steps(radius, self.after, true))

    def block(self, true: float = TRUE_MM) -> Line:
        """Return the form's closed outline: its curve, straight on past both ends by the trim, and its back."""
        run = (self.trim * cos(radians(self.end)), self.trim * sin(radians(self.end)))
        return _block(self.arc_on(self.face, true), run, DEEP_MM)


def steps(radius: float, angle: float, true: float = TRUE_MM) -> tuple[float, ...]:
    """Return directions in degrees from 0 to an angle, so close that the straight pieces are true to the arc."""
    count = ceil(radians(angle) / (2 * acos(1 - min(true / radius, 1.0))))
    return tuple(angle * number / count for number in range(count + 1))


def _block(curve: Line, run: Point, deep: float) -> Line:
    """Close a curve from left to right below it, its ends going on by a run outward and down."""
    (left, low), (right, _) = curve[0], curve[-1]
    left, right, low = left - run[0], right + run[0], low - run[1]
    ends = ((left, low),), ((right, low),)
    before, past = ends if any(run) else ((), ())
    back = low - deep
    return (*before, *curve, *past, (right, back), (left, back), (before or curve)[0])


def bend_of(sizes: Mapping[str, float]) -> Bend:
    """Return the bend of some sizes; the radius that is missing follows from the springback.

    Raises LessonFault where no radius is given or the springback is given twice, and what Bend raises; TradeFault
    for a number of laminations that is no whole number from 2.
    """
    share = _share(sizes)
    if not {"form_radius", "final"} & sizes.keys():
        raise LessonFault("a bent lamination needs a radius", "give form_radius or final")
    form = sizes["form_radius"] if "form_radius" in sizes else sizes["final"] * (1 - share)
    final = sizes["final"] if "final" in sizes else form / (1 - share)
    count = round(sizes["laminations"])
    angle, trim = sizes.get("angle", QUARTER_DEG), sizes.get("trim", 0.0)
    return Bend(form, final, count, sizes["thin"], angle, trim)


def _share(sizes: Mapping[str, float]) -> float:
    """Return the springback as a share of the curvature: as given, else that of the laminations."""
    elastic = bending.springback(Quantity.of(sizes["laminations"]))
    if "springback" not in sizes:
        return float(elastic.number("%")) / 100
    if {"form_radius", "final"} <= sizes.keys():
        raise LessonFault("both radii tell the springback already", "leave springback or one radius out")
    if not 0 < sizes["springback"] < 100:
        raise LessonFault(f"a springback of {sizes['springback']:g} %", "stay above 0 and below 100 %")
    return sizes["springback"] / 100


# The parts


def lamination_parts(sizes: Sizes) -> tuple[Part, ...]:
    """Return the form and the check gauge of the released piece, at full size; the sizes are those of the figure."""
    bend = bend_of(sizes)
    return _form(bend), _gauge(bend)


def _form(bend: Bend) -> Part:
    outline, outer = bend.block(), bend.arc_on(bend.outer)
    (left, back), (right, _) = outline[-2], outline[-3]
    aside, half = left / 2, min(GRAIN_MM, (right - left) / 8)
    return Part(
        "bending form",
        (outline,),
        (Stroke("dimension", tuple(_ticks(bend))), Stroke("hidden", (outer,))),
        tuple(_radius(bend.face, bend.end)),
        ((aside - half, back + GRAIN_UP_MM), (aside + half, back + GRAIN_UP_MM)),
        ((left, back + STRAIGHT_MM), (right, back + STRAIGHT_MM)),
        "Saw outside the line of the face, then trim to it until half of the line is left.",
        tuple(_notes(bend)),
    )


def _ticks(bend: Bend) -> Iterator[Line]:
    """Yield a line across the stack at both ends of the piece, and a short one across the face at its crown."""
    inner = max(bend.face - TICK_MM, 0.0)
    for turn, outer in ((-bend.end, bend.outer), (0.0, bend.face), (bend.end, bend.outer)):
        yield bend.on(inner, turn), bend.on(outer + TICK_MM, turn)


def _notes(bend: Bend) -> Iterator[str]:
    yield f"to the middle of the stack: form radius {_long(bend.form)}, after release {_long(bend.final)}"
    yield f"{bend.laminations} laminations of {_long(bend.thin)}, together {_long(bend.stack)}"
    yield f"bend {bend.angle:.2f}° on the form, {bend.after:.2f}° after release; arc {_long(bend.arc)}"
    yield "ticks stand at both ends of the piece and at its crown; dashed: outer face of the stack"


def _gauge(bend: Bend) -> Part:
    """Draw the gauge that fills the inner face of the released piece from end to end."""
    half = bend.after / 2
    curve = tuple(bend.on(bend.final_face, turn - half) for turn in steps(bend.final_face, bend.after))
    outline = _block(curve, (0.0, 0.0), GAUGE_MM)
    (left, back), (right, _) = outline[-2], outline[-3]
    return Part(
        "check gauge after release",
        (outline,),
        labels=tuple(_radius(bend.final_face, half)),
        straight=((left, back + STRAIGHT_MM), (right, back + STRAIGHT_MM)),
        notes=(f"the gauge fills the inner face of the released piece: radius {_long(bend.final_face)}",),
    )


def _radius(radius: float, end: float) -> Iterator[Label]:
    """Yield the radius of a curve on both sides of its crown, clear of ticks and joints; none where it is too short."""
    edge = radius * sin(radians(end))
    aside = max(edge / 2, HALF_NAME_MM + 1)
    if edge < aside + HALF_NAME_MM:
        return
    high = sqrt(radius**2 - (aside + HALF_NAME_MM) ** 2)
    for side, text in ((-1, f"R {radius:.2f} mm"), (1, f"R {radius / INCH:.3f} in")):
        yield Label(text, side * aside, high - NAME_MM - MIDDLE_EM * SMALL_MM, size_mm=SMALL_MM)


def _long(mm: float) -> str:
    return f"{mm:.2f} mm ({mm / INCH:.3f} in)"
