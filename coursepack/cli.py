"""The command line: assemble, proof, reckon, draft."""

import argparse
import re
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from coursepack import __version__
from coursepack.place import FormulaFault, LessonFault, LessonFaults

if TYPE_CHECKING:
    from coursepack.easel import Form
    from coursepack.formula import Functions
    from coursepack.quantity import Measure

DONE, FAULTS, WRONG_USE = 0, 1, 2
_WIDEST = 400  # a longer formula is not shown with its fault


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns 0 when it is done, 1 for faults in the lessons, 2 for wrong use."""
    options = _parser().parse_args(arguments)
    command: Callable[[argparse.Namespace], int] = options.command
    try:
        return command(options)
    except LessonFaults as many:
        _report(many.faults)
    except LessonFault as fault:
        _report([fault])
    except KeyboardInterrupt:
        print("stopped; nothing was changed", file=sys.stderr)
        return 130
    except BrokenPipeError:
        return DONE
    except OSError as trouble:
        print(f"stopped ({trouble}); nothing was changed", file=sys.stderr)
    return FAULTS


def _report(faults: Sequence[LessonFault]) -> None:
    for line in dict.fromkeys(str(fault) for fault in faults):
        print(line, file=sys.stderr)
    print(_count(len({str(fault) for fault in faults})), file=sys.stderr)


def _count(faults: int) -> str:
    return f"{faults} fault{'s' if faults != 1 else ''}"


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="coursepack",
        description="Prepares a woodworking-for-aircraft shop class: sheets, figures and keys from lesson sources.",
        epilog="Exit status: 0 done, 1 faults in lessons, terms, figures or formulas, 2 wrong use of the options.",
    )
    parser.add_argument("--version", action="version", version=f"coursepack {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    _assemble_options(
        _command(
            commands,
            "assemble",
            _assemble,
            "print the sheets and keys of a term",
            "coursepack assemble demo --lesson 2 --bench 7",
        )
    )
    _folders(
        _command(
            commands,
            "proof",
            _proof,
            "check every lesson and try many draws, without printing",
            "coursepack proof",
        )
    )
    _reckon_options(
        _command(
            commands,
            "reckon",
            _reckon,
            "work formulas as the lessons do",
            """coursepack reckon '"3/4 in" * tan("8 deg")' --unit mm""",
        )
    )
    _draft_options(
        _command(
            commands,
            "draft",
            _draft,
            "draw one figure by itself, or its parts at full size",
            """coursepack draft 'spar section' front='4 1/2 in' width='3/4 in' top='-8 deg' bottom='2 deg' -o spar.svg""",
        )
    )
    return parser


def _command(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]",
    name: str,
    run: Callable[[argparse.Namespace], int],
    says: str,
    example: str,
) -> argparse.ArgumentParser:
    command = commands.add_parser(
        name, help=says, description=says[0].upper() + says[1:] + ".", epilog=f"Example: {example}"
    )
    command.set_defaults(command=run)
    return command


def _folders(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--lessons",
        type=Path,
        default=Path("lessons"),
        metavar="FOLDER",
        help="the folder with course.toml (default: lessons)",
    )


def _assemble_options(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "term", nargs="?", default="demo", metavar="TERM", help="a file in lessons/terms (default: demo)"
    )
    _folders(command)
    command.add_argument(
        "--build",
        type=Path,
        default=Path("build"),
        metavar="FOLDER",
        help="where the sheets go (default: build)",
    )
    command.add_argument(
        "--lesson",
        type=int,
        action="append",
        default=[],
        metavar="N",
        help="only the lesson of this number; may be repeated",
    )
    command.add_argument(
        "--bench",
        type=int,
        action="append",
        default=[],
        metavar="N",
        help="also a file of its own for this bench; may be repeated",
    )
    command.add_argument(
        "--workers",
        type=int,
        default=None,
        metavar="N",
        help="how many processes print (default: one a processor, up to 4)",
    )


def _assemble(options: argparse.Namespace) -> int:
    from coursepack.press.room import Press

    if options.workers is not None and not 1 <= options.workers <= 32:
        return _wrong_use("--workers goes from 1 to 32")
    with Press(options.workers) as press:
        return _assemble_with(press, options)


def _assemble_with(press: object, options: argparse.Namespace) -> int:
    from coursepack.assemble import Order, assemble
    from coursepack.drafting.catalogue import FIGURES
    from coursepack.press.room import Press
    from coursepack.reading.course import read_course, read_term

    assert isinstance(press, Press)  # noqa: S101 - tells the type checker
    course = read_course(options.lessons, _functions(), FIGURES)
    term = read_term(options.lessons, options.term, course)
    if unknown := set(options.lesson) - {lesson.number for lesson in course.lessons}:
        return _wrong_use(f"there is no lesson {min(unknown)}")
    if any(not 1 <= bench <= term.benches for bench in options.bench):
        return _wrong_use(f"benches go from 1 to {term.benches}")
    order = Order(tuple(options.lesson), tuple(options.bench), options.workers)
    paths = assemble(
        course,
        term,
        options.lessons,
        options.build,
        order,
        press,
        lambda name: print(f"  {name}", flush=True),
    )
    home = options.build / term.name
    print(
        f"{len(paths)} sheet{'s' if len(paths) != 1 else ''} printed in {home}"
        if paths
        else f"nothing has changed; the sheets in {home} stand"
    )
    return DONE


def _proof(options: argparse.Namespace) -> int:
    from coursepack.drafting.catalogue import FIGURES
    from coursepack.pages.signs import signs_lacking
    from coursepack.proof import DRAWS, prove
    from coursepack.reading.course import read_course
    from coursepack.reading.plainness import plainness

    course = read_course(options.lessons, _functions(), FIGURES)
    for lesson in course.lessons:
        report = plainness(lesson)
        print(f"{lesson.number} {lesson.title}: reading grade {report.grade:.1f}")
        for place, note in report.notes:
            print(f"  note: {place}: {note}")
    faults = [fault for lesson in course.lessons for fault in signs_lacking(lesson)]
    for exercise, measure, found in prove(course):
        told = _count(len(found)) if found else "sound"
        print(f"  {exercise.lesson}/{exercise.id} in {measure}: {told}", flush=True)
        faults += found
    if faults:
        raise LessonFaults(faults)
    print(f"all lessons are sound; up to {DRAWS} draws of each exercise tried in inch and metric")
    return DONE


def _functions() -> "Functions":
    from coursepack.trade.catalogue import FUNCTIONS

    return FUNCTIONS


def _reckon_options(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "formula", nargs="*", metavar="FORMULA", help="a formula, or - for one a line on standard input"
    )
    command.add_argument("--unit", metavar="UNIT", help="give the answer in this unit")
    command.add_argument("--exact", action="store_true", help="give the unrounded decimal")
    command.add_argument(
        "--list", action="store_true", help="show every function, what it takes, an example and its source"
    )


def _reckon(options: argparse.Namespace) -> int:
    if options.list:
        from coursepack.listing import listing

        print(listing(_functions()))
        return DONE
    if not options.formula:
        return _wrong_use("give a formula, or --list for the functions")
    results = [_reckon_one(text, options) for text in _formulas(options.formula)]
    return DONE if all(results) else FAULTS


def _formulas(given: Sequence[str]) -> list[str]:
    lines: list[str] = []
    for text in given:
        lines += [line.strip("\r\n") for line in sys.stdin if line.strip()] if text == "-" else [text]
    return lines


def _reckon_one(text: str, options: argparse.Namespace) -> bool:
    from coursepack.formulatext import read
    from coursepack.listing import answer
    from coursepack.quantity import Quantity
    from coursepack.working import kind_in, work

    try:
        formula = read(text, _functions())
        kind_in(formula, {})
        value = work(formula, {})
        if isinstance(value, Quantity) and options.unit:
            value = value.to(options.unit)
        print(answer(value, unrounded=options.exact))
    except LessonFault as fault:
        _point_at(text, fault)
        return False
    return True


def _draft_options(command: argparse.ArgumentParser) -> None:
    command.add_argument("name", nargs="?", metavar="NAME", help="a figure")
    command.add_argument(
        "sizes", nargs="*", metavar="KEY=VALUE", help="a size, or a formula over those before it"
    )
    command.add_argument("--list", action="store_true", help="show every figure and what it takes")
    command.add_argument("--show", metavar="NAMES", help="only these dimensions, with commas between")
    command.add_argument(
        "--scale", default="", metavar="A:B", help="a scale (default: the largest that fits)"
    )
    command.add_argument("--metric", action="store_true", help="letter derived sizes in millimetres")
    command.add_argument(
        "--full-size", action="store_true", help="its parts at full size, as sheets in a PDF"
    )
    command.add_argument(
        "--cut", action="store_true", help="its parts for a machine, as plain SVG in millimetres"
    )
    command.add_argument("--paper", choices=("letter", "A4"), default="letter", help="of full-size sheets")
    command.add_argument("-o", "--output", type=Path, metavar="FILE", help="ends in .svg, .pdf or .png")


def _draft(options: argparse.Namespace) -> int:
    from coursepack.easel import FORMATS, Order, drawn
    from coursepack.filing import put_one

    if options.list:
        return _list_figures()
    if not options.name or not options.output:
        return _wrong_use("give a figure and a file (-o FILE), or --list for the figures")
    pairs = [pair.partition("=") for pair in options.sizes]
    if odd := [name for name, sign, _ in pairs if not sign]:
        return _wrong_use(f"'{odd[0]}' is no KEY=VALUE")
    form: Form = "cut" if options.cut else "full size" if options.full_size else "figure"
    if options.output.suffix not in FORMATS[form]:
        return _wrong_use(f"such a file ends in {' or '.join(FORMATS[form])}")
    if options.scale and not re.fullmatch(r"[1-9][0-9]?:[1-9][0-9]?", options.scale):
        return _wrong_use(f"'{options.scale}' is not a scale; write one such as 1:2")
    show = tuple(options.show.split(",")) if options.show else None
    measure: Measure = "metric" if options.metric else "inch"
    sizes = {name: text for name, _, text in pairs}
    order = Order(options.name, sizes, form, show, options.scale, measure, options.paper)
    put_one(options.output, drawn(order, options.output.suffix))
    print(options.output)
    return DONE


def _list_figures() -> int:
    from coursepack.drafting.catalogue import FIGURES
    from coursepack.listing import figure_listing

    print(figure_listing(FIGURES))
    return DONE


def _point_at(text: str, fault: LessonFault) -> None:
    """Show the formula with a pointer under the character that is at fault."""
    column = fault.column if isinstance(fault, FormulaFault) else -1
    if 0 <= column <= len(text) <= _WIDEST:
        print(f"  {text}\n  {' ' * column}^", file=sys.stderr)
    print(str(fault), file=sys.stderr)


def _wrong_use(message: str) -> int:
    print(f"coursepack: {message}", file=sys.stderr)
    return WRONG_USE
