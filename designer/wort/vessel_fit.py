"""Whether wort fits the pot.

Room for foam at the boil: 20 to 25 % of the pot, at least 7 cm; the first minutes and the first
hops are the risk (common practice, no source).
"""

from __future__ import annotations

import math

LEAST_FOAM_M = 0.07


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
