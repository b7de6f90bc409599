"""Every figure that a lesson can ask for: what it takes, what it shows, and the true values."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from coursepack.drafting.grain import end_grain, grain_measure
from coursepack.drafting.planing import planing_measure, planing_passes
from coursepack.drafting.sheet import Drawing, Frame, Mark
from coursepack.drafting.spar import spar_measure, spar_section

Draw = Callable[[Mapping[str, float], Mapping[str, Mark], Frame], Drawing]
Measure = Callable[[Mapping[str, float]], Mapping[str, float]]


@dataclass(frozen=True)
class Figure:
    """A figure by name.

    `takes` gives each parameter's kind (length, angle, count), `measure` true values in mm and degrees.
    """

    name: str
    draw: Draw
    takes: Mapping[str, str]
    dimensions: tuple[str, ...]
    measure: Measure
    optional: frozenset[str] = field(default=frozenset())


FIGURES: dict[str, Figure] = {
    figure.name: figure
    for figure in (
        Figure(
            "spar section",
            spar_section,
            {"front": "length", "width": "length", "top": "angle", "bottom": "angle", "blank": "length"},
            ("front", "width", "top", "bottom", "rear", "blank", "drop", "rise"),
            spar_measure,
            frozenset({"blank"}),
        ),
        Figure(
            "planing passes",
            planing_passes,
            {
                "rough": "length", "finish": "length", "rough_width": "length", "finish_width": "length",
                "passes_top": "count", "passes_bottom": "count",
            },
            ("rough", "finish", "rough_width", "finish_width", "allowance_each", "cut"),
            planing_measure,
            frozenset({"rough_width", "finish_width", "passes_top", "passes_bottom"}),
        ),
        Figure(
            "end grain",
            end_grain,
            {
                "wide": "length", "thick": "length", "wide_after": "length", "thick_after": "length",
                "rings": "angle",
            },
            ("wide", "thick", "wide_after", "thick_after", "rings"),
            grain_measure,
        ),
    )
}  # fmt: skip
