"""A board seen from its side on its way into the planer: its fibres, grain arrow and way of feed."""

from coursepack.drafting.dimension import ARROW_MM, arrowhead
from coursepack.drafting.lettering import MIDDLE_EM
from coursepack.drafting.sheet import SMALL_MM, Label, Line, Piece, Stroke

ALONG_MM = (40.0, 6.0)


def along_the_board() -> Piece:
    """Draw the strip from its side: fibres fall the way it is fed, so that the knives do not lift them."""
    long, deep = ALONG_MM
    high, low = -5.0, -5.0 - deep
    ends = tuple(_ragged(x, low, high) for x in (-long / 2, long / 2))
    edges = tuple(((-long / 2, y), (long / 2, y)) for y in (low, high))
    fibres = tuple(_fibre(-long / 2 + 1.5 + n * 5.2, low, deep) for n in range(7))
    strokes = (Stroke("outline", edges), Stroke("thin", ends), Stroke("ring", fibres))
    return Piece(strokes) + _arrow("FEED", high + 2.8) + _arrow("GRAIN", low - 2.8)


def _ragged(x: float, low: float, high: float) -> Line:
    return tuple((x + (0.7 if n % 2 else -0.7) * (0 < n < 6), low + (high - low) * n / 6) for n in range(7))


def _fibre(x: float, low: float, deep: float) -> Line:
    return (x, low + 0.8 * deep), (x + 4.6, low + 0.2 * deep)


def _arrow(text: str, y: float) -> Piece:
    label = Label(text, -3.0, y - MIDDLE_EM * SMALL_MM, "right", size_mm=SMALL_MM)
    tip = (14.0, y)
    return Piece(
        (Stroke("thin", (((-1.5, y), (tip[0] - ARROW_MM, y)),)),), (arrowhead(tip, (1, 0), text),), (label,)
    )
