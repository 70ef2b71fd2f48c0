"""Lists, parts and fields of a recipe by their declared names; any other name is refused."""

from __future__ import annotations

from typing import Any

from designer.recipe.document import (
    LINE_TYPES,
    PART_TYPES,
    Extra,
    Fermentable,
    Fermenter,
    Hop,
    Leaflet,
    Methods,
    Pot,
    Process,
    Recipe,
    Yeast,
)

Line = Fermentable | Hop | Extra
Part = Pot | Fermenter | Process | Methods | Yeast | Leaflet


def lines_of(recipe: Recipe, name: str) -> tuple[Line, ...]:
    """Return the lines of one of the lists; KeyError if no list has that name."""
    if name not in LINE_TYPES:
        raise KeyError(name)
    lines: tuple[Line, ...] = getattr(recipe, name)
    return lines


def part_of(recipe: Recipe, name: str) -> Part:
    """Return a part that is no list; KeyError if no part has that name."""
    if name not in PART_TYPES:
        raise KeyError(name)
    part: Part = getattr(recipe, name)
    return part


def value_of(part: Recipe | Part | Line, name: str) -> Any:
    """Return what a field holds; KeyError if none of that name is declared."""
    if name not in part.__dataclass_fields__:
        raise KeyError(name)
    return getattr(part, name)


def is_locked(line: Line | None) -> bool:
    """Whether aiming and fitting are not to change a line; extras have no lock."""
    return isinstance(line, Fermentable | Hop) and line.locked


def has_locked(recipe: Recipe) -> bool:
    """Whether any line is locked, as those of a kit are."""
    return any(map(is_locked, recipe.fermentables)) or any(map(is_locked, recipe.hops))
