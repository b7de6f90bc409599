"""Every shape against shapely, which cuts it into triangles; the moments of a triangle are then added up.

Each shape is cut as a shop cuts: pockets and holes are taken out of a blank, caps and webs are put together. So
neither the corners nor the sums are those of the program.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import radians, tan
from random import Random

import pytest
from shapely import affinity, area, box, constrained_delaunay_triangles, union_all
from shapely.geometry.base import BaseGeometry

from coursepack.quantity import Quantity
from coursepack.trade import section, section_shapes
from coursepack.trade.section import Section

# Both add up floats; the worst of all cases is 4e-15.
FLOAT_NOISE = 1e-12
DRAWS = range(12)
CLEAR_MM = 400  # wider than any section drawn here

Piece = tuple[BaseGeometry, float]  # a shape in mm, and its modulus as a share of the caps'
Solid = Sequence[Piece]
Triangle = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]


@dataclass(frozen=True)
class Properties:
    """Area, height of the centroid, second moment, section moduli to the top and the bottom, in mm."""

    area: float
    centroid: float
    second_moment: float
    top: float
    bottom: float


def ours(found: Section) -> Properties:
    """What the program says."""
    return Properties(
        float(section.area(found).number("mm²")),
        float(section.centroid_height(found).number("mm")),
        float(section.second_moment(found).number("mm⁴")),
        float(section.section_modulus(found, "top").number("mm³")),
        float(section.section_modulus(found, "bottom").number("mm³")),
    )


def triangulated(solid: Solid) -> Properties:
    """What the triangles say; area and centroid of each piece come from the library itself."""
    weights = [ratio * float(area(shape)) for shape, ratio in solid]
    whole = sum(weights)
    centroid = (
        sum(weight * shape.centroid.y for weight, (shape, _) in zip(weights, solid, strict=True)) / whole
    )
    second = sum(ratio * about(centroid, corners) for shape, ratio in solid for corners in triangles(shape))
    _, low, _, high = union_all([shape for shape, _ in solid]).bounds
    return Properties(whole, centroid, second, second / (high - centroid), second / (centroid - low))


def triangles(shape: BaseGeometry) -> Iterator[Triangle]:
    for triangle in constrained_delaunay_triangles(shape).geoms:
        a, b, c, _ = triangle.exterior.coords
        yield a, b, c


def about(level: float, corners: Triangle) -> float:
    """The second moment of a triangle about a level: area / 12 × (sum of squares + square of the sum)."""
    heights = [y - level for _, y in corners]
    (ax, ay), (bx, by), (cx, cy) = corners
    doubled = abs((bx - ax) * (cy - ay) - (cx - ax) * (by - ay))
    return doubled / 24 * (sum(y * y for y in heights) + sum(heights) ** 2)


def check(found: Section, solid: Solid) -> None:
    mine, theirs = ours(found), triangulated(solid)
    assert vars(mine) == pytest.approx(vars(theirs), rel=FLOAT_NOISE)


def mm(value: float) -> Quantity:
    return Quantity.of(value, "mm")


def deg(value: float) -> Quantity:
    return Quantity.of(value, "deg")


def at(width: float, height: float, left: float = 0, low: float = 0) -> BaseGeometry:
    return box(left, low, left + width, low + height)


def without_hole(solid: Solid, hole: float, height: float) -> Solid:
    slot = at(2 * CLEAR_MM, hole, -CLEAR_MM, height - hole / 2)
    return [(shape.difference(slot), ratio) for shape, ratio in solid]


def check_with_a_hole(found: Section, solid: Solid, draw: "Draw") -> None:
    """A section as it is, and with the bolt hole of a draw."""
    check(found, solid)
    check(section.drilled(found, mm(draw.hole), mm(draw.level)), without_hole(solid, draw.hole, draw.level))


def of_one_wood(*shapes: BaseGeometry) -> Solid:
    return [(union_all(shapes), 1)]


@dataclass(frozen=True)
class Draw:
    """Sizes that go together, in mm and degrees."""

    width: float
    height: float
    web: float
    top_flange: float
    bottom_flange: float
    top: float
    bottom: float
    hole: float
    level: float

    @classmethod
    def of(cls, number: int) -> "Draw":
        draw = Random(number)  # noqa: S311 - the same draws every time
        width, height = draw.uniform(12, 60), draw.uniform(80, 250)
        return cls(
            width=width,
            height=height,
            web=width * draw.uniform(0.2, 0.7),
            top_flange=height * draw.uniform(0.12, 0.3),
            bottom_flange=height * draw.uniform(0.12, 0.3),
            top=draw.uniform(-12, 12),
            bottom=draw.uniform(-12, 12),
            hole=draw.uniform(4, 16),
            level=draw.uniform(0.25, 0.75) * height,
        )

    @property
    def blank(self) -> BaseGeometry:
        return at(self.width, self.height)

    @property
    def bevelled(self) -> BaseGeometry:
        """A tall blank leaned over by each bevel in turn, and the two cut against each other."""
        under, over = (
            affinity.skew(at(self.width, 2 * CLEAR_MM, 0, low), ys=turn, origin=(0, 0))
            for low, turn in ((0, self.bottom), (self.height - 2 * CLEAR_MM, self.top))
        )
        return under.intersection(over)

    @property
    def i_shaped(self) -> BaseGeometry:
        """A web between two flanges of the top flange's depth, put together."""
        stem = at(self.web, self.height, (self.width - self.web) / 2)
        low, high = at(self.width, self.top_flange), self.cap
        return union_all([stem, low, high])

    @property
    def cap(self) -> BaseGeometry:
        """A flange under the top, as wide as the section."""
        return at(self.width, self.top_flange, low=self.height - self.top_flange)

    @property
    def stem(self) -> BaseGeometry:
        """What stands under the middle of the cap."""
        return at(self.web, self.height - self.top_flange, (self.width - self.web) / 2)

    @property
    def boxed(self) -> tuple[BaseGeometry, BaseGeometry]:
        """The caps and the webs of a box, the caps as wide as the width."""
        caps = at(self.width, self.height, self.web).difference(
            at(self.width, self.height - self.top_flange - self.bottom_flange, self.web, self.bottom_flange)
        )
        webs = at(self.width + 2 * self.web, self.height).difference(at(self.width, self.height, self.web))
        return caps, webs


draws = pytest.mark.parametrize("number", DRAWS)


@draws
def test_a_rectangle_and_its_bolt_hole(number: int) -> None:
    draw = Draw.of(number)
    found = section_shapes.rectangle(mm(draw.width), mm(draw.height))
    check_with_a_hole(found, of_one_wood(draw.blank), draw)


@draws
def test_a_bevelled_spar_and_its_bolt_hole(number: int) -> None:
    draw = Draw.of(number)
    found = section_shapes.bevelled(mm(draw.width), mm(draw.height), deg(draw.top), deg(draw.bottom))
    check_with_a_hole(found, of_one_wood(draw.bevelled), draw)


@draws
def test_a_routed_spar_and_its_bolt_hole(number: int) -> None:
    draw = Draw.of(number)
    found = section_shapes.routed(mm(draw.width), mm(draw.height), mm(draw.web), mm(draw.top_flange))
    check_with_a_hole(found, of_one_wood(draw.i_shaped), draw)


@draws
def test_a_bevelled_routed_spar_and_its_bolt_hole(number: int) -> None:
    draw = Draw.of(number)
    width, front, flange = draw.width, draw.height, draw.top_flange
    found = section_shapes.bevelled_routed(
        mm(width), mm(front), deg(draw.top), deg(draw.bottom), mm(draw.web), mm(flange)
    )
    depth = (width - draw.web) / 2
    low = width * tan(radians(draw.bottom))
    rear = front + width * tan(radians(draw.top)) - low
    pockets = (
        at(depth + CLEAR_MM, front - 2 * flange, -CLEAR_MM, flange),
        at(depth + CLEAR_MM, rear - 2 * flange, width - depth, low + flange),
    )
    check_with_a_hole(found, of_one_wood(draw.bevelled.difference(union_all(pockets))), draw)


@draws
@pytest.mark.parametrize("ratio", [1, 0.5, 1.3])
def test_a_box_of_unlike_caps_and_webs_and_its_bolt_hole(number: int, ratio: float) -> None:
    draw = Draw.of(number)
    sizes = (draw.width, draw.top_flange, draw.bottom_flange, draw.height, draw.web)
    found = section.transformed(section_shapes.box(*(mm(size) for size in sizes)), Quantity.of(ratio))
    caps, webs = draw.boxed
    check_with_a_hole(found, [(caps, 1), (webs, ratio)], draw)


@draws
def test_a_hollow_section_with_unlike_walls_and_its_bolt_hole(number: int) -> None:
    draw = Draw.of(number)
    side = draw.web / 2
    sizes = (draw.width, draw.height, side, draw.top_flange, draw.bottom_flange)
    found = section_shapes.hollow(*(mm(size) for size in sizes))
    inside = at(
        draw.width - draw.web, draw.height - draw.top_flange - draw.bottom_flange, side, draw.bottom_flange
    )
    check_with_a_hole(found, of_one_wood(draw.blank.difference(inside)), draw)


@draws
@pytest.mark.parametrize("ratio", [1, 0.5, 1.3])
def test_a_tee_on_a_web_of_like_or_other_wood_and_its_bolt_hole(number: int, ratio: float) -> None:
    draw = Draw.of(number)
    sizes = (draw.width, draw.height, draw.web, draw.top_flange)
    found = section.transformed(section_shapes.tee(*(mm(size) for size in sizes)), Quantity.of(ratio))
    check_with_a_hole(found, [(draw.cap, 1), (draw.stem, ratio)], draw)
