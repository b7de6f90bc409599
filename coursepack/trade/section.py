"""Sections of spars and other pieces, and what any section has: area, centroid, second moment, section modulus.

Heights count from the lower front corner. Everything follows from the outlines that are drawn, by the polygon
formulas: exact while the sizes are exact and no edge is bevelled, else to the last digits of a float. Results come
in the unit of the section's first size.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import ClassVar

from coursepack.formula import Argument, Function, Shape
from coursepack.place import TradeFault
from coursepack.quantity import Number, Quantity
from coursepack.trade import section_outlines as outlines
from coursepack.trade.limits import above_zero, known_word, of_kind
from coursepack.trade.section_outlines import Outline

EDGES = ("top", "bottom")


@dataclass(frozen=True)
class Part:
    """One piece of a section: outlines in mm, whether it is a web, and its modulus as a share of the caps'."""

    outlines: tuple[Outline, ...]
    is_web: bool = False
    ratio: Number = Fraction(1)

    def total(self, measure: Callable[[Outline], Number]) -> Number:
        """Return the sum of a measure over the outlines, times the part's ratio."""
        total: Number = Fraction(0)
        for each in self.outlines:
            total += measure(each)
        return total * self.ratio


@dataclass(frozen=True)
class Section(Shape):
    """A section made of parts; between the two levels of `clear`, in mm, it reaches across from face to face."""

    kind: ClassVar[str] = "section"

    name: str
    unit: str
    parts: tuple[Part, ...]
    clear: tuple[Number, Number]

    def __str__(self) -> str:
        ratio = next((part.ratio for part in self.parts if part.ratio != 1), None)
        webs = "" if ratio is None else f", webs at {Quantity.of(ratio)}"
        return f"{self.name}{webs}, area {area(self)}"

    def outlines_mm(self) -> tuple[tuple[tuple[float, float], ...], ...]:
        """Return every outline for a drawing, part by part, the first corner not repeated."""
        return tuple(
            tuple((float(x), float(y)) for x, y in each) for part in self.parts for each in part.outlines
        )

    @cached_property
    def area_mm2(self) -> Number:
        """The area in mm², each part at its ratio."""
        return self._total(outlines.area)

    @cached_property
    def centroid_mm(self) -> Number:
        """The height of the centroid above the lower front corner in mm."""
        return self._total(outlines.first_moment) / self.area_mm2

    @cached_property
    def second_moment_mm4(self) -> Number:
        """The second moment of area in mm⁴ about the level axis through the centroid."""
        return self._total(outlines.second_moment) - self.area_mm2 * self.centroid_mm * self.centroid_mm

    def _total(self, measure: Callable[[Outline], Number]) -> Number:
        total: Number = Fraction(0)
        for part in self.parts:
            total += part.total(measure)
        return total

    def length(self, value_mm: Number, power: int = 1) -> Quantity:
        """Return a length, area, volume … given in mm, mm², mm³ … in the unit of the section."""
        raised = Fraction(power)
        in_mm = Quantity(value_mm, (Quantity.of(1, "mm") ** raised).units)
        return in_mm.in_units((Quantity.of(1, self.unit) ** raised).units)


def area(section: Section) -> Quantity:
    """Return the area; of a transformed section, as if all were of the caps' wood. Source: shoelace formula."""
    return section.length(section.area_mm2, 2)


def centroid_height(section: Section) -> Quantity:
    """Return the height of the centroid above the lower front corner: first moment / area."""
    return section.length(section.centroid_mm)


def second_moment(section: Section) -> Quantity:
    """Return the second moment of area about the level axis through the section's own centroid.

    Of a transformed section, as if all were of the caps' wood: times the modulus of the caps it is the bending
    stiffness. Source: polygon formulas and the parallel axis theorem.
    """
    return section.length(section.second_moment_mm4, 4)


def section_modulus(section: Section, edge: str) -> Quantity:
    """Return the section modulus to the top or the bottom: second moment / distance from the centroid.

    The distance goes to the farthest point of that edge. Moment / section modulus is the stress at the edge where a
    piece bends about the level axis alone; where the section is not symmetrical, as with bevelled edges, it also
    bends a little sideways, and the stress is close to it. Of a transformed section it is the stress in the caps' wood;
    that in the webs is ratio times it. Raises TradeFault for an unknown edge.
    """
    levels = [y for part in section.parts for each in part.outlines for _, y in each]
    is_top = known_word("edge", edge, EDGES) == "top"
    reach = max(levels) - section.centroid_mm if is_top else section.centroid_mm - min(levels)
    return section.length(section.second_moment_mm4 / reach, 3)


def transformed(section: Section, ratio: Quantity) -> Section:
    """Return the section with its webs counted at a ratio: modulus of elasticity of the webs / that of the caps.

    Takes a box or a tee, whose webs are pieces of their own, and a plain number above zero, which replaces one
    given before; raises TradeFault for others. Source: transformed section, from memory of Timoshenko.
    """
    share = above_zero("ratio", ratio, "").number()
    if not any(part.is_web for part in section.parts):
        raise TradeFault(
            f"a {section.name} has no webs of its own", "take a box or a tee, whose webs may be other wood"
        )
    parts = tuple(replace(part, ratio=share) if part.is_web else part for part in section.parts)
    return replace(section, parts=parts)


def drilled(section: Section, hole: Quantity, height: Quantity) -> Section:
    """Return the section through the middle of a level bolt hole: a slot as high as the hole, from face to face.

    Takes a diameter above zero and the height of the hole's centre above the lower front corner; raises TradeFault
    where the hole does not leave wood above and below it on both faces.
    """
    radius = above_zero("hole", hole, "in").number("mm") / 2
    centre = of_kind("height", height, "in").number("mm")
    low, high = section.clear
    if not low < centre - radius <= centre + radius < high:
        raise TradeFault(
            f"a hole of {hole} at {height} is not inside the section", _room_for_a_hole(section, radius)
        )
    parts = tuple(_without_band(part, centre - radius, centre + radius) for part in section.parts)
    return replace(section, name=f"{section.name}, hole {hole} at {height}", parts=parts)


def _room_for_a_hole(section: Section, radius: Number) -> str:
    low, high = section.clear
    if low >= high:
        return "no level hole meets both faces of it"
    if low + radius >= high - radius:
        return f"it must be smaller than {section.length(high - low)}"
    return f"keep its centre between {section.length(low + radius)} and {section.length(high - radius)}"


def _without_band(part: Part, low_mm: Number, high_mm: Number) -> Part:
    left = (piece for each in part.outlines for piece in outlines.without_band(each, low_mm, high_mm))
    return replace(part, outlines=tuple(left))


_SECTION = Argument("section", "section")
_POLYGON = "polygon formulas: sums over the sides of the outline"
_ROUTED = 'routed("1 in", "5 1/2 in", "3/8 in", "1 1/4 in")'
_BOX = 'box("1 1/2 in", "1 1/4 in", "1 in", "7 in", "1/8 in")'

FUNCTIONS = (
    Function(
        "drilled", drilled, (_SECTION, Argument("hole", "in"), Argument("height", "in")), "section",
        "Section through a level bolt hole, its centre at a height above the lower front corner.",
        "plane geometry", f'drilled({_ROUTED}, "3/8 in", "2 3/4 in")',
    ),
    Function(
        "transformed", transformed, (_SECTION, Argument("ratio", "")), "section",
        "Box or tee with its webs counted at the ratio of their stiffness to that of the caps.",
        "transformed section, from memory of Timoshenko", f"transformed({_BOX}, 0.5)",
    ),
    Function(
        "area", area, (_SECTION,), "in²", "Area of a section.", _POLYGON, f"area({_ROUTED})",
    ),
    Function(
        "centroid_height", centroid_height, (_SECTION,), "in",
        "Height of a section's centroid above its lower front corner.", _POLYGON, f"centroid_height({_BOX})",
    ),
    Function(
        "second_moment", second_moment, (_SECTION,), "in⁴",
        "Second moment of area about the level axis through a section's own centroid.",
        f"{_POLYGON}; parallel axis theorem", f"second_moment({_ROUTED})",
    ),
    Function(
        "section_modulus", section_modulus, (_SECTION, Argument("edge", "word", EDGES)), "in³",
        "Second moment of area by the distance from the centroid to the top or the bottom.",
        "Wood Handbook GTR-282, Eq. 9-13", f'section_modulus({_BOX}, "bottom")',
    ),
)  # fmt: skip
