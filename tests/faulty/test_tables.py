"""A table to fill in that cannot be worked, and what its author is told."""

from collections.abc import Mapping
from pathlib import Path

import pytest

from tests.faulty.desk import Edit, after, read, sound_copy, spoil

LIKE = 'like  = "bevels/rear"\n```\n'
ONE_WIDTH = '\n```given\nwidth = { both = "1 in" }\n```\n'
PLACE = "02-guides.md:26: "  # the table block below them


def table(
    rows: str = 'top = "4 deg | 8 deg"', columns: str = '"drop"', nearest: str = '"1/64 in"', more: str = ""
) -> Edit:
    block = f'\n```table\ntitle   = "Slopes"\nrows    = {{ {rows} }}\ncolumns = [{columns}]\nnearest = {nearest}\n{more}```\n'
    return ("02-guides.md", LIKE, LIKE + ONE_WIDTH + block)


CASES: Mapping[str, tuple[Edit, list[str]]] = {
    "a table that can be worked": (table(), []),
    "rows of a name that is not given": (
        table('tops = "4 deg"'),
        [PLACE + "the rows are values of 'tops', which is not given; did you mean 'top'?"],
    ),
    "rows of two names": (
        table('top = "4 deg", width = "1 in"'),
        [
            '02-guides.md:28: the rows are those of one given number; write rows = { station = "10 % | 20 % | 30 %" }'
        ],
    ),
    "rows of another kind": (
        table('top = "4 in | 5 in"'),
        [PLACE + "'top' is an angle, but the row '4 in' is a length; give rows of the same kind"],
    ),
    "rows in one measure": (
        table('top = { inch = "4 deg" }'),
        [
            '02-guides.md:28: \'top\' needs both measures; write { inch = "…", metric = "…" } or { both = "…" }'
        ],
    ),
    "a range of rows with no value": (
        table('top = "8 deg to 4 deg by 1 deg"'),
        ["02-guides.md:28: the range 8 deg to 4 deg by 1 deg has no value; go upward, by a step above zero"],
    ),
    "more rows than fit": (
        table('top = "1 deg to 20 deg by 1/4 deg"'),
        ["02-guides.md:28: the table has more than 40 rows; make two tables of it"],
    ),
    "more columns than fit": (
        table(columns=", ".join(['"drop"'] * 8)),
        ["02-guides.md:29: the table has more than 7 columns; make two tables of it"],
    ),
    "a column that is not worked": (
        table(columns='"dorp"'),
        [PLACE + "the column 'dorp' is not worked in this exercise; did you mean 'drop'?"],
    ),
    "a column that is the same in every row": (
        table('front = "4 in | 5 in"'),
        [PLACE + "the column 'drop' is the same in every row; take it out of the table"],
    ),
    "a column that differs from set to set": (
        table(columns='"rear"'),
        [
            PLACE
            + "the column 'rear' would differ from set to set, and the key fills in one table; give the other numbers one value each"
        ],
    ),
    "a mark of another kind": (
        table(nearest='"1 deg"'),
        [PLACE + "'drop' is a length, but nearest is an angle (1 deg); ask for it in a table of its own"],
    ),
    "no mark": (
        (
            "02-guides.md",
            LIKE,
            LIKE
            + ONE_WIDTH
            + '\n```table\ntitle = "Slopes"\nrows = { top = "4 deg" }\ncolumns = ["drop"]\n```\n',
        ),
        [
            '02-guides.md:26: the table block has no \'nearest\'; add nearest = { inch = "1/64 in", metric = "0.1 mm" }'
        ],
    ),
    "an unknown key": (
        table(more='marks = "1/64 in"\n'),
        ["02-guides.md:31: the table block has no key 'marks'; known: columns, nearest, rows, title"],
    ),
    "no rows": (
        (
            "02-guides.md",
            LIKE,
            LIKE + ONE_WIDTH + table()[2].partition(ONE_WIDTH)[2].replace("rows ", "row "),
        ),
        [
            """02-guides.md:26: the table block has no 'rows'; add rows = { station = "10 % | 20 % | 30 %" }""",
            "02-guides.md:28: the table block has no key 'row'; did you mean 'rows'?",
        ],
    ),
    "what only follows from a table that cannot be read is not told": (
        (
            "02-guides.md",
            LIKE,
            LIKE
            + """
```working
drop = width * tan(top)  # The bevel takes this off.
more = 2 * drop          # Only the table asks for it.
rear = front - drop      # This is left.
```

```table
title   = "Slopes"
rows    = { top = "4 deg" }
columns = ["more"]
```
""",
        ),
        [
            '02-guides.md:28: the table block has no \'nearest\'; add nearest = { inch = "1/64 in", metric = "0.1 mm" }'
        ],
    ),
    "a table in the reading": (
        (
            "02-guides.md",
            "### Back to",
            '## Slopes\n\n```table\nrows = { top = "4 deg" }\n```\n\n### Back to',
        ),
        ["02-guides.md:15: a table block without an exercise; put an exercise block before it"],
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_bad_table_is_told_where_it_stands(tmp_path: Path, name: str) -> None:
    edit, told = CASES[name]
    assert after(tmp_path, [edit]) == [f"lessons/{line}" for line in told]


def test_a_table_is_not_taken_over_with_the_prose_of_another_exercise(tmp_path: Path) -> None:
    edit = table()
    again = '\n### Back once more\n\n```exercise\nid    = "more"\nstage = "alone"\naims  = [1]\nlike  = "again"\n```\n'
    lesson = read(spoil(sound_copy(tmp_path), (edit[0], edit[1], edit[2] + again))).lessons[1]
    assert [len(exercise.tables) for exercise in lesson.exercises] == [1, 0]
