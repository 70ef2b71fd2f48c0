"""Mass balance of extract: what gravity and volume come of what is weighed in.

Wort is carried as two masses, extract and water. Masses add exactly; volumes do not, because
dissolved extract takes about 0.62 L per kg, and hot wort takes 4 % more room than cold. Everything
a brewer reads (°P, gravity, litres) is derived from the two masses. The day only goes from masses
to what is read; `extract_for` is here for readings, which go the other way.

Left out: the one or two per cent by which a given bag or can differs from its label.
Sources: mass balance; the points of sucrose from Palmer, How to Brew (1st ed., online, table 9).
"""

from __future__ import annotations

from designer.wort.density import (
    density_slope,
    gravity_from_plato,
    plato_from_gravity,
    wort_density,
)
from designer.wort.numeric import Numeric, clamp, largest

SUCROSE_PPG = 46.21
"""Gravity points of a pound of sucrose made up to a US gallon."""

POINTS_L_PER_KG_OF_PPG = 8.3454
"""Points times litres per kilogram for one point times US gallon per pound."""

_NOTHING_KG = 1e-12
_DISSOLVED_L_PER_KG = 0.617


def _extract_fraction(extract_kg: Numeric, water_kg: Numeric) -> Numeric:
    wort_kg = extract_kg + water_kg
    if type(wort_kg) is float and wort_kg > _NOTHING_KG:
        return extract_kg / wort_kg
    return extract_kg / largest(wort_kg, _NOTHING_KG)


def plato(extract_kg: Numeric, water_kg: Numeric) -> Numeric:
    """Return the extract in °Plato, which is per cent by mass; 0 for an empty pot."""
    return 100.0 * _extract_fraction(extract_kg, water_kg)


def gravity(extract_kg: Numeric, water_kg: Numeric) -> Numeric:
    """Return the specific gravity 20/20 °C; 1.0 for an empty pot."""
    return gravity_from_plato(plato(extract_kg, water_kg))


def volume_l(extract_kg: Numeric, water_kg: Numeric, temp_c: Numeric = 20.0) -> Numeric:
    """Return the litres that extract and water fill together at `temp_c`."""
    density = wort_density(_extract_fraction(extract_kg, water_kg), temp_c)
    return 1000.0 * (extract_kg + water_kg) / density


def extract_for(gravity_sg: Numeric, volume_l: Numeric) -> Numeric:
    """Return the kilograms of extract in `volume_l` litres at 20 °C of wort of `gravity_sg`."""
    fraction = plato_from_gravity(gravity_sg) / 100.0
    return volume_l * wort_density(fraction, 20.0) / 1000.0 * fraction


def water_for_volume(extract_kg: Numeric, volume_l: Numeric) -> Numeric:
    """Return the kilograms of water that, with the extract, fill `volume_l` litres at 20 °C.

    0 where the extract alone is more than fits. Three steps of Newton's method on the mass of the
    wort, from what dissolved extract usually displaces: exact to a milligram a kilogram or better.
    """
    mass = 0.9982 * (volume_l - _DISSOLVED_L_PER_KG * extract_kg) + extract_kg
    for _ in range(4):
        mass = largest(mass, _NOTHING_KG)
        fraction = clamp(extract_kg / mass, 0.0, 1.0)
        excess = mass - volume_l * wort_density(fraction, 20.0) / 1000.0
        slope = 1.0 + volume_l * density_slope(fraction) / 1000.0 * fraction / mass
        mass = mass - excess / slope
    return largest(mass - extract_kg, 0.0)


def yield_from_ppg(ppg: Numeric) -> Numeric:
    """Return the extract fraction (0 to 1, as is) for points times US gallon per pound."""
    return ppg / SUCROSE_PPG
