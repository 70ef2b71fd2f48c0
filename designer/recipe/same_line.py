"""Which line of one list is the line of another: by what it is, its name and its time."""

from __future__ import annotations

from typing import Any

from designer.recipe.same_name import is_same_name


def partner_of(line: Any, others: list[Any]) -> Any:
    """Return the line among others that it became; None where there is none.

    The same, else of the same name and time, else of the same name.
    """
    for same in (
        lambda each: each == line,
        lambda each: is_same_name(each.name, line.name) and each.when == line.when,
        lambda each: is_same_name(each.name, line.name),
    ):
        found = next((each for each in others if same(each)), None)
        if found is not None:
            return found
    return None
