"""What a worker does: ink the drawings of some sheets into their HTML, and press them into one PDF."""

from collections.abc import Sequence
from dataclasses import replace

from coursepack import press
from coursepack.drafting import ink
from coursepack.drafting.sheet import Drawing
from coursepack.pages.compose import FIGURE_MARK
from coursepack.pressroom import PressJob


def make_ready() -> None:
    """Load all that the first job needs."""
    press.make_ready()


def print_sheets(job: PressJob, drawings: Sequence[Sequence[Drawing]]) -> bytes:
    """Return the PDF of a job; `drawings` holds, for each part, the drawings that go where its marks stand."""
    parts = tuple(_with_figures(html, shelf, f"{job.name}-{number}") for number, (html, shelf) in enumerate(zip(job.parts, drawings, strict=True)))
    return press.print_pdf(replace(job, parts=parts))


def _with_figures(html: str, shelf: Sequence[Drawing], salt: str) -> str:
    for number, drawing in enumerate(shelf):
        html = html.replace(FIGURE_MARK.format(number), ink.svg(drawing, f"{salt}-{number}"))
    return html
