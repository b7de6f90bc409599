"""One figure by itself: in Python, and as a file from the command line."""

from pathlib import Path

import pytest

from coursepack.cli import DONE, FAULTS, WRONG_USE, main
from coursepack.figure import figure, parts
from coursepack.place import LessonFault
from coursepack.quantity import Quantity
from tests.drafting.measuring import measured

INCH = 25.4
SPAR = {"front": "4 1/2 in", "width": "3/4 in", "top": "-8 deg", "bottom": "2 deg"}
ARGUMENTS = ["draft", "spar section", *(f"{name}={text}" for name, text in SPAR.items())]


def test_a_figure_shows_what_its_sizes_give_with_derived_ones_at_a_rule_mark() -> None:
    drawing = figure("spar section", **SPAR)  # type: ignore[arg-type] # the names are sizes
    texts = {label.of: label.text for label in drawing.labels if label.of}
    assert texts["front"] == "4\u202f1⁄2\u00a0in"
    assert texts["top"] == "8°"
    # 4.5 - 0.75 × (tan 8° + tan 2°) = 4.3684 in
    assert texts["rear"] == "4\u202f3⁄8\u00a0in"
    assert measured(drawing, "front") == pytest.approx(4.5 * INCH)


def test_a_size_may_be_a_formula_over_those_before_it_or_a_quantity() -> None:
    drawing = figure(
        "spar section", half="2 1/4 in", front="2 * half", width=Quantity.of(20, "mm"), top="-8 deg", bottom="0 deg",
        show=("front", "rear"), scale="1:2", measure="metric",
    )  # fmt: skip
    assert drawing.scale_text == "1:2"
    assert {label.of for label in drawing.labels} == {"front", "rear", ""}
    assert measured(drawing, "front") == pytest.approx(4.5 * INCH)
    # 114.3 - 20 × tan 8° = 111.489 mm
    assert next(label.text for label in drawing.labels if label.of == "rear") == "111.5\u00a0mm"


FAULTY = [
    ("tail cone", SPAR, "there is no figure 'tail cone'"),
    ("spar section", {**SPAR, "widht": "1 in"}, "the figure 'spar section' takes no 'widht'; did you mean 'width'?"),
    ("spar section", {"front": "4 in", "width": "1 in"}, "the figure 'spar section' needs top, bottom; give top=…"),
    ("spar section", {**SPAR, "front": "4 1/2 inn"}, "'4 1/2 inn': 'inn' is not a unit; write in, ft, mm"),
    ("spar section", {**SPAR, "front": "twice(4)"}, "there is no function 'twice'"),
    ("spar section", {**SPAR, "top": "8 in"}, "'top' is 8 in, not angle; give one such as 3 deg"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "sizes", "told"), FAULTY)
def test_what_a_figure_cannot_draw_is_a_fault_that_says_what_it_takes(
    name: str, sizes: dict[str, str], told: str
) -> None:
    with pytest.raises(LessonFault) as caught:
        figure(name, **sizes)  # type: ignore[arg-type]
    assert str(caught.value).startswith(told)


def test_a_dimension_that_it_does_not_have_is_a_fault() -> None:
    with pytest.raises(LessonFault, match="the figure has no dimension 'heigth'"):
        figure("spar section", show=["heigth"], **SPAR)  # type: ignore[arg-type]


def test_a_figure_with_nothing_to_cut_out_has_no_parts() -> None:
    with pytest.raises(LessonFault, match="the figure 'end grain' has no part to cut out; take one of"):
        parts("end grain", {})


@pytest.mark.parametrize(
    ("file", "options", "begins"),
    [
        ("spar.svg", [], b"<svg xmlns"), ("spar.png", [], b"\x89PNG"), ("spar.pdf", [], b"%PDF-"),
        ("cut.svg", ["--cut"], b"<svg xmlns"), ("sheets.pdf", ["--full-size", "--paper", "A4"], b"%PDF-"),
    ],
)  # fmt: skip
def test_draft_writes_the_file_that_its_name_asks_for(
    tmp_path: Path, file: str, options: list[str], begins: bytes, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / file
    assert main([*ARGUMENTS, *options, "-o", str(path)]) == DONE
    first = path.read_bytes()
    assert first.startswith(begins)
    assert main([*ARGUMENTS, *options, "-o", str(path)]) == DONE
    assert path.read_bytes() == first, "the same order gives the same bytes"
    assert capsys.readouterr().out == f"{path}\n" * 2
    assert [found.name for found in tmp_path.iterdir()] == [file]


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        ([*ARGUMENTS, "-o", "spar.gif"], "such a file ends in .svg or .pdf or .png"),
        ([*ARGUMENTS, "--cut", "-o", "spar.pdf"], "such a file ends in .svg"),
        ([*ARGUMENTS, "--scale", "half", "-o", "spar.svg"], "'half' is not a scale; write one such as 1:2"),
        ([*ARGUMENTS, "front", "-o", "spar.svg"], "'front' is no KEY=VALUE"),
    ],
)
def test_wrong_use_of_draft_is_told_and_writes_nothing(
    arguments: list[str], told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    assert main(arguments) == WRONG_USE
    assert told in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_a_folder_that_is_not_there_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*ARGUMENTS, "-o", str(tmp_path / "none" / "spar.svg")]) == FAULTS
    assert "No such file or directory" in capsys.readouterr().err
