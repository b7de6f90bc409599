"""NACA four- and five-digit wing sections from their equations, in shares of the chord.

The datum is the chord line. The trailing edge is open, as it was published (its half-thickness is 0.0105 of the
thickness; the closed form with -0.1036 for -0.1015 came later), and the thickness is laid off square to the mean
line, not square to the chord. Source of the equations: Public Domain Aeronautical Software, naca456, notes
"Thickness", "Mean lines" and "Mean lines, five-digit", which cites NACA Report 537; how the surfaces are laid off:
second-hand copy.
"""

from dataclasses import dataclass
from math import atan, copysign, cos, sin

from coursepack.place import TradeFault
from coursepack.trade.contour import SIDES, Airfoil
from coursepack.trade.outline import Point

_DATUM = "chord line, open trailing edge"
_SOURCE = (
    "NACA equations as stated by Public Domain Aeronautical Software, naca456; laying off: second-hand copy"
)

_THINNEST, _THICKEST = 1, 30
# Ways just past the trailing edge: the lower surface of a cambered section ends a little short of station 1.
_END = 65 / 64
_STEP = 1 / 64
_HALVINGS = 60


@dataclass(frozen=True)
class FourDigitLine:
    """Mean line of two parabolas that meet at the station of the largest camber."""

    camber: float
    peak: float

    def at(self, x: float) -> tuple[float, float]:
        """Return the height and the slope at a station."""
        p = self.peak
        scale = self.camber / (p**2 if x <= p else (1 - p) ** 2)
        start = 0.0 if x <= p else 1 - 2 * p
        return scale * (start + 2 * p * x - x**2), 2 * scale * (p - x)


@dataclass(frozen=True)
class FiveDigitLine:
    """Mean line of a cubic that runs out into a straight line at station r."""

    r: float
    k: float

    def at(self, x: float) -> tuple[float, float]:
        """Return the height and the slope at a station."""
        r, k = self.r, self.k / 6
        if x < r:
            return k * (x**3 - 3 * r * x**2 + r**2 * (3 - r) * x), k * (3 * x**2 - 6 * r * x + r**2 * (3 - r))
        return k * r**3 * (1 - x), -k * r**3


# r and k by the second digit, twice the station of the camber in tenths, for a design lift of 0.3.
_FIVE_DIGIT = {
    "1": FiveDigitLine(0.0580, 361.400),
    "2": FiveDigitLine(0.1260, 51.640),
    "3": FiveDigitLine(0.2025, 15.957),
    "4": FiveDigitLine(0.2900, 6.643),
    "5": FiveDigitLine(0.3910, 3.230),
}


@dataclass(frozen=True)
class NacaSection(Airfoil):
    """A section whose thickness is laid off square to its mean line."""

    thickness: float
    line: FourDigitLine | FiveDigitLine

    def point(self, way: float) -> Point:
        """Return the station and the ordinate at a way; the way squared is the station on the mean line."""
        x, root = way**2, abs(way)
        half = 5 * self.thickness * (0.2969 * root - x * (0.1260 + x * (0.3516 - x * (0.2843 - x * 0.1015))))
        height, slope = self.line.at(x)
        tilt, out = atan(slope), copysign(half, way)
        return x - out * sin(tilt), height + out * cos(tilt)

    def way_to(self, station: float, surface: str) -> float:
        """Return the way to a station; at station 0 the leading edge itself.

        The upper nose of a cambered section reaches a little ahead of the leading edge, so that a line square to
        the chord just aft of it meets the upper surface twice: the outer of the two is meant.
        """
        if not station:
            return 0.0
        side = SIDES[surface]
        high = _END
        while self.point(side * (high - _STEP))[0] > station:
            high -= _STEP
        low = high - _STEP
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            low, high = (low, middle) if self.point(side * middle)[0] > station else (middle, high)
        return side * high

    def nose_radius(self) -> float:
        """Return 1.1019 times the thickness squared: the root term of the thickness alone shapes the nose."""
        return (5 * 0.2969 * self.thickness) ** 2 / 2


def of_code(code: str) -> NacaSection:
    """Return the section of four or five digits.

    Raises TradeFault for any other number of digits, for a reflexed mean line, and for digits that the families
    do not have.
    """
    if len(code) not in {4, 5} or not (code.isascii() and code.isdigit()):
        raise TradeFault(
            f"'{code}' is no NACA section", "a section has four or five digits, as 2412 or 23012"
        )
    if not _THINNEST <= int(code[-2:]) <= _THICKEST:
        raise TradeFault(
            f"the last two digits of NACA {code} give its thickness in percent", "they must be from 01 to 30"
        )
    line = _four_digit_line(code) if len(code) == 4 else _five_digit_line(code)
    return NacaSection(f"NACA {code}", _DATUM, _SOURCE, int(code[-2:]) / 100, line)


def _four_digit_line(code: str) -> FourDigitLine:
    camber, peak = int(code[0]), int(code[1])
    if bool(camber) != bool(peak):
        raise TradeFault(
            f"the first two digits of NACA {code} give its camber in percent and where it is, in tenths",
            "both must be above 0, or both 0 for a symmetric section",
        )
    return FourDigitLine(camber / 100, peak / 10 if peak else 0.5)


def _five_digit_line(code: str) -> FiveDigitLine:
    """Return the mean line; its camber goes with the design lift, which the first digit gives."""
    line = _FIVE_DIGIT.get(code[1])
    if line is None or code[2] != "0":
        raise TradeFault(
            f"NACA {code} has no mean line here",
            "the second digit must be from 1 to 5, the third 0 (no reflex)",
        )
    return FiveDigitLine(line.r, line.k * int(code[0]) / 2)
