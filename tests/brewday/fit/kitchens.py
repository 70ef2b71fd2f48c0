"""Many recipes, and kitchens for each of them, by a name for the pair."""

from __future__ import annotations

from itertools import product

from designer.brewday.day import brew
from designer.brewday.fit.wish import FitWish, wish_for
from designer.library.recipe_file import load
from designer.recipe.document import Recipe
from tests.benchmarks import coverage_recipes
from tests.brewday.quantities import ONE_GRAIN_PORTER
from tests.some_cases import one_in


def recipes() -> dict[str, Recipe]:
    """Return the small porter, the example recipes and kinds unlike theirs."""
    return {"small porter": load(ONE_GRAIN_PORTER), **coverage_recipes.recipes()}


def pairs(
    pots_l: tuple[float, ...], room_shares: tuple[float, ...], count: int = 1
) -> dict[str, tuple[Recipe, FitWish]]:
    """Return each recipe with each pot, and a fermenter with room for such a share of its beer.

    With a `count` one pair in so many: of each recipe, each pot and each share.
    """
    found = {}
    table = product(enumerate(recipes().items()), enumerate(pots_l), enumerate(room_shares))
    for (row, (name, recipe)), (column, pot_l), (depth, share) in table:
        if not one_in(count, row + column + depth):
            continue
        brim_l = round(share * float(brew(recipe).fermenter.batch_l) / 0.85, 1)
        wish = wish_for(recipe, pot_l, (brim_l,))
        found[f"{name}, {pot_l:g} L pot, {brim_l:g} L fermenter"] = (recipe, wish)
    return found
