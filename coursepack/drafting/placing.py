"""The ways to place a dimension, the best first; nothing is drawn before its lettering has room."""

from collections.abc import Iterator
from functools import partial
from itertools import chain, product

from coursepack.drafting.dimension import ARROW_MM, CLEAR_MM, GAP_MM, OVERRUN_MM, TAIL_MM, Linear, arrowhead
from coursepack.drafting.settling import Choice
from coursepack.drafting.sheet import Box, Fill, Line, Piece, Point, Stroke

STAND_OFF_MM = 1.2  # of lettering from the outline
ROWS = 3

Span = tuple[float, float]  # a part of the dimension line, along it


def ways(dim: Linear, rows: int = ROWS) -> Iterator[Choice]:
    """Give the ways to place a dimension: nearest row first, lettering between the ends.

    Lettering that must go past the ends in every row goes a storey or two further out at last.
    """
    if dim.spacing.close and dim.upright and _aside(dim, dim.row(0)):
        yield from _beyond(dim, dim.row(0), (0, 1, 2), (-dim.room.width / 2,))
    for row in range(rows):
        yield from _ways_in_row(dim, dim.row(row))
    yield from _beyond(dim, dim.row(0), (1, 2), _asides(dim, dim.row(0)))


def _ways_in_row(dim: Linear, across: float) -> Iterator[Choice]:
    between, outside = _between(dim, across), _outside(dim, across)
    beyond = _beyond(dim, across, (0,), _asides(dim, across))
    if dim.upright or dim.sideways:
        return chain(between, beyond, outside)
    return chain(between, outside, beyond)


def _asides(dim: Linear, across: float) -> tuple[float, ...]:
    """How far outside its line lettering past an end may stand: clear of the part, on it, to either side."""
    half = (dim.room.width if dim.upright else dim.room.height) / 2
    return _aside(dim, across), 0.0, half, -half


def _choice(
    dim: Linear, across: float, parts: tuple[Span, ...], along: float, aside: float, *, reverse: bool
) -> Choice:
    """Offer a way: the parts of the line, where along it its lettering stands, and how far outside it."""
    at = dim.paper(along, across + dim.outward * aside)
    left, low, right, high = dim.room
    room = Box(left + at[0], low + at[1], right + at[0], high + at[1])
    return Choice(room, partial(_drawn, dim, across, parts, at, reverse=reverse))


def _drawn(dim: Linear, across: float, parts: tuple[Span, ...], at: Point, *, reverse: bool) -> Piece:
    lines = *_extensions(dim, across), *((dim.paper(a, across), dim.paper(b, across)) for a, b in parts)
    return Piece((Stroke("dimension", lines),), _heads(dim, across, reverse=reverse), (dim.lettered(at),))


def _extensions(dim: Linear, across: float) -> Iterator[Line]:
    for end in () if dim.bare else dim.ends:
        along, foot = (end[1], end[0]) if dim.upright else end
        start = foot + dim.outward * GAP_MM
        yield dim.paper(along, start), dim.paper(along, across + dim.outward * OVERRUN_MM)


def _heads(dim: Linear, across: float, *, reverse: bool) -> tuple[Fill, Fill]:
    low, high = dim.span
    up, down = dim.paper(1, 0), dim.paper(-1, 0)
    first, second = (up, down) if reverse else (down, up)
    return (
        arrowhead(dim.paper(low, across), first, dim.name),
        arrowhead(dim.paper(high, across), second, dim.name),
    )


def _between(dim: Linear, across: float) -> Iterator[Choice]:
    """Letter between the ends, where there is room; arrows come from outside where they would crowd it."""
    low, high = dim.span
    middle, half = (low + high) / 2, dim.needs / 2
    if high - low < dim.needs:
        return
    reverse = high - low < dim.needs + 2 * ARROW_MM + 1
    reach = ARROW_MM + TAIL_MM
    inside, outside = (
        ((low, middle - half), (middle + half, high)),
        ((low - reach, low), (high, high + reach)),
    )
    yield _choice(dim, across, outside if reverse else inside, middle, _aside(dim, across), reverse=reverse)


def _aside(dim: Linear, across: float) -> float:
    """How far upright lettering stands off its line so that it stays clear of the part, if it is not on that."""
    if dim.bare or not dim.upright:
        return 0.0
    return max(0.0, dim.room.width / 2 + STAND_OFF_MM - abs(across - dim.line))


def _is_short(dim: Linear) -> bool:
    """Whether two arrowheads do not fit between the ends, and come from outside."""
    return dim.span[1] - dim.span[0] < 2 * ARROW_MM + 1


def _beyond(
    dim: Linear, across: float, storeys: tuple[int, ...], asides: tuple[float, ...]
) -> Iterator[Choice]:
    """Letter past an end of the line: over or under it, to either side of it, or a storey further out."""
    low, high = dim.span
    reverse = _is_short(dim)
    reach, back = (ARROW_MM + TAIL_MM,) * 2 if reverse else (OVERRUN_MM, 0.0)
    for storey, sign, aside in product(storeys, (-1, 1) if dim.low_first else (1, -1), asides):
        far = reach + storey * dim.needs
        start, end = (low - far, high + back) if sign < 0 else (low - back, high + far)
        along = (end if sign > 0 else start) + sign * dim.needs / 2
        yield _choice(dim, across, ((start, end),), along, aside, reverse=reverse)


def _outside(dim: Linear, across: float) -> Iterator[Choice]:
    """Letter beside the unbroken line, on its outer side."""
    low, high = dim.span
    reverse = _is_short(dim)
    reach = (ARROW_MM + TAIL_MM) * reverse
    aside = (dim.room.width if dim.upright else dim.room.height) / 2 + CLEAR_MM + OVERRUN_MM
    yield _choice(dim, across, ((low - reach, high + reach),), (low + high) / 2, aside, reverse=reverse)
