"""The commands as a user types them: what they print, where they point, and how they leave."""

import subprocess
import sys

import pytest

from coursepack.cli import DONE, FAULTS, WRONG_USE, main
from coursepack.trade.catalogue import FUNCTIONS

COMMANDS = ("assemble", "proof", "reckon")


def leaves_with(*arguments: str) -> int:
    try:
        return main(arguments)
    except SystemExit as leaving:
        return int(leaving.code or 0)


# tan 8° = 0.1405408347 in any table of tangents; times 3/4 in, and times 25.4
@pytest.mark.parametrize(
    ("arguments", "printed"),
    [
        (['"3/4 in" * tan("8 deg")'], "0.1054 in"),
        (['"3/4 in" * tan("8 deg")', "--unit", "mm"], "2.677 mm"),
        (['"3/4 in" * tan("8 deg")', "--exact"], "0.105405626026794 in"),
        (["1 + 1"], "2"), (['"1 3/8 in" + "25.4 mm"'], "2 3/8 in"), (['"1 3/8 in"', "--exact"], "1.375 in"),
        (['"6 ft 3 in"', "--unit", "ft"], "6 1/4 ft"), (['"70 °F"', "--unit", "°C"], "21.11 °C"),
        (["-5 + 3"], "-2"), (["3 > 2"], "yes"), (["3 < 2"], "no"), (['nearest("4.34 in", "1/64 in")'], "4 11/32 in"),
        (['"1:15"'], "1:15"), (['"1:15"', "--exact"], "0.0666666666666667"), (["'Sitka spruce'"], "Sitka spruce"),
    ],
)  # fmt: skip
def test_reckon_prints_an_answer_in_shop_style(
    arguments: list[str], printed: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert leaves_with("reckon", *arguments) == DONE
    assert capsys.readouterr() == (f"{printed}\n", "")


def test_reckon_works_several_formulas_in_order(capsys: pytest.CaptureFixture[str]) -> None:
    assert leaves_with("reckon", "1 + 1", '"1 in" * 2', "3") == DONE
    assert capsys.readouterr().out == "2\n2 in\n3\n"


def test_reckon_takes_one_formula_a_line_from_standard_input() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "coursepack", "reckon", "1", "-"],
        input='2 + 2\n\n"3 in" +\n"5 in" / 2\n', capture_output=True, text=True, check=False, timeout=60,
    )  # fmt: skip
    assert done.returncode == FAULTS
    assert done.stdout == "1\n4\n2 1/2 in\n"
    assert done.stderr.splitlines() == [
        '  "3 in" +',
        "          ^",
        "the formula cannot be read here; check brackets and signs",
    ]


POINTERS = [
    ('"3 in" + "4 deg"', 9, "an angle cannot be added to a length"),
    ('"½ in" + foo(3)', 9, "there is no function 'foo'; known: "),
    ("1 + front.real", 4, "this does not belong in a formula; use names, numbers, quoted quantities, + - * / ** and functions"),
    ("9**9**9", 3, "a power is a plain number, not a name or a sum; write one such as x ** 2"),
    ("1 + 3 @ 4", 4, "this sign is not in the formula language; use + - * / **"),
    ('"70 °F" * 2', 10, "a temperature in °F or °C can be compared, but not added or multiplied"),
    ('noise_dose([["2 h"]])', 11, "noise_dose: exposures is a list of rows of a time, a sound level"),
    ("area(naca(2412))", 5, "area: section is a section, not an airfoil"),
    ('"4 in" if 1 < 2 else "5 lb"', 0, "one side is a length, the other a weight"),
    ("__import__('os')", 0, "there is no function '__import__'; known: "),
    ("wdth * 2", 0, "'wdth' is not known here"),
    ("tann('8 deg')", 0, "there is no function 'tann'; did you mean 'tan'?"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "column", "told"), POINTERS)
def test_a_bad_formula_gets_a_pointer_to_the_character(
    text: str, column: int, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert leaves_with("reckon", text) == FAULTS
    shown, pointer, message = capsys.readouterr().err.splitlines()
    assert (shown, pointer) == (f"  {text}", "  " + " " * column + "^")
    assert message.startswith(told)


@pytest.mark.parametrize("text", ["(" * 10_000 + "1" + ")" * 10_000, "1+" * 30_000 + "1"])
def test_a_formula_of_monstrous_size_is_told_in_one_line(
    text: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert leaves_with("reckon", text) == FAULTS
    assert capsys.readouterr().err == "the formula has more than 400 characters; split it into steps\n"


def test_an_answer_in_a_unit_that_does_not_fit_is_a_fault(capsys: pytest.CaptureFixture[str]) -> None:
    assert leaves_with("reckon", '"3 in"', "--unit", "deg") == FAULTS
    assert leaves_with("reckon", '"3 in"', "--unit", "parsec") == FAULTS
    assert capsys.readouterr().err.splitlines() == [
        "3 in is a length, not an angle",
        "'parsec' is not a unit; write in, ft, mm, deg, %, psi, rpm or another shop unit",
    ]


@pytest.mark.parametrize("function", sorted(FUNCTIONS))
def test_reckon_works_the_example_of_every_function(
    function: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert leaves_with("reckon", FUNCTIONS[function].example) == DONE
    assert capsys.readouterr().out.strip()


@pytest.mark.parametrize(
    "arguments",
    [[], ["nosuch"], ["reckon"], ["reckon", "1", "--unit"], ["proof", "--nosuch"], ["assemble", "--lesson", "two"], ["assemble", "--workers", "0"], ["assemble", "--workers", "99"]],
)  # fmt: skip
def test_wrong_use_leaves_with_2(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert leaves_with(*arguments) == WRONG_USE
    assert capsys.readouterr().err.startswith(("usage: coursepack", "coursepack: "))


@pytest.mark.parametrize("command", COMMANDS)
def test_the_help_of_every_command_shows_an_example(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert leaves_with(command, "--help") == DONE
    assert f"Example: coursepack {command}" in capsys.readouterr().out


def test_the_help_names_every_command_and_what_the_exit_means(capsys: pytest.CaptureFixture[str]) -> None:
    assert leaves_with("--help") == DONE
    said = " ".join(capsys.readouterr().out.split())
    assert all(f" {command} " in said for command in COMMANDS)
    assert (
        "Exit status: 0 done, 1 faults in lessons, terms, figures or formulas, 2 wrong use of the options."
        in said
    )


def test_a_course_that_is_not_there_is_told_with_its_place(capsys: pytest.CaptureFixture[str]) -> None:
    assert leaves_with("proof", "--lessons", "/nonexistent") == FAULTS
    assert (
        "nonexistent/course.toml: the file cannot be read (No such file or directory)"
        in capsys.readouterr().err
    )
