"""Every figure that a lesson can ask for: what it takes, what it shows, and the true values."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from coursepack.drafting.beam import beam, beam_measure
from coursepack.drafting.bevel_guide import bevel_guide, bevel_guide_parts, guide_measure
from coursepack.drafting.board_layout import board_layout, layout_measure
from coursepack.drafting.board_rows import MOST as KINDS
from coursepack.drafting.box_spar import box_measure, box_parts, box_spar
from coursepack.drafting.clamps import clamp_layout, clamps_measure
from coursepack.drafting.grain import end_grain, grain_measure
from coursepack.drafting.knots import face_measure, spar_face
from coursepack.drafting.lamination import bend_measure, bent_lamination
from coursepack.drafting.lamination_form import lamination_parts
from coursepack.drafting.leaning import leaning_blank, leaning_measure
from coursepack.drafting.levelling import levelled_blank, levelled_measure
from coursepack.drafting.noise import MOST as STEPS
from coursepack.drafting.noise import noise_day, noise_measure
from coursepack.drafting.nose_rib import nose_rib, nose_rib_measure
from coursepack.drafting.nose_rib_template import nose_rib_parts
from coursepack.drafting.part import Part, Sizes
from coursepack.drafting.patch import patch_measure, plywood_patch
from coursepack.drafting.patch_template import patch_parts
from coursepack.drafting.planing import planing_measure, planing_passes
from coursepack.drafting.readings import rule_measure, rule_reading
from coursepack.drafting.rib import rib_measure, rib_outline
from coursepack.drafting.rib_template import rib_parts
from coursepack.drafting.ring_count import ring_count, ring_measure
from coursepack.drafting.routed_spar import routed_measure, routed_parts, routed_spar
from coursepack.drafting.saw_reach import saw_reach, saw_reach_measure
from coursepack.drafting.scarf import scarf, scarf_measure
from coursepack.drafting.sheet import Drawing, Frame, Mark
from coursepack.drafting.slope import grain_slope, slope_measure
from coursepack.drafting.spar import spar_measure, spar_parts, spar_section
from coursepack.drafting.straightedge import straightedge_measure, straightedge_on_loft
from coursepack.drafting.vernier import vernier_figure, vernier_measure
from coursepack.drafting.wedge import slope_wedge, wedge_measure, wedge_parts

Draw = Callable[[Sizes, Mapping[str, Mark], Frame], Drawing]
Measure = Callable[[Sizes], Mapping[str, float]]
Cut = Callable[[Sizes], tuple[Part, ...]]


@dataclass(frozen=True)
class Figure:
    """A figure by name.

    `takes` gives each parameter's kind (length, angle, count, airfoil …), `measure` true values in mm and
    degrees, `cut` the parts that can be printed at full size and cut out; `gives` the kinds of those
    dimensions that are neither taken nor lengths.
    """

    name: str
    draw: Draw
    takes: Mapping[str, str]
    dimensions: tuple[str, ...]
    measure: Measure
    optional: frozenset[str] = field(default=frozenset())
    cut: Cut | None = None
    gives: Mapping[str, str] = field(default_factory=dict)

    def kind_of(self, dimension: str) -> str:
        """Return the kind of a dimension, as in `takes`."""
        return self.takes.get(dimension) or self.gives.get(dimension, "length")

    @property
    def is_cut(self) -> bool:
        """Whether it has parts to cut out."""
        return self.cut is not None


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
            spar_parts,
        ),
        Figure(
            "routed spar",
            routed_spar,
            {
                **dict.fromkeys(("front", "width", "web", "flange"), "length"), "top": "angle", "bottom": "angle",
                "hole": "length", "hole_height": "length",
            },
            (
                "front", "width", "web", "flange", "depth", "pocket", "rear", "top", "bottom", "hole", "hole_height",
            ),
            routed_measure,
            frozenset({"top", "bottom", "hole", "hole_height"}),
            routed_parts,
        ),
        Figure(
            "box spar",
            box_spar,
            dict.fromkeys(
                ("cap_width", "top_cap", "bottom_cap", "height", "web", "hole", "hole_height"), "length"
            ),
            ("cap_width", "top_cap", "bottom_cap", "height", "web", "width", "between", "hole", "hole_height"),
            box_measure,
            frozenset({"hole", "hole_height"}),
            box_parts,
        ),
        Figure(
            "bevel guide",
            bevel_guide,
            {
                "width": "length", "top": "angle", "bottom": "angle", "base": "length", "thin": "length",
                "section": "airfoil", "chord": "length", "station": "length",
            },
            ("base", "thin", "thick", "width", "top", "bottom"),
            guide_measure,
            frozenset({"top", "bottom", "base", "thin", "section", "chord", "station"}),
            bevel_guide_parts,
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
                "rings": "angle", "times": "count",
            },
            ("wide", "thick", "wide_after", "thick_after", "rings"),
            grain_measure,
            frozenset({"times"}),
        ),
        Figure(
            "ring count",
            ring_count,
            {**dict.fromkeys(("wide", "thick", "span"), "length"), "rings": "count"},
            ("wide", "thick", "span", "rings"),
            ring_measure,
        ),
        Figure(
            "beam",
            beam,
            {
                **dict.fromkeys(("span", "deflection", "load_at", "read_at"), "length"), "load": "force",
                "loads": "count", "clamped": "count",
            },
            ("span", "deflection", "load", "load_at", "read_at"),
            beam_measure,
            frozenset({"load", "load_at", "read_at", "loads", "clamped"}),
        ),
        Figure(
            "spar face",
            spar_face,
            {"height": "length", "edge": "length", "next": "length", "knot": "length"},
            ("height", "edge", "next", "third"),
            face_measure,
        ),
        Figure(
            "grain slope",
            grain_slope,
            dict.fromkeys(("run", "wide", "thick", "rise_face", "rise_edge"), "length"),
            ("run", "wide", "thick", "rise_face", "rise_edge"),
            slope_measure,
        ),
        Figure(
            "scarf",
            scarf,
            dict.fromkeys(("thickness", "run", "block", "block_thick"), "length"),
            ("thickness", "run", "slope", "angle", "block", "past"),
            scarf_measure,
            frozenset({"block", "block_thick"}),
            gives={"slope": "ratio", "angle": "angle"},
        ),
        Figure(
            "plywood patch",
            plywood_patch,
            dict.fromkeys(("skin", "hole", "run"), "length"),
            ("skin", "hole", "run", "patch"),
            patch_measure,
            cut=patch_parts,
        ),
        Figure(
            "slope wedge",
            slope_wedge,
            {"base": "length", "thin": "length", "parts": "ratio"},
            ("base", "thin", "thick"),
            wedge_measure,
            cut=wedge_parts,
        ),
        Figure(
            "clamp layout",
            clamp_layout,
            {"length": "length", "thick": "length", "clamps": "count", "caul": "length"},
            ("length", "thick", "caul", "end", "spacing"),
            clamps_measure,
            frozenset({"caul"}),
        ),
        Figure(
            "bent lamination",
            bent_lamination,
            {
                "laminations": "count", "thin": "length", "form_radius": "length", "final": "length",
                "springback": "percent", "angle": "angle", "trim": "length",
            },
            ("form_radius", "face", "final", "thin", "stack", "angle", "arc", "spring"),
            bend_measure,
            frozenset({"form_radius", "final", "springback", "angle", "trim"}),
            lamination_parts,
        ),
        Figure(
            "levelled blank",
            levelled_blank,
            {
                **dict.fromkeys(("span", "level", "depth", "rise", "overhang", "width", "blade", "gap"), "length"),
                "tilt": "angle", "out": "angle", "supports": "count",
            },
            (
                "span", "apart", "overhang", "length", "level", "rise", "tilt", "packing", "depth", "width", "blade",
                "gap", "out",
            ),
            levelled_measure,
            frozenset({"rise", "tilt", "overhang", "supports", "width", "blade", "gap", "out"}),
        ),
        Figure(
            "leaning blank",
            leaning_blank,
            {**dict.fromkeys(("blade", "gap", "width"), "length"), "bevel": "angle"},
            ("blade", "gap"),
            leaning_measure,
            frozenset({"width"}),
        ),
        Figure(
            "rib outline",
            rib_outline,
            {
                "section": "airfoil", "bays": "count",
                **dict.fromkeys(
                    (
                        "chord", "capstrip", "front_station", "rear_station", "spar_width", "front_width", "rear_width",
                        "upright", "gusset", "station",
                    ),
                    "length",
                ),
            },
            (
                "chord", "front_station", "front_width", "front_height", "front_depth", "rear_station", "rear_width",
                "rear_height", "rear_depth", "station", "upper", "lower", "depth",
            ),
            rib_measure,
            frozenset(
                {
                    "capstrip", "front_station", "rear_station", "spar_width", "front_width", "rear_width", "bays",
                    "upright", "gusset", "station",
                }
            ),
            rib_parts,
        ),
        Figure(
            "straightedge on a loft",
            straightedge_on_loft,
            dict.fromkeys(("base", "fore", "rear", "width"), "length"),
            ("base", "fore", "rear", "rise", "bevel"),
            straightedge_measure,
            frozenset({"width"}),
            gives={"bevel": "angle"},
        ),
        Figure(
            "nose rib",
            nose_rib,
            {
                "section": "airfoil",
                **dict.fromkeys(
                    ("chord", "length", "hole", "aft", "middle", "start", "capstrip"), "length"
                ),
            },
            ("length", "height", "hole", "edge", "start", "aft", "middle"),
            nose_rib_measure,
            frozenset({"start", "capstrip"}),
            nose_rib_parts,
        ),
        Figure(
            "saw reach",
            saw_reach,
            dict.fromkeys(("throat", "hole", "along", "across", "blade"), "length"),
            ("throat", "along", "across", "hole", "reach", "spare", "radius"),
            saw_reach_measure,
            frozenset({"blade"}),
        ),
        Figure(
            "cutting plan",
            board_layout,
            {"plan": "plan", "kerf": "length", "trim": "length"},
            tuple(f"{part}_{number}" for number in range(1, KINDS + 1) for part in ("board", "offcut")),
            layout_measure,
        ),
        Figure("rule reading", rule_reading, {"reading": "length", "tick": "length"}, ("reading",), rule_measure),
        Figure(
            "vernier reading",
            vernier_figure,
            {"reading": "length", "step": "length", "main": "length", "line": "count"},
            ("main", "line", "reading"),
            vernier_measure,
            frozenset({"main", "line"}),
        ),
        Figure(
            "noise day",
            noise_day,
            {
                f"{what}_{step}": kind
                for step in range(1, STEPS + 1)
                for what, kind in (("time", "time"), ("level", "sound level"), ("allowed", "time"))
            },
            (*(f"{what}_{step}" for step in range(1, STEPS + 1) for what in ("time", "level", "allowed")), "dose"),
            noise_measure,
            frozenset(f"{what}_{step}" for step in range(1, STEPS + 1) for what in ("time", "level", "allowed"))
            - {"time_1", "level_1"},
            gives={"dose": "percent"},
        ),
    )
}  # fmt: skip
