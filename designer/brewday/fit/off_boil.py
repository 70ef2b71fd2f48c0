"""Ways that keep extract out of the boil: in at flame-out, or dissolved in the fermenter.

What has been boiled once at the maker's need not boil again. So a small pot boils what the hops and
the grain want, in wort weak enough to draw from the hops, and the rest is stirred in when it is
still, or goes into the bucket in water just boiled. As little waits as makes the beer as bitter as
the original: hops want wort about them. A hopped kit waits first, for it has its hops in it, and
whole; what then is too bitter is made good by fewer bittering hops.

A tin is nearly sterile when it is opened, and no more. At flame-out the wort is kept hot for long
enough to kill what is in it; in the fermenter clean hands and water just boiled have to do (common
practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.fit.boil_off import STRONG_BOIL_SG
from designer.brewday.fit.changed_recipe import (
    WATER_STEP_L,
    forecast,
    line_kg,
    quick_day,
    with_mark,
    without_empty_lines,
)
from designer.brewday.fit.draft_way import Draft, Kitchen, Tried, in_kitchen, no_way, with_freezer
from designer.brewday.fit.fermenters import Cellar, cellar_for
from designer.brewday.fit.hop_roles import bittering
from designer.brewday.fit.late_extract import early_lines, put_off, waiting
from designer.brewday.fit.one_boil import gravity_held, mark_of
from designer.brewday.fit.original import IBU_DEADBAND, OG_DEADBAND, SOUGHT_SHARE
from designer.brewday.fit.portion import FINE, Shares, in_shares
from designer.brewday.fit.pot_limits import filled, own_water_l
from designer.brewday.fit.scraps import used_up
from designer.brewday.hot_wort import takes_hot_water
from designer.brewday.search import first_that_passes, nearest
from designer.recipe.choices import FermentableKind
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.recipe.message import listed, say
from designer.recipe.quantity import Kind, Stage, When
from designer.wort.bitterness import POT_CEILING_IBU

FLAME_OUT = When(Stage.FLAME_OUT, "flame-out")
IN_FERMENTER = When(Stage.FERMENTER, "fermenter")
PARTS = 10
"""The share that is kept out is sought in tenths."""
_FIRST_OUT = (
    FermentableKind.HOPPED_KIT,
    FermentableKind.LIQUID_EXTRACT,
    FermentableKind.DRY_EXTRACT,
    FermentableKind.SUGAR,
)
ALL_OF_THE_BOIL = -1.0
MOST_TIMES_CEILING = 1.5
"""So far beyond what a pot carries a forecast says nothing; a judgement, no source."""
_SLACK_IBU = SOUGHT_SHARE * IBU_DEADBAND


@dataclass(frozen=True, slots=True)
class _Kept:
    """A recipe with extract kept out of its boil, and the names of that."""

    recipe: Recipe
    names: tuple[object, ...]


def unboiled(kitchen: Kitchen, base: Draft | None) -> tuple[Tried, ...]:
    """Return the ways with extract kept out of the boil, where a weaker boil is of any use.

    Into the fermenter goes what the pot does not take at flame-out, or a kit, which often does.
    """
    if not _gains(kitchen, base):
        return ()
    stirred_in = _off_the_boil(kitchen)
    if stirred_in is not None and kitchen.apart(stirred_in.recipes[0]) == 0.0:
        kits = any(line.kind == FermentableKind.HOPPED_KIT for line in kitchen.recipe.fermentables)
        if not kits:
            return (stirred_in,)
    found = (stirred_in, _into_the_fermenter(kitchen))
    return tuple(_if_the_pot_carries(each) for each in found if each is not None)


def _if_the_pot_carries(tried: Tried) -> Tried:
    """Return why not instead, where no pot would carry the bitterness of so little wort."""
    if not isinstance(tried, Draft):
        return tried
    pot_ibu = float(quick_day(tried.recipes[0]).fermenter.pot_ibu)
    if pot_ibu <= MOST_TIMES_CEILING * POT_CEILING_IBU:
        return tried
    return no_way(
        tried.key,
        "too-bitter-a-pot",
        "So little wort would have to carry {0}, and {1} is what a pot carries in practice.",
        (Kind.BITTERNESS, pot_ibu),
        (Kind.BITTERNESS, POT_CEILING_IBU),
    )


def _off_the_boil(kitchen: Kitchen) -> Draft | None:
    """Extract stirred in at flame-out."""
    cellar = cellar_for(kitchen.wish, mark_of(kitchen))
    found = None if cellar is None else _kept_out(kitchen, cellar, FLAME_OUT)
    if cellar is None or found is None:
        return None
    return Draft(
        "off the boil",
        (found.recipe,),
        (cellar,),
        2,
        say(
            "off-the-boil",
            "A weak wort boils and the rest is stirred in after it, which keeps it paler than any "
            "figure here says",
        ),
        steps=(
            say(
                "keep-out-of-boil",
                "Keep {lines} out of the boil: it is stirred in when the burner is off.",
                lines=listed(found.names),
            ),
        ),
    )


def _into_the_fermenter(kitchen: Kitchen) -> Tried | None:
    """Extract dissolved in the fermenter in hot water; not in glass, nor in two of them."""
    cellar = cellar_for(kitchen.wish, mark_of(kitchen))
    if cellar is None or len(cellar.fermenters) > 1:
        return None
    if not takes_hot_water(cellar.fermenters[0].kind):
        return no_way(
            "into the fermenter",
            "no-hot-water-into-glass",
            "Extract is dissolved there in water just boiled, which cracks glass: it takes a "
            "bucket.",
        )
    found = _kept_out(kitchen, cellar, IN_FERMENTER)
    return None if found is None else _in_bucket(found, cellar)


def _in_bucket(found: _Kept, cellar: Cellar) -> Draft:
    return Draft(
        "into the fermenter",
        (found.recipe,),
        (cellar,),
        3,
        say(
            "into-the-fermenter",
            "The pot boils what the hops need, and the rest goes into the bucket unboiled, which "
            "keeps it paler than any figure here says",
        ),
        steps=(
            say(
                "keep-out-of-pot",
                "Keep {lines} out of the pot: it is dissolved in the fermenter.",
                lines=listed(found.names),
            ),
        ),
    )


def _gains(kitchen: Kitchen, base: Draft | None) -> bool:
    """Tell whether a weaker boil is of any use: without one, or with a strong one, or a kit."""
    if base is None or kitchen.apart(base.recipes[0]) > 0.0:
        return True
    recipe = base.recipes[0]
    kits = any(
        line.kind == FermentableKind.HOPPED_KIT for line in early_lines(recipe, ALL_OF_THE_BOIL)
    )
    return kits or float(quick_day(recipe).pot.boil_gravity_end) > STRONG_BOIL_SG


def _kept_out(kitchen: Kitchen, cellar: Cellar, when: When) -> _Kept | None:
    """Return the recipe with the least extract kept out that makes it as bitter as the original."""
    start = in_kitchen(kitchen, cellar, mark_of(kitchen))
    lines = early_lines(start, ALL_OF_THE_BOIL, _FIRST_OUT)
    kits = tuple(line for line in lines if line.kind == FermentableKind.HOPPED_KIT)
    rest = lines[len(kits) :]
    all_kg, kits_kg = (sum(line_kg(line) for line in some) for some in (lines, kits))
    if not lines or kits_kg > kitchen.wish.late_fraction * all_kg + 1e-9:
        return None
    may_wait = kitchen.wish.late_fraction * all_kg - kits_kg
    most = int(PARTS * min(may_wait / max(all_kg - kits_kg, 1e-9), 1.0) + 1e-9) if rest else 0
    least = 0 if kits else 1
    base = put_off(start, 1.0, when, kits)
    made: dict[int, Recipe | None] = {}

    def lacks(parts: int) -> float:
        later = put_off(base, parts / PARTS, when, rest)
        made[parts] = filled(later, kitchen.original, own_water_l(start), hold_bitterness=False)
        return _lacking_ibu(kitchen, made[parts])

    found = first_that_passes(lacks, least, most)
    recipe = _nearest(kitchen, made) if found is None else made[found]
    if recipe is None:
        return None
    recipe = _thinned(kitchen, cellar, gravity_held(kitchen, _trimmed(kitchen, recipe)))
    if recipe is None:
        return None
    recipe = with_freezer(kitchen, recipe)
    names = waiting(start, recipe, lines, when)
    return _Kept(recipe, names) if names else None


def _lacking_ibu(kitchen: Kitchen, recipe: Recipe | None) -> float:
    """Return what bitterness is missing, as if very much of what does not go into the pot."""
    if recipe is None:
        return 1000.0
    wanted = float(kitchen.original.day.beer.bitterness_ibu) - _SLACK_IBU
    return wanted - float(quick_day(recipe).beer.bitterness_ibu)


def _nearest(kitchen: Kitchen, made: dict[int, Recipe | None]) -> Recipe | None:
    """Return what comes nearest where none is bitter enough."""
    there = [each for each in made.values() if each is not None]
    return min(there, key=lambda each: _lacking_ibu(kitchen, each), default=None)


def _trimmed(kitchen: Kitchen, recipe: Recipe) -> Recipe:
    """Return the recipe with fewer bittering hops where the weak boil draws too much from them."""
    wanted = float(kitchen.original.day.beer.bitterness_ibu)
    if not bittering(recipe) or float(quick_day(recipe).beer.bitterness_ibu) <= wanted + _SLACK_IBU:
        return recipe

    def at(steps: int) -> Recipe:
        return in_shares(recipe, Shares(1.0, 1.0, steps / FINE, 1.0, 1.0))

    steps = nearest(lambda n: forecast(at(n), "bitterness_ibu"), wanted, 0, FINE)
    return used_up(recipe, without_empty_lines(at(steps)))


def _thinned(kitchen: Kitchen, cellar: Cellar, recipe: Recipe) -> Recipe | None:
    """Return the recipe topped up further where it is stronger: what is not boiled leaves no rest.

    None where the fermenter has no room for that.
    """
    low, held = number(recipe.process, "top_up_to"), kitchen.original.day.beer

    def stronger(steps: int) -> float:
        thinner = with_mark(recipe, round(low + steps * WATER_STEP_L, 3)) if steps else recipe
        beer = quick_day(thinner).beer
        gravity = float(beer.original_gravity) - float(held.original_gravity)
        bitterness = float(beer.bitterness_ibu) - float(held.bitterness_ibu)
        return max(gravity / OG_DEADBAND, bitterness / IBU_DEADBAND) - 1.0

    if stronger(0) <= 0.0:
        return recipe
    room = int((cellar.room_l - low) / WATER_STEP_L + 1e-9)
    found = first_that_passes(stronger, 1, room)
    return None if found is None else with_mark(recipe, round(low + found * WATER_STEP_L, 3))
