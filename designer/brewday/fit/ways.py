"""All ways to brew a recipe in a kitchen, side by side, and the truth where there is none."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from designer.brewday.findings_wort import no_wort
from designer.brewday.fit.answer import FitAnswer, NoWay, Way
from designer.brewday.fit.boil_off import covered, shorter_boil
from designer.brewday.fit.buying import must_buy
from designer.brewday.fit.changed_recipe import quick_day, with_mark
from designer.brewday.fit.draft_way import Draft, Kitchen, Tried
from designer.brewday.fit.fermenters import brim_for, cellar_for, most_owned_l, no_room_for_beer
from designer.brewday.fit.finished_way import finished
from designer.brewday.fit.half_pots import nearest_counts
from designer.brewday.fit.idle_hops import idle_hops
from designer.brewday.fit.judgement import ranked
from designer.brewday.fit.less_water import held_fuller, in_less_water, less_water
from designer.brewday.fit.more_hops import hop_ways
from designer.brewday.fit.near_copies import folded
from designer.brewday.fit.off_boil import unboiled
from designer.brewday.fit.one_boil import late_extract, mark_of, one_boil
from designer.brewday.fit.original import Original, original_of
from designer.brewday.fit.pot_limits import filled, own_water_l, smallest_pot_l
from designer.brewday.fit.pot_losses import with_losses_of
from designer.brewday.fit.smaller_batch import smaller_batch
from designer.brewday.fit.two_boils import second_pot, two_boils
from designer.brewday.fit.two_brews import two_brews
from designer.brewday.fit.whole_packs import whole_packs
from designer.brewday.fit.wish import FitWish, sized_pot
from designer.brewday.search import last_that_passes
from designer.recipe.document import Recipe
from designer.recipe.edits import LISTS, with_line_ids
from designer.recipe.fields import number_or_none
from designer.recipe.message import Message, say, within
from designer.recipe.named import lines_of
from designer.recipe.plan import as_written
from designer.recipe.quantity import Kind

LEAST_BATCH_L = 0.5
STRONG_BOIL_SG = 1.090
"""A boil stronger than that is worth dividing; common practice, no source."""


def ways(recipe: Recipe, wish: FitWish) -> FitAnswer:
    """Return every way that works, the best first, those that do not, and what would help.

    Each way's figures are read off the day of its own recipe. Never raises for a valid recipe.
    """
    *_, answer = ways_in_turn(recipe, wish)
    return answer


def ways_in_turn(recipe: Recipe, wish: FitWish) -> Iterator[FitAnswer]:
    """Yield what is known so far: the ways with what is in hand, then all of them.

    A way keeps its place from one answer to the next; the last is that of `ways`.
    """
    recipe = _numbered(as_written(recipe))
    original = original_of(recipe)
    kitchen = Kitchen(wish, original)
    why_not = _why_nothing(recipe, original)
    if why_not is not None:
        yield FitAnswer(original.day, original.forecasts, (), (), why_not, ())
        return
    tried = nearest_counts(kitchen, _drafts(kitchen), _drafts)
    failed = tuple(each for each in tried if isinstance(each, NoWay))
    in_hand: list[Draft] = []
    bought: list[Draft] = []
    for each in tried:
        if isinstance(each, Draft):
            (bought if must_buy(kitchen, each) else in_hand).append(each)
    own = ranked([finished(kitchen, each) for each in in_hand])
    if own and bought:
        first = folded(own)
        yield FitAnswer(original.day, original.forecasts, first, failed, _sentence(first), ())
    every = ranked([*own, *(finished(kitchen, each) for each in bought)])
    found = folded(every)
    yield FitAnswer(
        original.day,
        original.forecasts,
        found,
        failed,
        _sentence(found),
        tuple(_would_work(kitchen, every)),
        tuple(idle_hops(wish, every, failed)),
    )


def _why_nothing(recipe: Recipe, original: Original) -> Message | None:
    """Return why there is nothing to fit to any kitchen; None where there is."""
    if not number_or_none(recipe.process, "start_water"):
        return say("no-water-yet", "There is no water yet: say how much the recipe starts with.")
    for cause in no_wort(recipe, original.day):
        return cause.message
    if original.batch_l < LEAST_BATCH_L:
        return say(
            "little-wort",
            "The day ends with {0} of wort, too little to divide: start with more water.",
            (Kind.VOLUME, original.batch_l),
        )
    return None


def _numbered(recipe: Recipe) -> Recipe:
    """Lines are told apart by number; a recipe built by hand may have none yet."""
    ids = [line.line_id for name in LISTS for line in lines_of(recipe, name)]
    return recipe if len(set(ids)) == len(ids) else with_line_ids(recipe)


def _drafts(kitchen: Kitchen) -> list[Tried]:
    """Try each way in turn; those that make no sense here are left out without a word.

    Where all of it fits the fermenters in hand in a little less water, all ways that divide nothing
    are sought for that.
    """
    first = one_boil(kitchen)
    whole = first if isinstance(first, Draft) else None
    if whole is not None and whole.effort == 0 and not must_buy(kitchen, whole):
        return [first]
    fuller = in_less_water(kitchen)
    if fuller is None:
        tried = [first, *_undivided(kitchen, whole, divide=not _is_enough(kitchen, whole))]
    else:
        less = less_water(kitchen, fuller)
        others = _undivided(fuller, less, divide=not _is_enough(fuller, less))
        said = [
            held_fuller(kitchen, each, fuller) if isinstance(each, Draft) else each
            for each in others
        ]
        tried = [less, first, *said]
    holds = whole is not None and _holds(kitchen, whole)
    if not kitchen.wish.whole_packs:
        tried.append(smaller_batch(kitchen, holds))
    elif not holds or most_owned_l(kitchen.wish) < kitchen.original.batch_l:
        tried.append(whole_packs(kitchen))
    if fuller is None and not kitchen.wish.whole_packs:
        tried.append(two_brews(kitchen))
    return [each for each in tried if each is not None]


def _undivided(kitchen: Kitchen, base: Draft | None, *, divide: bool) -> list[Tried | None]:
    """Try the ways that put all of the recipe in, once one plain boil has been tried."""
    tried: list[Tried | None] = []
    if base is not None:
        tried += [late_extract(kitchen, base), *hop_ways(kitchen, base)]
        tried.append(shorter_boil(kitchen, base))
    tried += unboiled(kitchen, base)
    tried.append(covered(kitchen, base, cellar_for(kitchen.wish, mark_of(kitchen))))
    if divide:
        tried.append(two_boils(kitchen))
    tried.append(second_pot(kitchen))
    return tried


def _is_enough(kitchen: Kitchen, draft: Draft | None) -> bool:
    """Tell whether one boil holds the beer and is not worth dividing."""
    return draft is not None and _holds(kitchen, draft) and not _worth_dividing(draft)


def _holds(kitchen: Kitchen, draft: Draft) -> bool:
    return kitchen.apart(draft.recipes[0]) == 0.0


def _worth_dividing(draft: Draft) -> bool:
    if draft.bought:
        return True
    return float(quick_day(draft.recipes[0]).pot.boil_gravity_end) > STRONG_BOIL_SG


def _sentence(found: tuple[Way, ...]) -> Message:
    if not found:
        return say("nothing-works", "Nothing works in this kitchen as it is.")
    best = found[0]
    if best.key == "one boil" and best.effort == 0:
        return say("fits-as-written", "The recipe fits this kitchen as it is written.")
    nearest = within(best.name)
    if len(found) == 1:
        return (
            say("one-way-works", "One way works: {way}.", way=nearest)
            if best.in_hand
            else say(
                "one-way-works-bought",
                "One way works, with what you would buy or borrow: {way}.",
                way=nearest,
            )
        )
    if best.in_hand:
        return say(
            "ways-work",
            "{n} ways work. With what you have, nearest to the recipe with the least to do: {way}.",
            n=len(found),
            way=nearest,
        )
    return say(
        "ways-work-bought",
        "{n} ways work, each with something to buy or borrow. Nearest to the recipe with the least "
        "to do: {way}.",
        n=len(found),
        way=nearest,
    )


def _would_work(kitchen: Kitchen, found: Iterable[Way]) -> Iterable[Message]:
    """Yield what would make the whole recipe fit in one plain boil, where now it does not."""
    plain = [way for way in found if way.key == "one boil" and way.closeness == 0.0]
    if any(way.effort == 0 for way in plain):
        return
    batch = kitchen.original.batch_l
    owned = most_owned_l(kitchen.wish)
    if owned < batch - 0.05:
        brim = brim_for(batch, kitchen.wish.fermenters[0])
        yield (
            no_room_for_beer(kitchen.wish.fermenters[0])
            if brim is None
            else say(
                "fermenter-would-do",
                "A fermenter of {0} would hold the whole {1}, with room for krausen.",
                (Kind.VOLUME, brim),
                (Kind.VOLUME, batch),
            )
        )
    as_written = smallest_pot_l(kitchen.recipe)
    now = kitchen.wish.pot.volume
    if as_written is None or now is None or as_written <= now.value:
        return
    yield say(
        "pot-would-do",
        "A pot of {0} would boil it just as it is written.",
        (Kind.VOLUME, float(as_written)),
    )
    if not plain:
        least = _least_pot_l(kitchen, int(now.value) + 1, as_written)
        if least is not None and least < as_written:
            yield say(
                "pot-would-do-once",
                "A pot of {0} would boil all of it at once, topped up.",
                (Kind.VOLUME, float(least)),
            )


def _least_pot_l(kitchen: Kitchen, low: int, high: int) -> int | None:
    """Return the smallest pot in whole litres in which one boil works, fermenters aside."""
    written = with_mark(kitchen.recipe, mark_of(kitchen))

    def works(litres: int) -> float:
        pot = sized_pot(kitchen.wish.pot, float(litres))
        start = replace(with_losses_of(written, pot), pot=pot)
        made = filled(start, kitchen.original, own_water_l(start))
        return -1.0 if made is None else 1.0

    too_small = last_that_passes(works, low, high)
    return low if too_small is None else too_small + 1 if too_small < high else None
