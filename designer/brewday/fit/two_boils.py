"""Ways that share the recipe between two boils: one after the other, or in two pots at once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import isfinite

from designer.brewday.fit.answer import NoWay, named
from designer.brewday.fit.changed_recipe import (
    EXTRACT_STEP_KG,
    HOP_STEP_KG,
    WATER_STEP_L,
    line_kg,
    with_amounts,
)
from designer.brewday.fit.draft_way import (
    NAMES,
    Draft,
    Kitchen,
    Tried,
    in_kitchen,
    no_way,
    with_freezer,
)
from designer.brewday.fit.fermenters import Cellar, cellar_for, pair_for, shares
from designer.brewday.fit.fewer_hops import full_with_fewer_hops, hops_saved
from designer.brewday.fit.one_boil import gravity_held, mark_of
from designer.brewday.fit.original import Original
from designer.brewday.fit.pot_limits import filled, foam_limit
from designer.brewday.fit.scraps import scraps_left
from designer.brewday.fit.wish import room_l
from designer.recipe.choices import is_grain
from designer.recipe.document import Fermentable, Hop, Pot, Recipe
from designer.recipe.fields import number
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind
from designer.recipe.shares import extras_in_share

LEAST_HALF_L = 2.0
"""Less is not worth a boil of its own; a judgement, no source."""
Fill = Callable[[Recipe, Original, float], Recipe | None]


def two_boils(kitchen: Kitchen) -> Tried:
    """Half the recipe in each of two boils, one after the other in the one pot."""
    pot = kitchen.wish.pot
    return _shared_boils(
        kitchen,
        "two boils",
        (pot, pot),
        say("two-boils", "Each boil is weaker and may draw more from its hops; the day is long"),
        effort=4,
    )


def second_pot(kitchen: Kitchen) -> Tried | None:
    """The recipe shared between the two pots in hand, boiling at once."""
    second = kitchen.wish.second_pot
    if second is None:
        return None
    return _shared_boils(
        kitchen,
        "second pot",
        (kitchen.wish.pot, second),
        say("second-pot", "Both pots boil at once, each weaker than one would be"),
        effort=3,
    )


def _shared_boils(
    kitchen: Kitchen, key: str, pots: tuple[Pot, Pot], gist: Message, effort: int
) -> Tried:
    batch = mark_of(kitchen)
    one = cellar_for(replace(kitchen.wish, may_buy_fermenter=False), batch)
    in_one = one is not None and len(one.fermenters) == 1
    pair = one if in_one else pair_for(kitchen.wish, batch)
    if batch < 2.0 * LEAST_HALF_L:
        return no_way(
            key,
            "half-too-little",
            "Half of {0} is too little for a boil of its own.",
            (Kind.VOLUME, batch),
        )
    if pair is None:
        return _no_pair(kitchen, key, batch)
    first = _first_share(pots, pair, batch, in_one=in_one)
    marks = (batch / 2.0,) * 2 if in_one and first == 0.5 else _marks(batch, first)
    cellars = (
        (pair, pair)
        if in_one
        else tuple(
            Cellar((each,), pair.bought if place == 1 else 0)
            for place, each in enumerate(pair.fermenters)
        )
    )
    made = _both(kitchen, pots, cellars, marks, first, full_with_fewer_hops)
    if not isinstance(made, Message) and scraps_left(kitchen.recipe, made):
        made = _both(kitchen, pots, cellars, marks, first, filled)
    if isinstance(made, Message):
        return NoWay(key, NAMES[key], made)
    return Draft(
        key,
        made,
        cellars,
        effort + (1 if pair.bought else 0),
        gist,
        steps=(*_words(made, in_one=in_one), *hops_saved(kitchen.recipe, made)),
        at_once=key == "second pot",
        one_fermenter=in_one,
    )


def _no_pair(kitchen: Kitchen, key: str, batch_l: float) -> NoWay:
    """Return why no two fermenters take a batch: they are too small, or there is but one."""
    room = max(room_l(each) for each in kitchen.wish.fermenters)
    if 2.0 * room >= batch_l and not kitchen.wish.may_buy_fermenter:
        return no_way(
            key,
            "no-second-fermenter",
            "No two fermenters in hand hold {0} together, and none is to be bought.",
            (Kind.VOLUME, batch_l),
        )
    return no_way(
        key,
        "two-fermenters-too-small",
        "Two fermenters that take {1} each, with room for krausen, do not hold {0}.",
        (Kind.VOLUME, batch_l),
        (Kind.VOLUME, room),
    )


def _first_share(pots: tuple[Pot, Pot], pair: Cellar, batch_l: float, *, in_one: bool) -> float:
    """Return the share of the first boil: by the pots, as far as the fermenters let it."""
    first, second = (foam_limit(pot) for pot in pots)
    known = isfinite(first) and isfinite(second) and first + second > 0.0
    wanted = first / (first + second) if known else 0.5
    if in_one:
        return wanted
    return shares(pair, batch_l)[0]


def _marks(batch_l: float, first: float) -> tuple[float, float]:
    """Return two marks that add up to the batch."""
    one = round(round(batch_l * first / WATER_STEP_L) * WATER_STEP_L, 3)
    return one, round(batch_l - one, 3)


def _both(
    kitchen: Kitchen,
    pots: tuple[Pot, Pot],
    cellars: tuple[Cellar, ...],
    marks: tuple[float, float],
    first: float,
    fill: Fill,
) -> tuple[Recipe, Recipe] | Message:
    """Return both boils, or why one of them does not go; `fill` finds the water of each."""
    contents = divided(kitchen.recipe, first)
    made: list[Recipe] = []
    for part, pot, cellar, mark in zip(contents, pots, cellars, marks, strict=True):
        alike = (
            made
            and part == contents[0]
            and pot == pots[0]
            and cellar.fermenters == (cellars[0].fermenters)
            and mark == marks[0]
        )
        recipe = made[0] if alike else boiled(kitchen, part, pot, cellar, mark, fill)
        if recipe is None:
            return _why_not(kitchen, _in_pot(kitchen, part, pot, cellar, mark), sum(marks))
        made.append(recipe)
    return made[0], made[1]


def boiled(
    kitchen: Kitchen, part: Recipe, pot: Pot, cellar: Cellar, mark_l: float, fill: Fill
) -> Recipe | None:
    """Return a part of the recipe in its pot, topped up to a mark; None where it does not go."""
    start = _in_pot(kitchen, part, pot, cellar, mark_l)
    made = fill(start, kitchen.original, 3.0 * mark_l)
    return None if made is None else with_freezer(kitchen, gravity_held(kitchen, made))


def _in_pot(kitchen: Kitchen, part: Recipe, pot: Pot, cellar: Cellar, mark_l: float) -> Recipe:
    if pot != kitchen.wish.pot:
        measured = kitchen.wish.measured_in(pot)
        wish = replace(kitchen.wish, pot=pot, counted_for=None, measured=measured)
        kitchen = Kitchen(wish, kitchen.original)
    vessels = in_kitchen(kitchen, cellar, mark_l)
    return replace(part, pot=pot, fermenter=vessels.fermenter, process=vessels.process)


def _why_not(kitchen: Kitchen, start: Recipe, batch_l: float) -> Message:
    """Return why a boil that `filled` refuses does not go."""
    mark_l = number(start.process, "top_up_to")
    figures = (Kind.VOLUME, mark_l), (Kind.VOLUME, batch_l)
    pot = named(start.pot.name)
    if filled(start, kitchen.original, 3.0 * mark_l, hold_bitterness=False) is not None:
        return say(
            "half-too-bitter",
            "The share for {0} of the {1} boils in the {pot}, but too bitter: in as little water "
            "as holds the bitterness it would be a syrup.",
            *figures,
            pot=pot,
        )
    return say(
        "not-even-half",
        "Not even the share for {0} of the {1} boils in the {pot} at once: with room for foam it "
        "would be a syrup, or not go in at all.",
        *figures,
        pot=pot,
    )


def divided(recipe: Recipe, first: float) -> tuple[Recipe, Recipe]:
    """Return the recipe's contents in two parts that add up to it; the yeast whole in each."""
    one: dict[int, float] = {}
    two: dict[int, float] = {}
    lines: tuple[Fermentable | Hop, ...] = (*recipe.fermentables, *recipe.hops)
    for line in lines:
        whole = line_kg(line)
        step = EXTRACT_STEP_KG if isinstance(line, Fermentable) else HOP_STEP_KG
        if isinstance(line, Fermentable) and is_grain(line.kind):
            step = EXTRACT_STEP_KG / 5.0
        exact = abs(first - 0.5) < 1e-9
        kg = whole * first
        one[line.line_id] = round(kg, 4) if exact else round(round(kg / step) * step, 4)
        two[line.line_id] = round(whole - one[line.line_id], 4)

    def part(kilograms: dict[int, float], share: float) -> Recipe:
        extras = extras_in_share(recipe.extras, share)
        return replace(with_amounts(recipe, kilograms), extras=extras)

    return part(one, first), part(two, 1.0 - first)


def _words(made: tuple[Recipe, Recipe], *, in_one: bool) -> tuple[Message, ...]:
    figures = tuple((Kind.VOLUME, number(each.process, "top_up_to")) for each in made)
    shared = say(
        "two-parts",
        "Weigh everything into two parts as listed: one for {0}, one for {1}.",
        *figures,
    )
    if in_one:
        return (
            shared,
            say(
                "into-one",
                "Both go into the one fermenter: cool the first, pour it in and keep it covered; "
                "pitch when the second is in and cool, the same day.",
            ),
        )
    return (shared, say("into-each", "Each goes into a fermenter of its own."))
