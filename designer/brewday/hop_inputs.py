"""The hops that a day starts from: each as typed or as an array of samples."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property, partial

from designer.brewday import hop_doubts, vessel_doubts
from designer.brewday.doubts import Doubt
from designer.brewday.line_memory import made_once
from designer.brewday.tolerances import (
    ALPHA_ACID,
    WEIGHT,
    Sampler,
    input_of,
    sampled,
    sampled_field,
)
from designer.recipe.choices import HopForm
from designer.recipe.document import Hop, Recipe
from designer.recipe.fields import facts_of
from designer.recipe.quantity import Stage, When
from designer.wort.hop_age import alpha_kept, bitterness_kept
from designer.wort.numeric import Numeric, largest, smallest

DRY = (Stage.DRY_HOP, Stage.FERMENTER)
"""Hops that go in there are never heated."""
BEFORE_THE_BOIL = (Stage.FIRST_WORT, Stage.STEEP)
MINUTES_A_DAY = 1440.0


@dataclass(frozen=True, slots=True, eq=False)
class HopIn:
    """A hop addition as the pot sees it: kg, milligrams of alpha acid, litres of wort it holds.

    Its alpha acid counts `gains` times what the clock of the day says: more than once for hops in
    the first wort. Those warm up in water that has no extract in it yet, where the clock would
    promise far more than is measured; so they count from the start of the boil. It `counts` more
    than that in pellets: what those give is no iso-alpha acid, and comes whether or not the alpha
    acid dissolves.
    """

    line_id: int
    name: str
    when: When
    mass_kg: Numeric
    alpha_fraction: Numeric
    alpha_mg: Numeric
    gains: Numeric
    counts: Numeric
    held_l: Numeric
    counted_mg: Numeric = field(init=False)
    """Milligrams of alpha acid that the clock is to count, if all of it dissolves."""

    def __post_init__(self) -> None:
        """Once for as long as the line stays as it is, not at each look."""
        object.__setattr__(self, "counted_mg", self.alpha_mg * self.counts)

    def not_dissolved_mg(self, lost: Numeric) -> Numeric:
        """Return how many fewer there are to count where this share does not dissolve."""
        return self.alpha_mg * (self.gains * lost)


def hops_in(recipe: Recipe, sampler: Sampler) -> tuple[HopIn, ...]:
    """Return the recipe's hops."""
    about = (recipe.process.hop_absorption, recipe.methods.pellet_factor)

    def made(hop: Hop, sampler: Sampler) -> HopIn:
        return _hop_in(hop, _Shared(recipe, sampler))

    return tuple(made_once(hop, about, sampler, partial(made, hop)) for hop in recipe.hops)


class _Shared:
    """What the hops of a day have in common: each is drawn once, and only if a hop needs it."""

    def __init__(self, recipe: Recipe, sampler: Sampler) -> None:
        self.sampler, self._recipe = sampler, recipe
        self._kept: dict[tuple[str, float | None], Numeric] = {}
        self._holds: dict[str, Numeric] = {}

    @cached_property
    def pellets(self) -> Numeric:
        """What pellets give for one of whole hops: as sure as it was typed, else as it is known."""
        doubt, typed = hop_doubts.PELLETS, self._recipe.methods.pellet_factor
        if typed is None:
            return self.sampler.doubt(doubt)
        factor = self.sampler.absolute(doubt.words, typed.value, typed.spread or 0.0)
        return largest(factor, doubt.least)

    @cached_property
    def first_wort(self) -> Numeric:
        """What hops give that are in before the boil, for one of the same at its start."""
        return self.sampler.doubt(hop_doubts.FIRST_WORT)

    def kept(self, keeping: str, age_days: float | None) -> Numeric:
        """Return the share of the bitterness that is left since the harvest."""
        found = self._kept.get((keeping, age_days))
        if found is None:
            if age_days is None:
                found = self.sampler.doubt(hop_doubts.unknown_age(keeping))
            else:
                aged = hop_doubts.ageing_rate(keeping) * age_days
                found = bitterness_kept(alpha_kept(aged * self.sampler.doubt(hop_doubts.AGEING)))
            self._kept[keeping, age_days] = found
        return found

    def holds(self, hop: Hop) -> Numeric:
        """Return the litres that a kilogram holds: as typed, else as hops of its form do."""
        found = self._holds.get(hop.form)
        if found is None:
            found = self._holds[hop.form] = self._held_by(vessel_doubts.HELD_BY_HOPS[hop.form])
        return found

    def _held_by(self, doubt: Doubt) -> Numeric:
        process = self._recipe.process
        typed = process.hop_absorption
        if typed is None:
            return self.sampler.doubt(doubt)
        if typed.value == 0.0 and typed.spread is None:  # nothing is held, not about nothing
            return 0.0
        return sampled_field(self.sampler, doubt.words, process, "hop_absorption")


def _hop_in(hop: Hop, shared: _Shared) -> HopIn:
    facts = facts_of(hop, "amount")
    amount = hop.amount.value if hop.amount is not None else 0.0
    weight = input_of(WEIGHT, f"{hop.name}, {hop.when.text}")
    mass = sampled(shared.sampler, weight, amount, hop.amount, facts.spread, facts.relative)
    alpha = _alpha_acid(hop, shared)
    gains = shared.first_wort if hop.when.stage in BEFORE_THE_BOIL else 1.0
    in_pellets = hop.form == HopForm.PELLETS and hop.when.stage not in DRY
    return HopIn(
        line_id=hop.line_id,
        name=hop.name,
        when=hop.when,
        mass_kg=mass,
        alpha_fraction=alpha,
        alpha_mg=1e6 * mass * smallest(alpha, 1.0),
        gains=gains,
        counts=gains * shared.pellets if in_pellets else gains,
        held_l=mass * shared.holds(hop),
    )


def _alpha_acid(hop: Hop, shared: _Shared) -> Numeric:
    """Alpha acid as on the packet, or what the variety has, or anything; less what age has taken.

    The lowest figure of a variety, and that of a hop nothing is known of, hold old packets too.
    """
    typed, age, sampler = hop.alpha, hop.age, shared.sampler
    if typed is None:
        alpha = sampler.doubt(hop_doubts.UNKNOWN_ALPHA, hop.name)
    elif typed.ends is not None:
        doubt = hop_doubts.usual_alpha(typed, typed.ends, age_known=age is not None)
        alpha = sampler.doubt(doubt, hop.name)
    else:
        key, facts = input_of(ALPHA_ACID, hop.name), facts_of(hop, "alpha")
        alpha = sampled(sampler, key, typed.value, typed, facts.spread, facts.relative)
    of_a_packet = typed is not None and typed.ends is None
    if hop.when.stage in DRY or (age is None and not of_a_packet):
        return alpha
    return alpha * shared.kept(hop.kept, None if age is None else age.value / MINUTES_A_DAY)
