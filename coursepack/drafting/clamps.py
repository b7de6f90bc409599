"""A joint in its clamps, seen from above: glue line, cauls, clamps at equal spacing with half of it at the ends."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import accumulate, chain, count, islice, pairwise, takewhile

from coursepack.drafting.dimension import GAP_MM, OVERRUN_MM, Linear, Spacing, arrowhead
from coursepack.drafting.label import label_box
from coursepack.drafting.lettering import MIDDLE_EM, width_em
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.placing import STAND_OFF_MM, ways
from coursepack.drafting.rings import SPACINGS_MM
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import SMALL_MM, Drawing, Frame, Label, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed
from coursepack.place import LessonFault
from coursepack.trade.outline import rectangle

TALLEST_MM = 125.0  # on paper, of the joint
THINNEST_MM = 1.5  # on paper, of a part: thinner, its two lines run together
PAD_MM, PAD_TALL_MM = 1.2, 3.6  # of a clamp's pads, across the joint and along it
SCREW_MM, SCREW_TALL_MM = 2.8, 1.4
HANDLE_TALL_MM = 4.4
PAST_MM = 0.6  # of a centre line, beyond the handle
NEAR_MM = 1.6  # from the handles to the line of a length lettered between two of them
CLOSEST_MM = HANDLE_TALL_MM + 1.0  # on paper, from clamp to clamp
LEADER_MM = 5.5  # from the lettering on the glue line to the joint
WORD = "GLUE LINE"
CAULS = 2  # a caul's thickness over the part's, at least: FAA AC 43.13-1B, paragraph 1-11e
NAMES = ("length", "thick", "caul")


def clamp_layout(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw two equal parts and their cauls from above, with the clamps that press them along their glue line.

    Sizes in mm and counts: length of the joint, thick (each part, across the glue line), clamps, and where it is
    more than twice the part caul, the thickness of a caul. Raises LessonFault where it does not fit, there is
    no clamp, or a dimension is asked that it does not have.
    """
    refuse_missing("clamp layout", marks, clamps_measure(sizes))
    fitted = at_scale(
        "clamp layout",
        lambda by, room, spacing: _draft(sizes, marks, by, room, spacing),
        frame,
        sizes["length"],
        _note,
    )
    return finished("Clamp layout", fitted, frame, _alt(sizes, marks), _note)


def clamps_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm; a spacing only where there are two clamps or more.

    Raises LessonFault where there is no whole number of clamps above zero.
    """
    number = sizes["clamps"]
    if number < 1 or number != round(number):
        raise LessonFault(f"{number:g} clamps press no joint", "give a whole number from 1 up")
    spacing = sizes["length"] / number
    true = dict(zip(NAMES, (sizes["length"], sizes["thick"], _caul(sizes)), strict=True))
    return true | {"end": spacing / 2} | ({"spacing": spacing} if number > 1 else {})


def _caul(sizes: Mapping[str, float]) -> float:
    return sizes.get("caul", CAULS * sizes["thick"])


def _note(_: Fraction) -> str:
    return "from above"


@dataclass(frozen=True)
class Assembly:
    """A joint in its clamps on paper in mm: the glue line stands at x = 0, from y = 0 up."""

    length: float
    thick: float
    caul: float
    clamps: int

    @cached_property
    def spacing(self) -> float:
        """From clamp to clamp."""
        return self.length / self.clamps

    @cached_property
    def side(self) -> float:
        """From the glue line to the outer face of a caul."""
        return self.thick + self.caul

    @cached_property
    def middles(self) -> tuple[float, ...]:
        """Where the clamps' screws lie."""
        return tuple((n + 0.5) * self.spacing for n in range(self.clamps))

    @cached_property
    def left(self) -> float:
        """Where the clamps end on the left, at their fixed pads."""
        return -self.side - PAD_MM

    @cached_property
    def right(self) -> float:
        """Where the clamps end on the right, at their handles."""
        return self.side + PAD_MM + SCREW_MM


def _draft(
    sizes: Mapping[str, float], marks: Mapping[str, Mark], scale: float, room: Frame, spacing: Spacing
) -> Piece:
    length, thick, caul = (size * scale for size in (sizes["length"], sizes["thick"], _caul(sizes)))
    assembly = Assembly(length, thick, caul, round(sizes["clamps"]))
    if length > TALLEST_MM or assembly.spacing < CLOSEST_MM or thick < THINNEST_MM:
        raise NoRoom
    layout = Layout(_joint(assembly), room)
    for choices in _dimensions(assembly, marks, spacing):
        layout.settle(choices)
    return layout.piece + Piece((Stroke("ring", tuple(_grain(assembly))),))


def _joint(assembly: Assembly) -> Piece:
    """Draw the parts thick, cauls and clamps thin, a centre line along each screw; name glue line and cauls."""
    thick, side, high = assembly.thick, assembly.side, assembly.length
    parts = (_closed(-thick, 0.0, thick, high), ((0.0, 0.0), (0.0, high)))
    cauls = (_closed(-side, 0.0, -thick, high), _closed(thick, 0.0, side, high))
    clamps = tuple(line for y in assembly.middles for line in _clamp(assembly, y))
    centres = tuple(((assembly.left, y), (assembly.right + PAST_MM, y)) for y in assembly.middles)
    top = (0.0, high)
    text_low = high + LEADER_MM
    leader = Stroke("dimension", (((0.0, text_low - 0.5), top),))
    return Piece(
        (Stroke("outline", parts), Stroke("thin", cauls + clamps), Stroke("centre", centres), leader),
        (arrowhead(top, (0.0, -1.0), WORD),),
        (Label(WORD, 0.0, text_low + 0.5, size_mm=SMALL_MM), *_caul_names(assembly)),
    )


def _closed(left: float, low: float, right: float, high: float) -> Line:
    corners = rectangle(right - left, high - low, ((left + right) / 2, (low + high) / 2))
    return (*corners, corners[0])


def _clamp(assembly: Assembly, y: float) -> Iterator[Line]:
    """Give a clamp's lines: a fixed pad on the left caul, on the right one a pad with its screw and handle."""
    side, pad, screw = assembly.side, PAD_TALL_MM / 2, SCREW_TALL_MM / 2
    yield _closed(assembly.left, y - pad, -side, y + pad)
    yield _closed(side, y - pad, side + PAD_MM, y + pad)
    yield _closed(side + PAD_MM, y - screw, assembly.right, y + screw)
    yield (assembly.right, y - HANDLE_TALL_MM / 2), (assembly.right, y + HANDLE_TALL_MM / 2)


def _caul_names(assembly: Assembly) -> Iterator[Label]:
    """Letter each caul along it, between two clamps near the middle, where there is room."""
    room = width_em("CAUL") * SMALL_MM + 1.5
    if assembly.caul < SMALL_MM + 1.0 or assembly.spacing < room or assembly.clamps == 1:
        return
    y = assembly.spacing * (assembly.clamps // 2)
    for sign in (-1, 1):
        x = sign * (assembly.thick + assembly.caul / 2) + MIDDLE_EM * SMALL_MM
        yield Label("CAUL", x, y, angle=90, size_mm=SMALL_MM)


def _grain(assembly: Assembly) -> Iterator[Line]:
    """Give the grain of both parts, along them, closer in thin ones and unlike in the two."""
    by = min(1.0, assembly.thick / 6)
    for sign, first in ((-1, 0), (1, 3)):
        gaps = (by * SPACINGS_MM[n % len(SPACINGS_MM)] for n in count(first))
        for x in takewhile(lambda x: x < assembly.thick - 0.6, accumulate(gaps)):
            yield (sign * x, 0.0), (sign * x, assembly.length)


def _dimensions(
    assembly: Assembly, marks: Mapping[str, Mark], spacing: Spacing
) -> Iterator[Iterator[Choice]]:
    """Give the ways of each dimension: end and spacing in one row on the left, the length outside them."""
    corner = (-assembly.side, 0.0)
    if "end" in marks:
        foot = (assembly.left, assembly.middles[0])
        yield ways(_upright("end", marks, (corner, foot), assembly, spacing))
    if "spacing" in marks:
        yield _spacing_ways(assembly, marks, spacing)
    if "length" in marks:
        yield _length_ways(assembly, marks, spacing)
    thick = ((0.0, 0.0), (assembly.thick, 0.0))
    caul = ((-assembly.side, 0.0), (-assembly.thick, 0.0))
    for name, ends, row in (("thick", thick, 1), ("caul", caul, 1 + ("thick" in marks))):
        if name in marks:
            low = name == "caul"
            first = row * spacing.row
            yield ways(
                Linear(name, marks[name], "below", ends, 0.0, spacing, first, low_first=low, sideways=True)
            )


def _upright(
    name: str,
    marks: Mapping[str, Mark],
    ends: tuple[Point, Point],
    assembly: Assembly,
    spacing: Spacing,
    first: float | None = None,
) -> Linear:
    return Linear(name, marks[name], "left", ends, assembly.left, spacing, first, low_first=name == "end")


def _spacing_ways(assembly: Assembly, marks: Mapping[str, Mark], spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of the spacing: beside the end's dimension, then between clamps further up."""
    feet = [(assembly.left, y) for y in assembly.middles]
    for low, high in pairwise(feet):
        yield from ways(_upright("spacing", marks, (low, high), assembly, spacing), 1)


def _length_ways(assembly: Assembly, marks: Mapping[str, Mark], spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of the length: outside the shorter ones on the left, else close beside the handles."""
    shorter = "end" in marks or "spacing" in marks
    ends = (-assembly.side, 0.0), (-assembly.side, assembly.length)
    left = _upright("length", marks, ends, assembly, spacing, spacing.row * (1 + shorter))
    ends = (assembly.side, 0.0), (assembly.side, assembly.length)
    right = Linear("length", marks["length"], "right", ends, assembly.right, spacing)
    yield from islice(ways(left), 1)
    yield _close_length(right, assembly)
    yield from chain(ways(left), ways(right))


def _close_length(dim: Linear, assembly: Assembly) -> Choice:
    """Letter the length on the right between two handles near the middle, its line close to them."""
    along = assembly.spacing * (assembly.clamps // 2)
    across = max(assembly.right + NEAR_MM, assembly.side + dim.room.width / 2 + STAND_OFF_MM)
    label = dim.lettered((across, along))
    half = dim.needs / 2
    low, high = dim.span
    extended = (((assembly.side + GAP_MM, y), (across + OVERRUN_MM, y)) for y in (low, high))
    line = (((across, low), (across, along - half)), ((across, along + half), (across, high)))
    heads = arrowhead((across, low), (0, -1), dim.name), arrowhead((across, high), (0, 1), dim.name)
    piece = Piece((Stroke("dimension", (*extended, *line)),), heads, (label,))
    return Choice(label_box(label), lambda: piece)


def _alt(sizes: Mapping[str, float], marks: Mapping[str, Mark]) -> str:
    names = {
        "length": "length of the joint", "thick": "thickness of each part", "caul": "thickness of a caul",
        "end": "distance from either end to the first clamp", "spacing": "spacing from clamp to clamp",
    }  # fmt: skip
    number = round(sizes["clamps"])
    clamps = "one clamp" if number == 1 else f"{number} clamps at equal spacing"
    drawn = "A joint from above: two parts along their glue line, a caul on either side"
    return f"{drawn}, pressed by {clamps}. {listed(names, marks)}"
