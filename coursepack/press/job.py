"""What the press is given and what it gives back; all of it travels between processes."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from coursepack.place import LessonFault


class PressFault(LessonFault):
    """A sheet that cannot be printed."""


@dataclass(frozen=True)
class PressJob:
    """Sheets that become one PDF.

    Each part is a whole HTML document, laid out by itself with its own page numbers; its title is its
    bookmark. `pictures` holds the files that parts may show, under the address picture:NAME. With `odd` each
    part begins on an odd page. `full_size` asks the printer not to scale. `chunk` is the number of the job among
    those of one file; names within the PDF begin with it.
    """

    name: str
    title: str
    parts: tuple[str, ...]
    css: str
    pictures: Mapping[str, bytes] = field(default_factory=dict)
    language: str = "en"
    subject: str = ""
    odd: bool = True
    full_size: bool = False
    chunk: int = 0


@dataclass(frozen=True)
class Pressed:
    """What came of a job: what its function returned, with its notes, or the faults that stopped it."""

    name: str
    data: bytes = b""
    faults: tuple[LessonFault, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Limits:
    """What one job may take: seconds by the clock, and bytes of memory."""

    seconds: float = 60.0
    memory: int = 2 << 30
