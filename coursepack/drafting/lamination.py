"""A bent lamination on its form from above: the stack, its radii, the piece after release, and the stack in section."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from fractions import Fraction
from itertools import product

from coursepack.drafting.curved import Curved, Leader, bent_leader_ways, curved_ways, leader_ways
from coursepack.drafting.dimension import Spacing
from coursepack.drafting.lamination_form import Bend, bend_of
from coursepack.drafting.lamination_view import MIDDLED, SECTIONED, View, drawn, name_ways, section_ways
from coursepack.drafting.marking import refuse_missing
from coursepack.drafting.oblique import Oblique, oblique_ways
from coursepack.drafting.scale import SCALES, at_scale, finished, scale_text
from coursepack.drafting.settling import Choice, Layout, NoRoom
from coursepack.drafting.sheet import Drawing, Frame, Mark, Piece
from coursepack.drafting.wording import listed

THINNEST_MM = 0.3  # on paper, of the stack
SECTION_MM = 26.0  # on paper, of the stack in section at most
INWARD_MM = tuple(range(10, 60, 3))  # on paper, from the form's face to the dimension of an arc inside it
OUTWARD_MM = tuple(range(6, 25, 3))  # from the outermost line to one outside
LEAST_MM = 8.0  # on paper, radius of the angle's dimension
SHARES = (0.5, 0.35, 0.65, 0.25, 0.75, 0.15, 0.85)  # of the bend, where an arc's lettering or a leader stands
FREE_SHARES = (0.85, 0.75, 0.92, 0.65, 0.97, 0.5, 0.35)  # of the released piece, away from its held end
ORDERS = (  # in which dimensions take their places
    ("spring", "angle", "face", "form_radius", "arc", "final"),
    ("spring", "face", "form_radius", "angle", "arc", "final"),
    ("final", "face", "form_radius", "spring", "angle", "arc"),
    ("arc", "final", "spring", "form_radius", "face", "angle"),
)


def bent_lamination(sizes: Mapping[str, float], marks: Mapping[str, Mark], frame: Frame) -> Drawing:
    """Draw laminations bent over their form, the piece after release dashed, and under them the stack in section.

    Sizes in mm, degrees, percent and counts: laminations, thin, the thickness of one; form_radius or final or both,
    the radius on the form and after release, to the middle of the stack; springback, where it is not that of the
    laminations; angle of the bend, else 90; trim, what the form goes on past both ends. Raises LessonFault where it
    does not fit, there is no such bend, or a dimension is asked that it does not have.
    """
    bend = bend_of(sizes)
    refuse_missing("bent lamination", marks, bend_measure(sizes))
    section = section_scale(bend) if SECTIONED & marks.keys() else Fraction(0)

    def note(_: Fraction) -> str:
        inset = f"section {scale_text(section)}; " if section else ""
        middle = "" if MIDDLED.isdisjoint(marks) else "; dash-dotted: middle of the stack"
        return f"{inset}dashed: after release, held below{middle}"

    fitted = at_scale(
        "bent lamination",
        lambda by, room, spacing: _draft(View(bend, by), float(section), marks, room, spacing),
        frame,
        max(abs(x) for x, _ in bend.block(1.0)) * 2,
        note,
    )
    return finished("Bent lamination", fitted, frame, _alt(marks), note)


def bend_measure(sizes: Mapping[str, float]) -> dict[str, float]:
    """Give the true value of every dimension in mm, the angle in degrees; spring is from free end to free end."""
    bend = bend_of(sizes)
    return {
        "form_radius": bend.form, "face": bend.face, "final": bend.final,
        "thin": bend.thin, "stack": bend.stack, "angle": bend.angle, "arc": bend.arc, "spring": bend.spring,
    }  # fmt: skip


def section_scale(bend: Bend) -> Fraction:
    """Return the scale of the stack in section: the largest at which it is not too thick."""
    return next((scale for scale in SCALES if scale * bend.stack <= SECTION_MM), SCALES[-1])


def _draft(view: View, section: float, marks: Mapping[str, Mark], room: Frame, spacing: Spacing) -> Piece:
    """Draw the view with its dimensions, in the first order in which all find room."""
    if view.bend.stack * view.by < THINNEST_MM:
        raise NoRoom
    bare = drawn(view, marks)
    for order in ORDERS:
        with suppress(NoRoom):
            return _laid_out(
                bare, view, section, [name for name in order if name in marks], marks, room, spacing
            )
    raise NoRoom


def _laid_out(
    bare: Piece,
    view: View,
    section: float,
    order: Sequence[str],
    marks: Mapping[str, Mark],
    room: Frame,
    spacing: Spacing,
) -> Piece:
    layout = Layout(bare, room)
    for name in order:
        layout.settle(_dimension(view, name, marks[name], spacing))
    with suppress(NoRoom):
        layout.settle(name_ways(view, SHARES))
    if section:
        for choices in section_ways(view.bend, section, layout, marks, spacing):
            layout.settle(choices)
    return layout.piece


def _dimension(view: View, name: str, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of a dimension that the view shows."""
    match name:
        case "spring":
            return oblique_ways(_spring(view, mark, spacing))
        case "angle":
            return _angle(view, mark, spacing)
        case "arc":
            return _arc(view, mark, spacing)
        case "final":
            return _final_ways(view, mark, spacing)
    return _radius_ways(view, name, mark, spacing)


def _spring(view: View, mark: Mark, spacing: Spacing) -> Oblique:
    """Lay out the spring, from the inner corner of the free end on the form to where it springs."""
    bend = view.bend
    on_form = view.at(bend.on(bend.face, bend.end))
    return Oblique("spring", mark, (on_form, view.at(bend.released(bend.final_face, bend.after))), spacing)


def _angle(view: View, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of the angle: inside the form, else outside all."""
    for foot, radii in (_inside(view), _outside(view)):
        yield from curved_ways(Curved("angle", mark, (0.0, 0.0), view.turns, foot, radii, SHARES, spacing))


def _arc(view: View, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of the length along the middle of the stack: outside the released piece, else inside the form."""
    for _, radii in (_outside(view), _inside(view)):
        foot = view.bend.form * view.by
        dim = Curved("arc", mark, (0.0, 0.0), view.turns, foot, radii, SHARES, spacing, signed=True)
        yield from curved_ways(dim)


def _inside(view: View) -> tuple[float, tuple[float, ...]]:
    """Return the radius of the form's face on paper, and those at which a dimension may lie inside it."""
    face = view.bend.face * view.by
    return face, tuple(face - inward for inward in INWARD_MM if face - inward > LEAST_MM)


def _outside(view: View) -> tuple[float, tuple[float, ...]]:
    """Return the radius of the stack's outer face on paper, and those at which a dimension may lie outside all."""
    outer = view.bend.outer * view.by
    return outer, tuple(max(view.farthest, outer) + further for further in OUTWARD_MM)


def _radius_ways(view: View, name: str, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of a radius on the form, its line towards the middle first."""
    bend = view.bend
    radius = bend.face if name == "face" else bend.form
    turns = [bend.angle * share - bend.end for share in SHARES]
    inward, outward = (
        [Leader(name, mark, view.at(bend.on(radius, turn)), way - turn, spacing) for turn in turns]
        for way in (0.0, 180.0)
    )
    return _leaders(inward, outward)


def _final_ways(view: View, mark: Mark, spacing: Spacing) -> Iterator[Choice]:
    """Give the ways of the radius after release, its line away from the middle first."""
    bend = view.bend
    turns = [bend.after * share for share in FREE_SHARES]
    outward, inward = (
        [
            Leader("final", mark, view.at(bend.released(bend.final, turn)), way + bend.end - turn, spacing)
            for turn in turns
        ]
        for way in (180.0, 0.0)
    )
    return _leaders(outward, inward)


def _leaders(first: Sequence[Leader], then: Sequence[Leader]) -> Iterator[Choice]:
    """Give the ways of some leaders on straight lines, then on bent ones."""
    for lead_ways, leaders in product((leader_ways, bent_leader_ways), (first, then)):
        for leader in leaders:
            yield from lead_ways(leader)


def _alt(marks: Mapping[str, Mark]) -> str:
    names = {
        "form_radius": "radius of the bend on the form, to the middle of the stack", "face": "radius of the form's face",
        "final": "radius after release, to the middle of the stack", "angle": "angle of the bend on the form",
        "arc": "length of the bend along the middle of the stack", "stack": "thickness of the stack",
        "thin": "thickness of one lamination",
        "spring": "springback, from the free end on the form to the free end after release, at the inner corners",
    }  # fmt: skip
    return (
        "A bent lamination on its form, from above, and dashed the piece after release, held at one end. "
        f"{listed(names, marks)}"
    )
