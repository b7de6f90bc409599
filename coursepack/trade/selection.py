"""What may go into an aircraft: slope of grain, growth rings, knots and pitch pockets."""

from fractions import Fraction

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.limits import above_zero
from coursepack.trade.wood import Row, Table

_AC = "FAA AC 43.13-1B, Table 1-1"
_AC_PINE = _AC + ", as northern white pine"
_ANC = "ANC-19 (1943), Table 2-13"

SLOPES = Table(
    {"slope": ":"},
    {
        "Sitka spruce": Row("1/15", _AC),
        "red spruce": Row("1/15", _AC),
        "white spruce": Row("1/15", _AC),
        "Douglas-fir": Row("1/15", _AC),
        "noble fir": Row("1/15", _AC),
        "western hemlock": Row("1/15", _AC),
        "eastern white pine": Row("1/15", _AC_PINE),
        "Port-Orford-cedar": Row("1/15", _AC),
        "yellow-poplar": Row("1/15", _AC),
    },
)

RINGS = Table(
    {"rings": "1/in"},
    {
        "Sitka spruce": Row("6", _ANC),
        "red spruce": Row("6", _ANC),
        "white spruce": Row("6", _ANC),
        "Douglas-fir": Row("8", _ANC + ", class N"),
        "Port-Orford-cedar": Row("8", _ANC),
        "noble fir": Row("6", _ANC),
        "western hemlock": Row("6", _ANC),
        "eastern white pine": Row("6", _ANC),
        "western white pine": Row("6", _ANC),
        "sugar pine": Row("7", _ANC),
        "yellow-poplar": Row("6", _ANC),
    },
)

_LARGEST_KNOT = Quantity.of(Fraction(3, 8), "in")
_KNOT_DISTANCE = Quantity.of(20, "in")
_LARGEST_POCKET = (
    Quantity.of(Fraction(3, 2), "in"),
    Quantity.of(Fraction(1, 8), "in"),
    Quantity.of(Fraction(1, 8), "in"),
)


def allowed_slope(species: str) -> Quantity:
    """Return the steepest slope of grain allowed in an aircraft wood, as 1:15.

    Raises TradeFault for a species that is not in the table. Source: FAA AC 43.13-1B, Table 1-1.
    """
    return SLOPES.value(species, "slope")


def rings_per_inch_min(species: str) -> Quantity:
    """Return the fewest growth rings per inch allowed in an aircraft wood, counted radially on the end.

    Raises TradeFault for a species that is not in the table. Source: ANC-19 (1943), Table 2-13.
    """
    return RINGS.value(species, "rings")


def knot_spacing(diameter: Quantity) -> Quantity:
    """Return the least distance of a sound hard knot from the next defect, in the unit of its diameter.

    20 in for a knot of 3/8 in, smaller ones in proportion. Takes a length above zero, at most 3/8 in; raises
    TradeFault for others. Source: FAA AC 43.13-1B, Table 1-1, note 1c.
    """
    if above_zero("diameter", diameter, "in") > _LARGEST_KNOT:
        raise TradeFault(f"a knot of {diameter} is not acceptable", f"the largest is {_LARGEST_KNOT}")
    return diameter * (_KNOT_DISTANCE / _LARGEST_KNOT)


def pocket_allowed(length: Quantity, width: Quantity, depth: Quantity) -> bool:
    """Tell whether a pitch pocket is allowed: it lies within 1 1/2 × 1/8 × 1/8 in.

    Takes lengths above zero; raises TradeFault for others. Source: FAA AC 43.13-1B, Table 1-1, note 1e, which
    also wants 14 in between pockets of one growth ring and keeps them out of the edges.
    """
    sizes = [
        above_zero(name, size, "in")
        for name, size in (("length", length), ("width", width), ("depth", depth))
    ]
    return all(size <= most for size, most in zip(sizes, _LARGEST_POCKET, strict=True))


FUNCTIONS = (
    Function(
        "allowed_slope", allowed_slope, (Argument("species", "word", SLOPES.species),), ":",
        "Steepest slope of grain allowed.", _AC, 'allowed_slope("Sitka spruce")',
    ),
    Function(
        "rings_per_inch_min", rings_per_inch_min, (Argument("species", "word", RINGS.species),), "1/in",
        "Fewest growth rings per inch allowed.", _ANC, 'rings_per_inch_min("Sitka spruce")',
    ),
    Function(
        "knot_spacing", knot_spacing, (Argument("diameter", "in"),), "in",
        "Least distance of a knot from the next defect.", _AC + ", note 1c", 'knot_spacing("1/4 in")',
        'diameter * ("20 in" / "3/8 in")',
    ),
    Function(
        "pocket_allowed", pocket_allowed, (Argument("length", "in"), Argument("width", "in"), Argument("depth", "in")),
        "truth", "Whether a pitch pocket is allowed.", _AC + ", note 1e",
        'pocket_allowed("1 1/4 in", "1/8 in", "1/16 in")',
    ),
)  # fmt: skip
