"""Full-size sheets are true: what a ruler reads on the finished page is what the part measures."""

import io
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import pairwise
from math import dist

import numpy as np
import pikepdf
import pypdfium2
import pytest

from coursepack import draft
from coursepack.drafting.sheet import Drawing, Line
from coursepack.drafting.template import CLEAR_MM, ROOM
from coursepack.drafting.tiling import clipped, tiling, turned
from coursepack.inking import inked
from coursepack.lesson import BARS, UNSTRETCHED
from coursepack.pages import compose
from coursepack.pages.compose import Sheet
from coursepack.pages.full_size import has_templates
from coursepack.press.job import PressJob
from coursepack.press.layout import print_pdf
from coursepack.solve import Solved
from tests.press.pdf_reading import opened, read
from tests.press.ruler import POINT_MM, Point, polylines
from tests.sheets.printed_course import REAL, Prepared, prepared

IN_THE_FILE_MM = 0.05  # our own bars, for the file and for its picture at 600 dots an inch
IN_THE_PICTURE_MM = 0.1
DOTS_PER_INCH = 600
DOT = 25.4 / DOTS_PER_INCH
SAFE_MM = (184.0, 254.0)  # fits Letter and A4 with 12.7 mm to spare
TERMS = ("demo", "metric")


@cache
def term(name: str) -> Prepared:
    return prepared(REAL, name)


def lessons() -> Iterator[tuple[str, str]]:
    for name in TERMS:
        for record in term(name).records:
            if has_templates(record.lesson.exercises):
                yield name, record.lesson.id


LESSONS = list(lessons())


@cache
def sheet_of(name: str, lesson: str, stretch: tuple[Fraction, Fraction] = UNSTRETCHED) -> Sheet:
    """The full-size sheets of a lesson's examples and first set."""
    record = term(name).record(lesson)
    of_term = replace(term(name).term, stretch=stretch)
    return compose.templates(record.lesson, "bench 1", solved_of(name, lesson), of_term, record.mark)


def solved_of(name: str, lesson: str) -> list[Solved]:
    record = term(name).record(lesson)
    return [one for one in (*record.examples, *record.sets[0]) if has_templates([one.exercise])]


@cache
def pressed(name: str, lesson: str, stretch: tuple[Fraction, Fraction] = UNSTRETCHED) -> bytes:
    sheet = sheet_of(name, lesson, stretch)
    css = compose.style(term(name).term.paper)
    job = PressJob("templates", "templates", (sheet.html,), css, odd=False, full_size=True)
    return print_pdf(inked(job, [sheet.drawings]))


def pages_of(data: bytes) -> list[list[tuple[Point, ...]]]:
    with opened(data) as pdf:
        return [[tidy(line) for line in polylines(page)] for page in pdf.pages]


def tidy(line: tuple[Point, ...]) -> tuple[Point, ...]:
    """Without the points that stand twice in a row."""
    return (line[0], *(b for a, b in pairwise(line) if dist(a, b) > 1e-6))


def drawn_lines(drawing: Drawing) -> list[Line]:
    return [tidy(line) for stroke in drawing.strokes for line in stroke.lines]


def off(found: tuple[Point, ...], model: tuple[Point, ...]) -> float:
    """How far a line is from the model at its worst point, each measured from its own first point."""
    (fx, fy), (mx, my) = found[0], model[0]
    return max(dist((x - fx, y - fy), (a - mx, b - my)) for (x, y), (a, b) in zip(found, model, strict=True))


def worst(model: tuple[Point, ...], page: list[tuple[Point, ...]]) -> float:
    same = [line for line in page if len(line) == len(model)]
    assert same, "no line of the page has as many corners"
    return min(off(line, model) for line in same)


@pytest.mark.parametrize(("name", "lesson"), LESSONS)
def test_every_line_of_every_full_size_sheet_is_true_in_the_file(name: str, lesson: str) -> None:
    drawings = sheet_of(name, lesson).drawings
    for page, drawing in zip(pages_of(pressed(name, lesson)), drawings, strict=True):
        assert max(worst(line, page) for line in drawn_lines(drawing)) < IN_THE_FILE_MM


@pytest.mark.parametrize(("name", "lesson"), LESSONS)
def test_every_outline_of_every_part_is_on_its_sheets_at_its_own_size(name: str, lesson: str) -> None:
    found = [line for page in pages_of(pressed(name, lesson)) for line in page]
    parts = [part for one in solved_of(name, lesson) for part in draft.parts(one)]
    assert parts
    for part in parts:
        laid = tiling(part.lines, ROOM, CLEAR_MM)
        for outline in part.outlines:
            lying = tuple(turned(point) for point in outline) if laid.turned else outline
            for tile in laid.tiles:
                pieces = [lying] if len(laid.tiles) == 1 else list(clipped(lying, tile.room))
                assert all(worst(tidy(piece), found) < IN_THE_FILE_MM for piece in pieces)


@pytest.mark.parametrize(("name", "lesson"), LESSONS)
def test_the_picture_of_a_sheet_has_its_bars_and_outlines_where_they_belong(name: str, lesson: str) -> None:
    data = pressed(name, lesson)
    drawings = sheet_of(name, lesson).drawings
    number = next(n for n, drawing in enumerate(drawings) if drawing.scale_text == "1:1")
    lines = pages_of(data)[number]
    page = pypdfium2.PdfDocument(io.BytesIO(data))[number]
    dark = np.squeeze(page.render(scale=DOTS_PER_INCH / 72, grayscale=True).to_numpy()) < 128
    along, across = ends_of_bars(lines)
    low, high = sorted(round(dark.shape[0] - y / DOT) for y in along[1])
    column = dark[:, round((along[0] - 2.5) / DOT)]  # through the end ticks of the millimetre side
    assert abs(span(column, low, high) * DOT - BARS["along"][1]) < IN_THE_PICTURE_MM
    left, right = sorted(round(x / DOT) for x in across[1])
    row = dark[round(dark.shape[0] - (across[0] + 2.5) / DOT), :]
    assert abs(span(row, left, right) * DOT - BARS["across"][1]) < IN_THE_PICTURE_MM
    thin = [line for stroke in drawings[number].strokes if stroke.kind == "thin" for line in stroke.lines]
    for point in (point for line in thin for point in sampled(placed(tidy(line), lines))):
        assert is_inked(dark, point)


def placed(model: tuple[Point, ...], page: list[tuple[Point, ...]]) -> tuple[Point, ...]:
    """The line of the page that is the model's."""
    return min((line for line in page if len(line) == len(model)), key=lambda line: off(line, model))


def sampled(line: tuple[Point, ...]) -> Iterator[Point]:
    """A point in the middle of every side of a line, and every 5 mm along a long one."""
    for a, b in pairwise(line):
        count = 1 + int(dist(a, b) / 5)
        for step in range(count):
            share = (step + 0.5) / count
            yield a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])


def is_inked(dark: "np.ndarray[tuple[int, int], np.dtype[np.bool_]]", point: Point) -> bool:
    """Whether there is ink within 0.1 mm of a point, and so a line's middle, as lines are 0.3 mm wide."""
    reach = int(IN_THE_PICTURE_MM / DOT)
    x, y = round(point[0] / DOT), round(dark.shape[0] - point[1] / DOT)
    return bool(dark[y - reach : y + reach + 1, x - reach : x + reach + 1].any())


def span(dots: "np.ndarray[tuple[int], np.dtype[np.bool_]]", first: int, last: int) -> float:
    """Dots from the middle of one tick to the middle of the other, each sought near its place."""
    found = [float(np.mean(at - 12 + np.flatnonzero(dots[at - 12 : at + 12]))) for at in (first, last)]
    return abs(found[1] - found[0])


def ends_of_bars(
    page: list[tuple[Point, ...]],
) -> tuple[tuple[float, tuple[float, float]], tuple[float, tuple[float, float]]]:
    """Where the millimetre ends of both bars lie on the page: the bar's line across, and its two ends along."""
    lines = [line for line in page if len(line) == 2]
    upright = next(
        line for line in lines if abs(dist(*line) - 8 * 25.4) < 0.5 and abs(line[0][0] - line[1][0]) < 1e-3
    )
    level = next(
        line for line in lines if abs(dist(*line) - 6 * 25.4) < 0.5 and abs(line[0][1] - line[1][1]) < 1e-3
    )
    low, left = min(y for _, y in upright), min(x for x, _ in level)
    return (upright[0][0], (low, low + 200)), (level[0][1], (left, left + 150))


@pytest.mark.parametrize(("name", "lesson"), LESSONS[:1])
def test_a_corrected_sheet_is_longer_by_what_the_printer_loses(name: str, lesson: str) -> None:
    stretch = Fraction(2000, 1992), Fraction(1500, 1506)
    plain, longer = (tidy_pages(pressed(name, lesson, by)) for by in (UNSTRETCHED, stretch))
    for before, after in zip(plain, longer, strict=True):
        for a, b in zip(before, after, strict=True):
            assert abs(extent(b, 0) - extent(a, 0) * float(stretch[1])) < IN_THE_FILE_MM
            assert abs(extent(b, 1) - extent(a, 1) * float(stretch[0])) < IN_THE_FILE_MM


def tidy_pages(data: bytes) -> list[list[tuple[Point, ...]]]:
    """The drawn lines of each page, without the rule under its title."""
    return [[line for line in page if extent(line, 0) < SAFE_MM[0] - 1] for page in pages_of(data)]


def extent(line: tuple[Point, ...], way: int) -> float:
    return max(point[way] for point in line) - min(point[way] for point in line)


@pytest.mark.parametrize(("name", "lesson"), LESSONS)
def test_every_sheet_stays_in_the_room_that_letter_and_a4_share(name: str, lesson: str) -> None:
    data = pressed(name, lesson)
    with opened(data) as pdf:
        boxes = [tuple(float(side) * POINT_MM for side in page.mediabox) for page in pdf.pages]
    for (_, _, width, height), page in zip(boxes, pages_of(data), strict=True):
        points = [point for line in page for point in line]
        assert min(x for x, _ in points) >= (width - SAFE_MM[0]) / 2 - 0.1
        assert max(x for x, _ in points) <= (width + SAFE_MM[0]) / 2 + 0.1
        assert min(y for _, y in points) >= (height - SAFE_MM[1]) / 2 - 0.1
        assert max(y for _, y in points) <= (height + SAFE_MM[1]) / 2 + 0.1


@pytest.mark.parametrize(("name", "lesson"), LESSONS)
def test_every_sheet_says_how_to_print_check_and_cut_it(name: str, lesson: str) -> None:
    data = pressed(name, lesson)
    with opened(data) as pdf:
        assert pdf.Root.ViewerPreferences.PrintScaling == pikepdf.Name("/None")
        for page in pdf.pages:
            text = read(page).whole
            if "Assembly map" in text:
                continue
            for said in (
                "FULL SIZE 1:1",
                "Print at 100 %",
                "200 mm",
                "8 in",
                "150 mm",
                "6 in",
                "within 0.4 mm",
                "Make 1",
                "not for flight",
            ):
                assert said in text
