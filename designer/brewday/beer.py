"""From pitched wort to beer: gravity, alcohol, bitterness, colour, and what packaging needs."""

from __future__ import annotations

from designer.brewday.bottles import bottled
from designer.brewday.darkening import darkened
from designer.brewday.hop_methods import hop_bitterness
from designer.brewday.packaging.sugars import each_sugar, extract_ferments
from designer.brewday.results import Beer, Boiled, Filled
from designer.brewday.run import Run
from designer.recipe.choices import Disinfectant
from designer.recipe.document import Process, Recipe
from designer.recipe.fields import number, number_or_none
from designer.wort.carbonation import (
    keg_pressure_bar,
    priming_sugar_g,
)
from designer.wort.colour import COLOUR_METHODS, malt_colour_units
from designer.wort.density import plato_from_gravity
from designer.wort.fermentation import (
    alcohol_by_volume,
    final_gravity,
    kcal_from_extracts,
    real_fermentability,
)
from designer.wort.numeric import Numeric, largest, smallest
from designer.wort.pitching import dry_yeast_wanted_g
from designer.wort.water import WATER_KG_PER_L
from designer.wort.water_treatment import chlorine_from_chloramine, metabisulfite_mg

LEES_FRACTION = 0.04
"""Share of the batch that stays with the yeast; common practice, no source."""
COOL_FERMENT_C = 15.0
"""Below it the yeast needs the dose of a cool fermentation; common practice, no source."""


def ferment(recipe: Recipe, run: Run, boiled: Boiled, filled: Filled) -> Beer:
    """Return the beer that the filled fermenter becomes."""
    given, process = run.inputs, recipe.process
    original = run.fermenter.gravity_sg
    cool = given.pitch_c < COOL_FERMENT_C
    wanted_g = dry_yeast_wanted_g(filled.batch_l, run.fermenter.plato, cool=cool)
    left = given.yeast.left_points(wanted_g) / 1000.0
    attenuated = final_gravity(original, _fermentable_share(run, filled))
    final = attenuated + smallest(left, largest(original - attenuated, 0.0))
    extracts = run.fermenter.plato, plato_from_gravity(final)
    hop_ibu, undissolved = hop_bitterness(recipe.methods.bitterness, run, boiled, filled, original)
    hops: Numeric = sum(hop_ibu.values(), 0.0)
    kits = _kit_mg(run, filled) / largest(filled.batch_l, 1e-9)
    mcu = malt_colour_units(filled.colour_units, filled.batch_l)
    by_malt = COLOUR_METHODS[recipe.methods.colour].function(mcu) * given.colour_model
    packaged = _packaged_l(run, filled.batch_l)
    water_l = given.water_kg / WATER_KG_PER_L + filled.top_up_l
    volumes, warmest_c = number(process, "carbonation"), warmest_after_c(process)
    bottles = bottled(process, warmest_c)
    priming = {
        sugar: priming_sugar_g(packaged, volumes, warmest_c, each)
        for sugar, each in each_sugar(extract_ferments(given.attenuation)).items()
        if bottles is None or not bottles.is_refused
    }
    return Beer(
        original_gravity=original,
        final_gravity=final,
        abv_percent=alcohol_by_volume(original, final, recipe.methods.alcohol, extracts),
        bitterness_ibu=hops * given.bitterness_model + kits,
        hop_ibu=hop_ibu,
        undissolved_ibu=undissolved,
        colour_srm=darkened(run, filled, by_malt),
        kcal_per_100ml=kcal_from_extracts(*extracts, final),
        packaged_l=packaged,
        yeast_wanted_g=wanted_g,
        priming_g=priming,
        bottled=bottles,
        keg_bar=keg_pressure_bar(volumes, number(process, "serving_temperature")),
        water_l=water_l,
        water_treatment_g=_water_treatment_g(process, water_l),
    )


def warmest_after_c(process: Process) -> float:
    """Return the warmest, °C, that the beer was since it fermented: its gas escapes for good then.

    It is taken to be as warm as it was pitched where nothing else is told.
    """
    told = number_or_none(process, "warmest_after")
    return number(process, "pitch_temperature") if told is None else told


def _fermentable_share(run: Run, filled: Filled) -> Numeric:
    """Real fermentability of the extract in the fermenter."""
    late = run.plan.fermenter
    lines = run.inputs.extracts
    return real_fermentability(
        [line.extract_kg * (1.0 if line in late else filled.moved_fraction) for line in lines],
        [line.fermentability for line in lines],
        [line.is_simple_sugar for line in lines],
        run.inputs.attenuation,
    )


def _kit_mg(run: Run, filled: Filled) -> Numeric:
    """Milligrams of iso-alpha acids that hopped kits bring into the fermenter."""
    late = run.plan.fermenter
    total: Numeric = 0.0
    for line in run.inputs.extracts:
        if line.has_label:
            total = total + line.label_mg * (1.0 if line in late else filled.moved_fraction)
    return total


def _packaged_l(run: Run, batch_l: Numeric) -> Numeric:
    held: Numeric = sum((hop.held_l for hop in run.plan.dry_hops), 0.0)
    return largest(batch_l * (1.0 - LEES_FRACTION) - held, 0.0)


def _water_treatment_g(process: Process, water_l: Numeric) -> Numeric:
    """Grams of metabisulfite for all the day's water; 0 if no chlorine is known."""
    told = number_or_none(process, "chlorine")
    if told is None:
        return 0.0
    counts_itself = process.disinfectant == Disinfectant.CHLORAMINE
    chlorine: Numeric = chlorine_from_chloramine(told) if counts_itself else told
    return metabisulfite_mg(water_l, chlorine, process.metabisulfite) / 1000.0
