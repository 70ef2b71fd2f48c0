"""What became of the rows of a table, told by what they are known as."""

from __future__ import annotations

from collections.abc import Sequence


def in_common(one: Sequence[object], other: Sequence[object]) -> int:
    """Return how many members two rows of things have in common from their beginning."""
    number = 0
    for a, b in zip(one, other, strict=False):
        if a != b:
            break
        number += 1
    return number


def where_to(old: list[object], new: list[object], one_may_differ: bool) -> list[int] | None:
    """Return where each old row is among the new; None if rows are gone or come.

    If `one_may_differ`, one old row that is not among the new is taken to be the one that is left.
    """
    if len(old) != len(new):
        return None
    free = list(range(len(new)))
    rows: list[int] = []
    changed = -1
    for number, each in enumerate(old):
        found = next((place for place in free if new[place] == each), -1)
        if found >= 0:
            free.remove(found)
        elif changed >= 0 or not one_may_differ:
            return None
        else:
            changed = number
        rows.append(found)
    if changed >= 0:
        rows[changed] = free[0]
    return rows
