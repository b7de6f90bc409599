"""Ink: a laid-out drawing becomes SVG text. The only module that knows matplotlib."""

import re
from collections.abc import Iterable
from io import StringIO
from xml.sax.saxutils import escape

import font_source_sans_pro
import matplotlib as mpl
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from matplotlib.transforms import Affine2D

from coursepack.drafting.lettering import set_out
from coursepack.drafting.sheet import PENS, Drawing, Label, Line, LineKind, label_lines, label_start

MM_PER_INCH = 25.4
POINT = 72 / MM_PER_INCH
PAPER = Affine2D().scale(POINT)  # mm to points; a figure without axes is inked in half the time
FACES = {
    weight: FontProperties(
        family="Bench Sans", weight=weight, fname=font_source_sans_pro.font_files_otf[name]
    )
    for weight, name in (("normal", "SourceSansPro"), ("bold", "SourceSansProBold"))
}
# what matplotlib writes and a page does not need; ids would repeat from figure to figure
LEAVE_OUT = tuple(
    (re.compile(pattern, re.DOTALL), instead)
    for pattern, instead in (
        (r"<metadata>.*?</metadata>|<defs>.*?</defs>|<!--.*?-->", ""),
        (r' id="(?=(?:ring|hidden|thin|centre|dimension|outline|arrowheads)")', ' class="'),
        (r' id="[^"]*"', ""),
        (r' transform="rotate\(-0 [^"]*"', ""),
        (r"(?<=\.\d{3})\d+", ""),
        (r"\s*\n\s*", "\n"),
    )
)


def svg(drawing: Drawing, salt: str) -> str:
    """Ink a drawing as an inline <svg> element, the same text for the same drawing and salt.

    The salt must differ between figures of one page, since ids are made from it.
    """
    with mpl.rc_context(
        {"svg.fonttype": "none", "svg.hashsalt": salt, "path.simplify": False, "text.hinting": "none"}
    ):
        figure = Figure(figsize=(drawing.width / MM_PER_INCH, drawing.height / MM_PER_INCH), dpi=72)
        figure.patch.set_visible(False)
        for kind in PENS:
            figure.add_artist(_inked(kind, _lines(drawing, kind)))
        figure.add_artist(_filled(drawing))
        for label in drawing.labels:
            _letter(figure, label)
        out = StringIO()
        figure.savefig(out, format="svg", transparent=True, metadata={"Date": None})
    return _trimmed(out.getvalue(), drawing)


def _lines(drawing: Drawing, kind: LineKind) -> list[Line]:
    lines = [line for stroke in drawing.strokes if stroke.kind == kind for line in stroke.lines]
    if kind == "thin":
        lines += [line for label in drawing.labels for line in label_lines(label)]
    return lines


def _compound(lines: Iterable[Line]) -> Path:
    points: list[tuple[float, float]] = []
    codes: list[int] = []
    move, draw, close = (int(code) for code in (Path.MOVETO, Path.LINETO, Path.CLOSEPOLY))
    for line in lines:
        closed = line[0] == line[-1]
        points += line
        codes += [move, *[draw] * (len(line) - 1 - closed), *[close] * closed]
    return Path(points or [(0.0, 0.0)], codes or [move])


def _inked(kind: LineKind, lines: list[Line]) -> PathPatch:
    pen = PENS[kind]
    dashes = (0, tuple(length / pen.width_mm for length in pen.dashes)) if pen.dashes else "-"
    return PathPatch(
        _compound(lines), fill=False, edgecolor=pen.colour, linewidth=pen.width_mm * POINT, linestyle=dashes,
        capstyle="butt", joinstyle="miter", clip_on=False,
 transform=PAPER, visible=bool(lines), gid=kind,
    )  # fmt: skip


def _filled(drawing: Drawing) -> PathPatch:
    shapes = [(*fill.polygon, fill.polygon[0]) for fill in drawing.fills]
    return PathPatch(
        _compound(shapes),
        facecolor="#000000",
        linewidth=0,
        clip_on=False,
        transform=PAPER,
        visible=bool(shapes),
        gid="arrowheads",
    )


def _letter(figure: Figure, label: Label) -> None:
    """Write a label run by run, since the press sets SVG text letter by letter and stacks no fractions itself."""
    x, y = label_start(label)
    bold = label.hand in {"answer", "title"}
    for run in set_out(label.text, bold=bold)[0]:
        dx, dy = run.x * label.size_mm, run.y * label.size_mm
        figure.text(
            x + (-dy if label.angle else dx), y + (dx if label.angle else dy), run.text, va="baseline",
            rotation=label.angle, rotation_mode="anchor", fontproperties=FACES["bold" if bold else "normal"],
            fontsize=label.size_mm * run.size * POINT, parse_math=False, clip_on=False,
 transform=PAPER,
        )  # fmt: skip


def _trimmed(text: str, drawing: Drawing) -> str:
    """Keep what a page needs: the <svg> element in mm with its title first, without prolog, metadata or ids."""
    body = text[text.index("<svg") :]
    for pattern, instead in LEAVE_OUT:
        body = pattern.sub(instead, body)
    width, height = drawing.width * POINT, drawing.height * POINT
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{drawing.width:.3f}mm" height="{drawing.height:.3f}mm" '
        f'viewBox="0 0 {width:.3f} {height:.3f}" role="img">\n<title>{escape(drawing.alt)}</title>'
    )
    return head + body[body.index(">") + 1 :].rstrip()
