"""Whether wort fits pot and fermenter.

Room for foam at the boil: 20 to 25 % of the pot, at least 7 cm; the first minutes and the first
hops are the risk. Room in the fermenter: 20 % of the vessel, more for wheat or a warm ferment
(all common practice, no source). Hot wort takes 4.16 % more room than at 20 °C.
"""

from __future__ import annotations

import math

from designer.wort.density import wort_density
from designer.wort.numeric import Numeric, choose, largest, smallest

LEAST_FOAM_M = 0.07
_TINY = 1e-12


def coil_volume_l(diameter_m: Numeric, length_m: Numeric) -> Numeric:
    """Return the litres that a coil displaces: outside diameter, immersed length."""
    return math.pi / 4.0 * diameter_m * diameter_m * length_m * 1000.0


def hot_volume_l(
    volume_l: Numeric, extract_fraction: Numeric = 0.0, temp_c: Numeric = 100.0
) -> Numeric:
    """Return the litres that `volume_l` of wort (20 °C) takes at `temp_c`."""
    return volume_l * wort_density(extract_fraction, 20.0) / wort_density(extract_fraction, temp_c)


def _with_room(filled_l: Numeric, free_fraction: Numeric) -> Numeric:
    """Return the vessel that is free to a share of itself; infinite if all of it is to be free."""
    used = 1.0 - free_fraction
    return choose(used > 0.0, filled_l / largest(used, _TINY), math.inf)


def pot_needed_l(
    volume_l: Numeric,
    free_fraction: Numeric = 0.20,
    coil_l: Numeric = 0.0,
    extract_fraction: Numeric = 0.0,
) -> Numeric:
    """Return the pot in litres that boils `volume_l` (20 °C) with a share of it left free."""
    return _with_room(hot_volume_l(volume_l, extract_fraction) + coil_l, free_fraction)


def foam_limit_l(
    pot_volume_l: float, free_fraction: float, diameter_m: float | None = None
) -> float:
    """Return the litres up to which a pot may be filled at the boil.

    Where the diameter is known at least 7 cm stay free as well; never below 0.
    """
    limit = pot_volume_l * (1.0 - free_fraction)
    if diameter_m is not None:
        area_m2 = math.pi / 4.0 * diameter_m * diameter_m
        limit = min(limit, pot_volume_l - 1000.0 * area_m2 * LEAST_FOAM_M)
    return max(limit, 0.0)


def into_fermenter_l(
    pot_l: Numeric, trub_l: Numeric, hops_kg: Numeric, absorption_l_per_kg: Numeric
) -> Numeric:
    """Return the litres that leave the pot; 0 where trub and hops keep all."""
    kept = trub_l + hops_kg * absorption_l_per_kg
    return largest(pot_l - smallest(kept, pot_l), 0.0)


def fermenter_needed_l(batch_l: Numeric, headspace_fraction: Numeric = 0.20) -> Numeric:
    """Return the fermenter in litres that holds the batch with a share of the vessel free."""
    return _with_room(batch_l, headspace_fraction)
