"""What a worker does: ink the drawings of some sheets into their HTML, and press them into one PDF."""

from collections.abc import Sequence
from dataclasses import replace
from html import escape

from coursepack.drafting import ink
from coursepack.drafting.sheet import Drawing
from coursepack.pages.compose import FIGURE_MARK
from coursepack.press import layout as press
from coursepack.press.job import PressJob


def make_ready() -> None:
    """Load all that the first job needs."""
    press.make_ready()


def print_sheets(job: PressJob, drawings: Sequence[Sequence[Drawing]]) -> bytes:
    """Return the PDF of a job; `drawings` holds, for each part, the drawings that go where its marks stand."""
    pictures = dict(job.pictures)
    parts = []
    for part, (html, shelf) in enumerate(zip(job.parts, drawings, strict=True)):
        for number, drawing in enumerate(shelf):
            name = f"figure-{part}-{number}"
            pictures[name] = ink.svg(drawing, f"{job.name} {name}").encode()
            html = html.replace(FIGURE_MARK.format(number), _figure(name, drawing))  # noqa: PLW2901 - filled step by step
        parts.append(html)
    return press.print_pdf(replace(job, parts=tuple(parts), pictures=pictures))


def _figure(name: str, drawing: Drawing) -> str:
    return f'<img class="figure" src="picture:{name}" alt="{escape(drawing.alt)}" style="width: {drawing.width:.3f}mm">'
