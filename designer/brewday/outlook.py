"""All that is said of a recipe at once: the day, its forecasts with ranges, the findings."""

from __future__ import annotations

from designer.brewday.day import brew, brew_samples
from designer.brewday.doubts import SAMPLES
from designer.brewday.findings import findings
from designer.brewday.predictions import PREDICTIONS, Prediction
from designer.brewday.results import Day, Outlook, Range
from designer.recipe.document import Recipe

LOW_PERCENT, HIGH_PERCENT = 5.0, 95.0


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
    sampled, _ = brew_samples(recipe, SAMPLES)
    return {each.key: _range_of(values[each.key], each, sampled) for each in PREDICTIONS}


def _range_of(value: float, prediction: Prediction, sampled: Day) -> Range:
    import numpy as np

    spread = np.asarray(prediction.compute(sampled), dtype=float)
    low, high = np.percentile(spread, (LOW_PERCENT, HIGH_PERCENT))
    return Range(value, min(float(low), value), max(float(high), value))
