"""Many recipes, and kitchens for each of them, by a name for the pair."""

from __future__ import annotations

from itertools import product

from designer.brewday.day import brew
from designer.brewday.fit.wish import FitWish, wish_for
from designer.library.recipe_file import load
from designer.recipe.document import Recipe
from tests.benchmarks import coverage_recipes
from tests.brewday.quantities import ONE_GRAIN_PORTER


def recipes() -> dict[str, Recipe]:
    """Return the small porter, the example recipes and kinds unlike theirs."""
    return {"small porter": load(ONE_GRAIN_PORTER), **coverage_recipes.recipes()}


def pairs(
    pots_l: tuple[float, ...], room_shares: tuple[float, ...]
) -> dict[str, tuple[Recipe, FitWish]]:
    """Return each recipe with each pot, and a fermenter with room for such a share of its beer."""
    found = {}
    for (name, recipe), pot_l, share in product(recipes().items(), pots_l, room_shares):
        brim_l = round(share * float(brew(recipe).fermenter.batch_l) / 0.85, 1)
        wish = wish_for(recipe, pot_l, (brim_l,))
        found[f"{name}, {pot_l:g} L pot, {brim_l:g} L fermenter"] = (recipe, wish)
    return found
