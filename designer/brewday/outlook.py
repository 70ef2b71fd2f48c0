"""All that is said of a recipe at once: the day, its forecasts with ranges, the findings."""

from __future__ import annotations

from designer.brewday.causes import ranges_and_causes
from designer.brewday.day import brew, brew_samples
from designer.brewday.doubts import SAMPLES
from designer.brewday.findings import findings
from designer.brewday.predictions import PREDICTIONS
from designer.brewday.results import Outlook, Range
from designer.recipe.document import Recipe


def look_ahead(recipe: Recipe, *, ranges: bool = True) -> Outlook:
    """Return what the recipe will give and what is to be watched.

    Without `ranges` every low and high is the value itself and numpy is not needed: the first
    window is painted so.
    """
    day = brew(recipe)
    values = {each.key: float(each.compute(day)) for each in PREDICTIONS}
    if ranges:
        forecasts = _ranges(recipe, values)
    else:
        forecasts = {key: Range(value, value, value) for key, value in values.items()}
    return Outlook(day, forecasts, findings(recipe, day))


def _ranges(recipe: Recipe, values: dict[str, float]) -> dict[str, Range]:
    day, doubts = brew_samples(recipe, SAMPLES)
    return ranges_and_causes(
        values, {each.key: each.compute(day) for each in PREDICTIONS}, doubts, SAMPLES
    )
