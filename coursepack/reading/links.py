"""Links and pictures in prose: which may stand, and the bytes of those that are printed."""

import re
from pathlib import Path

from coursepack.lesson import Lesson
from coursepack.place import LessonFault, Place
from coursepack.reading.source import Prose
from coursepack.reading.tables import Findings

LINK = re.compile(r"(!?)\[[^\[\]\n]*\]\(([^()\s]*+)[^()\n]*\)")
PICTURES = (".png", ".jpg", ".jpeg")
MOST_PICTURE_BYTES = 2_000_000
MOST_PIXELS = 12_000_000


def read_pictures(lesson: Lesson, folder: Path) -> dict[str, bytes]:
    """Return the bytes of every picture in a lesson's prose by its address, also in what it brings back.

    The addresses have been checked; raises LessonFault where a picture has gone since.
    """
    parts = [part.passages for part in lesson.sections] + [part.passages for part in lesson.exercises]
    passages = [passage for part in parts for passage in part]
    targets = {
        (target, passage.place)
        for passage in passages
        if isinstance(passage, Prose)
        for mark, target in LINK.findall(passage.text)
        if mark
    }
    return {target: _bytes_of(folder / target, place) for target, place in sorted(targets)}


def _bytes_of(path: Path, place: Place) -> bytes:
    try:
        with path.open("rb") as picture:
            return picture.read(MOST_PICTURE_BYTES)
    except OSError as trouble:
        raise LessonFault(
            f"the picture '{path.name}' cannot be read ({trouble.strerror})", place=place
        ) from trouble


def check_links(passage: Prose, folder: Path, findings: Findings) -> None:
    """Note every link and picture of a passage that may not stand."""
    for offset, line in enumerate(passage.text.split("\n")):
        place = Place(passage.place.path, passage.place.line + offset)
        if re.match(r"\s{0,3}\[[^\]]+\]:", line):
            findings.add(place, "link definitions are not read", "write the link where it stands")
        links = LINK.findall(line)
        if line.count("](") != len(links):
            findings.add(
                place,
                "this link or picture cannot be read",
                "write [words](https://…) in one line, no brackets inside",
            )
        for mark, target in links:
            if mark:
                _picture(target, folder, place, findings)
            elif not target.startswith("https://"):
                findings.add(place, f"the link '{target}' cannot be printed", "links begin with https://")


def _picture(target: str, folder: Path, place: Place, findings: Findings) -> None:
    path = (folder / target).resolve()
    if ":" in target or not path.is_relative_to(folder.resolve()):
        findings.add(
            place, f"the picture '{target}' is outside the lesson's folder", "copy it beside the lesson"
        )
    elif path.suffix.lower() not in PICTURES:
        findings.add(place, f"the picture '{target}' is not PNG or JPEG", "save it as PNG")
    elif not path.is_file():
        findings.add(place, f"there is no picture '{target}'", "copy it beside the lesson")
    elif path.stat().st_size > MOST_PICTURE_BYTES:
        findings.add(
            place,
            f"the picture '{target}' is larger than {MOST_PICTURE_BYTES // 1_000_000} MB",
            "save it smaller",
        )
    elif trouble := _unprintable(path):
        findings.add(
            place, f"the picture '{target}' {trouble}", "save it anew as PNG or JPEG, smaller if need be"
        )


def _unprintable(path: Path) -> str:
    """Say what keeps a picture from print, from its head alone: what it really is, and how many pixels it has."""
    from PIL import Image, UnidentifiedImageError  # noqa: PLC0415 - few lessons show a picture

    try:
        with Image.open(path, formats=("PNG", "JPEG")) as picture:
            width, height = picture.size
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError, Image.DecompressionBombError):
        return "is not PNG or JPEG inside"
    return f"has {width} × {height} pixels" if width * height > MOST_PIXELS else ""
