"""What a rib is lofted from: rows of the ordinate tables, and the heights left between capstrips."""

from fractions import Fraction

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.airfoil import spar_bevel, spar_height
from coursepack.trade.airfoil_tables import TABLES
from coursepack.trade.contour import SIDES, Airfoil
from coursepack.trade.limits import known_word, of_kind
from coursepack.trade.spar import capstrip_allowance

_COLUMNS = {"upper": 1, "lower": 2}  # of a row of an ordinate table


def table_ordinate(section: str, station: Quantity, surface: str) -> Quantity:
    """Return what the published table of a section prints at one of its own stations, in percent of the chord.

    Nothing is put between the rows: raises TradeFault for a station that the table does not print, and for a
    section that is known from its equation. Source: that of the section.
    """
    rows = TABLES[known_word("section", section, TABLES)].rows
    column = _COLUMNS[known_word("surface", surface, SIDES)]
    wanted = of_kind("station", station, "%").number("%")
    found = next((row for row in rows if Fraction(str(row[0])) == wanted), None)
    if found is None:
        printed = ", ".join(f"{row[0]:g}" for row in rows)
        raise TradeFault(f"the table of {section} has no station {station}", f"it prints {printed} %")
    return Quantity.of(Fraction(str(found[column])), "%")


def opening_height(
    section: Airfoil, chord: Quantity, station: Quantity, width: Quantity, capstrip: Quantity
) -> Quantity:
    """Return the height of a spar's opening in a rib at its front face, inside the capstrips, in the chord's unit.

    The height from contour to contour less the allowance for both capstrips, which are measured square to the
    spar's bevels. Raises TradeFault where they leave no height. Source: that of the section.
    """
    bevels = (spar_bevel(section, chord, station, width, edge) for edge in ("top", "bottom"))
    height = spar_height(section, chord, station) - capstrip_allowance(capstrip, *bevels)
    if height.value <= 0:
        raise TradeFault(f"two capstrips of {capstrip} leave no height", "take thinner capstrips")
    return height


FUNCTIONS = (
    Function(
        "table_ordinate", table_ordinate,
        (Argument("section", "word", tuple(TABLES)), Argument("station", "%"), Argument("surface", "word", tuple(SIDES))),
        "%",
        "Ordinate that a section's published table prints at one of its stations, of the chord.",
        "Clark Y: second-hand copy of the published table; others: UIUC airfoil coordinate collection", 'table_ordinate("Clark Y", "15 %", "upper")',
    ),
    Function(
        "opening_height", opening_height,
        (
            Argument("section", "airfoil"), Argument("chord", "in"), Argument("station", "any"),
            Argument("width", "in"), Argument("capstrip", "in"),
        ),
        "in",
        "Height of a spar's opening in a rib at its front face, inside the capstrips.",
        "the section's equations or table; geometry of the right triangle",
        'opening_height(airfoil("Clark Y"), "24 in", "15 %", "3/4 in", "3/16 in")',
    ),
)  # fmt: skip
