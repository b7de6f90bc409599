"""Random exercises for the figures: sizes as a term would draw them, lettered in inch or metric."""

import random
from collections.abc import Callable, Mapping
from fractions import Fraction
from math import radians, tan

from coursepack.drafting.catalogue import FIGURES
from coursepack.drafting.sheet import Frame, Hand, Mark
from coursepack.quantity import Quantity, printed

INCH = 25.4
COLUMN, WIDE = Frame(58, 190), Frame(118, 190)

Case = tuple[str, dict[str, float], dict[str, Mark], Frame]


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


_SIZES: Mapping[str, Callable[[random.Random], dict[str, float]]] = {
    "spar section": _spar,
    "planing passes": _planing,
    "end grain": _grain,
}
# what a lesson asks together: the rest of a figure's dimensions are shown or left out
_ASKED = {
    "spar section": (("rear",), ("drop", "rise"), ("top",), ("front",), ("blank",)),
    "planing passes": (("allowance_each", "cut"), ("cut",), ("finish",), ("rough",)),
    "end grain": (("wide_after", "thick_after"), ("rings",), ("wide_after",)),
}
_GIVEN = {
    "spar section": ("front", "width", "top", "bottom", "rear"),
    "planing passes": ("rough", "finish", "rough_width", "finish_width", "cut"),
    "end grain": ("wide", "thick", "rings", "wide_after"),
}


def draw(name: str, seed: int) -> Case:
    rng = random.Random(f"{name} {seed}")  # noqa: S311 - draws, not secrets
    sizes = _SIZES[name](rng)
    true = FIGURES[name].measure(sizes)
    asked = [part for part in rng.choice(_ASKED[name]) if part in true]
    shown = [part for part in _GIVEN[name] if part in true and rng.random() < 0.85]
    hand: Hand = rng.choice(["blank", "answer"])
    shop = rng.choice([shop_inches, shop_metric])
    marks = {part: mark(name, part, true[part], "print", shop) for part in shown}
    marks |= {part: mark(name, part, true[part], hand, shop) for part in asked}
    return name, sizes, marks, rng.choice([COLUMN, WIDE])


def mark(name: str, part: str, value: float, hand: Hand, shop: Callable[[float], str]) -> Mark:
    angle = FIGURES[name].takes.get(part) == "angle"
    text = f"{value:g}°" if angle else shop(value)
    if hand == "blank":
        return Mark("°" if angle else text.split()[-1], "blank")
    return Mark(text, hand)
