"""Formulas of other people for what the program works out in another way.

They are here to be compared with: the program does not use them.
"""

from designer.wort.chilling import ice_enthalpy_kj
from designer.wort.numeric import horner

COLD_WATER_SPECIFIC_HEAT = 4.186


def plato_from_gravity_asbc(gravity_sg):
    """°Plato by the cubic fitted to ASBC table 1, quoted by A. J. deLange."""
    return horner((-616.868, 1111.14, -630.272, 135.997), gravity_sg)


def chart_pressure_bar(volumes, temp_c):
    """Gauge pressure by the polynomial through the ASBC/Zahm chart of CO2."""
    f = 1.8 * temp_c + 32.0
    psi = -16.6999 - 0.0101059 * f + 0.00116512 * f * f
    psi += 0.173354 * f * volumes + 4.24267 * volumes - 0.0684226 * volumes * volumes
    return 0.0689476 * psi


def mixed_with_ice_c(wort, water, ice):
    """°C of wort, water and ice mixed, all melted: H = m1 c1 T1 + m2 cw T2 + mi (ci Ti - L).

    `wort` is its kilograms, specific heat and temperature, the others kilograms and temperature.
    """
    (wort_kg, specific_heat, wort_c), (water_kg, water_c), (ice_kg, ice_c) = wort, water, ice
    total_kj = wort_kg * specific_heat * wort_c + water_kg * COLD_WATER_SPECIFIC_HEAT * water_c
    total_kj += ice_enthalpy_kj(ice_kg, ice_c)
    capacity = wort_kg * specific_heat + (water_kg + ice_kg) * COLD_WATER_SPECIFIC_HEAT
    return max(total_kj, 0.0) / capacity
