"""The figures that are kept as gold; `python -m tests.drafting.accept` writes them anew, to be looked at."""

from pathlib import Path

from coursepack.drafting.catalogue import FIGURES
from coursepack.drafting.ink import svg
from coursepack.drafting.sheet import Frame, Mark

GOLD = Path(__file__).parents[1] / "gold"
# what a lesson would ask, in both measures; the sizes in mm and degrees
SIZES = {
    "spar section": {"front": 114.3, "width": 19.05, "top": -8.0, "bottom": 2.0},
    "planing passes": {"rough": 32.0, "finish": 26.0, "rough_width": 40.0, "passes_top": 3.0},
    "end grain": {"wide": 127.0, "thick": 25.4, "wide_after": 123.0, "thick_after": 25.0, "rings": 0.0},
}
GIVEN = {
    "spar section": {"front": "4\u202f1⁄2\u00a0in", "width": "3⁄4\u00a0in", "top": "8°", "bottom": "2°"},
    "planing passes": {"rough": "32\u00a0mm", "finish": "26\u00a0mm"},
    "end grain": {"wide": "5\u00a0in", "thick": "1\u00a0in"},
}
# 4 1/2 − 3/4 tan 8° − 3/4 tan 2° = 4.368 in; (32 − 26) / 2 mm; 123 mm = 4.843 in; to 1/64 in
ANSWERED = {
    "spar section": ("rear", "4\u202f3⁄8\u00a0in", "in"),
    "planing passes": ("allowance_each", "3\u00a0mm", "mm"),
    "end grain": ("wide_after", "4\u202f27⁄32\u00a0in", "in"),
}
STATES = ("asked", "answered")


def gold(name: str, state: str) -> Path:
    """The file that keeps a figure in one of its states."""
    return GOLD / f"{name.replace(' ', '-')}-{state}.svg"


def inked(name: str, state: str) -> str:
    """The figure as it is drawn now."""
    part, answer, unit = ANSWERED[name]
    marks = {given: Mark(text) for given, text in GIVEN[name].items()}
    marks[part] = Mark(answer, "answer") if state == "answered" else Mark(unit, "blank")
    return svg(FIGURES[name].draw(SIZES[name], marks, Frame()), f"{name} {state}") + "\n"


def main() -> None:
    """Write every figure in every state."""
    GOLD.mkdir(exist_ok=True)
    for name in FIGURES:
        for state in STATES:
            gold(name, state).write_text(inked(name, state), encoding="utf-8")


if __name__ == "__main__":
    main()
