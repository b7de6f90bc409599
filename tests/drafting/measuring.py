"""Measuring a figure with a ruler: in the laid-out drawing, and in the SVG that ink made of it."""

import re
from fractions import Fraction
from math import atan2, degrees, dist
from xml.etree import ElementTree as ET

from coursepack.drafting.sheet import Drawing, Line, Point

SVG = "{http://www.w3.org/2000/svg}"
POINT_MM = 25.4 / 72


def tips(drawing: Drawing, name: str) -> list[Point]:
    return [fill.polygon[0] for fill in drawing.fills if fill.of == name]


def outline(drawing: Drawing) -> Line:
    (line,) = [line for stroke in drawing.strokes if stroke.kind == "outline" for line in stroke.lines][:1]
    return line


def scale_of(drawing: Drawing) -> float:
    paper, part = drawing.scale_text.split(":")
    return float(Fraction(int(paper), int(part)))


def section_scale_of(drawing: Drawing) -> float:
    """The scale that the title gives for a section beside the view."""
    title = " ".join(label.text for label in drawing.labels)
    (paper, part), *_ = re.findall(r"section (\d+):(\d+)", title)
    return int(paper) / int(part)


def detail_scale_of(drawing: Drawing, letter: str) -> float:
    """The scale lettered over a detail or a further view."""
    (scale,) = [
        label.text.split("\u2002")[1] for label in drawing.labels if label.text.startswith(f"{letter}\u2002")
    ]
    paper, part = scale.split(":")
    return int(paper) / int(part)


def measured(drawing: Drawing, name: str) -> float:
    """The length between a dimension's two arrowheads in mm of the part."""
    first, second = tips(drawing, name)
    return dist(first, second) / scale_of(drawing)


def turned(drawing: Drawing, name: str, vertex: Point) -> float:
    """The angle in degrees between a dimension's two arrowheads, seen from the corner they belong to."""
    turns = [degrees(atan2(y - vertex[1], x - vertex[0])) for x, y in tips(drawing, name)]
    return abs(turns[0] - turns[1])


def paths(svg: str, kind: str) -> list[Line]:
    """The polylines of one kind in an SVG, in mm with y up."""
    root = ET.fromstring(svg)  # noqa: S314 - our own text
    height = float(root.attrib["viewBox"].split()[3])
    found = [g.find(f"{SVG}path") for g in root.iter(f"{SVG}g") if g.get("class") == kind]
    text = " ".join(path.attrib["d"] for path in found if path is not None)
    return [
        tuple(
            ((float(x)) * POINT_MM, (height - float(y)) * POINT_MM)
            for x, y in re.findall(r"[ML] (\S+) (\S+)", part)
        )
        for part in re.findall(r"M[^M]+", text)
    ]


def words(svg: str) -> list[str]:
    return [text.text or "" for text in ET.fromstring(svg).iter(f"{SVG}text")]  # noqa: S314 - our own text
