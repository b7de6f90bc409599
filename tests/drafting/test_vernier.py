"""Army Ordnance OD1642, figure 45, reads 1.000 + 0.400 + 3 × 0.025 + 0.011 = 1.486 in."""

from itertools import pairwise

import pytest

from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.drafting.vernier import vernier_figure
from coursepack.drafting.vernier_scale import VERNIERS
from coursepack.place import LessonFault
from tests.drafting.measuring import scale_of

INCH = 25.4
# step, divisions of the vernier, division of the main scale, in mm
MADE = [
    (INCH / 1000, 25, INCH / 40),
    (INCH / 128, 8, INCH / 16),
    (0.02, 50, 1.0),
    (0.05, 20, 1.0),
    (0.1, 10, 1.0),
]


def drawn(reading: float, step: float, frame: Frame | None = None, **sizes: float) -> Drawing:
    marks = {name: Mark("", "blank") for name in ("reading", *sizes)}
    return vernier_figure({"reading": reading, "step": step} | sizes, marks, frame or Frame())


def lines(drawing: Drawing, view: int) -> tuple[list[float], list[float]]:
    """Where the main scale's lines and the vernier's stand, in the whole view (0) or the detail (1)."""
    strokes = [stroke for stroke in drawing.strokes if stroke.kind == "layer"]
    above = sorted(line[0][0] for line in strokes[view].lines if _rises(line))
    below = sorted(line[0][0] for line in strokes[view].lines if not _rises(line))
    return above, below


def _rises(line: Line) -> bool:
    return line[1][1] > line[0][1]


def coincide(drawing: Drawing, view: int, within: float) -> list[int]:
    main, own = lines(drawing, view)
    return [n for n, x in enumerate(own) if min(abs(x - other) for other in main) < within]


def test_the_verniers_that_can_be_drawn_are_those_that_are_tested() -> None:
    assert [(v.by, v.lines, v.division) for v in VERNIERS] == [pytest.approx(made) for made in MADE]


@pytest.mark.parametrize(("step", "count", "division"), MADE)
def test_a_vernier_has_as_many_divisions_over_one_less_of_the_main_scale(
    step: float, count: int, division: float
) -> None:
    drawing = drawn(37 * division + 3 * step, step)
    main, own = lines(drawing, 0)
    scale = scale_of(drawing)
    assert len(own) == count + 1
    assert (own[-1] - own[0]) / scale == pytest.approx((count - 1) * division)
    assert [(b - a) / scale for a, b in pairwise(main)] == pytest.approx([division] * (len(main) - 1))


@pytest.mark.parametrize("frame", [Frame(58), Frame(118)], ids=["column", "wide"])
@pytest.mark.parametrize(("step", "count", "division"), MADE)
def test_only_the_line_of_the_reading_coincides(
    step: float, count: int, division: float, frame: Frame
) -> None:
    for line in range(1, count):
        drawing = drawn(41 * division + line * step, step, frame)
        assert coincide(drawing, 0, step * scale_of(drawing) / 2) == [line]


@pytest.mark.parametrize(("step", "count", "division"), MADE)
def test_at_no_rest_both_ends_of_the_vernier_coincide(step: float, count: int, division: float) -> None:
    drawing = drawn(41 * division, step)
    assert coincide(drawing, 0, step * scale_of(drawing) / 2) == [0, count]


@pytest.mark.parametrize(("step", "count", "division"), MADE)
def test_the_zero_of_the_vernier_stands_at_the_reading_counted_from_a_number(
    step: float, count: int, division: float
) -> None:
    for rest in range(0, count, 3):
        reading = 43 * division + rest * step
        drawing = drawn(reading, step)
        edge = max(label.y for label in drawing.labels)  # the numbers of the main scale stand highest
        number = next(label for label in drawing.labels if label.y > edge - 1 and label.text.isdigit())
        unit = 1.0 if division == 1.0 else INCH
        zero = lines(drawing, 0)[1][0]
        read = int(number.text) * unit + (zero - number.x) / scale_of(drawing)
        assert read == pytest.approx(reading, abs=1e-6)


@pytest.mark.parametrize("frame", [Frame(58), Frame(118)], ids=["column", "wide"])
@pytest.mark.parametrize(("step", "count", "division"), [made for made in MADE if made[0] < 0.06])
def test_in_the_detail_one_line_coincides_and_its_neighbours_visibly_do_not(
    step: float, count: int, division: float, frame: Frame
) -> None:
    seen = set()
    for line in range(count):
        drawing = drawn(41 * division + line * step, step, frame)
        main, own = lines(drawing, 1)
        (found,) = coincide(drawing, 1, 1e-6)
        apart = [min(abs(x - other) for other in main) for n, x in enumerate(own) if n != found]
        assert min(apart) >= 10 * step - 1e-6
        assert len(own) >= 5
        seen.add(found)
    assert len(seen) > 2  # where it stands in the detail tells nothing


@pytest.mark.parametrize("line", range(0, 25, 4))
def test_the_detail_shows_the_lines_over_its_bracket(line: int) -> None:
    drawing = drawn(41 * INCH / 40 + line * INCH / 1000, INCH / 1000)
    (bracket,) = [
        b for s in drawing.strokes if s.kind == "thin" for b in s.lines if len(b) == 4 and b[0][1] == b[3][1]
    ]
    whole, detail = lines(drawing, 0)[1], lines(drawing, 1)[1]
    over = [n for n, x in enumerate(whole) if bracket[0][0] - 1e-6 <= x <= bracket[3][0] + 1e-6]
    assert len(over) == len(detail)
    assert line in over
    assert over[coincide(drawing, 1, 1e-6)[0]] == line


def test_a_coarse_vernier_needs_no_detail() -> None:
    drawing = drawn(17.3, 0.1)
    assert len([stroke for stroke in drawing.strokes if stroke.kind == "layer"]) == 1
    assert not any("detail" in label.text for label in drawing.labels)


def test_the_reading_of_figure_45_in_od1642_is_drawn_with_line_11_on_a_line_of_the_main_scale() -> None:
    drawing = drawn(1.486 * INCH, INCH / 1000, main=1.475 * INCH, line=11.0)
    assert coincide(drawing, 0, 1e-6) == [11]
    assert [label.of for label in drawing.labels if label.of] == ["main", "line", "reading"]
    assert drawing.alt.count("to be found") == 3
    assert "11" not in drawing.alt


def test_numbers_stand_on_the_lines_that_a_caliper_numbers() -> None:
    drawing = drawn(1.486 * INCH, INCH / 1000)
    own = lines(drawing, 0)[1]
    numbered = {label.text: label.x for label in drawing.labels if label.x in own}
    assert {text: own.index(x) for text, x in numbered.items()} == {str(n): n for n in range(0, 26, 5)}
    tenths = drawn(37.46, 0.02)
    own = lines(tenths, 0)[1]
    numbered = {label.text: label.x for label in tenths.labels if label.x in own and label.text != "60"}
    assert {text: own.index(x) for text, x in numbered.items()} == {str(n): 5 * n for n in range(11)}


def test_a_setting_that_is_not_the_readings_is_a_fault() -> None:
    with pytest.raises(LessonFault, match="does not have this 'line'"):
        drawn(1.486 * INCH, INCH / 1000, line=12.0)
    with pytest.raises(LessonFault, match="does not have this 'main'"):
        drawn(1.486 * INCH, INCH / 1000, main=1.45 * INCH)
    with pytest.raises(LessonFault, match="no line of the vernier coincides"):
        drawn(1.4865 * INCH, INCH / 1000)
    with pytest.raises(LessonFault, match=r"no vernier here reads to 0\.03 mm"):
        drawn(3.0, 0.03)
