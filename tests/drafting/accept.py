"""The figures that are kept as gold; `python -m tests.drafting.accept` writes them anew, to be looked at."""

from fractions import Fraction
from pathlib import Path

from coursepack.drafting.catalogue import FIGURES
from coursepack.drafting.ink import svg
from coursepack.drafting.part import Sizes
from coursepack.drafting.sheet import Drawing, Frame, Mark
from coursepack.formula import Shape
from coursepack.quantity import Quantity
from coursepack.trade.airfoil import airfoil
from coursepack.trade.stock_plan import CutBoard, CuttingPlan

GOLD = Path(__file__).parents[1] / "gold"
# what a lesson would ask, in both measures; the sizes in mm and degrees
SIZES = {
    "spar section": {"front": 114.3, "width": 19.05, "top": -8.0, "bottom": 2.0},
    "routed spar": {"front": 114.3, "width": 25.4, "web": 9.525, "flange": 28.575, "top": -6.0, "bottom": 0.0},
    "box spar": {"cap_width": 38.1, "top_cap": 31.75, "bottom_cap": 25.4, "height": 177.8, "web": 3.175},
    "beam": {"span": 711.2, "deflection": 1.984375, "load": 444.822, "load_at": 355.6},
    "ring count": {"wide": 76.2, "thick": 25.4, "span": 50.8, "rings": 24.0},
    "bevel guide": {"width": 19.05, "top": -6.0, "base": 203.2, "thin": 6.35},
    "planing passes": {"rough": 32.0, "finish": 26.0, "rough_width": 40.0, "passes_top": 3.0},
    "end grain": {"wide": 127.0, "thick": 25.4, "wide_after": 123.0, "thick_after": 25.0, "rings": 0.0},
    "spar face": {"height": 114.3, "edge": 44.45, "next": 317.5, "knot": 7.9375},
    "grain slope": {"run": 381.0, "wide": 114.3, "thick": 31.75, "rise_face": 19.05, "rise_edge": 12.7},
    "clamp layout": {"length": 457.2, "thick": 19.05, "clamps": 5.0},
    "scarf": {"thickness": 6.35, "run": 63.5, "block": 101.6},
    "plywood patch": {"skin": 3.175, "hole": 38.1, "run": 38.1},
    "slope wedge": {"base": 152.4, "thin": 6.35, "parts": 12.0},
    "cutting plan": {"kerf": 3.175, "trim": 12.7},
    "rule reading": {"reading": 110.33125, "tick": 0.79375},
    "vernier reading": {"reading": 37.7444, "step": 0.0254, "main": 37.465, "line": 11.0},
    "noise day": {
        "time_1": 2.0, "level_1": 95.0, "time_2": 4.0, "level_2": 85.0, "time_3": 0.5, "level_3": 102.0,
    },
    "bent lamination": {"laminations": 6.0, "thin": 3.175, "final": 457.2, "angle": 90.0},
    "levelled blank": {
        "span": 1828.8, "level": 609.6, "depth": 127.0, "rise": 3.96875, "width": 25.4, "blade": 101.6, "gap": 0.79375,
    },
    "leaning blank": {"blade": 76.2, "gap": 1.016, "bevel": 5.0},
    "rib outline": {
        "chord": 609.6, "capstrip": 4.7625, "front_station": 91.44, "rear_station": 365.76, "spar_width": 19.05,
        "bays": 3.0, "upright": 6.35,
    },
    "straightedge on a loft": {"base": 152.4, "fore": 53.578125, "rear": 76.99375},
    "nose rib": {
        "chord": 1219.2, "length": 182.88, "hole": 73.025, "aft": 121.92, "middle": 61.0819, "start": 3.175,
    },
    "saw reach": {"throat": 406.4, "hole": 76.2, "along": 228.6, "across": 76.2, "blade": 3.175},
}  # fmt: skip


def _inches(value: str) -> Quantity:
    return Quantity.of(Fraction(value), "in")


# 96 − 2 × 1/2 = 95 in; less 3 × 30 1/8 in, and less 4 × 22 1/8 in
BOARDS = (
    CutBoard(_inches("96"), 3 * (_inches("30"),), _inches("37/8")),
    CutBoard(_inches("96"), 4 * (_inches("22"),), _inches("13/2")),
)
SHAPES: dict[str, dict[str, Shape]] = {
    "rib outline": {"section": airfoil("Clark Y")},
    "nose rib": {"section": airfoil("Clark Y")},
    "cutting plan": {"plan": CuttingPlan((*BOARDS, BOARDS[1]), Quantity.of(3))},
}
GIVEN: dict[str, dict[str, str]] = {
    "spar section": {"front": "4\u202f1⁄2\u00a0in", "width": "3⁄4\u00a0in", "top": "8°", "bottom": "2°"},
    "routed spar": {
        "front": "4\u202f1⁄2\u00a0in", "width": "1\u00a0in", "web": "3⁄8\u00a0in", "flange": "1\u202f1⁄8\u00a0in",
        "top": "6°",
    },
    "box spar": {
        "height": "7\u00a0in", "cap_width": "1\u202f1⁄2\u00a0in", "web": "1⁄8\u00a0in", "top_cap": "1\u202f1⁄4\u00a0in",
        "bottom_cap": "1\u00a0in",
    },
    "beam": {"span": "28\u00a0in", "load": "100\u00a0lbf", "load_at": "14\u00a0in"},
    "ring count": {"span": "2\u00a0in", "wide": "3\u00a0in", "thick": "1\u00a0in"},
    "bevel guide": {"base": "8\u00a0in", "thin": "1⁄4\u00a0in", "top": "6°"},
    "planing passes": {"rough": "32\u00a0mm", "finish": "26\u00a0mm"},
    "end grain": {"wide": "5\u00a0in", "thick": "1\u00a0in"},
    "spar face": {"height": "4\u202f1⁄2\u00a0in", "edge": "1\u202f3⁄4\u00a0in", "next": "12\u202f1⁄2\u00a0in"},
    "grain slope": {"run": "15\u00a0in", "rise_edge": "1⁄2\u00a0in"},
    "clamp layout": {"length": "18\u00a0in", "thick": "3⁄4\u00a0in", "end": "1\u202f51⁄64\u00a0in"},
    "straightedge on a loft": {
        "base": "6\u00a0in", "fore": "2\u202f7⁄64\u00a0in", "rear": "3\u202f1⁄32\u00a0in",
    },
    "nose rib": {"length": "7\u202f13⁄64\u00a0in", "hole": "2\u202f7⁄8\u00a0in", "start": "1⁄8\u00a0in"},
    "saw reach": {"throat": "16\u00a0in", "along": "9\u00a0in", "across": "3\u00a0in", "radius": "1\u00a0in"},
    "bent lamination": {"final": "18\u00a0in", "thin": "1⁄8\u00a0in", "angle": "90°", "stack": "3⁄4\u00a0in"},
    "levelled blank": {
        "span": "72\u00a0in", "level": "24\u00a0in", "rise": "5⁄32\u00a0in", "blade": "4\u00a0in", "gap": "1⁄32\u00a0in",
    },
    "leaning blank": {"blade": "3\u00a0in"},
    "rib outline": {"chord": "24\u00a0in", "front_station": "3.6\u00a0in"},
    "cutting plan": {"board_1": "96\u00a0in", "offcut_1": "4\u202f5⁄8\u00a0in"},
    "rule reading": {},
    "vernier reading": {},
    "noise day": {
        "time_1": "2\u00a0h", "level_1": "95\u00a0dBA", "allowed_1": "4\u00a0h",
        "time_2": "4\u00a0h", "level_2": "85\u00a0dBA", "allowed_2": "16\u00a0h",
        "time_3": "0.5\u00a0h", "level_3": "102\u00a0dBA", "allowed_3": "1.52\u00a0h",
    },
    "scarf": {"thickness": "1⁄4\u00a0in", "slope": "10", "angle": "5.7°", "block": "4\u00a0in"},
    "plywood patch": {"skin": "1⁄8\u00a0in", "hole": "1\u202f1⁄2\u00a0in", "run": "1\u202f1⁄2\u00a0in"},
    "slope wedge": {"base": "6\u00a0in", "thin": "1⁄4\u00a0in"},
}  # fmt: skip
# 4 1/2 − 3/4 tan 8° − 3/4 tan 2° = 4.368 in; (32 − 26) / 2 mm; 123 mm = 4.843 in; 1/4 + 8 tan 6° = 1.091 in; 18 / 5 = 3.6 in; to 1/64 in
ANSWERED = {
    "spar section": ("rear", "4\u202f3⁄8\u00a0in", "in"),
    "routed spar": ("depth", "5⁄16\u00a0in", "in"),
    "box spar": ("between", "4\u202f3⁄4\u00a0in", "in"),
    "beam": ("deflection", "5⁄64\u00a0in", "in"),
    "ring count": ("rings", "24", ""),
    "bevel guide": ("thick", "1\u202f3⁄32\u00a0in", "in"),
    "planing passes": ("allowance_each", "3\u00a0mm", "mm"),
    "end grain": ("wide_after", "4\u202f27⁄32\u00a0in", "in"),
    "spar face": ("third", "1\u202f1⁄2\u00a0in", "in"),
    "grain slope": ("rise_face", "3⁄4\u00a0in", "in"),
    "clamp layout": ("spacing", "3\u202f19⁄32\u00a0in", "in"),
    "straightedge on a loft": ("bevel", "8.7°", "°"),  # arctan((3 1/32 − 2 7/64) / 6) = arctan(59 / 384)
    "nose rib": ("height", "5\u202f3⁄64\u00a0in", "in"),  # 48 (10.68 − 0.15) % = 5.054
    "saw reach": ("reach", "10\u202f63⁄64\u00a0in", "in"),  # √(9² + 3²) + 3 / 2 = 10.987
    "bent lamination": ("form_radius", "17\u202f1⁄2\u00a0in", "in"),  # 18 (1 − 1 / 6²)
    "levelled blank": ("packing", "15⁄32\u00a0in", "in"),  # 5/32 × 72 / 24
    "leaning blank": ("gap", "0.04\u00a0in", "in"),
    "rib outline": ("front_height", "2\u202f5⁄32\u00a0in", "in"),  # 24 (10.68 − 0.15) % − 2 × 3/16 = 2.152
    "cutting plan": ("offcut_2", "6\u202f1⁄2\u00a0in", "in"),
    "rule reading": ("reading", "4\u202f11⁄32\u00a0in", "in"),
    "vernier reading": ("reading", "1.486\u00a0in", "in"),
    "noise day": ("dose", "108\u00a0%", "%"),  # 2 / 4 + 4 / 16 + 0.5 / 1.516
    "scarf": ("run", "2\u202f1⁄2\u00a0in", "in"),
    "plywood patch": ("patch", "4\u202f1⁄2\u00a0in", "in"),
    "slope wedge": ("thick", "3⁄4\u00a0in", "in"),
}
STATES = ("asked", "answered")


def gold(name: str, state: str) -> Path:
    """The file that keeps a figure in one of its states."""
    return GOLD / f"{name.replace(' ', '-')}-{state}.svg"


def drawn(name: str, state: str) -> Drawing:
    """The figure as it is laid out now."""
    part, answer, unit = ANSWERED[name]
    marks = {given: Mark(text) for given, text in GIVEN[name].items()}
    marks[part] = Mark(answer, "answer") if state == "answered" else Mark(unit, "blank")
    return FIGURES[name].draw(Sizes(SIZES[name], SHAPES.get(name)), marks, Frame())


def inked(name: str, state: str) -> str:
    """The figure as it is drawn now, as SVG."""
    return svg(drawn(name, state)) + "\n"


def main() -> None:
    """Write every figure in every state."""
    GOLD.mkdir(exist_ok=True)
    for name in FIGURES:
        for state in STATES:
            gold(name, state).write_text(inked(name, state), encoding="utf-8")


if __name__ == "__main__":
    main()
