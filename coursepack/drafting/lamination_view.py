"""A bent lamination on paper, from above and lying on its side: form, stack, the piece after release, the section."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, partial
from itertools import product
from math import hypot, isclose, sqrt

from coursepack.drafting.breaking import level_line, torn
from coursepack.drafting.dimension import Linear, Spacing
from coursepack.drafting.label import label_box
from coursepack.drafting.lamination_form import Bend
from coursepack.drafting.placing import ways
from coursepack.drafting.settling import Choice, Layout
from coursepack.drafting.sheet import SMALL_MM, Box, Label, Line, Mark, Piece, Point, Stroke
from coursepack.drafting.tiling import turned

TRUE_MM = 0.01  # on paper, of an arc's straight pieces
CLOSEST_MM = 0.5  # on paper, from lamination to lamination: closer, their lines run together
APART_MM = 0.8  # and where the section shows them anyway, so that the lines after release stand clear
SECTIONED = frozenset({"stack", "thin"})  # what the section shows
SECTION_LONG_MM = 22.0  # on paper, of the stack in section
UNDER_MM = 6.0  # from the view to the section
NAME_MM = 1.5  # from the form's lines to its name
INWARD_MM = (0.0, 4.0, 8.0, 14.0, 22.0)  # further in from there
WORD = "FORM"
MIDDLED_ON_FORM = frozenset({"form_radius", "arc"})  # what is measured to the middle of the stack on the form
MIDDLED = MIDDLED_ON_FORM | {"final"}  # or after release


@dataclass(frozen=True)
class View:
    """A bend on paper in mm at a scale, lying on its side: its crown to the left, its held end below."""

    bend: Bend
    by: float

    def placed(self, line: Line) -> Line:
        """Return a line of the bend as it lies on paper."""
        return tuple(self.at(point) for point in line)

    def at(self, point: Point) -> Point:
        """Return a point of the bend as it lies on paper."""
        x, y = turned(point)
        return x * self.by, y * self.by

    @cached_property
    def turns(self) -> tuple[float, float]:
        """The directions of its ends on paper, from the held to the free one."""
        return 180.0 + self.bend.end, 180.0 - self.bend.end

    @cached_property
    def layers(self) -> tuple[float, ...]:
        """Radii of the glue lines, true in mm."""
        return tuple(self.bend.face + n * self.bend.thin for n in range(1, self.bend.laminations))

    @property
    def true(self) -> float:
        """How true to an arc its straight pieces must be, in mm of the part."""
        return TRUE_MM / self.by

    @cached_property
    def farthest(self) -> float:
        """From the middle of the form's curve to the farthest corner of the released piece, on paper."""
        outer = self.bend.released(self.bend.final_face + self.bend.stack, self.bend.after)
        return hypot(*outer) * self.by


def drawn(view: View, marks: Mapping[str, Mark]) -> Piece:
    """Draw the form thick, the stack on it, and the piece after release dashed."""
    bend = view.bend
    glue = tuple(view.placed(bend.arc_on(radius, view.true)) for radius in _glue_radii(view, marks))
    return Piece(
        (
            Stroke("outline", (view.placed(bend.block(view.true)),)),
            Stroke("thin", (view.placed(_stack(view)),)),
            Stroke("layer", glue),
            Stroke("hidden", (view.placed(_released(view)),)),
            Stroke("centre", tuple(view.placed(line) for line in _middles(view, marks))),
        )
    )


def _glue_radii(view: View, marks: Mapping[str, Mark]) -> tuple[float, ...]:
    """Return the radii of the glue lines that are drawn: where they can be told apart, and none under the middle line."""
    closest = CLOSEST_MM if SECTIONED.isdisjoint(marks) else APART_MM
    if view.bend.thin * view.by < closest:
        return ()
    middled = not MIDDLED_ON_FORM.isdisjoint(marks)
    return tuple(radius for radius in view.layers if not (middled and isclose(radius, view.bend.form)))


def _stack(view: View) -> Line:
    """Return the closed outline of the stack on the form."""
    bend = view.bend
    inner, outer = (bend.arc_on(radius, view.true) for radius in (bend.face, bend.outer))
    return (*inner, *reversed(outer), inner[0])


def _released(view: View) -> Line:
    """Return the outline of the released piece, open at its held end, where it lies on the form."""
    bend = view.bend
    radii = bend.final_face, bend.final_face + bend.stack
    inner, outer = (bend.arc_released(radius, view.true) for radius in radii)
    return (*inner, *reversed(outer))


def _middles(view: View, marks: Mapping[str, Mark]) -> Iterator[Line]:
    """Yield the middle line of the stack on the form and after release, where what is measured to it is shown."""
    if not MIDDLED_ON_FORM.isdisjoint(marks):
        yield view.bend.arc_on(view.bend.form, view.true)
    if "final" in marks:
        yield view.bend.arc_released(view.bend.final, view.true)


def name_ways(view: View, shares: tuple[float, ...]) -> Iterator[Choice]:
    """Give the places of the form's name, inside it."""
    face, back = view.bend.face * view.by, max(x for x, _ in view.placed(view.bend.block(view.true)))
    half = label_box(Label(WORD, 0.0, 0.0, size_mm=SMALL_MM)).width / 2 + NAME_MM
    for share, inward in product(shares, INWARD_MM):
        _, y = view.at(view.bend.on(view.bend.face, view.bend.angle * share - view.bend.end))
        middle = -sqrt(max(face**2 - (abs(y) + SMALL_MM) ** 2, 0.0)) + half + inward
        if middle + half < back:
            label = Label(WORD, middle, y, size_mm=SMALL_MM)
            yield Choice(label_box(label).grown(NAME_MM), partial(Piece, (), (), (label,)))


def section_ways(
    bend: Bend, by: float, layout: Layout, marks: Mapping[str, Mark], spacing: Spacing
) -> Iterator[Iterator[Choice]]:
    """Draw the stack in section under the view; give the ways of its thickness and that of one lamination."""
    box, tall = layout.box, bend.stack * by
    left = (box.left + box.right - SECTION_LONG_MM) / 2
    low, right = box.bottom - UNDER_MM - tall, left + SECTION_LONG_MM
    yield iter((Choice(Box(left, low, left, low), partial(_layers, bend, by, (left, low))),))
    if "stack" in marks:
        ends = (left, low), (left, low + tall)
        yield ways(Linear("stack", marks["stack"], "left", ends, left, spacing))
    if "thin" in marks:
        ends = (right, low + tall - bend.thin * by), (right, low + tall)
        yield ways(Linear("thin", marks["thin"], "right", ends, right, spacing))


def _layers(bend: Bend, by: float, at: Point) -> Piece:
    """Draw a short part of the stack, broken off at both ends."""
    (left, low), right, tall = at, at[0] + SECTION_LONG_MM, bend.stack * by
    levels = (low + bend.thin * n * by for n in range(1, bend.laminations))
    faces = tuple(((left, y), (right, y)) for y in (low, low + tall))
    ends = tuple(torn((x, low), (x, low + tall)) for x in (left, right))
    glue = tuple(level_line(ends, y) for y in levels)
    return Piece((Stroke("outline", faces), Stroke("layer", glue), Stroke("thin", ends)))
