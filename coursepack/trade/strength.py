"""Weight and strength of clear wood at any moisture content."""

from fractions import Fraction

from coursepack.formula import Argument, Function
from coursepack.quantity import Quantity
from coursepack.trade.clear_wood import GREEN, MEETING_POINTS, OTHER_MEETING_POINT, STRENGTH
from coursepack.trade.limits import above_zero, is_metric, known_word, within

_ONE = Quantity.of(1)
_WATER = Quantity.of(1000, "kg/m³")
_SWELLING = Quantity.of(Fraction(265, 1000))
_SATURATION = Quantity.of(30, "%")
_DRY_MOISTURE = 12
_PROPERTIES = tuple(GREEN.columns)[1:]


def _moisture(moisture: Quantity) -> Quantity:
    return within("moisture", moisture, Quantity.of(0, "%"), Quantity.of(300, "%"))


def specific_gravity(species: str, condition: str) -> Quantity:
    """Return the specific gravity, a plain number, on oven-dry weight and the volume green or dry (12 % moisture).

    Raises TradeFault for an unknown species or condition. Source: Wood Handbook GTR-282, Tables 5-3b and 5-5b.
    """
    return STRENGTH[known_word("condition", condition, STRENGTH)].value(species, "specific gravity")


def wood_density(species: str, moisture: Quantity) -> Quantity:
    """Return the weight of wood with its water for its volume, in lb/ft³, at a moisture content.

    Takes 0 to 300 % moisture; raises TradeFault for others or an unknown species. Works from the green
    specific gravity. Source: Wood Handbook GTR-282, Eq. 4-13 and 4-14.
    """
    green = specific_gravity(species, "green")
    dried = _ONE - min(_moisture(moisture), _SATURATION) / _SATURATION
    return (_WATER * green / (_ONE - _SWELLING * green * dried) * (_ONE + moisture)).to("lb/ft³")


def wood_weight(volume: Quantity, species: str, moisture: Quantity) -> Quantity:
    """Return the weight of a volume of wood at a moisture content, in lb, or kg for a metric volume.

    Takes a volume above zero and 0 to 300 % moisture; raises TradeFault for others or an unknown species.
    Source: Wood Handbook GTR-282, Eq. 4-13 and 4-14.
    """
    weight = above_zero("volume", volume, "in³") * wood_density(species, moisture)
    return weight.to("kg" if is_metric(volume) else "lb")


def strength(species: str, property: str, condition: str) -> Quantity:  # noqa: A002 - the trade's own word
    """Return a strength of clear straight-grained wood, green or dry (12 % moisture), in psi, hardness in lbf.

    Raises TradeFault for an unknown species, property or condition, or a value that is not published.
    Source: Wood Handbook GTR-282, Tables 5-3b and 5-5b.
    """
    return STRENGTH[known_word("condition", condition, STRENGTH)].value(
        species, known_word("property", property, _PROPERTIES)
    )


def strength_at(species: str, property: str, moisture: Quantity) -> Quantity:  # noqa: A002 - the trade's own word
    """Return a strength of clear wood at a moisture content, at about 70 °F, in psi, hardness in lbf.

    Takes 0 to 300 % moisture; raises TradeFault as `strength` does. Source: Wood Handbook GTR-282, Eq. 5-3 with
    the meeting points of Table 5-13.
    """
    dry, green = strength(species, property, "dry"), strength(species, property, "green")
    name = known_word("species", species, GREEN.rows)
    return between(dry, green, moisture, Quantity.of(MEETING_POINTS.get(name, OTHER_MEETING_POINT), "%"))


def between(dry: Quantity, green: Quantity, moisture: Quantity, meeting: Quantity) -> Quantity:
    """Return a strength at a moisture content from those at 12 % and green, in their unit; green from the meeting on.

    Takes strengths of one kind and 0 to 300 % moisture; raises TradeFault for others.
    Source: Wood Handbook GTR-282, Eq. 5-3.
    """
    if _moisture(moisture) >= meeting:
        return green
    power = (_DRY_MOISTURE - moisture.number("%")) / (meeting.number("%") - _DRY_MOISTURE)
    return dry * Quantity.of(float((dry / green).number()) ** float(power))


_SPECIES = Argument("species", "word", GREEN.species)
_CONDITION = Argument("condition", "word", tuple(STRENGTH))
_PROPERTY = Argument("property", "word", _PROPERTIES)
_IN_LBF = {"hardness": "lbf"}
_MOISTURE = Argument("moisture", "%")
_TABLES = "Wood Handbook GTR-282, Tables 5-3b and 5-5b"
_DENSITY = "Wood Handbook GTR-282, Eq. 4-13 and 4-14"

FUNCTIONS = (
    Function(
        "specific_gravity", specific_gravity, (_SPECIES, _CONDITION), "",
        "Specific gravity, green or dry (12 % moisture).", _TABLES, 'specific_gravity("Sitka spruce", "dry")',
    ),
    Function(
        "wood_density", wood_density, (_SPECIES, _MOISTURE), "lb/ft³", "Density of wood with its water.", _DENSITY,
        'wood_density("Sitka spruce", "12 %")',
        '"1000 kg/m³" * specific_gravity(species, "green") / (1 - 0.265 * specific_gravity(species, "green")'
        ' * (1 - min(moisture, "30 %") / "30 %")) * (1 + moisture)',
    ),
    Function(
        "wood_weight", wood_weight, (Argument("volume", "in³"), _SPECIES, _MOISTURE), "lb",
        "Weight of a volume of wood with its water.", _DENSITY, 'wood_weight("1 ft³", "Sitka spruce", "12 %")',
        "volume * wood_density(species, moisture)",
    ),
    Function(
        "strength", strength, (_SPECIES, _PROPERTY, _CONDITION), "psi",
        "Strength of clear wood, green or dry (12 % moisture); hardness in lbf.", _TABLES,
        'strength("Sitka spruce", "bending", "dry")', but=_IN_LBF,
    ),
    Function(
        "strength_at", strength_at, (_SPECIES, _PROPERTY, _MOISTURE), "psi",
        "Strength of clear wood at a moisture content.", "Wood Handbook GTR-282, Eq. 5-3 and Table 5-13",
        'strength_at("white ash", "bending", "8 %")', but=_IN_LBF,
    ),
)  # fmt: skip
