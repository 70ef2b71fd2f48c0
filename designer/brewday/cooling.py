"""What cools the pot, and how fast, by what is in it.

A bath of ice begins with cold water: until 40 °C water from the tap takes the heat for nothing, and
ice would melt by the bucket (7 kg for 8 L from the boil). A cooling constant that was typed is the
brewer's own for this pot and what is in it; else it follows from the way, the volume and the
surface, with a wide range (`heat_doubts`).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import NamedTuple

from designer.brewday.heat_doubts import COOLING, COOLING_IN_AIR
from designer.brewday.pot import Contents
from designer.brewday.tolerances import Sampler, sampled
from designer.recipe.choices import CoolingWay
from designer.recipe.document import Process
from designer.recipe.fields import facts_of
from designer.wort.chilling import bath_constant, coil_constant, standing_constant
from designer.wort.numeric import Numeric, choose, largest

BATHS_AT_8_L: dict[str, float] = {CoolingWay.ICE_BATH: 0.06, CoolingWay.COLD_WATER_BATH: 0.05}
"""Cooling constants per minute of an 8 L pot in a bath, stirred; see `designer.wort.chilling`."""
ICE_BATH_C = 2.0
"""A refreshed ice bath stays at 0 to 2 °C; common practice, no source."""
WATER_FIRST_C = 40.0
"""Down to here cold water cools nearly as fast as ice."""
NEARLY_THERE_K = 5.0
"""Nobody fetches ice for the last few degrees that water takes as well."""
WATER_SERVES_K = 10.0
"""Water from a warm tap is left for ice so much above its own temperature."""


class Leg(NamedTuple):
    """A part of cooling: what with, how fast, and how far down."""

    coolant_c: Numeric
    constant_per_min: Numeric
    until_c: Numeric
    takes_ice: bool = False


@dataclass(frozen=True, slots=True)
class Cooling:
    """How the recipe's pot is cooled; `typed` per minute, `faster` than usual where not typed."""

    way: str
    tap_c: Numeric
    room_c: float
    diameter_m: float | None
    typed: Numeric | None
    faster: Numeric

    def legs(self, pot: Contents, target_c: Numeric) -> tuple[Leg, ...]:
        """Return the parts of cooling to a temperature; the last goes as far as it can."""
        if self.way == CoolingWay.ICE_BATH:
            bath = self._bath(CoolingWay.COLD_WATER_BATH, pot)
            until = water_until_c(self.tap_c)
            until = choose(target_c > until - NEARLY_THERE_K, target_c, until)
            water = Leg(self.tap_c, bath, until)
            return water, Leg(
                ICE_BATH_C, self._bath(self.way, pot), ICE_BATH_C + 1.0, takes_ice=True
            )
        if self.way == CoolingWay.COLD_WATER_BATH:
            return (Leg(self.tap_c, self._bath(self.way, pot), self.tap_c + 1.0),)
        if self.way == CoolingWay.COIL:
            usual = coil_constant(pot.heat_capacity_at(pot.temp_c), self.faster)
            return (Leg(self.tap_c, self._constant(usual), self.tap_c + 1.0),)
        usual = self.faster * standing_constant(pot.volume_l, self.diameter_m)
        return (Leg(self.room_c, self._constant(usual), self.room_c + 1.0),)

    def _bath(self, way: str, pot: Contents) -> Numeric:
        usual = bath_constant(BATHS_AT_8_L[way], pot.volume_l, self.diameter_m)
        return self._constant(self.faster * usual)

    def _constant(self, usual: Numeric) -> Numeric:
        return usual if self.typed is None else self.typed


def water_until_c(tap_c: Numeric) -> Numeric:
    """Return the temperature in °C down to which a bath of ice is one of water from the tap."""
    return largest(tap_c + WATER_SERVES_K, WATER_FIRST_C)


def to_put_round(ice_kg: float) -> float:
    """Return the ice to have at hand for a bath that takes so much, kg: the next half kilogram."""
    return ceil(2.0 * ice_kg - 1e-6) / 2.0


def cooling_of(
    process: Process, tap_c: Numeric, room_c: float, diameter_m: float | None, sampler: Sampler
) -> Cooling:
    """Return how the pot is cooled, as `sampler` has it."""
    own = process.cooling_constant
    if own is None:
        doubt = COOLING_IN_AIR if process.cooling == CoolingWay.STANDING_IN_AIR else COOLING
        return Cooling(process.cooling, tap_c, room_c, diameter_m, None, sampler.doubt(doubt))
    facts = facts_of(process, "cooling_constant")
    typed = sampled(sampler, COOLING.words, own.value, own, facts.spread, facts.relative)
    typed = largest(typed, facts.low)  # it does cool
    return Cooling(process.cooling, tap_c, room_c, diameter_m, typed, 1.0)
