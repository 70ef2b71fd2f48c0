"""What a day starts from: the recipe as plain numbers, each as typed or as an array of samples."""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday import hop_doubts
from designer.brewday.cooling import Cooling, cooling_of
from designer.brewday.heat_doubts import STAND, STOVES
from designer.brewday.tolerances import (
    ALPHA_ACID,
    COLOUR,
    LABEL_BITTERNESS,
    SOLIDS,
    WEIGHT,
    Sampler,
    input_of,
    sampled,
    sampled_field,
)
from designer.recipe import kind_defaults
from designer.recipe.choices import CoolingWay, FermentableKind, HopForm, is_grain
from designer.recipe.document import Fermentable, Hop, Methods, Recipe
from designer.recipe.fields import facts_of, number, number_or_none
from designer.recipe.quantity import Stage, When
from designer.wort.hop_age import alpha_kept, bitterness_kept
from designer.wort.numeric import Numeric, largest, smallest
from designer.wort.water import water_density

DROP_KG = 1e-6
"""A drop of water in every pot, so that an empty one divides nothing by zero."""

COLOUR_MODEL_SPREAD = 0.10
"""Half width of the colour fit itself; common practice, no source."""
FERMENTABILITY_SPREAD = 0.015
"""Half width of the real fermentability of malt extract; from memory."""
STEEP_YIELD_SPREAD = 0.20
"""Half width of what a steep gives, relative: one handbook's experiment, one kitchen's crush."""
LABEL_BITTERNESS_SPREAD = 0.15
"""Half width of the bitterness printed on a kit, relative; common practice, no source."""
DRY = (Stage.DRY_HOP, Stage.FERMENTER)
"""Hops that go in there are never heated."""
MINUTES_A_DAY = 1440.0
LEAST_LABEL_KG = 0.001
"""No label is for less than a gram: so small an amount says nothing."""


@dataclass(slots=True, eq=False)
class ExtractIn:
    """A fermentable as the pot sees it: kg of extract and of its own water, colour in kg x °L.

    `grain_kg` is the dry grain of a steeped line (`is_grain`), 0 for all else; `label_mg` the
    milligrams of iso-alpha acids a hopped kit brings.
    """

    line_id: int
    name: str
    when: When
    extract_kg: Numeric
    water_kg: Numeric
    grain_kg: Numeric
    colour_units: Numeric
    fermentability: Numeric
    is_simple_sugar: bool
    is_grain: bool
    label_mg: Numeric

    @property
    def has_label(self) -> bool:
        """Whether the label promises any bitterness."""
        return not isinstance(self.label_mg, (float, int)) or self.label_mg > 0.0


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

    @property
    def counted_mg(self) -> Numeric:
        """Milligrams of alpha acid that the clock is to count, if all of it dissolves."""
        return self.counted(self.alpha_mg)

    def counted(self, dissolved_mg: Numeric) -> Numeric:
        """Return milligrams of alpha acid to count where so many of them dissolve."""
        return self.gains * (dissolved_mg + self.form_excess * self.alpha_mg)


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
    extracts: tuple[ExtractIn, ...]
    hops: tuple[HopIn, ...]


def gather(recipe: Recipe, sampler: Sampler) -> Inputs:
    """Return the recipe's numbers as `sampler` has them; what is left out takes its default."""
    process, pot = recipe.process, recipe.pot
    tap = sampled_field(sampler, "tap water temperature", process, "tap_temperature")
    tap_c, room_c = smallest(tap, 100.0), number(process, "room_temperature")
    start = sampled_field(sampler, "water measured in", process, "start_water")
    top_up = process.top_up_to
    return Inputs(
        water_kg=largest(start * water_density(number(process, "tap_temperature")) / 1000, DROP_KG),
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
        left_in_pot_l=sampled_field(sampler, "wort left in the pot", process, "left_in_pot"),
        top_up_to_l=None
        if top_up is None
        else sampled_field(sampler, "fermenter mark", process, "top_up_to"),
        frozen_kg=number(process, "frozen_top_up"),
        frozen_c=sampled_field(sampler, "freezer temperature", process, "frozen_temperature"),
        pitch_c=number(process, "pitch_temperature"),
        grain_absorption=sampled_field(sampler, "water held by grain", process, "grain_absorption"),
        attenuation=smallest(
            sampled_field(sampler, "attenuation", recipe.yeast, "attenuation"), 1.0
        ),
        utilisation_constant=number(recipe.methods, "utilisation_constant"),
        bitterness_model=sampler.doubt(hop_doubts.BITTERNESS_MODEL),
        gravity_effect=sampler.doubt(hop_doubts.GRAVITY_EFFECT),
        below_the_boil=sampler.doubt(hop_doubts.BELOW_THE_BOIL),
        undissolved=sampler.doubt(hop_doubts.UNDISSOLVED),
        colour_model=sampler.relative("colour model", 1.0, COLOUR_MODEL_SPREAD),
        extracts=tuple(_extract_in(line, sampler) for line in recipe.fermentables),
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


def _extract_in(line: Fermentable, sampler: Sampler) -> ExtractIn:
    amount = line.amount.value if line.amount is not None else 0.0
    facts = facts_of(line, "amount")
    mass = sampled(sampler, "kitchen scale", amount, line.amount, facts.spread, facts.relative)
    grain = is_grain(line.kind)
    share = kind_defaults.extract_fraction(line)
    default = kind_defaults.figures(line)
    if grain:
        part = sampled(
            sampler, "steep yield", share, line.extract, STEEP_YIELD_SPREAD, relative=True
        )
    else:
        # Two lines of one product are of one make, and so have one key.
        part = sampled(
            sampler,
            input_of(SOLIDS, line.name),
            share,
            line.extract,
            default.extract_spread,
            relative=False,
        )
    part = smallest(part, 1.0)
    extract = mass * part
    colour = sampled(
        sampler,
        input_of(COLOUR, line.name),
        kind_defaults.colour_lovibond(line),
        line.colour,
        facts_of(line, "colour").spread,
        relative=True,
    )
    ferments = kind_defaults.real_fermentability(line)
    simple = line.kind == FermentableKind.SUGAR and ferments >= 0.90
    if not simple and ferments > 0.0:
        sampled_ferments = sampler.absolute(
            "fermentability of extract", ferments, FERMENTABILITY_SPREAD
        )
    else:
        sampled_ferments = ferments
    return ExtractIn(
        line_id=line.line_id,
        name=line.name,
        when=line.when,
        extract_kg=extract,
        water_kg=0.0 if grain else mass - extract,
        grain_kg=mass if grain else 0.0,
        colour_units=mass * colour,
        fermentability=smallest(sampled_ferments, 1.0),
        is_simple_sugar=simple,
        is_grain=grain,
        label_mg=_label_mg(line, mass, sampler),
    )


def _label_mg(line: Fermentable, mass_kg: Numeric, sampler: Sampler) -> Numeric:
    """Iso-alpha acids of a hopped kit: label IBU x label litres, or mg/kg x kg without litres.

    A part of a tin has the same part of what its label says.
    """
    if line.label_bitterness is None:
        return 0.0
    label = sampled(
        sampler,
        input_of(LABEL_BITTERNESS, line.name),
        line.label_bitterness.value,
        line.label_bitterness,
        LABEL_BITTERNESS_SPREAD,
        relative=True,
    )
    if line.label_volume is None:
        return label * mass_kg
    whole = line.label_amount
    share = 1.0
    if whole is not None and whole.value >= LEAST_LABEL_KG and line.amount is not None:
        share = line.amount.value / whole.value
    return label * line.label_volume.value * share


def _hop_in(hop: Hop, recipe: Recipe, sampler: Sampler) -> HopIn:
    process, facts = recipe.process, facts_of(hop, "amount")
    amount = hop.amount.value if hop.amount is not None else 0.0
    weight = input_of(WEIGHT, f"{hop.name}, {hop.when.text}")
    mass = sampled(sampler, weight, amount, hop.amount, facts.spread, facts.relative)
    alpha = _alpha_acid(hop, sampler) * _kept(hop, sampler)
    if process.hop_absorption is not None:
        held = number(process, "hop_absorption")
    else:
        held = kind_defaults.hop_absorption(hop)
    holds = sampler.absolute(
        "wort held by hops", held, facts_of(process, "hop_absorption").spread if held else 0.0
    )
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
        held_l=mass * holds,
    )


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
