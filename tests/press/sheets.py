"""Small sheets to print in tests."""

STYLE = """
@page { size: letter; margin: 20mm; @bottom-left { content: "Lesson 6, exercises" }
        @bottom-right { content: "page " counter(page) " of " counter(pages) } }
body { font: 11pt/1.4 "Bench Serif" } th { font-family: "Bench Sans" }
"""
DRAWING = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="20mm" viewBox="0 0 60 20"><title>{alt}</title>'
    '<path d="M0 0L60 20" stroke="black"/><text x="5" y="8" font-family="Bench Sans" font-size="4">7⁄8</text></svg>'
)


def document(title: str, body: str) -> str:
    return f'<html lang="en"><head><title>{title}</title></head><body>{body}</body></html>'


def sheet(bench: int, pages: int = 1) -> str:
    """A sheet with a heading, a link, a table with header cells and a figure on each of its pages."""
    body = "".join(
        f'<section style="break-after: page"><h1>Bench {bench}, leaf {leaf}</h1>'
        f'<p>Plane {bench} 11⁄32 in and <a href="#t{leaf}">see the table</a>.</p><table id="t{leaf}">'
        "<tr><th>Set</th><th>Front</th></tr><tr><th scope='row'>A</th><td>63⁄64 in</td></tr></table>"
        f"{DRAWING.format(alt=f'Spar of bench {bench}, leaf {leaf}')}</section>"
        for leaf in range(1, pages + 1)
    )
    return document(f"Bench {bench}", body)
