"""The plain values of `hobwort forecast --json`.

Scripts are written for them: a key that is added leaves the form as it is; one that is changed in
its meaning, unit or shape, or taken away, raises it. `resources/schemas/forecast.json` says of each
key what it holds.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from designer.brewday.beer import warmest_after_c
from designer.brewday.fit.answer import per_litre
from designer.brewday.fit.costs import cost
from designer.brewday.in_words import said_of
from designer.brewday.other_methods import methods_document, other_methods
from designer.brewday.plan_days import days_of
from designer.brewday.results import Beer, Day, Finding, Outlook, PlanDays
from designer.recipe.document import LINE_TYPES, Recipe
from designer.recipe.fields import number, number_or_none
from designer.recipe.named import lines_of
from designer.translation import tr
from designer.workbench.kit_check import leaflet_document, stated_of
from designer.workbench.plan_document import (
    Places,
    forecasts_document,
    goes_in_document,
    places_of,
    plan_document,
    stages_document,
)
from designer.workbench.style_words import styles_document
from designer.wort.carbonation import PRIMED_HALF_WIDTH, residual_co2

FORM = 2
"""The number of the form of the document; see above for what raises it."""


def forecast_document(recipe: Recipe, outlook: Outlook) -> dict[str, Any]:
    """Return the forecast as plain values; litres at 20 °C, but `fullest_l` as hot as it is."""
    day, plan = outlook.day, days_of(recipe, outlook)
    values = {key: found.value for key, found in outlook.forecasts.items()}
    places, price = places_of(recipe), cost(recipe)
    brims = [each.brim_l for each in plan.fermenters]
    return {
        "form": FORM,
        **forecasts_document(outlook.forecasts, recipe.process),
        "in_words": {key: tr(words) for key, words in said_of(values).items()},
        "lines": _lines(recipe, plan, day, places),
        "steep": _steep(recipe, day),
        "water": _water(recipe, day.beer),
        "boil_gravity_start": float(day.pot.boil_gravity_start),
        "boil_gravity_end": float(day.pot.boil_gravity_end),
        "pot": {
            "start_l": float(day.pot.start_water_l),
            "fullest_l": float(day.pot.fullest_l),
            "fullest_at": day.pot.fullest_at,
            "end_l": float(day.pot.boil_end_l),
            "rim_l": _fullest_rim_l(plan),
        },
        "cooling": {
            "mixed_c": float(day.fermenter.mixed_c),
            "pour_at_c": float(day.fermenter.cool_to_c),
            "minutes": float(day.fermenter.cooling_min),
        },
        "ice": {
            "top_up_kg": float(day.fermenter.frozen_kg),
            "bath_kg": float(day.fermenter.bath_ice_kg),
        },
        "fermenter": {
            "from_pot_l": float(day.fermenter.from_pot_l),
            "top_up_l": float(day.fermenter.top_up_l),
            "hot_l": float(day.fermenter.hot_l),
            "total_l": float(day.fermenter.batch_l),
            "brim_l": None if None in brims else sum(each or 0.0 for each in brims),
        },
        "stages": stages_document(recipe, plan),
        "goes_in": goes_in_document(recipe, plan, places),
        "total_min": float(day.total_min),
        "yeast": {
            "low_g": float(day.beer.yeast_low_g),
            "high_g": float(day.beer.yeast_high_g),
            "packets": day.beer.yeast_packets,
        },
        "packaging": _packaging(recipe, day.beer),
        "cost": price,
        "cost_per_litre": per_litre(price, float(day.fermenter.batch_l)),
        "methods": methods_document(other_methods(recipe, day)),
        **plan_document(recipe, plan, places),
        "styles": styles_document(recipe, outlook.forecasts),
        "leaflet": leaflet_document(stated_of(recipe, outlook)),
        "watch_out": findings_document(recipe, outlook.findings),
    }


def findings_document(recipe: Recipe, findings: Sequence[Finding]) -> list[dict[str, Any]]:
    """Return findings as plain values."""
    places = places_of(recipe)
    return [_finding(each, places) for each in findings]


def _fullest_rim_l(plan: PlanDays) -> float | None:
    fullest = max(plan.boils, key=lambda each: float(each.day.pot.fullest_l))
    return number_or_none(fullest.recipe.pot, "volume")


def _lines(recipe: Recipe, plan: PlanDays, day: Day, places: Places) -> list[dict[str, Any]]:
    """What each fermentable and each hop brings to the beer; extras bring nothing of the sort."""
    known = {
        line.line_id: line
        for each in (recipe, *(boil.recipe for boil in reversed(plan.boils)))
        for lines in LINE_TYPES
        for line in lines_of(each, lines)
    }
    return [
        {
            "place": places.of(line_id),
            "name": line.name,
            "points": float(gives.points),
            "colour_mcu": float(gives.colour_mcu),
            "bitterness_ibu": float(gives.bitterness_ibu),
        }
        for line_id, line in known.items()
        if (gives := day.gives.get(line_id)) is not None
    ]


def _steep(recipe: Recipe, day: Day) -> dict[str, float] | None:
    if not any(each.key == "steep" for each in day.spans):
        return None
    return {
        "strike_c": float(day.steep.strike_c),
        "steeped_c": float(day.steep.steeped_c),
        "held_in_grain_l": float(day.steep.held_in_grain_l),
    }


def _water(recipe: Recipe, beer: Beer) -> dict[str, Any]:
    process, dose = recipe.process, float(beer.water_treatment_g)
    treatment = {"salt": process.metabisulfite, "g": dose, "against": process.disinfectant}
    return {"total_l": float(beer.water_l), "treatment": treatment if dose > 0.0 else None}


def _packaging(recipe: Recipe, beer: Beer) -> dict[str, Any]:
    bottles = beer.bottled
    return {
        "in": str(recipe.process.package),
        "beer_l": float(beer.packaged_l),
        "priming": None if bottles is None or bottles.is_refused else _priming(recipe, beer),
        "bottle": None
        if bottles is None
        else {
            "kind": str(bottles.kind),
            "most_bar": bottles.most_bar,
            "comfortable_bar": bottles.comfortable_bar,
            "never_bar": bottles.never_bar,
            "refused": bottles.is_refused,
        },
        "keg_bar": float(beer.keg_bar) if bottles is None else None,
    }


def _priming(recipe: Recipe, beer: Beer) -> dict[str, Any]:
    chosen, warmest_c = recipe.process.priming_sugar, warmest_after_c(recipe.process)
    volumes = number(recipe.process, "carbonation")
    return {
        "sugar": chosen,
        "g": float(beer.priming_g[chosen]),
        "warmest_c": warmest_c,
        "residual_vol": float(residual_co2(warmest_c)),
        "vol": volumes,
        "low_vol": max(volumes - PRIMED_HALF_WIDTH, 0.0),
        "high_vol": volumes + PRIMED_HALF_WIDTH,
        "instead_g": {
            other: float(grams) for other, grams in beer.priming_g.items() if other != chosen
        },
    }


def _finding(finding: Finding, places: Places) -> dict[str, Any]:
    about = finding.about
    line = "" if about.line is None or about.of not in LINE_TYPES else places.of(about.line)
    return {
        "code": finding.code,
        "severity": str(finding.severity),
        "place": ".".join(each for each in (line, about.field) if each) if line else str(about),
        "message": finding.message.text,
        "fix": finding.offer.text if finding.offer is not None else None,
        "leads_to": finding.leads_to or None,
    }
