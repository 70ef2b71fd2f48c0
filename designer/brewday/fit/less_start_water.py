"""Less water to start than the pot takes, where that comes nearer to the beer.

A fuller pot boils a weaker wort, which draws more from hops and from a kit's tin. Where their
amounts cannot follow (a kit is locked, a weight is rounded) the fullest boil is not the nearest:
so a larger pot would make another beer, though it may be filled just as the smaller one was.
"""

from __future__ import annotations

from dataclasses import replace

from designer.brewday.fit.changed_recipe import WATER_STEP_L, quick_day, with_water
from designer.brewday.fit.original import VOLUME_WEIGHT, Far, Original, missing_share
from designer.brewday.fit.pot_limits import is_syrup, least_water_l, own_water_l
from designer.brewday.search import least
from designer.recipe.document import Recipe

COARSE_L = 2.0
_SYRUP = Far(float("inf"), float("inf"))


def nearest_water(recipe: Recipe, original: Original, *, gravity_follows: bool = False) -> Recipe:
    """Return the recipe with its own water or less, whichever comes nearest to the original.

    Looked for in coarse steps and then in finer ones about the best, by what ways are put in order
    by; among equals by a kitchen's instruments, and then the fuller pot. What only a larger volume
    would bring nearer is not looked for. With `gravity_follows` the gravity does not count: amounts
    will be sought anew to hold it.
    """
    most = round(own_water_l(recipe) / WATER_STEP_L)
    low = int(-(-least_water_l(recipe) // WATER_STEP_L))
    known: dict[int, Far] = {}

    def far(steps: int) -> Far:
        if steps not in known:
            tried = recipe if steps == most else with_water(recipe, round(steps * WATER_STEP_L, 3))
            day = quick_day(tried)
            if gravity_follows:
                wanted = original.day.beer.original_gravity
                day = replace(day, beer=replace(day.beer, original_gravity=wanted))
            known[steps] = _SYRUP if is_syrup(day, original) else original.far(day)
        return known[steps]

    if far(most).apart <= _for_volume(recipe, original):
        return recipe
    best = least(far, low, most, round(COARSE_L / WATER_STEP_L))
    return recipe if far(best) >= far(most) else with_water(recipe, round(best * WATER_STEP_L, 3))


def _for_volume(recipe: Recipe, original: Original) -> float:
    """Return how far the beer is away for its volume alone, which water in the pot cannot mend."""
    litres = float(quick_day(recipe).fermenter.batch_l)
    return round(VOLUME_WEIGHT * missing_share(original.batch_l, litres), 1)
