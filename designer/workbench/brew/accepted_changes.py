"""Changes of accepted proposals, as plain values of a log, made to the recipe that a brew keeps.

Values are texts as a recipe file holds them. What is damaged, or of a line that is gone, changes
nothing: a log is never refused for it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from designer.brewday.measured.line_levers import PutIn
from designer.errors import RefusedInputError
from designer.library.places import set_field
from designer.library.set_fields import with_field
from designer.recipe.document import LINE_TYPES, Fermentable, Recipe
from designer.recipe.message import say
from designer.recipe.named import lines_of
from designer.recipe.plan import recipe_of_boil
from designer.workbench.brew.entry_values import count_in, text_in, values_in

ACCEPTED = say("accepted", "take the advice")


def with_changes(recipe: Recipe, changes: object) -> Recipe:
    """Return the recipe with changes made, one after the other."""
    if not isinstance(changes, Iterable) or isinstance(changes, str):
        return recipe
    for each in changes:
        if isinstance(each, Mapping):
            recipe = _changed(recipe, each)
    return recipe


def _changed(recipe: Recipe, change: Mapping[str, Any]) -> Recipe:
    try:
        if "add" in change:
            return _with_line(recipe, change)
        place = _place(recipe, change)
        return set_field(recipe, place, text_in(change, "to")) if place else recipe
    except RefusedInputError:
        return recipe


def _place(recipe: Recipe, change: Mapping[str, Any]) -> str:
    """Return where the change is made, "" for nowhere."""
    field, boil = text_in(change, "field"), count_in(change, "boil", 0)
    if not field:
        return ""
    fermenter, lines = count_in(change, "fermenter", 0), text_in(change, "lines")
    if lines not in LINE_TYPES:
        if fermenter and recipe.fermenters:
            return f"fermenters.{fermenter}.{field}"
        return f"boils.{boil}.{field}" if boil and recipe.boils else f"process.{field}"
    is_own = bool(boil and boil <= len(recipe.boils))
    known = lines_of(recipe_of_boil(recipe, boil) if is_own else recipe, lines)
    line_id = count_in(change, "line_id", 0)
    number = next((at for at, each in enumerate(known, 1) if each.line_id == line_id), 0)
    if not number:
        return ""
    return f"boils.{boil}.{lines}.{number}.{field}" if is_own else f"{lines}.{number}.{field}"


def _with_line(recipe: Recipe, change: Mapping[str, Any]) -> Recipe:
    """Return the recipe with a fermentable more, under the line_id that it was given."""
    boil, line_id = count_in(change, "boil", 0), count_in(change, "line_id", 0)
    line = Fermentable(line_id=line_id)
    for key, text in values_in(change, "add").items():
        line = with_field(line, key, str(text), "fermentables")
    is_known = boil <= len(recipe.boils) if recipe.boils else boil == 0
    if line.amount is None or not line_id or not is_known:
        return recipe
    return PutIn("fermentables", line, max(boil, 1), ACCEPTED).apply(recipe)
