"""Working a formula: the kinds of its parts without numbers, then its value."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from coursepack.formula import (
    HOLDS,
    TRUTH,
    WORD,
    Argument,
    Call,
    Choice,
    Comparison,
    Function,
    Kinds,
    Listed,
    ListKind,
    Literal,
    Minus,
    Name,
    Node,
    Operation,
    Power,
    Shape,
    Value,
    Word,
)  # fmt: skip
from coursepack.place import FormulaFault, LessonFault, did_you_mean
from coursepack.quantity import Quantity
from coursepack.units import Kind, kind_name, kind_of


def kind_words(kind: Kinds) -> str:
    """Return the words for a kind, a word or a comparison."""
    if isinstance(kind, ListKind):
        return "a list"
    if isinstance(kind, str):
        return {WORD: "a word", TRUTH: "a comparison"}.get(
            kind, f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"
        )
    return kind_name(kind)


_OF_WORDS = ("==", "!=")
SHAPES = ("airfoil", "section", "plan")  # kinds of values that are no numbers

# Kinds: what fits what, before any number is drawn


def kind_in(node: Node, kinds: Mapping[str, Kinds]) -> Kinds:
    """Return the kind of a formula's value from the kinds of its names.

    Raises FormulaFault, with its column, for an unknown name or for units that do not fit.
    """
    if isinstance(node, Literal):
        return node.value.kind
    if isinstance(node, Word):
        return WORD
    if isinstance(node, Name):
        return _known(node, kinds)
    if isinstance(node, Comparison):
        return _comparison_kind(node, kinds)
    if isinstance(node, Choice):
        return _choice_kind(node, kinds)
    if isinstance(node, Listed):
        return ListKind(tuple(kind_in(item, kinds) for item in node.items))
    if isinstance(node, Call):
        return _call_kind(node, kinds)
    return _arithmetic_kind(node, kinds)


def _known(node: Name, kinds: Mapping[str, Kinds]) -> Kinds:
    if node.name not in kinds:
        raise FormulaFault(
            f"'{node.name}' is not known here", did_you_mean(node.name, kinds), column=node.column
        )
    return kinds[node.name]


def dimension_in(node: Node, kinds: Mapping[str, Kinds]) -> Kind:
    """Return the dimension of a part that must be a quantity; raises FormulaFault for a word or a comparison."""
    kind = kind_in(node, kinds)
    if isinstance(kind, str | ListKind):
        raise FormulaFault(f"{kind_words(kind)} stands where a quantity is needed", column=node.column)
    return kind


def _arithmetic_kind(node: Minus | Operation | Power, kinds: Mapping[str, Kinds]) -> Kind:
    if isinstance(node, Minus):
        return dimension_in(node.operand, kinds)
    if isinstance(node, Power):
        base = dimension_in(node.base, kinds)
        if base and (node.power * 2).denominator != 1:
            raise FormulaFault("a quantity with a unit takes whole and half powers", column=node.column)
        return tuple((name, power * node.power) for name, power in base if node.power)
    left, right = dimension_in(node.left, kinds), dimension_in(node.right, kinds)
    if node.sign in "+-":
        if left != right:
            joined = "added to" if node.sign == "+" else "taken from"
            raise FormulaFault(f"{kind_name(right)} cannot be {joined} {kind_name(left)}", column=node.column)
        return left
    if node.sign == "/" and isinstance(node.right, Literal) and node.right.value.value == 0:
        raise FormulaFault("this divides by zero", column=node.column)
    return _joined(left, right, 1 if node.sign == "*" else -1)


def _joined(left: Kind, right: Kind, sign: int) -> Kind:
    powers = dict(left)
    for name, power in right:
        powers[name] = powers.get(name, Fraction(0)) + sign * power
    return tuple(sorted((name, power) for name, power in powers.items() if power))


def _comparison_kind(node: Comparison, kinds: Mapping[str, Kinds]) -> Kinds:
    first = kind_in(node.first, kinds)
    for sign, side in node.rest:
        other = kind_in(side, kinds)
        if other != first or isinstance(first, ListKind) or (isinstance(first, str) and first != WORD):
            raise FormulaFault(
                f"{kind_words(first)} cannot be compared with {kind_words(other)}", column=node.column
            )
        if first == WORD and sign not in _OF_WORDS:
            raise FormulaFault("words have no order", "compare them with == or !=", column=node.column)
    return TRUTH


def _choice_kind(node: Choice, kinds: Mapping[str, Kinds]) -> Kinds:
    if kind_in(node.test, kinds) != TRUTH:
        raise FormulaFault(
            "the part after 'if' is not a comparison", "write one such as a > b", column=node.test.column
        )
    then, otherwise = kind_in(node.then, kinds), kind_in(node.otherwise, kinds)
    if then != otherwise:
        raise FormulaFault(
            f"one side is {kind_words(then)}, the other {kind_words(otherwise)}", column=node.column
        )
    return then


def _call_kind(node: Call, kinds: Mapping[str, Kinds]) -> Kinds:
    function = node.function
    found = [kind_in(argument, kinds) for argument in node.arguments]
    for number, (argument, kind) in enumerate(zip(node.arguments, found, strict=True)):
        _check_argument(
            function, function.takes[min(number, len(function.takes) - 1)], argument, kind, found[0]
        )
    if function.gives in {"same", "root"}:
        return found[0] if function.gives == "same" else _rooted(found[0])
    words = [part.text for part in node.arguments if isinstance(part, Word)]
    return wanted_kind(next((function.but[word] for word in words if word in function.but), function.gives))


def _rooted(kind: Kinds) -> Kinds:
    return tuple((name, power / 2) for name, power in kind) if isinstance(kind, tuple) else kind


def wanted_kind(unit: str) -> Kinds:
    """Return the kind that a unit, 'truth' or the kind of a shape stands for."""
    return unit if unit == TRUTH or unit in SHAPES else kind_of(unit)


def _check_argument(function: Function, takes: Argument, node: Node, kind: Kinds, first: Kinds) -> None:
    if takes.unit == "word":
        if kind != WORD:
            raise FormulaFault(
                f"{function.name}: {takes.name} is a word in quotes, not {kind_words(kind)}",
                column=node.column,
            )
        if isinstance(node, Word) and not takes.knows(node.text):
            raise FormulaFault(
                f"{function.name}: '{node.text}' is not known",
                did_you_mean(node.text, takes.words),
                column=node.column,
            )
        return
    if takes.unit in {"list", "rows"}:
        _check_list(function, takes, node, kind)
        return
    if not isinstance(kind, tuple) and takes.unit not in SHAPES:
        raise FormulaFault(
            f"{function.name}: {takes.name} is a quantity, not {kind_words(kind)}", column=node.column
        )
    wanted = first if takes.unit == "same" else kind if takes.unit == "any" else wanted_kind(takes.unit)
    if kind != wanted:
        raise FormulaFault(
            f"{function.name}: {takes.name} is {kind_words(wanted)}, not {kind_words(kind)}",
            column=node.column,
        )


def _check_list(function: Function, takes: Argument, node: Node, kind: Kinds) -> None:
    items = kind.items if isinstance(kind, ListKind) else ()
    place = tuple(kind_of(unit) for unit in takes.of)
    wanted: Kinds = ListKind(place) if takes.unit == "rows" else place[0]
    if not items or any(item != wanted for item in items):
        row = ", ".join(f"{kind_name(each)}" for each in place)
        raise FormulaFault(
            f"{function.name}: {takes.name} is a list of {f'rows of {row}' if takes.unit == 'rows' else row}",
            f"write it as in {function.example}",
            column=node.column,
        )


# Values


def work(node: Node, values: Mapping[str, Value]) -> Value:
    """Return the value of a formula; raises FormulaFault, with its column, where it has none."""
    try:
        return _work(node, values)
    except FormulaFault:
        raise
    except LessonFault as fault:
        raise FormulaFault(fault.message, fault.remedy, column=node.column) from fault


def quantity(node: Node, values: Mapping[str, Value]) -> Quantity:
    """Return the value of a formula that must be a quantity; raises FormulaFault for anything else."""
    value = work(node, values)
    if not isinstance(value, Quantity):
        raise FormulaFault("a quantity is needed here", column=node.column)
    return value


def holds(node: Node, values: Mapping[str, Value]) -> bool:
    """Return whether a comparison holds; raises FormulaFault for anything else."""
    value = work(node, values)
    if not isinstance(value, bool):
        raise FormulaFault("a comparison is needed here", "write one such as a > b", column=node.column)
    return value


def _work(node: Node, values: Mapping[str, Value]) -> Value:
    if isinstance(node, Literal):
        return node.value
    if isinstance(node, Word):
        return node.text
    if isinstance(node, Name):
        if node.name not in values:
            raise FormulaFault(
                f"'{node.name}' is not known here", did_you_mean(node.name, values), column=node.column
            )
        return values[node.name]
    if isinstance(node, Comparison):
        return _compared(node, values)
    if isinstance(node, Choice):
        return work(node.then if holds(node.test, values) else node.otherwise, values)
    if isinstance(node, Listed):
        return tuple(work(item, values) for item in node.items)
    if isinstance(node, Call):
        return _called(node, values)
    return _arithmetic(node, values)


def _arithmetic(node: Minus | Operation | Power, values: Mapping[str, Value]) -> Quantity:
    if isinstance(node, Minus):
        return -quantity(node.operand, values)
    if isinstance(node, Power):
        return quantity(node.base, values) ** node.power
    left, right = quantity(node.left, values), quantity(node.right, values)
    if node.sign == "+":
        return left + right
    if node.sign == "-":
        return left - right
    return left * right if node.sign == "*" else left / right


def _compared(node: Comparison, values: Mapping[str, Value]) -> bool:
    left = work(node.first, values)
    for sign, side in node.rest:
        right = work(side, values)
        if not HOLDS[sign](_ordered(left, sign, right, node.column)):
            return False
        left = right
    return True


def _ordered(left: Value, sign: str, right: Value, column: int) -> int:
    if isinstance(left, Quantity) and isinstance(right, Quantity):
        return left.compare(right)
    if isinstance(left, str) and isinstance(right, str) and sign in _OF_WORDS:
        return int(left != right)
    raise FormulaFault("these cannot be compared", column=column)


def _called(node: Call, values: Mapping[str, Value]) -> Value:
    arguments = [work(argument, values) for argument in node.arguments]
    for number, (argument, value) in enumerate(zip(node.arguments, arguments, strict=True)):
        takes = node.function.takes[min(number, len(node.function.takes) - 1)]
        if not isinstance(value, _TAKES.get(takes.unit, Quantity)):
            raise FormulaFault(f"{node.function.name}: {takes.name} does not fit", column=argument.column)
    _check_unit_is_known(node, arguments)
    return node.function.work(*arguments)


def _check_unit_is_known(node: Call, arguments: Sequence[Value]) -> None:
    for argument, value in zip(node.arguments, arguments, strict=True):
        if value in node.function.but and not isinstance(argument, Word):
            raise FormulaFault(
                f"{node.function.name}: '{value}' has another unit than the other words",
                f'write "{value}" in the formula itself',
                column=argument.column,
            )


_TAKES: Mapping[str, type] = {"word": str, "list": tuple, "rows": tuple, **dict.fromkeys(SHAPES, Shape)}
