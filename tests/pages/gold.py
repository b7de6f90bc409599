"""The gold pages: HTML of the small course's sheets that someone has looked at and found good.

A page that differs fails its test, which shows the lines. Where the change is meant, look at the printed page,
then accept it: `python -m tests.pages.gold` writes tests/gold/*.html anew; commit them with the change.
"""

import re
import sys
from collections.abc import Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.sheets.printed_course import Prepared, prepared, write_small_course

GOLD = Path(__file__).parents[1] / "gold"
PAGES = {
    f"{lesson}-{kind}": (lesson, kind)
    for lesson in ("braces", "weights")
    for kind in ("reading", "exercises", "key")
}
_BEFORE = re.compile(r"\n+|(?=<(?:p|h\d|div|section|table|tr|li|ol|ul|img)\b)")


def page(small: Prepared, name: str) -> str:
    """Return the first part of a sheet, a line an element; the pack mark, which hashes the program's text, left out."""
    lesson, kind = PAGES[name]
    record = small.record(lesson)
    html = small.job(record, kind)[1][0].html.replace(record.mark, "PACKMARK")
    return "\n".join(line.rstrip() for line in _BEFORE.split(html) if line.strip()) + "\n"


def pages() -> Mapping[str, str]:
    """Return every gold page as the program makes it now."""
    with TemporaryDirectory() as folder:
        small = prepared(write_small_course(Path(folder) / "lessons"), "small")
        return {name: page(small, name) for name in PAGES}


def accept() -> None:
    """Write the gold pages anew."""
    for name, html in pages().items():
        (GOLD / f"{name}.html").write_text(html, "utf-8")
        sys.stdout.write(f"  {name}.html\n")


if __name__ == "__main__":
    accept()
