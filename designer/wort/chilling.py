"""Cooling wort with water, ice, a bath or a coil.

Mixing is a heat balance: what the wort gives up warms the water, the ice and what melts of it. A
bath or a coil follows Newton's law of cooling, whose constant is measured in one's own kitchen by
two readings of the thermometer. The coolant's temperature is the floor: wort never gets there.
The constant holds only while stirring, bath level and flow stay as they were.

Left out: heat of the vessels; that ice at -18 °C
takes 3 % less heat a degree than at 0 °C (0.1 °C in a usual mix). `ice_for` is here for planning
how to chill: the day itself only mixes.

Sources: heat balance with handbook values (latent heat 333.55 kJ/kg, ice 2.1 kJ/(kg K), from
memory; IAPWS ice 333.4); Newton's law.
"""

from __future__ import annotations

import math

from designer.wort.heat import enthalpy_kj as wort_enthalpy_kj
from designer.wort.heat import temperature_for
from designer.wort.numeric import Numeric, choose, exp, largest, log, smallest

MELTING_HEAT_KJ_KG = 333.55
ICE_SPECIFIC_HEAT = 2.1

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


def ice_for(
    target_c: Numeric,
    enthalpy_kj: Numeric,
    extract_kg: Numeric,
    water_kg: Numeric,
    ice_c: Numeric = 0.0,
) -> Numeric:
    """Return the kilograms of ice that bring wort of a heat content to `target_c`; 0 if cold."""
    surplus_kj = enthalpy_kj - wort_enthalpy_kj(extract_kg, water_kg, target_c)
    taken_kj_kg = wort_enthalpy_kj(0.0, 1.0, target_c) - ice_enthalpy_kj(1.0, ice_c)
    return largest(surplus_kj, 0.0) / largest(taken_kj_kg, _TINY)


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
