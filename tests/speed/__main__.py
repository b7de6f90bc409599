"""Measures the demo term: cold, the plain way, again after one sentence has changed, and with nothing to do."""

import argparse
import shutil
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path
from statistics import median

from coursepack.drafting.catalogue import FIGURES
from coursepack.reading.course import read_course, read_term
from coursepack.trade.catalogue import FUNCTIONS
from tests.speed.pages import Printed, printed
from tests.speed.run import Run, run

HOME = Path(__file__).parent.parent.parent
LESSONS = 3  # so many of the course, always the same ones, so that its growth changes no figure


def main() -> None:
    options = argparse.ArgumentParser(prog="python -m tests.speed", description=__doc__)
    options.add_argument("--runs", type=int, default=3, help="how often each is run; the median counts")
    options.add_argument("--workers", type=int, default=2)
    chosen = options.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        measure(Path(folder), chosen.runs, chosen.workers)


def measure(folder: Path, runs: int, workers: int) -> None:
    lessons, build = shutil.copytree(HOME / "lessons", folder / "lessons"), folder / "build"
    for later in sorted(lessons.glob("*.md"))[LESSONS:]:
        later.unlink()
    term = read_term(lessons, "demo", read_course(lessons, FUNCTIONS, FIGURES))
    assemble = ("-m", "coursepack", "assemble", "demo", "--workers", str(workers))
    words = (*assemble, "--lessons", str(lessons), "--build", str(build))
    plainly = ("-m", "tests.speed.plain", str(lessons), str(folder / "plain"))
    cold, plain = [], []
    for _ in range(runs):  # by turns, so that a busy minute of the machine slows both
        cold.append(clean_run(words, build))
        plain.append(clean_run(plainly, folder / "plain"))
    ours, theirs = printed(build / "demo", term.benches), printed(folder / "plain", term.benches)
    rebuilt = [touched_run(words, lessons / "02-spar-bevels.md", number) for number in range(runs)]
    idle = [run(words) for _ in range(runs)]
    report(cold, ours, plain, theirs)
    tell("one sentence saved to its new sheets", rebuilt)
    tell("nothing changed", idle)


def clean_run(words: Sequence[str], out: Path) -> Run:
    shutil.rmtree(out, ignore_errors=True)
    return run(words)


def touched_run(words: Sequence[str], lesson: Path, number: int) -> Run:
    """Add a sentence to the first paragraph below the first heading, and print again."""
    head, heading, text = lesson.read_text("utf-8").partition("\n## ")
    title, gap, body = text.partition("\n\n")
    lesson.write_text(f"{head}{heading}{title}{gap}{'Read it twice. ' * (number + 1)}{body}", "utf-8")
    return run(words)


def report(cold: Sequence[Run], ours: Printed, plain: Sequence[Run], theirs: Printed) -> None:
    print(f"pages: {ours.pressed} pressed, {ours.delivered} delivered (a reading counts for every bench;")
    print(f"       {ours.blank} blank backs not counted); the plain way presses {theirs.pressed}")
    tell("cold", cold, ours)
    tell("the plain way", plain, theirs)
    turns = ", ".join(f"{there.seconds / here.seconds:.1f}" for here, there in zip(cold, plain, strict=True))
    print(f"ratio: {middle(plain) / middle(cold):.1f} (turn by turn {turns})")


def middle(runs: Sequence[Run]) -> float:
    return median(run.seconds for run in runs)


def tell(name: str, runs: Sequence[Run], pages: Printed | None = None) -> None:
    seconds, cpu = middle(runs), median(run.cpu for run in runs)
    line = f"{name}: {seconds:.2f} s, {cpu:.1f} s of processor, largest process {max(run.peak for run in runs):.0f} MB"
    if pages:
        line += f"; {1000 * seconds / pages.delivered:.0f} ms a page delivered, {1000 * seconds / pages.pressed:.0f} ms a page pressed"
    print(line)
    sys.stdout.flush()


if __name__ == "__main__":
    main()
