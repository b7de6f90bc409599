"""A formula's own tree as textbook mathematics in HTML: in symbols, then with numbers."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from html import escape
from xml.etree import ElementTree as ET

from coursepack.drafting.lettering import width_em
from coursepack.formula import (
    Call,
    Choice,
    Comparison,
    Listed,
    Literal,
    Minus,
    Name,
    Node,
    Operation,
    Power,
    Value,
    Word,
)
from coursepack.pages.prose import unbroken
from coursepack.quantity import Quantity, is_exact, printed
from coursepack.working import work

_WORDS, _SUM, _PRODUCT, _SIGN, _POWER, _ATOM = range(6)
TRIGONOMETRY = {
    "sin": "sin",
    "cos": "cos",
    "tan": "tan",
    "asin": "arcsin",
    "acos": "arccos",
    "atan": "arctan",
}
_PLAIN_WORDS = {
    "up": "round up",
    "down": "round down",
    "min": "smallest of",
    "max": "largest of",
}
_ORDER = {"<": "<", "<=": "≤", ">": ">", ">=": "≥", "==": "=", "!=": "≠"}
_SMALLER = {"sub": 0.7, "sup": 0.7, "frac": 0.92}
_MM_PER_POINT = 25.4 / 72
_SERIF = 1.1  # times as wide as the sans serif, at most, is a formula in the serif
Show = Callable[
    [Name | Call], tuple[str, int] | None
]  # how a name is shown, and a call that is not spelt out


def symbol(name: str, of_class: str = "") -> str:
    """Return a name as a symbol: italic, what follows the first underscore as a subscript; all of it in a class, if one is named."""
    stem, _, below = name.partition("_")
    if not below:
        return f'<i class="{of_class}">{escape(stem)}</i>' if of_class else f"<i>{escape(stem)}</i>"
    whole = f"<i>{escape(stem)}</i><sub>{escape(below.replace('_', ' '))}</sub>"
    return f'<span class="{of_class}">{whole}</span>' if of_class else whole


def width_mm(html: str, size_pt: float) -> float:
    """Return how wide a formula of this module is at most on one line, in serif type of a size.

    It is reckoned from the widths of the sans serif, so that no type need be made for it; the shares are those of
    sheet.css. Each character of a text that XML does not take counts as half as wide as the type is high.
    """
    try:
        element = ET.fromstring(f"<p>{html}</p>")  # noqa: S314 - made in this module
    except ET.ParseError:
        return len(html) * size_pt * _MM_PER_POINT / 2
    return _element_width(element, size_pt, bold=False)


def _element_width(element: ET.Element, size: float, *, bold: bool) -> float:
    """Return the width of an element with all that it holds."""
    bold = bold or element.tag == "b"
    size *= _SMALLER.get(element.tag, _SMALLER.get(element.get("class", ""), 1.0))
    em = size * _MM_PER_POINT
    inside = [_element_width(part, size, bold=bold) for part in element]
    if element.get("class") == "frac":
        return max(inside) + 0.3 * em
    texts = [element.text, *(part.tail for part in element)]
    padding = 0.2 * em if element.get("class") == "root" else 0.0
    wide = sum(width_em(text.replace("\u2060", ""), bold=bold) for text in texts if text)
    return sum(inside) + wide * em * _SERIF + padding


def in_symbols(node: Node) -> str:
    """Return the formula with its names as symbols."""
    return _shown(node, lambda part: (symbol(part.name), _ATOM) if isinstance(part, Name) else None)[0]


def in_numbers(node: Node, values: Mapping[str, Value]) -> str:
    """Return the formula with the printed values in the place of its names, and of what is looked up within it."""

    def show(part: Name | Call) -> tuple[str, int] | None:
        if isinstance(part, Name):
            return _value(values[part.name])
        return _looked_up(part, values) if part is not node else None

    return _shown(node, show)[0]


def _looked_up(call: Call, values: Mapping[str, Value]) -> tuple[str, int] | None:
    """Return the value of a call that looks a word up in a table, where it can be printed in full."""
    words = [part for part in call.arguments if isinstance(part, Word) or _is_word(part, values)]
    found = work(call, values) if words else None
    return _value(found) if isinstance(found, Quantity) and is_exact(found) else None


def _is_word(node: Node, values: Mapping[str, Value]) -> bool:
    return isinstance(node, Name) and isinstance(values[node.name], str)


def _value(value: Value) -> tuple[str, int]:
    if not isinstance(value, Quantity):
        return escape(str(value)), _ATOM
    text = escape(unbroken(printed(value)))
    return text, _SIGN if value.value < 0 else _POWER if value.unit_name or "⁄" in text else _ATOM


def _shown(node: Node, show: Show) -> tuple[str, int]:
    """Return the HTML of a node and how tightly it binds."""
    if isinstance(node, Literal):
        return _value(node.value)
    if isinstance(node, Word):
        return escape(node.text), _ATOM
    if isinstance(node, Name | Call) and (told := show(node)):
        return told
    if isinstance(node, Minus):
        return f"−{_bracketed_sign(_inside(node.operand, show, _PRODUCT))}", _SIGN
    if isinstance(node, Operation):
        return _operation(node, show)
    if isinstance(node, Power):
        return _power(node, show)
    if isinstance(node, Comparison):
        sides = "".join(f" {escape(_ORDER[sign])} {_shown(side, show)[0]}" for sign, side in node.rest)
        return _shown(node.first, show)[0] + sides, _SUM
    if isinstance(node, Listed):
        rows = any(isinstance(item, Listed) for item in node.items)
        items = [_shown(item, show)[0] for item in node.items]
        return ", ".join(f"({item})" for item in items) if rows else ", ".join(items), _WORDS
    if isinstance(node, Choice):
        then, test, otherwise = (_shown(part, show)[0] for part in (node.then, node.test, node.otherwise))
        return f"{then} if {test}, otherwise {otherwise}", _WORDS
    assert isinstance(node, Call)  # noqa: S101 - a name is always told
    return _call(node, show)


def _inside(node: Node, show: Show, least: int) -> str:
    """Return a part of a formula, in brackets where it binds less tightly than its place asks."""
    text, binds = _shown(node, show)
    return f"({text})" if binds < least else text


def _operation(node: Operation, show: Show) -> tuple[str, int]:
    if node.sign == "/":
        above, below = _shown(node.left, show)[0], _shown(node.right, show)[0]
        return f'<span class="frac"><span>{above}</span><span>{below}</span></span>', _POWER
    if node.sign == "*":
        return f"{_inside(node.left, show, _PRODUCT)} × {_inside(node.right, show, _POWER)}", _PRODUCT
    right = _inside(node.right, show, _PRODUCT)
    sign = "+" if node.sign == "+" else "−"
    return f"{_inside(node.left, show, _SUM)} {sign} {_bracketed_sign(right)}", _SUM


def _bracketed_sign(text: str) -> str:
    return f"({text})" if text.startswith("−") else text


def _power(node: Power, show: Show) -> tuple[str, int]:
    if node.power == Fraction(1, 2):
        return _root(node.base, show)
    power = str(node.power).replace("-", "−").replace("/", "⁄")
    return f"{_inside(node.base, show, _ATOM)}<sup>{power}</sup>", _POWER


def _root(node: Node, show: Show) -> tuple[str, int]:
    return f'√<span class="root">{_shown(node, show)[0]}</span>', _ATOM


def _call(node: Call, show: Show) -> tuple[str, int]:
    name = node.function.name
    if name in TRIGONOMETRY:
        return f"{TRIGONOMETRY[name]}\u00a0{_inside(node.arguments[0], show, _POWER)}", _POWER
    if name == "sqrt":
        return _root(node.arguments[0], show)
    if name == "alike":
        return _shown(node.arguments[0], show)
    if name == "nearest":
        return (
            f"{_shown(node.arguments[0], show)[0]}, to the nearest {_shown(node.arguments[1], show)[0]}",
            _WORDS,
        )
    if name == "pi":
        return "π", _ATOM
    if name == "abs":
        return f"|{_shown(node.arguments[0], show)[0]}|", _ATOM
    inner = ", ".join(_shown(argument, show)[0] for argument in node.arguments)
    words = _PLAIN_WORDS.get(name, name.replace("_", " "))
    if name in _PLAIN_WORDS:
        return f"{escape(words)}\u202f({inner})", _ATOM
    return (f"{escape(words)} for {inner}", _WORDS) if inner else (escape(words), _ATOM)
