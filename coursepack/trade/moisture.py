"""Water in wood: how much there is, how much there will be, and what it does to a size."""

from coursepack.formula import Argument, Function
from coursepack.quantity import Quantity
from coursepack.trade.limits import above_zero, known_word, not_below_zero, of_kind, within
from coursepack.trade.wood import MOVEMENT, SHRINKAGE

_NONE = Quantity.of(0, "%")
_ALL = Quantity.of(100, "%")
_WETTEST = Quantity.of(300, "%")
_FIBER_SATURATION = Quantity.of(30, "%")
_COLDEST, _HOTTEST = Quantity.of(30, "°F"), Quantity.of(210, "°F")
_DRIEST_MOVED, _WETTEST_MOVED = Quantity.of(6, "%"), Quantity.of(14, "%")
_ONE = Quantity.of(1)
_ACROSS = ("radial", "tangential")


def moisture_content(wet: Quantity, dry: Quantity) -> Quantity:
    """Return the moisture content, in percent of the oven-dry weight: (wet − dry) / dry.

    Takes two weights; raises TradeFault where the dry one is zero or the wet one is less.
    Source: ANC-19 (1943), paragraph 2.2110.
    """
    above_zero("dry", dry, "lb")
    not_below_zero("wet less dry", of_kind("wet", wet, "lb") - dry, "lb")
    return ((wet - dry) / dry).to("%")


def equilibrium_moisture(temperature: Quantity, humidity: Quantity) -> Quantity:
    """Return the moisture content, in percent, that wood comes to in air of a temperature and relative humidity.

    Takes 30 to 210 °F and 0 to 100 %; raises TradeFault for others.
    Source: Wood Handbook GTR-282, Eq. 4-5 with its Celsius constants (Table 4-2 is the same, rounded).
    """
    within("temperature", temperature, _COLDEST, _HOTTEST)
    h = float(within("humidity", humidity, _NONE, _ALL).number())
    t = float(temperature.number("°C"))
    w = 349 + 1.29 * t + 0.0135 * t**2
    kh = (0.805 + 0.000736 * t - 0.00000273 * t**2) * h
    k1kh = (6.27 - 0.00938 * t - 0.000303 * t**2) * kh
    k1k2kh2 = k1kh * (1.91 + 0.0407 * t - 0.000293 * t**2) * kh
    return Quantity.of(1800 / w * (kh / (1 - kh) + (k1kh + 2 * k1k2kh2) / (1 + k1kh + k1k2kh2)), "%")


def fiber_saturation() -> Quantity:
    """Return the moisture content, 30 %, below which wood begins to shrink.

    Source: Wood Handbook GTR-190, chapter 4: an average that varies by several points between species.
    """
    return _FIBER_SATURATION


def shrinkage(species: str, direction: str) -> Quantity:
    """Return the shrinkage from green to oven-dry, in percent of the green size.

    The direction is radial, tangential or volumetric; raises TradeFault for another or an unknown species.
    Source: Wood Handbook, Tables 4-3 and 4-4; the row of each species names its own.
    """
    return SHRINKAGE.value(species, direction)


def shrunk(size: Quantity, species: str, direction: str, start: Quantity, end: Quantity) -> Quantity:
    """Return a size at one moisture content from its size at another, in the unit of the size; it may swell too.

    Each size is green size × (1 − S (30 − M) / 30), with nothing lost above 30 %. Takes a length above zero,
    radial or tangential, and 0 to 300 % moisture; raises TradeFault for others.
    Source: Wood Handbook GTR-282, Eq. 4-9.
    """
    above_zero("size", size, "in")
    lost = shrinkage(species, known_word("direction", direction, _ACROSS))
    return size * _left(lost, "end", end) / _left(lost, "start", start)


def _left(lost: Quantity, name: str, moisture: Quantity) -> Quantity:
    """Share of the green size that is left at a moisture content."""
    held = min(within(name, moisture, _NONE, _WETTEST), _FIBER_SATURATION) / _FIBER_SATURATION
    return _ONE - lost * (_ONE - held)


def movement_coefficient(species: str, direction: str) -> Quantity:
    """Return the change of size for one percent of moisture, a plain fraction of the size.

    The direction is radial or tangential; raises TradeFault for another or an unknown species.
    Source: Wood Handbook GTR-190, Table 13-5; the row of each species names its own.
    """
    return MOVEMENT.value(species, direction)


def moved(size: Quantity, coefficient: Quantity, start: Quantity, end: Quantity) -> Quantity:
    """Return a size at one moisture content from its size at another: size × (1 + C (end − start)), C for one percent.

    Takes a length above zero, a coefficient above zero and 6 to 14 % moisture, where the coefficients hold;
    raises TradeFault for others. Source: Wood Handbook GTR-190, Eq. 13-2.
    """
    above_zero("size", size, "in")
    above_zero("coefficient", coefficient, "")
    within("start", start, _DRIEST_MOVED, _WETTEST_MOVED)
    within("end", end, _DRIEST_MOVED, _WETTEST_MOVED)
    return size * (_ONE + coefficient * (end - start) / Quantity.of(1, "%"))


_SPECIES = Argument("species", "word", SHRINKAGE.species)
_DIRECTION = Argument("direction", "word", _ACROSS)
_START, _END = Argument("start", "%"), Argument("end", "%")

FUNCTIONS = (
    Function(
        "moisture_content", moisture_content, (Argument("wet", "lb"), Argument("dry", "lb")), "%",
        "Moisture content of a sample weighed wet and oven-dry.", "ANC-19 (1943), paragraph 2.2110",
        'moisture_content("112 g", "100 g")', '(wet - dry) / dry * "100 %"',
    ),
    Function(
        "equilibrium_moisture", equilibrium_moisture, (Argument("temperature", "°F"), Argument("humidity", "%")), "%",
        "Moisture content that wood comes to in air of a temperature and relative humidity.",
        "Wood Handbook GTR-282, Eq. 4-5", 'equilibrium_moisture("70 °F", "50 %")',
    ),
    Function(
        "fiber_saturation", fiber_saturation, (), "%", "Moisture content below which wood shrinks.",
        "Wood Handbook GTR-190, chapter 4", "fiber_saturation()",
    ),
    Function(
        "shrinkage", shrinkage, (_SPECIES, Argument("direction", "word", tuple(SHRINKAGE.columns))), "%",
        "Shrinkage from green to oven-dry.", "Wood Handbook, Tables 4-3 and 4-4",
        'shrinkage("Sitka spruce", "tangential")',
    ),
    Function(
        "shrunk", shrunk, (Argument("size", "in"), _SPECIES, _DIRECTION, _START, _END), "in",
        "Size at one moisture content from the size at another.", "Wood Handbook GTR-282, Eq. 4-9",
        'shrunk("4 in", "Sitka spruce", "tangential", "12 %", "8 %")',
        'size * (1 - shrinkage(species, direction) * (1 - min(end, "30 %") / "30 %"))'
        ' / (1 - shrinkage(species, direction) * (1 - min(start, "30 %") / "30 %"))',
    ),
    Function(
        "movement_coefficient", movement_coefficient, (Argument("species", "word", MOVEMENT.species), _DIRECTION), "",
        "Change of size for one percent of moisture.", "Wood Handbook GTR-190, Table 13-5",
        'movement_coefficient("Sitka spruce", "tangential")',
    ),
    Function(
        "moved", moved, (Argument("size", "in"), Argument("coefficient", ""), _START, _END), "in",
        "Size at one moisture content from the size at another, between 6 and 14 %.",
        "Wood Handbook GTR-190, Eq. 13-2", 'moved("9.15 in", 0.00245, "8 %", "11 %")',
        'size * (1 + coefficient * (end - start) / "1 %")',
    ),
)  # fmt: skip
