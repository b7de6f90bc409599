import pytest

from coursepack.drafting.beam import beam, beam_measure
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.place import LessonFault
from tests.drafting.measuring import measured, scale_of, tips

BEAM = {"span": 711.2, "deflection": 2.0, "load": 445.0}
MIDSPAN, END = {"load_at": 355.6}, {"load_at": 711.2, "clamped": 1.0}
QUARTERS = {"load_at": 177.8, "loads": 2.0}


def drawn(show: str, **sizes: float) -> Drawing:
    return beam(BEAM | sizes, {name: Mark("9 in") for name in show.split()}, Frame())


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def sags(drawing: Drawing) -> list[float]:
    (curve,) = lines(drawing, "hidden")
    return [curve[0][1] - y for _, y in curve]


def test_the_span_and_the_place_of_the_load_are_to_scale() -> None:
    drawing = drawn("span load_at", **MIDSPAN)
    assert (measured(drawing, "span"), measured(drawing, "load_at")) == pytest.approx((711.2, 355.6))
    assert max(x for x, _ in tips(drawing, "load_at")) == pytest.approx(tips(drawing, "load")[0][0])


def test_the_deflection_is_drawn_as_many_times_as_large_as_the_title_says() -> None:
    drawing = drawn("deflection", **MIDSPAN)
    said = " ".join(label.text for label in drawing.labels)
    assert "deflection drawn 80 times as large, depth not" in said
    assert measured(drawing, "deflection") == pytest.approx(2.0 * 80)
    assert max(sags(drawing)) / scale_of(drawing) == pytest.approx(2.0 * 80)


def test_a_deflection_that_shows_as_it_is_is_not_drawn_larger() -> None:
    drawing = drawn("deflection", deflection=200.0)
    assert measured(drawing, "deflection") == pytest.approx(200.0)
    assert "times" not in drawing.alt


# Wood Handbook GTR-282, Table 9-1: quarter-point loads, 1/96 at a load and 11/768 at midspan
def test_a_deflection_read_at_a_load_is_that_share_of_the_one_at_midspan() -> None:
    drawing = drawn("deflection", **QUARTERS, read_at=177.8)
    assert measured(drawing, "deflection") / (max(sags(drawing)) / scale_of(drawing)) == pytest.approx(8 / 11)


@pytest.mark.parametrize(
    ("sizes", "arrows"),
    [({}, 9), (MIDSPAN, 1), (QUARTERS, 2), (END, 1)],
    ids=["uniform", "one", "two", "end"],
)
def test_every_load_has_its_arrow_on_the_beam(sizes: dict[str, float], arrows: int) -> None:
    drawing = drawn("load span", **sizes)
    (edges,) = lines(drawing, "outline")
    assert len(tips(drawing, "load")) == arrows
    assert {y for _, y in tips(drawing, "load")} == {max(y for _, y in edges)}


@pytest.mark.parametrize("clamped", [0.0, 1.0, 2.0])
def test_a_held_end_does_not_sag_and_a_built_in_one_leaves_its_wall_level(clamped: float) -> None:
    drawn_sags = sags(drawn("span", clamped=clamped))
    assert drawn_sags[0] == 0
    assert (drawn_sags[2] / drawn_sags[1] > 3.5) == (clamped > 0)  # a level start grows by the square
    assert (drawn_sags[-1] == pytest.approx(0)) == (clamped != 1)


@pytest.mark.parametrize(
    ("sizes", "message"),
    [
        ({"clamped": 3.0}, "3 ends of the beam are built in; clamped must be 0, 1 or 2"),
        ({"load_at": 711.2}, "the beam cannot bear 1 loads so placed"),
        ({"load_at": 500.0, "loads": 2.0}, "or two with load_at in its first half"),
        ({"read_at": 900.0}, "give read_at inside the span"),
        ({"deflection": 0.0}, "above zero"),
    ],
)
def test_a_beam_that_cannot_be_is_a_fault(sizes: dict[str, float], message: str) -> None:
    with pytest.raises(LessonFault) as caught:
        drawn("span", **sizes)
    assert message in str(caught.value)


def test_a_place_is_measured_once_where_the_deflection_is_read_at_a_load() -> None:
    assert "read_at" not in beam_measure(BEAM | QUARTERS | {"read_at": 177.8})
    assert beam_measure(BEAM | QUARTERS | {"read_at": 300.0})["read_at"] == 300.0


def test_the_sheet_says_that_the_deflection_is_to_be_found() -> None:
    marks = {"span": Mark("28 in"), "deflection": Mark("in", "blank")}
    assert beam(BEAM | END, marks, Frame()).alt == (
        "A beam built in at its left end, its right end free, under one load. Its deflection is drawn 80 times as "
        "large. Span: 28 in. Deflection: to be found."
    )
