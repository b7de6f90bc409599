"""The formula language: the arithmetic, comparison and 'a if c else b' parts of Python's expressions.

Names, numbers, quoted quantities ("1 3/8 in"), quoted words ("Sitka spruce") and calls of the functions in a
table; nothing else. This holds what a formula is made of; `formulatext.read` makes one from text and checks its
form, `working.kind_in` the units without any numbers, and `working.work` gives the value.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import ClassVar, TypeAlias

from coursepack.quantity import Quantity
from coursepack.units import Kind

WORD = "word"
TRUTH = "truth"


class Shape:
    """A value that is no number: an airfoil, a cross-section, a plan. Its text reads well on one line."""

    kind: ClassVar[str]


@dataclass(frozen=True)
class ListKind:
    """The kind of a list: the kinds of its items, in their order."""

    items: tuple["Kinds", ...]


Value: TypeAlias = Quantity | str | bool | Shape | tuple["Value", ...]
Kinds: TypeAlias = Kind | str | ListKind  # a dimension; 'word', 'truth' or a shape's kind; a list


@dataclass(frozen=True)
class Literal:
    """A number or a quoted quantity."""

    value: Quantity
    column: int


@dataclass(frozen=True)
class Word:
    """A quoted word of the trade."""

    text: str
    column: int


@dataclass(frozen=True)
class Name:
    """A name that is given or worked before."""

    name: str
    column: int


@dataclass(frozen=True)
class Minus:
    """A minus sign before one operand."""

    operand: "Node"
    column: int


@dataclass(frozen=True)
class Operation:
    """One of + - * / with its two sides."""

    sign: str
    left: "Node"
    right: "Node"
    column: int


@dataclass(frozen=True)
class Power:
    """A base raised to a constant."""

    base: "Node"
    power: Fraction
    column: int


@dataclass(frozen=True)
class Comparison:
    """A chain of comparisons, as a < b <= c."""

    first: "Node"
    rest: tuple[tuple[str, "Node"], ...]
    column: int


@dataclass(frozen=True)
class Choice:
    """`then if test else otherwise`."""

    test: "Node"
    then: "Node"
    otherwise: "Node"
    column: int


@dataclass(frozen=True)
class Listed:
    """A list in square brackets."""

    items: tuple["Node", ...]
    column: int


@dataclass(frozen=True)
class Call:
    """A function of the table with its arguments."""

    function: "Function"
    arguments: tuple["Node", ...]
    column: int


Node = Literal | Word | Name | Minus | Operation | Power | Comparison | Choice | Listed | Call


@dataclass(frozen=True)
class Argument:
    """What a function takes: a name, and a kind's unit ('in', 'deg', '' …), 'word', 'any', or a shape's kind.

    `words` are the words allowed, and those that begin with `family`; `same` asks for the kind that the first argument has. 'list' is a list of
    one unit, 'rows' a list of rows with a unit for each place; `of` gives these units.
    """

    name: str
    unit: str
    words: tuple[str, ...] = ()
    of: tuple[str, ...] = ()
    family: str = ""

    def knows(self, word: str) -> bool:
        """Whether a word is one of those allowed; any is where none are listed."""
        listed = {each.casefold() for each in self.words}
        return not listed or word.casefold() in listed or bool(self.family and word.startswith(self.family))


@dataclass(frozen=True, repr=False)
class Function:
    """A function of the formula language.

    `gives` is the unit of the result, 'same' or 'root' for the kind of the first argument or its square root,
    'truth', or a shape's kind; `but` gives another unit where one of the arguments is that word;
    `optional` counts the last arguments that may be left out; `written` is the same formula in this language,
    for printing it as mathematics.
    """

    name: str
    work: Callable[..., Value]
    takes: tuple[Argument, ...]
    gives: str
    says: str
    source: str
    example: str
    written: str = ""
    optional: int = 0
    repeats: bool = False
    but: Mapping[str, str] = field(default_factory=dict)

    def __repr__(self) -> str:
        """Return the name, so that a formula's repr is the same in every process."""
        return self.name


Functions = Mapping[str, Function]

HOLDS: Mapping[str, Callable[[int], bool]] = {
    "<": lambda c: c < 0, "<=": lambda c: c <= 0, ">": lambda c: c > 0,
    ">=": lambda c: c >= 0, "==": lambda c: c == 0, "!=": lambda c: c != 0,
}  # fmt: skip


def names_in(node: Node) -> list[Name]:
    """Return the names of a formula in reading order, each as often as it stands."""
    return [part for part in walk(node) if isinstance(part, Name)]


def walk(node: Node) -> list[Node]:
    """Return the node and all below it, in reading order."""
    return [node, *(inner for part in parts(node) for inner in walk(part))]


def parts(node: Node) -> tuple[Node, ...]:
    """Return the nodes directly below a node, in reading order."""
    if isinstance(node, Minus):
        return (node.operand,)
    if isinstance(node, Operation):
        return (node.left, node.right)
    if isinstance(node, Power):
        return (node.base,)
    if isinstance(node, Comparison):
        return (node.first, *(side for _, side in node.rest))
    if isinstance(node, Choice):
        return (node.then, node.test, node.otherwise)
    if isinstance(node, Listed):
        return node.items
    return node.arguments if isinstance(node, Call) else ()
