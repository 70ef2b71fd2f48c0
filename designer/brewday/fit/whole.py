"""Ways that boil the whole recipe at once: concentrated, topped up; with extract late; covered."""

from __future__ import annotations

from dataclasses import replace
from math import floor

from designer.brewday.figures import number
from designer.brewday.fit.answer import say
from designer.brewday.fit.changing import (
    WATER_STEP_L,
    boil_left,
    line_kg,
    quick_day,
    with_mark,
    with_process,
)
from designer.brewday.fit.drafts import Draft, Kitchen, Tried, in_kitchen, no_way, with_freezer
from designer.brewday.fit.fermenters import Cellar, brim_for, cellar_for
from designer.brewday.fit.lateness import held_late
from designer.brewday.fit.pot_limits import as_written, filled, foam_limit, own_water_l
from designer.brewday.fit.seeking import last_that_passes
from designer.recipe.document import Recipe
from designer.recipe.quantity import Kind, Quantity, Stage
from designer.wort.heat import STOVE_EFFICIENCY, evaporation_kg_h

LID_KEEPS = 0.5
"""A lid half on keeps about half of the steam in; common practice, no source: measure yours."""
LID_FOAM_ROOM = 0.25
"""The upper end of the usual room for foam: a covered boil foams higher; common practice."""
SHORTEST_BOIL_MIN = 15.0
"""Malt extract has been boiled already; long enough to kill what is in it; common practice."""
WORTH_SAVING_L = 0.3
STRONG_BOIL_SG = 1.090


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
            say(
                "The pot does not boil all of it at once: with {0} for wort below its foam line it "
                "would be a syrup, or not go in at all.",
                (Kind.VOLUME, foam_limit(kitchen.wish.pot)),
            ),
        )
    if made is not start or kitchen.wish.most_frozen_kg is not None:
        made = with_freezer(kitchen, gravity_held(kitchen, made))
    as_it_is = made == start and cellar.bought == 0
    gist = say(
        "It fits as it is written"
        if as_it_is
        else "All of the recipe in one concentrated boil, thinned with water in the fermenter"
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
    return no_way(
        key,
        say(
            "The fermenters do not hold {0}: with room for krausen that takes one of {1}.",
            (Kind.VOLUME, batch_l),
            (Kind.VOLUME, brim_for(batch_l, kitchen.wish.fermenters[0])),
        ),
    )


def gravity_held(kitchen: Kitchen, recipe: Recipe) -> Recipe:
    """Return the recipe topped up less where what stays in the pot has cost it gravity."""
    mark = number(recipe.process, "top_up_to")
    least = kitchen.original.least_gravity
    if float(quick_day(recipe).original_gravity) >= least:
        return recipe
    top = int(mark / WATER_STEP_L)

    def weaker(steps: int) -> float:
        return least - float(quick_day(with_mark(recipe, steps * WATER_STEP_L)).original_gravity)

    found = last_that_passes(weaker, top // 2, top, (round(0.95 * top), top))
    if found is None:
        return recipe
    less = with_mark(recipe, found * WATER_STEP_L)
    # In less beer the same hops count for more: a little less water takes that back.
    return filled(less, kitchen.original, own_water_l(less)) or less


def late_extract(kitchen: Kitchen, base: Draft) -> Tried | None:
    """The same with extract put in near the end, so that the boil is weaker and starts fuller."""
    found = held_late(kitchen, base.recipes[0])
    if found is None:
        return None
    made, names, minutes = found
    made = with_freezer(kitchen, gravity_held(kitchen, made))
    step = say(
        f"Hold back {' and '.join(names)} until {{0}} are left: take the pot off the burner, stir "
        "it in until all is dissolved, then back to the boil.",
        (Kind.TIME, minutes),
    )
    gained = float(quick_day(made).bitterness_ibu) - float(
        quick_day(base.recipes[0]).bitterness_ibu
    )
    gist = say(
        "A weaker boil draws more from the hops and darkens the wort less"
        if gained > 0.5
        else "The extract is boiled for less time, which keeps it paler than any figure here tells"
    )
    return replace(
        base, key="late extract", recipes=(made,), effort=2 + base.effort // 2, gist=gist,
        steps=(step,),
    )  # fmt: skip


def covered(kitchen: Kitchen, base: Draft | None, cellar: Cellar | None) -> Tried | None:
    """A lid partly on, where the stove is weak or much would boil off a strong wort."""
    recipe = base.recipes[0] if base is not None else None
    if not kitchen.wish.lid_may_be_used or cellar is None:
        return None
    start = recipe or in_kitchen(kitchen, cellar, mark_of(kitchen))
    if not _lid_helps(start):
        return None
    evaporation = LID_KEEPS * number(start.process, "evaporation")
    room = max(LID_FOAM_ROOM, number(start.pot, "foam_room"))
    lidded = with_process(
        start, evaporation=Quantity(round(evaporation, 3), f"{evaporation:.3g} L/h")
    )
    pot = replace(start.pot, foam_room=Quantity(room, f"{100.0 * room:g} %"))
    made = filled(replace(lidded, pot=pot), kitchen.original, own_water_l(kitchen.recipe))
    if made is None or (recipe is not None and not _lid_gains(recipe, made)):
        return None
    made = with_freezer(kitchen, gravity_held(kitchen, made))
    return Draft(
        "lid",
        (made,),
        (cellar,),
        3,
        say("Less water boils away, so the pot ends fuller and weaker and needs less of the stove"),
        steps=(
            say(
                "Lay the lid half over the pot: count on {0} instead of {1} boiling away, and "
                "measure it once.",
                (Kind.EVAPORATION, evaporation),
                (Kind.EVAPORATION, number(start.process, "evaporation")),
            ),
        ),
        cautions=(
            say(
                "Never close the lid: a covered pot boils over in seconds, and steam must carry "
                "off what tastes of cooked corn (dimethyl sulfide). Stay beside it."
            ),
        ),
    )


def _lid_helps(recipe: Recipe) -> bool:
    day = quick_day(recipe)
    saved = (1.0 - LID_KEEPS) * float(day.evaporated_l)
    if not day.reached_boil or _weak_stove(recipe, float(day.boiling_c)):
        return True
    return saved >= WORTH_SAVING_L and float(day.boil_gravity_end) > STRONG_BOIL_SG


def _lid_gains(open_pot: Recipe, covered_pot: Recipe) -> bool:
    """Tell whether the lid brings a boil at all, a weaker wort or more from the hops."""
    before, after = quick_day(open_pot), quick_day(covered_pot)
    if not before.reached_boil or _weak_stove(open_pot, float(before.boiling_c)):
        return bool(after.reached_boil)
    weaker = float(before.boil_gravity_end) - float(after.boil_gravity_end)
    return weaker > 0.005 or float(after.bitterness_ibu) > float(before.bitterness_ibu) + 0.5


def _weak_stove(recipe: Recipe, boiling_c: float) -> bool:
    """Tell whether the stove cannot drive off what is typed."""
    pot = recipe.pot
    net_w = STOVE_EFFICIENCY[pot.stove] * number(pot, "power")
    lost_w = number(pot, "heat_loss") * (boiling_c - number(recipe.process, "room_temperature"))
    return float(evaporation_kg_h(net_w - lost_w)) < number(recipe.process, "evaporation") / 1.1


def shorter_boil(kitchen: Kitchen, base: Draft) -> Tried | None:
    """A boil just as long as the hops need, where that is shorter than the recipe's."""
    if not kitchen.wish.boil_time_may_change:
        return None
    recipe = base.recipes[0]
    boil = number(recipe.process, "boil_time")
    longest_hop = max(
        (
            min(hop.when.minutes, boil) if hop.when.stage is Stage.BOIL else boil
            for hop in recipe.hops
            if hop.when.stage in (Stage.BOIL, Stage.FIRST_WORT, Stage.STEEP) and line_kg(hop) > 0.0
        ),
        default=0.0,
    )
    needed = max(longest_hop, SHORTEST_BOIL_MIN)
    if needed > boil - 10.0:
        return None
    made = filled(boiled_for(recipe, needed), kitchen.original, own_water_l(kitchen.recipe))
    if made is None:
        return None
    made = with_freezer(kitchen, gravity_held(kitchen, made))
    return replace(
        base,
        key="shorter boil",
        recipes=(made,),
        effort=base.effort + 1,
        gist=say("No hop needs the longer boil, and malt extract has been boiled before"),
        steps=(say("Boil {0} instead of {1}.", (Kind.TIME, needed), (Kind.TIME, boil)),),
    )


def boiled_for(recipe: Recipe, minutes: float) -> Recipe:
    """Return the recipe boiled for so long; what was to boil longer goes in at the start."""

    def capped(line: object) -> object:
        when = line.when  # type: ignore[attr-defined]
        if when.stage is Stage.BOIL and when.minutes > minutes:
            return replace(line, when=boil_left(minutes))  # type: ignore[type-var]
        return line

    made = with_process(recipe, boil_time=Quantity(minutes, f"{minutes:g} min"))
    changes = {
        name: tuple(capped(each) for each in getattr(made, name))
        for name in ("fermentables", "hops", "extras")
    }
    return replace(made, **changes)  # type: ignore[arg-type]
