"""All that is said of a recipe at once: the day, its forecasts with ranges, the findings."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from designer.brewday.day import brew, brew_samples
from designer.brewday.findings import findings
from designer.brewday.plan_days import planned_outlook
from designer.brewday.predictions import ON_OTHER_SCALES, PREDICTIONS
from designer.brewday.results import Day, Glimpse, Outlook, Range
from designer.brewday.sampling import samples_for
from designer.brewday.tolerances import Tolerance
from designer.recipe.document import Recipe
from designer.recipe.plan import is_planned

_COMPUTED = tuple(each for each in PREDICTIONS if not each.scale_of)


def look_ahead(recipe: Recipe, *, ranges: bool = True, glimpsed: Glimpse | None = None) -> Outlook:
    """Return what the recipe will give and what is to be watched.

    Without `ranges` every low and high is the value itself and numpy is not needed: the first
    window is painted so. What was `glimpsed` of the same recipe is not reckoned again.
    """
    if is_planned(recipe):
        brewed = _Brewed(() if glimpsed is None else glimpsed.brewed)
        return planned_outlook(recipe, partial(_run, brewed, ranges=ranges))
    day = brew(recipe) if glimpsed is None else glimpsed.day
    forecasts = _forecasts(recipe, day, ranges=ranges)
    return Outlook(day, forecasts, findings(recipe, day), recipe=recipe)


def look_ahead_by_plan(recipe: Recipe) -> Outlook:
    """Return what a recipe will give boil by boil, without findings; unplanned, it is one boil."""
    return planned_outlook(recipe, partial(_run, _Brewed(), ranges=True), watching=False)


class _Brewed:
    """The days of the plain recipes of a plan, of which none is run a second time."""

    def __init__(self, known: tuple[tuple[Recipe, Day], ...] = ()) -> None:
        self._known = known
        self.days: list[tuple[Recipe, Day]] = []

    def day(self, recipe: Recipe) -> Day:
        """Return the day of a plain recipe."""
        known = (day for brewed, day in self._known if brewed == recipe)
        day = next(known, None) or brew(recipe)
        self.days.append((recipe, day))
        return day


def _run(
    brewed: _Brewed, recipe: Recipe, told: tuple[object, ...], *, ranges: bool
) -> tuple[Day, dict[str, Range]]:
    day = brewed.day(recipe)
    return day, _forecasts(recipe, day, ranges=ranges)


def _forecasts(recipe: Recipe, day: Day, *, ranges: bool) -> dict[str, Range]:
    if not ranges:
        return values_alone(day)
    samples = samples_for(recipe)
    return forecasts_of(day, *brew_samples(recipe, samples), samples)


def values_alone(day: Day) -> dict[str, Range]:
    """Return the forecasts of a plain day, each low and high the value itself."""
    forecasts = {key: Range(value, value, value) for key, value in _values(day).items()}
    return dict(_with_scales(forecasts))


def forecasts_of(
    day: Day, sampled: Day, tolerances: dict[str, Tolerance], samples: int
) -> dict[str, Range]:
    """Return the forecasts of a plain day with the ranges and causes of the same as samples."""
    from designer.brewday.sensitivity import ranges_and_causes

    of_samples = {each.key: each.compute(sampled) for each in _COMPUTED}
    return dict(_with_scales(ranges_and_causes(_values(day), of_samples, tolerances, samples)))


def _with_scales(forecasts: dict[str, Range]) -> Iterator[tuple[str, Range]]:
    """Yield the forecasts in their order, each that is another on another scale behind it."""
    for key, found in forecasts.items():
        yield key, found
        scale = ON_OTHER_SCALES.get(key)
        if scale is not None:
            yield scale.key, found.on_scale(scale.of_one)


def glimpse(recipe: Recipe, before: Outlook) -> Glimpse:
    """Return what a recipe will give, with the ranges of one from which it was changed a little.

    It takes a fraction of the time of `look_ahead`, which is to follow.
    """
    if is_planned(recipe):
        brewed = _Brewed()
        seen = planned_outlook(recipe, partial(_run, brewed, ranges=False), watching=False)
        return Glimpse(seen.day, _moved(before, seen), seen.plan, tuple(brewed.days))
    day = brew(recipe)
    moved = {key: before.forecasts[key].moved_to(value) for key, value in _values(day).items()}
    return Glimpse(day, dict(_with_scales(moved)))


def _moved(before: Outlook, seen: Outlook) -> dict[str, Range]:
    values = {key: found.value for key, found in seen.forecasts.items()}
    return {key: before.forecasts[key].moved_to(value) for key, value in values.items()}


def _values(day: Day) -> dict[str, float]:
    return {each.key: float(each.compute(day)) for each in _COMPUTED}
