"""Ink: a laid-out drawing becomes SVG text. The only module that knows matplotlib.

Its SVG renderer is driven directly: figures, artists and the layout of text, which a laid-out drawing no
longer needs, take nine tenths of the time otherwise.
"""

import re
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from functools import cache
from io import BytesIO, StringIO
from typing import Any
from xml.sax.saxutils import escape

import font_source_sans_pro
import matplotlib as mpl
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.backends.backend_svg import RendererSVG
from matplotlib.font_manager import FontProperties
from matplotlib.path import Path
from matplotlib.transforms import Affine2D

from coursepack.drafting.label import label_bars, label_lines, label_start, question_label
from coursepack.drafting.lettering import set_out
from coursepack.drafting.sheet import PENS, Drawing, Label, Line, LineKind, Pen

MM_PER_INCH = 25.4
POINT = 72 / MM_PER_INCH
Renderer: Any = RendererSVG  # they have no types
Picture: Any = RendererAgg
FACES = {"normal": "SourceSansPro", "bold": "SourceSansProBold"}
# text stays text, and what the renderer names on its way is named the same each time
SETTINGS = {"svg.fonttype": "none", "svg.hashsalt": "coursepack"}
# what the renderer writes and a page does not need; ids would repeat from figure to figure
LEAVE_OUT = tuple(
    (re.compile(pattern, re.DOTALL), instead)
    for pattern, instead in (
        (r"<metadata>.*?</metadata>|<defs>.*?</defs>|<!--.*?-->", ""),
        (r' id="', ' class="'),
        (r"(?<=\.\d{3})\d+", ""),
        (r"\s*\n\s*", "\n"),
        (r'transform="translate\((\S+) (\S+)\)"', r'x="\1" y="\2"'),  # a point is enough
    )
)
STYLE = re.compile(r'style="([^"]*)"')


def svg(drawing: Drawing) -> str:
    """Ink a drawing as an inline <svg> element, the same text for the same drawing.

    No id is kept, so figures of one page cannot clash.
    """
    out = StringIO()
    with _settled():
        renderer = Renderer(
            drawing.width * POINT, drawing.height * POINT, out, metadata={"Date": None, "Creator": None}
        )
        _ink(renderer, drawing, 1.0)
        renderer.finalize()
    return _trimmed(out.getvalue(), drawing)


@contextmanager
def _settled() -> Iterator[None]:
    """Lend the renderer our settings, and no more than these: a copy of all takes longer than a figure's lines."""
    settings: Any = mpl.rcParams
    before = {name: settings[name] for name in SETTINGS}
    settings.update(SETTINGS)
    try:
        yield
    finally:
        settings.update(before)


def png(drawing: Drawing, dots_per_inch: int) -> bytes:
    """Ink a drawing as a picture on white, the same bytes for the same drawing."""
    from matplotlib.image import imsave  # noqa: PLC0415 - no sheet needs it

    by = dots_per_inch / 72
    out = BytesIO()
    renderer = Picture(drawing.width * POINT * by, drawing.height * POINT * by, dots_per_inch)
    paper = (
        (0.0, 0.0),
        (drawing.width, 0.0),
        (drawing.width, drawing.height),
        (0.0, drawing.height),
        (0.0, 0.0),
    )
    brush = renderer.new_gc()
    brush.set_linewidth(0)
    renderer.draw_path(brush, _compound([paper]), _paper(by), (1.0, 1.0, 1.0))
    _ink(renderer, drawing, by)
    imsave(out, renderer.buffer_rgba(), format="png", dpi=dots_per_inch)
    return out.getvalue()


def _ink(renderer: Any, drawing: Drawing, by: float) -> None:
    """Lay a drawing down kind by kind, `by` dots a point."""
    for kind, pen in PENS.items():
        if lines := _lines(drawing, kind):
            _stroke(renderer, kind, pen, lines, by)
    if drawing.fills:
        _fill(renderer, [(*fill.polygon, fill.polygon[0]) for fill in drawing.fills], by)
    for label in drawing.labels:
        _letter(renderer, label, by)
        if question := question_label(label):
            _letter(renderer, question, by)


@cache
def _paper(by: float) -> Affine2D:
    """Return the way from mm to dots."""
    return Affine2D().scale(POINT * by)


def _lines(drawing: Drawing, kind: LineKind) -> list[Line]:
    lines = [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]
    if kind == "thin":
        lines += [line for label in drawing.labels for line in label_lines(label)]
    if kind == "bar":
        lines += [line for label in drawing.labels for line in label_bars(label)]
    return lines


def _compound(lines: Iterable[Line]) -> Path:
    points: list[tuple[float, float]] = []
    codes: list[int] = []
    move, draw, close = (int(code) for code in (Path.MOVETO, Path.LINETO, Path.CLOSEPOLY))
    for line in lines:
        closed = line[0] == line[-1]
        points += line
        codes += [move, *[draw] * (len(line) - 1 - closed), *[close] * closed]
    path = Path(points, codes)
    path.should_simplify = False
    return path


def _stroke(renderer: Any, kind: LineKind, pen: Pen, lines: list[Line], by: float) -> None:
    brush = renderer.new_gc()
    brush.set_foreground(pen.colour)
    brush.set_linewidth(pen.width_mm * POINT)
    brush.set_dashes(0, [length * POINT for length in pen.dashes] or None)
    brush.set_joinstyle("miter")
    renderer.open_group(kind, kind)
    renderer.draw_path(brush, _compound(lines), _paper(by))
    renderer.close_group(kind)


def _fill(renderer: Any, shapes: list[Line], by: float) -> None:
    brush = renderer.new_gc()
    brush.set_linewidth(0)
    renderer.open_group("arrowheads", "arrowheads")
    renderer.draw_path(brush, _compound(shapes), _paper(by), (0.0, 0.0, 0.0))
    renderer.close_group("arrowheads")


def _letter(renderer: Any, label: Label, by: float) -> None:
    """Write a label run by run, since the press sets SVG text letter by letter and stacks no fractions."""
    x, y = label_start(label)
    bold = label.hand in {"answer", "title"}
    brush = renderer.new_gc()
    for run in set_out(label.text, bold=bold)[0]:
        dx, dy = run.x * label.size_mm, run.y * label.size_mm
        across, up = (x - dy, y + dx) if label.angle else (x + dx, y + dy)
        face = _face("bold" if bold else "normal", label.size_mm * run.size)
        renderer.draw_text(
            brush, across * POINT * by, renderer.height - up * POINT * by, run.text, face, label.angle
        )


@cache
def _face(weight: str, size_mm: float) -> FontProperties:
    file = font_source_sans_pro.font_files_otf[FACES[weight]]
    return FontProperties(family="Bench Sans", weight=weight, fname=file, size=size_mm * POINT)


def _trimmed(text: str, drawing: Drawing) -> str:
    """Keep what a page needs: the <svg> element in mm, its title first, without prolog, metadata or ids."""
    body = text[text.index("<svg") :]
    body = body[body.index(">") + 1 :]
    for pattern, instead in LEAVE_OUT:
        body = pattern.sub(instead, body)
    body = STYLE.sub(_attributes, body)
    width, height = drawing.width * POINT, drawing.height * POINT
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" '
        f'width="{drawing.width:.3f}mm" height="{drawing.height:.3f}mm" '
        f'viewBox="0 0 {width:.3f} {height:.3f}" role="img">\n<title>{escape(drawing.alt)}</title>'
    )
    return f"{head}\n{body.strip()}"


def _attributes(style: re.Match[str]) -> str:
    """Write a style as attributes, which the press need not parse."""
    return style[1].replace("'", "").replace(": ", '="').replace("; ", '" ') + '"'
