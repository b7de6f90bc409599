"""What holds the capstrips of a rib apart: uprights, diagonals and gussets, and the jig blocks it is glued between.

Plain floats in millimetres, as in `rib`. Outlines are closed: their first point stands at their end again. Plane
geometry, no source needed; the arrangement is our own, for practice ribs.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist

from coursepack.place import TradeFault
from coursepack.trade.contour import SIDES
from coursepack.trade.outline import Point
from coursepack.trade.rib import Line, Rib

Span = tuple[float, float]  # two stations in mm

JIG_MM = (16.0, 6.0)  # along the contour, and out from it
JIG_BAYS = 5  # where no bays say where blocks stand
CLEAR_MM = 1.0  # of a block from a joint
NEAR_MM = 0.5  # what is so near the inner line of the capstrips is glued to it
STEP_MM = 0.5  # by which a block is moved to be clear


@dataclass(frozen=True)
class Truss:
    """The members of a rib: how many bays between its first and last spar, and how thick each member is in mm.

    An upright stands at each face of a spar and between two bays. There is one bay ahead of the first spar, and
    behind the last one as many as make them about as wide. A diagonal crosses each bay but that at the tail block,
    which is too low for one. Raises TradeFault where a bay would be narrower than a member.
    """

    rib: Rib
    bays: int
    thick: float

    def __post_init__(self) -> None:
        if not self.rib.capstrip or len(self.rib.spars) < 2:
            raise TradeFault(
                "bays lie between capstrips and two spars", "give the rib capstrips and both spars"
            )
        if self.bays < 1 or any(
            end - start <= self.thick for bays in (self._inner, self._bays) for start, end in bays()
        ):
            raise TradeFault(
                f"{self.bays} bays leave no room between the uprights",
                "give fewer bays, or spars further apart",
            )

    def uprights(self) -> Iterator[Line]:
        """Yield the outlines of the uprights."""
        for span in self._standing():
            yield _between(self.rib, span)

    def diagonals(self) -> Iterator[Line]:
        """Yield the outlines of the diagonals, rising and falling in turn."""
        for number, bay in enumerate(self._bays()[:-1]):
            yield _brace(_between(self.rib, bay)[:4], self.thick, rising=number % 2 == 0)

    def joints(self, surface: str) -> Iterator[Span]:
        """Yield from where to where each member is glued to the capstrip of a surface."""
        for member in (*self.uprights(), *self.diagonals()):
            glued = [x for x, y in member if abs(y - self.rib.inside(surface, x)[1]) < NEAR_MM]
            if glued:
                yield min(glued), max(glued)

    def bays_between(self) -> list[Span]:
        """Return where each bay begins and ends, from the nose block to the tail block."""
        return self._bays()

    def gussets(self, size: float) -> Iterator[Line]:
        """Yield the outlines of gussets as wide and high as a size in mm, high to the middle at most, over every joint of an upright with a capstrip."""
        for span in self._covered(size):
            for surface in SIDES:
                yield _gusset(self.rib, surface, span, size)

    def _standing(self) -> list[Span]:
        beside = [
            span
            for spar in self.rib.spars
            for span in ((spar.front - self.thick, spar.front), (spar.rear, spar.rear + self.thick))
        ]
        return [*beside, *self._parting()]

    def _covered(self, size: float) -> Iterator[Span]:
        for spar in self.rib.spars:
            yield spar.front - size, spar.front
            yield spar.rear, spar.rear + size
        for start, end in self._parting():
            middle = (start + end) / 2
            yield middle - size / 2, middle + size / 2

    def _parting(self) -> list[Span]:
        """Return where the uprights stand that part two bays."""
        return [(a[1], b[0]) for bays in (self._inner(), self._aft()) for a, b in pairwise(bays)]

    def _bays(self) -> list[Span]:
        return [(self.rib.nose, self.rib.spars[0].front - self.thick), *self._inner(), *self._aft()]

    def _inner(self) -> list[Span]:
        """Return where each bay between the first and the last spar begins and ends."""
        first, last = self.rib.spars[0], self.rib.spars[-1]
        return self._parted(first.rear + self.thick, last.front - self.thick, self.bays)

    def _aft(self) -> list[Span]:
        start, end = self.rib.spars[-1].rear + self.thick, self.rib.tail
        inner = self._inner()[0]
        return self._parted(start, end, max(1, round((end - start) / (inner[1] - inner[0]))))

    def _parted(self, start: float, end: float, bays: int) -> list[Span]:
        """Return equal bays from a station to another, with an upright between each two."""
        wide = (end - start - (bays - 1) * self.thick) / bays
        return [
            (start + n * (wide + self.thick), start + n * (wide + self.thick) + wide) for n in range(bays)
        ]


def jig_blocks(rib: Rib, truss: Truss | None, kept: Sequence[float]) -> Iterator[Line]:
    """Yield the outlines of the blocks that hold the capstrips from outside while a rib is glued.

    A block stands near the middle of each bay on either surface, clear of joints, and of some stations in mm to be
    kept free where there is room for that.
    """
    bays = truss.bays_between() if truss else _fifths(rib)
    for bay in bays:
        for surface in SIDES:
            joints = list(truss.joints(surface)) if truss else [(spar.front, spar.rear) for spar in rib.spars]
            yield _jig_block(rib, surface, _free_station(bay, joints, kept))


def _fifths(rib: Rib) -> list[Span]:
    """Return equal lengths between the nose block and the tail, for the blocks of a rib without bays."""
    wide = (rib.chord - 2 * rib.nose) / JIG_BAYS
    return [(rib.nose + n * wide, rib.nose + (n + 1) * wide) for n in range(JIG_BAYS)]


def _free_station(bay: Span, joints: Sequence[Span], kept: Sequence[float]) -> float:
    """Return the station nearest the middle of a bay where a block meets no joint, and no kept station if it can."""
    middle, half = (bay[0] + bay[1]) / 2, JIG_MM[0] / 2 + CLEAR_MM
    steps = range(int((bay[1] - bay[0]) / 2 / STEP_MM))
    places = [middle + way * n * STEP_MM for n in steps for way in (1, -1)]
    clear = [x for x in places if all(x + half <= start or end <= x - half for start, end in joints)]
    free = [x for x in clear if all(abs(x - station) >= half for station in kept)]
    return [*free, *clear, middle][0]


def _jig_block(rib: Rib, surface: str, station: float) -> Line:
    long, out = JIG_MM
    (x, y), (across, up) = rib.square_in(surface, station)
    ends = [(x + sign * up * long / 2, y - sign * across * long / 2) for sign in (1, -1)]
    outer = [(a - across * out, b - up * out) for a, b in reversed(ends)]
    return (*ends, *outer, ends[0])


def _between(rib: Rib, span: Span) -> Line:
    """Return the outline between two stations and the inner lines, from lower left."""
    low = [rib.inside("lower", station) for station in span]
    high = [rib.inside("upper", station) for station in reversed(span)]
    return (*low, *high, low[0])


def _gusset(rib: Rib, surface: str, span: Span, size: float) -> Line:
    """Return a gusset whose sides stand square to the datum, as the faces of the spars do."""
    ends = [(station, rib.ordinate(surface, station)) for station in span]
    inner = [(x, y - SIDES[surface] * min(size, rib.depth(x) / 2)) for x, y in reversed(ends)]
    return (*ends, *inner, ends[0])


def _brace(room: Line, thick: float, *, rising: bool) -> Line:
    """Return the outline of a strip from corner to corner of a four-cornered room, cut to fit it."""
    start, end = (room[0], room[2]) if rising else (room[3], room[1])
    along = (end[0] - start[0]) / dist(start, end), (end[1] - start[1]) / dist(start, end)
    kept = room
    for sign in (1, -1):
        outward = -sign * along[1], sign * along[0]
        edge = start[0] + outward[0] * thick / 2, start[1] + outward[1] * thick / 2
        kept = _kept(kept, edge, outward)
    return (*kept, kept[0])


def _kept(room: Line, edge: Point, outward: Point) -> Line:
    """Return the part of a convex room on the inner side of a line through a point, square to a direction."""

    def over(point: Point) -> float:
        return (point[0] - edge[0]) * outward[0] + (point[1] - edge[1]) * outward[1]

    kept: list[Point] = []
    for a, b in pairwise((*room, room[0])):
        if over(a) <= 0:
            kept.append(a)
        if over(a) * over(b) < 0:
            share = over(a) / (over(a) - over(b))
            kept.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])))
    return tuple(kept)
