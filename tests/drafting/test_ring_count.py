from itertools import pairwise

import pytest
from shapely import LineString, box

from coursepack.drafting.ring_count import ring_count
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.place import LessonFault
from tests.drafting.measuring import measured, outline, tips

PIECE = {"wide": 76.2, "thick": 25.4, "span": 50.8, "rings": 24.0}
SHOWN = {"span": Mark("2 in"), "wide": Mark("3 in"), "thick": Mark("1 in")}


def drawn(**sizes: float) -> Drawing:
    return ring_count(PIECE | sizes, SHOWN, Frame())


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


@pytest.mark.parametrize("rings", [1, 2, 7, 24, 40])
@pytest.mark.parametrize("span", [50.8, 60.0, 76.2])
def test_as_many_rings_as_given_cross_the_line_inside_the_span(rings: int, span: float) -> None:
    drawing = drawn(rings=float(rings), span=span)
    low, high = sorted(y for _, y in tips(drawing, "span"))
    middle = sum(x for x, _ in outline(drawing)[:2]) / 2
    counted = LineString([(middle, low), (middle, high)])
    assert sum(counted.crosses(LineString(ring)) for ring in lines(drawing, "thin")) == rings


def test_the_span_and_the_section_are_to_scale() -> None:
    drawing = drawn()
    assert [measured(drawing, name) for name in SHOWN] == pytest.approx([50.8, 76.2, 25.4])


def test_no_ring_lies_so_near_an_end_of_the_span_that_its_count_is_in_doubt() -> None:
    drawing = drawn()
    middle = sum(x for x, _ in outline(drawing)[:2]) / 2
    ends = [y for _, y in tips(drawing, "span")]
    rings = [y for line in lines(drawing, "thin") for x, y in line if x == pytest.approx(middle)]
    assert len(rings) > 24
    assert min(abs(ring - end) for ring in rings for end in ends) > 0.5


@pytest.mark.parametrize("rings", [3.0, 24.0])
def test_rings_fill_the_section_and_stay_in_it(rings: float) -> None:
    drawing = drawn(rings=rings)
    xs, ys = zip(*outline(drawing), strict=True)
    section = box(min(xs), min(ys), max(xs), max(ys)).buffer(1e-6)
    drawn_rings = [LineString(line) for line in lines(drawing, "thin")]
    assert all(section.covers(ring) for ring in drawn_rings)
    heights = sorted(ring.centroid.y for ring in drawn_rings)
    steps = [high - low for low, high in pairwise(heights)]
    assert max(steps) < 2 * 50.8 / rings


def test_rings_too_close_to_count_are_drawn_larger_or_refused() -> None:
    small = ring_count(
        {"wide": 12.0, "thick": 6.0, "span": 10.0, "rings": 12.0}, {"span": Mark("10 mm")}, Frame()
    )
    assert small.scale_text == "2:1"
    with pytest.raises(LessonFault, match="does not fit"):
        drawn(rings=60.0)


@pytest.mark.parametrize(
    ("sizes", "message"),
    [
        ({"span": 80.0}, "leaves the section; give span up to wide"),
        ({"rings": 2.5}, "2.5 rings cannot be counted"),
    ],
)
def test_what_cannot_be_counted_is_a_fault(sizes: dict[str, float], message: str) -> None:
    with pytest.raises(LessonFault) as caught:
        drawn(**sizes)
    assert message in str(caught.value)


def test_the_sheet_never_says_how_many_rings_there_are() -> None:
    asked = ring_count(PIECE, SHOWN | {"rings": Mark("", "blank")}, Frame())
    assert asked.alt.endswith("Rings in the span: to be found.")
    assert not any("24" in label.text for label in asked.labels)
