"""What must hold in a table that the student fills in: its rows, its columns and their mark."""

from coursepack.formula import WORD, names_in
from coursepack.lesson import Exercise, StepTable
from coursepack.place import did_you_mean
from coursepack.reading.figure_checks import Known
from coursepack.reading.tables import Findings
from coursepack.units import kind_name
from coursepack.working import kind_words


def check_table(table: StepTable, exercise: Exercise, known: Known, findings: Findings) -> None:
    """Note every fault of a table."""
    given = [one.name for one in exercise.given]
    if table.given in given:
        _check_rows(table, exercise, known, findings)
        _check_columns(table, exercise, known, findings)
    elif table.given not in known.doubted:
        findings.add(
            table.place,
            f"the rows are values of '{table.given}', which is not given",
            did_you_mean(table.given, given),
        )


def _check_rows(table: StepTable, exercise: Exercise, known: Known, findings: Findings) -> None:
    wanted = known.kinds.get(table.given)
    choices = next(one.choices for one in exercise.given if one.name == table.given)
    for measure, row in table.rows.items():
        for value in row:
            kind = WORD if isinstance(value, str) else value.kind
            if wanted is not None and kind != wanted:
                message = (
                    f"'{table.given}' is {kind_words(wanted)}, but the row '{value}' is {kind_words(kind)}"
                )
                findings.add(table.place, message, "give rows of the same kind")
                return
            if kind == WORD and value not in choices[measure]:
                findings.add(
                    table.place, f"the row '{value}' is no choice of '{table.given}'", "add it there"
                )
                return


def _check_columns(table: StepTable, exercise: Exercise, known: Known, findings: Findings) -> None:
    steps = [step.name for step in exercise.steps]
    by_row = _resting_on({table.given}, exercise)
    drawn = {one.name for one in exercise.given if max(len(row) for row in one.choices.values()) > 1}
    by_set = _resting_on(drawn - {table.given}, exercise) if exercise.stage != "worked" else set()
    for name in table.columns:
        kind = known.kinds.get(name)
        unfit = [mark for mark in table.nearest.values() if kind is not None and mark.kind != kind]
        if name in known.doubted:
            continue
        if name not in steps:
            findings.add(
                table.place, f"the column '{name}' is not worked in this exercise", did_you_mean(name, steps)
            )
        elif name not in by_row:
            findings.add(
                table.place, f"the column '{name}' is the same in every row", "take it out of the table"
            )
        elif name in by_set:
            findings.add(
                table.place,
                f"the column '{name}' would differ from set to set, and the key fills in one table",
                "give the other numbers one value each",
            )
        elif unfit:
            findings.add(
                table.place,
                f"'{name}' is {kind_words(kind)}, but nearest is {kind_name(unfit[0].kind)} ({unfit[0]})",  # type: ignore[arg-type] # a step with a kind
                "ask for it in a table of its own",
            )


def _resting_on(names: set[str], exercise: Exercise) -> set[str]:
    """Return some names and every step that is worked from them."""
    found = set(names)
    for step in exercise.steps:
        if any(name.name in found for name in names_in(step.node)):
            found.add(step.name)
    return found
