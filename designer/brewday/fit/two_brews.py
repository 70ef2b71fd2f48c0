"""The half batch brewed twice: the fermenter takes half of the recipe, and weeks later the rest.

Each brew is the same plain day. What is needed is a second packet of yeast, later, and that the
other half of everything keeps until the fermenter is free.
"""

from __future__ import annotations

from dataclasses import replace
from math import floor

from designer.brewday.fit.changed_recipe import WATER_STEP_L
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.fermenters import cellar_for, most_owned_l
from designer.brewday.fit.fewer_hops import full_with_fewer_hops, hops_saved
from designer.brewday.fit.keeping import WEEK_DAYS
from designer.brewday.fit.leftovers import kept_for
from designer.brewday.fit.less_water import MOST_MISSING, in_litres
from designer.brewday.fit.one_boil import mark_of
from designer.brewday.fit.pot_limits import filled
from designer.brewday.fit.scraps import scraps_left
from designer.brewday.fit.smaller_batch import LEAST_BATCH_L
from designer.brewday.fit.two_boils import boiled, divided
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind

MOST_WEEKS = 8
"""What keeps for longer is no matter; a judgement, no source."""


def two_brews(kitchen: Kitchen) -> Draft | None:
    """Half of the recipe now, and the same again when the fermenter is free.

    None where the fermenters in hand take all of it, not even half of it, or the half does not
    boil: of two boils that is told.
    """
    whole = mark_of(kitchen)
    room = most_owned_l(kitchen.wish)
    mark = round(floor(min(whole / 2.0, room) / WATER_STEP_L + 1e-6) * WATER_STEP_L, 3)
    if room >= whole - 0.05 or mark < max((1.0 - MOST_MISSING) * whole / 2.0, LEAST_BATCH_L):
        return None
    held = kitchen
    if 2.0 * mark < whole - 2.0 * WATER_STEP_L - 1e-6:
        held = Kitchen(kitchen.wish, in_litres(kitchen.original, 2.0 * mark))
    made = _half(held, mark)
    if made is None:
        return None
    cellar = cellar_for(replace(kitchen.wish, may_buy_fermenter=False), mark)
    assert cellar is not None  # there is room for it
    return Draft(
        "two brews",
        (made, made),
        (cellar, cellar),
        3,
        say("two-brews", "The same half brewed twice, {0} each time", (Kind.VOLUME, mark)),
        steps=(
            say(
                "brew-half",
                "Weigh out half of everything as listed, for {0}, and brew it.",
                (Kind.VOLUME, number(made.process, "top_up_to")),
            ),
            _again(made),
            *hops_saved(kitchen.recipe, (made, made)),
        ),
        another_day=True,
        held=held.original,
    )


def _again(half: Recipe) -> Message:
    """Return when the other half is brewed: the fermenter has to be free, and the half to keep.

    Two weeks in the fermenter are common practice, no source.
    """
    limits = [each.keeping.days for each in kept_for(half) if each.keeping.days is not None]
    if not limits or min(limits) > MOST_WEEKS * WEEK_DAYS:
        return say(
            "brew-again",
            "When that beer is bottled, some two weeks later, brew the other half the same way.",
        )
    return say(
        "brew-again-within",
        "When that beer is bottled, some two weeks later, brew the other half the same way: it "
        "keeps for {weeks} weeks.",
        weeks=min(limits) // WEEK_DAYS,
    )


def _half(kitchen: Kitchen, mark_l: float) -> Recipe | None:
    """Return half of the recipe in the pot in hand, topped up to its mark."""
    pot = kitchen.wish.pot
    cellar = cellar_for(kitchen.wish, mark_l)
    part, _ = divided(kitchen.recipe, 0.5)
    if cellar is None:
        return None
    for fill in (full_with_fewer_hops, filled):
        made = boiled(kitchen, part, pot, cellar, mark_l, fill)
        if made is None or not scraps_left(kitchen.recipe, (made, made)):
            return made
    return None
