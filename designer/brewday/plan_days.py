"""The days of a planned recipe: each boil, each fermenter, the whole, and what is to be watched.

Each pour from a boil into a fermenter is a plain day of its own, as if all the wort of the boil
went its way; what really goes is its share of that. Pours that are alike share one day.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from designer.brewday.day import brew
from designer.brewday.findings import findings_of_boil, findings_of_fermenter
from designer.brewday.plan_together import forecasts_mixed, in_share, mixed, one_after_another
from designer.brewday.results import (
    BoilDay,
    Day,
    FermenterDay,
    Finding,
    Outlook,
    PlanDays,
    Poured,
    Range,
    doubt,
)
from designer.recipe.choices import FermenterKind, Turn
from designer.recipe.document import Recipe
from designer.recipe.place import Place
from designer.recipe.plan import (
    Pour,
    boils_of,
    fermenters_of,
    left_of_boil,
    pours,
    recipe_at,
    recipe_of_pour,
    yeast_of,
)
from designer.recipe.quantity import Kind
from designer.recipe.severity import Severity
from designer.translation import message

Forecasts = dict[str, Range]
Told = tuple[Any, ...]
Run = Callable[[Recipe, Told], tuple[Day, Forecasts]]
"""The day and the forecasts of a plain recipe, as they are known by what was told of it."""
LEAST_LEFT = 0.02
"""A smaller share of a boil's wort that goes nowhere is within the rounding of what was typed."""


def day_alone(recipe: Recipe, told: Told) -> tuple[Day, Forecasts]:
    """Run a plain recipe for its day alone."""
    return brew(recipe), {}


class ToldOfPours:
    """What was told of each pour of a recipe beside the recipe itself: nothing, of a plan alone."""

    def of(self, pour: Pour) -> Told:
        """Return what was told; pours of like recipes share a day where they were told the same."""
        return ()

    def recipe(self, made: Recipe, pour: Pour) -> Recipe:
        """Return the plain recipe of a pour as it was done."""
        return made


def planned_outlook(
    recipe: Recipe, run: Run, *, told: ToldOfPours | None = None, watching: bool = True
) -> Outlook:
    """Return what a planned recipe gives; `run` tells day and forecasts of a plain one.

    Without `watching` there are no findings.
    """
    found = _Pours(recipe, run, told or ToldOfPours())
    boils = _boils(recipe, found)
    fermenters = tuple(_fermenters(recipe, found, boils))
    litres = [each.total_l for each in fermenters]
    return Outlook(
        _whole(boils),
        forecasts_mixed([each.forecasts for each in fermenters], litres),
        _findings(recipe, boils, fermenters) if watching else (),
        PlanDays(boils, fermenters),
        recipe=recipe,
    )


def cooled_for_all(recipe: Recipe, pour: Pour, made: Recipe) -> Recipe:
    """Return the plain recipe of a pour with its wort cooled as the pot is.

    A pot is cooled once, so if any of its wort goes into glass all of it is cooled for that.
    """
    vessels = fermenters_of(recipe)
    own = [each for each in pours(recipe) if each.boil == pour.boil]
    kinds = {vessels[each.fermenter - 1].fermenter.kind for each in own}
    if FermenterKind.GLASS_CARBOY not in kinds:
        return made
    glass = FermenterKind.GLASS_CARBOY.value
    return replace(made, fermenter=replace(made.fermenter, kind=glass))


def days_of(recipe: Recipe, outlook: Outlook) -> PlanDays:
    """Return the boils and fermenters of an outlook: one of each where the recipe has no plan."""
    if outlook.plan is not None:
        return outlook.plan
    day, forecasts = outlook.day, outlook.forecasts
    (pour,) = pours(recipe)
    boil = BoilDay(1, recipe, day, forecasts, starts_min=0.0, on_day=0)
    fermenter = FermenterDay(
        number=1,
        vessel=recipe.fermenter,
        yeast=recipe.yeast,
        poured=(_poured(pour, day),),
        day=day,
        forecasts=forecasts,
        pitched_min=float(day.total_min),
        on_day=0,
    )
    return PlanDays((boil,), (fermenter,))


class _Pours:
    """The pours of a recipe, each with its day as if all of its boil went its way."""

    def __init__(self, recipe: Recipe, run: Run, told: ToldOfPours) -> None:
        self.all = pours(recipe)
        self._days: list[tuple[Recipe, Told, tuple[Day, Forecasts]]] = []
        self._recipe, self._run, self._told = recipe, run, told
        self._found = {pour: self._of(pour) for pour in self.all}

    def _of(self, pour: Pour) -> tuple[Recipe, Day, Forecasts]:
        made = self._told.recipe(recipe_of_pour(self._recipe, pour), pour)
        # The day knows what a vessel is made of, but neither what it is called nor how large it is.
        plain = cooled_for_all(self._recipe, pour, made)
        plain = replace(
            plain, fermenter=replace(plain.fermenter, name="", volume=None, headspace=None)
        )
        told = self._told.of(pour)
        known = next((each[2] for each in self._days if each[:2] == (plain, told)), None)
        if known is None:
            known = self._run(plain, told)
            self._days.append((plain, told, known))
        return made, *known

    def recipe(self, pour: Pour) -> Recipe:
        """Return the plain recipe of a pour."""
        return self._found[pour][0]

    def of_boil(self, boil: int) -> list[Pour]:
        """Return the pours of a boil, first the one that its pot is cooled for: the coldest."""
        own = [each for each in self.all if each.boil == boil]
        return sorted(own, key=self._cooled_for)

    def _cooled_for(self, pour: Pour) -> tuple[float, bool]:
        made, day, _ = self._found[pour]
        is_glass = made.fermenter.kind == FermenterKind.GLASS_CARBOY
        return round(float(day.fermenter.cool_to_c), 1), not is_glass

    def day(self, pour: Pour) -> Day:
        """Return the day of a pour at its own size."""
        return in_share(self._found[pour][1], pour.share)

    def forecasts(self, pour: Pour) -> Forecasts:
        """Return the forecasts of a pour by itself."""
        return self._found[pour][2]

    def mixed(self, chosen: list[Pour]) -> tuple[Day, Forecasts]:
        """Return the day and the forecasts of pours together."""
        days = [self.day(each) for each in chosen]
        litres = [float(each.fermenter.batch_l) for each in days]
        return mixed(days), forecasts_mixed([self.forecasts(each) for each in chosen], litres)


def _boils(recipe: Recipe, found: _Pours) -> tuple[BoilDay, ...]:
    made: list[BoilDay] = []
    start, on_day = 0.0, 0
    for number, boil in enumerate(boils_of(recipe), 1):
        own = found.of_boil(number)
        day, forecasts = found.mixed(own)
        cooled = found.day(own[0]).fermenter
        day = replace(
            day,
            fermenter=replace(
                day.fermenter, cool_to_c=cooled.cool_to_c, bath_ice_kg=cooled.bath_ice_kg
            ),
        )
        if made and boil.turn == Turn.ANOTHER_DAY:
            start, on_day = 0.0, on_day + 1
        elif made and boil.turn == Turn.AT_ONCE:
            start = made[-1].starts_min
        elif made:
            start = _end_min(made, on_day)
        made.append(BoilDay(number, found.recipe(own[0]), day, forecasts, start, on_day))
    return tuple(made)


def _end_min(boils: Sequence[BoilDay], on_day: int) -> float:
    ends = [each.starts_min + float(each.day.total_min) for each in boils if each.on_day == on_day]
    return max(ends, default=0.0)


def _fermenters(recipe: Recipe, found: _Pours, boils: Sequence[BoilDay]) -> Iterator[FermenterDay]:
    for number, planned in enumerate(fermenters_of(recipe), 1):
        own = [each for each in found.all if each.fermenter == number]
        day, forecasts = found.mixed(own)
        last = max(
            (boils[each.boil - 1] for each in own),
            key=lambda each: (each.on_day, each.starts_min + float(each.day.total_min)),
        )
        yield FermenterDay(
            number=number,
            vessel=planned.fermenter,
            yeast=yeast_of(recipe, planned),
            poured=tuple(_poured(each, found.day(each)) for each in own),
            day=day,
            forecasts=forecasts,
            pitched_min=last.starts_min + float(last.day.total_min),
            on_day=last.on_day,
        )


def _poured(pour: Pour, day: Day) -> Poured:
    filled = day.fermenter
    return Poured(
        pour.boil,
        pour.share,
        float(filled.from_pot_l),
        float(filled.top_up_l),
        float(filled.frozen_kg),
        float(filled.batch_l),
    )


def _whole(boils: Sequence[BoilDay]) -> Day:
    """Return all boils as one day; those of another day are put behind the first."""
    before = [
        sum(_end_min(boils, day) for day in range(each.on_day)) + each.starts_min for each in boils
    ]
    total = sum(_end_min(boils, day) for day in range(boils[-1].on_day + 1))
    return one_after_another([each.day for each in boils], before, total)


def _findings(
    recipe: Recipe, boils: Sequence[BoilDay], fermenters: Sequence[FermenterDay]
) -> tuple[Finding, ...]:
    """Return what is doubtful of each boil and each fermenter, the same of several once.

    Their cures are edits of a plain recipe and cure no plan.
    """
    found: dict[object, Finding] = {}
    for boil in boils:
        for each in findings_of_boil(boil.recipe, boil.day):
            found.setdefault(each.message, _of(each, Place("boils", line=boil.number)))
        left = left_of_boil(recipe, boil.number)
        if left > LEAST_LEFT:
            about = Place("boils", line=boil.number)
            share = (Kind.FRACTION, left)
            words = message("{0} of the wort of boil {boil} goes into no fermenter.")
            said = doubt(Severity.CARE, about, "wort-left-over", words, share, boil=boil.number)
            found.setdefault(said.message, said)
    for fermenter in fermenters:
        whole = recipe_at(recipe, fermenter.poured[0].boil, fermenter.number)
        for each in findings_of_fermenter(whole, fermenter.day):
            found.setdefault(each.message, _of(each, Place("fermenters", line=fermenter.number)))
    return tuple(sorted(found.values(), key=lambda each: each.severity.rank))


def _of(finding: Finding, about: Place) -> Finding:
    return replace(finding, about=about, fix=None)
