"""How much extract or water brings a wort to the gravity that was meant: mass balance.

Extract in solution and water keep their masses; volume and gravity follow of both. So of a wort of
so many kilograms, of which a share is extract, the kilograms that are wanted of something with
another share come of the mixing rule: E + y m = P (M + m).

Left out: the water that steams off while the extract is dissolved, a few spoons.
Source: mass balance (`designer.wort.extract`).
"""

from __future__ import annotations

from math import ceil

from designer.wort.density import plato_from_gravity, wort_density
from designer.wort.extract import extract_for, gravity, volume_l
from designer.wort.water import WATER_KG_PER_L

WORT_L_PER_KG, LEAST_WORT_L = 2.0, 0.5
"""Wort in which extract is dissolved and boiled: thin enough to boil (common practice, no source).
"""


def mass_kg(gravity_sg: float, litres: float) -> float:
    """Return the kilograms of so many litres of wort at 20 °C."""
    fraction = float(plato_from_gravity(gravity_sg)) / 100.0
    return litres * float(wort_density(fraction, 20.0)) / 1000.0


def extract_to_add_kg(gravity_sg: float, litres: float, wanted_sg: float, solids: float) -> float:
    """Return the kilograms of something, of which `solids` is extract, that bring wort up.

    0 where the wort is as strong already. Raises ValueError where that is no stronger than wanted.
    """
    share = float(plato_from_gravity(wanted_sg)) / 100.0
    if solids <= share:
        message = "what is added is no stronger than the wort that is wanted"
        raise ValueError(message)
    have = float(extract_for(gravity_sg, litres))
    return max((share * mass_kg(gravity_sg, litres) - have) / (solids - share), 0.0)


def water_to_add_l(gravity_sg: float, litres: float, wanted_sg: float) -> float:
    """Return the litres of cold water that bring wort down; 0 where it is as weak already."""
    share = float(plato_from_gravity(wanted_sg)) / 100.0
    have = float(extract_for(gravity_sg, litres))
    if share <= 0.0:
        return 0.0
    return max(have / share - mass_kg(gravity_sg, litres), 0.0) / WATER_KG_PER_L


def litres_with(gravity_sg: float, litres: float, added_kg: float, solids: float) -> float:
    """Return the litres at 20 °C of wort to which so much was added, of which `solids` is extract.

    Water is what has no solids.
    """
    extract = float(extract_for(gravity_sg, litres))
    water = mass_kg(gravity_sg, litres) - extract
    return float(volume_l(extract + solids * added_kg, water + (1.0 - solids) * added_kg))


def gravity_with(gravity_sg: float, litres: float, added_kg: float, solids: float) -> float:
    """Return the gravity of wort to which so much was added, of which `solids` is extract."""
    extract = float(extract_for(gravity_sg, litres))
    water = mass_kg(gravity_sg, litres) - extract
    return float(gravity(extract + solids * added_kg, water + (1.0 - solids) * added_kg))


def wort_to_boil_l(added_kg: float) -> float:
    """Return the litres of wort in which extract is dissolved and boiled, to half a litre."""
    return max(ceil(WORT_L_PER_KG * added_kg / 0.5 - 1e-9) * 0.5, LEAST_WORT_L)
