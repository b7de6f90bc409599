"""A script or a template in any text of the sources is printed as it stands, or is a fault."""

from html.parser import HTMLParser
from pathlib import Path

import pytest

from coursepack.pages import compose
from coursepack.workbook import solve_term
from tests.faulty.desk import Edit, faults, read, sound_copy, spoil, term_of

EVIL = "<script>alert(1)</script><img src=x onerror=alert(1)> {{ 7*7 }} {% x %} &amp; \u201c"
SHOWN = EVIL  # what a reader of the page must see: the text itself
LESSON, GUIDES, COURSE, TERM = "01-bevels.md", "02-guides.md", "course.toml", "terms/spring.toml"
FIELDS: dict[str, list[Edit]] = {
    "title of the lesson": [(LESSON, "# Bevels\n", f"# {EVIL}\n")],
    "heading of the reading": [(LESSON, "## Why", f"## {EVIL}")],
    "heading of an exercise": [(LESSON, "### Rear face\n", f"### {EVIL}\n")],
    "heading of a bench exercise": [(LESSON, "### Rear face at the bench", f"### {EVIL}")],
    "tools": [(LESSON, '["bevel"]', f'["{EVIL}"]')],
    "materials": [(LESSON, '["spruce"]', f'["{EVIL}"]')],
    "preparation": [(LESSON, "Plane the blanks.", EVIL)],
    "standard of completion": [(LESSON, "The rear face is within 1/64 in.", EVIL)],
    "what an aim does": [(LESSON, "Find the rear height", EVIL)],
    "what an aim is given": [(LESSON, "the front height and the bevel", EVIL)],
    "standard of an aim": [(LESSON, '"within 1/32 in"', f'"{EVIL}"')],
    "what a number means": [(LESSON, '"height at the front"', f'"{EVIL}"')],
    "sentence of a step": [(LESSON, "# This is left.", f"# {EVIL}")],
    "question": [(LESSON, "How high is the rear face?", EVIL)],
    "what a slip shows": [(LESSON, "The drop was added.", EVIL)],
    "caution in a lesson": [(LESSON, "An edge is cut at a slope.", f'```caution\nlevel = "notice"\ndo = "{EVIL}"\notherwise = "It spoils."\n```')],
    "what happens otherwise": [(LESSON, "An edge is cut at a slope.", f'```caution\nlevel = "notice"\ndo = "Stop."\notherwise = "{EVIL}"\n```')],
    "class": [(COURSE, "Evening class", EVIL)],
    "name of a machine": [(COURSE, '"band saw"', f'"{EVIL}"'), (LESSON, '"band saw"', f'"{EVIL}"')],
    "caution of a machine": [(COURSE, "Keep the hands beside the line.", EVIL)],
    "title of the term": [(TERM, "Spring", EVIL)],
    "choice of words": [
        (LESSON, "top   =", f'wood  = {{ both = "{EVIL}", means = "species" }}\ntop   ='),
        (LESSON, "The blank is {width} wide.", "The blank is {width} wide, of {wood}."),
    ],
}  # fmt: skip


class Seen(HTMLParser):
    """The text of a page as a reader sees it, and its tags and their attributes."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.text: list[str] = []
        self.tags: set[str] = set()
        self.attributes: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}
        self.text += [value for name, value in attrs if value and name.startswith("data-")]

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def composed(folder: Path) -> list[str]:
    course, term = read(folder), term_of(folder)
    pages = []
    for record in solve_term(term, course.lessons):
        pages.append(compose.reading(course, term, record.lesson, record.examples, record.mark).html)
        pages += [
            compose.exercises(course, term, record.lesson, bench, record.sets[bench - 1], record.mark).html
            for bench in (1, 2)
        ]
        pages.append(compose.key(course, term, record.lesson, record.sets, record.mark).html)
    return pages


def seen_on(pages: list[str]) -> Seen:
    seen = Seen()
    for page in pages:
        seen.feed(page)
    return seen


def squeezed(text: str) -> str:
    return "".join(text.split()).casefold()


@pytest.mark.parametrize("field", FIELDS)
def test_a_script_or_template_in_a_field_is_printed_as_it_stands(field: str, tmp_path: Path) -> None:
    seen = seen_on(composed(spoil(sound_copy(tmp_path), *FIELDS[field])))
    assert not seen.tags & {"script", "img", "iframe", "object"}
    assert not {name for name in seen.attributes if name.startswith("on")}
    assert squeezed(SHOWN) in squeezed("".join(seen.text)), (
        "the field is printed nowhere, or not as it stands"
    )


def test_the_sound_course_prints_none_of_it(tmp_path: Path) -> None:
    assert squeezed("{{ 7*7 }}") not in squeezed("".join(seen_on(composed(sound_copy(tmp_path))).text))


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "a <b>b</b>",
        "<!-- a -->",
        "</p>",
        "<?x?>",
        "<https://a.example>",
        "`<i>`",
    ],
)
def test_raw_html_in_prose_is_a_fault(text: str, tmp_path: Path) -> None:
    assert faults(spoil(sound_copy(tmp_path), (LESSON, "An edge is cut at a slope.", text))) == [
        "lessons/01-bevels.md:19: raw HTML is not read; write plain Markdown; a bare < needs a space after it"
    ]


@pytest.mark.parametrize("text", ["{{ 7*7 }}", "{% x %}"])
@pytest.mark.parametrize("place", ["An edge is cut at a slope.", "The blank is {width} wide."])
def test_a_template_in_prose_is_a_fault(text: str, place: str, tmp_path: Path) -> None:
    told = faults(spoil(sound_copy(tmp_path), (LESSON, place, text)))
    assert told
    assert all("stands outside an exercise" in line or "is not known here" in line for line in told)


def test_a_word_for_the_name_of_the_term_that_leaves_the_folder_is_no_term(tmp_path: Path) -> None:
    folder = sound_copy(tmp_path)
    (folder / "terms" / "spring.toml").rename(folder / "spring.toml")
    assert faults(folder)[0].startswith("lessons/terms/spring.toml: there is no term 'spring'")
