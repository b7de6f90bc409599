"""The sections of the shop: solid, bevelled, routed, box, hollow and tee.

Each stands with its front face to the left, its lower front corner at the origin, and takes the unit of its first
size. One sign rule: a bevel is positive where its edge rises going aft. Sizes are lengths above zero; each function
raises TradeFault for others, and for sizes that do not go together.
"""

from fractions import Fraction

from coursepack.formula import Argument, Function
from coursepack.place import TradeFault
from coursepack.quantity import Number, Quantity
from coursepack.trade import section_outlines as outlines
from coursepack.trade.limits import above_zero, of_kind
from coursepack.trade.section import Part, Section
from coursepack.trade.section_outlines import Outline


def rectangle(width: Quantity, height: Quantity) -> Section:
    """Return a solid rectangle; the plies of a laminated one count alike."""
    across, up = _mm(width=width, height=height)
    return _square("rectangular section", width, height, Part((outlines.block(across, up),)))


def bevelled(width: Quantity, front: Quantity, top: Quantity, bottom: Quantity) -> Section:
    """Return a solid spar of a height at its front face, both edges bevelled, the bevels within 45 deg."""
    blank = _bevelled_blank(width, front, top, bottom)
    return _sloping("bevelled spar section", width, front, blank, blank)


def routed(width: Quantity, height: Quantity, web: Quantity, flange: Quantity) -> Section:
    """Return a solid spar routed from both faces alike to a web, between two flanges of one depth."""
    across, up = _mm(width=width, height=height)
    pockets = _pockets(width, web, flange, height)
    outline = outlines.routed(outlines.block(across, up), *pockets)
    return _square("routed spar section", width, height, Part((outline,)))


def bevelled_routed(
    width: Quantity, front: Quantity, top: Quantity, bottom: Quantity, web: Quantity, flange: Quantity
) -> Section:
    """Return a bevelled spar routed from both faces alike to a web.

    The flange is the depth left on each face, above and below its pocket; the pocket's walls are square to the
    face, not along the bevel. Raises TradeFault, too, where a pocket comes out through an edge.
    """
    blank = _bevelled_blank(width, front, top, bottom)
    lower_face = min(front.number("mm"), blank[2][1] - blank[1][1])
    depth, deep = _pockets(width, web, flange, Quantity.of(lower_face, "mm").to(front.unit_name))
    _refuse_open_pocket(flange, Quantity.of(outlines.least_flange(blank, depth), "mm"))
    outline = outlines.routed(blank, depth, deep)
    return _sloping("bevelled routed spar section", width, front, blank, outline)


def box(
    cap_width: Quantity, top_cap: Quantity, bottom_cap: Quantity, height: Quantity, web: Quantity
) -> Section:
    """Return a box spar: two caps between two webs.

    The caps are as wide as the cap width and as deep as top and bottom cap say. The webs are glued to the outside
    of both caps, each as thick as the web, and as high as the whole spar, from the bottom of the lower cap to the
    top of the upper one. So the whole is cap width + 2 × web wide.
    """
    across, top, bottom, up, thick = _mm(
        cap_width=cap_width, top_cap=top_cap, bottom_cap=bottom_cap, height=height, web=web
    )
    _refuse_meeting("caps", top_cap, bottom_cap, height)
    caps = (outlines.block(across, bottom, thick), outlines.block(across, top, thick, up - top))
    webs = (outlines.block(thick, up), outlines.block(thick, up, thick + across))
    parts = (Part(caps), Part(webs, is_web=True))
    return _square("box spar section", cap_width + web + web, height, *parts)


def hollow(
    width: Quantity, height: Quantity, side: Quantity, top: Quantity, bottom: Quantity | None = None
) -> Section:
    """Return a rectangle with a rectangular hollow, all of one wood.

    Both side walls are alike, and so are the top and the bottom wall unless the bottom's is given.
    """
    low = top if bottom is None else bottom
    across, up, wall, roof, floor = _mm(width=width, height=height, side=side, top=top, bottom=low)
    _refuse_meeting("side walls", side, side, width)
    _refuse_meeting("top and bottom walls", top, low, height)
    inside = outlines.block(across - 2 * wall, up - roof - floor, wall, floor)
    return _square(
        "hollow section", width, height, Part((outlines.block(across, up), outlines.hollow(inside)))
    )


def tee(width: Quantity, height: Quantity, web: Quantity, flange: Quantity) -> Section:
    """Return a tee of a whole height: a cap of the width, as deep as the flange, on the middle of a web under it."""
    across, up, thick, deep = _mm(width=width, height=height, web=web, flange=flange)
    _refuse_wide_web(web, width)
    if deep >= up:
        raise TradeFault(f"flange is {flange}", f"flange must be less than the height of {height}")
    cap = outlines.block(across, deep, low_mm=up - deep)
    stem = outlines.block(thick, up - deep, (across - thick) / 2)
    return _square("tee section", width, height, Part((cap,)), Part((stem,), is_web=True))


def _mm(**sizes: Quantity) -> tuple[Number, ...]:
    return tuple(above_zero(name, size, "in").number("mm") for name, size in sizes.items())


def _bevelled_blank(width: Quantity, front: Quantity, top: Quantity, bottom: Quantity) -> Outline:
    across, up = _mm(width=width, front=front)
    bevels = (of_kind(name, each, "deg").number("deg") for name, each in (("top", top), ("bottom", bottom)))
    return outlines.bevelled(across, up, *bevels)


def _pockets(width: Quantity, web: Quantity, flange: Quantity, height: Quantity) -> tuple[Number, Number]:
    """Return the depth of a pocket and of the flanges in mm, after seeing that they leave a web and a pocket."""
    thick, deep = _mm(web=web, flange=flange)
    _refuse_wide_web(web, width)
    _refuse_meeting("flanges", flange, flange, height)
    return (width.number("mm") - thick) / 2, deep


def _refuse_open_pocket(flange: Quantity, least: Quantity) -> None:
    if flange <= least:
        raise TradeFault(
            f"with a flange of {flange} a pocket comes out through a bevelled edge",
            f"flange must be more than {least.to(flange.unit_name)}",
        )


def _refuse_wide_web(web: Quantity, width: Quantity) -> None:
    if web >= width:
        raise TradeFault(f"web is {web}", f"web must be less than the width of {width}")


def _refuse_meeting(names: str, one: Quantity, other: Quantity, whole: Quantity) -> None:
    if one + other >= whole:
        raise TradeFault(f"{names} of {one} and {other} meet", f"together they must be less than {whole}")


def _square(name: str, width: Quantity, height: Quantity, *parts: Part) -> Section:
    return Section(
        f"{name} {_size(width, height)}", width.unit_name, parts, (Fraction(0), height.number("mm"))
    )


def _sloping(name: str, width: Quantity, front: Quantity, blank: Outline, outline: Outline) -> Section:
    (_, low), (_, low_rear), (_, high_rear), (_, high) = blank
    title = f"{name} {_size(width, front)} at the front"
    return Section(title, width.unit_name, (Part((outline,)),), (max(low, low_rear), min(high, high_rear)))


def _size(width: Quantity, height: Quantity) -> str:
    """Return two lengths in the unit of the first: '1 × 5 1/2 in'."""
    unit = f" {width.unit_name}"
    return f"{str(width).removesuffix(unit)} × {height.to(width.unit_name)}"


_WIDTH, _HEIGHT, _FRONT = (Argument(name, "in") for name in ("width", "height", "front"))
_WEB, _FLANGE = Argument("web", "in"), Argument("flange", "in")
_TOP, _BOTTOM = Argument("top", "deg"), Argument("bottom", "deg")
_GEOMETRY = "plane geometry"

FUNCTIONS = (
    Function(
        "rectangle", rectangle, (_WIDTH, _HEIGHT), "section", "Solid rectangular section.", _GEOMETRY,
        'rectangle("1 in", "5 1/2 in")',
    ),
    Function(
        "bevelled", bevelled, (_WIDTH, _FRONT, _TOP, _BOTTOM), "section",
        "Section of a spar with both edges bevelled; a bevel is positive where its edge rises going aft.", _GEOMETRY,
        'bevelled("3/4 in", "4 1/2 in", "-8 deg", "2 deg")',
    ),
    Function(
        "routed", routed, (_WIDTH, _HEIGHT, _WEB, _FLANGE), "section",
        "Section of a spar routed from both faces to a web, with flanges of one depth.", _GEOMETRY,
        'routed("1 in", "5 1/2 in", "3/8 in", "1 1/4 in")',
    ),
    Function(
        "bevelled_routed", bevelled_routed, (_WIDTH, _FRONT, _TOP, _BOTTOM, _WEB, _FLANGE), "section",
        "Section of a bevelled spar routed to a web, the flanges measured on each face.", _GEOMETRY,
        'bevelled_routed("1 in", "5 1/2 in", "-6 deg", "2 deg", "3/8 in", "1 1/4 in")',
    ),
    Function(
        "box", box,
        (Argument("cap_width", "in"), Argument("top_cap", "in"), Argument("bottom_cap", "in"), _HEIGHT, _WEB), "section",
        "Section of a box spar: caps between two webs as high as the whole spar.", _GEOMETRY,
        'box("1 1/2 in", "1 1/4 in", "1 in", "7 in", "1/8 in")',
    ),
    Function(
        "hollow", hollow,
        (_WIDTH, _HEIGHT, Argument("side", "in"), Argument("top", "in"), Argument("bottom", "in")), "section",
        "Rectangular section with a hollow: side walls, top wall, and a bottom wall where it differs.", _GEOMETRY,
        'hollow("2 in", "3 in", "1/4 in", "3/8 in")', optional=1,
    ),
    Function(
        "tee", tee, (_WIDTH, _HEIGHT, _WEB, _FLANGE), "section",
        "Section of a cap on a web, of a whole height.", _GEOMETRY, 'tee("3 in", "4 in", "1/2 in", "3/4 in")',
    ),
)  # fmt: skip
