"""What a kitchen had taught when a brew began, as plain values of its log, and back.

So a figure that is taken, or given back, later changes no brew that had begun before.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from designer.recipe.document import Recipe
from designer.recipe.fields import facts_of
from designer.recipe.quantity import TaughtQuantity
from designer.recipe.taught import Filled, Path, filled_with, value_at
from designer.workbench.brew.entry_values import count_in, number_in, text_in

KEY = "taught"
"""Of the values of the entry that a brew begins with."""
_FIELDS = ("evaporation", "left_in_pot", "cooling_constant", "steep_yield", "extract_got",
           "marks_hold", "attenuation", "hydrometer_in_water", "wort_correction")  # fmt: skip
"""What a kitchen teaches; no other field is filled, whatever a log says."""
_PARTS = ("process", "fermenter", "yeast", "boils", "fermenters")


def values_of_taught(fills: Iterable[Filled]) -> list[dict[str, Any]]:
    """Return the plain values of what was reckoned with in empty fields."""
    return [
        {
            "at": list(each.path),
            "value": each.quantity.value,
            "text": each.quantity.text,
            "spread": each.quantity.spread,
            "brews": each.quantity.brews,
        }
        for each in fills
    ]


def with_taught_at_start(recipe: Recipe, began: Mapping[str, Any]) -> Recipe:
    """Return the recipe of a brew as the values of its beginning fill it."""
    told = began.get(KEY)
    if not isinstance(told, list) or not told:
        return recipe
    return filled_with(recipe, _fills(recipe, told))


def _fills(recipe: Recipe, told: Iterable[object]) -> Iterator[Filled]:
    """Yield what can be read of it; what a later program teaches, or is damaged, is left out."""
    for each in told:
        if not isinstance(each, Mapping):
            continue
        path, value = _path(each.get("at")), number_in(each, "value")
        part = value_at(recipe, path[:-1]) if path else None
        if value is None or part is None or not hasattr(part, str(path[-1])):
            continue
        facts = facts_of(part, str(path[-1]))
        if facts.low <= value <= facts.high:
            spread, brews = number_in(each, "spread"), count_in(each, "brews", 0)
            quantity = TaughtQuantity(value, text_in(each, "text"), spread, brews=brews)
            yield Filled(path, quantity)


def _path(told: object) -> Path:
    """Return the way to a field; none for one that leads elsewhere."""
    if not isinstance(told, list) or len(told) < 2 or told[0] not in _PARTS:
        return ()
    first, *middle, last = told
    is_way = all(type(each) is int or each in ("fermenter", "yeast") for each in middle)
    return (first, *middle, last) if is_way and last in _FIELDS else ()
