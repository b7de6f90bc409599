"""A board seen from its side on its way into the planer: its fibres, the grain arrows of both faces, the way of feed."""

from coursepack.drafting.dimension import ARROW_MM, arrowhead
from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.sheet import SMALL_MM, Label, Line, Piece, Stroke

ALONG_MM = (40.0, 6.0)
ROW_MM = 4.2  # from arrow to arrow
TAIL_MM, TIP_MM = -1.5, 14.0


def along_the_board() -> Piece:
    """Draw the strip from its side: fibres fall the way it is fed, so that the knives do not lift them.

    The upper face's grain arrow points the way of feed, the lower face's the other way.
    """
    long, deep = ALONG_MM
    high, low = -5.0 - ROW_MM, -5.0 - ROW_MM - deep
    ends = tuple(_ragged(x, low, high) for x in (-long / 2, long / 2))
    edges = tuple(((-long / 2, y), (long / 2, y)) for y in (low, high))
    fibres = tuple(_fibre(-long / 2 + 1.5 + n * 5.2, low, deep) for n in range(7))
    strokes = (Stroke("outline", edges), Stroke("thin", ends), Stroke("ring", fibres))
    arrows = (
        _arrow("FEED", high + 2.8 + ROW_MM, TAIL_MM, TIP_MM)
        + _arrow("GRAIN, UPPER", high + 2.8, TAIL_MM, TIP_MM)
        + _arrow("GRAIN, LOWER", low - 2.8, TIP_MM, TAIL_MM)
    )
    return Piece(strokes) + arrows


def _ragged(x: float, low: float, high: float) -> Line:
    return tuple((x + (0.7 if n % 2 else -0.7) * (0 < n < 6), low + (high - low) * n / 6) for n in range(7))


def _fibre(x: float, low: float, deep: float) -> Line:
    return (x, low + 0.8 * deep), (x + 4.6, low + 0.2 * deep)


def _arrow(text: str, y: float, tail: float, tip: float) -> Piece:
    """Draw an arrow from tail to tip, its name before both."""
    label = Label(text, -3.0, y - MIDDLE_EM * SMALL_MM, "right", size_mm=SMALL_MM)
    way = 1 if tip > tail else -1
    shaft = (tail, y), (tip - way * ARROW_MM, y)
    return Piece((Stroke("thin", (shaft,)),), (arrowhead((tip, y), (way, 0), text),), (label,))
