"""Ways with less boiling away: a lid partly on, or a shorter boil, where either is sound."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeVar

from designer.brewday.fit.changed_recipe import boil_left, line_kg, quick_day, with_process
from designer.brewday.fit.draft_way import Draft, Kitchen, Tried, in_kitchen, with_freezer
from designer.brewday.fit.fermenters import Cellar
from designer.brewday.fit.one_boil import gravity_held, mark_of
from designer.brewday.fit.pot_limits import filled, own_water_l
from designer.brewday.inputs import held_by_stove
from designer.recipe.document import Extra, Fermentable, Hop, Recipe
from designer.recipe.fields import number
from designer.recipe.kinds import typed
from designer.recipe.message import say
from designer.recipe.quantity import Kind, Stage
from designer.wort.heat import STOVE_EFFICIENCY, evaporation_kg_h
from designer.wort.water import WATER_KG_PER_L

LID_KEEPS = 0.5
"""A lid half on keeps about half of the steam in; common practice, no source: measure yours."""
LID_FOAM_ROOM = 0.25
"""The upper end of the usual room for foam: a covered boil foams higher; common practice."""
SHORTEST_BOIL_MIN = 15.0
"""Malt extract has been boiled already; long enough to kill what is in it; common practice."""
WORTH_SAVING_L = 0.3
STRONG_BOIL_SG = 1.090


def covered(kitchen: Kitchen, base: Draft | None, cellar: Cellar | None) -> Tried | None:
    """A lid partly on: the stove is weak, much boils off a strong wort, or one boil does not go."""
    recipe = base.recipes[0] if base is not None else None
    if not kitchen.wish.lid_may_be_used or cellar is None:
        return None
    if recipe is not None and not _lid_helps(recipe):
        return None
    start = recipe or in_kitchen(kitchen, cellar, mark_of(kitchen))
    open_l_h = _boils_off_l_h(start)
    evaporation = LID_KEEPS * open_l_h
    room = max(LID_FOAM_ROOM, number(start.pot, "foam_room"))
    lidded = with_process(start, evaporation=typed(Kind.EVAPORATION, round(evaporation, 3), ".3g"))
    pot = replace(start.pot, foam_room=typed(Kind.FRACTION, room))
    made = filled(replace(lidded, pot=pot), kitchen.original, own_water_l(kitchen.recipe))
    if made is None or (recipe is not None and not _lid_gains(recipe, made)):
        return None
    made = with_freezer(kitchen, gravity_held(kitchen, made))
    return Draft(
        "lid",
        (made,),
        (cellar,),
        3,
        say(
            "lid",
            "Less water boils away, so the pot ends fuller and weaker and needs less of the stove",
        ),
        steps=(
            say(
                "lay-lid",
                "Lay the lid half over the pot: count on {0} instead of {1} boiling away, and "
                "measure it once.",
                (Kind.EVAPORATION, evaporation),
                (Kind.EVAPORATION, open_l_h),
            ),
        ),
        cautions=(
            say(
                "never-close-lid",
                "Never close the lid: a covered pot boils over in seconds, and steam must carry "
                "off what tastes of cooked corn (dimethyl sulfide). Stay beside it.",
            ),
        ),
    )


def _lid_helps(recipe: Recipe) -> bool:
    day = quick_day(recipe)
    saved = (1.0 - LID_KEEPS) * float(day.pot.evaporated_l)
    if not day.pot.reached_boil or _weak_stove(recipe, float(day.pot.boiling_c)):
        return True
    return saved >= WORTH_SAVING_L and float(day.pot.boil_gravity_end) > STRONG_BOIL_SG


def _lid_gains(open_pot: Recipe, covered_pot: Recipe) -> bool:
    """Tell whether the lid brings a boil at all, a weaker wort or more from the hops."""
    before, after = quick_day(open_pot), quick_day(covered_pot)
    if not before.pot.reached_boil or _weak_stove(open_pot, float(before.pot.boiling_c)):
        return bool(after.pot.reached_boil)
    weaker = float(before.pot.boil_gravity_end) - float(after.pot.boil_gravity_end)
    return (
        weaker > 0.005 or float(after.beer.bitterness_ibu) > float(before.beer.bitterness_ibu) + 0.5
    )


def _boils_off_l_h(recipe: Recipe) -> float:
    """What boils away of an open pot: what is typed, or as much of it as the stove drives off."""
    typed_l_h = number(recipe.process, "evaporation")
    if not held_by_stove(recipe):
        return typed_l_h
    return min(typed_l_h, _most_l_h(recipe, float(quick_day(recipe).pot.boiling_c)))


def _weak_stove(recipe: Recipe, boiling_c: float) -> bool:
    """Tell whether the stove cannot drive off what is typed."""
    return _most_l_h(recipe, boiling_c) < number(recipe.process, "evaporation") / 1.1


def _most_l_h(recipe: Recipe, boiling_c: float) -> float:
    """What the stove can drive off, cold litres an hour."""
    pot = recipe.pot
    net_w = STOVE_EFFICIENCY[pot.stove] * number(pot, "power")
    lost_w = number(pot, "heat_loss") * (boiling_c - number(recipe.process, "room_temperature"))
    return float(evaporation_kg_h(net_w - lost_w)) / WATER_KG_PER_L


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
        gist=say(
            "shorter-boil", "No hop needs the longer boil, and malt extract has been boiled before"
        ),
        steps=(
            say("boil-shorter", "Boil {0} instead of {1}.", (Kind.TIME, needed), (Kind.TIME, boil)),
        ),
    )


Line = TypeVar("Line", Fermentable, Hop, Extra)


def boiled_for(recipe: Recipe, minutes: float) -> Recipe:
    """Return the recipe boiled for so long; what was to boil longer goes in at the start."""

    def capped(lines: tuple[Line, ...]) -> tuple[Line, ...]:
        longer = [each.when.stage is Stage.BOIL and each.when.minutes > minutes for each in lines]
        return tuple(
            replace(each, when=boil_left(minutes)) if long else each
            for each, long in zip(lines, longer, strict=True)
        )

    made = with_process(recipe, boil_time=typed(Kind.TIME, minutes))
    return replace(
        made,
        fermentables=capped(made.fermentables),
        hops=capped(made.hops),
        extras=capped(made.extras),
    )
