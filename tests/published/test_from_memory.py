"""Values from memory: no copy of the document was read. They stand here to be checked against one."""

import pytest

from coursepack.shoptext import parse
from coursepack.trade import moisture
from coursepack.trade.catalogue import source_of

# Wood Handbook, Table 4-3: radial, tangential, volumetric.
SHRINKAGES = {
    "red spruce": "3.8 7.8 11.8",
    "white spruce": "4.7 8.2 13.7",
    "black spruce": "4.1 6.8 11.3",
    "western white pine": "4.1 7.4 11.8",
}

# Wood Handbook, Table 13-5. Red spruce is left out: 0.00267, as recalled, does not follow from its shrinkage of
# 7.8 %, which gives 0.00274.
COEFFICIENTS = {
    "Sitka spruce": ("0.00148", "0.00263"),
    "Engelmann spruce": ("0.00130", "0.00248"),
    "Douglas-fir": ("0.00165", "0.00267"),
    "white fir": ("0.00112", "0.00245"),
}


@pytest.mark.parametrize("species", SHRINKAGES)
def test_shrinkage_from_memory_is_marked_as_such(species: str) -> None:
    cells = [parse(f"{cell} %") for cell in SHRINKAGES[species].split()]
    assert [moisture.shrinkage(species, d) for d in ("radial", "tangential", "volumetric")] == cells
    assert "from memory" in source_of("shrinkage", species)


@pytest.mark.parametrize("species", COEFFICIENTS)
def test_coefficients_worked_from_shrinkage_are_those_from_memory(species: str) -> None:
    radial, tangential = COEFFICIENTS[species]
    assert moisture.movement_coefficient(species, "radial") == parse(radial)
    assert moisture.movement_coefficient(species, "tangential") == parse(tangential)


@pytest.mark.parametrize("species", SHRINKAGES)
def test_a_coefficient_worked_from_a_shrinkage_from_memory_is_marked_as_such(species: str) -> None:
    assert "from memory" in source_of("movement_coefficient", species)
