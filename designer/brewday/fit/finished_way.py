"""From a draft to a way: ranges, vessels, shopping, what is left, and how near the beer is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from designer.brewday.fit.answer import Boil, Compared, Filling, Way
from designer.brewday.fit.buying import must_buy
from designer.brewday.fit.cooling_plan import cooling_plan
from designer.brewday.fit.costs import cost, costs
from designer.brewday.fit.draft_way import NAMES, Draft, Kitchen
from designer.brewday.fit.fermenters import Cellar
from designer.brewday.fit.judgement import judgement
from designer.brewday.fit.leftovers import kept_for, left_over
from designer.brewday.fit.original import apart, over_ceiling_ibu
from designer.brewday.fit.plan_of_way import planned
from designer.brewday.fit.pot_limits import foam_limit, fullest_at_the_boil_l, own_water_l, rim_of
from designer.brewday.fit.way_cautions import cautions_of
from designer.brewday.fit.way_steps import steps_of
from designer.brewday.fit.wish import room_l
from designer.brewday.outlook import look_ahead_by_plan
from designer.brewday.results import BoilDay, PlanDays, Range
from designer.recipe.message import say, within
from designer.recipe.plan import planning
from designer.wort.bitterness import POT_CEILING_IBU


def finished(kitchen: Kitchen, draft: Draft) -> Way:
    """Return the way worked out; its rank is set when all are known."""
    original = kitchen.original
    recipe = planned(kitchen, draft)
    outlook = look_ahead_by_plan(recipe)
    plan = outlook.plan
    assert plan is not None  # it was asked for
    boils = tuple(_boils(draft, plan))
    forecasts = _compared(kitchen, outlook.forecasts)
    batch = float(outlook.day.fermenter.batch_l)
    pot_ibu = max(boil.pot_bitterness_ibu for boil in boils)
    buys = must_buy(kitchen, draft)
    held = kitchen.held_by(draft).day
    closeness = apart(
        held,
        {key: found.value for key, found in forecasts.items()},
        draft.litres_at_once([float(each.day.fermenter.batch_l) for each in plan.boils]),
        over_ceiling_ibu(held, pot_ibu),
        original.forecasts,
    )
    effort = draft.effort + 2 * draft.bought
    rest = left_over(kitchen.recipe, draft.recipes, len(draft.fermenters))
    text = say("fit", "fit: {way}", way=within(NAMES[draft.key]))
    return Way(
        key=draft.key,
        name=NAMES[draft.key],
        steps=(*draft.steps, *steps_of(boils, draft, kitchen)),
        cautions=(*draft.cautions, *cautions_of(boils)),
        planned=recipe,
        plan=plan,
        boils=boils,
        edit=planning(recipe.boils, recipe.fermenters, text),
        forecasts=forecasts,
        batch_l=batch,
        original_batch_l=original.batch_l,
        pot_bitterness_ibu=pot_ibu,
        ceiling_ibu=POT_CEILING_IBU,
        total_min=float(outlook.day.total_min),
        cooling=cooling_plan(draft.recipes[0]),
        must_buy=buys,
        left_over=rest,
        kept_meanwhile=kept_for(draft.recipes[-1]) if draft.another_day else (),
        costs=costs(kitchen.recipe, draft.recipes, len(draft.fermenters), buys),
        original_cost=cost(kitchen.recipe),
        judgement=judgement(kitchen, draft, forecasts, batch),
        closeness=closeness,
        effort=effort,
        rank=0,
    )


def _boils(draft: Draft, plan: PlanDays) -> Iterator[Boil]:
    """Yield each boil with the fermenters that its wort goes into."""
    for boiled, cellar in zip(plan.boils, draft.cellars, strict=True):
        day, recipe = boiled.day, replace(boiled.recipe, fermenter=cellar.as_one())
        limit = foam_limit(recipe.pot)
        yield Boil(
            recipe=recipe,
            day=day,
            start_water_l=own_water_l(recipe),
            fullest_l=float(day.pot.fullest_l),
            fullest_at=day.pot.fullest_at,
            rim_l=rim_of(recipe.pot),
            foam_limit_l=limit,
            foam_room_l=limit - fullest_at_the_boil_l(recipe, day),
            top_up_l=float(day.fermenter.top_up_l),
            frozen_kg=float(day.fermenter.frozen_kg),
            pot_bitterness_ibu=float(day.fermenter.pot_ibu),
            fillings=tuple(_fillings(boiled, cellar, plan)),
        )


def _fillings(boil: BoilDay, cellar: Cellar, plan: PlanDays) -> Iterator[Filling]:
    first_bought = len(cellar.fermenters) - cellar.bought
    found = [
        (each, poured)
        for each in plan.fermenters
        for poured in each.poured
        if poured.boil == boil.number
    ]
    for place, (fermenter, poured) in enumerate(found):
        yield Filling(
            fermenter=fermenter.vessel,
            in_hand=place < first_bought,
            from_pot_l=poured.from_pot_l,
            liquid_top_up_l=poured.liquid_top_up_l,
            frozen_kg=poured.frozen_kg,
            filled_l=poured.filled_l,
            room_l=room_l(fermenter.vessel),
            hot_l=poured.share * float(boil.day.fermenter.hot_l),
        )


def _compared(kitchen: Kitchen, forecasts: Mapping[str, Range]) -> dict[str, Compared]:
    return {
        key: Compared(each.value, each.low, each.high, before.value, each.leans)
        for key, before in kitchen.original.forecasts.items()
        if (each := forecasts[key])
    }
