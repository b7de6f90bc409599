"""Prose is plain Markdown with numbers in it, and never anything else."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coursepack.formula import Value
from coursepack.pages.prose import prose_html, set_fractions
from coursepack.shoptext import parse

VALUES: dict[str, Value] = {
    "front": parse("4 11/32 in"),
    "wood": "<b>&ash</b>",
    "fall": parse("-8 deg"),
    "feed": parse("6 m/min"),
}


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("It is {front} high.", "<p>It is 4\u202f11⁄32\u00a0in high.</p>"),
        ("It falls {fall}.", "<p>It falls −8°.</p>"),
        ("Feed at {feed}, not 8 m/min.", "<p>Feed at 6\u00a0m/\u2060min, not 8\u00a0m/\u2060min.</p>"),
        ("Of {wood}.", "<p>Of &lt;b&gt;&amp;ash&lt;/b&gt;.</p>"),
        ("*front* and **rear**", "<p><em>front</em> and <strong>rear</strong></p>"),
        ("1. Plane.\n2. Saw.", "<ol>\n<li>Plane.</li>\n<li>Saw.</li>\n</ol>"),
        ("9. Plane.", '<ol style="counter-reset: list-item 8">\n<li>Plane.</li>\n</ol>'),
        ("- Plane.", "<ul>\n<li>Plane.</li>\n</ul>"),
        ("[the book](https://a.example/b)", '<p><a href="https://a.example/b">the book</a></p>'),
        ("[bad](javascript:alert(1))", "<p><a>bad</a></p>"),
        ("[bad](http://a.example)", "<p><a>bad</a></p>"),
        ("[bad](data:text/html,x)", "<p><a>bad</a></p>"),
        ("![Edge](edge.png)", '<p><img alt="Edge" src="picture:edge.png"></p>'),
        ("![Edge](file:///etc/passwd)", '<p><img alt="Edge" src="picture:file:///etc/passwd"></p>'),
        ("<script>alert(1)</script>", "<p>&lt;script&gt;alert(1)&lt;/script&gt;</p>"),
        ("`<b>`", "<p><code>&lt;b&gt;</code></p>"),
        ("{{ 7*7 }} {% x %}", "<p>{{ 7*7 }} {% x %}</p>"),
        ("[x]: https://a.example\n\n[x]", "<p>[x]: https://a.example</p>\n<p>[x]</p>"),
        ("<https://a.example>", "<p>&lt;https://a.example&gt;</p>"),
    ],
)
def test_a_passage_becomes_html(text: str, html: str) -> None:
    assert prose_html(text, VALUES) == html


def test_a_number_that_looks_like_markdown_is_printed_as_it_stands() -> None:
    assert prose_html("{wood} {wood}", {"wood": "*a* [b](https://c.example) {front}"}) == (
        "<p>*a* [b](https://c.example) {front} *a* [b](https://c.example) {front}</p>"
    )


def test_one_passage_with_other_numbers_prints_the_other_numbers() -> None:
    assert "3⁄4" in prose_html("{front}", {"front": parse("3/4 in")})
    assert "3⁄4" not in prose_html("{front}", {"front": parse("1/4 in")})


@pytest.mark.parametrize(
    ("text", "printed"),
    [("1 3/8 in", "1\u202f3⁄8\u00a0in"), ("1/64 in", "1⁄64\u00a0in"), ("11/12/25", "11/12/25"), ("3/5", "3/5"), ("4/32 in", "4/32\u00a0in"), ("2 9/8 in", "2 9/8\u00a0in"), ("5 mm", "5\u00a0mm"), ("the rib's edge, both ribs' edges, 6' and 'so'", "the rib’s edge, both ribs’ edges, 6' and 'so'")],
)  # fmt: skip
def test_sizes_in_running_text_are_set_like_those_that_are_drawn(text: str, printed: str) -> None:
    assert set_fractions(text) == printed


@given(st.text(alphabet="<>&!/abscript\"'=[]()*_`{}#-1. \n:", max_size=120))
@settings(deadline=None)
def test_no_text_whatever_puts_a_tag_of_its_own_on_the_page(text: str) -> None:
    html = prose_html(text.replace("{", "( "), {})
    tags = {tag.partition(" ")[0].partition(">")[0].strip("/").lower() for tag in html.split("<")[1:]}
    assert tags <= {"p", "em", "strong", "code", "pre", "a", "img", "ul", "ol", "li", "h1", "h2", "h3", "h4", "h5", "h6", "blockquote", "hr", "br", "table", "thead", "tbody", "tr", "th", "td"}  # fmt: skip
