"""Holding the bitterness where a concentrated boil has lost it: more of a hop, or hops in hand."""

from __future__ import annotations

from dataclasses import replace
from math import ceil

from designer.brewday.fit.answer import ToBuy, named
from designer.brewday.fit.changed_recipe import (
    HOP_STEP_KG,
    WATER_STEP_L,
    boil_left,
    forecast,
    line_kg,
    mass,
    quick_day,
    with_amounts,
    with_mark,
)
from designer.brewday.fit.draft_way import Draft, Kitchen, Tried, no_way
from designer.brewday.fit.hop_roles import bitters, boiled_min
from designer.brewday.fit.one_boil import MARK_TURNS
from designer.brewday.fit.original import IBU_DEADBAND
from designer.brewday.fit.pack_choice import enough_packs, sizes_of
from designer.brewday.fit.scraps import scrap_of
from designer.brewday.fit.wish import HopInHand
from designer.brewday.search import first_that_passes, nearest
from designer.recipe.document import Hop, Recipe
from designer.recipe.edits import next_line_id
from designer.recipe.fields import number
from designer.recipe.kind_defaults import alpha_acid
from designer.recipe.message import listed, say
from designer.recipe.quantity import Kind

MOST_KG_PER_L = 0.02
"""More hops than that fill a pot with sludge; an estimate."""


def hop_ways(kitchen: Kitchen, base: Draft) -> tuple[Tried, ...]:
    """Return the ways that make up for the bitterness `base` lacks; none if it lacks none."""
    recipe = base.recipes[0]
    lacks = float(kitchen.original.day.beer.bitterness_ibu) - float(
        quick_day(recipe).beer.bitterness_ibu
    )
    if lacks <= IBU_DEADBAND:
        return ()
    found = [_in_hand(kitchen, base)] if kitchen.wish.hops_in_hand else []
    return tuple(each for each in (_more(kitchen, base), *found) if each is not None)


def _most_kg(recipe: Recipe) -> float:
    return MOST_KG_PER_L * float(quick_day(recipe).fermenter.batch_l)


def _more(kitchen: Kitchen, base: Draft) -> Tried | None:
    """More of the hop that bitters most; of a locked kit, more bought of the same variety."""
    recipe = base.recipes[0]
    boiled = bitters(recipe)
    if not boiled:
        return None
    most = max(boiled, key=lambda hop: (boiled_min(hop, recipe), alpha_acid(hop) * line_kg(hop)))
    old_kg = 0.0
    if most.locked:
        hop = _full_boil(recipe, replace(most, price=None))
        recipe = replace(recipe, hops=(*recipe.hops, hop))
    else:
        hop, old_kg = most, line_kg(most)
    found = _held(kitchen, recipe, hop, _most_kg(recipe))
    if found is None:
        return no_way(
            "more hops",
            "hop-not-enough",
            "Not even {0} of {name} make up for the bitterness lost in this pot, and more would "
            "fill it with sludge.",
            (Kind.MASS, max(_most_kg(recipe), old_kg)),
            name=named(hop.name),
        )
    made, kg = found
    more = kg - old_kg + _scrap_of_pack(kitchen, kg - old_kg)
    made = with_amounts(made, {hop.line_id: old_kg + more})
    step = say(
        "add-more",
        "Add {0} more {name} for the whole boil." if most.locked else "Add {0} more {name}.",
        (Kind.MASS, more),
        name=named(hop.name),
    )
    return replace(
        base,
        key="more hops",
        recipes=(made,),
        effort=base.effort + 1,
        steps=(step,),
        gist=say("more-hops", "More hops make up for what the strong boil loses"),
        must_buy=(ToBuy(hop.name, mass(more), "hops"),) if most.locked else (),
    )


def _scrap_of_pack(kitchen: Kitchen, bought_kg: float) -> float:
    """Return what would be left of the smallest pack bought, if that is but a scrap."""
    packs = enough_packs(bought_kg, sizes_of("hops", kitchen.wish.packs))
    if packs is None:
        return 0.0
    smallest = min(
        (size for size, count in zip(packs.sizes_kg, packs.counts, strict=True) if count),
        default=0.0,
    )
    return scrap_of(smallest, smallest - packs.left_kg)


def _full_boil(recipe: Recipe, hop: Hop) -> Hop:
    return replace(
        hop,
        when=boil_left(number(recipe.process, "boil_time")),
        amount=mass(0.0),
        locked=False,
        line_id=next_line_id(recipe),
    )


def _in_hand(kitchen: Kitchen, base: Draft) -> Tried | None:
    """Hops in hand for the whole boil, the strongest first: the least leaf for its bitterness."""
    hands = sorted(kitchen.wish.hops_in_hand, key=lambda each: -each.alpha.value)
    recipe = base.recipes[0]
    used: list[tuple[HopInHand, float]] = []
    for hand in hands:
        hop = _full_boil(recipe, _line_of(hand))
        added = replace(recipe, hops=(*recipe.hops, hop))
        found = _held(kitchen, added, hop, hand.mass_kg)
        if found is not None:
            made, kg = found
            kg += scrap_of(hand.mass_kg, kg)
            made = with_amounts(made, {hop.line_id: kg})
            return _with_hands(base, made, [*used, (hand, kg)])
        recipe = with_amounts(added, {hop.line_id: hand.mass_kg})
        used.append((hand, hand.mass_kg))
    words = [
        say("so-much-of", "{0} of {name}", (Kind.MASS, hand.mass_kg), name=named(hand.name))
        for hand in hands
    ]
    return no_way(
        "other hops",
        "hops-in-hand-not-enough",
        "{hops} in hand are not enough for the bitterness lost.",
        hops=listed(words),
    )


def _with_hands(base: Draft, made: Recipe, used: list[tuple[HopInHand, float]]) -> Draft:
    words = [
        say("so-much-of-your", "{0} of your {name}", (Kind.MASS, kg), name=named(hand.name))
        for hand, kg in used
    ]
    step = say("add-hops-in-hand", "Add {hops} for the whole boil.", hops=listed(words))
    return replace(
        base,
        key="other hops",
        recipes=(made,),
        effort=base.effort + 1,
        steps=(step,),
        gist=say(
            "hops-in-hand", "Hops in hand make up for the bitterness that the strong boil loses"
        ),
    )


def _line_of(hand: HopInHand) -> Hop:
    return Hop(hand.name, hand.form, hand.alpha, mass(hand.mass_kg))


def _held(
    kitchen: Kitchen, recipe: Recipe, hop: Hop, most_kg: float
) -> tuple[Recipe, float] | None:
    """Hold the bitterness by the hop and the gravity by the mark: hops hold wort back.

    In turn, for in less beer fewer hops do, which hold back less.
    """
    mark = number(recipe.process, "top_up_to")
    found = _sought(kitchen, recipe, hop, most_kg)
    for _ in range(MARK_TURNS):
        if found is None:
            break
        lowered = _mark_lowered(kitchen, with_mark(found[0], mark))
        if lowered == found[0]:
            break
        found = _sought(kitchen, lowered, hop, most_kg)
    return found


def _mark_lowered(kitchen: Kitchen, recipe: Recipe) -> Recipe:
    """Return the recipe topped up no further than its gravity takes, but to a litre."""
    mark = number(recipe.process, "top_up_to")

    def lower(steps: int) -> Recipe:
        return with_mark(recipe, round(mark - steps * WATER_STEP_L, 3)) if steps else recipe

    def too_weak(steps: int) -> float:
        gravity = float(quick_day(lower(steps)).beer.original_gravity)
        return kitchen.original.least_gravity - gravity

    most = max(ceil((mark - 1.0) / WATER_STEP_L), 0)
    found = first_that_passes(too_weak, 0, most, near=(0, 2))
    return lower(most if found is None else found)


def _sought(
    kitchen: Kitchen, recipe: Recipe, hop: Hop, most_kg: float
) -> tuple[Recipe, float] | None:
    """Return the recipe with as much of the hop as holds the bitterness, and how much that is."""
    wanted = float(kitchen.original.day.beer.bitterness_ibu)

    def at(steps: int) -> Recipe:
        return with_amounts(recipe, {hop.line_id: steps * HOP_STEP_KG})

    def ibu(steps: int) -> float:
        return forecast(at(steps), "bitterness_ibu")

    low = int(min(line_kg(hop), most_kg) / HOP_STEP_KG)
    high = max(int(most_kg / HOP_STEP_KG + 1e-9), low + 1)
    steps = nearest(ibu, wanted, low, high)
    short = wanted - ibu(steps)
    return None if short > IBU_DEADBAND else (at(steps), steps * HOP_STEP_KG)
