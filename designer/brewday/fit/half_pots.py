"""A larger pot filled as a smaller one would be, and of several fermenters the smallest left empty.

What comes nearest is sought way by way from a pot as full as it may be. Where that does not hold
the beer, amounts and shares that follow the fuller pot may lead away from it: so the pot is counted
as half as large, and half of that, and for each way the nearest is kept. With twice the pot nothing
is thus lost that was found in the smaller one. Nor is anything by one more fermenter, which wants
yeast of its own: where that has to be bought, it is left empty and looked whether that helps.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import NamedTuple

from designer.brewday.fit.buying import must_buy
from designer.brewday.fit.changed_recipe import quick_day
from designer.brewday.fit.draft_way import Draft, Kitchen, Tried
from designer.brewday.fit.original import VOLUME_WEIGHT, apart, missing_share, over_ceiling_ibu
from designer.brewday.fit.smaller_batch import most_batch_l
from designer.brewday.fit.wish import room_l, sized_pot
from designer.brewday.predictions import PREDICTIONS
from designer.brewday.results import Day
from designer.recipe.document import Pot, Recipe
from designer.wort.numeric import Numeric

LEAST_POT_L = 1.5
"""A pot that is counted as smaller boils nothing; a judgement, no source."""


def nearest_counts(
    kitchen: Kitchen, tried: Sequence[Tried], drafts: Callable[[Kitchen], list[Tried]]
) -> list[Tried]:
    """Return for each way the nearest draft there is, with what is in hand if one can be had so."""
    best = {each.key: each for each in tried}
    place = {each.key: _place(kitchen, each) for each in tried if isinstance(each, Draft)}

    def keep_nearer(found: Draft) -> None:
        if found.key not in place or _place(kitchen, found) < place[found.key]:
            best[found.key] = found
            place[found.key] = _place(kitchen, found)

    owned = sorted(kitchen.wish.fermenters, key=room_l, reverse=True)
    at_once = [place[key] for key in place if key != "two brews"]
    if len(owned) > 1 and min(at_once, default=_NOWHERE).buys:
        fewer = Kitchen(replace(kitchen.wish, fermenters=tuple(owned[:-1])), kitchen.original)
        for each in nearest_counts(fewer, drafts(fewer), drafts):
            if isinstance(each, Draft) and (each.key in best or not each.another_day):
                keep_nearer(each)
    pot = kitchen.wish.pot
    size = 0.0 if pot.volume is None else pot.volume.value / 2.0
    while size >= LEAST_POT_L and _may_be_nearer(kitchen, best, place):
        counted = sized_pot(pot, size)
        smaller = Kitchen(replace(kitchen.wish, pot=counted, counted_for=pot), kitchen.original)
        for each in drafts(smaller):
            if isinstance(each, Draft):
                keep_nearer(_in_its_pot(each, counted, pot))
        size /= 2.0
    return list(best.values())


class _Place(NamedTuple):
    """Where a draft stands among others of its kind: the least is the best.

    `far` is how far its beer is by what can be told of the recipe's own, `apart` by a kitchen's
    instruments.
    """

    buys: bool
    far: float
    apart: float


_NOWHERE = _Place(True, float("inf"), float("inf"))


def _place(kitchen: Kitchen, draft: Draft) -> _Place:
    values, batch_l, over_ibu = _together(kitchen, draft)
    day = kitchen.held_by(draft).day
    return _Place(
        any(not each.later for each in must_buy(kitchen, draft)),
        apart(day, values, batch_l, over_ibu, kitchen.original.forecasts),
        apart(day, values, batch_l, over_ibu),
    )


def _may_be_nearer(kitchen: Kitchen, best: dict[str, Tried], place: dict[str, _Place]) -> bool:
    """Tell whether the best way is off by more than its volume, which less water never mends.

    A smaller batch is off by more where the fermenters would hold more of it. One that wants
    something bought is not the best while one that wants nothing may be found.
    """
    nearest = min(place, key=lambda key: place[key], default=None)
    draft = None if nearest is None else best[nearest]
    if nearest is None or not isinstance(draft, Draft) or place[nearest].buys:
        return True
    litres = draft.litres_at_once(
        [float(quick_day(each).fermenter.batch_l) for each in draft.recipes]
    )
    if nearest == "smaller batch":
        litres = max(litres, most_batch_l(kitchen))
    missing = missing_share(kitchen.original.batch_l, litres)
    return place[nearest].apart > round(VOLUME_WEIGHT * missing, 1)


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


def _together(kitchen: Kitchen, draft: Draft) -> tuple[dict[str, float], float, float]:
    """Return forecasts of all boils together, their volume, and bitterness beyond what pots carry.

    The last is of the pot that is worst.
    """
    days = [quick_day(each) for each in dict.fromkeys(draft.recipes)]
    if len(days) < len(draft.recipes):
        days = days * len(draft.recipes)
    volumes = [float(day.fermenter.batch_l) for day in days]
    whole = max(sum(volumes), 1e-9)

    def mean(value: Callable[[Day], Numeric]) -> float:
        pairs = zip(days, volumes, strict=True)
        return sum(float(value(day)) * litres for day, litres in pairs) / whole

    most_ibu = max(float(day.fermenter.pot_ibu) for day in days)
    return (
        {each.key: mean(each.compute) for each in PREDICTIONS},
        draft.litres_at_once(volumes),
        over_ceiling_ibu(kitchen.original.day, most_ibu),
    )
