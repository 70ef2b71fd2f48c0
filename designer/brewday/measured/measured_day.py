"""What is said of a brew day after readings: the outlook as it is known then."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from designer.brewday.findings import findings
from designer.brewday.measured.known import KnownDay
from designer.brewday.measured.known_plan import KnownPlan
from designer.brewday.measured.observed import Told
from designer.brewday.measured.other_boils import OtherBoil
from designer.brewday.measured.readings import Reading
from designer.brewday.outlook import forecasts_of, look_ahead, values_alone
from designer.brewday.plan_days import planned_outlook
from designer.brewday.results import Day, Outlook, Range
from designer.recipe.document import Recipe
from designer.recipe.plan import is_planned


def day_measured(recipe: Recipe, readings: Sequence[Reading], *, ranges: bool = True) -> Outlook:
    """Return what the recipe will give as it is known after the readings.

    It is as `look_ahead` tells it where nothing was read.
    """
    if not readings:
        return look_ahead(recipe, ranges=ranges)
    if is_planned(recipe):
        return _planned(recipe, readings, ranges=ranges)
    known = KnownDay(recipe, [Told(each) for each in readings])
    day = known.plain.day
    return Outlook(
        day,
        _forecasts(known, ranges=ranges),
        findings(known.recipe, day),
        recipe=known.recipe,
        expects=known.expects,
        wort_in=known.wort_in,
    )


def _planned(recipe: Recipe, readings: Sequence[Reading], *, ranges: bool) -> Outlook:
    plan = KnownPlan(recipe, readings)

    def run(plain: Recipe, told: Sequence[Told | OtherBoil]) -> tuple[Day, dict[str, Range]]:
        known = KnownDay(plain, told)
        return known.plain.day, _forecasts(known, ranges=ranges)

    return replace(
        planned_outlook(recipe, run, told=plan), expects=plan.expected, wort_in=plan.wort_in
    )


def _forecasts(known: KnownDay, *, ranges: bool) -> dict[str, Range]:
    day = known.plain.day
    if not ranges:
        return values_alone(day)
    lived, tolerances = known.sampled
    return forecasts_of(day, lived.day, tolerances, known.samples)
