"""Bitterness by Rager and by Garetz, beside the default in `bitterness`.

Both know only minutes of boil, one gravity and volumes. Rager reads high, Garetz low. The methods
must not be mixed within one total.

Sources: Rager, Zymurgy special issue 1990, tanh form from Pyle, The Hops FAQ, 1995 (both
second-hand; one copy prints 32.32 for 31.32 and fits his table worse). Garetz, Using Hops, 1994,
second-hand, table from memory, and so are the 260 and its use.
"""

from __future__ import annotations

from designer.wort.bitterness import alpha_added_mg_l, tinseth_ibu
from designer.wort.method import Method
from designer.wort.numeric import Numeric, choose, largest, tanh

FEET_PER_M = 3.280839895
_GARETZ_CLASSES = (
    (10.0, 0.0), (15.0, 2.0), (20.0, 5.0), (25.0, 8.0), (30.0, 11.0), (35.0, 14.0), (40.0, 16.0),
    (45.0, 18.0), (50.0, 19.0), (60.0, 20.0), (70.0, 21.0), (80.0, 22.0), (90.0, 23.0),
)  # fmt: skip
"""Upper end of each class of minutes, and utilisation in per cent."""
_TINY_L = 1e-9


def rager_utilisation(time_min: Numeric) -> Numeric:
    """Return Rager's utilisation, 0 to 1; 0 for hops that are not boiled."""
    percent = 18.11 + 13.86 * tanh((time_min - 31.32) / 18.27)
    return choose(time_min > 0.0, percent / 100.0, 0.0)


def rager_ibu(
    hop_kg: Numeric,
    alpha_fraction: Numeric,
    time_min: Numeric,
    boil_gravity_sg: Numeric,
    volume_l: Numeric,
    gravity_effect: Numeric = 1.0,
) -> Numeric:
    """Return the bitterness of one addition; his table goes from 0 to 90 minutes.

    `gravity_effect` is the share (0 to 1) of his correction for gravity that is made.
    """
    correction = 1.0 + gravity_effect * largest(boil_gravity_sg - 1.050, 0.0) / 0.2
    added = alpha_added_mg_l(hop_kg, alpha_fraction, volume_l)
    return rager_utilisation(time_min) * added / correction


def garetz_utilisation(time_min: Numeric) -> Numeric:
    """Return Garetz's utilisation, 0 to 1, by his classes of minutes."""
    percent: Numeric = _GARETZ_CLASSES[-1][1]
    for upper, value in reversed(_GARETZ_CLASSES):
        percent = choose(time_min <= upper, value, percent)
    return percent / 100.0


def garetz_altitude_factor(altitude_m: Numeric) -> Numeric:
    """Return the divisor for altitude: 2 % for each 550 feet."""
    return 1.0 + 0.02 * altitude_m * FEET_PER_M / 550.0


def garetz_ibu(
    hop_kg: Numeric,
    alpha_fraction: Numeric,
    time_min: Numeric,
    original_gravity: Numeric,
    volume_l: Numeric,
    boil_l: Numeric,
    altitude_m: Numeric = 0.0,
    gravity_effect: Numeric = 1.0,
) -> Numeric:
    """Return the bitterness of one addition; `gravity_effect` as in `rager_ibu`.

    The hopping factor depends on the answer x itself, x (1 + c x / 260) = y, solved in closed form
    without cancellation. Below a boil gravity of 1.050 the factor falls under 1, as printed.
    """
    concentration = volume_l / largest(boil_l, _TINY_L)
    boil_gravity = concentration * (original_gravity - 1.0) + 1.0
    factor = gravity_effect * (boil_gravity - 1.050) / 0.2 + 1.0
    added = alpha_added_mg_l(hop_kg, alpha_fraction, volume_l)
    plain = garetz_utilisation(time_min) * added
    plain = plain / (largest(factor, 0.1) * garetz_altitude_factor(altitude_m))
    slope = concentration / 260.0
    return 2.0 * plain / (1.0 + (1.0 + 4.0 * slope * plain) ** 0.5)


BITTERNESS_METHODS = {
    "Tinseth": Method(
        tinseth_ibu,
        "Follows the minutes and the gravity of the boil; fitted to finished home-brewed beer.",
        "Tinseth, web page, 1995 to 1997",
    ),
    "Rager": Method(
        rager_ibu,
        "An older table by minutes with a correction above 1.050; reads high.",
        "Rager, Zymurgy, special issue 1990, second-hand",
    ),
    "Garetz": Method(
        garetz_ibu,
        "Allows for concentration, altitude and the bitterness itself; reads low.",
        "Garetz, Using Hops, 1994, second-hand, table from memory",
    ),
}
"""The methods a recipe may choose, the default first."""
