"""The small changes that are made to code, one at a time, to see whether a test notices.

A comparison, an operator, a number, a condition, a returned value. Left alone is what no test can
see: types, docstrings and other texts, decorators, `strict=` of a zip, `__all__`.
"""

import ast
import copy
from collections.abc import Iterator
from dataclasses import dataclass

COMPARISONS = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq, ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
}  # fmt: skip
OPERATORS = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult, ast.Pow: ast.Mult,
    ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd,
}  # fmt: skip
UNSEEN_FIELDS = {"annotation", "returns", "decorator_list", "type_params"}


@dataclass(frozen=True)
class Change:
    """One change: the how-manieth node of a walk, the field of it, and in words."""

    node: int
    kind: str
    line: int
    words: str


def nodes_of(tree: ast.AST) -> Iterator[ast.AST]:
    """Yield what is worth changing, in an order that a copy of the tree has as well."""
    for name, value in ast.iter_fields(tree):
        if name in UNSEEN_FIELDS:
            continue
        for each in value if isinstance(value, list) else [value]:
            if isinstance(each, ast.AST) and not _unseen(each):
                yield each
                yield from nodes_of(each)


def _unseen(node: ast.AST) -> bool:
    if isinstance(node, ast.If):
        return isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"
    if isinstance(node, ast.Assign):
        types = isinstance(node.value, ast.BinOp) and isinstance(node.value.op, ast.BitOr)
        return types or any(isinstance(to, ast.Name) and to.id == "__all__" for to in node.targets)
    return isinstance(node, ast.keyword) and node.arg == "strict"


def changes_in(source: str) -> list[Change]:
    """Return every change that can be made to a module."""
    found = []
    for number, node in enumerate(nodes_of(ast.parse(source))):
        for kind in _kinds(node):
            words = ast.unparse(node.test if kind == "condition" else node)  # type: ignore[attr-defined]
            line = getattr(node, "lineno", 0)
            found.append(Change(number, kind, line, f"{kind}: {words.splitlines()[0][:70]}"))
    return found


def _kinds(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Compare) and type(node.ops[0]) in COMPARISONS:
        yield "comparison"
    elif isinstance(node, ast.BinOp | ast.AugAssign) and type(node.op) in OPERATORS:
        yield "operator"
    elif isinstance(node, ast.BoolOp):
        yield "and or or"
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub | ast.Not):
        yield "sign"
    elif isinstance(node, ast.Constant) and isinstance(node.value, bool | int | float):
        yield "number"
    elif isinstance(node, ast.If | ast.IfExp | ast.While):
        yield "condition"
    elif isinstance(node, ast.Return) and not _is_none(node.value):
        yield "returned"


def _is_none(value: ast.expr | None) -> bool:
    return value is None or (isinstance(value, ast.Constant) and value.value is None)


def changed(source: str, change: Change) -> ast.Module:
    """Return a module with one change made to it."""
    tree = copy.deepcopy(ast.parse(source))
    for number, node in enumerate(nodes_of(tree)):
        if number == change.node:
            _change(node, change.kind)
            break
    return ast.fix_missing_locations(tree)


def _change(node: ast.AST, kind: str) -> None:
    match kind, node:
        case "comparison", ast.Compare():
            node.ops[0] = COMPARISONS[type(node.ops[0])]()
        case "operator", ast.BinOp() | ast.AugAssign():
            node.op = OPERATORS[type(node.op)]()
        case "and or or", ast.BoolOp():
            node.op = ast.And() if isinstance(node.op, ast.Or) else ast.Or()
        case "sign", ast.UnaryOp():
            twice = isinstance(node.op, ast.Not)
            node.op = ast.Not() if twice else ast.UAdd()
            if twice:
                node.operand = ast.UnaryOp(ast.Not(), node.operand)
        case "number", ast.Constant():
            node.value = _other(node.value)
        case "condition", ast.If() | ast.IfExp() | ast.While():
            node.test = ast.UnaryOp(ast.Not(), node.test)
        case "returned", ast.Return():
            node.value = ast.Constant(None)


def _other(value: object) -> bool | int | float:
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return value + 1
    assert isinstance(value, float)
    return value * 1.25 if value else 1.0
