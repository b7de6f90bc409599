"""What holds for every figure, over many draws."""

from fractions import Fraction
from functools import cache

import pytest

from coursepack.drafting.beam import sag_times
from coursepack.drafting.catalogue import FIGURES
from coursepack.drafting.clearance import clashes
from coursepack.drafting.grain import drawn_times
from coursepack.drafting.ink import svg
from coursepack.drafting.part import Sizes
from coursepack.drafting.sheet import Drawing, Frame, Mark
from coursepack.place import LessonFault
from tests.drafting.draws import COLUMN, WIDE, draw, mark, shop_inches, shop_metric, unit_of
from tests.drafting.measuring import detail_scale_of, measured, paths, scale_of, section_scale_of, tips

DRAWS = 500  # in the column, where lessons have their figures
WIDE_DRAWS = 120
# no smaller in the column, lest its lettering swamp it; a whole wing rib is long, and so are a beam and a blank
LEAST_SCALE = {
    "beam": 1 / 50, "bevel guide": 1 / 20, "rib outline": 1 / 10, "spar face": 1 / 20, "cutting plan": 1 / 100, "nose rib": 1 / 10,
    "saw reach": 1 / 10, "bent lamination": 1 / 10, "levelled blank": 1 / 100,
}  # fmt: skip

# a diagram shows no part, so it has no scale
DIAGRAMS = {"noise day"}
SCALED = [name for name in FIGURES if name not in DIAGRAMS]
# what is read off ticks or stands in a table has no two ends to measure between; its own tests measure it
LETTERED = DIAGRAMS | {"rule reading", "vernier reading"}
# what is drawn in a section at a scale of its own
IN_SECTION = {"plywood patch": {"skin", "run"}, "bent lamination": {"stack", "thin"}}
# what is drawn in a detail or a view that letters a scale of its own, by that letter
IN_DETAIL = {
    "levelled blank": {
        "rise": "A",
        "packing": "B",
        "gap": "C",
        "depth": "END",
        "width": "END",
        "blade": "END",
    },
    "leaning blank": {"gap": "C"},
}
# a radius has one arrowhead and a length along an arc is no straight one; its own tests fit the arc
CURVED = {"bent lamination": {"form_radius", "face", "final", "arc"}}


def drawings(
    name: str, count: int, frame: Frame | None = None
) -> list[tuple[int, Drawing, Sizes, dict[str, Mark]]]:
    return [_drawn(name, seed, frame) for seed in range(count)]


@cache  # many laws are tried on the same draws
def _drawn(name: str, seed: int, frame: Frame | None) -> tuple[int, Drawing, Sizes, dict[str, Mark]]:
    _, sizes, marks, drawn_in = draw(name, seed)
    return seed, FIGURES[name].draw(sizes, marks, frame or drawn_in), sizes, marks


@pytest.mark.parametrize("frame", [COLUMN, WIDE], ids=["column", "wide"])
@pytest.mark.parametrize("name", FIGURES)
def test_every_draw_fits_and_no_lettering_meets_anything_or_leaves_the_frame(name: str, frame: Frame) -> None:
    drawn = drawings(name, DRAWS if frame is COLUMN else WIDE_DRAWS, frame)
    assert {seed: found for seed, drawing, _, _ in drawn if (found := clashes(drawing))} == {}
    assert max(drawing.height for _, drawing, _, _ in drawn) <= frame.height


@pytest.mark.parametrize("name", SCALED)
def test_no_draw_is_too_small_in_the_column(name: str) -> None:
    least = LEAST_SCALE.get(name, 1 / 5)
    assert min(scale_of(drawing) for _, drawing, _, _ in drawings(name, DRAWS, COLUMN)) >= least


def true_on_paper(name: str, part: str, sizes: Sizes, drawing: Drawing) -> float:
    """What a ruler must read: the true size, or what the title says is drawn larger."""
    true = FIGURES[name].measure(sizes)[part]
    if name == "end grain" and part.endswith("_after"):
        before = sizes[part.removesuffix("_after")]
        return before - drawn_times(sizes, scale_of(drawing)) * (before - true)
    if name == "beam" and part == "deflection":
        return true * sag_times(sizes, scale_of(drawing))
    if part in IN_SECTION.get(name, ()):
        return true * section_scale_of(drawing) / scale_of(drawing)
    if part in (letters := IN_DETAIL.get(name, {})):
        return true * detail_scale_of(drawing, letters[part]) / scale_of(drawing)
    return true


@pytest.mark.parametrize("name", [name for name in FIGURES if name not in LETTERED])
def test_the_length_between_arrowheads_times_the_scale_is_the_true_dimension(name: str) -> None:
    for _, drawing, sizes, marks in drawings(name, 60):
        for part in marks:
            if FIGURES[name].kind_of(part) == "length" and part not in CURVED.get(name, ()):
                assert measured(drawing, part) == pytest.approx(
                    true_on_paper(name, part, sizes, drawing), abs=1e-6
                )


@pytest.mark.parametrize("name", FIGURES)
def test_the_ink_lies_where_the_drawing_says(name: str) -> None:
    for _, drawing, _, _ in drawings(name, 12):
        text = svg(drawing)
        inked = [point for line in paths(text, "arrowheads") for point in line[:1]]
        drawn = [fill.polygon[0] for fill in drawing.fills]
        assert [x for point in inked for x in point] == pytest.approx(
            [x for p in drawn for x in p], abs=0.002
        )
        outline = [line for stroke in drawing.strokes if stroke.kind == "outline" for line in stroke.lines]
        for line, laid in zip(paths(text, "outline"), outline, strict=True):
            assert [x for point in line for x in point] == pytest.approx(
                [x for point in laid[: len(line)] for x in point], abs=0.002
            )


@pytest.mark.parametrize("name", FIGURES)
def test_every_marked_dimension_is_drawn_and_no_other(name: str) -> None:
    for _, drawing, _, marks in drawings(name, 30):
        assert {label.of for label in drawing.labels} - {""} == set(marks)
        assert name in LETTERED or all(tips(drawing, part) for part in marks)


@pytest.mark.parametrize("name", FIGURES)
def test_the_student_is_told_no_more_than_the_printed_marks(name: str) -> None:
    for _, drawing, sizes, marks in drawings(name, 40):
        loud = {
            part: Mark("77.7 mm" if mark.hand == "print" else mark.text, mark.hand)
            for part, mark in marks.items()
        }
        again = FIGURES[name].draw(sizes, loud, WIDE)
        said = [mark for mark in loud.values() if mark.hand == "print"]
        assert again.alt.count("77.7 mm") == len(said)
        assert again.alt.count("to be found") == sum(mark.hand == "blank" for mark in loud.values())
        assert drawing.alt


@pytest.mark.parametrize("frame", [COLUMN, WIDE], ids=["column", "wide"])
@pytest.mark.parametrize("name", FIGURES)
def test_the_student_and_the_key_see_one_figure_at_one_scale(name: str, frame: Frame) -> None:
    for seed in range(60):
        _, sizes, marks, _ = draw(name, seed)
        blank = {p: Mark(unit_of(m.text), "blank") if m.hand == "answer" else m for p, m in marks.items()}
        true = FIGURES[name].measure(sizes)
        key = {
            p: mark(name, p, true[p], "answer", shop_inches if m.text == "in" else shop_metric)
            if m.hand == "blank"
            else m
            for p, m in marks.items()
        }
        sheet, answered = (FIGURES[name].draw(sizes, each, frame) for each in (blank, key))
        assert sheet.scale_text == answered.scale_text
        assert (sheet.width, sheet.height) == (answered.width, answered.height)
        assert sheet.strokes == answered.strokes
        assert sheet.fills == answered.fills


@pytest.mark.parametrize("name", sorted(DIAGRAMS))
def test_a_diagram_says_that_it_is_not_to_scale_and_takes_none(name: str) -> None:
    _, drawing, sizes, _ = drawings(name, 1)[0]
    assert drawing.scale_text == ""
    assert "Not to scale." in [label.text for label in drawing.labels]
    with pytest.raises(LessonFault, match="is a diagram and has no scale"):
        FIGURES[name].draw(sizes, {}, Frame(58, 190, Fraction(1, 2)))


@pytest.mark.parametrize("name", SCALED)
def test_a_figure_says_its_scale_and_is_never_taken_for_a_template(name: str) -> None:
    for _, drawing, _, _ in drawings(name, 20):
        under = " ".join(label.text for label in drawing.labels if label.y < 12)
        assert f"Scale {drawing.scale_text}" in under
        assert (
            "Do not cut from" if drawing.scale_text == "1:1" else f"Scale {drawing.scale_text}"
        ) in " ".join(under.split())


@pytest.mark.parametrize("name", FIGURES)
def test_what_a_figure_does_not_have_is_a_fault(name: str) -> None:
    sizes = draw(name, 1)[1]
    with pytest.raises(LessonFault, match="no dimension 'dihedral'"):
        FIGURES[name].draw(sizes, {"dihedral": Mark("3°")}, WIDE)


@pytest.mark.parametrize("name", FIGURES)
def test_no_lettering_is_smaller_than_eight_points(name: str) -> None:
    sizes = {label.size_mm for _, drawing, _, _ in drawings(name, 100, COLUMN) for label in drawing.labels}
    assert min(sizes) >= 8 * 25.4 / 72
