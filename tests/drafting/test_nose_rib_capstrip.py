"""A nose rib that a capstrip or a skin comes over: its sawn line lies inside the contour by the thickness, all round."""

from functools import cache

import pytest
from shapely import LineString, Point, Polygon, box

from coursepack.drafting.clearance import clashes
from coursepack.drafting.nose_rib import nose_rib, nose_rib_measure
from coursepack.drafting.nose_rib_template import nose_rib_parts
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.sheet import Drawing, Frame, Line, Mark
from coursepack.drafting.template import template_sheets
from coursepack.place import LessonFault, TradeFault
from coursepack.trade.airfoil import airfoil
from coursepack.trade.contour import run_mm
from tests.drafting.measuring import measured, scale_of

INCH = 25.4
LENGTH = 150.0
NOSE = {"chord": 1000.0, "length": LENGTH, "hole": 30.0, "aft": 100.0, "middle": 50.1, "start": 4.0}
OFF_MM = 0.05
# a thin skin, two capstrips, and one thicker than the radius of any of these noses
THICKNESSES = (1.5, 3 * INCH / 16, 6.0, 20.0)
SECTIONS = ("Clark Y", "NACA 2412", "NACA 23012", "USA 35-B", "RAF 15")
ROUND = pytest.mark.parametrize("capstrip", THICKNESSES)


def sizes(name: str = "Clark Y", /, **changed: float) -> Sizes:
    return Sizes(NOSE | changed, {"section": airfoil(name)})


def part(name: str, capstrip: float) -> Part:
    low, high = (1000 * airfoil(name).ordinate(0.1, surface) for surface in ("lower", "upper"))
    (found,) = nose_rib_parts(sizes(name, capstrip=capstrip, hole=8.0, middle=(low + high) / 2, start=0.0))
    return found


@cache
def contour(name: str) -> LineString:
    """The contour, farther aft than the rib so that what is measured square to it ends on it."""
    return LineString(run_mm(airfoil(name), 1000.0, ("upper", 250.0), ("lower", 250.0), 0.001))


def drawn(*names: str, frame: Frame | None = None, **changed: float) -> Drawing:
    marks = {name: Mark("9 mm") for name in names}
    return nose_rib(sizes(**changed), marks, frame or Frame(118, 190))


def lines(drawing: Drawing, kind: str) -> list[Line]:
    return [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]


@ROUND
@pytest.mark.parametrize("name", SECTIONS)
def test_the_sawn_line_is_one_thickness_inside_the_contour_all_round(name: str, capstrip: float) -> None:
    sawn = part(name, capstrip).outlines[0]
    line = LineString(sawn[:-1])  # without the spar's face
    spots = [line.interpolate(n / 1000, normalized=True) for n in range(1001)]
    spots += [Point(point) for point in sawn]
    assert max(abs(contour(name).distance(spot) - capstrip) for spot in spots) < OFF_MM


@ROUND
@pytest.mark.parametrize("name", SECTIONS)
def test_the_sawn_line_leaves_out_none_of_the_wood_inside_the_capstrips(name: str, capstrip: float) -> None:
    sawn = Polygon(part(name, capstrip).outlines[0])
    ahead = box(-100, -500, LENGTH, 500)
    wood = Polygon(contour(name)).buffer(-capstrip, quad_segs=64).intersection(ahead)
    assert sawn.is_valid
    assert sawn.symmetric_difference(wood).area < OFF_MM * sawn.length


def test_the_sawn_line_ends_on_the_front_face_of_the_spar() -> None:
    line = part("Clark Y", 5.0).outlines[0]
    (x, high), (to_x, low) = line[0], line[-2]
    assert (x, to_x) == (LENGTH, LENGTH)
    # table: 10.68 % and 0.15 %; both edges run within 10 degrees of the datum there
    assert high == pytest.approx(106.8 - 5.0, abs=0.1)
    assert low == pytest.approx(1.5 + 5.0, abs=0.1)


def test_height_and_edge_are_those_of_the_sawn_rib() -> None:
    bare, inside = nose_rib_measure(sizes()), nose_rib_measure(sizes(capstrip=5.0))
    assert inside["height"] == pytest.approx(bare["height"] - 2 * 5.0, abs=0.15)
    assert inside["edge"] == pytest.approx(bare["edge"] - 5.0, abs=0.03)
    assert {name: inside[name] for name in ("length", "aft", "middle", "hole", "start")} == {
        "length": LENGTH, "aft": 100.0, "middle": 50.1, "hole": 30.0, "start": 4.0,
    }  # fmt: skip
    for name in ("height", "edge"):
        assert measured(drawn(name, capstrip=5.0), name) == pytest.approx(inside[name])


def test_the_contour_stays_as_a_thin_line_outside_the_sawn_one() -> None:
    drawing = drawn("length", capstrip=5.0)
    (thin,), scale = lines(drawing, "layer"), scale_of(drawing)
    sawn = LineString(lines(drawing, "outline")[0][:-1])
    assert sawn.hausdorff_distance(LineString(thin)) / scale < 2 * 5.0
    assert all(abs(LineString(thin).distance(Point(p)) / scale - 5.0) < OFF_MM for p in sawn.coords[5:-5])
    assert thin[0][0] == pytest.approx(thin[-1][0])
    assert measured(drawing, "length") == pytest.approx(LENGTH)


def test_a_contour_that_would_run_into_the_sawn_line_is_left_out_and_the_figure_says_so() -> None:
    # 1/16 in at 1:5 is 0.3 mm, less than two lines need
    drawing = drawn(capstrip=INCH / 16, frame=Frame(58, 190))
    assert lines(drawing, "layer") == []
    assert "Clark Y, contour left out" in " ".join(label.text for label in drawing.labels)


def test_without_a_capstrip_the_contour_is_sawn_as_before() -> None:
    without = sizes()
    (bare,) = nose_rib_parts(without)
    (none,) = nose_rib_parts(sizes(capstrip=0.0))
    assert bare == none
    assert all(stroke.lines[0] != bare.outlines[0][:-1] for stroke in bare.guides)
    assert max(contour("Clark Y").distance(Point(point)) for point in bare.outlines[0]) < 0.03
    assert nose_rib(without, {}, Frame(118)) == drawn(capstrip=0.0)


def test_the_template_bears_the_contour_and_says_what_it_is() -> None:
    (found,) = nose_rib_parts(sizes(capstrip=INCH / 4))
    thin = [line for stroke in found.guides if stroke.kind == "layer" for line in stroke.lines]
    assert max(contour("Clark Y").distance(Point(point)) for point in thin[-1]) < 0.03
    assert found.notes[-1] == "thin: the contour, 6.35 mm (0.25 in) outside the line, for the capstrip"
    assert found.cut == (
        "Saw the hole first, inside its line; then the inner outline, outside the line. Trim to half of the line."
    )
    assert found.grain is not None
    assert all(Polygon(found.outlines[0]).covers(Point(end)) for end in found.grain)


@ROUND
def test_nothing_collides_on_the_sheets_of_the_template(capstrip: float) -> None:
    small = {"chord": 600.0, "length": 90.0, "middle": 30.0, "aft": 60.0, "hole": 12.0}
    for sheet in template_sheets(nose_rib_parts(sizes(capstrip=capstrip, **small))):
        assert clashes(sheet.drawing) == []


def test_the_alt_text_tells_of_the_capstrip() -> None:
    assert drawn("edge", capstrip=5.0).alt == (
        "Side view of a nose rib of section Clark Y, sawn inside its contour for a capstrip, with a round lightening "
        "hole, a starting hole in it, and the saw's path from there to the line. "
        "Least wood between the hole and the sawn line: 9 mm."
    )


@pytest.mark.parametrize(
    ("capstrip", "message"),
    [
        (-1.0, "the capstrip is thinner than nothing; give it a thickness above zero"),
        (60.0, "two capstrips of 60 mm leave no wood at the spar; take thinner capstrips"),
        (30.0, "the lightening hole cuts the contour or the spar's face; make it smaller or move it"),
    ],
)
def test_a_capstrip_that_leaves_no_wood_is_a_fault(capstrip: float, message: str) -> None:
    with pytest.raises(LessonFault) as caught:
        drawn(capstrip=capstrip, hole=40.0)
    assert str(caught.value) == message


def test_a_rib_longer_than_its_chord_is_a_fault() -> None:
    with pytest.raises(TradeFault, match="off the chord"):
        drawn(capstrip=5.0, length=1001.0)
