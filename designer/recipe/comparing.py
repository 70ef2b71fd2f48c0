"""What differs between two recipes, line by line, in a brewer's words."""

from __future__ import annotations

from collections.abc import Iterator

from designer.recipe.comparing_parts import Difference, fields_that_differ, lines_that_differ
from designer.recipe.comparing_plans import plans_that_differ
from designer.recipe.document import LINE_TYPES, PART_TYPES, Recipe
from designer.recipe.named import lines_of, part_of, value_of
from designer.translation import message, tr


def differences(before: Recipe, after: Recipe) -> tuple[Difference, ...]:
    """Return all that differs, in the order of the document; lines are matched by name and time."""
    return tuple(_all(before, after))


def _all(before: Recipe, after: Recipe) -> Iterator[Difference]:
    for name, label in (
        ("name", message("Name")),
        ("style", message("Style")),
        ("notes", message("Notes")),
    ):
        first, second = value_of(before, name), value_of(after, name)
        if first != second:
            yield Difference(tr(label), first, second)
    for lines in LINE_TYPES:
        yield from lines_that_differ(lines_of(before, lines), lines_of(after, lines))
    for part in PART_TYPES:
        yield from fields_that_differ(part_of(before, part), part_of(after, part))
    yield from plans_that_differ(before, after)
