"""The check bars of a full-size sheet: lengths that a student measures before trusting the print.

One bar along the paper and one across, each with millimetres on one side and inches on the other.
"""

from collections.abc import Iterator

from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.sheet import SMALL_MM, Label, Line, Piece, Point, Stroke

INCH = 25.4
_TICK, _LONG, _END = 1.2, 2.0, 3.2
_INSIDE = 9.0


def check_bar(bar: tuple[int, int], start: Point, *, upright: bool) -> Piece:
    """Draw a bar of some inches and millimetres from a point: its line, a tick each 10 mm and each 1/2 in, both ends lettered.

    Millimetres lie on the left of an upright bar and above a level one.
    """
    inches, millimetres = bar
    longer = max(float(millimetres), inches * INCH)
    ticks = [
        ((0.0, 0.0), (longer, 0.0)),
        *_ticks(10.0, 5, millimetres // 10, 1),
        *_ticks(INCH / 2, 2, inches * 2, -1),
    ]
    lines = tuple(tuple(_placed(point, start, upright=upright) for point in tick) for tick in ticks)
    ends = (
        _end(f"{millimetres} mm", millimetres, 1, start, upright),
        _end(f"{inches} in", inches * INCH, -1, start, upright),
    )
    return Piece((Stroke("dimension", lines),), (), ends)


def _ticks(step: float, longer: int, count: int, side: int) -> Iterator[Line]:
    for number in range(count + 1):
        high = _END if number in {0, count} else _TICK if number % longer else _LONG
        yield (number * step, 0.0), (number * step, side * high)


def _placed(point: Point, start: Point, *, upright: bool) -> Point:
    along, aside = point
    return (start[0] - aside, start[1] + along) if upright else (start[0] + along, start[1] + aside)


def _end(text: str, at: float, side: int, start: Point, upright: bool) -> Label:  # noqa: FBT001 - one line
    """Letter an end of the bar, inside of it and on its side."""
    along, aside = at - _INSIDE, side * (_LONG + 2.0)
    x, y = _placed((along, aside), start, upright=upright)
    half = MIDDLE_EM * SMALL_MM
    return (
        Label(text, x + half, y, "centre", 90, size_mm=SMALL_MM)
        if upright
        else Label(text, x, y - half, size_mm=SMALL_MM)
    )
