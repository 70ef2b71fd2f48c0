"""What the pot gets of each fermentable: extract, its own water, colour, and what a label says."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

from designer.brewday import malt_doubts
from designer.brewday.line_memory import made_once
from designer.brewday.tolerances import (
    COLOUR,
    LABEL_BITTERNESS,
    Sampler,
    input_of,
    sampled,
    sampled_or_doubt,
)
from designer.recipe import kind_defaults
from designer.recipe.choices import FermentableKind, is_grain
from designer.recipe.document import Fermentable, Process, Recipe
from designer.recipe.fields import facts_of, number
from designer.recipe.quantity import When
from designer.translation import message
from designer.wort.numeric import Numeric, any_positive, smallest
from designer.wort.steeping import base_malt_yield

MOST_HELD_IN_BAG = 0.5
"""Share of the steep's liquid that a bag holds at the most; thicker steeps than 2 L/kg hold it."""
LABEL_BITTERNESS_SPREAD = 0.15
"""Half width of the bitterness printed on a kit, relative; common practice, no source."""
LEAST_LABEL_KG = 0.001
"""No label is for less than a gram: so small an amount says nothing."""

EXTRACT_GOT = message("extract that really gets in")
SIMPLE_FROM = 0.90
"""A sugar of which so much ferments is simple: every yeast ferments as much of it."""


@dataclass(frozen=True, slots=True, eq=False)
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
    is_malt_extract: bool
    label_mg: Numeric

    @property
    def has_label(self) -> bool:
        """Whether the label promises any bitterness."""
        return not isinstance(self.label_mg, (float, int)) or self.label_mg > 0.0


def extracts_in(
    recipe: Recipe, sampler: Sampler, water_kg: Numeric, absorption: Numeric
) -> tuple[ExtractIn, ...]:
    """Return the fermentables of the recipe; the bag is lifted out of so much water."""
    process = recipe.process
    about = (
        process.steep_temperature,
        process.steep_time,
        process.syrup_tin,
        process.steep_yield,
        process.extract_got,
    )
    lines = tuple(
        made_once(line, about, sampler, partial(_extract_in, line, process))
        for line in recipe.fermentables
    )
    grain_kg: Numeric = sum((line.grain_kg for line in lines), 0.0)
    if any_positive(grain_kg):
        held = smallest(grain_kg * absorption / water_kg, MOST_HELD_IN_BAG)
        delivered = 1.0 - sampler.doubt(malt_doubts.held_in_bag(process.grain_bag)) * held
        return tuple(
            replace(line, extract_kg=line.extract_kg * delivered) if line.is_grain else line
            for line in lines
        )
    return lines


def _extract_in(line: Fermentable, process: Process, sampler: Sampler) -> ExtractIn:
    amount = line.amount.value if line.amount is not None else 0.0
    facts = facts_of(line, "amount")
    mass = sampled(sampler, "kitchen scale", amount, line.amount, facts.spread, facts.relative)
    poured: Numeric = 1.0
    if malt_doubts.is_from_a_tin(line):
        poured = 1.0 - sampler.doubt(malt_doubts.left_in_tin(process.syrup_tin))
        mass = mass * poured
    grain = is_grain(line.kind)
    # Two lines of one product are of one make, and so have one key.
    part = (
        _steep_yield(line, process, sampler)
        if grain
        else sampled_or_doubt(sampler, line.extract, malt_doubts.solids(line), line.name)
    )
    got = 1.0 if grain else _extract_got(process, sampler)
    extract = mass * smallest(part * got, 1.0)
    ferments = kind_defaults.real_fermentability(line)
    simple = line.kind == FermentableKind.SUGAR and ferments >= SIMPLE_FROM
    return ExtractIn(
        line_id=line.line_id,
        name=line.name,
        when=line.when,
        extract_kg=extract,
        water_kg=0.0 if grain else mass - extract,
        grain_kg=mass if grain else 0.0,
        colour_units=mass * _colour(line, sampler),
        fermentability=ferments if simple else smallest(_fermentability(line, sampler), 1.0),
        is_simple_sugar=simple,
        is_grain=grain,
        is_malt_extract=line.kind in malt_doubts.MALT_EXTRACTS,
        label_mg=_label_mg(line, mass, poured, sampler),
    )


def _steep_yield(line: Fermentable, process: Process, sampler: Sampler) -> Numeric:
    """Return the extract that a kilogram of grain gives in the steep; its colour comes anyway."""
    typed = line.extract
    if typed is not None and typed.spread is not None:
        return sampler.absolute(malt_doubts.STEEP_YIELD.words, typed.value, typed.spread)
    share = kind_defaults.extract_fraction(line)
    own = process.steep_yield
    if line.kind == FermentableKind.MASH_GRAIN and share == 0.0:
        most = base_malt_yield(number(process, "steep_temperature"), number(process, "steep_time"))
        return sampler.doubt(malt_doubts.BASE_MALT) * most
    if own is not None and own.spread is not None:
        of_usual = sampler.absolute(malt_doubts.STEEP_YIELD.words, own.value, own.spread)
    else:
        of_usual = number(process, "steep_yield") * sampler.doubt(malt_doubts.STEEP_YIELD)
    unnamed = malt_doubts.unnamed_steep_yield(line)
    known = share if unnamed is None else sampler.doubt(unnamed, line.name)
    return known * of_usual


def _extract_got(process: Process, sampler: Sampler) -> Numeric:
    """Return the share of the reckoned extract that this brewer gets; certain where not typed."""
    own = process.extract_got
    if own is None or own.spread is None:
        return number(process, "extract_got")
    return sampler.absolute(EXTRACT_GOT, own.value, own.spread)


def _colour(line: Fermentable, sampler: Sampler) -> Numeric:
    unnamed = malt_doubts.unnamed_colour(line)
    if unnamed is not None:
        return sampler.doubt(unnamed, line.name)
    spread = facts_of(line, "colour").spread
    key, colour = input_of(COLOUR, line.name), kind_defaults.colour_lovibond(line)
    return sampled(sampler, key, colour, line.colour, spread, relative=True)


def _fermentability(line: Fermentable, sampler: Sampler) -> Numeric:
    """Return the real share that ferments: of one make alike, of all grain alike."""
    name = "" if is_grain(line.kind) else line.name
    return sampled_or_doubt(sampler, line.fermentability, malt_doubts.fermentability(line), name)


def _label_mg(line: Fermentable, mass_kg: Numeric, poured: Numeric, sampler: Sampler) -> Numeric:
    """Iso-alpha acids of a hopped kit: label IBU x label litres, or mg/kg x kg without litres.

    A part of a tin has the same part of what its label says; `poured` is the share of the amount
    that leaves it.
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
    share: Numeric = poured
    if whole is not None and whole.value >= LEAST_LABEL_KG and line.amount is not None:
        share = poured * line.amount.value / whole.value
    return label * line.label_volume.value * share
