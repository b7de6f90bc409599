from fractions import Fraction

import pytest

from coursepack.drafting.clearance import clashes
from coursepack.drafting.part import Sizes
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.drafting.wedge import slope_wedge, wedge_measure, wedge_parts
from coursepack.place import LessonFault
from tests.drafting.measuring import measured, scale_of, tips

# a wedge for 1 in 12: 1/4 in + 6 in / 12 = 3/4 in at its thick end
WEDGE = {"base": 152.4, "thin": 6.35, "parts": 12.0}
ALL = {"base": Mark("6 in"), "thin": Mark("1⁄4 in"), "thick": Mark("3⁄4 in")}


def drawn(marks: dict[str, Mark] | None = None, frame: Frame | None = None, **sizes: float) -> Drawing:
    return slope_wedge(WEDGE | sizes, ALL if marks is None else marks, frame or Frame())


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


def test_a_wedge_thickens_by_its_base_divided_by_the_second_number_of_the_slope() -> None:
    assert wedge_measure(WEDGE)["thick"] == pytest.approx(19.05)


def test_the_wedge_is_drawn_as_large_as_it_is_lettered_at_the_scale_under_it() -> None:
    drawing = drawn()
    wedge, scale = lines(drawing, "outline")[0], scale_of(drawing)
    (x0, y0), (thin, _), (thick, high), *_ = wedge
    found = [(thin - x0) / scale, (thick - x0) / scale, (high - y0) / scale]
    assert found == pytest.approx([6.35, 19.05, 152.4])


@pytest.mark.parametrize(("part", "size"), [("thin", 6.35), ("thick", 19.05), ("base", 152.4)])
def test_each_size_is_measured_between_its_arrowheads(part: str, size: float) -> None:
    assert measured(drawn(), part) == pytest.approx(size)


def test_the_arrowheads_of_the_ends_stand_over_the_ends_of_the_wedge() -> None:
    drawing = drawn()
    (x0, y0), (thin, _), (thick, high), *_ = lines(drawing, "outline")[0]
    for part, far in (("thin", thin), ("thick", thick)):
        assert sorted(x for x, _ in tips(drawing, part)) == pytest.approx([x0, far])
    assert max(y for _, y in tips(drawing, "thin")) < y0
    assert min(y for _, y in tips(drawing, "thick")) > high


@pytest.mark.parametrize("parts", [8.0, 12.0, 15.0, 20.0])
def test_the_slope_of_the_piece_is_the_sloping_side_of_the_wedge(parts: float) -> None:
    drawing = drawn(parts=parts)
    wedge, piece = lines(drawing, "outline")
    (x0, y0), (x1, y1), *_ = piece
    assert (y1 - y0) / (x1 - x0) == pytest.approx(parts)
    assert piece[1] == pytest.approx(wedge[2])
    assert (wedge[1][0] - x0) * parts == pytest.approx(wedge[1][1] - y0)


def test_the_far_side_of_the_piece_runs_along_the_level_side_of_the_wedge() -> None:
    wedge, piece = lines(drawn(), "outline")
    assert piece[1][0] == piece[2][0]
    assert wedge[3][0] == wedge[0][0]


def test_the_grain_of_the_piece_runs_along_it_up_to_the_slope() -> None:
    drawing = drawn()
    (x0, y0), (x1, y1), *_ = lines(drawing, "outline")[1]
    grain = lines(drawing, "ring")
    assert len(grain) >= 2
    for (x, low), (also, high) in grain:
        assert x == also
        assert low < high
        assert high == pytest.approx(y0 + (x - x0) / (x1 - x0) * (y1 - y0))


def test_the_sheet_says_the_thick_end_is_to_be_found_and_the_key_says_what_it_is() -> None:
    assert drawn(ALL | {"thick": Mark("in", "blank")}).alt == (
        "Side view of a slope wedge on the slope of a piece, drawn on end, its thick end at the feather edge. "
        "Base of the wedge: 6 in. Thin end: 1/4 in. Thick end: to be found."
    )
    assert drawn(ALL | {"thick": Mark("3⁄4 in", "answer")}).alt.endswith("Thick end: 3/4 in.")


@pytest.mark.parametrize("answer", [Mark("mm", "blank"), Mark("31.5\u00a0mm", "answer")])
def test_the_longest_wedge_of_the_shop_fits_the_column_at_one_to_two(answer: Mark) -> None:
    drawing = drawn(ALL | {"thick": answer}, Frame(58, 190, Fraction(1, 2)), base=228.6, parts=8.0)
    assert clashes(drawing) == []


def test_a_base_that_would_fill_the_page_is_drawn_smaller() -> None:
    assert drawn(base=300.0).scale_text == "1:5"
    with pytest.raises(LessonFault, match="does not fit 58 × 190 mm at 1:2; scale 1:5 would fit"):
        drawn(frame=Frame(58, 190, Fraction(1, 2)), base=300.0)


def test_a_wedge_has_no_other_dimension() -> None:
    with pytest.raises(LessonFault, match="this slope wedge has no dimension 'angle'; it has base, thin"):
        drawn({"angle": Mark("4.8°")})


def test_the_part_at_full_size_is_the_wedge_itself() -> None:
    (part,) = wedge_parts(Sizes(WEDGE))
    (outline,) = part.outlines
    assert outline[0] == outline[-1]
    box = part.box_of_cut
    assert (box.width, box.height) == pytest.approx((19.05, 152.4))
    assert outline[1][0] - outline[0][0] == pytest.approx(6.35)
    assert part.notes == ("1:12; thick end 19.05 mm (0.750 in)",)
