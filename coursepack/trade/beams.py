"""Beams: the stress and the sag that a load gives a piece."""

from fractions import Fraction

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.limits import above_zero, is_metric, known_word

_TABLE = "Wood Handbook GTR-282, Eq. 9-2 and Table 9-1"

# Shares of bending and of shear in the deflection. Wood Handbook, Table 9-1; the load is the whole load.
_CASES = {
    "supported, uniform": ("5/384", "1/8"),
    "clamped, uniform": ("1/384", "1/8"),
    "supported, midspan": ("1/48", "1/4"),
    "clamped, midspan": ("1/192", "1/4"),
    "supported, quarter points": ("11/768", "1/8"),
    "supported, quarter points, at a load": ("1/96", "1/8"),
    "cantilever, uniform": ("1/8", "1/2"),
    "cantilever, end": ("1/3", "1"),
}


def bending_stress(moment: Quantity, section_modulus: Quantity) -> Quantity:
    """Return the stress in the outermost fibres, in psi, or MPa for a metric section: moment / section modulus.

    Takes a moment and a section modulus (a volume) above zero; raises TradeFault for others.
    Source: Wood Handbook GTR-282, Eq. 9-13.
    """
    stress = above_zero("moment", moment, "in·lbf") / above_zero("section_modulus", section_modulus, "in³")
    return stress.to("MPa" if is_metric(section_modulus) else "psi")


def deflection(
    case: str,
    load: Quantity,
    span: Quantity,
    stiffness: Quantity,
    second_moment: Quantity,
    *shear: Quantity,
) -> Quantity:
    """Return the deflection of a beam, in the unit of its span: kb W L³ / (E I), and ks W L / (G A′) for shear.

    Takes a load case and a force, a length, a modulus of elasticity and a second moment of area above zero; then,
    both or neither, a shear modulus and a shear area (5/6 of a rectangle). Quarter-point loads sag at midspan
    unless 'at a load'. Raises TradeFault for others. Source: Wood Handbook GTR-282, Eq. 9-2 and Table 9-1.
    """
    bending, shearing = (Quantity.of(Fraction(cell)) for cell in _CASES[known_word("case", case, _CASES)])
    above_zero("load", load, "lbf")
    above_zero("span", span, "in")
    rigidity = above_zero("stiffness", stiffness, "psi") * above_zero("second_moment", second_moment, "in⁴")
    bent = (bending * load * span ** Fraction(3) / rigidity).to(span.unit_name)
    return bent + shearing * load * span / _shear_rigidity(*shear) if shear else bent


def _shear_rigidity(modulus: Quantity, area: Quantity | None = None) -> Quantity:
    if area is None:
        raise TradeFault("the shear area is missing", "give a shear modulus and a shear area, or neither")
    return above_zero("shear_modulus", modulus, "psi") * above_zero("shear_area", area, "in²")


FUNCTIONS = (
    Function(
        "bending_stress", bending_stress, (Argument("moment", "in·lbf"), Argument("section_modulus", "in³")), "psi",
        "Stress in the outermost fibres of a bent piece.", "Wood Handbook GTR-282, Eq. 9-13",
        'bending_stress("600 in·lbf", "0.5 in³")', "moment / section_modulus",
    ),
    Function(
        "deflection", deflection,
        (
            Argument("case", "word", tuple(_CASES)), Argument("load", "lbf"), Argument("span", "in"),
            Argument("stiffness", "psi"), Argument("second_moment", "in⁴"), Argument("shear_modulus", "psi"),
            Argument("shear_area", "in²"),
        ),
        "in", "Sag of a beam under its load.", _TABLE,
        'deflection("supported, midspan", "100 lbf", "28 in", "1570000 psi", "1.333 in⁴")', optional=2,
    ),
)  # fmt: skip
