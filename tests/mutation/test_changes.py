"""Each change of code is one that a test could see, and nothing else of a module is touched."""

import ast

import pytest

from tests.mutation.changes import changed, changes_in

SOURCE = '''
"""A boil."""
from dataclasses import dataclass

LIMIT_L: float | None = 9.0
Litres = float | int
__all__ = ["left_l"]

def left_l(start_l: float, gone: int = 3, boils: bool = True) -> float | None:
    """Return 1 + 1."""
    if start_l > 10 and boils or not gone:
        return start_l - 0.5 * gone
    for number, _ in zip((1.0, 2.0), "ab", strict=True):
        start_l += number
    return -start_l
'''


def left(tree):
    names = {}
    exec(compile(tree, "boil", "exec"), names)
    given = [(10, 3, True), (11, 3, True), (11, 3, False), (2, 1, False), (9, 0, False)]
    try:
        found = [names["left_l"](*each) for each in given]
    except ZeroDivisionError:
        found = ["divided by nothing"]
    return [names["LIMIT_L"], *found, names["left_l"](11)]


def test_every_kind_of_change_is_made_where_it_can_be_and_nowhere_else():
    made = [(each.kind, each.line) for each in changes_in(SOURCE)]
    assert sorted(made) == sorted([
        ("number", 5), ("number", 9), ("number", 9),
        ("condition", 11), ("and or or", 11), ("and or or", 11), ("comparison", 11),
        ("number", 11), ("sign", 11),
        ("returned", 12), ("operator", 12), ("operator", 12), ("number", 12),
        ("number", 13), ("number", 13), ("operator", 14), ("returned", 15), ("sign", 15),
    ])  # fmt: skip


@pytest.mark.parametrize("change", changes_in(SOURCE), ids=lambda each: f"{each.node}-{each.kind}")
def test_a_change_is_one_that_calling_it_shows(change):
    assert left(changed(SOURCE, change)) != left(ast.parse(SOURCE))
