"""Steeping grain: how hot the water must be, and what the grain gives and keeps.

Grain and water share their heat at once; malt takes 0.40 of the heat that water does. What a steep
dissolves without mashing was measured on one pound in a US gallon at 71 °C for 30 minutes; the
yields are taken as delivered to the pot, and only the water that the drained grain holds is
subtracted. Base malt and flakes must be mashed and give nothing here.

Left out: heat lost to pot and air (1 to 2 °C in real pots), and the heat of wetting, which raises a
thick mash by up to 3 °C but a steep by under half a degree (`slaking_rise` tells).

Sources: heat balance; Pauls & Whites, Brewing Room Book (1984/85) for specific heat and slaking;
Palmer, How to Brew, ch. 13 and table 9, for the window of temperature and steeped yields; Oxford
Companion to Beer, "spent grain", for held water (0.75 to 1.04 L/kg).
"""

from __future__ import annotations

from designer.wort.extract import yield_from_ppg
from designer.wort.heat import WATER_SPECIFIC_HEAT
from designer.wort.numeric import Numeric, interpolate, largest

MALT_SPECIFIC_HEAT = 0.40
"""Specific heat of malt of 3 to 4 % moisture, as a share of that of water."""

DRAINED_L_PER_KG = 1.0
SQUEEZED_L_PER_KG = 0.7
"""Water held by a kilogram of dry grain (squeezed: common practice, no source)."""

GRAIN_DISPLACEMENT_L_PER_KG = 0.8
"""Room that a kilogram of dry grain takes in the pot (from memory)."""

COOLEST_STEEP_C, HOTTEST_STEEP_C = 66.0, 77.0
"""Window for steeping; above it the tannin of the husks is the worry (Palmer, ch. 13)."""

MOST_WATER_L_PER_KG = 8.3
"""One US gallon a pound: more water on the grain draws tannin (common practice, no source)."""

_TINY_KG = 1e-9
_MOISTURE = (0.0, 2.0, 3.0, 4.0, 6.0, 8.0)
_SPECIFIC_HEAT = (0.38, 0.39, 0.40, 0.40, 0.41, 0.42)
_SLAKING_MOISTURE = (0.0, 1.0, 2.0, 4.0, 6.0, 8.0)
_SLAKING_RISE_C = (3.0, 2.8, 2.3, 1.5, 1.3, 1.0)
_SLAKING_L_PER_KG = 2.5


def malt_specific_heat(moisture_percent: Numeric) -> Numeric:
    """Return the specific heat of malt as a share of that of water, by its moisture."""
    return interpolate(moisture_percent, _MOISTURE, _SPECIFIC_HEAT)


def slaking_rise(moisture_percent: Numeric, water_l_per_kg: Numeric = 2.5) -> Numeric:
    """Return the kelvin that wetting the grain adds, by moisture and thickness.

    Printed for a mash of about 2.5 L/kg; scaled to thinner mixes by the heat they take.
    """
    printed = interpolate(moisture_percent, _SLAKING_MOISTURE, _SLAKING_RISE_C)
    thinner = MALT_SPECIFIC_HEAT + largest(water_l_per_kg, 0.0)
    return printed * (MALT_SPECIFIC_HEAT + _SLAKING_L_PER_KG) / thinner


def grain_heat_capacity_kj_k(
    grain_kg: Numeric, malt_specific_heat: Numeric = MALT_SPECIFIC_HEAT
) -> Numeric:
    """Return the kilojoules that warm dry grain by one kelvin."""
    return WATER_SPECIFIC_HEAT * malt_specific_heat * grain_kg


def temperature_after_grain_in(
    grain_kg: Numeric,
    grain_c: Numeric,
    water_kg: Numeric,
    water_c: Numeric,
    malt_specific_heat: Numeric = MALT_SPECIFIC_HEAT,
) -> Numeric:
    """Return the temperature in °C of the mix; that of the water if there is neither."""
    as_water_kg = malt_specific_heat * grain_kg
    share = as_water_kg / largest(as_water_kg + water_kg, _TINY_KG)
    return water_c + share * (grain_c - water_c)


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


def steep_extract_fraction(ppg_steeped: Numeric) -> Numeric:
    """Return kilograms of extract per kilogram of grain for the points per pound per gallon."""
    return yield_from_ppg(ppg_steeped)


def held_water_l(grain_kg: Numeric, absorption_l_per_kg: Numeric = DRAINED_L_PER_KG) -> Numeric:
    """Return the litres of wort that the lifted grain keeps."""
    return grain_kg * absorption_l_per_kg
