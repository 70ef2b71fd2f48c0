"""Ways that brew part of the recipe: as much as fermenters and pot hold, the rest kept."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil

from designer.brewday.fit.answer import NoWay
from designer.brewday.fit.changed_recipe import WATER_STEP_L, quick_day, without_empty_lines
from designer.brewday.fit.draft_way import Draft, Kitchen, Tried, in_kitchen, no_way, with_freezer
from designer.brewday.fit.fermenters import Cellar, cellar_for, most_owned_l
from designer.brewday.fit.hop_roles import bittering, late_followed
from designer.brewday.fit.less_start_water import nearest_water
from designer.brewday.fit.original import IBU_DEADBAND, VOLUME_WEIGHT, missing_share
from designer.brewday.fit.packets import yeast_in_share
from designer.brewday.fit.portion import Shares, in_shares, portion
from designer.brewday.fit.pot_limits import filled, own_water_l
from designer.brewday.fit.scraps import leaves_scraps_of_extract, used_up
from designer.brewday.search import first_that_passes, last_that_passes
from designer.recipe.document import Recipe
from designer.recipe.message import say
from designer.recipe.named import has_locked
from designer.recipe.quantity import Kind
from designer.recipe.shares import extras_in_share
from designer.wort.bitterness import TABLE_SG

LEAST_BATCH_L = 3.0
"""Less is not worth the cleaning; a judgement, no source."""
_STRONG, _NO_BOIL = 1000.0, 2000.0
"""More IBU than any batch lacks: as if those were missing of one too strong, or that boils not."""
WATER_TURNS = 4
"""How often water and amounts are sought in turn: less water wants other amounts, and so on."""


def full_boil_l(batch_l: float) -> float:
    """Return more water than any boil of the batch starts with."""
    return 3.0 * batch_l


def smaller_batch(kitchen: Kitchen, one_boil_holds: bool) -> Tried | None:
    """As large a batch as the fermenters in hand hold and the pot keeps bitter enough."""
    most = most_batch_l(kitchen)
    if most < LEAST_BATCH_L:
        return no_way(
            "smaller batch",
            "batch-too-small",
            "Fermenters that hold {0} are too small for a batch.",
            (Kind.VOLUME, most),
        )
    whole = kitchen.original.batch_l
    if most >= whole - 0.05 and one_boil_holds:
        return None
    if most >= whole - 0.05 or _lacks(kitchen, most) > IBU_DEADBAND:
        found = _held_batch_l(kitchen, min(most, whole - 0.1))
        if found is None:
            return _not_even(LEAST_BATCH_L)
        most = found
    return _nearest_part(kitchen, most)


def _not_even(batch_l: float) -> NoWay:
    return no_way(
        "smaller batch",
        "not-even",
        "Not even {0} of it boils in this pot: with room for foam it would be a syrup, or not go "
        "in at all.",
        (Kind.VOLUME, batch_l),
    )


def _nearest_part(kitchen: Kitchen, most_l: float) -> Tried:
    """Return the batch of `most_l` or, in half litres less, a nearer one.

    Less is tried as long as the first comes out not bitter enough, and then while what is missing
    of the volume leaves room for a nearer beer: a fuller pot may want more of other things.
    """
    tried: dict[int, Tried] = {}
    far: dict[int, float] = {}

    def lacks(halves: int) -> float:
        made = tried[halves] = _part_of(kitchen, max(most_l - 0.5 * halves, LEAST_BATCH_L))
        if isinstance(made, NoWay):
            return 100.0
        far[halves] = kitchen.apart(made.recipes[0])
        ibu = float(quick_day(made.recipes[0]).beer.bitterness_ibu)
        return float(kitchen.original.day.beer.bitterness_ibu) - IBU_DEADBAND - ibu

    most = max(ceil(2.0 * (most_l - LEAST_BATCH_L) - 1e-6), 0)
    found = first_that_passes(lacks, 0, most, near=(0, 1))
    last = most if found is None else found
    if not far:
        return tried[last]
    less = last + 1
    while less <= most and _farness_of_less(kitchen, most_l - 0.5 * less) < min(far.values()):
        if less not in tried:
            lacks(less)
        less += 1
    return tried[min(far, key=lambda halves: (far[halves], halves))]


def _farness_of_less(kitchen: Kitchen, batch_l: float) -> float:
    """Return how far from the original a smaller batch is that lacks nothing but volume."""
    whole_l = kitchen.original.batch_l
    return round(VOLUME_WEIGHT * missing_share(whole_l, batch_l), 1)


def most_batch_l(kitchen: Kitchen) -> float:
    """Return the largest batch, in tenths of a litre, that the fermenters in hand hold."""
    most = min(most_owned_l(kitchen.wish), kitchen.original.batch_l)
    return round(int(most / WATER_STEP_L + 1e-6) * WATER_STEP_L, 3)


def _held_batch_l(kitchen: Kitchen, most_l: float) -> float | None:
    """Return the largest batch, in half litres, that boils and that the hops make bitter enough.

    The bittering hops alone; with the late ones where there is no batch of which that is true; and
    where no hops are enough one that boils, no stronger than is known of bitterness if it may be.
    """
    low, high = int(2.0 * LEAST_BATCH_L), int(2.0 * most_l)
    for most_lacking, late_too in ((0.0, False), (0.0, True), (_STRONG, True), (_NO_BOIL, True)):
        beyond = _Beyond(kitchen, most_lacking, late_too)
        found = last_that_passes(beyond.at, low, high)
        if found is not None:
            return 0.5 * found
    return None


@dataclass(frozen=True, slots=True)
class _Beyond:
    """What a batch lacks in bitterness beyond what it may lack; see `_lacks`."""

    kitchen: Kitchen
    most_lacking: float
    late_too: bool

    def at(self, halves: int) -> float:
        """Return it for so many half litres."""
        return _lacks(self.kitchen, 0.5 * halves, late_too=self.late_too) - self.most_lacking


def _lacks(kitchen: Kitchen, batch_l: float, *, late_too: bool = False) -> float:
    """Return what a batch lacks in bitterness with all the bittering hops in it, or all hops.

    As if very much where it does not boil, or stronger than the published table of bitterness.
    """
    share = batch_l / kitchen.original.batch_l
    whole = max(share, 1.0)
    late = whole if late_too or not bittering(kitchen.recipe) else share
    made = _shared(kitchen, batch_l, Shares(share, share, whole, late, share))
    if made is None:
        return _NO_BOIL + 1.0
    day, original = quick_day(made), kitchen.original.day
    if float(day.pot.boil_gravity_end) > max(TABLE_SG[1], float(original.pot.boil_gravity_end)):
        return _STRONG + 1.0
    return float(original.beer.bitterness_ibu) - float(day.beer.bitterness_ibu)


def _shared(kitchen: Kitchen, batch_l: float, shares: Shares) -> Recipe | None:
    cellar = cellar_for(kitchen.wish, batch_l)
    if cellar is None or cellar.bought:
        return None
    start = in_kitchen(kitchen, cellar, batch_l)
    made = in_shares(start, shares)
    return filled(made, kitchen.original, full_boil_l(batch_l), hold_bitterness=False)


def _part_of(kitchen: Kitchen, batch_l: float) -> Tried:
    recipe = kitchen.recipe
    locked = has_locked(recipe)
    cellar = cellar_for(kitchen.wish, batch_l)
    found = None if cellar is None else _weighed(kitchen, cellar, batch_l, locked=locked)
    if cellar is None or found is None:
        return _not_even(batch_l)
    made, shares = found
    if leaves_scraps_of_extract(recipe, made):
        return no_way(
            "smaller batch",
            "leaves-scraps",
            "A batch of {0} would leave no more than a scrap of the extract: put all of it in and "
            "top up a little less.",
            (Kind.VOLUME, batch_l),
        )
    follow = shares.late != shares.dry
    ratio = batch_l / kitchen.original.batch_l
    followed = tuple(late_followed(recipe, made, ratio)) if follow else ()
    return Draft(
        "smaller batch",
        (with_freezer(kitchen, made),),
        (cellar,),
        1,
        say(
            "smaller-batch",
            "The same beer, less of it" if locked else "The same beer, weighed out anew",
        ),
        steps=(
            say(
                "weigh-out",
                "Weigh out {0} of the kit: the amounts listed make {1}."
                if locked
                else "Weigh out {0} of the ingredients: the amounts listed make {1}.",
                (Kind.FRACTION, round(shares.extract, 2)),  # as one tells it
                (Kind.VOLUME, batch_l),
            ),
            *followed,
        ),
        keeps_rest=locked,
    )


def _weighed(
    kitchen: Kitchen, cellar: Cellar, batch_l: float, *, locked: bool
) -> tuple[Recipe, Shares] | None:
    """Return the recipe for a batch in amounts that a kitchen weighs; None if it does not boil."""
    start, most = in_kitchen(kitchen, cellar, batch_l), full_boil_l(batch_l)
    found = _in_water(kitchen, start, batch_l, most, locked=locked)
    if found is None:
        return None
    for _ in range(WATER_TURNS):
        less = nearest_water(found[0], kitchen.original, gravity_follows=True)
        if less is found[0]:
            break
        again = _in_water(kitchen, start, batch_l, own_water_l(less), locked=locked)
        if again is None or kitchen.apart(again[0]) >= kitchen.apart(found[0]):
            break
        found = again
    less = nearest_water(found[0], kitchen.original)
    if less is found[0]:
        return found
    again = _in_water(kitchen, start, batch_l, own_water_l(less), locked=locked)
    both = ((less, found[1]), again or found)
    return min(both, key=lambda each: kitchen.apart(each[0]))


def _in_water(
    kitchen: Kitchen, start: Recipe, batch_l: float, most_l: float, *, locked: bool
) -> tuple[Recipe, Shares] | None:
    """Return the recipe for a batch, its amounts sought in no more water than `most_l`."""

    def water(tried: Recipe) -> Recipe | None:
        return filled(tried, kitchen.original, most_l, hold_bitterness=False)

    found = portion(
        start,
        kitchen.original.day,
        batch_l,
        water,
        from_contents=locked,
        no_more_hops=True,  # it lacks little, and saves a purchase
    )
    if found is None:
        return None
    exact, shares = found
    rounded = (
        replace(in_shares(start, shares, fine=fine), process=exact.process)
        for fine in (False, True)
    )
    made = min(rounded, key=lambda each: kitchen.apart(each))  # coarse weights where as near
    ratio = batch_l / kitchen.original.batch_l
    extras = extras_in_share(kitchen.recipe.extras, ratio)
    yeast = yeast_in_share(kitchen.recipe.yeast, ratio)
    made = without_empty_lines(replace(made, extras=extras, yeast=yeast))
    whole = used_up(kitchen.recipe, made)
    # Rounded up, the amounts may want a little less water.
    refilled = filled(
        whole, kitchen.original, own_water_l(whole), hold_bitterness=whole is not made
    )
    return None if refilled is None else (refilled, shares)
