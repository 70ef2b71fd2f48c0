"""All of the recipe in a little less water, where the fermenters in hand miss its mark by little.

No tin is divided and no vessel bought for half a litre: it is the beer of the recipe but for the
water, in gravity, bitterness and colour a little fuller, all in proportion. So what is held is not
the original but the original in less water, and nothing of that counts as another beer.
"""

from __future__ import annotations

from dataclasses import replace

from designer.brewday.fit.changed_recipe import quick_day
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.fermenters import most_owned_l
from designer.brewday.fit.one_boil import mark_of, one_boil
from designer.brewday.fit.original import Original
from designer.brewday.fit.smaller_batch import LEAST_BATCH_L, most_batch_l
from designer.recipe.message import plain_figure, say
from designer.recipe.quantity import Kind
from designer.wort.colour import morey

MOST_MISSING = 0.10
"""With a tenth less water a beer of 1.043 becomes one of 1.048, which drinkers call fuller and not
another: a tin is topped up to more or less by about that much. A judgement; common practice, no
source."""


def in_less_water(kitchen: Kitchen) -> Kitchen | None:
    """Return the kitchen that holds the beer at the mark its fermenters take, buying none.

    None where they take all of it, or miss it by too much.
    """
    batch = kitchen.original.batch_l
    most = most_batch_l(kitchen)
    if most_owned_l(kitchen.wish) >= mark_of(kitchen) - 0.05 or most < LEAST_BATCH_L:
        return None
    if most < (1.0 - MOST_MISSING) * batch:
        return None
    return Kitchen(
        replace(kitchen.wish, may_buy_fermenter=False), in_litres(kitchen.original, most)
    )


def in_litres(original: Original, batch_l: float) -> Original:
    """Return the original as if so much less water were in it; its recipe stays what is written."""
    day = original.day
    fuller = original.batch_l / batch_l
    beer = replace(
        day.beer,
        original_gravity=1.0 + (float(day.beer.original_gravity) - 1.0) * fuller,
        bitterness_ibu=float(day.beer.bitterness_ibu) * fuller,
        colour_srm=float(day.beer.colour_srm) * float(morey(fuller) / morey(1.0)),
    )
    less = replace(day, beer=beer, fermenter=replace(day.fermenter, batch_l=batch_l))
    return replace(original, day=less)


def less_water(kitchen: Kitchen, fuller: Kitchen) -> Draft | None:
    """All in one boil, topped up to what the fermenters in hand hold; None where it does not go."""
    made = one_boil(fuller)
    if not isinstance(made, Draft):
        return None
    gist = say("less-water", "All of the recipe, no tin divided and no vessel bought")
    return held_fuller(kitchen, replace(made, key="less water", effort=1, gist=gist), fuller)


def held_fuller(kitchen: Kitchen, draft: Draft, fuller: Kitchen) -> Draft:
    """Return a draft made for less water, which says so and is held against that beer."""
    days = [quick_day(each) for each in draft.recipes]
    litres = [float(day.fermenter.batch_l) for day in days]
    points = [float(day.beer.original_gravity) - 1.0 for day in days]
    extract = sum(each * volume for each, volume in zip(points, litres, strict=True))
    volumes = (Kind.VOLUME, sum(litres)), (Kind.VOLUME, kitchen.original.batch_l)
    now = Kind.GRAVITY, 1.0 + extract / sum(litres)
    before = Kind.GRAVITY, float(kitchen.original.day.beer.original_gravity)
    step = (
        say(
            "top-up-less-alike",
            "All of it goes in and is topped up to {0} instead of {1}; at {2} its gravity stays.",
            *volumes,
            now,
        )
        if plain_figure(*now) == plain_figure(*before)
        else say(
            "top-up-less",
            "All of it goes in and is topped up to {0} instead of {1}: {2} instead of {3}.",
            *volumes,
            now,
            before,
        )
    )
    return replace(draft, held=fuller.original, steps=(*draft.steps, step))
