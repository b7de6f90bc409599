"""Random exercises for the figures: sizes as a term would draw them, lettered in inch or metric."""

import random
from collections.abc import Callable, Mapping
from fractions import Fraction
from math import ceil, radians, tan

from coursepack.drafting.catalogue import FIGURES
from coursepack.drafting.part import Sizes
from coursepack.drafting.sheet import Frame, Hand, Mark
from coursepack.quantity import Quantity, printed
from coursepack.trade.airfoil import airfoil
from coursepack.trade.stock_plan import CutBoard, CuttingPlan

INCH = 25.4
COLUMN, WIDE = Frame(58, 190), Frame(118, 190)

UNITS = {"angle": "°", "ratio": "", "count": "", "time": " h", "sound level": " dBA", "percent": " %"}

Case = tuple[str, Sizes, dict[str, Mark], Frame]


def shop_inches(mm: float) -> str:
    return printed(Quantity.of(Fraction(round(mm / INCH * 64), 64), "in"))


def shop_metric(mm: float) -> str:
    return printed(Quantity.of(Fraction(round(mm * 10), 10), "mm"))


def _spar(rng: random.Random) -> dict[str, float]:
    front = rng.choice([rng.randrange(64, 89) / 16 * INCH, float(rng.randrange(100, 141))])
    sizes = {
        "front": front,
        "width": rng.choice([0.75, 0.875, 1.0]) * INCH,
        "top": -float(rng.randrange(3, 10)),
        "bottom": float(rng.randrange(1, 4)) * rng.choice([1, 1, -1]),
    }
    below = max(0.0, -sizes["width"] * tan(radians(sizes["bottom"])))
    return sizes | ({"blank": front + below} if rng.random() < 0.3 else {})


def _guide(rng: random.Random) -> dict[str, float]:
    edge = rng.choice(["top", "bottom"])
    sizes = {
        "width": rng.choice([0.75, 0.875, 1.0]) * INCH,
        edge: rng.choice([-1, 1]) * rng.randrange(4, 20) / 2,
    }
    if rng.random() < 0.8:
        sizes |= rng.choice(
            [{"base": rng.randrange(6, 11) * INCH, "thin": rng.choice([0.25, 0.3125, 0.375]) * INCH},
             {"base": rng.choice([150.0, 180.0, 200.0, 250.0]), "thin": rng.choice([6.0, 8.0, 10.0])}]
        )  # fmt: skip
    return sizes


def _planing(rng: random.Random) -> dict[str, float]:
    sizes = {"rough": rng.randrange(16, 33) / 16 * INCH, "finish": 0.75 * INCH}
    if rng.random() < 0.7:
        sizes |= {"rough_width": rng.randrange(26, 33) / 16 * INCH, "finish_width": 1.5 * INCH}
    passes = float(rng.randrange(1, 13))
    return sizes | ({"passes_top": passes, "passes_bottom": passes} if rng.random() < 0.8 else {})


def _grain(rng: random.Random) -> dict[str, float]:
    wide, thick = rng.randrange(64, 97) / 16 * INCH, rng.randrange(16, 33) / 16 * INCH
    return {
        "wide": wide,
        "thick": thick,
        "wide_after": wide * (1 - rng.uniform(0.002, 0.08)),
        "thick_after": thick * (1 - rng.uniform(0.002, 0.05)),
        "rings": float(rng.choice([0, 90, 30, 45, 60])),
    }


def _knots(rng: random.Random) -> dict[str, float]:
    height = rng.choice([rng.randrange(32, 49) / 8 * INCH, float(rng.randrange(90, 161, 2))])
    return {
        "height": height,
        "edge": height * rng.uniform(0.15, 0.35),
        "next": rng.choice([rng.randrange(16, 81) / 4 * INCH, float(rng.randrange(100, 501, 5))]),
        "knot": rng.randrange(2, 7) / 16 * INCH,
    }


def _slope(rng: random.Random) -> dict[str, float]:
    unit, steps = rng.choice([(INCH / 32, 32), (1.0, 25)])
    return {
        "run": rng.choice([rng.randrange(32, 73) / 4 * INCH, float(rng.randrange(200, 451, 5))]),
        "wide": rng.randrange(12, 21) / 4 * INCH,
        "thick": rng.choice([0.75, 1.0, 1.25]) * INCH,
        "rise_face": rng.randrange(steps // 8, steps * 5 // 4) * unit,
        "rise_edge": rng.randrange(0, steps * 3 // 4) * unit,
    }


def _scarf(rng: random.Random) -> dict[str, float]:
    thickness = rng.choice([rng.randrange(2, 17) / 16 * INCH, float(rng.randrange(3, 26))])
    sizes = {"thickness": thickness, "run": thickness * rng.choice([8, 10, 12, 15, 16, 20])}
    if thickness < INCH / 2 and rng.random() < 0.8:  # a cap strip
        sizes["block"] = sizes["run"] + rng.choice([6, 8]) * thickness
    return sizes


def _clamps(rng: random.Random) -> dict[str, float]:
    length, thick = rng.choice(
        [(rng.randrange(24, 49) / 2 * INCH, rng.choice([0.5, 0.625, 0.75]) * INCH),
         (float(rng.randrange(300, 601, 10)), float(rng.choice([12, 15, 18, 20])))]
    )  # fmt: skip
    fewest = ceil(length / (6 * thick))
    most = max(fewest, int(length / (2.5 * INCH)))
    sizes = {"length": length, "thick": thick, "clamps": float(rng.randrange(fewest, most + 1))}
    return sizes | ({"caul": 2 * thick} if rng.random() < 0.5 else {})


INCH_BOARDS = ("in", (72, 96, 120, 144), ("11", "17", "107/8", "22", "30", "41"), "1/8", ("1/2",))
METRIC_BOARDS = ("mm", (1800, 2400, 3000), ("240", "355", "560", "785", "1010"), "3", ("0", "12"))


def _plan(rng: random.Random) -> Sizes:
    """A plan as a shop would make it: each board filled with pieces from a list until none fits."""
    unit, boards, lengths, loss, trims = rng.choice([INCH_BOARDS, METRIC_BOARDS])
    wanted, kerf, trim = [Fraction(text) for text in lengths], Fraction(loss), Fraction(rng.choice(trims))
    if rng.random() < 0.5:
        wanted[2] = wanted[0] / 4
    length = rng.choice(boards)
    cut = [_filled(rng, length - 2 * trim, wanted, kerf) for _ in range(rng.randrange(1, 6))]
    written = [
        CutBoard(
            Quantity.of(length, unit), tuple(Quantity.of(p, unit) for p in pieces), Quantity.of(left, unit)
        )
        for pieces, left in cut
    ]
    plan = CuttingPlan(
        tuple(board for board in written for _ in range(rng.choice([1, 1, 2, 5]))), Quantity.of(1)
    )
    size = INCH if unit == "in" else 1.0
    return Sizes({"kerf": float(kerf) * size, "trim": float(trim) * size}, {"plan": plan})


def _filled(
    rng: random.Random, left: Fraction, wanted: list[Fraction], kerf: Fraction
) -> tuple[list[Fraction], Fraction]:
    """The pieces of a board, the longest first, and what is left of it."""
    pieces: list[Fraction] = []
    while fitting := [piece for piece in wanted if piece + kerf <= left and len(pieces) < 9]:
        pieces.append(rng.choice(fitting))
        left -= pieces[-1] + kerf
    return sorted(pieces, reverse=True), left


def _rule(rng: random.Random) -> dict[str, float]:
    tick, most = rng.choice([(INCH / 16, 192), (INCH / 32, 384), (INCH / 64, 768), (1.0, 300), (0.5, 600)])
    return {"reading": rng.randrange(1, most) * tick, "tick": tick}


def _vernier(rng: random.Random) -> dict[str, float]:
    step, lines, most = rng.choice(
        [(INCH / 1000, 25, 6000), (INCH / 128, 8, 768), (0.02, 50, 7500), (0.05, 20, 3000), (0.1, 10, 1500)]
    )
    steps = rng.randrange(most)
    reading = {"reading": steps * step, "step": step}
    if rng.random() < 0.5:
        reading |= {"main": steps // lines * lines * step, "line": float(steps % lines)}
    return reading


def _noise(rng: random.Random) -> dict[str, float]:
    steps = range(1, rng.randrange(2, 6))
    day = {f"time_{step}": rng.choice([0.25, 0.5, 1.0, 1.5, 2.0, 3.0]) for step in steps}
    day |= {f"level_{step}": float(rng.randrange(80, 116)) for step in steps}
    return day | ({f"allowed_{step}": 2.0 for step in steps} if rng.random() < 0.3 else {})


def _rib(rng: random.Random) -> Sizes:
    """A practice rib or a whole one; its spars at stations of the tables, its members as thick as its capstrips."""
    chord = rng.choice(
        [rng.randrange(40, 57) / 2 * INCH, float(rng.randrange(500, 721, 10)), rng.randrange(44, 61) * INCH]
    )
    sizes = {"chord": chord}
    if rng.random() < 0.3:
        sizes["station"] = chord * rng.choice([0.05, 0.1, 0.2, 0.3, 0.5, 0.7])
    else:
        width = rng.choice([0.75 * INCH, 20.0])
        sizes |= {"spar_width": width, "capstrip": rng.choice([0.1875 * INCH, 0.25 * INCH, 6.0])}
        sizes |= {
            "front_station": chord * rng.choice([0.15, 0.2]),
            "rear_station": chord * rng.choice([0.6, 0.65]),
        }
        sizes["bays"] = float(rng.randrange(4))
    return Sizes(sizes, {"section": airfoil(rng.choice(["Clark Y", "NACA 2412", "USA 35-B", "NACA 23012"]))})


def _nose(rng: random.Random) -> Sizes:
    """A nose rib up to a spar at 15 % of the chord, its hole halfway between the contours at one tenth."""
    section = airfoil(rng.choice(["Clark Y", "NACA 2412", "USA 35-B", "NACA 23012"]))
    chord = rng.choice([rng.randrange(44, 67) * INCH, float(rng.randrange(1100, 1651, 50))])
    low, high = (chord * section.ordinate(0.1, surface) for surface in ("lower", "upper"))
    hole = (high - low) * rng.uniform(0.4, 0.65)
    sizes = {"chord": chord, "length": 0.15 * chord, "hole": hole, "aft": 0.1 * chord}
    sizes["middle"] = (low + high) / 2
    start = {"start": rng.choice([0.125 * INCH, 0.1875 * INCH, 3.0, 4.0])} if rng.random() < 0.8 else {}
    strip = {"capstrip": rng.choice([0.0625 * INCH, 0.1875 * INCH, 1.5, 5.0])} if rng.random() < 0.4 else {}
    return Sizes(sizes | start | strip, {"section": section})


def _reach(rng: random.Random) -> dict[str, float]:
    sizes = {
        "throat": rng.choice([16, 18, 20, 24]) * INCH,
        "hole": rng.choice([rng.randrange(16, 33) / 8 * INCH, float(rng.randrange(50, 101, 5))]),
        "along": rng.choice([rng.randrange(24, 45) / 4 * INCH, float(rng.randrange(180, 281, 10))]),
        "across": rng.randrange(20, 33) / 8 * INCH,
    }
    return sizes | ({"blade": rng.randrange(2, 7) / 32 * INCH} if rng.random() < 0.5 else {})


def _patch(rng: random.Random) -> dict[str, float]:
    skin = rng.choice([rng.choice([1, 1.5, 2, 2.5, 3, 4]) / 16 * INCH / 2, rng.randrange(2, 7) / 2])
    most = rng.choice([15, 25])  # FAA AC 43.13-1B, paragraph 1-51: a splayed patch and a scarf patch
    return {
        "skin": skin,
        "hole": skin * rng.randrange(6, most + 1),
        "run": skin * (5 if most == 15 else rng.choice([12, 15])),
    }


def _routed(rng: random.Random) -> dict[str, float]:
    front, width = rng.randrange(68, 97) / 16 * INCH, rng.choice([0.75, 0.875, 1.0]) * INCH
    sizes = {
        "front": front,
        "width": width,
        "web": rng.choice([0.25, 0.3125, 0.375, 0.5]) * INCH,
        "flange": rng.randrange(14, 23) / 16 * INCH,
    }
    bevels = {"top": -float(rng.randrange(2, 9)), "bottom": float(rng.choice([-2, -1, 1, 2, 3]))}
    hole = {"hole": rng.choice([0.25, 0.375]) * INCH, "hole_height": front * rng.uniform(0.44, 0.54)}
    return sizes | rng.choice([{}, bevels, bevels, hole])


def _box(rng: random.Random) -> dict[str, float]:
    height = rng.choice([rng.randrange(80, 145) / 16 * INCH, float(rng.randrange(120, 230, 2))])
    sizes = {
        "cap_width": rng.choice([0.75, 1.0, 1.25, 1.5]) * INCH,
        "top_cap": rng.randrange(12, 25) / 16 * INCH,
        "bottom_cap": rng.randrange(10, 21) / 16 * INCH,
        "height": height,
        "web": rng.choice([0.0625, 0.09375, 0.125, 0.1875, 0.25]) * INCH,
    }
    hole = {"hole": rng.choice([0.25, 0.375]) * INCH, "hole_height": height * rng.uniform(0.4, 0.6)}
    return sizes | (hole if rng.random() < 0.3 else {})


def _wedge(rng: random.Random) -> dict[str, float]:
    sizes = rng.choice(
        [{"base": rng.randrange(12, 19) / 2 * INCH, "thin": rng.choice([0.25, 0.3125, 0.375]) * INCH},
         {"base": float(rng.randrange(150, 225, 10)), "thin": float(rng.choice([6, 8, 10]))}]
    )  # fmt: skip
    return sizes | {"parts": float(rng.choice([8, 10, 12, 15, 16, 20]))}


def _beam(rng: random.Random) -> dict[str, float]:
    span = rng.choice([rng.randrange(16, 73) * INCH, float(rng.randrange(400, 1801, 50))])
    rows = [
        {}, {"clamped": 2.0}, {"clamped": 1.0}, {"load_at": span / 2}, {"load_at": span / 2, "clamped": 2.0},
        {"load_at": span, "clamped": 1.0}, {"load_at": span / 4, "loads": 2.0},
        {"load_at": span / 4, "loads": 2.0, "read_at": span / 4},
    ]  # fmt: skip
    return {
        "span": span, "deflection": span * rng.uniform(0.0005, 0.02), "load": rng.randrange(10, 400) * 4.4482,
        **rng.choice(rows),
    }  # fmt: skip


def _ring_count(rng: random.Random) -> dict[str, float]:
    span = rng.choice([1.0, 1.5, 2.0, 3.0]) * INCH
    return {
        "wide": span + rng.choice([0.5, 1.0, 2.0]) * INCH,
        "thick": rng.choice([0.75, 1.0]) * INCH,
        "span": span,
        "rings": float(rng.randrange(6, 19) * round(span / INCH)),
    }


def _bend(rng: random.Random) -> dict[str, float]:
    """A bow or a knee of a shop: thin strips, no fewer than three; the form's radius or the one after release."""
    strips, radius = rng.choice(
        [(rng.choice([1, 1.5, 2, 3]) / 16 * INCH, rng.randrange(12, 49) / 2 * INCH),
         (rng.choice([1.5, 2.0, 3.0, 4.0]), float(rng.randrange(150, 621, 10)))]
    )  # fmt: skip
    sizes = {"laminations": float(rng.randrange(3, 11)), "thin": strips}
    sizes |= {rng.choice(["form_radius", "final"]): radius, "angle": float(rng.choice([45, 60, 90]))}
    if radius <= 12 * INCH and rng.random() < 0.4:
        sizes["angle"] = float(rng.choice([120, 180]))
    return sizes | rng.choice([{}, {}, {"trim": INCH}, {"springback": float(rng.randrange(2, 12))}])


def _levelled(rng: random.Random) -> dict[str, float]:
    """A spar blank over its sawhorses with a long level, or a short one on blocks; on some its end under a square."""
    inch, level, spans = rng.choice(
        [(INCH, 24, (48, 144)), (INCH, 28, (48, 144)), (INCH, 9, (18, 60)), (25.0, 24, (48, 144)), (25.0, 10, (20, 60))]
    )  # fmt: skip
    depth = rng.randrange(10, 25) / 4 * inch
    sizes = {"span": rng.randrange(*spans, 6) * inch, "level": level * inch, "depth": depth}
    sizes |= {"tilt": rng.randrange(2, 13) / 10, "supports": float(rng.choice([2, 2, 2, 3, 4]))}
    if rng.random() < 0.4:
        sizes["overhang"] = rng.randrange(6, 19) * inch
    if rng.random() < 0.3:
        return sizes
    sizes |= {"width": rng.choice([0.75, 1.0, 1.5, 2.0]) * inch, "out": rng.randrange(2, 15) / 10}
    return sizes | {"blade": min(rng.choice([2, 3, 4, 6]) * inch, depth)}


def _leaning(rng: random.Random) -> dict[str, float]:
    """A blank beside the bench top that leans by less than a degree, on some of a width that is told."""
    blade = rng.choice([2, 3, 4, 6]) * rng.choice([INCH, 25.0])
    sizes = {"blade": blade, "gap": blade * rng.randrange(3, 17) / 1000, "bevel": rng.randrange(2, 15) / 2}
    return sizes | {"width": 22.0} if rng.random() < 0.5 else sizes


def _straightedge(rng: random.Random) -> dict[str, float]:
    """Heights of a third or half of the base; on some the edge falls going aft, as behind the thickest part."""
    base, width = rng.choice(
        [(rng.choice([6, 7, 8]) * INCH, 0.75 * INCH), (rng.choice([150.0, 180.0, 200.0]), 19.0)]
    )
    low = base * rng.uniform(0.28, 0.38)
    high = low + base * tan(radians(rng.randrange(2, 20) / 2))
    fore, rear = (low, high) if rng.random() < 0.7 else (high, low)
    sizes = {"base": base, "fore": fore, "rear": rear}
    return sizes | {"width": width} if rng.random() < 0.5 else sizes


_SIZES: Mapping[str, Callable[[random.Random], dict[str, float]]] = {
    "spar section": _spar,
    "routed spar": _routed,
    "box spar": _box,
    "beam": _beam,
    "ring count": _ring_count,
    "bevel guide": _guide,
    "planing passes": _planing,
    "end grain": _grain,
    "spar face": _knots,
    "grain slope": _slope,
    "scarf": _scarf,
    "plywood patch": _patch,
    "slope wedge": _wedge,
    "clamp layout": _clamps,
    "cutting plan": _plan,
    "rule reading": _rule,
    "vernier reading": _vernier,
    "noise day": _noise,
    "bent lamination": _bend,
    "levelled blank": _levelled,
    "leaning blank": _leaning,
    "rib outline": _rib,
    "straightedge on a loft": _straightedge,
    "nose rib": _nose,
    "saw reach": _reach,
}
# what a lesson asks together: the rest of a figure's dimensions are shown or left out
_ASKED = {
    "spar section": (("rear",), ("drop", "rise"), ("top",), ("front",), ("blank",)),
    "routed spar": (("depth",), ("pocket",), ("rear",), ("web",), ("flange",), ()),
    "box spar": (("width",), ("between",), ("cap_width",), ("web",), ("top_cap",), ()),
    "beam": (("deflection",), ("load",), ("span",), ("load_at",), ()),
    "ring count": (("rings",), ("span",), ()),
    "bevel guide": (("thick",), ("top",), ("bottom",), ("base",), ("thin",)),
    "planing passes": (("allowance_each", "cut"), ("cut",), ("finish",), ("rough",)),
    "end grain": (("wide_after", "thick_after"), ("rings",), ("wide_after",)),
    "spar face": (("third",), ("next",), ("edge",), ()),
    "grain slope": (("rise_face",), ("rise_edge",), ("run",), ("rise_face", "rise_edge"), ()),
    "clamp layout": (("spacing", "end"), ("spacing",), ("end",), ("length",), ()),
    "scarf": (("run",), ("angle",), ("run", "angle"), ("block",), ("run", "block"), ("thickness",), ()),
    "plywood patch": (("run", "patch"), ("patch",), ("hole",), ("run",), ("skin",), ()),
    "slope wedge": (("thick",), ("thin",), ("base",), ()),
    "cutting plan": (("offcut_1",), ("offcut_1", "offcut_2"), ("offcut_4",), ("board_1",), ()),
    "rule reading": (("reading",), ()),
    "vernier reading": (("reading",), ("main", "line", "reading"), ("line",), ()),
    "bent lamination": (
        ("form_radius", "face"),
        ("stack",),
        ("spring",),
        ("final",),
        ("arc",),
        ("angle",),
        ("stack", "face"),
        ("stack", "arc"),
        (),
    ),
    "levelled blank": (
        ("rise", "packing"),
        ("packing",),
        ("rise",),
        ("gap",),
        ("out",),
        ("tilt",),
        ("packing", "gap"),
        ("span",),
        (),
    ),
    "leaning blank": (("gap",), ("blade",), ()),
    "rib outline": (
        ("front_height",),
        ("rear_height",),
        ("upper",),
        ("station", "upper"),
        ("front_depth",),
        (),
    ),
    "straightedge on a loft": (("bevel",), ("bevel",), ("rise",), ("rear",), ("fore",), ("base",), ()),
    "nose rib": (("hole", "start"), ("hole",), ("start",), ("edge",), ("height",), ("length",), ()),
    "saw reach": (("reach", "spare"), ("reach",), ("spare",), ("radius",), ("across",), ()),
    "noise day": (("allowed_1", "allowed_2", "dose"), ("time_1", "level_1", "allowed_1"), ("dose",), ()),
}
_GIVEN = {
    "spar section": ("front", "width", "top", "bottom", "rear"),
    "routed spar": ("front", "width", "web", "flange", "top", "bottom", "hole", "hole_height"),
    "box spar": ("height", "cap_width", "web", "top_cap", "bottom_cap", "hole", "hole_height"),
    "beam": ("span", "load", "load_at", "read_at", "deflection"),
    "ring count": ("span", "wide", "thick"),
    "bevel guide": ("base", "thin", "top", "bottom", "width", "thick"),
    "planing passes": ("rough", "finish", "rough_width", "finish_width", "cut"),
    "end grain": ("wide", "thick", "rings", "wide_after"),
    "spar face": ("height", "edge", "next"),
    "grain slope": ("run", "rise_face", "rise_edge", "wide", "thick"),
    "clamp layout": ("length", "thick", "caul", "spacing", "end"),
    "scarf": ("thickness", "run", "slope", "angle", "block", "past"),
    "plywood patch": ("skin", "hole", "run", "patch"),
    "slope wedge": ("base", "thin", "thick"),
    "cutting plan": ("board_1", "board_2", "board_3", "offcut_1", "offcut_2", "offcut_3"),
    "rule reading": ("reading",),
    "vernier reading": ("main", "reading"),
    "bent lamination": ("final", "thin", "angle", "form_radius", "stack"),
    "levelled blank": ("span", "apart", "overhang", "level", "rise", "depth", "width", "blade"),
    "leaning blank": ("blade", "gap"),
    "rib outline": ("chord", "front_station"),
    "straightedge on a loft": ("base", "fore", "rear"),
    "nose rib": ("length", "hole", "start", "aft"),
    "saw reach": ("throat", "along", "across", "hole"),
    "noise day": tuple(f"{what}_{step}" for step in range(1, 5) for what in ("time", "level", "allowed")),
}


def draw(name: str, seed: int) -> Case:
    rng = random.Random(f"{name} {seed}")  # noqa: S311 - draws, not secrets
    drawn = _SIZES[name](rng)
    sizes = drawn if isinstance(drawn, Sizes) else Sizes(drawn)
    true = FIGURES[name].measure(sizes)
    asked = [part for part in rng.choice(_ASKED[name]) if part in true]
    shown = [part for part in _GIVEN[name] if part in true and rng.random() < 0.85]
    hand: Hand = rng.choice(["blank", "answer"])
    shop = rng.choice([shop_inches, shop_metric])
    marks = {part: mark(name, part, true[part], "print", shop) for part in shown}
    marks |= {part: mark(name, part, true[part], hand, shop) for part in asked}
    return name, sizes, marks, rng.choice([COLUMN, WIDE])


def mark(name: str, part: str, value: float, hand: Hand, shop: Callable[[float], str]) -> Mark:
    kind = FIGURES[name].kind_of(part)
    text = f"{value:.4g}{UNITS[kind]}" if kind in UNITS else shop(value)
    return Mark(unit_of(text), "blank") if hand == "blank" else Mark(text, hand)


def unit_of(text: str) -> str:
    """The unit that a lettered size ends with, none for a plain number."""
    last = text.rsplit(maxsplit=1)[-1]
    return "°" if last.endswith("°") else "" if last[-1].isdigit() else last
