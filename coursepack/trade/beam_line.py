"""The line that a loaded beam takes, in plain floats, shared by the mathematics and the drawings.

Places along a beam are shares of its span, from 0 at its left end to 1. Deflections are shares of W L³ / (E I), where
W is the whole load; what shear adds is left out. Formulas of the elastic line, from memory; their values at the places
that Table 9-1 of the Wood Handbook (GTR-282) names are those of the table.
"""

from typing import Literal

Ends = Literal["supported", "clamped", "cantilever"]


def deflection_at(place: float, ends: Ends, loads: tuple[float, ...] = ()) -> float:
    """Return how far a beam sags at a place under equal loads at some places, or without these a uniform load.

    A cantilever is built in at its left end.
    """
    if not loads:
        return _under_uniform(place, ends)
    return sum(_under_point(place, ends, load) for load in loads) / len(loads)


def _under_uniform(x: float, ends: Ends) -> float:
    if ends == "supported":
        return (x - 2 * x**3 + x**4) / 24
    if ends == "clamped":
        return (x * (1 - x)) ** 2 / 24
    return x**2 * (6 - 4 * x + x**2) / 24


def _under_point(x: float, ends: Ends, load: float) -> float:
    if ends == "cantilever":
        near, far = sorted((x, load))
        return near**2 * (3 * far - near) / 6
    if x > load:  # seen from the other end, the place lies before the load
        x, load = 1 - x, 1 - load
    beyond = 1 - load
    if ends == "supported":
        return beyond * x * (1 - beyond**2 - x**2) / 6
    return beyond**2 * x**2 * (3 * load - 3 * load * x - beyond * x) / 6
