"""What holds for every figure, over many draws."""

import pytest

from coursepack.drafting.catalogue import FIGURES
from coursepack.drafting.grain import drawn_times
from coursepack.drafting.ink import svg
from coursepack.drafting.sheet import Drawing, Mark, clashes
from coursepack.place import LessonFault
from tests.drafting.draws import WIDE, draw
from tests.drafting.measuring import measured, paths, scale_of, tips

DRAWS = 500
MOST_REFUSED = 0.08  # of draws that show more than their frame holds


def drawings(name: str, count: int) -> list[tuple[int, Drawing, dict[str, float], dict[str, Mark]]]:
    found = []
    for seed in range(count):
        _, sizes, marks, frame = draw(name, seed)
        try:
            found.append((seed, FIGURES[name].draw(sizes, marks, frame), sizes, marks))
        except LessonFault:
            assert frame != WIDE, f"draw {seed} does not fit the wide frame"
    return found


@pytest.mark.parametrize("name", FIGURES)
def test_no_draw_has_lettering_that_meets_anything_or_leaves_the_frame(name: str) -> None:
    drawn = drawings(name, DRAWS)
    assert {seed: found for seed, drawing, _, _ in drawn if (found := clashes(drawing))} == {}
    assert len(drawn) >= DRAWS * (1 - MOST_REFUSED)


def true_on_paper(name: str, part: str, sizes: dict[str, float], scale: float) -> float:
    """What a ruler must read: the true size, or for dried sizes the change drawn larger as the title says."""
    true = FIGURES[name].measure(sizes)[part]
    if name == "end grain" and part.endswith("_after"):
        before = sizes[part.removesuffix("_after")]
        return before - drawn_times(sizes, scale) * (before - true)
    return true


@pytest.mark.parametrize("name", FIGURES)
def test_the_length_between_arrowheads_times_the_scale_is_the_true_dimension(name: str) -> None:
    for _, drawing, sizes, marks in drawings(name, 60):
        for part in marks:
            if FIGURES[name].takes.get(part) != "angle":
                assert measured(drawing, part) == pytest.approx(
                    true_on_paper(name, part, sizes, scale_of(drawing)), abs=1e-6
                )


@pytest.mark.parametrize("name", FIGURES)
def test_the_ink_lies_where_the_drawing_says(name: str) -> None:
    for _, drawing, _, _ in drawings(name, 12):
        text = svg(drawing, name)
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
        assert all(tips(drawing, part) for part in marks)


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


@pytest.mark.parametrize("name", FIGURES)
def test_the_key_keeps_the_layout_of_the_sheet(name: str) -> None:
    for seed, drawing, sizes, marks in drawings(name, 40):
        frame = draw(name, seed)[3]
        blank = {p: Mark(_unit(m.text), "blank") if m.hand == "answer" else m for p, m in marks.items()}
        sheet = FIGURES[name].draw(sizes, blank, frame)
        assert sheet.strokes == drawing.strokes
        assert sheet.fills == drawing.fills


def _unit(text: str) -> str:
    return "°" if text.endswith("°") else text.rpartition(" ")[2]


@pytest.mark.parametrize("name", FIGURES)
def test_a_figure_says_its_scale_and_is_never_taken_for_a_template(name: str) -> None:
    for _, drawing, _, _ in drawings(name, 20):
        under = " ".join(label.text for label in drawing.labels if label.y < 12)
        assert f"Scale {drawing.scale_text}" in under
        assert ("Do not cut from" if drawing.scale_text == "1:1" else "Do not measure") in " ".join(
            under.split()
        )


@pytest.mark.parametrize("name", FIGURES)
def test_what_a_figure_does_not_have_is_a_fault(name: str) -> None:
    sizes = draw(name, 1)[1]
    with pytest.raises(LessonFault, match="no dimension 'dihedral'"):
        FIGURES[name].draw(sizes, {"dihedral": Mark("3°")}, WIDE)
