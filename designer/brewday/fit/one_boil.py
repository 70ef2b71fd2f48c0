"""Ways that boil the whole recipe at once: concentrated and topped up, or with extract late."""

from __future__ import annotations

from dataclasses import replace
from math import floor

from designer.brewday.fit.answer import NoWay
from designer.brewday.fit.changed_recipe import WATER_STEP_L, quick_day, with_mark
from designer.brewday.fit.draft_way import (
    NAMES,
    Draft,
    Kitchen,
    Tried,
    in_kitchen,
    no_way,
    with_freezer,
)
from designer.brewday.fit.fermenters import brim_for, cellar_for, no_room_for_beer
from designer.brewday.fit.late_extract import held_late
from designer.brewday.fit.original import OG_DEADBAND
from designer.brewday.fit.pot_limits import as_written, filled, foam_limit, own_water_l
from designer.brewday.search import last_that_passes
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.recipe.message import listed, say
from designer.recipe.quantity import Kind

LEAST_GAIN_IBU = 0.5
"""Less is not worth a word."""
MARK_TURNS = 3
"""How often the mark is lowered at the most, until gravity, hops and water agree."""


def one_boil(kitchen: Kitchen) -> Tried:
    """One boil as full as the pot allows, topped up in the fermenter to the original volume."""
    batch = mark_of(kitchen)
    cellar = cellar_for(kitchen.wish, batch)
    if cellar is None:
        return _no_fermenter("one boil", kitchen, batch)
    start = in_kitchen(kitchen, cellar, batch)
    if as_written(start):
        made: Recipe | None = start
    else:
        made = filled(start, kitchen.original, own_water_l(start))
    if made is None:
        return no_way(
            "one boil",
            "not-at-once",
            "The pot does not boil all of it at once: with {0} for wort below its foam line it "
            "would be a syrup, or not go in at all.",
            (Kind.VOLUME, foam_limit(kitchen.wish.pot)),
        )
    made = gravity_held(kitchen, made)
    if made is not start or kitchen.wish.most_frozen_kg is not None:
        made = with_freezer(kitchen, made)
    as_it_is = made == start and cellar.bought == 0
    gist = say(
        "one-boil",
        "It fits as it is written"
        if as_it_is
        else "All of the recipe in one concentrated boil, thinned with water in the fermenter",
    )
    return Draft("one boil", (made,), (cellar,), 0 if as_it_is else 1, gist)


def mark_of(kitchen: Kitchen) -> float:
    """Return the mark that makes the original's volume: its own, or else what its pot gives."""
    typed = kitchen.recipe.process.top_up_to
    batch = kitchen.original.batch_l
    if typed is not None and abs(typed.value - batch) < 0.02:
        return typed.value
    return floor(batch / WATER_STEP_L + 0.999) * WATER_STEP_L


def _no_fermenter(key: str, kitchen: Kitchen, batch_l: float) -> Tried:
    fermenter = kitchen.wish.fermenters[0]
    brim = brim_for(batch_l, fermenter)
    if brim is None:
        return NoWay(key, NAMES[key], no_room_for_beer(fermenter))
    return no_way(
        key,
        "fermenters-too-small",
        "The fermenters do not hold {0}: with room for krausen that takes one of {1}.",
        (Kind.VOLUME, batch_l),
        (Kind.VOLUME, brim),
    )


def gravity_held(kitchen: Kitchen, recipe: Recipe) -> Recipe:
    """Return the recipe topped up less where what stays in the pot has cost it gravity.

    In less beer the same hops count for more; less water takes that back, and leaves more in the
    pot: so a mark that does not hold the gravity is lowered again.
    """
    weakest = kitchen.original.least_gravity
    for _ in range(MARK_TURNS):
        gravity = float(quick_day(recipe).beer.original_gravity)
        if gravity >= weakest:
            break
        mark = _mark_for(recipe, gravity, kitchen.original.least_gravity)
        if mark is None:
            break
        less = with_mark(recipe, mark)
        recipe = filled(less, kitchen.original, own_water_l(less)) or less
        weakest = float(kitchen.original.day.beer.original_gravity) - OG_DEADBAND
    return recipe


def _mark_for(recipe: Recipe, gravity: float, least: float) -> float | None:
    """Return the mark that brings the gravity: sought, or in proportion where none is topped up.

    None where that would be less than half of the beer.
    """
    top = round(number(recipe.process, "top_up_to") / WATER_STEP_L)

    def weaker(steps: int) -> float:
        return least - float(
            quick_day(with_mark(recipe, steps * WATER_STEP_L)).beer.original_gravity
        )

    found = last_that_passes(weaker, top // 2, top, (round(0.95 * top), top))
    if found is None:
        found = min(floor(top * (gravity - 1.0) / (least - 1.0)), top - 1)
    if found < top // 2:
        return None
    return round(found * WATER_STEP_L, 3)


def late_extract(kitchen: Kitchen, base: Draft) -> Tried | None:
    """The same with extract put in near the end, so that the boil is weaker and starts fuller."""
    found = held_late(kitchen, base.recipes[0])
    if found is None:
        return None
    made, names, minutes = found
    made = with_freezer(kitchen, gravity_held(kitchen, made))
    step = say(
        "hold-back",
        "Hold back {lines} until {0} are left.",
        (Kind.TIME, minutes),
        lines=listed(names),
    )
    gained = float(quick_day(made).beer.bitterness_ibu) - float(
        quick_day(base.recipes[0]).beer.bitterness_ibu
    )
    gist = (
        say(
            "late-extract",
            "A weaker boil darkens the wort less, and draws up to {0} more from the hops, or none",
            (Kind.BITTERNESS, gained),
        )
        if gained > LEAST_GAIN_IBU
        else say(
            "late-extract-paler",
            "The extract is boiled for less time, which keeps it paler than any figure here says",
        )
    )
    return replace(
        base,
        key="late extract",
        recipes=(made,),
        effort=2 + base.effort // 2,
        gist=gist,
        steps=(step,),
    )
