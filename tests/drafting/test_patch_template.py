"""The patch and the template of its opening, measured; sizes after FAA AC 43.13-1B, paragraph 1-51."""

import re
from itertools import pairwise
from math import dist, hypot

import pytest

from coursepack.drafting.catalogue import FIGURES
from coursepack.drafting.clearance import clashes
from coursepack.drafting.cutting import cut_svg
from coursepack.drafting.label import label_box
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.patch_template import patch_parts
from coursepack.drafting.sheet import Line
from coursepack.drafting.template import template_sheets
from coursepack.easel import Order, drawn
from coursepack.place import LessonFault
from tests.drafting.draws import draw
from tests.press.pdf_reading import opened, read
from tests.press.ruler import polylines

INCH = 25.4
# a skin of 1/16 in: scarfed 1 in 12 round a hole of 1 in; splayed 5 thicknesses wide round one of 5/8 in
SCARFED = {"skin": INCH / 16, "hole": INCH, "run": 12 * INCH / 16}
SPLAYED = {"skin": INCH / 16, "hole": 5 * INCH / 8, "run": 5 * INCH / 16}
LARGE = {"skin": 3.0, "hole": 75.0, "run": 45.0}
TRUE_MM = 0.01
KINDS = pytest.mark.parametrize(
    ("sizes", "hole", "patch"),
    [(SCARFED, 1.0, 1 + 2 * 12 / 16), (SPLAYED, 5 / 8, 5 / 8 + 2 * 5 / 16)],
    ids=["scarfed", "splayed"],
)


def both(sizes: dict[str, float]) -> tuple[Part, Part]:
    patch, opening = patch_parts(Sizes(sizes))
    return patch, opening


def guides(part: Part, kind: str) -> list[Line]:
    return [line for stroke in part.guides if stroke.kind == kind for line in stroke.lines]


def assert_round(line: Line, diameter: float) -> None:
    """Every corner lies on the circle, and no side leaves it by more than TRUE_MM."""
    radius = diameter / 2
    assert [hypot(*point) for point in line] == pytest.approx([radius] * len(line))
    sides = [((a + c) / 2, (b + d) / 2) for (a, b), (c, d) in pairwise(line)]
    assert min(hypot(*middle) for middle in sides) > radius - TRUE_MM
    assert line[0] == pytest.approx(line[-1])


@KINDS
def test_the_patch_is_as_wide_as_hole_and_both_slopes(
    sizes: dict[str, float], hole: float, patch: float
) -> None:
    part, _ = both(sizes)
    (outline,), (inner,) = part.outlines, guides(part, "hidden")
    assert_round(outline, patch * INCH)
    assert_round(inner, hole * INCH)


@KINDS
def test_the_template_has_the_trimmed_hole_cut_out_and_the_edge_of_the_slope_round_it(
    sizes: dict[str, float], hole: float, patch: float
) -> None:
    _, part = both(sizes)
    card, cut_out = part.outlines
    (edge,) = guides(part, "layer")
    assert_round(cut_out, hole * INCH)
    assert_round(edge, patch * INCH)
    assert {(abs(x), abs(y)) for x, y in card} == {(card[2][0], card[2][0])}
    assert card[2][0] >= patch / 2 * INCH + 5


def test_patch_and_template_bear_the_same_line_along_the_grain_from_edge_to_edge() -> None:
    patch, opening = both(SCARFED)
    far = max(x for x, _ in opening.outlines[0])
    for part, end in ((patch, 2.5 / 2 * INCH), (opening, far)):
        line = guides(part, "centre")[0]
        assert [x for point in line for x in point] == pytest.approx([-end, 0.0, end, 0.0])
        assert part.straight == line
        assert part.grain
        assert part.grain[0][1] == part.grain[1][1]


def test_the_template_always_has_its_grain_arrow_and_a_larger_patch_too() -> None:
    for seed in range(200):
        sizes = draw("plywood patch", seed)[1]
        patch, opening = patch_parts(sizes)
        assert opening.grain is not None
        assert patch.grain is not None or sizes["hole"] + 2 * sizes["run"] < 40


def test_the_parts_are_lettered_where_there_is_room() -> None:
    patch, opening = both(SCARFED)
    assert [label.text for label in patch.labels] == ["OUTER FACE"]
    assert [label.text for label in opening.labels] == ["HOLE", "SLOPE"]
    (slope,) = [label for label in opening.labels if label.text == "SLOPE"]
    box = label_box(slope)
    corners = [(x, y) for x in (box.left, box.right) for y in (box.bottom, box.top)]
    assert all(INCH / 2 < hypot(*corner) < 2.5 * INCH / 2 for corner in corners)


def test_the_notes_say_the_sizes_the_slope_and_how_the_grain_lies() -> None:
    patch, opening = both(SCARFED)
    along = "the line from side to side lies along the face grain"
    assert patch.notes == (
        "patch: 63.5 mm (2.5 in) across, dashed its inner face; slope 1 in 12",
        along,
    )
    assert opening.notes == (
        "opening: 25.4 mm (1 in) across, round it the edge of the slope in the skin",
        along,
    )
    assert "outside the line" in patch.cut
    assert "hole of the opening inside its line" in opening.cut


def test_nothing_collides_on_the_sheets_of_any_patch() -> None:
    for seed in range(150):
        for sheet in template_sheets(patch_parts(draw("plywood patch", seed)[1])):
            assert clashes(sheet.drawing) == [], (seed, sheet.name)


def test_a_large_patch_comes_on_sheets_that_are_taped_along_its_grain() -> None:
    names = [sheet.name for sheet in template_sheets(both(LARGE))]
    assert names == ["map", "A1", "A2", "map", "A1", "A2"]


def test_a_machine_gets_a_round_path_and_a_card_with_its_hole() -> None:
    paths = re.findall(r'<path d="([^"]*)">', cut_svg(both(SCARFED)))
    assert [path.count("M") for path in paths] == [1, 2]
    points = [tuple(map(float, pair)) for pair in re.findall(r"([\d.]+) ([\d.]+)", paths[0])]
    assert max(x for x, _ in points) - min(x for x, _ in points) == pytest.approx(63.5, abs=1e-3)


def test_a_slope_as_steep_as_it_is_thick_is_a_fault() -> None:
    with pytest.raises(LessonFault) as caught:
        both(SCARFED | {"run": 1.5})
    assert str(caught.value) == (
        "the slope of the patch is too steep; give it a 'run' above the thickness of the skin"
    )


def test_a_ruler_reads_both_diameters_on_the_printed_sheet() -> None:
    assert FIGURES["plywood patch"].is_cut
    sizes = {"skin": "1/16 in", "hole": "1 in", "run": "3/4 in"}
    with opened(drawn(Order("plywood patch", sizes, "full size"), ".pdf")) as pdf:
        (page,) = pdf.pages
        text = read(page).whole
        rounds = [line for line in polylines(page) if len(line) > 40]
    widths = []
    for line in rounds:
        xs, ys = zip(*line, strict=True)
        widths.append(max(xs) - min(xs))
        middle = (max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2
        assert all(abs(dist(point, middle) - widths[-1] / 2) < 0.05 for point in line)
    assert sorted(widths) == pytest.approx([25.4, 25.4, 63.5, 63.5], abs=0.05)
    assert "FULL SIZE 1:1" in text
    assert "slope1in12" in "".join(text.split())
    assert text.count("GRAIN") == 2
