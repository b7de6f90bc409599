"""Bent laminations, measured: circles fitted through what is drawn, and the piece after release walked step by step."""

from itertools import pairwise
from math import acos, asin, atan2, cos, degrees, dist, hypot, radians, sin

import pytest

from coursepack.drafting.clearance import lettering_clashes
from coursepack.drafting.lamination import bend_measure, bent_lamination
from coursepack.drafting.lamination_form import Bend, bend_of, lamination_parts
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark, Point
from coursepack.drafting.template import template_sheets
from coursepack.place import LessonFault, TradeFault
from tests.drafting.measuring import measured, scale_of, section_scale_of, tips

INCH = 25.4
WIDE = Frame(118, 190)
# 6 strips of 1/8 in to a final radius of 18 in: on the form 18 (1 − 1/36) = 17.5 in, its face 17.5 − 3/8 = 17.125 in
BOW = {"laminations": 6.0, "thin": 3.175, "final": 457.2, "angle": 90.0}
# 4 strips of 3 mm on a form of 500 mm spring to 533.333 mm, the radius of least strain energy found by integration
KNEE = {"laminations": 4.0, "thin": 3.0, "form_radius": 500.0, "angle": 60.0}
CASES = [(BOW, 444.5, 457.2, 19.05), (KNEE, 500.0, 533.33335, 12.0)]


def drawn(sizes: dict[str, float], *names: str) -> Drawing:
    return bent_lamination(sizes, {name: Mark("9 mm") for name in names}, WIDE)


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def fitted(arc: Line) -> tuple[Point, float]:
    """The middle and the radius of the circle through both ends and the middle point of a line, which all must lie on."""
    (ax, ay), (bx, by), (cx, cy) = arc[0], arc[len(arc) // 2], arc[-1]
    a, b, c = (x * x + y * y for x, y in ((ax, ay), (bx, by), (cx, cy)))
    turn = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    x = (a * (by - cy) + b * (cy - ay) + c * (ay - by)) / turn
    y = (a * (cx - bx) + b * (ax - cx) + c * (bx - ax)) / turn
    radius = dist((x, y), arc[0])
    assert [dist((x, y), point) for point in arc] == pytest.approx([radius] * len(arc))
    return (x, y), radius


def middles(drawing: Drawing) -> tuple[Line, Line]:
    on_form, released = lines(drawing, "centre")
    return on_form, released


def length(line: Line) -> float:
    return sum(dist(one, other) for one, other in pairwise(line))


@pytest.mark.parametrize(("sizes", "form", "final", "stack"), CASES)
def test_the_middle_of_the_stack_is_drawn_with_both_radii(
    sizes: dict[str, float], form: float, final: float, stack: float
) -> None:
    drawing = drawn(sizes, "form_radius", "final")
    on_form, released = (fitted(line)[1] / scale_of(drawing) for line in middles(drawing))
    assert on_form == pytest.approx(form, abs=0.001)
    assert released == pytest.approx(final, abs=0.001)
    assert bend_measure(sizes)["stack"] == pytest.approx(stack)


@pytest.mark.parametrize(("sizes", "form", "stack"), [(BOW, 444.5, 19.05), (KNEE, 500.0, 12.0)])
def test_the_stack_lies_on_the_face_of_the_form_half_its_thickness_inside_its_middle(
    sizes: dict[str, float], form: float, stack: float
) -> None:
    drawing = drawn(sizes, "face", "final")
    (block,) = lines(drawing, "outline")
    middle, radius = fitted(block[:-3])
    assert radius / scale_of(drawing) == pytest.approx(form - stack / 2, abs=0.001)
    (outline,) = lines(drawing, "thin")
    reaches = sorted({round(dist(middle, point) / scale_of(drawing), 3) for point in outline})
    assert reaches == pytest.approx([form - stack / 2, form + stack / 2], abs=0.001)


@pytest.mark.parametrize("sizes", [BOW, KNEE])
def test_the_middle_of_the_stack_keeps_its_length_and_its_held_end_on_release(
    sizes: dict[str, float],
) -> None:
    on_form, released = middles(drawn(sizes, "form_radius", "final"))
    assert length(released) == pytest.approx(length(on_form), rel=1e-4)
    assert on_form[0] == pytest.approx(released[0])
    assert on_form[-1] != pytest.approx(released[-1], abs=0.1)


def walked(radius: float, arc: float, inward: float) -> Point:
    """Where a strip's inner corner ends: its middle walked from 0, 0 straight up, bending right, in many short steps."""
    steps = 20_000
    x = y = heading = 0.0
    for _ in range(steps):
        heading += arc / steps / radius / 2
        x, y = x + arc / steps * sin(heading), y + arc / steps * cos(heading)
        heading += arc / steps / radius / 2
    return x + inward * cos(heading), y - inward * sin(heading)


@pytest.mark.parametrize(("sizes", "form", "final", "stack"), CASES)
def test_the_spring_is_how_far_the_free_inner_corner_walks(
    sizes: dict[str, float], form: float, final: float, stack: float
) -> None:
    arc = form * radians(sizes["angle"])
    walk = dist(walked(form, arc, stack / 2), walked(final, arc, stack / 2))
    assert bend_measure(sizes)["spring"] == pytest.approx(walk, abs=0.01)
    assert measured(drawn(sizes, "spring"), "spring") == pytest.approx(walk, abs=0.01)


@pytest.mark.parametrize(("laminations", "lost"), [(4, 3 / 16), (8, 3 / 64)])
def test_a_shallow_rise_of_3_inches_loses_what_the_rule_of_a_trade_article_says(
    laminations: int, lost: float
) -> None:
    # the rule, rise / n²: 3 in and 4 layers lose 3/16 in, 8 layers 3/64 in; exact only for a shallow bend
    form, rise = 400.0, 3.0
    angle = degrees(acos(1 - rise / form))
    share = 1 / laminations**2
    bend = Bend(form, form / (1 - share), laminations, 0.05, angle)
    (left, high), (x, y) = bend.on(form, -bend.end), bend.released(bend.final, bend.after)
    inward = (sin(radians(bend.end)), -cos(radians(bend.end)))
    kept = (x - left) * inward[0] + (y - high) * inward[1]
    assert rise - kept == pytest.approx(lost, rel=0.01)


@pytest.mark.parametrize("sizes", [BOW, KNEE])
def test_the_arrow_of_a_radius_lies_on_its_arc_and_its_line_points_to_the_middle(
    sizes: dict[str, float],
) -> None:
    drawing = drawn(sizes, "form_radius", "final")
    for name, arc in zip(("form_radius", "final"), middles(drawing), strict=True):
        (tip,) = tips(drawing, name)
        middle, radius = fitted(arc)
        assert dist(tip, middle) == pytest.approx(radius)
        (leader,) = [line for line in lines(drawing, "dimension") if line[0] == tip]
        (x, y), (u, v) = ((leader[1][n] - tip[n] for n in (0, 1)), (middle[n] - tip[n] for n in (0, 1)))
        assert (x * v - y * u) / hypot(u, v) == pytest.approx(0.0, abs=1e-6)


def test_the_arrow_of_the_face_lies_on_the_form() -> None:
    drawing = drawn(BOW, "face")
    (block,) = lines(drawing, "outline")
    (tip,) = tips(drawing, "face")
    middle, radius = fitted(block[:-3])
    assert dist(tip, middle) == pytest.approx(radius)


@pytest.mark.parametrize("sizes", [BOW, KNEE])
def test_angle_and_arc_are_measured_between_the_ends_of_the_bend(sizes: dict[str, float]) -> None:
    drawing = drawn(sizes, "angle", "arc", "form_radius")
    middle, radius = fitted(lines(drawing, "centre")[0])
    for name in ("angle", "arc"):
        first, second = tips(drawing, name)
        assert dist(first, middle) == pytest.approx(dist(second, middle))
        assert seen(first, second, middle) == pytest.approx(sizes["angle"])
    start, end = tips(drawing, "arc")
    along = radius * radians(seen(start, end, middle)) / scale_of(drawing)
    assert bend_measure(sizes)["arc"] == pytest.approx(along)


def seen(one: Point, other: Point, middle: Point) -> float:
    """The angle in degrees between two points on a circle about a middle."""
    return degrees(2 * asin(dist(one, other) / 2 / dist(one, middle)))


@pytest.mark.parametrize(("sizes", "count", "thin"), [(BOW, 6, 3.175), (KNEE, 4, 3.0)])
def test_the_section_shows_every_lamination_in_its_thickness(
    sizes: dict[str, float], count: int, thin: float
) -> None:
    drawing = drawn(sizes, "stack", "thin")
    by = section_scale_of(drawing)
    levels = sorted(
        line[0][1] for line in lines(drawing, "layer") if len(line) == 2 and line[0][1] == line[1][1]
    )
    assert len(levels) == count - 1
    assert [(high - low) / by for low, high in pairwise(levels)] == pytest.approx([thin] * (count - 2))
    for name, size in (("stack", count * thin), ("thin", thin)):
        assert dist(*tips(drawing, name)) / by == pytest.approx(size)


def test_no_glue_line_lies_under_the_middle_line_that_a_radius_is_measured_to() -> None:
    two = {"laminations": 2.0, "thin": 6.35, "form_radius": 120.0, "angle": 90.0}
    (glue,) = lines(drawn(two, "face"), "layer")
    by = scale_of(drawn(two, "face"))
    assert fitted(glue)[1] / by == pytest.approx(120.0)
    measured_to = drawn(two, "form_radius")
    assert not lines(measured_to, "layer")
    (middle,) = lines(measured_to, "centre")
    assert fitted(middle)[1] / scale_of(measured_to) == pytest.approx(120.0)


def test_glue_lines_of_the_section_end_where_the_stack_is_broken_off() -> None:
    drawing = drawn(BOW, "stack")
    left, right = sorted(
        (line for line in lines(drawing, "thin") if zigzags(line)), key=lambda line: line[0][0]
    )
    levels = [line for line in lines(drawing, "layer") if len(line) == 2]
    assert len(levels) == 5
    for start, end in levels:
        assert off(start, left) == pytest.approx(0.0, abs=1e-6)
        assert off(end, right) == pytest.approx(0.0, abs=1e-6)


def zigzags(line: Line) -> bool:
    """Whether a line begins and ends straight above each other, and goes aside between."""
    return line[0][0] == pytest.approx(line[-1][0]) and len({round(x, 3) for x, _ in line}) == 3


def off(point: Point, line: Line) -> float:
    """How far a point lies from the nearest of the straight pieces of a line: the detour that it makes."""
    return min(dist(one, point) + dist(point, other) - dist(one, other) for one, other in pairwise(line))


def test_a_springback_that_is_told_takes_the_place_of_that_of_the_laminations() -> None:
    # 10 % of the curvature is lost: 450 / 0.9 = 500
    assert bend_of(KNEE | {"form_radius": 450.0, "springback": 10.0}).final == pytest.approx(500.0)
    assert bend_of(BOW | {"final": 500.0, "springback": 10.0}).form == pytest.approx(450.0)


def test_both_radii_are_drawn_as_they_were_measured() -> None:
    drawing = drawn(BOW | {"form_radius": 400.0, "final": 430.0}, "form_radius", "final")
    radii = [fitted(line)[1] / scale_of(drawing) for line in middles(drawing)]
    assert radii == pytest.approx([400.0, 430.0])


@pytest.mark.parametrize(
    ("sizes", "message"),
    [
        (
            BOW | {"thin": 160.0},
            "the stack is too thick for the form; take a larger radius or a thinner stack",
        ),
        (
            BOW | {"form_radius": 460.0},
            "the piece does not spring open; give a final radius above the form's",
        ),
        (BOW | {"angle": 200.0}, "a form bends by no 200 deg; stay above 0 and within 180 deg"),
        (BOW | {"thin": 0.0}, "a lamination has no thickness; give sizes above zero"),
        ({"laminations": 4.0, "thin": 3.0}, "a bent lamination needs a radius; give form_radius or final"),
        (
            BOW | {"form_radius": 440.0, "springback": 5.0},
            "both radii tell the springback already; leave springback or one radius out",
        ),
        (BOW | {"springback": 100.0}, "a springback of 100 %; stay above 0 and below 100 %"),
    ],
)
def test_a_bend_that_cannot_be_is_a_fault(sizes: dict[str, float], message: str) -> None:
    with pytest.raises(LessonFault) as caught:
        drawn(sizes)
    assert str(caught.value) == message


@pytest.mark.parametrize("count", [1.0, 2.5])
def test_laminations_that_are_no_whole_number_from_2_are_a_fault(count: float) -> None:
    with pytest.raises(TradeFault):
        drawn(BOW | {"laminations": count})


# The parts


def form_and_gauge(sizes: dict[str, float]) -> tuple[Part, Part]:
    form, gauge = lamination_parts(Sizes(sizes))
    return form, gauge


def test_the_form_at_full_size_has_the_radius_of_its_face_and_goes_on_straight_past_both_ends() -> None:
    form, _ = form_and_gauge(BOW | {"trim": 25.4})
    (outline,) = form.outlines
    start, *curve, end = outline[:-3]
    middle, radius = fitted(tuple(curve))
    assert radius / INCH == pytest.approx(17.125)
    for foot, past in ((curve[0], start), (curve[-1], end)):
        assert dist(foot, past) == pytest.approx(25.4)
        assert hypot(radius, 25.4) == pytest.approx(dist(middle, past))  # square to the radius there
    assert seen(curve[0], curve[-1], (0.0, 0.0)) == pytest.approx(90.0)


def test_the_straight_pieces_of_the_form_are_true_to_its_arc() -> None:
    form, gauge = form_and_gauge(BOW)
    for outline, radius in ((form.outlines[0], 17.125), (gauge.outlines[0], 17.625)):
        for (a, b), (c, d) in pairwise(outline[:-3]):
            assert hypot((a + c) / 2, (b + d) / 2) == pytest.approx(radius * INCH, abs=0.006)


def test_the_gauge_fills_the_inner_face_of_the_released_piece_from_end_to_end() -> None:
    _, gauge = form_and_gauge(BOW)
    curve = gauge.outlines[0][:-3]
    _, radius = fitted(curve)
    assert radius / INCH == pytest.approx(18 - 0.375)
    # 90 deg on 17.5 in are 87.5 deg on 18 in: the same length
    assert seen(curve[0], curve[-1], (0.0, 0.0)) == pytest.approx(87.5)


def test_ticks_stand_square_to_the_face_at_both_ends_of_the_piece_and_at_its_crown() -> None:
    form, _ = form_and_gauge(BOW)
    (ticks,) = [stroke.lines for stroke in form.guides if stroke.kind == "dimension"]
    for tick in ticks:
        turns = [degrees(atan2(x, y)) for x, y in tick]
        assert turns[0] == pytest.approx(turns[1])
    assert [degrees(atan2(*tick[0])) for tick in ticks] == pytest.approx([-45.0, 0.0, 45.0])


def test_the_tick_at_the_crown_crosses_the_face_and_stays_inside_the_stack() -> None:
    form, _ = form_and_gauge(BOW)
    (ticks,) = [stroke.lines for stroke in form.guides if stroke.kind == "dimension"]
    (_, inner), (_, outer) = ticks[1]
    assert inner < 17.125 * INCH < outer < (17.5 + 0.375) * INCH


def test_the_form_says_its_radius_its_grain_and_what_it_was_made_from() -> None:
    form, _ = form_and_gauge(BOW)
    assert [label.text for label in form.labels] == ["R 434.98 mm", "R 17.125 in"]
    assert form.grain is not None
    (_, low), (_, high) = form.grain
    assert low == high
    assert "form radius 444.50 mm (17.500 in), after release 457.20 mm (18.000 in)" in form.notes[0]
    assert form.notes[1] == "6 laminations of 3.17 mm (0.125 in), together 19.05 mm (0.750 in)"


@pytest.mark.parametrize(
    "changed",
    [{"final": 120.0}, {"final": 120.0, "angle": 180.0}, {"final": 60.0, "angle": 30.0}, {"trim": 25.4}],
)
def test_no_line_runs_through_lettering_on_the_full_size_sheets(changed: dict[str, float]) -> None:
    for sheet in template_sheets(lamination_parts(Sizes(BOW | {"thin": 1.5} | changed))):
        assert sheet.is_map or not list(lettering_clashes(sheet.drawing.labels, sheet.drawing))
