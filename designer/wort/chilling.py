"""Cooling wort with water, ice, a bath or a coil.

Mixing is a heat balance: what the wort gives up warms the water, the ice and what melts of it. A
bath or a coil follows Newton's law of cooling, whose constant is measured in one's own kitchen by
two readings of the thermometer. The coolant's temperature is the floor: wort never gets there.
The constant holds only while stirring, bath level and flow stay as they were.

Where nobody measured, it follows from what cools: heat leaves through the wetted side and bottom of
a pot in a bath, k = U A / (m c), so in like pots as the cube root of 1 / V; through a coil as
1 / V, whatever the pot; and off a pot that stands in air by its surface and steam.

Left out: heat of the vessels; that ice at -18 °C takes 3 % less heat a degree than at 0 °C (0.1 °C
in a usual mix).

Sources: heat balance with handbook values (latent heat 333.55 kJ/kg, ice 2.1 kJ/(kg K), from
memory; IAPWS ice 333.4); Newton's law. Of 9.5 L in plenty of ice 0.073 and 0.040 to 0.053, of 19 L
0.028 to 0.11 per minute were seen (home records, second-hand): 0.05 to 0.06 at 8 L fits. 150 W/K of
a coil: computed with 150 W/(m² K), from memory. Standing: Hosom's fit to kettles without a lid,
T = 319.55 + 53.70 exp(-b t) K, b = 0.0002925 A / V + 0.00538 per min with A in cm²; that a lid
halves it is judgement.
"""

from __future__ import annotations

import math

from designer.wort.heat import enthalpy_kj as wort_enthalpy_kj
from designer.wort.heat import temperature_for
from designer.wort.numeric import Numeric, choose, everywhere, exp, largest, log, smallest

MELTING_HEAT_KJ_KG = 333.55
ICE_SPECIFIC_HEAT = 2.1

LIKE_POT_L = 8.0
"""The pot, as deep as wide, that constants of a bath are told for."""
COIL_W_K = 150.0
"""Heat that a coil takes for each kelvin between wort and water."""
MOST_COIL_W_K = 280.0
"""What 4 L of water a minute take up for each kelvin: no coil takes more."""
HIGHEST_CONSTANT = 5.0
"""Per minute; no pot cools faster, however little is in it."""
LID_HALVES = 0.5

_TINY = 1e-12
_LEAST_L = 1e-6


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
    if everywhere(reached):
        return minutes  # no time at all where it is as cold already
    return choose(needed, choose(reached, minutes, math.inf), 0.0)


def bath_constant(at_8_l: Numeric, volume_l: Numeric, diameter_m: float | None = None) -> Numeric:
    """Return the constant per minute of a pot in a bath that cools `LIKE_POT_L` at `at_8_l`.

    It goes with the wetted surface for each litre; a pot of unknown diameter is as deep as wide.
    """
    litres = largest(volume_l, _LEAST_L)
    if diameter_m is None:
        more = (LIKE_POT_L / litres) ** (1.0 / 3.0)
    else:
        bottom_m2 = math.pi / 4.0 * diameter_m * diameter_m
        m2_per_l = bottom_m2 / litres + 0.004 / diameter_m
        more = m2_per_l / (1.25 * math.pi * _like_diameter_m(LIKE_POT_L) ** 2 / LIKE_POT_L)
    return smallest(at_8_l * more, HIGHEST_CONSTANT)


def coil_constant(heat_capacity_kj_k: Numeric, conducts: Numeric = 1.0) -> Numeric:
    """Return the constant per minute of a coil that conducts so many times the usual."""
    watt_k = smallest(COIL_W_K * conducts, MOST_COIL_W_K)
    constant = 0.06 * watt_k / largest(heat_capacity_kj_k, _TINY)
    return smallest(constant, HIGHEST_CONSTANT)


def standing_constant(volume_l: Numeric, diameter_m: float | None = None) -> Numeric:
    """Return the constant per minute of a pot that stands in a room of 20 °C, lid on.

    The one that comes from 100 to 80 °C, where hops still count, in the time of Hosom's fit.
    """
    litres = largest(volume_l, _LEAST_L)
    across_m = _like_diameter_m(litres) if diameter_m is None else diameter_m
    surface_cm2 = 1e4 * math.pi / 4.0 * across_m * across_m
    b = LID_HALVES * (0.0002925 * surface_cm2 / litres + 0.00538)
    fitted, newton = math.log(53.70 / (353.15 - 319.55)), math.log(80.0 / 60.0)
    return smallest(b * newton / fitted, HIGHEST_CONSTANT)


def _like_diameter_m(volume_l: Numeric) -> Numeric:
    """Across a pot that is filled as deep as it is wide."""
    return (0.004 * volume_l / math.pi) ** (1.0 / 3.0)


def bath_ice_kg(heat_kj: Numeric, bath_c: Numeric, ice_c: Numeric) -> Numeric:
    """Return the kilograms of ice that take up so much heat and leave the bath as warm as it is."""
    taken_kj_kg = wort_enthalpy_kj(0.0, 1.0, bath_c) - ice_enthalpy_kj(1.0, ice_c)
    return largest(heat_kj, 0.0) / largest(taken_kj_kg, _TINY)


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
