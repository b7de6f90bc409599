"""A wing rib: contour, capstrips, spar openings and members, with the sizes that it is lofted from."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import chain

from coursepack.drafting.dimension import Linear, Side, Spacing
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.part import Sizes
from coursepack.drafting.placing import ways
from coursepack.drafting.rib_view import RibLines, View, lines_of, rib_of, rib_piece, spars_of
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import Drawing, Frame, Mark, Piece, Point
from coursepack.drafting.wording import listed
from coursepack.trade.rib import Rib

LEVEL_FROM_MM = 100.0  # in a frame less wide than this the rib stands on its tail, and is drawn larger
AHEAD_MM = 3.6  # on paper, from a spar's front face to the line of its height
FREE_MM = 30.0  # on paper: lettering of a height stands on its line, with no face beside it to keep clear of
BEFORE_THE_NOSE = ("front_height", "front_depth")
ALONG = ("station", "front_station", "rear_station", "chord")  # from the leading edge, in this order outward


def rib_outline(sizes: Sizes, marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a rib at the largest scale that fits, or the frame's: level, or nose up in a narrow frame.

    Sizes in mm: chord, and where they are to be seen capstrip, front_station and rear_station of the spars' front
    faces with spar_width (or front_width, rear_width), station of an ordinate, upright and gusset; bays counts
    those between the spars, 0 for a solid web. Its shape is `section`. Raises LessonFault where it does not fit,
    a dimension is asked that this rib does not have, or no rib can be built so.
    """
    refuse_missing("rib", marks, rib_measure(sizes))
    lines, on_end = lines_of(sizes), frame.width < LEVEL_FROM_MM
    rib = lines.rib

    def note(scale: Fraction) -> str:
        return _note(rib, View(float(scale), on_end))

    fitted = at_scale(
        "rib outline",
        lambda by, room, spacing: _draft(lines, View(by, on_end), marks, room, spacing),
        frame,
        rib.chord,
        note,
    )
    return finished("Rib outline", fitted, frame, _alt(rib, marks), note)


def rib_measure(sizes: Sizes) -> dict[str, float]:
    """Give the true value of every dimension in mm; heights are inside the capstrips, depths out to the contour."""
    rib = rib_of(sizes)
    true = {"chord": rib.chord}
    for name, spar in spars_of(sizes):
        true |= {
            f"{name}_station": spar.front,
            f"{name}_width": spar.width,
            f"{name}_height": rib.opening_height(spar),
            f"{name}_depth": rib.depth(spar.front),
        }
    if "station" in sizes:
        station = sizes["station"]
        true |= {
            "station": station,
            "upper": abs(rib.ordinate("upper", station)),
            "lower": abs(rib.ordinate("lower", station)),
            "depth": rib.depth(station),
        }
    return true


def _note(rib: Rib, view: View) -> str:
    left_out = "" if view.shows_all(rib) else ", simplified"
    return f"{rib.section.name}{', nose up' if view.on_end else ''}{left_out}"


def _draft(lines: RibLines, view: View, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    if lines.rib.chord * view.scale > (room.height if view.on_end else room.width):
        raise NoRoom
    layout = Layout(rib_piece(lines, view), room)
    for choices in _dimensions(lines, view, marks, spacing):
        layout.settle(choices)
    return layout.piece


def _dimensions(
    lines: RibLines, view: View, marks: Mapping[str, Mark], spacing: Spacing
) -> Iterator[Iterator[Choice]]:
    """Give the ways of each dimension: heights at their stations, then lengths along the datum, row by row."""
    sizes, rib = lines.sizes, lines.rib
    for name, ends, ahead in _heights(sizes, rib, beside="upper" in marks):
        if name in marks:
            inside = ways(_height(name, marks[name], view, ends, ahead, spacing))
            yield chain(_before_the_nose(name, marks[name], view, ends, spacing), inside)
    for name, spar in spars_of(sizes):
        if f"{name}_width" in marks:
            top = [(face, rib.ordinate("upper", face)) for face in (spar.front, spar.rear)]
            yield ways(_along(f"{name}_width", marks, view, (top[0], top[1]), "above", spacing))
    first = 2 if "lower" in marks else 1  # its lettering stands below the rib
    for row, name in enumerate((name for name in ALONG if name in marks), first):
        yield ways(_along(name, marks, view, _ends(name, sizes, rib), "below", spacing, lines.low, row))


def _heights(sizes: Sizes, rib: Rib, *, beside: bool) -> Iterator[tuple[str, tuple[Point, Point], float]]:
    """Give what is measured square to the datum: its name, its two ends, how far ahead of them its line stands.

    The lower ordinate stands `beside` the upper one where both are shown, since both end on the datum.
    """
    for name, spar in spars_of(sizes):
        low, _, _, high = rib.opening(spar)
        yield f"{name}_height", (low, high), AHEAD_MM
        yield f"{name}_depth", (_on(rib, "lower", spar.front), _on(rib, "upper", spar.front)), AHEAD_MM
    if "station" in sizes:
        foot = sizes["station"], 0.0
        low, high = (_on(rib, surface, sizes["station"]) for surface in ("lower", "upper"))
        yield "upper", (foot, high), 0.0
        yield "lower", (foot, low), -AHEAD_MM if beside else 0.0
        yield "depth", (low, high), 0.0


def _on(rib: Rib, surface: str, station: float) -> Point:
    return station, rib.ordinate(surface, station)


def _height(
    name: str, mark: Mark, view: View, ends: tuple[Point, Point], ahead: float, spacing: Spacing
) -> Linear:
    placed = view.at(ends[0]), view.at(ends[1])
    side = view.side("left" if ahead >= 0 else "right")
    behind = FREE_MM if side in {"right", "above"} else -FREE_MM
    line = (placed[0][1] if view.on_end else placed[0][0]) - behind
    return Linear(
        name, mark, side, placed, line, spacing, first=FREE_MM + abs(ahead), low_first=name == "lower",
        sideways=True, bare=not ahead,
    )  # fmt: skip


def _before_the_nose(
    name: str, mark: Mark, view: View, ends: tuple[Point, Point], spacing: Spacing
) -> Iterator[Choice]:
    """Give the ways of a height at the front spar ahead of the contour, clear of the members beside the spar."""
    if name not in BEFORE_THE_NOSE:
        return
    low, high = view.at(ends[0]), view.at(ends[1])
    nose = view.at((0.0, 0.0))[1 if view.on_end else 0]
    yield from ways(Linear(name, mark, view.side("left"), (low, high), nose, spacing, sideways=True), rows=2)


def _along(
    name: str, marks: Mapping[str, Mark], view: View, ends: tuple[Point, Point], side: Side, spacing: Spacing,
    line: float | None = None, row: int = 1,
) -> Linear:  # fmt: skip
    """Lay out a length along the datum, in a row beside the outermost point of the rib on its side."""
    outermost = max(y for _, y in ends) if line is None else line
    placed = view.at(ends[0]), view.at(ends[1])
    from_ = view.at((0.0, outermost))[0 if view.on_end else 1]
    return Linear(
        name, marks[name], view.side(side), placed, from_, spacing, first=row * spacing.row, sideways=True
    )


def _ends(name: str, sizes: Sizes, rib: Rib) -> tuple[Point, Point]:
    """Return the leading edge on the datum, and what is measured from there."""
    if name == "chord":
        return (0.0, 0.0), (rib.chord, 0.0)
    station = sizes[name]
    return (0.0, 0.0), (station, min(0.0, rib.ordinate("lower", station)))


def _alt(rib: Rib, marks: Mapping[str, Mark]) -> str:
    names = {
        "chord": "chord", "station": "station of the ordinates, from the leading edge",
        "upper": "upper ordinate at the station", "lower": "lower ordinate at the station",
        "depth": "height from contour to contour at the station",
        **{
            f"{spar}_{size}": words.format(spar)
            for spar in ("front", "rear")
            for size, words in (
                ("station", "station of the {} spar's front face"), ("width", "width of the {} spar"),
                ("height", "height of the {} spar opening, inside the capstrips"),
                ("depth", "height from contour to contour at the {} spar"),
            )
        },
    }  # fmt: skip
    return f"Side view of a wing rib of section {rib.section.name}. {listed(names, marks)}"
