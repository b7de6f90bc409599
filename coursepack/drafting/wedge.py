"""A slope wedge lying on a scarf's slope: the wedge that makes a level of it, drawn and at full size."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import accumulate, cycle, takewhile

from coursepack.drafting.breaking import TOOTH_MM, torn
from coursepack.drafting.check_bars import INCH
from coursepack.drafting.dimension import Linear, Side, Spacing
from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.placing import ways
from coursepack.drafting.rings import SPACINGS_MM
from coursepack.drafting.scale import at_scale, finished
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import SMALL_MM, Drawing, Frame, Label, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.wording import listed

PAST_MM = 7.0  # on paper, of the piece beyond the thin end, before it is broken off
TALLEST_MM = 120.0  # on paper, of the base
NAME_GAP_MM = 1.8
NOTE = "on end, level side left"


def slope_wedge(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw a wedge from its side on the slope of a piece, both on end: thin end down, level side left.

    Sizes: base and thin in mm, parts as the run for a rise of 1. Raises LessonFault where it does not fit, or a
    dimension is asked that this wedge does not have.
    """
    refuse_missing("slope wedge", marks, wedge_measure(sizes))
    fitted = at_scale(
        "slope wedge",
        lambda by, room, spacing: _draft(_wedge(sizes, by), marks, room, spacing),
        frame,
        sizes["base"],
        lambda _: NOTE,
    )
    return finished("Slope wedge on a piece", fitted, frame, _alt(marks), lambda _: NOTE)


def wedge_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm."""
    base, thin, parts = (sizes[name] for name in ("base", "thin", "parts"))
    return {"base": base, "thin": thin, "thick": thin + base / parts}


@dataclass(frozen=True)
class Wedge:
    """A wedge on end in mm: its level side at x = 0, its thin end at y = 0."""

    base: float
    thin: float
    thick: float

    @property
    def outline(self) -> Line:
        """Its four sides."""
        return (0.0, 0.0), (self.thin, 0.0), (self.thick, self.base), (0.0, self.base), (0.0, 0.0)

    def slope(self, y: float) -> float:
        """Give where its sloping side lies at a height, or that side produced."""
        return self.thin + (self.thick - self.thin) * y / self.base


def _wedge(sizes: Mapping[str, float], by: float) -> Wedge:
    return Wedge(*(size * by for size in wedge_measure(sizes).values()))


def _draft(wedge: Wedge, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    if wedge.base > TALLEST_MM:
        raise NoRoom
    layout = Layout(_parts(wedge), room)
    for choices in _dimensions(wedge, marks, spacing):
        layout.settle(choices)
    return layout.piece + Piece((Stroke("ring", tuple(_grain(wedge))),))


def _parts(wedge: Wedge) -> Piece:
    """Draw the wedge, and beside it the piece from its feather edge to where it is broken off."""
    foot = -PAST_MM
    near, far = wedge.slope(foot), wedge.thick
    piece = (near, foot), (far, wedge.base), (far, foot)
    name = Label("PIECE", far + NAME_GAP_MM, wedge.base / 3, "left", size_mm=SMALL_MM)
    return Piece(
        (Stroke("outline", (wedge.outline, piece)), Stroke("thin", (torn((near, foot), (far, foot)),))),
        (),
        (name,),
    )


def _grain(wedge: Wedge) -> Iterator[Line]:
    """Give the grain of the piece, along it and up to the slope."""
    first = wedge.thick - SPACINGS_MM[0] / 2
    for x in takewhile(
        lambda x: x > wedge.thin, accumulate((-gap for gap in cycle(SPACINGS_MM)), initial=first)
    ):
        yield (x, TOOTH_MM - PAST_MM), (x, wedge.base * (x - wedge.thin) / (wedge.thick - wedge.thin))


def _dimensions(wedge: Wedge, marks: Mapping[str, Mark], spacing: Spacing) -> Iterator[Iterator[Choice]]:
    lengths: dict[str, tuple[Side, tuple[Point, Point], float]] = {
        "base": ("left", ((0.0, 0.0), (0.0, wedge.base)), 0.0),
        "thick": ("above", ((0.0, wedge.base), (wedge.thick, wedge.base)), wedge.base),
        "thin": ("below", ((0.0, 0.0), (wedge.thin, 0.0)), -PAST_MM - TOOTH_MM),
    }
    for name, (side, ends, line) in lengths.items():
        if name in marks:
            yield ways(Linear(name, marks[name], side, ends, line, spacing))


def _alt(marks: Mapping[str, Mark]) -> str:
    names = {"base": "base of the wedge", "thin": "thin end", "thick": "thick end"}
    lies = "its thick end at the feather edge"
    return f"Side view of a slope wedge on the slope of a piece, drawn on end, {lies}. {listed(names, marks)}"


def wedge_parts(sizes: Sizes) -> tuple[Part, ...]:
    """Return the wedge at full size; the sizes are those of the figure."""
    wedge, slope = _wedge(sizes, 1.0), f"1:{sizes['parts']:g}"
    x = wedge.thin / 2 + MIDDLE_EM * SMALL_MM
    label = Label(slope, x, wedge.base * 0.6, "centre", 90, size_mm=SMALL_MM)
    thick = f"{wedge.thick:.2f} mm ({wedge.thick / INCH:.3f} in)"
    return (Part("slope wedge", (wedge.outline,), labels=(label,), notes=(f"{slope}; thick end {thick}",)),)
