"""Every function of the trade that a formula can call."""

from collections.abc import Mapping

from coursepack.formula import Function
from coursepack.place import TradeFault, did_you_mean
from coursepack.trade import (
    airfoil,
    arithmetic,
    beams,
    bending,
    gluing,
    hearing,
    joints,
    lofting,
    machines,
    milling,
    moisture,
    section,
    section_shapes,
    selection,
    slope,
    spar,
    stock,
    strength,
)
from coursepack.trade.airfoil_tables import TABLES as _SECTIONS
from coursepack.trade.clear_wood import GREEN
from coursepack.trade.gluing import PRESSURES
from coursepack.trade.selection import RINGS, SLOPES
from coursepack.trade.wood import MOVEMENT, SHRINKAGE, Table

_TABLES: Mapping[str, Table] = {
    "shrinkage": SHRINKAGE,
    "shrunk": SHRINKAGE,
    "movement_coefficient": MOVEMENT,
    "specific_gravity": GREEN,
    "wood_density": GREEN,
    "wood_weight": GREEN,
    "strength": GREEN,
    "strength_at": GREEN,
    "allowed_slope": SLOPES,
    "rings_per_inch_min": RINGS,
    "clamp_pressure": PRESSURES,
}


def source_of(function: str, *words: str) -> str:
    """Return where a function's value comes from; with a species or an airfoil's name, where that was read.

    Raises TradeFault for an unknown function.
    """
    if function not in FUNCTIONS:
        raise TradeFault(f"there is no function '{function}'", did_you_mean(function, FUNCTIONS))
    if function == "airfoil" and (known := [word for word in words if word in _SECTIONS]):
        return "; ".join(f"{word}: {_SECTIONS[word].source}" for word in known)
    table = _TABLES.get(function)
    rows = [table.source(word) for word in words if word in table.species] if table else []
    whole = FUNCTIONS[function].source
    return "; ".join([whole, *(row for row in rows if row != whole)])


def sources_of_rows(function: str) -> Mapping[str, list[str]]:
    """Return the words of a function's table by where their rows were read, but for its own source; none without a table."""
    rows: dict[str, list[str]] = {}
    if table := _TABLES.get(function):
        for word in table.species:
            rows.setdefault(table.source(word), []).append(word)
        rows.pop(FUNCTIONS[function].source, None)
    return rows


FUNCTIONS: Mapping[str, Function] = {
    function.name: function
    for function in (
        *arithmetic.FUNCTIONS,
        *moisture.FUNCTIONS,
        *strength.FUNCTIONS,
        *slope.FUNCTIONS,
        *selection.FUNCTIONS,
        *milling.FUNCTIONS,
        *stock.FUNCTIONS,
        *machines.FUNCTIONS,
        *hearing.FUNCTIONS,
        *spar.FUNCTIONS,
        *airfoil.FUNCTIONS,
        *lofting.FUNCTIONS,
        *section_shapes.FUNCTIONS,
        *section.FUNCTIONS,
        *beams.FUNCTIONS,
        *joints.FUNCTIONS,
        *gluing.FUNCTIONS,
        *bending.FUNCTIONS,
    )
}
