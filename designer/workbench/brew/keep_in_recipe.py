""" "Keep this in the recipe": the edit that makes a recipe what was brewed of it.

It is a command of its own and one undo step: no reading and no accepted proposal changes a recipe
by itself.
"""

from __future__ import annotations

from designer.brewday.fit.changed_recipe import edit_between
from designer.recipe.document import PLAN_TYPES, Recipe
from designer.recipe.edits import ChangeRecipe, Edit, Together
from designer.recipe.named import value_of
from designer.workbench.brew.as_brewed import (
    AS_BREWED,
    as_brewed,
)
from designer.workbench.brew.brewing import Brewing


def kept_in_recipe(recipe: Recipe, brewing: Brewing) -> Edit:
    """Return the edit that makes of a recipe what the brew made of it; empty where that is it.

    Lines that the recipe no longer has stay away.
    """
    made = as_brewed(recipe, brewing)
    found = edit_between(recipe, made, AS_BREWED)
    plan = tuple(
        ChangeRecipe(name, value_of(made, name), AS_BREWED)
        for name in PLAN_TYPES
        if value_of(recipe, name) != value_of(made, name)
    )
    return Together((*found.edits, *plan), AS_BREWED)
