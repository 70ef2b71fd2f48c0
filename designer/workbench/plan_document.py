"""The boils and the fermenters of a recipe as the plain values of `hobwort forecast --json`.

A recipe that is brewed as it is written has one of each.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from designer.brewday.instrument import reading_range
from designer.brewday.predictions import PREDICTIONS
from designer.brewday.results import BoilDay, FermenterDay, PlanDays, Poured, Range
from designer.recipe.document import LINE_TYPES, Process, Recipe
from designer.recipe.fields import number_or_none
from designer.recipe.named import lines_of
from designer.recipe.place import Place
from designer.recipe.plan import boils_of, share_of
from designer.recipe.quantity import Kind
from designer.units.clock import time_after
from designer.workbench.supplies_text import start_of


class Places(NamedTuple):
    """The places of lines as they are typed behind --set, by their line_id.

    `written` are those of the recipe, "hops.2"; `own`, by the number of a boil, those of the lines
    that it has in place of them, "boils.1.hops.2".
    """

    written: dict[int, str]
    own: dict[int, dict[int, str]]

    def of(self, line_id: int, boil: int | None = None) -> str:
        """Return the place of a line as a boil has it; "" where it is nowhere.

        Without a boil, the place where it is written, else that in the first boil that has it.
        """
        if boil is not None:
            return self.own[boil].get(line_id) or self.written.get(line_id, "")
        found = self.written.get(line_id, "")
        return found or next((own[line_id] for own in self.own.values() if line_id in own), "")


def places_of(recipe: Recipe) -> Places:
    """Return the places of all lines of a recipe and of its plan."""
    written = {
        line.line_id: str(Place(lines, line=number))
        for lines in LINE_TYPES
        for number, line in enumerate(lines_of(recipe, lines), 1)
    }
    own = {
        boil: {
            line.line_id: f"boils.{boil}.{Place(lines, line=number)}"
            for lines in LINE_TYPES
            for number, line in enumerate(getattr(each, lines) or (), 1)
        }
        for boil, each in enumerate(boils_of(recipe), 1)
    }
    return Places(written, own)


def plan_document(recipe: Recipe, plan: PlanDays, places: Places) -> dict[str, Any]:
    """Return the boils and the fermenters; litres at 20 °C, but `fullest_l` as hot as it is."""
    return {
        "boils": [_boil(recipe, each, places) for each in plan.boils],
        "fermenters": [_fermenter(recipe, each) for each in plan.fermenters],
    }


def _boil(recipe: Recipe, boil: BoilDay, places: Places) -> dict[str, Any]:
    planned, pot, day = boils_of(recipe)[boil.number - 1], boil.day.pot, boil.day
    return {
        "number": boil.number,
        "pot": boil.recipe.pot.name,
        "rim_l": number_or_none(boil.recipe.pot, "volume"),
        "share": share_of(recipe, planned),
        "turn": planned.turn,
        "on_day": boil.on_day,
        "starts_min": boil.starts_min,
        "total_min": float(day.total_min),
        "start_water_l": float(pot.start_water_l),
        "fullest_l": float(pot.fullest_l),
        "fullest_at": pot.fullest_at,
        "end_l": float(pot.boil_end_l),
        "boil_gravity_start": float(pot.boil_gravity_start),
        "boil_gravity_end": float(pot.boil_gravity_end),
        "forecasts": forecasts_document(boil.forecasts, recipe.process),
        "goes_in": [
            {key: value for key, value in each.items() if key != "boil"}
            for each in _goes_in(recipe, boil, places)
        ],
    }


def _fermenter(recipe: Recipe, filled: FermenterDay) -> dict[str, Any]:
    beer, yeast = filled.day.beer, filled.yeast
    return {
        "number": filled.number,
        "name": filled.vessel.name,
        "brim_l": filled.brim_l,
        "from": [_poured(each) for each in filled.poured],
        "from_pot_l": filled.from_pot_l,
        "top_up_l": filled.top_up_l,
        "frozen_kg": filled.frozen_kg,
        "hot_l": float(filled.day.fermenter.hot_l),
        "total_l": filled.total_l,
        "mixed_c": float(filled.day.fermenter.mixed_c),
        "yeast": {
            "name": yeast.name,
            "amount": None if yeast.amount is None else yeast.amount.text,
            "low_g": float(beer.yeast_low_g),
            "high_g": float(beer.yeast_high_g),
            "packets": beer.yeast_packets,
        },
        "on_day": filled.on_day,
        "pitched_min": filled.pitched_min,
        "forecasts": forecasts_document(filled.forecasts, recipe.process),
    }


def _poured(poured: Poured) -> dict[str, Any]:
    return {
        "boil": poured.boil,
        "share": poured.share,
        "from_pot_l": poured.from_pot_l,
        "top_up_l": poured.top_up_l,
        "frozen_kg": poured.frozen_kg,
    }


def stages_document(recipe: Recipe, plan: PlanDays) -> list[dict[str, Any]]:
    """Return when each stage of each boil begins and ends."""
    start = start_of(recipe)
    return [
        {
            "boil": boil.number,
            "on_day": boil.on_day,
            "stage": span.key,
            "name": span.label.text,
            "start": time_after(start, boil.starts_min + span.start_min)[1],
            "end": time_after(start, boil.starts_min + span.end_min)[1],
            "start_min": boil.starts_min + span.start_min,
            "end_min": boil.starts_min + span.end_min,
        }
        for boil in plan.boils
        for span in boil.day.spans
    ]


def goes_in_document(recipe: Recipe, plan: PlanDays, places: Places) -> list[dict[str, Any]]:
    """Return when each line goes into which boil, in order."""
    found = [each for boil in plan.boils for each in _goes_in(recipe, boil, places)]
    return sorted(found, key=lambda each: (each["on_day"], each["at_min"]))


def _goes_in(recipe: Recipe, boil: BoilDay, places: Places) -> Iterator[dict[str, Any]]:
    start, amounts = start_of(recipe), _amounts(boil.recipe)
    for each in boil.day.additions:
        at_min = boil.starts_min + each.time_min
        yield {
            "boil": boil.number,
            "on_day": boil.on_day,
            "place": places.of(each.line_id, boil.number),
            "name": each.name,
            "amount": amounts[each.line_id],
            "stage": str(each.stage),
            "at": time_after(start, at_min)[1],
            "at_min": at_min,
            "boil_left_min": each.boil_left_min,
        }


def _amounts(recipe: Recipe) -> dict[int, str | None]:
    return {
        line.line_id: None if line.amount is None else line.amount.text
        for lines in LINE_TYPES
        for line in lines_of(recipe, lines)
    }


def forecasts_document(forecasts: dict[str, Range], process: Process) -> dict[str, Any]:
    """Return forecasts by their keys, those of gravity with what the hydrometer should show."""
    document: dict[str, Any] = {key: _range(found) for key, found in forecasts.items()}
    for each in PREDICTIONS:
        if each.kind is Kind.GRAVITY:
            low, high = reading_range(forecasts[each.key], process)
            document[each.key]["reading"] = {"low": low, "high": high}
    return document


def _range(found: Range) -> dict[str, Any]:
    return {
        "value": found.value,
        "low": found.low,
        "high": found.high,
        "middle": found.middle,
        "leans": found.leans or None,
        "causes": [
            {
                "input": cause.key,
                "share": round(cause.share, 4),
                "advice": cause.advice or None,
                "low": cause.low,
                "high": cause.high,
                "brews": cause.rests_on or None,
            }
            for cause in found.causes
        ],
    }
