"""Cooling wort with water, ice, a bath or a coil.

Mixing is a heat balance: what the wort gives up warms the water, the ice and what melts of it. A
bath or a coil follows Newton's law of cooling, whose constant is measured in one's own kitchen by
two readings of the thermometer. The coolant's temperature is the floor: wort never gets there.
The constant holds only while stirring, bath level and flow stay as they were.

Measured: natural cooling of open home kettles. Left out: heat of the vessels; that ice at -18 °C
takes 3 % less heat a degree than at 0 °C (0.1 °C in a usual mix).
Sources: heat balance with handbook values (latent heat 333.55 kJ/kg, ice 2.1 kJ/(kg K), from
memory; IAPWS ice 333.4); Newton's law; Hosom's kettle measurements (published blog article).
"""

from __future__ import annotations

import math

from designer.wort.heat import temperature_for
from designer.wort.numeric import Numeric, choose, exp, largest, log, smallest, sqrt

MELTING_HEAT_KJ_KG = 333.55
ICE_SPECIFIC_HEAT = 2.1
COLD_WATER_SPECIFIC_HEAT = 4.186
ICE_L_PER_KG = 1.09
"""Room that a kilogram of ice takes (common practice, no source)."""

_TINY = 1e-12


def ice_enthalpy_kj(ice_kg: Numeric, temp_c: Numeric) -> Numeric:
    """Return the heat content of ice at `temp_c`, not above 0 °C, counted from water at 0 °C."""
    return ice_kg * (ICE_SPECIFIC_HEAT * smallest(temp_c, 0.0) - MELTING_HEAT_KJ_KG)


def settled(
    enthalpy_kj: Numeric, extract_kg: Numeric, water_kg: Numeric, ice_kg: Numeric
) -> tuple[Numeric, Numeric]:
    """Return temperature and melted ice once wort and ice of a joint heat content have mixed.

    `water_kg` is liquid before mixing, `ice_kg` ice. A melted mass below 0 says that so much of the
    water would freeze.
    """
    temp_c = temperature_for(largest(enthalpy_kj, 0.0), extract_kg, water_kg + ice_kg)
    melted_kg = ice_kg + smallest(enthalpy_kj, 0.0) / MELTING_HEAT_KJ_KG
    return temp_c, melted_kg


def mixed_with_ice(
    wort_kg: Numeric,
    wort_specific_heat: Numeric,
    wort_c: Numeric,
    water_kg: Numeric,
    water_c: Numeric,
    ice_kg: Numeric,
    ice_c: Numeric,
) -> tuple[Numeric, Numeric]:
    """Return the temperature in °C of the mix and the kilograms of ice that melt.

    The wort's specific heat is its mean between 0 °C and `wort_c`, that at about 50 °C. A melted
    mass below 0 says that so much water would freeze.
    """
    wort_kj = wort_kg * wort_specific_heat * wort_c
    water_kj = water_kg * COLD_WATER_SPECIFIC_HEAT * water_c
    total_kj = wort_kj + water_kj + ice_enthalpy_kj(ice_kg, ice_c)
    capacity = wort_kg * wort_specific_heat + (water_kg + ice_kg) * COLD_WATER_SPECIFIC_HEAT
    temp_c = largest(total_kj, 0.0) / largest(capacity, _TINY)
    return temp_c, ice_kg + smallest(total_kj, 0.0) / MELTING_HEAT_KJ_KG


def ice_for(
    target_c: Numeric,
    wort_kg: Numeric,
    wort_specific_heat: Numeric,
    wort_c: Numeric,
    water_kg: Numeric = 0.0,
    water_c: Numeric = 0.0,
    ice_c: Numeric = 0.0,
) -> Numeric:
    """Return the kilograms of ice that bring wort and water to `target_c`; 0 if cold already."""
    surplus_kj = wort_kg * wort_specific_heat * (wort_c - target_c)
    surplus_kj = surplus_kj + water_kg * COLD_WATER_SPECIFIC_HEAT * (water_c - target_c)
    taken_kj_kg = COLD_WATER_SPECIFIC_HEAT * target_c - ice_enthalpy_kj(1.0, ice_c)
    return largest(surplus_kj, 0.0) / largest(taken_kj_kg, _TINY)


def water_for(
    target_c: Numeric,
    wort_kg: Numeric,
    wort_specific_heat: Numeric,
    wort_c: Numeric,
    water_c: Numeric,
) -> Numeric:
    """Return the kilograms of water that bring wort to `target_c`.

    0 if it is as cold already, infinite if the water is no colder than the target.
    """
    surplus_kj = wort_kg * wort_specific_heat * largest(wort_c - target_c, 0.0)
    colder_by = target_c - water_c
    needed = surplus_kj / (COLD_WATER_SPECIFIC_HEAT * largest(colder_by, _TINY))
    unreachable = choose(surplus_kj > 0.0, math.inf, 0.0)
    return choose(colder_by > 0.0, needed, unreachable)


def newton_temperature(
    temp_c: Numeric, coolant_c: Numeric, constant_per_min: Numeric, time_min: Numeric
) -> Numeric:
    """Return the temperature in °C after `time_min` in a coolant."""
    return coolant_c + (temp_c - coolant_c) * exp(-constant_per_min * time_min)


def newton_time(
    from_c: Numeric, to_c: Numeric, coolant_c: Numeric, constant_per_min: Numeric
) -> Numeric:
    """Return the minutes from `from_c` down to `to_c`; infinite if the coolant is no colder.

    0 if the wort is as cold already.
    """
    needed = from_c > to_c
    reached = smallest(to_c - coolant_c, constant_per_min) > 0.0
    ratio = largest(from_c - coolant_c, _TINY) / largest(to_c - coolant_c, _TINY)
    minutes = log(largest(ratio, 1.0)) / largest(constant_per_min, _TINY)
    return choose(needed, choose(reached, minutes, math.inf), 0.0)


def newton_constant(
    first_c: Numeric, second_c: Numeric, coolant_c: Numeric, minutes_apart: Numeric
) -> Numeric:
    """Return the constant per minute from two readings while cooling.

    0 where the readings do not fall, or fall to the coolant's temperature or below.
    """
    usable = smallest(first_c - second_c, smallest(second_c - coolant_c, minutes_apart)) > 0.0
    ratio = largest(first_c - coolant_c, _TINY) / largest(second_c - coolant_c, _TINY)
    constant = log(largest(ratio, 1.0)) / largest(minutes_apart, _TINY)
    return choose(usable, constant, 0.0)


def natural_cooling_constants(
    surface_cm2: Numeric, opening_cm2: Numeric, volume_l: Numeric
) -> tuple[Numeric, Numeric]:
    """Return Newton's constant per minute and the coolant temperature of a pot left standing.

    `surface_cm2` is the wort's surface and `opening_cm2` what the lid leaves open. The fit is
    T = 53.70 exp(-b t) + 319.55 kelvin: its floor of 46.4 °C serves for the first hour, not longer.
    """
    effective_cm2 = sqrt(largest(surface_cm2, 0.0) * largest(opening_cm2, 0.0))
    return 0.0002925 * effective_cm2 / largest(volume_l, 0.1) + 0.00538, 319.55 - 273.15
