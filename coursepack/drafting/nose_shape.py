"""A nose rib: the part of a wing rib ahead of the front spar, with its lightening hole and the saw's way into it.

Lengths in mm run aft from the leading edge, heights upward from the datum of the wing section. Where a capstrip or
a skin comes over the rib, it is sawn by so much inside the contour, measured square to it. The blade is threaded
through a starting hole, halfway from the middle of the lightening hole to its line, and comes up to the line on an
arc that touches it: three quarters of the hole's radius, plane geometry.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import cos, dist, pi, sin

from coursepack.drafting.part import Sizes
from coursepack.drafting.sheet import Line, Point
from coursepack.place import LessonFault
from coursepack.trade.contour import Airfoil, contour_mm, run_mm
from coursepack.trade.inset import cut_at, inset, unfolded

STEPS = 96  # straight pieces of a circle
TRUE_MM = 0.005  # of the contour's straight pieces to the section, where the sawn line is laid out from them
PAST = 3.0  # times the capstrip, that the contour is followed beyond the spar's face


@dataclass(frozen=True)
class NoseRib:
    """A nose rib in mm: section, chord, its length to the spar, and the lightening hole with its starting hole.

    `start` is 0 where there is no starting hole; `capstrip` is the thickness that comes over the sawn line, 0 where
    the contour is sawn. Raises LessonFault where the hole does not lie in the wood, the starting hole not in the
    hole, or the capstrips leave no wood, and TradeFault for a chord or a length that the section cannot have.
    """

    section: Airfoil
    chord: float
    length: float
    hole: float
    middle: Point
    start: float = 0.0
    capstrip: float = 0.0

    def __post_init__(self) -> None:
        if self.capstrip < 0:
            raise LessonFault("the capstrip is thinner than nothing", "give it a thickness above zero")
        if not 0 < self.middle[0] < self.length or self.edge <= 0:
            raise LessonFault(
                "the lightening hole cuts the contour or the spar's face", "make it smaller or move it"
            )
        if self.start >= self.radius:
            raise LessonFault("the starting hole reaches the line", "drill it smaller than half of the hole")

    @property
    def radius(self) -> float:
        """Radius of the lightening hole."""
        return self.hole / 2

    @cached_property
    def contour(self) -> Line:
        """The closed contour: from the spar's face over the nose, and back up the face."""
        spots = ("upper", self.length), ("lower", self.length)
        around = run_mm(self.section, self.chord, *spots)
        return (*around, around[0])

    @cached_property
    def sawn(self) -> Line:
        """The closed line to saw: the contour, or where capstrips come over it, their inner line."""
        if not self.capstrip:
            return self.contour
        past = max(self.length, min(self.chord, self.length + PAST * self.capstrip))
        around = run_mm(self.section, self.chord, ("upper", past), ("lower", past), TRUE_MM)
        inside = cut_at(inset(around, self.capstrip), self.length)
        if inside[0][1] <= inside[-1][1]:
            raise LessonFault(
                f"two capstrips of {self.capstrip:g} mm leave no wood at the spar", "take thinner capstrips"
            )
        line = unfolded(inside)
        return (*line, line[0])

    @cached_property
    def face(self) -> tuple[Point, Point]:
        """The low and the high end of the spar's front face, as sawn."""
        if self.capstrip:
            return self.sawn[-2], self.sawn[0]
        (low,), (high,) = (
            contour_mm(self.section, self.chord, surface, [self.length]) for surface in ("lower", "upper")
        )
        return low, high

    @cached_property
    def nearest(self) -> Point:
        """The point of the sawn line or the spar's face nearest to the hole's middle."""
        feet = (_foot(self.middle, *side) for side in pairwise(self.sawn))
        return min(feet, key=lambda foot: dist(foot, self.middle))

    @property
    def edge(self) -> float:
        """The least wood between the hole and the sawn line."""
        return dist(self.nearest, self.middle) - self.radius

    @property
    def start_at(self) -> Point:
        """The middle of the starting hole."""
        return self.middle[0] + self.radius / 2, self.middle[1]

    @property
    def saw_path(self) -> Line:
        """The blade's way from the middle of the starting hole to the line, on an arc that touches the line."""
        centre, radius = (self.middle[0] - self.radius / 4, self.middle[1]), 0.75 * self.radius
        return circle(centre, radius)[: STEPS // 2 + 1]


def _foot(point: Point, start: Point, end: Point) -> Point:
    """Return the point of a straight line from start to end that is nearest to a point."""
    (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
    share = ((point[0] - x) * dx + (point[1] - y) * dy) / ((dx * dx + dy * dy) or 1.0)
    share = min(max(share, 0.0), 1.0)
    return x + share * dx, y + share * dy


def circle(middle: Point, radius: float) -> Line:
    """Return a closed circle in straight pieces, counter-clockwise from its rightmost point."""
    turns = (2 * pi * n / STEPS for n in range(STEPS + 1))
    return tuple((middle[0] + radius * cos(turn), middle[1] + radius * sin(turn)) for turn in turns)


def nose_rib_of(sizes: Sizes) -> NoseRib:
    """Return the nose rib of some sizes in mm; raises LessonFault without a wing section."""
    section = sizes.shapes.get("section")
    if not isinstance(section, Airfoil):
        raise LessonFault("a nose rib needs a wing section", 'give section, such as airfoil("Clark Y")')
    middle = sizes["aft"], sizes["middle"]
    return NoseRib(
        section,
        sizes["chord"],
        sizes["length"],
        sizes["hole"],
        middle,
        sizes.get("start", 0.0),
        sizes.get("capstrip", 0.0),
    )
