"""A larger pot filled as a smaller one would be.

What comes nearest is sought way by way from a pot as full as it may be. Where that does not hold
the beer, amounts and shares that follow the fuller pot may lead away from it: so the pot is counted
as half as large, and half of that, and for each way the nearest is kept. With twice the pot nothing
is thus lost that was found in the smaller one.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from designer.brewday.fit.changed_recipe import quick_day
from designer.brewday.fit.draft_way import Draft, Kitchen, Tried
from designer.brewday.fit.original import VOLUME_WEIGHT, apart, missing_share, over_ceiling_ibu
from designer.brewday.fit.smaller_batch import most_batch_l
from designer.brewday.fit.wish import sized_pot
from designer.brewday.predictions import PREDICTIONS
from designer.brewday.results import Day
from designer.recipe.document import Pot, Recipe
from designer.wort.numeric import Numeric

LEAST_POT_L = 1.5
"""A pot that is counted as smaller boils nothing; a judgement, no source."""


def nearest_counts(
    kitchen: Kitchen, tried: Sequence[Tried], drafts: Callable[[Kitchen], list[Tried]]
) -> list[Tried]:
    """Return for each way the nearest draft there is, of the pot's size or counted as smaller."""
    pot = kitchen.wish.pot
    best = {each.key: each for each in tried}
    far = {each.key: _apart(kitchen, each) for each in tried if isinstance(each, Draft)}
    size = 0.0 if pot.volume is None else pot.volume.value / 2.0
    while size >= LEAST_POT_L and _may_be_nearer(kitchen, best, far):
        counted = sized_pot(pot, size)
        smaller = Kitchen(replace(kitchen.wish, pot=counted, counted_for=pot), kitchen.original)
        for each in drafts(smaller):
            if isinstance(each, Draft) and _apart(kitchen, each) < far.get(each.key, float("inf")):
                best[each.key] = _in_its_pot(each, counted, pot)
                far[each.key] = _apart(kitchen, each)
        size /= 2.0
    return list(best.values())


def _may_be_nearer(kitchen: Kitchen, best: dict[str, Tried], far: dict[str, float]) -> bool:
    """Tell whether the nearest way is off by more than its volume, which less water never mends.

    A smaller batch is off by more where the fermenters would hold more of it.
    """
    nearest = min(far, key=lambda key: far[key], default=None)
    draft = None if nearest is None else best[nearest]
    if nearest is None or not isinstance(draft, Draft):
        return True
    litres = sum(float(quick_day(each).fermenter.batch_l) for each in draft.recipes)
    if nearest == "smaller batch":
        litres = max(litres, most_batch_l(kitchen))
    missing = missing_share(kitchen.original.batch_l, litres)
    return far[nearest] > round(VOLUME_WEIGHT * missing, 1)


def _in_its_pot(draft: Draft, counted: Pot, pot: Pot) -> Draft:
    """Return the draft with the pot there is in place of the one that was counted with."""

    def back(recipe: Recipe) -> Recipe:
        if recipe.pot.name != counted.name or recipe.pot.volume != counted.volume:
            return recipe
        there = replace(
            recipe.pot,
            name=pot.name,
            volume=pot.volume,
            diameter=pot.diameter,
            heat_loss=pot.heat_loss,
        )  # a lid may have changed its room for foam
        return replace(recipe, pot=there)

    return replace(draft, recipes=tuple(back(each) for each in draft.recipes))


def _apart(kitchen: Kitchen, draft: Draft) -> float:
    """Return how far the beer of all boils together is from the original."""
    days = [quick_day(each) for each in dict.fromkeys(draft.recipes)]
    if len(days) < len(draft.recipes):
        days = days * len(draft.recipes)
    volumes = [float(day.fermenter.batch_l) for day in days]
    whole = max(sum(volumes), 1e-9)

    def mean(value: Callable[[Day], Numeric]) -> float:
        pairs = zip(days, volumes, strict=True)
        return sum(float(value(day)) * litres for day, litres in pairs) / whole

    return apart(
        kitchen.original.day,
        {each.key: mean(each.compute) for each in PREDICTIONS},
        sum(volumes),
        over_ceiling_ibu(kitchen.original.day, max(float(day.fermenter.pot_ibu) for day in days)),
    )
