"""A picture is judged by what it holds, not by its name."""

from pathlib import Path

import pytest
from PIL import Image

from coursepack.place import Place
from coursepack.reading.links import MOST_PIXELS, check_links
from coursepack.reading.source import Prose
from coursepack.reading.tables import Findings


def told(folder: Path, name: str) -> list[str]:
    findings = Findings()
    check_links(Prose(f"![an edge]({name})", Place("lessons/01-edge.md", 9)), folder, findings)
    return [str(fault) for fault in findings.faults]


@pytest.mark.parametrize("kind", ["png", "jpeg"])
def test_a_picture_of_a_printable_size_may_stand(tmp_path: Path, kind: str) -> None:
    Image.new("L", (40, 30)).save(tmp_path / f"edge.{kind}")
    assert told(tmp_path, f"edge.{kind}") == []


def test_a_picture_with_too_many_pixels_is_a_fault(tmp_path: Path) -> None:
    Image.new("1", (4001, 3000)).save(tmp_path / "edge.png")
    assert MOST_PIXELS < 4001 * 3000
    assert told(tmp_path, "edge.png") == [
        (
            "lessons/01-edge.md:9: the picture 'edge.png' has 4001 × 3000 pixels; "
            "save it anew as PNG or JPEG, smaller if need be"
        )
    ]


@pytest.mark.parametrize(
    "data", [b"<svg/>", b"GIF89a\x01\x00\x01\x00\x00\x00\x00;", b"\x89PNG\r\n\x1a\n", b""]
)
def test_what_is_no_picture_inside_is_a_fault(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "edge.png").write_bytes(data)
    assert told(tmp_path, "edge.png") == [
        (
            "lessons/01-edge.md:9: the picture 'edge.png' is not PNG or JPEG inside; "
            "save it anew as PNG or JPEG, smaller if need be"
        )
    ]
