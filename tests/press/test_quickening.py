"""The quick functions spare time, never a stroke: what they print is what the engine prints by itself."""

import subprocess
import sys

import pytest

from coursepack.press.job import PressJob
from coursepack.press.layout import print_pdf
from coursepack.press.quick_styles import value
from tests.press.pdf_reading import opened, texts
from tests.press.sheets import STYLE, document

PAGE = document(
    "Bench 1",
    """<h1>Rear face</h1>
    <p style="text-align: justify">Plane the <i>front</i> face to 4\u202f11⁄32 in, <b>then</b> mark what is left over at the
    rear face from end to end, and measure it again a hand's breadth from both, since a blank is seldom even.</p>
    <p style="width: 30%; margin-left: 5%; letter-spacing: .2mm">Plane the front face to its line.</p>
    <p style="margin-inline-start: 12mm; text-decoration: underline">Plane the front face.</p>
    <p>See <a href="https://a.example/b">the book</a><sup>2</sup>.</p>
    <div style="float: right; max-width: 40mm">Plane the front face.</div>
    <table style="border-collapse: collapse"><tbody><tr><td>4</td><td>5 mm</td></tr></tbody></table>
    <ol><li>Plane the front face.</li><li>Plane the front face.</li></ol>""",
)
JOB = PressJob("the test sheet", "Exercises", (PAGE, PAGE), STYLE)
BY_ITSELF = """
import sys
from coursepack.press import quickening
quickening.quicken = lambda: None
from coursepack.press.layout import print_pdf
from tests.press.test_quickening import JOB
sys.stdout.buffer.write(print_pdf(JOB))
"""
LETTERED = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="20mm" viewBox="0 0 140 56">'
    b'<text style="font-size: 9px; font-family: \'Bench Sans\'" transform="translate(10 20)">TAVern 8 in</text>'
    b'<text style="font-size: 9px; font-family: \'Bench Sans\'" transform="translate(10 40)">TAVern</text></svg>'
)


def test_a_sheet_has_the_same_bytes_as_from_the_engine_by_itself() -> None:
    found = subprocess.run([sys.executable, "-c", BY_ITSELF], capture_output=True, check=True)
    quick = print_pdf(JOB)
    from weasyprint.css import ComputedStyle  # noqa: PLC0415 - after the press has settled the fonts

    assert ComputedStyle.__missing__ is value  # the quick functions were at work here
    assert found.stdout == quick


@pytest.mark.parametrize("times", [1, 2])
def test_the_lettering_of_a_figure_is_found_again_however_often_it_stands(times: int) -> None:
    page = document("Bench 1", '<img alt="A plate" src="picture:plate"/>' * times)
    with opened(print_pdf(PressJob("plate", "Plate", (page,), STYLE, {"plate": LETTERED}))) as pdf:
        glyphs = texts(pdf)[0].glyphs
    assert "".join(glyphs).count("TAVern") == 2 * times
