"""HTML to PDF: the only module that knows weasyprint, and pydyf beneath it.

Importing it takes more than half a second and settles the process for printing (no fonts of the system, a
fixed date), so it is imported in the workers of the pressroom only.
"""

import atexit
import gc
import logging
import os
import warnings
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from functools import cache
from importlib.resources import files
from typing import Any
from urllib.parse import unquote
from xml.etree import ElementTree as ET

from coursepack.pages.lettering import faces, font_face_css
from coursepack.press.job import PressFault, PressJob
from coursepack.press.tagging import finish

gc.disable()  # what importing makes is here to stay
os.environ["FONTCONFIG_FILE"] = str(files("coursepack.press") / "own-type.conf")
os.environ["SOURCE_DATE_EPOCH"] = "0"
with warnings.catch_warnings():
    warnings.simplefilter("ignore", UserWarning)  # it warns that the system has no fonts, which is the aim
    from weasyprint import CSS, HTML, Document, Page
    from weasyprint.pdf.metadata import DocumentMetadata
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse

    from coursepack.press.drawings import in_few_steps

MOST_PAGES = 10  # a sheet; our own bar

_LOG = logging.getLogger("weasyprint")
_DRAWN = {"Content-Type": "image/svg+xml"}  # told, or every reader of pictures is tried on a drawing first
_TYPE = faces()  # made at import, so that forked workers share it
_BASE = CSS(string=(files("coursepack.press") / "base.css").read_text("utf-8"))
gc.enable()


def print_pdf(job: PressJob) -> bytes:
    """Lay out a job and return its PDF; see print_noted."""
    return print_noted(job)[0]


def print_noted(job: PressJob) -> tuple[bytes, tuple[str, ...]]:
    """Lay out a job and return its PDF, the same bytes each time, and a note for each part that is too long.

    Raises PressFault when the layout engine warns of anything, or a part asks for what was not handed over.
    """
    with _no_warning(job.name), in_few_steps():
        fetcher = _Fetcher(job.pictures)
        sheets = [_lay_out(html, job.css, fetcher) for html in job.parts]
        pages = _in_order(sheets, odd=job.odd)
        document = sheets[0].copy(pages)
        document.metadata = DocumentMetadata(
            title=job.title, description=job.subject or None, lang=job.language
        )
        pdf: bytes = document.write_pdf(
            finisher=lambda _, pdf: finish(pdf, chunk=job.chunk, full_size=job.full_size),
            pdf_variant="pdf/ua-1",
        )
        counts = (len(sheet.pages) for sheet in sheets)
        return pdf, tuple(_too_long(job, *part) for part in enumerate(counts, 1) if part[1] > MOST_PAGES)


def _too_long(job: PressJob, number: int, count: int) -> str:
    return f"{job.name}: sheet {number} has {count} pages; {MOST_PAGES} are plenty"


def make_ready() -> None:
    """Print one word in every face, so that the first job finds the process warm."""
    word = "<b>a <i>b</i></b> <i>c</i> <span style='font-family: Bench Sans'>d <b>e</b></span>"
    print_pdf(PressJob("ready", "ready", (f"<html lang='en'><body>{word}</body></html>",), ""))


@contextmanager
def _no_warning(name: str) -> Iterator[None]:
    """Turn what the engine logs, or forbids, into one fault."""
    notes = _Notes(logging.WARNING)
    _LOG.addHandler(notes)
    try:
        with suppress(FatalURLFetchingError):  # it stands in the notes
            yield
    finally:
        _LOG.removeHandler(notes)
    if notes.lines:
        raise PressFault(f"{name}: {'; '.join(dict.fromkeys(notes.lines))}")


class _Notes(logging.Handler):
    """Keeps the lines that are logged."""

    def __init__(self, level: int) -> None:
        super().__init__(level)
        self.lines: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.lines.append(record.getMessage())


class _Fetcher(URLFetcher):  # type: ignore[misc] # the library has no types
    """Serves type: and picture: addresses from memory; any other stops the job."""

    def __init__(self, pictures: Mapping[str, bytes]) -> None:
        super().__init__()
        self._pictures = pictures

    def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> URLFetcherResponse:
        del headers
        scheme, _, name = url.partition(":")
        shelf = {"type": _TYPE, "picture": self._pictures}.get(scheme, {})
        if unquote(name) not in shelf:
            _LOG.error("a page asks for '%s', which is not a picture of its lesson", url[:80])
            raise FatalURLFetchingError
        data = shelf[unquote(name)]
        return URLFetcherResponse(url, data, _DRAWN if data.startswith(b"<svg") else None)


class _Sheet(HTML):  # type: ignore[misc] # as above
    """A sheet that is read as XML where it is such, in a tenth of the time, with a base style of its own."""

    def __init__(self, html: str, fetcher: _Fetcher) -> None:
        try:
            root = ET.fromstring(html)  # noqa: S314 - written by our own templates
        except ET.ParseError:
            super().__init__(string=html, url_fetcher=fetcher)
            return
        super().__init__(string="<html></html>", url_fetcher=fetcher)
        self.wrapper_element: Any = type(self.wrapper_element).from_html_root(root, content_language=None)
        self.etree_element = root

    def _ua_stylesheets(self, forms: bool = False) -> list[CSS]:  # noqa: FBT001, FBT002 - the library's signature
        del forms
        return [_BASE]


@cache
def _type_case() -> FontConfiguration:
    """Return the fonts of this process, loaded once for all its jobs."""
    fonts = FontConfiguration()
    atexit.register(fonts.__del__)  # its folder of font files outlives an orderly exit otherwise
    return fonts


@cache
def _style(css: str) -> CSS:
    """Read a style sheet once for all jobs of this process."""
    return CSS(string=font_face_css() + css, font_config=_type_case(), url_fetcher=_Fetcher({}))


def _lay_out(html: str, css: str, fetcher: _Fetcher) -> Document:
    return _Sheet(html, fetcher).render(
        font_config=_type_case(), stylesheets=[_style(css)], pdf_variant="pdf/ua-1"
    )


def _in_order(sheets: list[Document], *, odd: bool) -> list[Page]:
    """Put the pages of all sheets in one row, with the blank pages that odd beginnings need."""
    pages: list[Page] = []
    for number, sheet in enumerate(sheets):
        if odd and len(pages) % 2:
            pages.append(_blank(pages[-1].width, pages[-1].height))
        _keep_apart(sheet, number)
        _bookmark(sheet)
        pages += sheet.pages
    return pages


@cache
def _blank(width: float, height: float) -> Page:
    """Return an empty page of a size in CSS pixels."""
    css = f"@page {{ size: {width}px {height}px; margin: 0 }}"
    return _lay_out("<html lang='en'><body></body></html>", css, _Fetcher({})).pages[0]


def _keep_apart(sheet: Document, number: int) -> None:
    """Give the anchors of each sheet names of their own, so that a link stays within its sheet."""
    for page in sheet.pages:
        page.anchors = {f"{number}-{name}": place for name, place in page.anchors.items()}
        page.links = [
            (kind, f"{number}-{target}" if kind == "internal" else target, *rest)
            for kind, target, *rest in page.links
        ]


def _bookmark(sheet: Document) -> None:
    """Put the sheet's title over its headings as the bookmark of its first page."""
    title = sheet.metadata.title
    if not title or any(label == title for _, label, *_ in sheet.pages[0].bookmarks[:1]):
        return
    for page in sheet.pages:
        page.bookmarks = [(level + 1, *rest) for level, *rest in page.bookmarks]
    sheet.pages[0].bookmarks.insert(0, (1, title, (0, 0), "open"))
