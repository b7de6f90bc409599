"""A ruler for finished PDFs: the lines of a page in millimetres, from its content stream, y up."""

from collections.abc import Iterator
from typing import Any

import pikepdf
from pikepdf import Page

Point = tuple[float, float]
Matrix = tuple[float, float, float, float, float, float]
POINT_MM = 25.4 / 72
STILL: Matrix = (1, 0, 0, 1, 0, 0)


PAINTS = {"S", "s", "f", "f*", "B", "B*", "n"}


def polylines(page: Page) -> list[tuple[Point, ...]]:
    """Every run of straight lines that the page draws, those of its forms too, in mm from the lower left corner."""
    return [
        tuple((x * POINT_MM, y * POINT_MM) for x, y in line) for line in _lines(page, page.resources, STILL)
    ]


def _lines(content: Any, resources: Any, start: Matrix) -> Iterator[list[Point]]:
    now, kept = start, []
    line: list[Point] = []
    for step in pikepdf.parse_content_stream(content):
        name, values = str(step.operator), step.operands
        if name == "q":
            kept.append(now)
        elif name == "Q":
            now = kept.pop()
        elif name == "cm":
            now = _joined(_matrix(values), now)
        elif name == "Do":
            yield from _form(resources.XObject[str(values[0])], resources, now)
        elif name in {"m", *PAINTS}:
            if len(line) > 1:
                yield line
            line = [_placed(values, now)] if name == "m" else []
        elif name in {"l", "h"}:
            line.append(_placed(values, now) if name == "l" else line[0])


def _form(form: Any, resources: Any, now: Matrix) -> Iterator[list[Point]]:
    if form.Subtype == "/Form":
        yield from _lines(
            form, form.get("/Resources", resources), _joined(_matrix(form.get("/Matrix", STILL)), now)
        )


def _matrix(values: Any) -> Matrix:
    a, b, c, d, e, f = (float(value) for value in values)
    return a, b, c, d, e, f


def _placed(values: Any, by: Matrix) -> Point:
    x, y = float(values[0]), float(values[1])
    return by[0] * x + by[2] * y + by[4], by[1] * x + by[3] * y + by[5]


def _joined(inner: Matrix, outer: Matrix) -> Matrix:
    a, b, c, d, e, f = inner
    p, q, r, s, t, u = outer
    return (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u)
