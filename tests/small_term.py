"""A term small enough to print in a test: one lesson of one page a bench, with a figure, for more benches than one job holds."""

import os
import subprocess
import sys
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

BENCHES = 7  # one more than the benches of one job, so that the sheets are bound from two

_COURSE = """\
title = "Small course"
class = "A class of one evening"

[[machine]]
name = "band saw"
cautions = [{ level = "warning", do = "Keep the hands beside the line.", otherwise = "The blade takes what stands on it." }]
"""

_TERM = f"""\
title = "Small term"
draw = 7
benches = {BENCHES}
"""

LESSON = """\
# Two bevels

```lesson
number = 1
minutes = 30
machines = ["band saw"]
tools = ["rule"]
materials = ["a blank for each bench"]
prepare = ["Number the blanks."]
done = "The rear face is within 1/64 in of its size."
aims = [{ do = "Find the rear height", given = "the front height, the width and both bevels", to = "within 1/64 in" }]
```

## Why

A bevel takes height off the rear face.

### The rear face

```exercise
id = "rear"
stage = "worked"
aims = [1]
```

```given
front = { inch = "4 in to 5 in by 1/16 in", metric = "100 mm to 120 mm by 1 mm", means = "height at the front face" }
width = { both = "3/4 in | 7/8 in | 1 in", means = "width" }
top = { both = "5 deg to 7 deg by 0.5 deg", means = "fall of the top edge" }
bottom = { both = "3 deg to 4 deg by 0.5 deg", means = "rise of the bottom edge" }
```

The spar stands {front} high.

```working
drop = width * tan(top)       # The top edge falls by this much.
rise = width * tan(bottom)    # The bottom edge rises by this much.
rear = front - drop - rise    # This much is left.
```

```find
[rear]
ask = "How high is the rear face?"
nearest = { inch = "1/64 in", metric = "0.1 mm" }
within = { inch = "1/64 in", metric = "0.2 mm" }
[rear.slips.one-bevel]
by = "front - drop"
say = "The bottom bevel was forgotten."
[rear.slips.added]
by = "front + drop + rise"
say = "The wedges were added."
```

```figure
draw = "spar section"
show = ["front", "width", "top", "bottom"]
ask = ["rear"]
with = { top = "-top" }
```

### On your own

```exercise
id = "own"
stage = "alone"
aims = [1]
like = "rear"
```
"""


def write_small_term(folder: Path) -> Path:
    """Write the sources of the small term into a new folder; returns the folder."""
    (folder / "terms").mkdir(parents=True)
    (folder / "course.toml").write_text(_COURSE, "utf-8")
    (folder / "terms" / "small.toml").write_text(_TERM, "utf-8")
    (folder / "01-bevels.md").write_text(LESSON, "utf-8")
    return folder


def draw_anew(lessons: Path) -> None:
    """Change the term's draw number, so that every sheet must be printed again."""
    term = lessons / "terms" / "small.toml"
    term.write_text(_TERM.replace("draw = 7", "draw = 8"), "utf-8")


def command(lessons: Path, build: Path, *more: str) -> list[str]:
    """Return the words of a command that assembles the small term."""
    folders = ["--lessons", str(lessons), "--build", str(build)]
    return [sys.executable, "-m", "coursepack", "assemble", "small", *folders, *more]


def surroundings(**changed: str) -> Mapping[str, str]:
    """Return this process's environment with some variables changed."""
    return {**os.environ, **changed}


def assemble_small(lessons: Path, build: Path, *more: str) -> None:
    """Print the small term in a process of its own."""
    subprocess.run(command(lessons, build, *more), check=True, capture_output=True)


def contents(folder: Path) -> dict[str, str]:
    """Return the hash of everything in a folder, by path, hidden files too."""
    return {
        str(path.relative_to(folder)): sha256(path.read_bytes()).hexdigest() if path.is_file() else "folder"
        for path in sorted(folder.rglob("*"))
    }
