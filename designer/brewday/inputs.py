"""What a day starts from: the recipe as plain numbers, each as typed or as an array of samples."""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday import hop_doubts, malt_doubts, vessel_doubts, yeast_doubts
from designer.brewday.cooling import Cooling, cooling_of
from designer.brewday.extract_inputs import ExtractIn, extracts_in
from designer.brewday.heat_doubts import STAND, STOVES
from designer.brewday.tolerances import (
    ALPHA_ACID,
    WEIGHT,
    Sampler,
    input_of,
    sampled,
    sampled_field,
    sampled_or_doubt,
)
from designer.recipe.choices import CoolingWay, HopForm
from designer.recipe.document import Hop, Methods, Process, Recipe
from designer.recipe.fields import facts_of, number, number_or_none
from designer.recipe.quantity import Stage, When
from designer.wort.hop_age import alpha_kept, bitterness_kept
from designer.wort.numeric import Numeric, largest, smallest
from designer.wort.water import water_density

DROP_KG = 1e-6
"""A drop of water in every pot, so that an empty one divides nothing by zero."""

DRY = (Stage.DRY_HOP, Stage.FERMENTER)
"""Hops that go in there are never heated."""
MINUTES_A_DAY = 1440.0


@dataclass(slots=True, eq=False)
class HopIn:
    """A hop addition as the pot sees it: kg, milligrams of alpha acid, litres of wort it holds.

    Its alpha acid counts `gains` times what the clock of the day says: more than once for hops in
    the first wort. Those warm up in water that has no extract in it yet, where the clock would
    promise far more than is measured; so they count from the start of the boil. What pellets give
    more, `form_excess`, is no iso-alpha acid, and comes whether or not the alpha acid dissolves.
    """

    line_id: int
    name: str
    when: When
    mass_kg: Numeric
    alpha_fraction: Numeric
    alpha_mg: Numeric
    form_excess: Numeric
    gains: Numeric
    held_l: Numeric

    def counted_mg(self, dissolved: Numeric = 1.0) -> Numeric:
        """Return milligrams of alpha acid that the clock counts if this share dissolves."""
        return self.gains * self.alpha_mg * (dissolved + self.form_excess)


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
    cool_to_c: float | None
    left_in_pot_l: Numeric
    top_up_to_l: Numeric | None
    frozen_kg: float
    frozen_c: Numeric
    pitch_c: float
    grain_absorption: Numeric
    attenuation: Numeric
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
    start = sampled_field(sampler, "water measured in", process, "start_water")
    water = largest(start * water_density(number(process, "tap_temperature")) / 1000, DROP_KG)
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
        top_up_to_l=None
        if top_up is None
        else sampled_or_doubt(sampler, top_up, vessel_doubts.fermenter_mark(top_up.value)),
        frozen_kg=number(process, "frozen_top_up"),
        frozen_c=sampled_field(sampler, "freezer temperature", process, "frozen_temperature"),
        pitch_c=number(process, "pitch_temperature"),
        grain_absorption=absorption,
        attenuation=smallest(_attenuation(recipe, sampler), 1.0),
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
        hops=tuple(_hop_in(hop, recipe, sampler) for hop in recipe.hops),
    )


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


def _left_in_pot(process: Process, sampler: Sampler) -> Numeric:
    if process.left_in_pot is None:
        return sampler.doubt(vessel_doubts.LEFT_IN_POT)
    return sampled_field(sampler, vessel_doubts.LEFT_IN_POT.words, process, "left_in_pot")


def _attenuation(recipe: Recipe, sampler: Sampler) -> Numeric:
    if recipe.yeast.attenuation is None:
        return sampler.doubt(yeast_doubts.UNKNOWN_YEAST)
    return sampled_field(sampler, "attenuation", recipe.yeast, "attenuation")


def _hop_in(hop: Hop, recipe: Recipe, sampler: Sampler) -> HopIn:
    process, facts = recipe.process, facts_of(hop, "amount")
    amount = hop.amount.value if hop.amount is not None else 0.0
    weight = input_of(WEIGHT, f"{hop.name}, {hop.when.text}")
    mass = sampled(sampler, weight, amount, hop.amount, facts.spread, facts.relative)
    alpha = _alpha_acid(hop, sampler) * _kept(hop, sampler)
    pellets = hop.form == HopForm.PELLETS and hop.when.stage not in DRY
    warms_in_water = hop.when.stage in (Stage.FIRST_WORT, Stage.STEEP)
    return HopIn(
        line_id=hop.line_id,
        name=hop.name,
        when=hop.when,
        mass_kg=mass,
        alpha_fraction=alpha,
        alpha_mg=1e6 * mass * smallest(alpha, 1.0),
        form_excess=_pellet_factor(recipe.methods, sampler) - 1.0 if pellets else 0.0,
        gains=sampler.doubt(hop_doubts.FIRST_WORT) if warms_in_water else 1.0,
        held_l=mass * _holds(hop, process, sampler),
    )


def _holds(hop: Hop, process: Process, sampler: Sampler) -> Numeric:
    """Litres that a kilogram of the hops holds: as typed, else as hops of their form do."""
    doubt, typed = vessel_doubts.HELD_BY_HOPS[hop.form], process.hop_absorption
    if typed is None:
        return sampler.doubt(doubt)
    if typed.value == 0.0 and typed.spread is None:  # nothing is held, not about nothing
        return 0.0
    return sampled_field(sampler, doubt.words, process, "hop_absorption")


def _alpha_acid(hop: Hop, sampler: Sampler) -> Numeric:
    """Alpha acid as on the packet, or what the variety has; as good as anything if none is told."""
    typed, facts = hop.alpha, facts_of(hop, "alpha")
    if typed is None:
        return sampler.doubt(hop_doubts.UNKNOWN_ALPHA, hop.name)
    if typed.ends is not None:
        doubt = hop_doubts.usual_alpha(typed, typed.ends, age_known=hop.age is not None)
        return sampler.doubt(doubt, hop.name)
    key = input_of(ALPHA_ACID, hop.name)
    return sampled(sampler, key, typed.value, typed, facts.spread, facts.relative)


def _kept(hop: Hop, sampler: Sampler) -> Numeric:
    """Share of the bitterness that is left since the harvest.

    The lowest figure of a variety, and that of a hop nothing is known of, hold old packets too.
    """
    if hop.when.stage in DRY:
        return 1.0
    if hop.age is not None:
        aged = hop_doubts.ageing_rate(hop.kept) * hop.age.value / MINUTES_A_DAY
        return bitterness_kept(alpha_kept(aged * sampler.doubt(hop_doubts.AGEING)))
    if hop.alpha is None or hop.alpha.ends is not None:
        return 1.0
    return sampler.doubt(hop_doubts.unknown_age(hop.kept))


def _pellet_factor(methods: Methods, sampler: Sampler) -> Numeric:
    """What pellets give for one of whole hops: as sure as it was typed, else as it is known."""
    doubt, typed = hop_doubts.PELLETS, methods.pellet_factor
    if typed is None:
        return sampler.doubt(doubt)
    return largest(sampler.absolute(doubt.words, typed.value, typed.spread or 0.0), doubt.least)
