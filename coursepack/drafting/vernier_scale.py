"""The lines and numbers of a caliper's two scales: where each lies, and which of them coincide."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import isclose

from coursepack.drafting.lettering import width_em
from coursepack.drafting.sheet import SMALL_MM
from coursepack.place import LessonFault
from coursepack.quantity import Quantity

EDGE_MM = 1.0  # a line or number stands at least so far from where the main scale is broken off


@dataclass(frozen=True)
class Vernier:
    """A vernier in mm: what it reads to, the divisions of its main scale, its lines from number to number.

    Its `lines` divisions are as long as one less of the main scale's, so that each is shorter by the step.
    `numbered` gives the main scale's divisions from number to number, `every` the vernier's; a number on the
    vernier counts `units` a step of numbers.
    """

    step: Quantity
    lines: int
    numbered: int
    every: int
    units: int
    tall: tuple[tuple[int, float], ...]

    @property
    def by(self) -> float:
        """What it reads to, in mm."""
        return float(self.step.number("mm"))

    @property
    def division(self) -> float:
        """A division of the main scale in mm."""
        return self.by * self.lines

    @property
    def own(self) -> float:
        """A division of the vernier in mm."""
        return self.by * (self.lines - 1)

    @property
    def is_inch(self) -> bool:
        """Whether its main scale is in inches."""
        return self.step.unit_name == "in"


def _inch(part: int, lines: int, numbered: int, every: int, tall: tuple[tuple[int, float], ...]) -> Vernier:
    return Vernier(Quantity.of(Fraction(1, part), "in"), lines, numbered, every, every, tall)


def _metric(part: int, lines: int, every: int) -> Vernier:
    """A main scale in mm; the vernier is numbered by tenths of them."""
    tall = ((10, 7.0), (5, 5.6), (1, 4.2))
    return Vernier(Quantity.of(Fraction(1, part), "mm"), lines, 10, every, every * 10 // part, tall)


# 0.001 in: Army Ordnance OD1621; the others divide a main scale in the same way, common practice
VERNIERS = (
    _inch(1000, 25, 40, 5, ((40, 7.6), (4, 6.4), (2, 5.0), (1, 4.0))),
    _inch(128, 8, 16, 4, ((16, 7.6), (8, 6.8), (4, 5.9), (2, 5.0), (1, 4.0))),
    _metric(50, 50, 5),
    _metric(20, 20, 2),
    _metric(10, 10, 5),
)


@dataclass(frozen=True)
class View:
    """What is seen of both scales, in mm along the main one, at a scale; `first` and `last` line of the vernier."""

    start: float
    end: float
    scale: float
    first: int
    last: int

    def on_paper(self, at: float) -> float:
        """Return where a place of the main scale lies across the paper."""
        return (at - self.start) * self.scale

    @property
    def width(self) -> float:
        """Its width on paper in mm."""
        return (self.end - self.start) * self.scale


def known_vernier(step: float) -> Vernier:
    """Return the vernier that reads to a length in mm; raises LessonFault where none does."""
    for vernier in VERNIERS:
        if isclose(vernier.by, step, rel_tol=1e-6):
            return vernier
    raise LessonFault(
        f"no vernier here reads to {step:.4g} mm", "take one of " + ", ".join(str(v.step) for v in VERNIERS)
    )


def setting(reading: float, vernier: Vernier) -> tuple[int, int]:
    """Return the division of the main scale before the vernier's zero, and the vernier's line that coincides."""
    return divmod(round(reading / vernier.by), vernier.lines)


def main_lines(view: View, vernier: Vernier, *, whole: bool = False) -> Iterator[tuple[float, float, str]]:
    """Give each line of the main scale in view: where it lies, how high it is, its number; `whole` numbers only."""
    first, last = (int(end / vernier.division) for end in (max(view.start, 0.0), view.end))
    for number in range(first, last + 1):
        x = view.on_paper(number * vernier.division)
        tall = next(tall for part, tall in vernier.tall if number % part == 0)
        text = _main_number(number, vernier, whole=whole)
        half = width_em(text) * SMALL_MM / 2 + EDGE_MM
        fits = half <= x <= view.width - half
        if EDGE_MM < x < view.width - EDGE_MM:
            yield x, tall, text if fits else ""


def _main_number(number: int, vernier: Vernier, *, whole: bool) -> str:
    """Letter whole inches and, where the main scale has them, tenths as on a caliper; every tenth millimetre."""
    units, rest = divmod(number, vernier.numbered)
    if rest == 0:
        return str(units if vernier.is_inch else units * 10)
    tenths = vernier.numbered == 40 and rest % 4 == 0 and not whole
    return f".{rest // 4}" if tenths else ""


def vernier_lines(view: View, reading: float, vernier: Vernier) -> Iterator[tuple[float, float, str]]:
    """Give each line of the vernier in view: where it lies, how high it is, its number."""
    for line in range(view.first, view.last + 1):
        is_numbered = line % vernier.every == 0
        text = str(line // vernier.every * vernier.units) if is_numbered else ""
        yield view.on_paper(reading + line * vernier.own), 5.2 if is_numbered else 3.8, text
