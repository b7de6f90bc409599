import os
import subprocess
import sys
from dataclasses import replace
from xml.etree import ElementTree as ET

import matplotlib as mpl
import pytest

from coursepack.drafting.ink import svg
from coursepack.drafting.sheet import Drawing, Frame, Mark
from coursepack.drafting.spar import spar_section
from tests.drafting.measuring import SVG, words

SIZES = {"front": 114.3, "width": 19.05, "top": -8.0, "bottom": 2.0}
MARKS = {"front": Mark("4 1⁄2 in"), "top": Mark("8°"), "rear": Mark("in", "blank")}
AGAIN = """
from coursepack.drafting.ink import svg
from coursepack.drafting.sheet import Frame, Mark
from coursepack.drafting.spar import spar_section
marks = {"front": Mark("4 1\u20442 in"), "top": Mark("8\u00b0"), "rear": Mark("in", "blank")}
sizes = {"front": 114.3, "width": 19.05, "top": -8.0, "bottom": 2.0}
import sys
sys.stdout.buffer.write(svg(spar_section(sizes, marks, Frame())).encode())
"""


def drawing() -> Drawing:
    return spar_section(SIZES, MARKS, Frame())


def test_the_svg_opens_with_its_alt_text_escaped() -> None:
    root = ET.fromstring(svg(replace(drawing(), alt="a < b & c")))  # noqa: S314 - our own text
    assert root.tag == f"{SVG}svg"
    assert root[0].tag == f"{SVG}title"
    assert root[0].text == "a < b & c"


def test_the_svg_is_as_large_as_the_drawing_in_mm() -> None:
    laid = drawing()
    root = ET.fromstring(svg(laid))  # noqa: S314 - our own text
    assert root.get("width") == "58.000mm"
    assert float(str(root.get("height")).removesuffix("mm")) == pytest.approx(laid.height, abs=0.001)


def test_nothing_is_left_that_a_page_cannot_repeat_or_that_dates_it() -> None:
    text = svg(drawing())
    for left in ("<?xml", "DOCTYPE", "metadata", "clip-path", "<use", "<defs", " id=", "matplotlib"):
        assert left not in text


def test_the_settings_of_whoever_draws_besides_are_left_as_they_were() -> None:
    before = dict(mpl.rcParams)
    svg(drawing())
    assert dict(mpl.rcParams) == before


def test_each_kind_of_line_is_one_path() -> None:
    root = ET.fromstring(svg(drawing()))  # noqa: S314 - our own text
    kinds = [g.get("class") for g in root.iter(f"{SVG}g") if g.get("class")]
    assert sorted(map(str, kinds)) == ["arrowheads", "bar", "dimension", "outline", "ring", "thin"]
    assert len(list(root.iter(f"{SVG}path"))) == len(kinds)


def test_lettering_stays_text_in_the_bench_face_and_is_never_small() -> None:
    text = svg(drawing())
    assert words(text)[:6] == ["FRONT", "REAR", "4", "1", "2", "in"]
    sizes = [float(part.split("px")[0]) for part in text.split('font-size="')[1:]]
    assert min(sizes) == pytest.approx(0.64 * 9, abs=0.01), "the small figures of a fraction"
    assert min(size for size in sizes if size > 7) >= 8
    assert text.count('font-family="Bench Sans"') == len(sizes)


def test_lines_are_as_thick_as_their_kind() -> None:
    root = ET.fromstring(svg(drawing()))  # noqa: S314 - our own text
    paths = {g.get("class"): g[0] for g in root.iter(f"{SVG}g") if g.get("class")}
    assert float(str(paths["outline"].get("stroke-width"))) == pytest.approx(0.6 * 72 / 25.4, abs=0.001)
    assert paths["ring"].get("stroke") == "#808080"


@pytest.mark.parametrize("seed", ["0", "1", "77"])
def test_the_same_drawing_gives_the_same_bytes_in_every_process(seed: str) -> None:
    env = {**os.environ, "PYTHONHASHSEED": seed, "TZ": "Asia/Tokyo"}
    out = subprocess.run([sys.executable, "-c", AGAIN], env=env, capture_output=True, check=True)
    assert out.stdout.decode() == svg(drawing())
