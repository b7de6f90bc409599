"""One bad place in a sound lesson, and the one line (or more) that its author is told."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.faulty.desk import Edit, after

LESSON, GUIDES = "01-bevels.md", "02-guides.md"
VERDICT = 'write verdict = { passes = "rise <= 1", rejected = "rise > 1" }'


class Case(NamedTuple):
    edits: Sequence[Edit]
    told: Sequence[str]


CASES: Mapping[str, Case] = {
    "an unknown block": Case(
        [(LESSON, "```working", "```workings")],
        ["01-bevels.md:38: there is no block 'workings'; did you mean 'working'?"],
    ),
    "an unknown key of a lesson": Case(
        [(LESSON, "minutes   =", "minuets   =")],
        [
            "01-bevels.md:3: the lesson block has no 'minutes'; add minutes = 1",
            "01-bevels.md:5: the lesson block has no key 'minuets'; did you mean 'minutes'?",
        ],
    ),
    "an unknown key of an exercise": Case(
        [(LESSON, 'stage = "worked"\naims', 'stage = "worked"\nlook = 3\naims')],
        [
            "01-bevels.md:26: the exercise block has no key 'look'; known: aims, fade, id, like, marks, stage, verdict"
        ],
    ),
    "a verdict that leaves no choice": Case(
        [(GUIDES, 'stage = "alone"', 'stage = "alone"\nverdict = { passes = "rear > front / 2" }')],
        [f"02-guides.md:18: one verdict leaves no choice; {VERDICT}"],
    ),
    "verdicts that do not fit on a line": Case(
        [
            (
                GUIDES,
                'stage = "alone"',
                f'stage = "alone"\nverdict = {{ low = "rear < front", {"h" * 60} = "rear >= front" }}',
            )
        ],
        ["02-guides.md:18: the words to circle take more than 50 characters; choose shorter ones"],
    ),
    "a verdict without a comparison": Case(
        [(GUIDES, 'stage = "alone"', 'stage = "alone"\nverdict = { low = "rear < front", high = true }')],
        [f"02-guides.md:18: the verdict 'high' has no comparison; {VERDICT}"],
    ),
    "a verdict by a quantity": Case(
        [(GUIDES, 'stage = "alone"', 'stage = "alone"\nverdict = { low = "rear < front", high = "rear" }')],
        ["02-guides.md:18: 'rear' is not a comparison; write one such as rear >= front / 2"],
    ),
    "a verdict by a name that is not known": Case(
        [
            (
                GUIDES,
                'stage = "alone"',
                'stage = "alone"\nverdict = { low = "rear < front", high = "rare > front" }',
            )
        ],
        [
            "02-guides.md:18: 'rare' is not known here (at character 1, “rare > front”); known: drop, front, rear, top, width"
        ],
    ),
    "a verdict in a worked exercise": Case(
        [
            (
                LESSON,
                'stage = "worked"',
                'stage = "worked"\nverdict = { low = "rear < front", high = "rear >= front" }',
            )
        ],
        [
            "01-bevels.md:23: a worked exercise has no line for a verdict; say it in the prose, or make the exercise faded or alone"
        ],
    ),
    "an unknown key of a given": Case(
        [(LESSON, 'metric = "20 mm", means', 'metrik = "20 mm", means')],
        [
            "01-bevels.md:31: 'width' has no key 'metrik'; did you mean 'metric'?",
            '01-bevels.md:31: \'width\' needs both measures; write { inch = "…", metric = "…" } or { both = "…" }',
        ],
    ),
    "an inch size for a metric class": Case(
        [(LESSON, 'metric = "20 mm", means', 'metric = "20 in", means')],
        ["01-bevels.md:31: '20 in' stands under 'metric'; give it in a unit of that measure"],
    ),
    "a metric size among those of an inch class": Case(
        [(LESSON, 'inch = "3/4 in | 1 in", metric', 'inch = "3/4 in | 1 mm", metric')],
        ["01-bevels.md:31: '1 mm' stands under 'inch'; give it in a unit of that measure"],
    ),
    "a tolerance of the other measure": Case(
        [(LESSON, 'within  = "1/64 in"', 'within  = { inch = "1 mm", metric = "1 mm" }')],
        ["01-bevels.md:47: '1 mm' stands under 'inch'; give it in a unit of that measure"],
    ),
    "an unknown key of a find": Case(
        [(LESSON, "[rear.slips.added]", 'units = "in"\n[rear.slips.added]')],
        ["01-bevels.md:48: [rear] has no key 'units'; known: ask, nearest, slips, within"],
    ),
    "an unknown key of a slip": Case(
        [(LESSON, 'say = "The drop was added."', 'says = "The drop was added."')],
        [
            "01-bevels.md:48: the slip 'added' has no 'say'; add say = \"…\"",
            "01-bevels.md:50: the slip 'added' has no key 'says'; did you mean 'say'?",
        ],
    ),
    "an unknown key of a figure": Case(
        [(LESSON, 'ask  = ["rear"]', 'ask  = ["rear"]\ncolour = "red"')],
        ["01-bevels.md:57: the figure block has no key 'colour'; known: ask, draw, scale, show, wide, with"],
    ),
    "a wide figure that is neither true nor false": Case(
        [(LESSON, 'ask  = ["rear"]', 'ask  = ["rear"]\nwide = "yes"')],
        ["01-bevels.md:57: 'wide' is not true or false; write wide = true"],
    ),
    "a material for a figure that is not cut out": Case(
        [(LESSON, 'ask  = ["rear"]', 'ask  = ["rear"]\nmaterial = "card"')],
        [
            "01-bevels.md:57: the figure block has no key 'material'; known: ask, draw, scale, show, wide, with"
        ],
    ),
    "an unknown key of an aim": Case(
        [(LESSON, 'given = "a blank"', 'gives = "a blank"')],
        [
            "01-bevels.md:13: an aim has no 'given'; add given = \"…\"",
            "01-bevels.md:13: an aim has no key 'gives'; did you mean 'given'?",
        ],
    ),
    "an unknown name": Case(
        [(LESSON, "front - drop ", "front - drob ")],
        ["01-bevels.md:40: 'drob' is not known here (at character 9, “drob”); did you mean 'drop'?"],
    ),
    "an unknown name in prose": Case(
        [(LESSON, "{width}", "{widht}")],
        ["01-bevels.md:36: '{widht}' is not known here; did you mean 'width'?"],
    ),
    "an unknown name in a slip": Case(
        [(LESSON, '"front + drop"', '"front + dropp"')],
        ["01-bevels.md:49: 'dropp' is not known here; did you mean 'drop'?"],
    ),
    "an unknown function": Case(
        [(LESSON, "tan(top)", "tann(top)")],
        ["01-bevels.md:39: there is no function 'tann' (at character 9, “tann(top)”); did you mean 'tan'?"],
    ),
    "an unknown unit": Case(
        [(LESSON, 'both = "8 deg"', 'both = "8 degs"')],
        [
            "01-bevels.md:32: '8 degs': 'degs' is not a unit; write in, ft, mm, deg, %, psi, rpm or another shop unit"
        ],
    ),
    "an unknown unit in a formula": Case(
        [(LESSON, "front - drop ", 'front - "1 parsec" ')],
        [
            "01-bevels.md:40: '1 parsec': 'parsec' is not a unit (at character 9, “\"1 parsec\"”); write in, ft, mm, deg, %, psi, rpm or another shop unit"
        ],
    ),
    "an unknown figure": Case(
        [(LESSON, '"spar section"', '"spar sektion"')],
        ["01-bevels.md:53: there is no figure 'spar sektion'; did you mean 'spar section'?"],
    ),
    "an unknown size of a figure": Case(
        [(LESSON, 'top = "-top"', 'tip = "-top"')],
        ["01-bevels.md:53: the figure takes no 'tip'; did you mean 'top'?"],
    ),
    "an unknown dimension of a figure": Case(
        [(LESSON, '"front", "width", "top"]', '"front", "widht", "top"]')],
        ["01-bevels.md:53: the figure has no dimension 'widht'; did you mean 'width'?"],
    ),
    "an unknown machine": Case(
        [(LESSON, '["band saw"]', '["bandsaw"]')],
        ["01-bevels.md:6: the course has no machine 'bandsaw'; did you mean 'band saw'?"],
    ),
    "an unknown stage": Case(
        [(LESSON, '"worked"', '"worked out"')],
        ["01-bevels.md:25: 'stage' cannot be 'worked out'; did you mean 'worked'?"],
    ),
    "a name before it is given": Case(
        [
            (
                LESSON,
                "drop = width * tan(top)  # The bevel takes this off.\nrear = front - drop      # This is left.",
                "rear = front - drop      # This is left.\ndrop = width * tan(top)  # The bevel takes this off.",
            )
        ],
        ["01-bevels.md:39: 'drop' is used before it is worked (at character 9, “drop”); move its step up"],
    ),
    "inches added to degrees": Case(
        [(LESSON, "front - drop ", "front - top ")],
        ["01-bevels.md:40: an angle cannot be taken from a length (at character 9, “top”)"],
    ),
    "an answer in the wrong dimension": Case(
        [(LESSON, 'within  = "1/64 in"', 'within  = "1 deg"')],
        ["01-bevels.md:44: 'rear' is a length, but within is an angle (1 deg); ask in a unit that fits"],
    ),
    "a slip in the wrong dimension": Case(
        [(LESSON, '"front + drop"', '"front * drop"')],
        ["01-bevels.md:49: the slip 'added' is an area, the answer a length"],
    ),
    "inches compared with degrees": Case(
        [(LESSON, '"rear > front / 2"', '"rear > top"')],
        ["01-bevels.md:33: a length cannot be compared with an angle (at character 1, “rear > top”)"],
    ),
    "a requirement that is no comparison": Case(
        [(LESSON, '"rear > front / 2"', '"rear + front"')],
        ["01-bevels.md:33: 'rear + front' is not a comparison; write one such as rear >= front / 2"],
    ),
    "a range that goes down": Case(
        [(LESSON, "4 in to 5 in by", "5 in to 4 in by")],
        ["01-bevels.md:30: the range 5 in to 4 in by 1/16 in has no value; go upward, by a step above zero"],
    ),
    "a range with a step of zero": Case(
        [(LESSON, "by 1/16 in", "by 0 in")],
        ["01-bevels.md:30: the range 4 in to 5 in by 0 in has no value; go upward, by a step above zero"],
    ),
    "a range of too many values": Case(
        [(LESSON, "by 1/16 in", "by 0.0001 in")],
        ["01-bevels.md:30: the range has 10001 values; keep it to 2000: take a larger step"],
    ),
    "a choice left empty": Case(
        [(LESSON, "3/4 in | 1 in", "3/4 in | ")],
        ["01-bevels.md:31: a choice is empty; write one such as 3/4 in | 7/8 in"],
    ),
    "choices of different kinds": Case(
        [(LESSON, "3/4 in | 1 in", "3/4 in | 1 deg")],
        ["01-bevels.md:31: the choices of 'width' are of different kinds; give all the same kind of unit"],
    ),
    "a measure left out": Case(
        [(LESSON, ', metric = "20 mm"', "")],
        [
            '01-bevels.md:31: \'width\' needs both measures; write { inch = "…", metric = "…" } or { both = "…" }'
        ],
    ),
    "a given that does not say what it means": Case(
        [(LESSON, ', means = "bevel"', "")],
        ['01-bevels.md:32: \'top\' does not say what it means; write top = { both = "…", means = "…" }'],
    ),
    "a given that is a number": Case(
        [(LESSON, 'top   = { both = "8 deg", means = "bevel" }', "top   = 8")],
        ["01-bevels.md:32: 'top' is neither a text nor a table; write top = \"4 in to 5 in by 1/16 in\""],
    ),
    "a given with the name of a function": Case(
        [(LESSON, "top   =", "tan   =")],
        [
            "01-bevels.md:32: 'tan' cannot be a name; write a short word in small letters that is no function",
            "01-bevels.md:39: 'top' is not known here (at character 13, “top)”); known: front, width",
            "01-bevels.md:53: 'top' is not known here; known: front, width",
        ],
    ),
    "a step never used": Case(
        [(LESSON, "rear = front", "gap  = front - drop  # This is spare.\nrear = front")],
        ["01-bevels.md:40: the step 'gap' is never used; ask for it, or take it out"],
    ),
    "a step taken over and never used": Case(
        [
            (
                LESSON,
                'id    = "bench"\nstage = "bench"\naims  = [2]\nlike  = "rear"\n```',
                'id    = "bench"\nstage = "bench"\naims  = [2]\nlike  = "rear"\n```\n\n```figure\ndraw = "spar section"\nshow = ["front"]\nwith = { bottom = "top" }\n```\n\n```find\n[drop]\nask = "Drop"\nnearest = "1/64 in"\nwithin = "1/64 in"\n```\n\n```given\nrequire = "drop > width / 9"\n```',
            )
        ],
        [
            "01-bevels.md:62: the step 'rear', taken over with the working, is never used here; ask for it, or write a working block of its own"
        ],
    ),
    "a block that is never closed before the next": Case(
        [
            (LESSON, '0 deg\\"" }\n```', '0 deg\\"" }'),
            (LESSON, 'require = "rear > front / 2"\n```', 'require = "rear > front / 2"'),
        ],
        [
            "01-bevels.md:29: the block is never closed; close it with ```",
            "01-bevels.md:52: the block is never closed; close it with ```",
        ],
    ),
    "more steps to fade than there are": Case(
        [(GUIDES, 'stage = "alone"', 'stage = "faded"\nfade = 3')],
        ["02-guides.md:18: fade = 3, but the working has 2 steps; let the student find no more than these"],
    ),
    "a number in a heading": Case(
        [(LESSON, "### Rear face\n", "### Rear face of {front}\n")],
        ["01-bevels.md:21: a heading prints no numbers; put {name} into the text of the exercise"],
    ),
    "a number in a question": Case(
        [(LESSON, "How high is", "With {top}, how high is")],
        ["01-bevels.md:44: '{top}' would be printed as it stands; put it into the text of the exercise"],
    ),
    "half a pair of braces": Case(
        [(LESSON, "{width} wide", "{width wide")],
        ["01-bevels.md:36: a brace has no partner; write {name} for a number of the exercise"],
    ),
    "a sign that turns the writing round": Case(
        [(LESSON, "An edge", "An \u202eedge")],
        ["01-bevels.md:19: the character U+202E cannot be printed; take it out"],
    ),
    "a heading too long": Case(
        [(LESSON, "## Why", "## " + "Why " * 30)],
        ["01-bevels.md:17: the heading has more than 90 characters; shorten it"],
    ),
    "a word wider than the text": Case(
        [(LESSON, "An edge", "A" * 61)],
        ["01-bevels.md:19: the word 'AAAAAAAAAAAAAAAAAAAA…' is wider than the text; put a space into it"],
    ),
    "a range without a step": Case(
        [(LESSON, "4 in to 5 in by 1/16 in", "4 in to 5 in")],
        ["01-bevels.md:30: the range '4 in to 5 in' has no step; write it such as 4 in to 5 in by 1/16 in"],
    ),
    "commas between choices": Case(
        [(LESSON, "3/4 in | 1 in", "3/4 in, 1 in")],
        [
            "01-bevels.md:31: '3/4 in, 1 in' has a comma; put | between choices, and a point before decimals: 3/4 in | 0.8 in"
        ],
    ),
    "a quantity without quotes": Case(
        [(LESSON, "front - drop ", "front - drop - 1/4 in ")],
        [
            '01-bevels.md:40: the formula cannot be read here (at character 22, “its end”); put a quantity in quotes, such as "3/4 in"'
        ],
    ),
    "a typeset minus": Case(
        [(LESSON, "front - drop ", "front − drop ")],
        [
            "01-bevels.md:40: the formula cannot be read here (at character 7, “− drop”); write the signs of the keyboard: - * / and straight quotes"
        ],
    ),
    "a division by nothing": Case(
        [(LESSON, "front - drop ", "front - drop / 0 ")],
        ["01-bevels.md:40: this divides by zero (at character 16, “0”)"],
    ),
    "a given number with a fault whose meaning another takes over": Case(
        [
            (LESSON, "4 in to 5 in by 1/16 in", "5 in to 4 in by 1/16 in"),
            (
                GUIDES,
                'like  = "bevels/rear"\n```',
                'like  = "bevels/rear"\n```\n\n```given\nfront = "5 in to 6 in by 1/16 in"\n```',
            ),
        ],
        ["01-bevels.md:30: the range 5 in to 4 in by 1/16 in has no value; go upward, by a step above zero"],
    ),
    "an exercise block that cannot be read hides no second fault": Case(
        [(LESSON, 'id    = "rear"\nstage = "worked"', 'id    = "rear"\nstage = worked')],
        [
            '01-bevels.md:25: the TOML cannot be read: Invalid value; write lines such as key = "text", and look for a missing comma, quote or bracket'
        ],
    ),
    "a step named twice": Case(
        [(LESSON, "rear = front", "drop = front / 2  # Again.\nrear = front")],
        ["01-bevels.md:40: 'drop' is given or worked already; choose another name"],
    ),
    "a step without a sentence": Case(
        [(LESSON, "  # The bevel takes this off.", "")],
        ["01-bevels.md:39: the step has no sentence; say after # what the step finds"],
    ),
    "a line that is no step": Case(
        [(LESSON, "rear = front - drop ", "front - drop ")],
        ["01-bevels.md:40: this is not a step; write name = formula  # what it finds"],
    ),
    "a step that is a comparison": Case(
        [(LESSON, "front - drop ", "front > drop ")],
        [
            "01-bevels.md:40: a step gives a quantity, not a comparison; use it inside the formula of a quantity"
        ],
    ),
    "a duplicate id": Case(
        [(LESSON, 'id    = "bench"', 'id    = "rear"')],
        ["01-bevels.md:62: the id 'rear' stands twice in this lesson; choose another id"],
    ),
    "an id with capitals": Case(
        [(LESSON, 'id    = "bench"', 'id    = "Bench"')],
        ["01-bevels.md:63: 'Bench' cannot be an id; write small letters, digits and hyphens"],
    ),
    "a missing aim": Case(
        [
            (
                LESSON,
                'aims = [\n    { do = "Find the rear height", given = "the front height and the bevel", to = "within 1/64 in" },\n    { do = "Cut the bevel", given = "a blank", to = "within 1/32 in" },\n]\n',
                "",
            )
        ],
        [
            '01-bevels.md:3: the lesson block has no \'aims\'; add aims = [{ do = "…", given = "…", to = "within 1/64 in" }]'
        ],
    ),
    "an aim that is not there": Case(
        [(LESSON, "aims  = [2]", "aims  = [2, 3]")],
        ["01-bevels.md:62: the lesson has no aim 3; its aims go from 1 to 2"],
    ),
    "an aim that no exercise serves": Case(
        [(LESSON, "aims  = [2]", "aims  = [1]")],
        ["01-bevels.md:11: no exercise serves aim 2, 'Cut the bevel'; add 2 to an exercise's aims"],
    ),
    "an aim without a standard": Case(
        [(LESSON, ', to = "within 1/32 in"', "")],
        ["01-bevels.md:13: an aim has no 'to'; add to = \"…\""],
    ),
    "an aim whose standard has no number": Case(
        [(LESSON, '"within 1/32 in"', '"neatly"')],
        [
            "01-bevels.md:13: the aim 'Cut the bevel' has a standard without a number; write to = \"within 1/64 in\""
        ],
    ),
    "raw HTML": Case(
        [(LESSON, "An edge is cut at a slope.", "An edge is cut <b>at a slope</b>.")],
        ["01-bevels.md:19: raw HTML is not read; write plain Markdown; a bare < needs a space after it"],
    ),
    "a picture outside the folder": Case(
        [(LESSON, "An edge is cut at a slope.", "![An edge](../secret.png)")],
        [
            "01-bevels.md:19: the picture '../secret.png' is outside the lesson's folder; copy it beside the lesson"
        ],
    ),
    "a picture at an absolute path": Case(
        [(LESSON, "An edge is cut at a slope.", "![An edge](/etc/passwd)")],
        [
            "01-bevels.md:19: the picture '/etc/passwd' is outside the lesson's folder; copy it beside the lesson"
        ],
    ),
    "a picture from the net": Case(
        [(LESSON, "An edge is cut at a slope.", "![An edge](https://a.example/b.png)")],
        [
            "01-bevels.md:19: the picture 'https://a.example/b.png' is outside the lesson's folder; copy it beside the lesson"
        ],
    ),
    "a picture that is not there": Case(
        [(LESSON, "An edge is cut at a slope.", "![An edge](edge.png)")],
        ["01-bevels.md:19: there is no picture 'edge.png'; copy it beside the lesson"],
    ),
    "a picture of another type": Case(
        [(LESSON, "An edge is cut at a slope.", "![An edge](edge.svg)")],
        ["01-bevels.md:19: the picture 'edge.svg' is not PNG or JPEG; save it as PNG"],
    ),
    "a picture with its words on two lines": Case(
        [(LESSON, "An edge is cut at a slope.", "![An\nedge](../secret.png)")],
        [
            "01-bevels.md:20: this link or picture cannot be read; write [words](https://…) in one line, no brackets inside"
        ],
    ),
    "a picture with brackets in its words": Case(
        [(LESSON, "An edge is cut at a slope.", "![An [odd] edge](../secret.png)")],
        [
            "01-bevels.md:19: this link or picture cannot be read; write [words](https://…) in one line, no brackets inside"
        ],
    ),
    "a link to a script": Case(
        [(LESSON, "An edge is cut at a slope.", "[x](javascript:alert)")],
        ["01-bevels.md:19: the link 'javascript:alert' cannot be printed; links begin with https://"],
    ),
    "a link to a place on the page": Case(
        [(LESSON, "An edge is cut at a slope.", "[See](#nowhere) below.")],
        ["01-bevels.md:19: the link '#nowhere' cannot be printed; links begin with https://"],
    ),
    "a link defined elsewhere": Case(
        [(LESSON, "An edge is cut at a slope.", "[x]: https://a.example")],
        ["01-bevels.md:19: link definitions are not read; write the link where it stands"],
    ),
    "a number in prose outside an exercise": Case(
        [(LESSON, "An edge is cut at a slope.", "It is {width} wide.")],
        ["01-bevels.md:19: '{width}' stands outside an exercise; numbers are given in exercises"],
    ),
    "an answer in the student's prose": Case(
        [(GUIDES, 'like  = "bevels/rear"\n```', 'like  = "bevels/rear"\n```\n\nIt is {rear} high.')],
        [
            "02-guides.md:22: '{rear}' would print an answer on the student's sheet; write the question without it"
        ],
    ),
    "a character that no page can print": Case(
        [(LESSON, "at a slope", "at  slope")],
        ["01-bevels.md:19: the character U+E000 cannot be printed; take it out"],
    ),
    "a block that is never closed": Case(
        [(LESSON, "1. Cut the edge.", "```caution")],
        ["01-bevels.md:69: the block is never closed; close it with ```"],
    ),
    "a block without an exercise": Case(
        [(LESSON, "An edge is cut at a slope.", "```given\n```")],
        ["01-bevels.md:19: a given block without an exercise; put an exercise block before it"],
    ),
    "a second given": Case(
        [(LESSON, "```find", "```given\n```\n\n```find")],
        ["01-bevels.md:43: a second given block in this exercise; join them"],
    ),
    "a second lesson block": Case(
        [(LESSON, "1. Cut the edge.", "```lesson\n```")],
        ["01-bevels.md:69: a second lesson block; keep one"],
    ),
    "a second title": Case(
        [(LESSON, "## Why", "# Why")],
        ["01-bevels.md:17: a second title; use ## for a section and ### for an exercise"],
    ),
    "no title": Case(
        [(LESSON, "# Bevels\n", "Bevels\n")],
        ["01-bevels.md:1: the lesson has no title; begin with # and the title"],
    ),
    "no lesson block": Case(
        [
            (
                GUIDES,
                '```lesson\nnumber    = 2\nminutes   = 60\ntools     = ["bevel"]\nmaterials = ["spruce"]\nprepare   = ["Saw the stock."]\ndone      = "The guide is within 1/64 in."\naims = [{ do = "Size a guide", given = "its base", to = "within 1/64 in" }]\n```',
                "",
            )
        ],
        ["02-guides.md: there is no lesson block; add one under the title"],
    ),
    "no exercise of the id that another is like": Case(
        [(LESSON, 'like  = "rear"', 'like  = "reer"')],
        ["01-bevels.md:62: there is no exercise 'reer' before this one; did you mean 'rear'?"],
    ),
    "an exercise like a later lesson": Case(
        [(LESSON, 'like  = "rear"', 'like  = "guides/again"')],
        ["01-bevels.md:62: there is no exercise 'guides/again' before this one; known: rear"],
    ),
    "no worked exercise before one alone": Case(
        [(LESSON, '"bench"\naims', '"alone"\naims'), (LESSON, '"worked"', '"bench"')],
        [
            "01-bevels.md:62: 'bench' follows no worked exercise of its structure; say like = the id of a worked one before it"
        ],
    ),
    "an exercise without its blocks": Case(
        [(LESSON, 'like  = "rear"\n', "")],
        [
            "01-bevels.md:62: the exercise has no given block; add one, or say like = the id of an exercise with one",
            "01-bevels.md:62: the exercise has no working block; add one, or say like = the id of an exercise with one",
            "01-bevels.md:62: the exercise has no find block; add one, or say like = the id of an exercise with one",
        ],
    ),
    "a question for what is not worked": Case(
        [(LESSON, "[rear]", "[front]"), (LESSON, "[rear.slips.added]", "[front.slips.added]")],
        [
            "01-bevels.md:44: 'front' is not worked in this exercise; known: drop, rear",
            "01-bevels.md:53: the figure asks 'rear', which no question finds; ask what a find block asks",
            "01-bevels.md:53: the figure shows 'front', which is asked for; move it to ask",
        ],
    ),
    "a question without a mark": Case(
        [(LESSON, 'nearest = { inch = "1/64 in", metric = "0.1 mm" }\n', "")],
        ['01-bevels.md:44: [rear] has no \'nearest\'; add nearest = { inch = "1/64 in", metric = "0.1 mm" }'],
    ),
    "a mark of zero": Case(
        [(LESSON, 'within  = "1/64 in"', 'within  = "0 in"')],
        ["01-bevels.md:47: 'within' is not above zero; write a mark such as \"1/64 in\""],
    ),
    "a mark that cannot be read": Case(
        [(LESSON, 'within  = "1/64 in"', 'within  = "about a hair"')],
        [
            "01-bevels.md:47: 'about a hair' is not a quantity; write one such as 1 3/8 in, 34.9 mm, 8 deg, 1:15 or 12 %"
        ],
    ),
    "a question left empty": Case(
        [(LESSON, '"How high is the rear face?"', '""')],
        ["01-bevels.md:45: 'ask' is empty; write ask = \"…\""],
    ),
    "a slip that is no table": Case(
        [
            (
                LESSON,
                '[rear.slips.added]\nby  = "front + drop"\nsay = "The drop was added."',
                "slips = { added = 3 }",
            )
        ],
        ["01-bevels.md:48: the slip 'added' is not a table; write [rear.slips.added] with by and say"],
    ),
    "a question that is no table": Case(
        [(LESSON, "[rear]", "drop = 3\n[rear]")],
        ["01-bevels.md:44: 'drop' is not a table; write [drop] and below it ask, nearest and within"],
    ),
    "a figure without what it needs": Case(
        [(LESSON, ', bottom = "\\"0 deg\\""', "")],
        ["01-bevels.md:53: the figure needs 'bottom'; add with = { bottom = \"…\" }"],
    ),
    "a figure's size of the wrong kind": Case(
        [(LESSON, 'top = "-top"', 'top = "width"')],
        ["01-bevels.md:53: the figure's 'top' is an angle, not a length"],
    ),
    "a figure that asks what no question finds": Case(
        [(LESSON, 'ask  = ["rear"]', 'ask  = ["drop"]')],
        ["01-bevels.md:53: the figure asks 'drop', which no question finds; ask what a find block asks"],
    ),
    "a figure that shows the answer": Case(
        [(LESSON, '"front", "width", "top"]', '"front", "rear", "top"]')],
        ["01-bevels.md:53: the figure shows 'rear', which is asked for; move it to ask"],
    ),
    "a figure's scale of nothing": Case(
        [(LESSON, 'ask  = ["rear"]', 'ask  = ["rear"]\nscale = "1:0"')],
        ["01-bevels.md:57: '1:0' is not a scale; write one such as 1:2, or \"full size\""],
    ),
    "a figure's size that is no formula": Case(
        [(LESSON, 'top = "-top"', "top = 8")],
        ["01-bevels.md:57: 'top' is not a text; write top = \"…\""],
    ),
    "a caution of an unknown level": Case(
        [
            (
                LESSON,
                "1. Cut the edge.",
                '```caution\nlevel = "peril"\ndo = "Stop."\notherwise = "It hurts."\n```',
            )
        ],
        ["01-bevels.md:70: 'level' cannot be 'peril'; known: caution, danger, notice, warning"],
    ),
    "a caution that does not say what happens otherwise": Case(
        [(LESSON, "1. Cut the edge.", '```caution\nlevel = "danger"\ndo = "Stop."\n```')],
        ["01-bevels.md:69: the caution block has no 'otherwise'; add otherwise = \"…\""],
    ),
    "a number out of range": Case(
        [(LESSON, "minutes   = 90", "minutes   = 9000")],
        ["01-bevels.md:5: 'minutes' is 9000; it goes from 1 to 1440"],
    ),
    "a text where a number stands": Case(
        [(LESSON, "minutes   = 90", 'minutes   = "90"')],
        ["01-bevels.md:5: 'minutes' is not a whole number; write minutes = 1"],
    ),
    "yes where a number stands": Case(
        [(LESSON, "minutes   = 90", "minutes   = true")],
        ["01-bevels.md:5: 'minutes' is not a whole number; write minutes = 1"],
    ),
    "a number where a text stands": Case(
        [(LESSON, 'stage = "worked"', "stage = 1")],
        ["01-bevels.md:25: 'stage' is not a text; write stage = \"worked\""],
    ),
    "a text where a list stands": Case(
        [(LESSON, 'tools     = ["bevel"]', 'tools     = "bevel"')],
        ["01-bevels.md:7: 'tools' is not a list; write tools = [\"…\"]"],
    ),
    "a list with an empty text": Case(
        [(LESSON, 'tools     = ["bevel"]', 'tools     = [""]')],
        ['01-bevels.md:7: \'tools\' is not a list of texts; write tools = ["…", "…"]'],
    ),
    "no tools": Case(
        [(LESSON, 'tools     = ["bevel"]\n', "")],
        ["01-bevels.md:3: the lesson block has no 'tools'; add tools = [\"…\"]"],
    ),
    "no standard of completion": Case(
        [(LESSON, 'done      = "The rear face is within 1/64 in."\n', "")],
        ["01-bevels.md:3: the lesson block has no 'done'; add done = \"…\""],
    ),
    "a number that is not the file's": Case(
        [(LESSON, "number    = 1", "number    = 3")],
        [
            "01-bevels.md:4: the lesson is number 3, but its file is 01-bevels.md; let both have the same number"
        ],
    ),
    "a formula with a lambda": Case(
        [(LESSON, "front - drop ", "lambda: front ")],
        [
            "01-bevels.md:40: this does not belong in a formula (at character 1, “lambda: front”); use names, numbers, quoted quantities, + - * / ** and functions"
        ],
    ),
    "a formula with brackets left open": Case(
        [(LESSON, "front - drop ", "(front - drop ")],
        [
            "01-bevels.md:40: the formula cannot be read here (at character 1, “(front - drop”); check brackets and signs"
        ],
    ),
    "a power of a power": Case(
        [(LESSON, "front - drop ", "front - 9**9**9 * drop ")],
        [
            "01-bevels.md:40: a power is a plain number, not a name or a sum (at character 12, “9**9 * drop”); write one such as x ** 2"
        ],
    ),
    "a word where a number stands": Case(
        [(LESSON, "front - drop ", 'front - "drop" ')],
        ['01-bevels.md:40: a word stands where a quantity is needed (at character 9, “"drop"”)'],
    ),
    "words of a table": Case(
        [(LESSON, "front - drop ", 'front - shrinkage("Sitka spruce", "radiall") * drop ')],
        [
            "01-bevels.md:40: shrinkage: 'radiall' is not known (at character 35, “\"radiall\") * drop”); did you mean 'radial'?"
        ],
    ),
    "too many values for a function": Case(
        [(LESSON, "tan(top)", "tan(top, top)")],
        ["01-bevels.md:39: tan takes 1 value, not 2 (at character 9, “tan(top, top)”); write tan(angle)"],
    ),
    "a fault of the given tells nothing twice": Case(
        [(LESSON, 'both = "4 in to 5 in by 1/16 in"', 'both = "4 inn"')],
        [
            "01-bevels.md:30: '4 inn': 'inn' is not a unit; write in, ft, mm, deg, %, psi, rpm or another shop unit"
        ],
    ),
    "words of a table that are given": Case(
        [
            (
                LESSON,
                'top   = { both = "8 deg", means = "bevel" }',
                'top   = { both = "8 deg", means = "bevel" }\nwood  = { both = "Sitka spruce | Sitka sprucee", means = "species" }',
            ),
            (LESSON, "front - drop ", 'front - shrinkage(wood, "radial") * drop '),
        ],
        [
            "01-bevels.md:41: 'wood' may be 'Sitka sprucee', which is not known here (at character 19, “wood, \"radial\") * drop”); did you mean 'Sitka spruce'?"
        ],
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_bad_lesson_is_told_where_what_is_wrong_and_what_would_be_right(name: str, tmp_path: Path) -> None:
    assert after(tmp_path, CASES[name].edits) == [f"lessons/{line}" for line in CASES[name].told]


TOML = {
    "a value without quotes": ((LESSON, "minutes   = 90", "minutes   = ninety"), 5),
    "a table that is not closed": ((LESSON, '"8 deg", means = "bevel" }', '"8 deg", means = "bevel"'), 32),
    "a text that is not closed": (
        (LESSON, '"How high is the rear face?"', '"How high is the rear face?'),
        45,
    ),
    "a list that is never closed": ((LESSON, '"front", "width", "top"]', '"front", "width", "top"'), 56),
    "a key twice": ((LESSON, 'stage = "bench"', 'stage = "bench"\nstage = "bench"'), 65),
}


@pytest.mark.parametrize("name", TOML)
def test_wrong_toml_is_told_with_its_line_in_the_lesson(name: str, tmp_path: Path) -> None:
    edit, line = TOML[name]
    told = after(tmp_path, [edit])
    assert told[0].startswith(f"lessons/01-bevels.md:{line}: ")
    assert "the TOML cannot be read: " in told[0]


def test_a_full_size_sheet_of_what_has_no_part_is_a_fault(tmp_path: Path) -> None:
    edits = [
        (LESSON, '"spar section"', '"end grain"'),
        (LESSON, 'ask  = ["rear"]', 'scale = "full size"\nquantity = 0'),
    ]
    told = after(tmp_path, edits)
    assert "lessons/01-bevels.md:57: 'quantity' is 0; it goes from 1 to 99" in told
    (fault,) = [line for line in told if "no part to cut out" in line]
    assert fault.startswith(
        "lessons/01-bevels.md:53: the figure 'end grain' has no part to cut out; take one of "
    )
    assert fault.endswith("spar section")
