"""FAA Advisory Circular 43.13-1B (1998), chapter 1."""

import pytest

from coursepack.place import TradeFault
from coursepack.quantity import Quantity
from coursepack.shoptext import parse
from coursepack.trade import bending, gluing, joints, selection

# Table 1-2, p. 1-25: thickness in inches, plies, least radii dry across and along, soaked across and along.
TABLE_1_2 = (
    (".035", 3, "2.0", "1.1", "0.5", "0.1"),
    (".070", 3, "5.2", "3.2", "1.5", "0.4"),
    (".100", 3, "8.6", "5.2", "2.6", "0.8"),
    (".125", 3, "12", "7.1", "3.8", "1.2"),
    (".155", 3, "16", "10", "5.3", "1.8"),
    (".185", 3, "20", "13", "7.1", "2.6"),
    (".160", 5, "17", "11", "6", "2"),
    (".190", 5, "21", "14", "7", "3"),
    (".225", 5, "27", "17", "10", "4"),
    (".250", 5, "31", "20", "12", "5"),
    (".315", 5, "43", "28", "16", "7"),
    (".375", 5, "54", "36", "21", "10"),
)
COLUMNS = (("across", "dry"), ("along", "dry"), ("across", "soaked"), ("along", "soaked"))

# Table 1-1, p. 1-2: every wood has the same limit; northern white pine is eastern white pine.
TABLE_1_1 = (
    "Sitka spruce", "red spruce", "white spruce", "Douglas-fir", "noble fir", "western hemlock", "eastern white pine",
    "Port-Orford-cedar", "yellow-poplar",
)  # fmt: skip


@pytest.mark.parametrize("row", TABLE_1_2, ids=lambda row: f"{row[0]} of {row[1]}")
def test_plywood_bends_to_the_radii_of_table_1_2(row: tuple[str, int, str, str, str, str]) -> None:
    thickness, plies = parse(f"{row[0]} in"), Quantity.of(row[1])
    for (direction, state), printed in zip(COLUMNS, row[2:], strict=True):
        assert bending.plywood_bend_radius(thickness, plies, direction, state) == parse(f"{printed} in")


@pytest.mark.parametrize("species", TABLE_1_1)
def test_no_wood_of_table_1_1_may_slope_more_than_1_in_15(species: str) -> None:
    assert selection.allowed_slope(species) == parse("1:15")


@pytest.mark.parametrize(
    ("knot", "spacing"),
    [("3/8 in", "20 in"), ("3/16 in", "10 in"), ("1/8 in", "6 2/3 in"), ("1/4 in", "13 1/3 in")],
)
def test_knots_keep_20_inches_for_three_eighths_and_less_in_proportion_by_note_1c(
    knot: str, spacing: str
) -> None:
    assert selection.knot_spacing(parse(knot)) == parse(spacing)


def test_a_knot_over_three_eighths_is_not_acceptable_by_note_1c() -> None:
    with pytest.raises(TradeFault, match="a knot of 7/16 in is not acceptable; the largest is 3/8 in"):
        selection.knot_spacing(parse("7/16 in"))


@pytest.mark.parametrize(
    ("length", "width", "depth", "allowed"),
    [
        ("1 1/2 in", "1/8 in", "1/8 in", True),
        ("1 33/64 in", "1/8 in", "1/8 in", False),
        ("1 1/2 in", "9/64 in", "1/8 in", False),
        ("1 1/2 in", "1/8 in", "9/64 in", False),
    ],
)
def test_a_pitch_pocket_is_at_most_1_1_2_by_1_8_by_1_8_by_note_1e(
    length: str,
    width: str,
    depth: str,
    allowed: bool,  # noqa: FBT001 - the yes or no of the note
) -> None:
    assert selection.pocket_allowed(parse(length), parse(width), parse(depth)) is allowed


@pytest.mark.parametrize(
    ("kind", "least", "most"), [("softwood", "125 psi", "150 psi"), ("hardwood", "150 psi", "200 psi")]
)
def test_resorcinol_wants_the_pressures_of_paragraph_1_10b(kind: str, least: str, most: str) -> None:
    assert gluing.clamp_pressure(kind) == parse(least)
    assert gluing.clamp_pressure(kind, "most") == parse(most)


@pytest.mark.parametrize(("end", "force"), [("least", "1500 lbf"), ("most", "1800 lbf")])
def test_a_softwood_joint_of_3_by_4_inches_wants_1500_to_1800_pounds(end: str, force: str) -> None:
    # Worked by hand from paragraph 1-10b.
    assert gluing.clamp_force(gluing.clamp_pressure("softwood", end), parse("12 in²")) == parse(force)


@pytest.mark.parametrize(("skin", "run"), [("1/16 in", "3/4 in"), ("1/8 in", "1 1/2 in")])
def test_plywood_scarfs_run_twelve_thicknesses_by_paragraph_1_51c(skin: str, run: str) -> None:
    assert joints.scarf_length(parse(skin), parse("1:12")) == parse(run)


@pytest.mark.parametrize(
    ("part", "thicknesses"),
    [
        ("splayed hole", 15),
        ("splayed taper", 5),
        ("surface corner radius", 5),
        ("surface bevel", 4),
        ("scarf skin radius", 100),
        ("scarf hole", 25),
        ("scarf frame distance", 15),
    ],
)
def test_patches_have_the_sizes_of_paragraph_1_51(part: str, thicknesses: int) -> None:
    assert joints.patch_limits(parse("1 mm"), part) == Quantity.of(thicknesses, "mm")


def test_a_splayed_patch_is_for_skins_up_to_a_tenth_by_paragraph_1_51a() -> None:
    assert joints.patch_limits(parse("0.1 in"), "splayed hole") == parse("1.5 in")
    with pytest.raises(TradeFault, match="takes no splayed patch; the thickest is"):
        joints.patch_limits(parse("1/8 in"), "splayed hole")


def test_nails_stand_1_inch_apart_in_rows_1_2_inch_apart_by_paragraph_1_11c() -> None:
    # 12 nails a row over 12 in, 4 rows over 2 in.
    assert joints.nail_pattern(parse("2 in"), parse("12 in")) == Quantity.of(48)
