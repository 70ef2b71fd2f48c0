"""Heat in wort and the minutes a stove takes.

The specific heat of wort falls with strength and rises a little with temperature. Bubník's equation
does both, and has a useful property: mass times specific heat is a sum over extract and water, so
the heat content of liquid is a state function that adds up exactly however the pot is filled,

    H(t) = (4.1868 W + 1.6768 E) t + 0.00375 E t²   kJ, W and E in kg, t in °C, zero at 0 °C.

A pot loses heat to the room in proportion to the difference (`loss_w_k`, 3 to 5 W/K for an open
10 L pot, an estimate), a stove delivers its power times an efficiency. Left out: the heat of the
pot's own metal, and steam that leaves before the boil.

Sources: Bubník, Kadlec, Urban, Bruhns, Sugar Technologists Manual (1995); heat of vaporisation
from IAPWS-95; efficiencies from Sweeney et al., ACEEE Summer Study (2014) and US DOE (quoted).
Against IAPWS-95 the specific heat of water is 0.6 % off at 95 °C.
"""

from __future__ import annotations

import math

from designer.wort.numeric import Numeric, choose, everywhere, expm1, largest, log1p, smallest, sqrt

STOVE_EFFICIENCY = {"electric": 0.74, "gas": 0.40, "induction": 0.84}
"""Share of a stove's power that reaches the pot."""

WATER_SPECIFIC_HEAT = 4.1868
_EXTRACT_SPECIFIC_HEAT = 1.6768
_EXTRACT_HEAT_GROWTH = 3.75e-3
_TINY = 1e-12
_LEAST_W = 1e-6


def heat_capacity_kj_k(extract_kg: Numeric, water_kg: Numeric, temp_c: Numeric) -> Numeric:
    """Return the kilojoules that warm the wort by one kelvin at `temp_c`."""
    growing = 2.0 * _EXTRACT_HEAT_GROWTH * temp_c
    return WATER_SPECIFIC_HEAT * water_kg + (_EXTRACT_SPECIFIC_HEAT + growing) * extract_kg


def enthalpy_kj(extract_kg: Numeric, water_kg: Numeric, temp_c: Numeric) -> Numeric:
    """Return the heat content of liquid wort in kJ, counted from liquid at 0 °C."""
    from_zero = WATER_SPECIFIC_HEAT * water_kg + _EXTRACT_SPECIFIC_HEAT * extract_kg
    return (from_zero + _EXTRACT_HEAT_GROWTH * extract_kg * temp_c) * temp_c


def temperature_for(enthalpy_kj: Numeric, extract_kg: Numeric, water_kg: Numeric) -> Numeric:
    """Return the temperature in °C of wort with a heat content; 0 for an empty pot.

    The root is written with the square root in the denominator, so that nothing cancels when the
    wort is nearly water.
    """
    linear = WATER_SPECIFIC_HEAT * water_kg + _EXTRACT_SPECIFIC_HEAT * extract_kg
    inside = linear * linear + 4.0 * _EXTRACT_HEAT_GROWTH * extract_kg * enthalpy_kj
    both = linear + sqrt(largest(inside, 0.0))
    has_any = both > _TINY
    if everywhere(has_any):
        return 2.0 * enthalpy_kj / both
    return choose(has_any, 2.0 * enthalpy_kj / largest(both, _TINY), 0.0)


def heating_time_min(
    heat_capacity_kj_k: Numeric,
    from_c: Numeric,
    to_c: Numeric,
    net_power_w: Numeric,
    loss_w_k: Numeric = 0.0,
    room_c: Numeric = 20.0,
) -> Numeric:
    """Return the minutes from `from_c` to `to_c`; infinite where the loss is never overcome.

    Becomes heat over power as the loss goes to nothing. 0 where the wort is as hot already.
    """
    rise = largest(to_c - from_c, 0.0)
    spare_w = net_power_w - loss_w_k * (from_c - room_c)
    spare_at_end_w = spare_w - loss_w_k * rise
    reached = smallest(spare_w, spare_at_end_w) > _LEAST_W
    power_w = choose(reached, spare_w, 1.0)
    share_lost = choose(reached, loss_w_k * rise / power_w, 0.0)
    share_lost = largest(share_lost, _TINY)
    slower = -log1p(-smallest(share_lost, 1.0 - _TINY)) / share_lost
    minutes = 1000.0 * heat_capacity_kj_k * rise / power_w * slower / 60.0
    if everywhere(reached):
        return minutes
    return choose(reached, minutes, choose(rise > 0.0, math.inf, 0.0))


def temperature_after_heating(
    heat_capacity_kj_k: Numeric,
    from_c: Numeric,
    time_min: Numeric,
    net_power_w: Numeric,
    loss_w_k: Numeric = 0.0,
    room_c: Numeric = 20.0,
) -> Numeric:
    """Return the temperature in °C after `time_min` on the stove, ignoring the boil.

    An empty pot is returned as warm as it was: its metal is not in the reckoning.
    """
    spare_w = net_power_w - loss_w_k * (from_c - room_c)
    seconds_per_j_k = 60.0 * time_min / largest(1000.0 * heat_capacity_kj_k, _TINY)
    decay = largest(loss_w_k * seconds_per_j_k, _TINY)
    rise = spare_w * seconds_per_j_k * (-expm1(-decay) / decay)
    return from_c + choose(heat_capacity_kj_k > 0.0, rise, 0.0)


def heat_of_vaporisation(temp_c: Numeric) -> Numeric:
    """Return the heat in kJ that turns a kilogram of water at `temp_c` into steam.

    The line through 2282.5, 2269.5 and 2256.5 kJ/kg at 90, 95 and 100 °C.
    """
    return 2256.5 + 2.6 * (100.0 - temp_c)


def evaporation_kg_h(net_power_w: Numeric, temp_c: Numeric = 100.0) -> Numeric:
    """Return the kilograms boiled away in an hour by the power left over after the losses."""
    return 3.6 * largest(net_power_w, 0.0) / heat_of_vaporisation(temp_c)


def boiling_point_rise(extract_plato: Numeric) -> Numeric:
    """Return how many kelvin higher wort boils than water, if its extract were sucrose.

    Real wort, with smaller sugars and salts, perhaps half as much again (from memory).
    """
    kg_per_kg_water = extract_plato / largest(100.0 - extract_plato, 1.0)
    return 0.513 * kg_per_kg_water / 0.3423
