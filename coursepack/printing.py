"""What a worker does: ink the drawings of some sheets into their HTML, and press them into one PDF."""

from collections.abc import Sequence
from dataclasses import replace
from html import escape

from coursepack.drafting import ink
from coursepack.drafting.sheet import FIGURE_MARK, Drawing
from coursepack.press import layout as press
from coursepack.press.job import PressJob

MOST_PAGES = 10  # a sheet; our own bar


def make_ready() -> None:
    """Load all that the first job needs."""
    press.make_ready()


def print_sheets(job: PressJob, drawings: Sequence[Sequence[Drawing]]) -> tuple[bytes, tuple[str, ...]]:
    """Return the PDF of a job, and a note for each sheet that is too long.

    `drawings` holds, for each part, the drawings that go where its marks stand.
    """
    pictures = dict(job.pictures)
    parts = []
    for part, (html, shelf) in enumerate(zip(job.parts, drawings, strict=True)):
        for number, drawing in enumerate(shelf):
            name = f"figure-{part}-{number}"
            pictures[name] = ink.svg(drawing, f"{job.name} {name}").encode()
            html = html.replace(FIGURE_MARK.format(number), _figure(name, drawing))  # noqa: PLW2901 - filled step by step
        parts.append(html)
    pdf, counts = press.print_counted(replace(job, parts=tuple(parts), pictures=pictures))
    return pdf, tuple(
        f"{job.name}: sheet {number} has {count} pages; {MOST_PAGES} are plenty"
        for number, count in enumerate(counts, 1)
        if count > MOST_PAGES
    )


def _figure(name: str, drawing: Drawing) -> str:
    alt, width = escape(drawing.alt), f"{drawing.width:.3f}mm"
    return f'<img class="figure" src="picture:{name}" alt="{alt}" style="width: {width}"/>'
