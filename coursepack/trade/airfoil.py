"""Wing sections and the spars that stand in them.

Heights go out to the contour: capstrips, nose skin and fabric are not taken off. The faces of a spar stand square to
the datum of the section, its front face at the station. A station is a share of the chord ("15 %") or a length from
the leading edge ("7 1/4 in"), measured along the datum; ordinates and heights come in the unit of the chord. One
sign rule: a bevel is positive where its edge rises going aft.
"""

import re
from fractions import Fraction
from math import atan, degrees

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Number, Quantity
from coursepack.trade.airfoil_tables import TABLES
from coursepack.trade.contour import SIDES, Airfoil
from coursepack.trade.limits import above_zero, known_word, of_kind
from coursepack.trade.naca import of_code
from coursepack.units import kind_name, kind_of

# The NACA sections that wooden airplanes often have; any other of four or five digits is known as well.
_OFTEN_USED = tuple(
    f"NACA {code}"
    for code in ("0009", "0012", "2409", "2412", "2415", "4409", "4412", "4415", "23009", "23012", "23015", "23018")
)  # fmt: skip
NAMES = (*TABLES, *_OFTEN_USED)
EDGES = {"top": "upper", "bottom": "lower"}

_NOISE = 1e-9


def naca(code: Quantity) -> Airfoil:
    """Return a NACA section of four or five digits; a leading 0 may be left out, so that 12 is NACA 0012.

    Takes a plain whole number; raises TradeFault for one that no such section has. Source: the NACA equations as
    stated by Public Domain Aeronautical Software, naca456; open trailing edge, as published.
    """
    digits = of_kind("code", code, "").number()
    if digits % 1 or digits < 0:
        raise TradeFault(f"code is {code}", "a section has four or five digits, as 2412 or 23012")
    return of_code(f"{int(digits):04d}")


def airfoil(name: str) -> Airfoil:
    """Return a wing section by its name: a classic one from its table, or a NACA one as "NACA 2412".

    Raises TradeFault for a name that is not known. Sources stand with each table.
    """
    found = re.fullmatch(r"NACA ?([0-9]{4,5})", name, re.IGNORECASE)
    return of_code(found[1]) if found else TABLES[known_word("section", name, NAMES)]


def ordinate(section: Airfoil, station: Quantity, surface: str, chord: Quantity) -> Quantity:
    """Return the height of the contour above the datum at a station, below zero beneath it, in the unit of the chord.

    Takes a chord above zero and a station on it; raises TradeFault for others. Source: that of the section.
    """
    share = _share("station", station, chord)
    return _of_chord(chord, section.ordinate(share, known_word("surface", surface, SIDES)))


def spar_height(section: Airfoil, chord: Quantity, station: Quantity) -> Quantity:
    """Return the height from contour to contour at a station, in the unit of the chord.

    Takes a chord above zero and a station on it; raises TradeFault for others. Source: that of the section.
    """
    return ordinate(section, station, "upper", chord) - ordinate(section, station, "lower", chord)


def spar_bevel(section: Airfoil, chord: Quantity, station: Quantity, width: Quantity, edge: str) -> Quantity:
    """Return the bevel of a spar's top or bottom edge in degrees, positive where the edge rises going aft.

    It is the straight line between the points of the contour at the two faces, the front face at the station. Takes
    lengths above zero and a spar that stands on the chord; raises TradeFault for others.
    Source: that of the section.
    """
    front, rear = _faces(chord, station, width)
    surface = EDGES[known_word("edge", edge, EDGES)]
    rise = section.ordinate(rear, surface) - section.ordinate(front, surface)
    return Quantity.of(degrees(atan(rise / (rear - front))), "deg")


def blank_height(section: Airfoil, chord: Quantity, station: Quantity, width: Quantity) -> Quantity:
    """Return the least height of a square-edged blank that the bevelled spar can be cut from, in the chord's unit.

    From the lowest to the highest corner; its edges are straight from face to face. Takes lengths above zero and a
    spar that stands on the chord; raises TradeFault for others. Source: that of the section.
    """
    faces = _faces(chord, station, width)
    highest = max(section.ordinate(face, "upper") for face in faces)
    return _of_chord(chord, highest - min(section.ordinate(face, "lower") for face in faces))


def nose_radius(section: Airfoil, chord: Quantity) -> Quantity:
    """Return the radius of the section's nose, in the unit of the chord.

    1.1019 × thickness² of the chord for NACA sections, where the thickness is a share of the chord; its published
    value for Clark Y (from memory). Raises TradeFault for other sections, of which none is published here, and for
    a chord that is not above zero. Source: Public Domain Aeronautical Software, naca456.
    """
    return _of_chord(above_zero("chord", chord, "in"), section.nose_radius())


def contour_length(
    section: Airfoil, chord: Quantity, surface: str, start: Quantity, end: Quantity
) -> Quantity:
    """Return the length along one surface between two stations, in the unit of the chord.

    Takes a chord above zero and stations on it; raises TradeFault for others. Source: that of the section.
    """
    shares = _share("start", start, chord), _share("end", end, chord)
    return _of_chord(chord, section.length(*shares, known_word("surface", surface, SIDES)))


def _of_chord(chord: Quantity, share: float) -> Quantity:
    return chord * Quantity.of(share)


def _share(name: str, station: Quantity, chord: Quantity) -> float:
    """Return a station as a share of the chord, given as one or as a length."""
    above_zero("chord", chord, "in")
    share = _number(name, station, chord)
    if not -_NOISE <= share <= 1 + _NOISE:
        raise TradeFault(
            f"{name} is {station}",
            f"{name} must be from 0 % to 100 % of the chord, or a length from 0 to {chord}",
        )
    return float(min(max(share, Fraction(0)), Fraction(1)))


def _number(name: str, station: Quantity, chord: Quantity) -> Number:
    if station.kind not in {kind_of(""), kind_of("in")}:
        raise TradeFault(
            f"{name} is {kind_name(station.kind)}, not a station", 'write one such as "15 %" or "7 1/4 in"'
        )
    return (station / chord if station.kind else station).number()


def _faces(chord: Quantity, station: Quantity, width: Quantity) -> tuple[float, float]:
    """Return the stations of a spar's two faces as shares of the chord."""
    front = _share("station", station, chord)
    rear = front + float((above_zero("width", width, "in") / chord).number())
    if rear > 1 + _NOISE:
        raise TradeFault(
            f"the rear face stands at {100 * rear:.4g} % of the chord",
            "the whole spar must stand on the chord",
        )
    return front, min(rear, 1.0)


_SECTION = Argument("section", "airfoil")
_CHORD = Argument("chord", "in")
_STATION = Argument("station", "any")
_SURFACE = Argument("surface", "word", tuple(SIDES))
_WIDTH = Argument("width", "in")
_PDAS = "Public Domain Aeronautical Software, naca456"
_OF_SECTION = "the section's equations or table"

FUNCTIONS = (
    Function(
        "naca", naca, (Argument("code", ""),), "airfoil",
        "NACA section of four or five digits, by its equations.", _PDAS, "naca(23012)",
    ),
    Function(
        "airfoil", airfoil, (Argument("name", "word", NAMES, family="NACA "),), "airfoil",
        "Wing section by its name, classic ones from their tables.",
        f"NACA sections: {_PDAS}; Clark Y: second-hand copy of the published table; "
        "others: UIUC airfoil coordinate collection",
        'airfoil("Clark Y")',
    ),
    Function(
        "ordinate", ordinate, (_SECTION, _STATION, _SURFACE, _CHORD), "in",
        'Height of the contour above the datum at a station, "15 %" or a length from the leading edge.', _OF_SECTION,
        'ordinate(airfoil("Clark Y"), "15 %", "upper", "48 in")',
    ),
    Function(
        "spar_height", spar_height, (_SECTION, _CHORD, _STATION), "in",
        'Height from contour to contour at a station, "15 %" or a length from the leading edge.', _OF_SECTION,
        'spar_height(airfoil("Clark Y"), "48 in", "15 %")',
    ),
    Function(
        "spar_bevel", spar_bevel, (_SECTION, _CHORD, _STATION, _WIDTH, Argument("edge", "word", tuple(EDGES))), "deg",
        "Bevel of a spar's edge, front face at the station; positive where it rises going aft.", _OF_SECTION,
        'spar_bevel(naca(2412), "54 in", "8 in", "7/8 in", "top")',
    ),
    Function(
        "blank_height", blank_height, (_SECTION, _CHORD, _STATION, _WIDTH), "in",
        "Least height of a square-edged blank that a bevelled spar can be cut from.", _OF_SECTION,
        'blank_height(naca(4412), "60 in", "9 in", "1 in")',
    ),
    Function(
        "nose_radius", nose_radius, (_SECTION, _CHORD), "in",
        "Radius of a section's nose.", f"{_PDAS}; Clark Y from memory", 'nose_radius(naca(2412), "54 in")',
    ),
    Function(
        "contour_length", contour_length,
        (_SECTION, _CHORD, _SURFACE, Argument("start", "any"), Argument("end", "any")), "in",
        "Length along one surface between two stations.", _OF_SECTION,
        'contour_length(airfoil("Clark Y"), "48 in", "upper", "0 %", "15 %")',
    ),
)  # fmt: skip
