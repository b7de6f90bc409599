"""Drawings in the finished file: put there in few steps, and just as the layout engine does it in many."""

from collections.abc import Iterator
from contextlib import nullcontext

import pikepdf
import pypdfium2 as pdfium
import pytest

from coursepack.drafting import ink
from coursepack.figure import figure
from coursepack.press import layout
from coursepack.press.job import PressJob
from tests.press.pdf_reading import opened
from tests.press.ruler import polylines
from tests.press.sheets import STYLE, document
from tests.sheets.pdf_looks import forms

HEAD = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="40mm" viewBox="0 0 90 40"><title>a</title>'
)
TYPE = 'font-family="Bench Sans" font-size="5"'
NOT_PLAIN = {
    "turned": f'<text {TYPE} transform="translate(20 30) rotate(-90)">turned</text>',
    "ended": f'<text x="60" y="9" {TYPE} text-anchor="end">ended</text>',
    "parts": f'<text x="9" y="9" {TYPE}>in <tspan font-weight="bold">parts</tspan></text>',
    "spread": f'<text x="9 20 31" y="9" {TYPE}>wide</text>',
    "grey": f'<text x="9" y="9" {TYPE} fill="#808080">grey</text>',
    "heavy": f'<text x="9" y="9" {TYPE} font-weight="600">heavy</text>',
    "placed by units": f'<text x="20%" y="12mm" {TYPE}>placed</text>',
    "a curve": '<path d="M 5 5 C 20 5 20 30 60 30" stroke="black" fill="none"/>',
    "steps from where it is": '<path d="m 5 5 l 20 10 h 9 z" stroke="black"/>',
    "without spaces": '<path d="M5,5L20,10 30,5Z" stroke="black"/>',
    "a turned path": '<path d="M 5 5 L 20 10 " stroke="black" transform="rotate(20)"/>',
    "a thin path": '<path d="M 5 5 L 20 10 " stroke="black" opacity="0.4"/>',
    "a path that goes on": '<path d="M 5 5 L 20 10 z L 40 30 " stroke="black" fill="none"/>',
}


def printed(svg: str) -> bytes:
    page = document("A figure", '<h1>A figure</h1><p><img src="picture:one" alt="a"></p>')
    return layout.print_pdf(PressJob("labels", "A figure", (page,), STYLE, {"one": svg.encode()}))


def letters(pdf: bytes) -> Iterator[tuple[str, tuple[float, ...]]]:
    """Yield the characters of the page but for spaces, which the reader adds, and their boxes in points."""
    page = pdfium.PdfDocument(pdf)[0].get_textpage()
    for number in range(page.count_chars()):
        if letter := page.get_text_range(number, 1).strip():
            yield letter, page.get_charbox(number)


def shows(pdf: bytes) -> int:
    """Count how often text is shown on the page and in its forms."""
    with opened(pdf) as file:
        page = file.pages[0]
        streams: list[pikepdf.Page | pikepdf.Stream] = [page, *forms(page)]
        steps = [step for stream in streams for step in pikepdf.parse_content_stream(stream)]
        return sum(str(step.operator) in {"Tj", "TJ"} for step in steps)


def ink_of(pdf: bytes) -> bytes:
    return bytes(pdfium.PdfDocument(pdf)[0].render(scale=3).buffer)


@pytest.fixture
def engine_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the engine draw everything itself."""
    monkeypatch.setattr(layout, "in_few_steps", nullcontext)


def spar() -> str:
    drawing = figure("spar section", front="4 29/32 in", width="3/4 in", top="6 deg", bottom="2 deg")
    return ink.svg(drawing)


def test_every_letter_of_a_figure_stands_where_the_engine_puts_it(request: pytest.FixtureRequest) -> None:
    ours = list(letters(printed(spar())))
    request.getfixturevalue("engine_alone")
    theirs = list(letters(printed(spar())))
    assert len(ours) > 60
    assert [letter for letter, _ in ours] == [letter for letter, _ in theirs]
    for (_, here), (_, there) in zip(ours, theirs, strict=True):
        assert here == pytest.approx(there, abs=0.05)  # points


def test_a_label_is_shown_in_one_piece(request: pytest.FixtureRequest) -> None:
    whole = printed(spar())
    request.getfixturevalue("engine_alone")
    assert shows(printed(spar())) - shows(whole) > 40


def test_every_line_of_a_figure_runs_where_the_engine_draws_it(request: pytest.FixtureRequest) -> None:
    def lines() -> list[tuple[tuple[float, float], ...]]:
        with opened(printed(spar())) as pdf:
            return polylines(pdf.pages[0])

    ours = lines()
    request.getfixturevalue("engine_alone")
    theirs = lines()
    assert len(ours) > 40
    assert [len(line) for line in ours] == [len(line) for line in theirs]
    for here, there in zip(ours, theirs, strict=True):
        for point, other in zip(here, there, strict=True):
            assert point == pytest.approx(other, abs=1e-3)  # mm


def test_the_ink_of_a_figure_is_that_of_the_engine(request: pytest.FixtureRequest) -> None:
    ours = ink_of(printed(spar()))
    request.getfixturevalue("engine_alone")
    theirs = ink_of(printed(spar()))
    assert sum(abs(here - there) > 64 for here, there in zip(ours, theirs, strict=True)) == 0


@pytest.mark.parametrize("text", NOT_PLAIN.values(), ids=NOT_PLAIN)
def test_any_other_text_or_line_is_left_to_the_engine(text: str, request: pytest.FixtureRequest) -> None:
    ours = printed(f"{HEAD}{text}</svg>")
    request.getfixturevalue("engine_alone")
    theirs = printed(f"{HEAD}{text}</svg>")
    assert ink_of(ours) == ink_of(theirs)
