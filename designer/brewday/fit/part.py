"""Ways that brew part of the recipe: as much as fermenters and pot hold, the rest kept."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from designer.brewday.figures import number
from designer.brewday.findings_beer import MEASURED_BOIL_SG
from designer.brewday.fit.answer import NoWay, named, say
from designer.brewday.fit.changing import (
    GRAIN_KINDS,
    WATER_STEP_L,
    line_kg,
    quick_day,
    with_amounts,
    with_mark,
    without_empty_lines,
)
from designer.brewday.fit.drafts import Draft, Kitchen, Tried, in_kitchen, no_way, with_freezer
from designer.brewday.fit.fermenters import Cellar, cellar_for, most_owned_l
from designer.brewday.fit.original import IBU_DEADBAND, apart
from designer.brewday.fit.portion import Shares, dose_in_share, in_shares, portion
from designer.brewday.fit.pot_limits import filled, own_water_l
from designer.brewday.fit.seeking import last_that_passes
from designer.recipe.document import Recipe
from designer.recipe.quantity import Kind

LEAST_BATCH_L = 3.0
"""Less is not worth the cleaning; a judgement, no source."""
MOST_APART = 6.0
"""Whole packs that make another beer than that are not offered."""
_MOST_LINES = 6


def _full_boil_l(batch_l: float) -> float:
    return 3.0 * batch_l


def smaller_batch(kitchen: Kitchen, one_boil_holds: bool) -> Tried | None:
    """As large a batch as the fermenters in hand hold and the pot keeps bitter enough."""
    most = _most_batch_l(kitchen)
    if most < LEAST_BATCH_L:
        return no_way(
            "smaller batch",
            say("Fermenters that hold {0} are too small for a batch.", (Kind.VOLUME, most)),
        )
    whole = kitchen.original.batch_l
    if most >= whole - 0.05 and one_boil_holds:
        return None
    if most >= whole - 0.05 or _lacks(kitchen, most) > IBU_DEADBAND:
        found = _held_batch_l(kitchen, min(most, whole - 0.1))
        if found is None:
            return no_way(
                "smaller batch",
                say("Even {0} of it do not boil in this pot.", (Kind.VOLUME, LEAST_BATCH_L)),
            )
        most = found
    made = _part_of(kitchen, most)
    while most > LEAST_BATCH_L + 0.5 and (isinstance(made, NoWay) or _short(kitchen, made)):
        most -= 0.5
        made = _part_of(kitchen, most)
    return made


def _short(kitchen: Kitchen, draft: Draft) -> bool:
    """Tell whether a batch has come out less bitter than counts as held."""
    ibu = float(quick_day(draft.recipes[0]).bitterness_ibu)
    return ibu < float(kitchen.original.day.bitterness_ibu) - IBU_DEADBAND


def _most_batch_l(kitchen: Kitchen) -> float:
    most = min(most_owned_l(kitchen.wish), kitchen.original.batch_l)
    return round(int(most / WATER_STEP_L + 1e-6) * WATER_STEP_L, 3)


def _held_batch_l(kitchen: Kitchen, most_l: float) -> float | None:
    """Return the largest batch, in half litres, that boils and that the hops make bitter enough."""
    found = last_that_passes(
        lambda halves: _lacks(kitchen, 0.5 * halves), int(2.0 * LEAST_BATCH_L), int(2.0 * most_l)
    )
    return None if found is None else 0.5 * found


def _lacks(kitchen: Kitchen, batch_l: float) -> float:
    """Return what a batch lacks in bitterness with all the hops in it.

    As if very much where it does not boil, or stronger than bitterness was ever measured in.
    """
    share = batch_l / kitchen.original.batch_l
    made = _shared(kitchen, batch_l, Shares(share, share, max(share, 1.0), share))
    if made is None:
        return 100.0
    day, original = quick_day(made), kitchen.original.day
    if float(day.boil_gravity_end) > max(MEASURED_BOIL_SG[1], float(original.boil_gravity_end)):
        return 50.0
    return float(original.bitterness_ibu) - float(day.bitterness_ibu)


def _shared(kitchen: Kitchen, batch_l: float, shares: Shares) -> Recipe | None:
    cellar = cellar_for(kitchen.wish, batch_l)
    if cellar is None or cellar.bought:
        return None
    start = in_kitchen(kitchen, cellar, batch_l)
    made = in_shares(start, shares)
    return filled(made, kitchen.original, _full_boil_l(batch_l), hold_bitterness=False)


def _part_of(kitchen: Kitchen, batch_l: float) -> Tried:
    recipe = kitchen.recipe
    locked = any(each.locked for each in recipe.fermentables)
    locked = locked or any(each.locked for each in recipe.hops)
    cellar = cellar_for(kitchen.wish, batch_l)
    found = None if cellar is None else _weighed(kitchen, cellar, batch_l, locked=locked)
    if cellar is None or found is None:
        return no_way(
            "smaller batch",
            say("Even {0} of it do not boil in this pot.", (Kind.VOLUME, batch_l)),
        )
    made, shares = found
    return Draft(
        "smaller batch",
        (with_freezer(kitchen, made),),
        (cellar,),
        1,
        say("The same beer, less of it" if locked else "The same beer, weighed out anew"),
        steps=(
            say(
                f"Weigh out {{0}} of the {'kit' if locked else 'bill'}: the amounts below make "
                "{1}.",
                (Kind.FRACTION, shares.extract),
                (Kind.VOLUME, batch_l),
            ),
        ),
        keeps_rest=locked,
    )


def _weighed(
    kitchen: Kitchen, cellar: Cellar, batch_l: float, *, locked: bool
) -> tuple[Recipe, Shares] | None:
    """Return the recipe for a batch in amounts that a kitchen weighs; None if it does not boil."""

    def water(tried: Recipe) -> Recipe | None:
        most = _full_boil_l(batch_l)
        return filled(tried, kitchen.original, most, hold_bitterness=False)

    start = in_kitchen(kitchen, cellar, batch_l)
    found = portion(start, kitchen.original.day, batch_l, water, from_contents=locked)
    if found is None:
        return None
    exact, shares = found
    shares = replace(shares, hops=min(shares.hops, 1.0))  # it lacks little, and saves a purchase
    made = replace(in_shares(start, shares), process=exact.process)
    made = _extras_in_share(kitchen, made, batch_l / kitchen.original.batch_l)
    made = without_empty_lines(made)
    # Rounded up, the amounts may want a little less water.
    refilled = filled(made, kitchen.original, own_water_l(made), hold_bitterness=False)
    return None if refilled is None else (refilled, shares)


def _extras_in_share(kitchen: Kitchen, recipe: Recipe, share: float) -> Recipe:
    return replace(
        recipe,
        extras=tuple(
            replace(each, amount=dose_in_share(each.amount, share))
            if each.amount is not None
            else each
            for each in kitchen.recipe.extras
        ),
    )


def whole_packs(kitchen: Kitchen) -> Tried | None:
    """Whole tins and bags of a kit: which of them, and what volume, come nearest to the beer.

    All choices are tried (there are few), grain and hops weighed in the share of the volume.
    """
    lines = [
        line
        for line in kitchen.recipe.fermentables
        if line.kind not in GRAIN_KINDS and line_kg(line) > 0.0
    ]
    if not 2 <= len(lines) <= _MOST_LINES:
        return _undivided() if lines else None
    tried = [
        each
        for used in product((False, True), repeat=len(lines))
        if any(used) and not all(used)
        for each in [_of_packs(kitchen, {
            line.line_id: line_kg(line) if use else 0.0
            for line, use in zip(lines, used, strict=True)
        })]
        if each is not None
    ]  # fmt: skip
    best = min(tried, key=lambda each: each[0], default=None)
    if best is None or best[0] > MOST_APART:
        return _undivided()
    _, made, cellar = best
    kept = {line.line_id for line in made.fermentables}
    used_names = " and ".join(named(line.name) for line in lines if line.line_id in kept)
    return Draft(
        "whole packs",
        (with_freezer(kitchen, made),),
        (cellar,),
        1,
        say("No pack of extract is divided, at the price of another balance"),
        steps=(say(f"Take the whole of {used_names}; leave the other packs closed."),),
        keeps_rest=True,
    )


def _undivided() -> Tried:
    return no_way(
        "whole packs",
        say("No choice of undivided packs comes near the beer: divide one and keep the rest."),
    )


def _of_packs(kitchen: Kitchen, kilograms: dict[int, float]) -> tuple[float, Recipe, Cellar] | None:
    """Return how far these packs are from the beer, at the volume that holds its gravity best."""
    original = kitchen.original
    high = int(_most_batch_l(kitchen) / WATER_STEP_L)
    low = int(LEAST_BATCH_L / WATER_STEP_L)
    cellar = cellar_for(kitchen.wish, high * WATER_STEP_L)
    if cellar is None or high < low:
        return None

    def at(steps: int) -> Recipe:
        share = steps * WATER_STEP_L / original.batch_l
        start = in_kitchen(kitchen, cellar, round(steps * WATER_STEP_L, 3))
        made = with_amounts(in_shares(start, Shares(1.0, share, share, share)), kilograms)
        return _extras_in_share(kitchen, made, share)

    def weaker(steps: int) -> float:
        return original.least_gravity - float(quick_day(at(steps)).original_gravity)

    steps = last_that_passes(weaker, low, high)
    if steps is None:
        return None
    made = filled(at(steps), original, _full_boil_l(steps * WATER_STEP_L), hold_bitterness=False)
    if made is None:
        return None
    day = quick_day(made)
    distance = apart(
        original.day, float(day.original_gravity), float(day.bitterness_ibu),
        float(day.colour_srm), float(day.batch_l),
    )  # fmt: skip
    mark = number(made.process, "top_up_to")
    return distance, without_empty_lines(with_mark(made, mark)), cellar
