"""From a draft to a way: ranges, vessels, shopping, what is left, and how near the beer is."""

from __future__ import annotations

from collections.abc import Sequence

from designer.brewday.fit.answer import Boil, Compared, Way
from designer.brewday.fit.changed_recipe import edit_between
from designer.brewday.fit.cooling_plan import cooling_plan
from designer.brewday.fit.draft_way import NAMES, Draft, Kitchen
from designer.brewday.fit.fermenters import Cellar, fillings
from designer.brewday.fit.judgement import judgement
from designer.brewday.fit.leftovers import cost, left_over, must_buy
from designer.brewday.fit.original import apart, over_ceiling_ibu
from designer.brewday.fit.pot_limits import foam_limit, fullest_at_the_boil_l, own_water_l, rim_of
from designer.brewday.fit.way_steps import cautions_of, steps_of
from designer.brewday.outlook import look_ahead
from designer.brewday.results import Outlook
from designer.recipe.document import Recipe
from designer.recipe.message import say, within
from designer.wort.bitterness import POT_CEILING_IBU


def finished(kitchen: Kitchen, draft: Draft) -> Way:
    """Return the way worked out; its rank is set when all are known."""
    original = kitchen.original
    outlooks = _outlooks(draft.recipes)
    boils = tuple(
        _boil(recipe, outlook, cellar)
        for recipe, outlook, cellar in zip(draft.recipes, outlooks, draft.cellars, strict=True)
    )
    forecasts = _together(kitchen, outlooks)
    batch = sum(float(each.day.fermenter.batch_l) for each in outlooks)
    pot_ibu = max(boil.pot_bitterness_ibu for boil in boils)
    buys = must_buy(kitchen, draft)
    held = kitchen.held_by(draft).day
    closeness = apart(
        held,
        {key: found.value for key, found in forecasts.items()},
        batch,
        over_ceiling_ibu(held, pot_ibu),
        original.forecasts,
    )
    effort = draft.effort + 2 * draft.bought
    rest = left_over(kitchen.recipe, draft.recipes, len(draft.fermenters))
    minutes = [float(each.day.total_min) for each in outlooks]
    return Way(
        key=draft.key,
        name=NAMES[draft.key],
        steps=(*draft.steps, *steps_of(boils, draft, kitchen)),
        cautions=(*draft.cautions, *cautions_of(boils)),
        boils=boils,
        edit=edit_between(
            kitchen.recipe, draft.recipes[0], say("fit", "fit: {way}", way=within(NAMES[draft.key]))
        ),
        forecasts=forecasts,
        batch_l=batch,
        original_batch_l=original.batch_l,
        pot_bitterness_ibu=pot_ibu,
        ceiling_ibu=POT_CEILING_IBU,
        total_min=max(minutes) if draft.at_once else sum(minutes),
        cooling=cooling_plan(draft.recipes[0]),
        must_buy=buys,
        left_over=rest,
        cost=cost(kitchen.recipe, draft.recipes, len(draft.fermenters)),
        judgement=judgement(kitchen, draft, forecasts, batch),
        closeness=closeness,
        effort=effort,
        rank=0,
    )


def _outlooks(recipes: tuple[Recipe, ...]) -> list[Outlook]:
    """Look ahead once at each recipe; two boils that are alike share the answer."""
    found: list[Outlook] = []
    for place, recipe in enumerate(recipes):
        same = place > 0 and recipe == recipes[0]
        found.append(found[0] if same else look_ahead(recipe))
    return found


def _boil(recipe: Recipe, outlook: Outlook, cellar: Cellar) -> Boil:
    day = outlook.day
    limit = foam_limit(recipe.pot)
    return Boil(
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
        fillings=fillings(cellar, day),
    )


def _alike(leanings: set[str]) -> str:
    """Return where all boils lean to; nowhere where they differ."""
    return leanings.pop() if len(leanings) == 1 else ""


def _together(kitchen: Kitchen, outlooks: Sequence[Outlook]) -> dict[str, Compared]:
    """Return the forecasts of all boils taken together, each for its volume."""
    volumes = [float(each.day.fermenter.batch_l) for each in outlooks]
    whole = max(sum(volumes), 1e-9)

    def mean(values: Sequence[float]) -> float:
        return sum(value * litres for value, litres in zip(values, volumes, strict=True)) / whole

    return {
        key: Compared(
            value=mean([each.forecasts[key].value for each in outlooks]),
            low=mean([each.forecasts[key].low for each in outlooks]),
            high=mean([each.forecasts[key].high for each in outlooks]),
            original=found.value,
            leans=_alike({each.forecasts[key].leans for each in outlooks}),
        )
        for key, found in kitchen.original.forecasts.items()
    }
