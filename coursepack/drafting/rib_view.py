"""A rib on paper: which of its parts are drawn at a scale, lying level or standing on its tail."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from coursepack.drafting.dimension import Side
from coursepack.drafting.part import Sizes
from coursepack.drafting.sheet import Line, LineKind, Piece, Point, Stroke
from coursepack.place import LessonFault
from coursepack.trade.contour import Airfoil
from coursepack.trade.rib import Rib, SparPlace
from coursepack.trade.truss import Truss

SPARS = ("front", "rear")
CLOSEST_MM = 0.7  # on paper, from line to line: after ISO 128, nothing finer is drawn
LEAST_GUSSET_MM = 10.0  # on paper; smaller ones hide the joint
PAST_MM = 4.0  # of the datum, beyond nose and tail
_TURNED: Mapping[Side, Side] = {"below": "left", "above": "right", "left": "above", "right": "below"}


def rib_of(sizes: Sizes) -> Rib:
    """Return the rib of some sizes in mm: section, chord, and where given capstrip and spars.

    Raises LessonFault without a wing section or for a spar without its width, and TradeFault for what no rib can
    have.
    """
    section = sizes.shapes.get("section")
    if not isinstance(section, Airfoil):
        raise LessonFault("a rib needs a wing section", 'give section, such as airfoil("Clark Y")')
    return Rib(
        section,
        sizes["chord"],
        sizes.get("capstrip", 0.0),
        tuple(spar for _, spar in spars_of(sizes)),
    )


def spars_of(sizes: Sizes) -> list[tuple[str, SparPlace]]:
    """Return the spars of some sizes with their names, 'front' and 'rear'; raises LessonFault for a missing width."""
    found = []
    for name in SPARS:
        if f"{name}_station" in sizes:
            width = sizes.get(f"{name}_width", sizes.get("spar_width"))
            if width is None:
                raise LessonFault(f"the {name} spar has no width", f"give spar_width or {name}_width")
            found.append((name, SparPlace(sizes[f"{name}_station"], width)))
    return found


@dataclass(frozen=True)
class View:
    """How a rib lies on paper: its scale, and whether it stands on its tail, upper surface on the right."""

    scale: float
    on_end: bool

    def at(self, point: Point) -> Point:
        """Return the place on paper of a point of the rib."""
        x, y = point[0] * self.scale, point[1] * self.scale
        return (y, -x) if self.on_end else (x, y)

    def line(self, line: Line) -> Line:
        """Return a line of the rib on paper."""
        return tuple(self.at(point) for point in line)

    def side(self, side: Side) -> Side:
        """Return the side on paper of what is on a side of the level rib."""
        return _TURNED[side] if self.on_end else side

    def shows_all(self, rib: Rib) -> bool:
        """Whether the parts inside the contour are drawn."""
        return not rib.capstrip or self.shows(rib.capstrip)

    def shows(self, size: float) -> bool:
        """Whether two lines so far apart on the rib are kept apart on paper."""
        return size * self.scale >= CLOSEST_MM


@dataclass(frozen=True)
class RibLines:
    """The lines of a rib at its own size, worked out once for all scales that are tried."""

    sizes: Sizes
    rib: Rib
    truss: Truss | None  # None for a solid web

    @cached_property
    def contour(self) -> Line:
        """Its closed contour."""
        return self.rib.contour()

    @cached_property
    def openings(self) -> list[Line]:
        """The closed outlines of its spar openings."""
        return [_closed(self.rib.opening(spar)) for spar in self.rib.spars]

    @cached_property
    def capstrips(self) -> list[Line]:
        """The room between nose block, inner lines and tail block, parted where the spars stand."""
        rib = self.rib
        stops = [rib.nose, *(face for spar in rib.spars for face in (spar.front, spar.rear)), rib.tail]
        rooms = []
        for start, end in zip(stops[::2], stops[1::2], strict=True):
            upper, lower = (rib.inner_line(surface, start, end) for surface in ("upper", "lower"))
            rooms.append(_closed((*upper, *reversed(lower))))
        return rooms

    @cached_property
    def members(self) -> list[Line]:
        """Its uprights and diagonals, none where the web is solid."""
        return [*self.truss.uprights(), *self.truss.diagonals()] if self.truss else []

    @cached_property
    def gussets(self) -> list[Line]:
        """Its gussets, where it has any."""
        size = self.sizes.get("gusset")
        return list(self.truss.gussets(size)) if self.truss and size else []

    @property
    def low(self) -> float:
        """The least ordinate of its contour."""
        return min(y for _, y in self.contour)


def lines_of(sizes: Sizes) -> RibLines:
    """Return the lines of a rib of some sizes; raises as `rib_of`, and TradeFault for too many bays."""
    rib, bays = rib_of(sizes), round(sizes.get("bays", 0))
    truss = Truss(rib, bays, sizes.get("upright", rib.capstrip)) if bays else None
    return RibLines(sizes, rib, truss)


def rib_piece(lines: RibLines, view: View) -> Piece:
    """Draw the rib without any dimension; what would be finer than the pen allows is left out."""
    past = PAST_MM / view.scale
    datum = ((-past, 0.0), (lines.rib.chord + past, 0.0))
    strokes = [
        _stroke(view, "outline", [lines.contour, *lines.openings]),
        _stroke(view, "centre", [datum]),
    ]
    if lines.rib.capstrip and view.shows_all(lines.rib):
        gussets = lines.gussets if lines.sizes.get("gusset", 0.0) * view.scale >= LEAST_GUSSET_MM else []
        strokes.append(_stroke(view, "thin", [*lines.capstrips, *lines.members, *gussets]))
    return Piece(tuple(strokes))


def _stroke(view: View, kind: LineKind, lines: Iterable[Line]) -> Stroke:
    return Stroke(kind, tuple(view.line(line) for line in lines))


def _closed(line: Line) -> Line:
    return (*line, line[0])
