"""Steeping grain: how hot the water must be.

Grain and water share their heat at once; malt takes 0.40 of the heat that water does. Left out:
heat lost to pot and air (1 to 2 °C in real pots), and the heat of wetting, which raises a thick
mash by up to 3 °C but a steep by under half a degree.

Sources: heat balance; Pauls & Whites, Brewing Room Book (1984/85) for specific heat and wetting;
Palmer, How to Brew, 1st ed., online, ch. 13, for the window of temperature.
"""

from __future__ import annotations

from designer.wort.numeric import Numeric, interpolate, largest, smallest

MALT_SPECIFIC_HEAT = 0.40
"""Specific heat of malt of 3 to 4 % moisture, as a share of that of water."""


GRAIN_DISPLACEMENT_L_PER_KG = 0.8
"""Room that a kilogram of dry grain takes in the pot (from memory)."""

COOLEST_STEEP_C, HOTTEST_STEEP_C = 66.0, 77.0
"""Window for steeping; above it the tannin of the husks is the worry (as above)."""


_TINY_KG = 1e-9


def strike_temperature(
    target_c: Numeric,
    grain_kg: Numeric,
    water_kg: Numeric,
    grain_c: Numeric,
    malt_specific_heat: Numeric = MALT_SPECIFIC_HEAT,
) -> Numeric:
    """Return how hot in °C the water must be for the mix to be at `target_c`."""
    ratio = malt_specific_heat * grain_kg / largest(water_kg, _TINY_KG)
    return target_c + ratio * (target_c - grain_c)


BASE_MALT_YIELD = 0.55
"""Kilograms of extract of a kilogram of base malt, converted and drained but not rinsed.

37 ppg, 0.80, at most (Palmer, How to Brew, 1st ed., online, table 9), and 70 % of that as in a home
mash; judgement.
"""
CONVERTING_C = (50.0, 62.0, 70.0, 80.0)
"""Between the middle two starch turns into sugar; outside the others none does (from memory)."""
CONVERTED_MIN = 30.0
"""Time in which most starch is converted; common practice, no source."""


def base_malt_yield(temp_c: Numeric, minutes: Numeric) -> Numeric:
    """Return the most extract, as a share of its mass, that steeped base malt could give."""
    warmth = interpolate(temp_c, CONVERTING_C, (0.0, 1.0, 1.0, 0.0))
    return BASE_MALT_YIELD * warmth * smallest(minutes / CONVERTED_MIN, 1.0)
