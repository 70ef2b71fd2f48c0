"""Density of water and of sucrose in it, worked out apart from the program.

Water: IAPWS-95, run by the package iapws. Sucrose: the polynomial of ICUMSA Specification and
Standard SPS-4 (1998), its coefficients typed here once more and held against two printed tables:
NBS Circular 440 (reprinted by the students' physics laboratory of Nicolaus Copernicus University)
and Asadi, Beet-Sugar Handbook, Wiley 2006, table A.1.
"""

import warnings
from functools import cache

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from iapws import IAPWS95

AIR_KG_M3 = 1.2
"""What a litre weighed in air is buoyed up by; gravities of the trade are weighed so."""
_SPS_4 = (
    (385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890),
    (-46.2720, -7.1720, 1.1597, 5.1126, 17.5254),
    (59.7712, 7.2491, 12.3630, -35.4791),
    (-47.2207, -21.6977, 27.6301),
    (18.3184, 12.3081),
)
"""Rows: powers 0 to 4 of (t - 20)/100; columns: powers 1 to 6 of the share of sucrose by mass."""


@cache
def water_kg_l(temp_c):
    """Return the kilograms of a litre of water; hotter than 99.9 °C counts as that."""
    return IAPWS95(T=min(temp_c, 99.9) + 273.15, P=0.101325).rho / 1000.0


def wort_kg_l(share, temp_c=20.0):
    """Return the kilograms of a litre of sucrose solution of that share by mass."""
    warmer = (temp_c - 20.0) / 100.0
    excess = sum(
        coefficient * warmer**row * share ** (column + 1)
        for row, coefficients in enumerate(_SPS_4)
        for column, coefficient in enumerate(coefficients)
    )
    return water_kg_l(round(temp_c, 1)) + excess / 1000.0


def litres(extract_kg, water_kg, temp_c=20.0):
    """Return the litres of so much extract in so much water."""
    whole_kg = extract_kg + water_kg
    return whole_kg / wort_kg_l(extract_kg / whole_kg, temp_c) if whole_kg > 0.0 else 0.0


def gravity(extract_kg, water_kg):
    """Return the specific gravity 20/20 °C, weighed in air."""
    share = extract_kg / (extract_kg + water_kg)
    buoyed = AIR_KG_M3 / 1000.0
    return (wort_kg_l(share) - buoyed) / (water_kg_l(20.0) - buoyed)


def water_to_fill(extract_kg, volume_l):
    """Return the kilograms of water that make up so much extract to a volume, by halving."""
    low, high = 0.0, 1.1 * volume_l
    for _ in range(50):
        middle = (low + high) / 2.0
        if litres(extract_kg, middle) < volume_l:
            low = middle
        else:
            high = middle
    return low
