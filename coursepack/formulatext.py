"""Text to formulas: read with Python's own parser, refusing all that is not in the language."""

import ast
import re
import warnings
from fractions import Fraction

from coursepack.formula import (
    Call,
    Choice,
    Comparison,
    Function,
    Functions,
    Listed,
    Literal,
    Minus,
    Name,
    Node,
    Operation,
    Power,
    Word,
)
from coursepack.place import FormulaFault, QuantityFault, did_you_mean
from coursepack.quantity import Quantity
from coursepack.shoptext import looks_like_quantity, parse

MOST_CHARACTERS = 400
MOST_DEPTH = 24
MOST_POWER = 9
_TYPESET = "−–×÷“”‘’"

_SIGNS = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/"}
_ORDER = {ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==", ast.NotEq: "!="}


def read(text: str, functions: Functions) -> Node:
    """Read a formula; raises FormulaFault with the column of what cannot stand in one."""
    _check_size(text)
    return _Reader(functions).node(_tree(text), 0)


def _tree(text: str) -> ast.expr:
    """Read the form with Python's own parser; what it only warns of is no formula either.

    Columns are made to count the characters of the text; the parser counts bytes of UTF-8.
    """
    body, lead = text.strip(), len(text) - len(text.lstrip())
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            tree = ast.parse(body, mode="eval").body
    except (SyntaxError, ValueError, MemoryError, RecursionError) as trouble:
        offset = (getattr(trouble, "offset", None) or len(body) + 1) - 1  # none: the text ends too early
        raise FormulaFault("the formula cannot be read here", _hint(body), column=lead + offset) from trouble
    written = body.encode(errors="replace")
    for part in ast.walk(tree):
        if isinstance(part, ast.expr):
            part.col_offset = lead + len(written[: part.col_offset].decode(errors="ignore"))
    return tree


def _hint(text: str) -> str:
    """Say what may be wrong with a formula that cannot be read."""
    if any(sign in text for sign in _TYPESET):
        return "write the signs of the keyboard: - * / and straight quotes"
    bare = re.sub(r"\"[^\"]*\"|'[^']*'", "", text)
    if re.search(r"[0-9]\s*(?:in|mm|cm|m|ft|deg|lb|lbf|N|psi|kPa|g|%|°)(?![a-z_(])", bare):
        return 'put a quantity in quotes, such as "3/4 in"'
    return "check brackets and signs"


def _check_size(text: str) -> None:
    if not text.strip():
        raise FormulaFault("there is no formula", "write one such as width * tan(top)", column=0)
    if len(text) > MOST_CHARACTERS:
        raise FormulaFault(
            f"the formula has more than {MOST_CHARACTERS} characters",
            "split it into steps",
            column=MOST_CHARACTERS,
        )
    depth = 0
    for column, character in enumerate(text):
        depth += (character in "([{") - (character in ")]}")
        if depth > MOST_DEPTH:
            raise FormulaFault("the formula is nested too deeply", "split it into steps", column=column)
        if character == "\\" or not (character.isprintable() or character == "\t"):
            raise FormulaFault("this character has no place in a formula", "take it out", column=column)


class _Reader:
    """From Python's tree to ours, refusing all that is not in the language."""

    def __init__(self, functions: Functions) -> None:
        self.functions = functions

    def node(self, tree: ast.expr, depth: int) -> Node:
        if depth > 4 * MOST_DEPTH:
            raise FormulaFault(
                "the formula is nested too deeply", "split it into steps", column=tree.col_offset
            )
        make = getattr(self, f"_{type(tree).__name__.lower()}", None)
        if make is None:
            raise _refused(tree)
        result: Node = make(tree, depth + 1)
        return result

    def _constant(self, tree: ast.Constant, _depth: int) -> Node:
        value, column = tree.value, tree.col_offset
        if isinstance(value, str):
            return _quoted(value, column)
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise _refused(tree)
        return Literal(Quantity.of(_number(value, column)), column)

    def _name(self, tree: ast.Name, _depth: int) -> Node:
        return Name(tree.id, tree.col_offset)

    def _unaryop(self, tree: ast.UnaryOp, depth: int) -> Node:
        if isinstance(tree.op, ast.UAdd):
            return self.node(tree.operand, depth)
        if not isinstance(tree.op, ast.USub):
            raise _refused(tree)
        return Minus(self.node(tree.operand, depth), tree.col_offset)

    def _binop(self, tree: ast.BinOp, depth: int) -> Node:
        left = self.node(tree.left, depth)
        if isinstance(tree.op, ast.Pow):
            return Power(left, _power(self.node(tree.right, depth)), tree.col_offset)
        if type(tree.op) not in _SIGNS:
            raise FormulaFault(
                "this sign is not in the formula language", "use + - * / **", column=tree.col_offset
            )
        return Operation(_SIGNS[type(tree.op)], left, self.node(tree.right, depth), tree.right.col_offset)

    def _compare(self, tree: ast.Compare, depth: int) -> Node:
        if any(type(sign) not in _ORDER for sign in tree.ops):
            raise FormulaFault(
                "this comparison is not in the formula language",
                "use < <= > >= == !=",
                column=tree.col_offset,
            )
        rest = tuple(
            (_ORDER[type(sign)], self.node(side, depth))
            for sign, side in zip(tree.ops, tree.comparators, strict=True)
        )
        return Comparison(self.node(tree.left, depth), rest, tree.col_offset)

    def _ifexp(self, tree: ast.IfExp, depth: int) -> Node:
        test, then, otherwise = (self.node(part, depth) for part in (tree.test, tree.body, tree.orelse))
        return Choice(test, then, otherwise, tree.col_offset)

    def _list(self, tree: ast.List, depth: int) -> Node:
        return Listed(tuple(self.node(item, depth) for item in tree.elts), tree.col_offset)

    def _call(self, tree: ast.Call, depth: int) -> Node:
        if not isinstance(tree.func, ast.Name) or tree.keywords:
            raise _refused(tree)
        function = self.functions.get(tree.func.id)
        if function is None:
            raise FormulaFault(
                f"there is no function '{tree.func.id}'",
                did_you_mean(tree.func.id, self.functions),
                column=tree.col_offset,
            )
        arguments = tuple(self.node(argument, depth) for argument in tree.args)
        _check_count(function, len(arguments), tree.col_offset)
        return Call(function, arguments, tree.col_offset)


def _refused(tree: ast.expr) -> FormulaFault:
    return FormulaFault(
        "this does not belong in a formula",
        "use names, numbers, quoted quantities, + - * / ** and functions",
        column=tree.col_offset,
    )


def _number(value: float, column: int) -> Fraction:
    try:
        number = Fraction(str(value))
    except ValueError as trouble:
        raise FormulaFault("the number is too large", column=column) from trouble
    if abs(number) >= 10**12:
        raise FormulaFault("the number is too large", "keep numbers below a million million", column=column)
    return number


def _quoted(text: str, column: int) -> Node:
    if not looks_like_quantity(text):
        return Word(text, column)
    try:
        return Literal(parse(text), column)
    except QuantityFault as fault:
        raise FormulaFault(fault.message, fault.remedy, column=column) from fault


def _power(node: Node) -> Fraction:
    power = _plain_number(node)
    if power is None:
        raise FormulaFault(
            "a power is a plain number, not a name or a sum", "write one such as x ** 2", column=node.column
        )
    if abs(power) > MOST_POWER or power.denominator > MOST_POWER:
        raise FormulaFault(
            f"the power {power} is out of range",
            f"powers go from -{MOST_POWER} to {MOST_POWER}",
            column=node.column,
        )
    return power


def _plain_number(node: Node) -> Fraction | None:
    """Return the number that 3, -3 or 1/3 stands for, None for anything else."""
    if isinstance(node, Literal):
        return Fraction(node.value.value) if node.value.unit_name == "" else None
    if isinstance(node, Minus):
        number = _plain_number(node.operand)
        return None if number is None else -number
    if isinstance(node, Operation) and node.sign == "/":
        above, below = _plain_number(node.left), _plain_number(node.right)
        return above / below if above is not None and below else None
    return None


def _check_count(function: Function, count: int, column: int) -> None:
    least, most = len(function.takes) - function.optional, len(function.takes)
    if count < least or (count > most and not function.repeats):
        wants = ", ".join(argument.name for argument in function.takes)
        raise FormulaFault(
            f"{function.name} takes {least if least == most else f'{least} to {most}'} value{'s' if most != 1 else ''}, not {count}",
            f"write {function.name}({wants})",
            column=column,
        )
