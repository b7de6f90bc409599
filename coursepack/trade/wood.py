"""How wood shrinks, species by species: the published rows, each with the place it was read in."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.trade.limits import known_word


@dataclass(frozen=True)
class Row:
    """The values of one species, in the order of the table's columns, and where they were read; '-' where none is."""

    cells: str
    source: str


@dataclass(frozen=True)
class Table:
    """Published values by species; each column has a name and a unit."""

    columns: Mapping[str, str]
    rows: Mapping[str, Row]

    @property
    def species(self) -> tuple[str, ...]:
        """The species of the table, in its order."""
        return tuple(self.rows)

    def value(self, species: str, column: str) -> Quantity:
        """Return one value in its column's unit; raises TradeFault for a species, column or cell there is none of."""
        row = self.rows[known_word("species", species, self.rows)]
        name = known_word("property", column, self.columns)
        cell = row.cells.split()[tuple(self.columns).index(name)]
        if cell == "-":
            raise TradeFault(
                f"no {name} is published for {species}", f"known for: {', '.join(self._with(name))}"
            )
        return Quantity.of(Fraction(cell), self.columns[name])

    def source(self, species: str) -> str:
        """Return where the row of a species was read; raises TradeFault for a species there is none of."""
        return self.rows[known_word("species", species, self.rows)].source

    def _with(self, name: str) -> list[str]:
        place = tuple(self.columns).index(name)
        return [species for species, row in self.rows.items() if row.cells.split()[place] != "-"]


_T43 = "Wood Handbook, Table 4-3"
_T44 = "Wood Handbook GTR-190, Table 4-4"
_QUOTED = "Wood Handbook, Table 4-3, as quoted by a species data page"
_PINE = "a materials data page; Table 4-3 from memory has 2.1, 6.1 and 8.2 %"
_MEMORY = "from memory of Wood Handbook, Table 4-3"

SHRINKAGE = Table(
    {"radial": "%", "tangential": "%", "volumetric": "%"},
    {
        "Sitka spruce": Row("4.3 7.5 11.5", _QUOTED),
        "red spruce": Row("3.8 7.8 11.8", _MEMORY),
        "white spruce": Row("4.7 8.2 13.7", _MEMORY),
        "black spruce": Row("4.1 6.8 11.3", _MEMORY),
        "Engelmann spruce": Row("3.8 7.1 11.0", _T43),
        "Douglas-fir": Row("4.8 7.6 12.4", _T43 + ", Coast"),
        "Douglas-fir (Interior North)": Row("3.8 6.9 10.7", _T43),
        "Douglas-fir (Interior West)": Row("4.8 7.5 11.8", _T43),
        "noble fir": Row("4.3 8.3 12.4", _T43),
        "western hemlock": Row("4.2 7.8 12.4", _T43),
        "Port-Orford-cedar": Row("4.6 6.9 10.1", _T43),
        "western redcedar": Row("2.4 5.0 6.8", _T43),
        "eastern white pine": Row("2.3 6.0 8.2", _PINE),
        "western white pine": Row("4.1 7.4 11.8", _MEMORY),
        "yellow-poplar": Row("4.6 8.2 12.7", _T43),
        "white ash": Row("4.9 7.8 13.3", _T43),
        "yellow birch": Row("7.3 9.5 16.8", _T43),
        "sugar maple": Row("4.8 9.9 14.7", _T43),
        "basswood": Row("6.6 9.3 15.8", _T43 + ", American"),
        "mahogany": Row("3.0 4.1 7.8", _T44 + ", true mahogany"),
        "African mahogany": Row("2.5 4.5 8.8", _T44),
        "grand fir": Row("3.4 7.5 11.0", _T43),
        "white fir": Row("3.3 7.0 9.8", _T43),
        "balsam fir": Row("2.9 6.9 11.2", _T43),
        "western larch": Row("4.5 9.1 14.0", _T43),
        "yellow-cedar": Row("2.8 6.0 9.2", _T43),
        "longleaf pine": Row("5.1 7.5 12.2", _T43),
        "sweet birch": Row("6.5 9.0 15.6", _T43),
        "American beech": Row("5.5 11.9 17.2", _T43),
        "black cherry": Row("3.7 7.1 11.5", _T43),
        "black walnut": Row("5.5 7.8 12.8", _T43),
        "white oak": Row("5.6 10.5 16.3", _T43),
        "northern red oak": Row("4.0 8.6 13.7", _T43),
        "sweetgum": Row("5.3 10.2 15.8", _T43),
        "rock elm": Row("4.8 8.1 14.9", _T43),
    },
)

_T135 = "Wood Handbook GTR-190, Table 13-5"
_EXAMPLE = (
    "Wood Handbook GTR-190, worked example to Eq. 13-2, the tangential value worked back from its change"
)
# The table's coefficients are the shrinkage S over 30 % moisture, on the size at 10 %: S / (3000 - 20 S), S in
# percent. Its rows that could be read agree with this in every digit (but sweet birch, which it gives the values of
# yellow birch), so it stands in for those that could not be read.
_WORKED = (
    "worked from its shrinkage S in percent as S / (3000 - 20 S), by which Wood Handbook Table 13-5 is made"
)
_WORKED_MEMORY = _WORKED + "; the shrinkage is from memory"

MOVEMENT = Table(
    {"radial": "", "tangential": ""},
    {
        "Sitka spruce": Row("0.00148 0.00263", _WORKED),
        "red spruce": Row("0.00130 0.00274", _WORKED_MEMORY),
        "white spruce": Row("0.00162 0.00289", _WORKED_MEMORY),
        "black spruce": Row("0.00141 0.00237", _WORKED_MEMORY),
        "Engelmann spruce": Row("0.00130 0.00248", _WORKED),
        "Douglas-fir": Row("0.00165 0.00267", _WORKED),
        "noble fir": Row("0.00148 0.00293", _WORKED),
        "western hemlock": Row("0.00144 0.00274", _WORKED),
        "Port-Orford-cedar": Row("0.00158 0.00241", _WORKED),
        "western redcedar": Row("0.00081 0.00172", _WORKED),
        "eastern white pine": Row("0.00078 0.00208", _WORKED),
        "western white pine": Row("0.00141 0.00259", _WORKED_MEMORY),
        "yellow-poplar": Row("0.00158 0.00289", _WORKED),
        "mahogany": Row("0.00102 0.00141", _WORKED),
        "white fir": Row("0.00112 0.00245", _EXAMPLE),
        "white ash": Row("0.00169 0.00274", _T135),
        "yellow birch": Row("0.00256 0.00338", _T135),
        "sugar maple": Row("0.00165 0.00353", _T135),
        "basswood": Row("0.00230 0.00330", _T135 + ", American"),
        "American beech": Row("0.00190 0.00431", _T135),
        "black cherry": Row("0.00126 0.00248", _T135),
        "black walnut": Row("0.00190 0.00274", _T135),
        "sweet birch": Row("0.00256 0.00338", _T135),
        "sweetgum": Row("0.00183 0.00365", _T135),
        "rock elm": Row("0.00165 0.00285", _T135),
    },
)
