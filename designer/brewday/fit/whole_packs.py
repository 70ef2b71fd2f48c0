"""Whole tins and bags of a kit, none divided: which of them, and what volume."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from designer.brewday.fit.answer import named
from designer.brewday.fit.changed_recipe import (
    WATER_STEP_L,
    line_kg,
    quick_day,
    with_amounts,
    without_empty_lines,
)
from designer.brewday.fit.draft_way import Draft, Kitchen, Tried, in_kitchen, no_way, with_freezer
from designer.brewday.fit.fermenters import Cellar, cellar_for
from designer.brewday.fit.less_start_water import nearest_water
from designer.brewday.fit.portion import Shares, in_shares
from designer.brewday.fit.pot_limits import filled
from designer.brewday.fit.scraps import used_up
from designer.brewday.fit.smaller_batch import LEAST_BATCH_L, full_boil_l, most_batch_l
from designer.brewday.search import last_that_passes
from designer.recipe.choices import is_grain
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.fields import number
from designer.recipe.message import listed, say
from designer.recipe.shares import extras_in_share

MOST_APART = 6.0
"""Whole packs that make another beer than that are not offered."""
MOST_LINES = 6
LESS_L = (0.0, 0.2, 0.4)
"""So much less than the most that holds the gravity is looked at."""


def whole_packs(kitchen: Kitchen) -> Tried | None:
    """Whole packs of a kit: which of them, and at what volume, come nearest to the beer.

    All choices are tried, for there are few; grain and hops are weighed in the volume's share.
    """
    lines = [line for line in _packed(kitchen.recipe) if line_kg(line) > 0.0]
    batch = most_batch_l(kitchen)
    cellar = cellar_for(kitchen.wish, batch)
    if not lines or cellar is None or cellar.bought:
        return None
    if not 2 <= len(lines) <= MOST_LINES or batch < LEAST_BATCH_L:
        return _undivided()
    made = _nearest(kitchen, cellar, lines)
    if made is None:
        return _undivided()
    kept = {line.line_id for line in made.fermentables}
    used = listed([named(line.name) for line in lines if line.line_id in kept])
    return Draft(
        "whole packs",
        (with_freezer(kitchen, made),),
        (cellar,),
        1,
        say("whole-packs", "No pack of extract is divided, so the balance changes"),
        steps=(
            say(
                "take-whole", "Take the whole of {packs}; leave the other packs closed.", packs=used
            ),
        ),
        keeps_rest=True,
    )


def _undivided() -> Tried:
    return no_way(
        "whole packs",
        "no-whole-packs",
        "No choice of undivided packs comes near the beer: divide one and keep the rest.",
    )


def _nearest(kitchen: Kitchen, cellar: Cellar, lines: list[Fermentable]) -> Recipe | None:
    """Return the nearest choice that boils in the pot; None if that is another beer.

    Of the volumes below the largest that holds the gravity one may come nearer: in the pot as full
    as it may be the hops, weighed for more of it, may give too much.
    """
    choices: list[tuple[float, Recipe]] = []
    for used in product((False, True), repeat=len(lines)):
        if any(used) and not all(used):
            kilograms = {
                line.line_id: line_kg(line) * use for line, use in zip(lines, used, strict=True)
            }
            made = _at_its_volume(kitchen, cellar, kilograms)
            if made is not None:
                choices.append((kitchen.apart(made), made))
    for _, rough in sorted(choices, key=lambda each: each[0]):
        found = [
            made
            for less_l in LESS_L
            if (made := _in_the_pot(kitchen, cellar, rough, less_l)) is not None
        ]
        if found:
            made = min(found, key=lambda each: kitchen.original.far(quick_day(each)))
            return without_empty_lines(made) if kitchen.apart(made) <= MOST_APART else None
    return None


def _in_the_pot(kitchen: Kitchen, cellar: Cellar, rough: Recipe, less_l: float) -> Recipe | None:
    """Return a choice in so much less than its volume, in what water of the pot comes nearest."""
    mark = number(rough.process, "top_up_to") - less_l
    if mark < LEAST_BATCH_L:
        return None
    kilograms = {line.line_id: line_kg(line) for line in _packed(rough)}
    made = rough if less_l == 0.0 else _at(kitchen, cellar, kilograms, round(mark, 3))
    most = full_boil_l(most_batch_l(kitchen))
    poured = filled(made, kitchen.original, most, hold_bitterness=False)
    return None if poured is None else nearest_water(poured, kitchen.original)


def _packed(recipe: Recipe) -> list[Fermentable]:
    return [line for line in recipe.fermentables if not is_grain(line.kind)]


def _at(kitchen: Kitchen, cellar: Cellar, kilograms: dict[int, float], litres: float) -> Recipe:
    """Return so much extract in a volume, grain and hops in its share."""
    share = litres / kitchen.original.batch_l
    start = in_kitchen(kitchen, cellar, litres)
    made = with_amounts(in_shares(start, Shares(1.0, share, share, share, share)), kilograms)
    made = replace(made, extras=extras_in_share(kitchen.recipe.extras, share))
    return used_up(kitchen.recipe, made)


def _at_its_volume(kitchen: Kitchen, cellar: Cellar, kilograms: dict[int, float]) -> Recipe | None:
    """Return so much extract in the largest volume that holds the gravity, grain and hops with it.

    In water enough for that volume; the pot is looked at later.
    """

    def at(steps: int) -> Recipe:
        return _at(kitchen, cellar, kilograms, round(steps * WATER_STEP_L, 3))

    def weaker(steps: int) -> float:
        made = at(steps)
        return kitchen.original.least_gravity - float(quick_day(made).beer.original_gravity)

    low, high = int(LEAST_BATCH_L / WATER_STEP_L), int(most_batch_l(kitchen) / WATER_STEP_L)
    steps = last_that_passes(weaker, low, high)
    return None if steps is None else at(steps)
