"""What a day starts from: the recipe as plain numbers, each as typed or as an array of samples."""

from __future__ import annotations

from dataclasses import dataclass, replace

from designer.brewday import hop_doubts, malt_doubts, vessel_doubts, yeast_doubts
from designer.brewday.cooling import Cooling, cooling_of
from designer.brewday.extract_inputs import ExtractIn, extracts_in
from designer.brewday.heat_doubts import STAND, STOVES
from designer.brewday.hop_inputs import HopIn, hops_in
from designer.brewday.hot_wort import hottest_to_pour_c, takes_hot_water
from designer.brewday.tolerances import (
    Nominal,
    Sampler,
    sampled_field,
)
from designer.brewday.yeast_doubts import YeastIn
from designer.recipe.choices import CoolingWay
from designer.recipe.document import Process, Recipe
from designer.recipe.fields import number, number_or_none
from designer.recipe.quantity import Quantity, Stage
from designer.wort.numeric import Numeric, largest, smallest
from designer.wort.water import water_density

FERMENTER_MARK = vessel_doubts.FERMENTER_MARK
DROP_KG = 1e-6
"""A drop of water in every pot, so that an empty one divides nothing by zero."""


@dataclass(frozen=True, slots=True)
class Inputs:
    """All numbers a day starts from; units as the names say."""

    water_kg: Numeric
    tap_c: Numeric
    room_c: float
    altitude_m: float
    net_power_w: Numeric
    heat_loss_w_k: Numeric
    coil_l: float
    steep_c: Numeric
    steep_min: float
    boil_min: float
    evaporation_kg_min: Numeric
    held_by_stove: bool
    cooling: Cooling
    stand_off_c: Numeric
    cool_to_c: Numeric | None
    hottest_to_pour_c: float
    takes_hot_water: bool
    left_in_pot_l: Numeric
    top_up_to_l: Numeric | None
    frozen_kg: float
    frozen_c: Numeric
    pitch_c: float
    grain_absorption: Numeric
    attenuation: Numeric
    yeast: YeastIn
    utilisation_constant: float
    bitterness_model: Numeric
    gravity_effect: Numeric
    below_the_boil: Numeric
    undissolved: Numeric
    colour_model: Numeric
    darkening_srm: Numeric
    extracts: tuple[ExtractIn, ...]
    hops: tuple[HopIn, ...]


def gather(recipe: Recipe, sampler: Sampler) -> Inputs:
    """Return the recipe's numbers as `sampler` has them; what is left out takes its default."""
    process, pot = recipe.process, recipe.pot
    tap = sampled_field(sampler, "tap water temperature", process, "tap_temperature")
    tap_c, room_c = smallest(tap, 100.0), number(process, "room_temperature")
    water = _water_kg(process, sampler)
    absorption = sampled_field(sampler, "water held by grain", process, "grain_absorption")
    extracts = extracts_in(recipe, sampler, water, absorption)
    top_up = process.top_up_to
    return Inputs(
        water_kg=water,
        tap_c=tap_c,
        room_c=room_c,
        altitude_m=number(process, "altitude"),
        net_power_w=sampler.doubt(STOVES[pot.stove])
        * sampled_field(sampler, "stove power", pot, "power"),
        heat_loss_w_k=sampled_field(sampler, "heat lost by the pot", pot, "heat_loss"),
        coil_l=number(pot, "coil") if process.cooling == CoolingWay.COIL else 0.0,
        steep_c=number(process, "steep_temperature"),
        steep_min=number(process, "steep_time"),
        boil_min=number(process, "boil_time"),
        evaporation_kg_min=sampled_field(sampler, "evaporation", process, "evaporation")
        * water_density(20.0)
        / 1000
        / 60,
        held_by_stove=held_by_stove(recipe),
        cooling=cooling_of(process, tap_c, room_c, number_or_none(pot, "diameter"), sampler),
        stand_off_c=sampler.doubt(STAND) if _stands(recipe) else 0.0,
        cool_to_c=number_or_none(process, "cool_to"),
        left_in_pot_l=_left_in_pot(process, sampler),
        hottest_to_pour_c=hottest_to_pour_c(recipe.fermenter.kind),
        takes_hot_water=takes_hot_water(recipe.fermenter.kind),
        top_up_to_l=None if top_up is None else _filled_to(recipe, sampler, top_up),
        frozen_kg=number(process, "frozen_top_up"),
        frozen_c=sampled_field(sampler, "freezer temperature", process, "frozen_temperature"),
        pitch_c=number(process, "pitch_temperature"),
        grain_absorption=absorption,
        attenuation=smallest(_attenuation(recipe, sampler), 1.0),
        yeast=yeast_doubts.yeast_in(recipe, sampler),
        utilisation_constant=number(recipe.methods, "utilisation_constant"),
        bitterness_model=sampler.doubt(hop_doubts.BITTERNESS_MODEL),
        gravity_effect=sampler.doubt(hop_doubts.GRAVITY_EFFECT),
        below_the_boil=sampler.doubt(hop_doubts.BELOW_THE_BOIL),
        undissolved=sampler.doubt(hop_doubts.UNDISSOLVED),
        colour_model=sampler.doubt(malt_doubts.COLOUR_MODEL),
        darkening_srm=sampler.doubt(malt_doubts.DARKENING)
        if any(line.is_malt_extract for line in extracts)
        else 0.0,
        extracts=extracts,
        hops=hops_in(recipe, sampler),
    )


def of_a_like_recipe(given: Inputs, recipe: Recipe) -> Inputs:
    """Return the inputs of a plain day whose recipe differs from that of `given` in little.

    In nothing but the water that it starts with, what is frozen of the top-up, and when its
    fermentables go in.
    """
    plain = Nominal()
    water = _water_kg(recipe.process, plain)
    return replace(
        given,
        water_kg=water,
        frozen_kg=number(recipe.process, "frozen_top_up"),
        extracts=extracts_in(recipe, plain, water, given.grain_absorption),
    )


def _water_kg(process: Process, sampler: Sampler) -> Numeric:
    start = sampled_field(sampler, "water measured in", process, "start_water")
    return largest(start * water_density(number(process, "tap_temperature")) / 1000, DROP_KG)


def held_by_stove(recipe: Recipe) -> bool:
    """Whether no more is taken to boil away than the stove can drive off.

    So it is where its power was told, but not the evaporation measured, that is typed with its ±:
    what was seen to go tells more of a stove than its rating.
    """
    typed = recipe.process.evaporation
    measured = typed is not None and typed.spread is not None
    return recipe.pot.power is not None and not measured


def _stands(recipe: Recipe) -> bool:
    """Whether the wort is held at a temperature of the thermometer's."""
    return any(hop.when.stage is Stage.STAND for hop in recipe.hops)


def _filled_to(recipe: Recipe, sampler: Sampler, mark: Quantity) -> Numeric:
    """Return what is really in the fermenter that is topped up to a mark, litres."""
    holds = recipe.fermenter.marks_hold
    there_l = vessel_doubts.true_litres(recipe.fermenter, mark.value)
    off = vessel_doubts.off_at_mark(recipe.fermenter, mark.value)
    if mark.spread is not None:
        times = 1.0 if holds is None else holds.value
        return sampler.absolute(FERMENTER_MARK, there_l, times * mark.spread)
    if holds is None:
        return sampler.doubt(vessel_doubts.fermenter_mark(mark.value, recipe.fermenter.marks))
    return sampler.relative(FERMENTER_MARK, there_l, off)


def _left_in_pot(process: Process, sampler: Sampler) -> Numeric:
    if process.left_in_pot is None:
        return sampler.doubt(vessel_doubts.left_in_pot(process.into_fermenter))
    return sampled_field(sampler, vessel_doubts.LEFT_IN_POT.words, process, "left_in_pot")


def _attenuation(recipe: Recipe, sampler: Sampler) -> Numeric:
    if recipe.yeast.attenuation is None:
        return sampler.doubt(yeast_doubts.UNKNOWN_YEAST)
    return sampled_field(sampler, "attenuation", recipe.yeast, "attenuation")
