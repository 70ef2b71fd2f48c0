"""Where a change stands, and by which lines of the program a test comes to it.

What stands in the body of a function is come to by running its statement. What is worked out as a
module is loaded (a constant, a table, a default) is come to by running lines that name it.
"""

import ast
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.mutation.changes import Change

Lines = dict[str, set[int]]
"""Lines by the path of their module."""

HAS_BODY = (
    ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef, ast.If, ast.For, ast.While, ast.With,
    ast.Try,
)  # fmt: skip
FUNCTIONS = (ast.FunctionDef, ast.AsyncFunctionDef)


@dataclass(frozen=True)
class Place:
    """Where a change stands: in a function that is run, or in what loading works out."""

    in_function: bool
    lines: tuple[tuple[str, frozenset[int]], ...]


@cache
def _parsed(module: Path) -> ast.Module:
    return ast.parse(module.read_text("utf-8"))


def place_of(module: Path, change: Change, modules: Iterable[Path]) -> Place:
    """Return the place of a change; `modules` are those in which its name is looked for."""
    around = [
        each
        for each in ast.walk(_parsed(module))
        if isinstance(each, ast.stmt) and each.lineno <= change.line <= (each.end_lineno or 0)
    ]
    around.sort(key=lambda each: (each.end_lineno or 0) - each.lineno, reverse=True)
    inmost = around[-1]
    own = {str(module): _head(inmost)}
    if any(isinstance(each, FUNCTIONS) for each in around[:-1]):
        return _place(True, own)
    if isinstance(inmost, FUNCTIONS):
        if change.line >= inmost.body[0].lineno:  # A function of one line.
            return _place(True, own)
        return _place(False, {str(module): set(range(inmost.lineno, inmost.end_lineno or 0))})
    reached: Lines = defaultdict(set)
    for each in around:
        for name in _names(each):
            for other in modules:
                reached[str(other)] |= _lines_naming(other).get(name, set())
    return _place(False, reached)


def _place(in_function: bool, lines: Lines) -> Place:
    return Place(in_function, tuple((path, frozenset(some)) for path, some in lines.items()))


def _head(statement: ast.stmt) -> set[int]:
    last = statement.end_lineno or statement.lineno
    if isinstance(statement, HAS_BODY):
        last = max(statement.lineno, statement.body[0].lineno - 1)
    return set(range(statement.lineno, last + 1))


def _names(statement: ast.stmt) -> set[str]:
    if isinstance(statement, ast.ClassDef):
        return {statement.name}
    if isinstance(statement, ast.Assign | ast.AnnAssign):
        to = statement.targets if isinstance(statement, ast.Assign) else [statement.target]
        return {name.id for each in to for name in ast.walk(each) if isinstance(name, ast.Name)}
    return set()


@cache
def _lines_naming(module: Path) -> dict[str, set[int]]:
    named: dict[str, set[int]] = defaultdict(set)
    for node in ast.walk(_parsed(module)):
        if isinstance(node, ast.Name):
            named[node.id].add(node.lineno)
        elif isinstance(node, ast.Attribute):
            named[node.attr].add(node.end_lineno or node.lineno)
    return named
