"""One drawing as a file: a figure as SVG, PDF or PNG, its parts at full size as PDF, or for a machine as SVG."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from coursepack.drafting.cutting import cut_svg
from coursepack.drafting.sheet import FIGURE_MARK, Drawing
from coursepack.figure import drawing_of, known_figure, letters, parts
from coursepack.quantity import Measure

Form = Literal["figure", "full size", "cut"]
FORMATS: Mapping[Form, tuple[str, ...]] = {
    "figure": (".svg", ".pdf", ".png"),
    "full size": (".pdf",),
    "cut": (".svg",),
}
DOTS_PER_INCH = 300


@dataclass(frozen=True)
class Order:
    """What is asked for: the figure, its sizes in shop text, and how it is shown."""

    name: str
    sizes: Mapping[str, str]
    form: Form = "figure"
    show: tuple[str, ...] | None = None
    scale: str = ""
    measure: Measure = "inch"
    paper: str = "letter"


def drawn(order: Order, suffix: str) -> bytes:
    """Return the file of a drawing; raises LessonFault as `figure` does."""
    if order.form == "cut":
        return cut_svg(parts(order.name, order.sizes)).encode()
    if order.form == "full size":
        return _full_size(order)
    drawing = drawing_of(order.name, order.sizes, order.show, order.scale, order.measure)
    return _FILES[suffix](drawing)


def _svg(drawing: Drawing) -> bytes:
    from coursepack.drafting import ink  # noqa: PLC0415 - a machine's outline needs no ink

    return ink.svg(drawing).encode()


def _png(drawing: Drawing) -> bytes:
    from coursepack.drafting import ink  # noqa: PLC0415 - as above

    return ink.png(drawing, DOTS_PER_INCH)


def _pdf(drawing: Drawing) -> bytes:
    css = f"@page {{ size: {drawing.width + 20:.3f}mm {drawing.height + 20:.3f}mm; margin: 10mm }} .figure {{ display: block }}"
    html = f'<!doctype html><html lang="en"><body>{FIGURE_MARK.format(0)}</body></html>'
    return _pressed(drawing.alt, html, css, (drawing,))


def _full_size(order: Order) -> bytes:
    from coursepack.pages import compose  # noqa: PLC0415 - only a page of text needs it
    from coursepack.pages.full_size import Cutting  # noqa: PLC0415

    sizes = letters(known_figure(order.name), order.sizes, order.show, order.measure)
    cut = Cutting(order.name, parts(order.name, order.sizes), sizes=sizes)
    sheet = compose.full_size("Full-size templates", order.name, [cut])
    return _pressed(sheet.title, sheet.html, compose.style(order.paper), sheet.drawings, full_size=True)


def _pressed(
    title: str, html: str, css: str, drawings: tuple[Drawing, ...], *, full_size: bool = False
) -> bytes:
    from coursepack.inking import inked  # noqa: PLC0415 - a second, for a PDF only
    from coursepack.press.job import PressJob  # noqa: PLC0415
    from coursepack.press.layout import print_pdf  # noqa: PLC0415

    job = PressJob(title, title, (html,), css, odd=False, full_size=full_size)
    return print_pdf(inked(job, [drawings]))


_FILES = {".svg": _svg, ".png": _png, ".pdf": _pdf}
