"""What a kitchen taught, put into the empty fields of a recipe, and taken out of them again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any

from designer.recipe.document import Recipe
from designer.recipe.quantity import TaughtQuantity

Path = tuple[str | int, ...]
"""The way to a field: names of parts, places in lists."""
_PARTS = ("pot", "fermenter", "process", "yeast", "boils", "fermenters")


@dataclass(frozen=True, slots=True)
class Filled:
    """A field of a recipe, by the way to it, and what was taught for it."""

    path: Path
    quantity: TaughtQuantity


def value_at(recipe: object, path: Path) -> Any:
    """Return what stands at the end of a way; None where it leads nowhere."""
    found: Any = recipe
    for step in path:
        if isinstance(step, int):
            found = found[step] if isinstance(found, tuple) and 0 <= step < len(found) else None
        else:
            found = getattr(found, step, None)
    return found


def filled_with(recipe: Recipe, fills: Iterable[Filled]) -> Recipe:
    """Return a recipe with what was taught in those of its fields that are empty."""
    for each in fills:
        if value_at(recipe, each.path) is None and value_at(recipe, each.path[:-1]) is not None:
            recipe = _put(recipe, each.path, each.quantity)
    return recipe


def replaced_with(recipe: Recipe, fills: Iterable[Filled], *, as_typed: bool = False) -> Recipe:
    """Return a recipe with what was taught in place of whatever stands in those fields."""
    for each in fills:
        value = each.quantity.as_typed() if as_typed else each.quantity
        recipe = _put(recipe, each.path, value)
    return recipe


def without_taught(recipe: Recipe) -> Recipe:
    """Return a recipe whose fields are empty again where what stood in them was taught."""
    for path in _taught_in(recipe):
        recipe = _put(recipe, path, None)
    return recipe


def _taught_in(part: object, path: Path = ()) -> Iterator[Path]:
    if isinstance(part, TaughtQuantity):
        yield path
    elif isinstance(part, tuple):
        for place, each in enumerate(part):
            yield from _taught_in(each, (*path, place))
    elif is_dataclass(part):
        names = _PARTS if not path else tuple(each.name for each in fields(part))
        for name in names:
            value = getattr(part, name)
            if value is not None and not isinstance(value, (str, int)):
                yield from _taught_in(value, (*path, name))


def _put(part: Any, path: Path, value: object) -> Any:
    step, *rest = path
    if isinstance(step, int):
        inner = value if not rest else _put(part[step], tuple(rest), value)
        return (*part[:step], inner, *part[step + 1 :])
    inner = value if not rest else _put(getattr(part, step), tuple(rest), value)
    return replace(part, **{step: inner})
