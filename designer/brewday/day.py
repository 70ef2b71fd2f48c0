"""One brew day, from cold water to pitched yeast: the only place that numbers come from.

`brew(recipe)` runs it once with plain floats and keeps the time line; `brew_samples(recipe)` runs
the same stages once with arrays, one element a sample.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from designer.brewday.beer import ferment
from designer.brewday.contributions import contributions
from designer.brewday.fermenter import fill_fermenter
from designer.brewday.inputs import Inputs, gather, of_a_like_recipe
from designer.brewday.isomerisation import IsoClock, SampledClock
from designer.brewday.pot import Contents
from designer.brewday.results import Beer, Began, Boiled, Day, Hot, Steeped
from designer.brewday.run import Run
from designer.brewday.schedule import schedule
from designer.brewday.stages import boil, boiling_c, bring_to_boil, fill, flame_out, stand, steep
from designer.brewday.tolerances import SAMPLES, LatinHypercube, Nominal, Sampler, Tolerance
from designer.brewday.tried import Paused, Tried, alike_until_cooled
from designer.recipe.document import Recipe
from designer.recipe.quantity import Stage
from designer.wort.numeric import largest
from designer.wort.water import WATER_KG_PER_L


def brew(recipe: Recipe) -> Day:
    """Return the day of the recipe as typed, with its time line; raises for no valid recipe."""
    run = _started(gather(recipe, Nominal()), noting=True)
    hot = _until_cooled(run)
    return _from_cooled(recipe, run, hot, Paused.of(run, hot))


def tried(recipe: Recipe, like: Began | None = None) -> Day:
    """Return the day of a recipe as typed, for who wants to know what a change makes of it.

    It has neither moments nor additions; all else is as `brew` tells it. `like` is what the recipe
    began with that this one was changed from: where the change does nothing before the pot is
    cooled, the day goes on from there, and it is run once, however often it is asked for.
    """
    paused = None if like is None else like.paused
    if like is None or not isinstance(paused, Paused):
        return _tried_alone(recipe, gather(recipe, Nominal()))
    day = paused.day_tried(recipe)
    if day is None:
        given = gather(recipe, Nominal())
        if alike_until_cooled(like.given, given):
            day = _from_cooled(recipe, paused.gone_on(given, schedule(given)), paused.hot)
        else:
            day = _tried_alone(recipe, given)
        paused.keep_tried(recipe, day)
    return day


def _tried_alone(recipe: Recipe, given: Inputs) -> Day:
    run = _started(given, Tried, noting=True)
    return _from_cooled(recipe, run, _until_cooled(run))


def brew_samples(recipe: Recipe, samples: int = SAMPLES) -> tuple[Day, dict[str, Tolerance]]:
    """Return the day run for `samples` samples at once, and the tolerances of its inputs by key."""
    sampler = LatinHypercube(samples)
    return run_day(recipe, sampler, noting=False)[0], sampler.tolerances


def run_day(recipe: Recipe, sampler: Sampler, *, noting: bool, parts: int = 1) -> tuple[Day, Run]:
    """Run the stages in order; the day, and the run, with books if `noting`, for who checks them.

    `parts` cuts each stretch of the day into so many steps; see `Run`.
    """
    given = gather(recipe, sampler)
    run = Run(given, schedule(given), noting, _clock(given), keeps_books=noting, parts=parts)
    return _run_through(recipe, run), run


def run_from(recipe: Recipe, given: Inputs, kind: Callable[..., Run], *, noting: bool) -> Day:
    """Return the day that begins with these inputs, run as this `kind` of run."""
    return _run_through(recipe, _started(given, kind, noting=noting))


def fill_from(given: Inputs, kind: Callable[..., Run]) -> None:
    """Run a day that begins with these inputs until the fermenter is filled, without notes."""
    run = _started(given, kind)
    _to_the_cooling(run)
    fill_fermenter(run)


def _run_through(recipe: Recipe, run: Run) -> Day:
    return _from_cooled(recipe, run, _until_cooled(run))


def _until_cooled(run: Run) -> Hot:
    steeped = _to_the_boil(run)
    pot = run.pot
    start_l, start_sg = pot.volume_l, pot.gravity_sg
    boil(run, run.plan.boil_late, run.plan.boil_hops)
    end_l, end_sg, at_c = pot.volume_l, pot.gravity_sg, boiling_c(run)
    _after_the_boil(run)
    return Hot(steeped, start_l, start_sg, end_l, end_sg, at_c, _as_it_is(pot))


def _from_cooled(recipe: Recipe, run: Run, hot: Hot, paused: Paused | None = None) -> Day:
    filled = fill_fermenter(run)
    boiled = Boiled(
        start_water_l=run.inputs.water_kg / WATER_KG_PER_L,
        boil_start_l=hot.boil_start_l,
        boil_gravity_start=hot.boil_gravity_start,
        boil_gravity_end=hot.boil_gravity_end,
        boil_end_l=hot.boil_end_l,
        boiling_c=hot.boiling_c,
        reached_boil=run.reached_boil,
        evaporated_l=run.steam_kg / WATER_KG_PER_L,
        fullest_l=run.fullest_l,
        fullest_at=run.fullest_at,
        fullest_boiling_l=run.fullest_boiling_l,
    )
    beer = ferment(recipe, run, boiled, filled)
    day = Day(hot.steeped, boiled, filled, beer, run.now_min)
    return (
        _with_time_line(day, recipe, run, Began(run.inputs, hot.pot, paused)) if run.noting else day
    )


def _as_it_is(pot: Contents) -> Contents:
    """Return a pot with the same in it, without its book."""
    same = Contents(pot.extract_kg, pot.water_kg, pot.grain_kg, pot.colour_units)
    same.temp_c = pot.temp_c
    return same


def _with_time_line(day: Day, recipe: Recipe, run: Run, began: Began) -> Day:
    if run.tells_additions:
        _note_untimed(recipe, run)
    return replace(
        day,
        began=began,
        spans=tuple(run.spans),
        additions=tuple(sorted(run.additions, key=lambda each: each.time_min)),
        moments=tuple(run.moments),
        gives=contributions(run, day.fermenter, day.beer),
    )


class _BoilWatched(Run):
    """A run that keeps no notes but how full the pot is while it boils, and counts no hops."""

    @property
    def watching(self) -> bool:
        """It is always of interest."""
        return True

    @property
    def counts_hops(self) -> bool:
        """Nobody asks for bitterness."""
        return False

    def note(self, stage: str, *, boiling: bool = False, **_: object) -> None:
        """Keep the fullest moment of the boil."""
        if boiling:
            filled = self.pot.filled_l + self.inputs.coil_l
            self.fullest_boiling_l = largest(self.fullest_boiling_l, filled)


def fullest_boiling_l(recipe: Recipe, like: Began | None = None) -> float:
    """Return the most that the boiling pot holds, litres hot; the day ends at flame-out.

    `like` is what a recipe began with that this one is like, see `of_a_like_recipe`; if that was a
    plain day this one is `tried`, for so it will be if it is that of a cure.
    """
    if _is_tried(like):
        return float(tried(recipe, like).pot.fullest_boiling_l)
    run = _started(_given(recipe, like), _BoilWatched)
    _to_the_boil(run)
    boil(run, run.plan.boil_late, run.plan.boil_hops)
    flame_out(run, (), run.plan.flame_out_hops)
    return float(run.fullest_boiling_l)


def mixed_c(recipe: Recipe, like: Began | None = None) -> float:
    """Return the temperature in °C in the filled fermenter; the day ends there, without notes.

    `like` is what a recipe began with that differs in nothing but what of its top-up is frozen: its
    pot comes to be cooled with the same in it. See `fullest_boiling_l`.
    """
    if _is_tried(like):
        return float(tried(recipe, like).fermenter.mixed_c)
    run = _started(_given(recipe, like))
    if like is None:
        _to_the_cooling(run)
    else:
        run.pot = _as_it_is(like.hot_pot)
    return float(fill_fermenter(run).mixed_c)


def beer_of(recipe: Recipe, like: Began | None = None) -> Beer:
    """Return the beer of a plain day; for `like` see `fullest_boiling_l`."""
    if _is_tried(like):
        return tried(recipe, like).beer
    return _run_through(recipe, _started(_given(recipe, like))).beer


def _is_tried(like: Began | None) -> bool:
    return like is not None and isinstance(like.paused, Paused)


def _given(recipe: Recipe, like: Began | None) -> Inputs:
    return gather(recipe, Nominal()) if like is None else of_a_like_recipe(like.given, recipe)


def _started(given: Inputs, kind: Callable[..., Run] = Run, *, noting: bool = False) -> Run:
    return kind(given, schedule(given), noting, _clock(given))


def _clock(given: Inputs) -> IsoClock:
    is_plain = isinstance(given.gravity_effect, (float, int))
    return (IsoClock if is_plain else SampledClock)(given.utilisation_constant)


def _to_the_cooling(run: Run) -> None:
    _to_the_boil(run)
    boil(run, run.plan.boil_late, run.plan.boil_hops)
    _after_the_boil(run)


def _after_the_boil(run: Run) -> None:
    flame_out(run, run.plan.flame_out, run.plan.flame_out_hops)
    stand(run, run.plan.stand_hops)


def _to_the_boil(run: Run) -> Steeped:
    """Fill, steep if there is grain, bring to the boil."""
    fill(run)
    steeped = Steeped(run.pot.temp_c, run.pot.temp_c, 0.0)
    if run.plan.grain:
        steeped = steep(run, run.plan.grain)
    for line in run.plan.into_steep:
        run.put_in_extract(line, "steep")
    for hop in run.plan.first_wort_hops:
        run.put_in_hops(hop, "first wort")
    bring_to_boil(run, run.plan.boil_start)
    return steeped


def _note_untimed(recipe: Recipe, run: Run) -> None:
    """Say when finings, nutrient and dry hops go in; the pot's reckoning needs none of them."""
    boil_end = next(span.end_min for span in run.spans if span.key == "boil")
    end = float(run.now_min)
    for extra in recipe.extras:
        stage, left, at = extra.when.stage, None, boil_end
        if stage is Stage.BOIL:
            left = min(extra.when.minutes, run.inputs.boil_min)
            at = boil_end - left
        elif stage in (Stage.STEEP, Stage.FIRST_WORT):
            at = 0.0
        elif stage in (Stage.FERMENTER, Stage.DRY_HOP):
            at = end
        run.note_addition("extras", extra.line_id, extra.name, str(stage), at, left)
    for hop in run.plan.dry_hops:
        run.note_addition("hops", hop.line_id, hop.name, Stage.DRY_HOP, end, None)
