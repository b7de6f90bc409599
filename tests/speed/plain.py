"""The same pages the plain way: a pack for each bench as one document, one after the other, every figure drawn again.

The same type, style and settings of the layout engine as the press, and none of its ways to save time.
"""

import base64
import re
import sys
from collections.abc import Sequence
from html import escape
from importlib.resources import files
from pathlib import Path

from coursepack.drafting import ink
from coursepack.drafting.catalogue import FIGURES
from coursepack.drafting.sheet import FIGURE_MARK
from coursepack.lesson import Course, Term
from coursepack.pages import compose
from coursepack.pages.full_size import has_templates
from coursepack.pages.lettering import faces, font_face_css
from coursepack.press import layout  # noqa: F401 - settles that no font of the system is used
from coursepack.reading.course import read_course, read_term
from coursepack.record import LessonRecord
from coursepack.trade.catalogue import FUNCTIONS
from coursepack.workbook import solve_term


def main(lessons: Path, out: Path) -> None:
    """Write a pack for each bench and a key for each lesson into a new folder."""
    course = read_course(lessons, FUNCTIONS, FIGURES)
    term = read_term(lessons, "demo", course)
    records = solve_term(term, course.lessons)
    out.mkdir()
    for bench in range(1, term.benches + 1):
        (out / f"bench-{bench:02d}.pdf").write_bytes(press(_pack(course, term, records, bench), term.paper))
    for record in records:
        key = compose.key(course, term, record.lesson, record.sets, record.mark)
        (out / f"key-{record.lesson.number}.pdf").write_bytes(press([key], term.paper))


def _pack(course: Course, term: Term, records: Sequence[LessonRecord], bench: int) -> list[compose.Sheet]:
    sheets = []
    for record in records:
        lesson, mark = record.lesson, record.mark
        sheets.append(compose.reading(course, term, lesson, record.examples, mark))
        own = record.sets[term.set_of(bench) - 1]
        sheets.append(compose.exercises(course, term, lesson, bench, own, mark))
        if has_templates([solved.exercise for solved in own]):
            sheets.append(compose.templates(lesson, f"bench {bench}", own, term, mark))
    return sheets


def press(sheets: Sequence[compose.Sheet], paper: str) -> bytes:
    """Print some sheets as one document."""
    from weasyprint import CSS, HTML  # noqa: PLC0415 - after the press has settled the fonts
    from weasyprint.text.fonts import FontConfiguration  # noqa: PLC0415

    fonts = FontConfiguration()
    squares = (files("coursepack.pages") / "style" / "squares.svg").read_bytes()
    style = font_face_css() + compose.style(paper).replace("picture:squares", _address(squares, "svg+xml"))
    for name, data in faces().items():
        style = style.replace(f"type:{name}", _address(data, "otf"))
    sheet = CSS(string=style, font_config=fonts)
    document = HTML(string=_joined([_drawn(sheet) for sheet in sheets]))
    pdf: bytes = document.write_pdf(stylesheets=[sheet], font_config=fonts, pdf_variant="pdf/ua-1")
    return pdf


def _address(data: bytes, kind: str) -> str:
    return f"data:image/{kind};base64,{base64.b64encode(data).decode()}"


def _drawn(sheet: compose.Sheet) -> str:
    """Put the figures into a sheet's text."""
    html = sheet.html
    for place, drawing in enumerate(sheet.drawings):
        picture = _address(ink.svg(drawing).encode(), "svg+xml")
        image = f'<img class="figure" src="{picture}" alt="{escape(drawing.alt)}" style="width: {drawing.width:.3f}mm">'
        html = html.replace(FIGURE_MARK.format(place), image)
    return html


def _joined(documents: Sequence[str]) -> str:
    """Make one document of several, each beginning on a new page."""
    head = documents[0].partition("<body")[0]
    bodies = [re.sub(r".*?<body(.*?)>(.*)</body>.*", _section, text, flags=re.DOTALL) for text in documents]
    return f"{head}<body>{''.join(bodies)}</body></html>"


def _section(found: "re.Match[str]") -> str:
    return f'<div{found[1]} style="break-before: page">{found[2]}</div>'


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
