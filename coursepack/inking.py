"""Before a job goes to the press: the drawings of its sheets are inked into their HTML."""

from collections.abc import Sequence
from dataclasses import replace
from html import escape

from coursepack.drafting import ink
from coursepack.drafting.sheet import FIGURE_MARK, Drawing
from coursepack.press.job import PressJob


def inked(job: PressJob, drawings: Sequence[Sequence[Drawing]]) -> PressJob:
    """Return the job with its figures: `drawings` holds, for each part, those that go where its marks stand."""
    pictures = dict(job.pictures)
    parts = []
    for part, (html, shelf) in enumerate(zip(job.parts, drawings, strict=True)):
        for number, drawing in enumerate(shelf):
            name = f"figure-{part}-{number}"
            pictures[name] = ink.svg(drawing).encode()
            html = html.replace(FIGURE_MARK.format(number), _figure(name, drawing))  # noqa: PLW2901 - filled step by step
        parts.append(html)
    return replace(job, parts=tuple(parts), pictures=pictures)


def _figure(name: str, drawing: Drawing) -> str:
    alt, width = escape(drawing.alt), f"{drawing.width:.3f}mm"
    return f'<img class="figure" src="picture:{name}" alt="{alt}" style="width: {width}"/>'
