"""Parts as plain SVG in millimetres for a cutting machine: one path a part, every line closed, nothing else."""

from collections.abc import Sequence
from xml.sax.saxutils import escape

from coursepack.drafting.part import Part
from coursepack.drafting.sheet import Line

APART_MM = 5.0


def cut_svg(parts: Sequence[Part]) -> str:
    """Return parts one under the other, 5 mm apart, as SVG: a user unit is 1 mm, coordinates to 0.1 µm."""
    paths = []
    width = max(part.box_of_cut.width for part in parts) + 2 * APART_MM
    down = APART_MM
    for part in parts:
        box = part.box_of_cut
        d = " ".join(_closed(line, APART_MM - box.left, down + box.top) for line in part.outlines)
        paths.append(f'<path d="{d}"><title>{escape(part.name)}</title></path>')
        down += box.height + APART_MM
    size = f'width="{width:.4f}mm" height="{down:.4f}mm" viewBox="0 0 {width:.4f} {down:.4f}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {size} fill="none" stroke="#000" stroke-width="0.1">'
    return "\n".join([head, *paths, "</svg>", ""])


def _closed(line: Line, right: float, down: float) -> str:
    """Return a closed line as path data, y turned to run down."""
    points = line[:-1] if line[0] == line[-1] else line
    return "M" + " L".join(f"{x + right:.4f} {down - y:.4f}" for x, y in points) + " Z"
