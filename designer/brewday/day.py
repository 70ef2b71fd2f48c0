"""One brew day, from cold water to pitched yeast: the only place that numbers come from.

`brew(recipe)` runs it once with plain floats and keeps the time line; `brew_samples(recipe)` runs
the same stages once with arrays, one element a sample.
"""

from __future__ import annotations

from dataclasses import replace

from designer.brewday.beer import ferment
from designer.brewday.fermenter import fill_fermenter
from designer.brewday.inputs import gather
from designer.brewday.isomerisation import IsoClock
from designer.brewday.results import KG_PER_L, Day
from designer.brewday.run import Run
from designer.brewday.schedule import schedule
from designer.brewday.shares import what_lines_give
from designer.brewday.stages import boil, boiling_c, bring_to_boil, fill, flame_out, stand, steep
from designer.brewday.tolerances import SAMPLES, AsTyped, Doubt, Draw, Sampled
from designer.recipe.document import Recipe
from designer.recipe.quantity import Stage
from designer.wort.numeric import Numeric, largest


def brew(recipe: Recipe) -> Day:
    """Return the day of the recipe as typed, with its time line; raises for no valid recipe."""
    return run_day(recipe, AsTyped(), noting=True)[0]


def brew_samples(recipe: Recipe, samples: int = SAMPLES) -> tuple[Day, dict[str, Doubt]]:
    """Return the day run for `samples` samples at once, and the doubtful inputs by key."""
    draw = Sampled(samples)
    return run_day(recipe, draw, noting=False)[0], draw.doubts


def run_day(recipe: Recipe, draw: Draw, *, noting: bool, parts: int = 1) -> tuple[Day, Run]:
    """Run the stages in order; the day, and the run with its books for those who check them.

    `parts` cuts each stretch of the day into so many steps; see `Run`.
    """
    run = _started(recipe, draw, noting=noting)
    run.parts = parts
    strike_c, steeped_c, held_l = _to_the_boil(run)
    start_l, start_sg = run.pot.volume_l, run.pot.gravity_sg
    boil(run, run.plan.boil_late, run.plan.boil_hops)
    end_l, end_sg, boiling = run.pot.volume_l, run.pot.gravity_sg, boiling_c(run)
    _after_the_boil(run)
    filled = fill_fermenter(run)
    beer = ferment(recipe, run, filled, start_sg, end_sg)
    day = Day(
        start_water_l=run.inputs.water_kg / KG_PER_L,
        strike_c=strike_c,
        steeped_c=steeped_c,
        held_in_grain_l=held_l,
        boil_start_l=start_l,
        boil_gravity_start=start_sg,
        boil_gravity_end=end_sg,
        boil_end_l=end_l,
        boiling_c=boiling,
        reached_boil=run.reached_boil,
        evaporated_l=run.steam_kg / KG_PER_L,
        pot_bitterness_ibu=filled.pot_ibu,
        fullest_l=run.fullest_l,
        fullest_at=run.fullest_at,
        fullest_boiling_l=run.fullest_boiling_l,
        cool_to_c=filled.cool_to_c,
        cooling_min=filled.cooling_min,
        lost_to_trub_l=filled.lost_to_trub_l,
        lost_to_hops_l=filled.lost_to_hops_l,
        from_pot_l=filled.from_pot_l,
        top_up_l=filled.top_up_l,
        frozen_kg=filled.frozen_kg,
        frozen_melted=filled.frozen_melted,
        batch_l=filled.batch_l,
        mixed_c=filled.mixed_c,
        original_gravity=beer.original_gravity,
        final_gravity=beer.final_gravity,
        abv_percent=beer.abv_percent,
        bitterness_ibu=beer.bitterness_ibu,
        colour_srm=beer.colour_srm,
        kcal_per_100ml=beer.kcal_per_100ml,
        co2_g_l=beer.co2_g_l,
        packaged_l=beer.packaged_l,
        yeast_low_g=beer.yeast_low_g,
        yeast_high_g=beer.yeast_high_g,
        priming_sugar_g=beer.priming_sugar_g,
        priming_dextrose_g=beer.priming_dextrose_g,
        keg_bar=beer.keg_bar,
        water_treatment_g=beer.water_treatment_g,
        total_min=run.now_min,
    )
    if noting:
        _note_untimed(recipe, run)
        additions = tuple(sorted(run.additions, key=lambda each: each.time_min))
        day = replace(
            day,
            spans=tuple(run.spans),
            additions=additions,
            moments=tuple(run.moments),
            gives=what_lines_give(run, filled, beer),
        )
    return day, run


class _BoilWatched(Run):
    """A run that keeps no notes but how full the pot is while it boils."""

    @property
    def watching(self) -> bool:
        """It is always of interest."""
        return True

    def note(self, stage: str, *, boiling: bool = False, **_: object) -> None:
        """Keep the fullest moment of the boil."""
        if boiling:
            filled = self.pot.filled_l + self.inputs.coil_l
            self.fullest_boiling_l = largest(self.fullest_boiling_l, filled)


def fullest_boiling_l(recipe: Recipe) -> float:
    """Return the most that the boiling pot holds, litres hot; the day ends at flame-out."""
    run = _started(recipe, AsTyped(), _BoilWatched)
    _to_the_boil(run)
    boil(run, run.plan.boil_late, run.plan.boil_hops)
    flame_out(run, run.plan.flame_out, run.plan.flame_out_hops)
    return float(run.fullest_boiling_l)


def mixed_c(recipe: Recipe) -> float:
    """Return the temperature in °C in the filled fermenter; the day ends there, without notes."""
    run = _started(recipe, AsTyped())
    _to_the_boil(run)
    boil(run, run.plan.boil_late, run.plan.boil_hops)
    _after_the_boil(run)
    return float(fill_fermenter(run).mixed_c)


def _started(recipe: Recipe, draw: Draw, kind: type[Run] = Run, *, noting: bool = False) -> Run:
    given = gather(recipe, draw)
    return kind(given, schedule(given), noting, IsoClock(given.utilisation_constant))


def _after_the_boil(run: Run) -> None:
    flame_out(run, run.plan.flame_out, run.plan.flame_out_hops)
    stand(run, run.plan.stand_hops)


def _to_the_boil(run: Run) -> tuple[Numeric, Numeric, Numeric]:
    """Fill, steep if there is grain, boil: strike and steeped temperature, litres held."""
    fill(run)
    steeped: tuple[Numeric, Numeric, Numeric] = (run.pot.temp_c, run.pot.temp_c, 0.0)
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
        run.note_addition("hops", hop.line_id, hop.name, "dry hop", end, None)
