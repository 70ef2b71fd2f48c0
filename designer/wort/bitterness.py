"""Bitterness from hops: how much of the alpha acid ends up in the finished beer.

Tinseth's curve is the default: a share that grows with the minutes of boil and shrinks with the
gravity of the wort boiled. It was fitted to finished beer, so extraction, isomerisation and losses
are all in it. Below the boil and up a hill its clock runs slower, see `isomerisation_rate`.

Measured from 1.030 to 1.130 and 0 to 120 minutes; good to about 20 % at best, laboratories and
methods differ by more. Sources disagree about gravity: Malowicki found no effect of sugar on the
reaction, so the gain that a late extract seems to bring is "up to". Dry hops count 0.

Sources: Tinseth, web page (1995 to 1997), constants as quoted on several pages that agree, and
reprinted by Palmer, How to Brew, table 7; pellet factor: common practice, no source; Daniels,
Designing Great Beers, for his pellet table; Hosom (published blog article) for alpha acid that
dissolves. Other methods: `bitterness_methods`.
"""

from __future__ import annotations

import math

from designer.wort.isomerisation_rate import (
    degradation_rate,
    equivalent_minutes_cooling,
    equivalent_minutes_held,
    equivalent_minutes_straight,
    isomerisation_rate,
    peak_time,
    relative_rate,
    relative_rate_hosom,
    shares,
)
from designer.wort.numeric import Numeric, choose, exp, expm1, largest, smallest

__all__ = [
    "DANIELS_PELLET_UTILISATION",
    "FORM_FACTOR",
    "POT_CEILING_IBU",
    "TINSETH_CONSTANT",
    "TINSETH_RATE",
    "alpha_added_mg_l",
    "daniels_pellet_utilisation",
    "degradation_rate",
    "dissolved_alpha",
    "equivalent_minutes_cooling",
    "equivalent_minutes_held",
    "equivalent_minutes_straight",
    "hopped_kit_ibu",
    "hopped_kit_ibu_by_mass",
    "isomerisation_rate",
    "peak_time",
    "pot_ceiling",
    "relative_rate",
    "relative_rate_hosom",
    "shares",
    "tinseth_bigness",
    "tinseth_ibu",
    "tinseth_time_factor",
    "tinseth_utilisation",
    "tinseth_utilisation_between",
]

TINSETH_RATE = 0.04
"""Share of what is yet to be gained that one minute of boil brings."""

TINSETH_CONSTANT = 4.15
"""Fits the curve to a kettle; 3.9 to 4.35 in Palmer (quoted)."""

FORM_FACTOR = {"pellets": 1.10, "whole": 1.00}
"""Bitterness by form of the hop, 1.00 to 1.25 for pellets (common practice, no source)."""

FIRST_WORT_FACTOR = 1.10
"""More bitterness for hops put in before the boil (Preis & Mitter, Brauwelt 1995; from memory)."""

POT_CEILING_IBU = 100.0
"""A pot with more before it is diluted may disappoint (common practice, no source)."""

DANIELS_PELLET_UTILISATION = ((0, 6), (10, 15), (20, 19), (30, 24), (45, 27), (60, 30), (75, 34))
"""Minutes from which on, and per cent: Daniels, as reprinted in a brewery talk."""

_NOTHING_L = 1e-9
_LEAST_CONSTANT = 1e-3
_LN_BIGNESS = math.log(0.000125)


def tinseth_bigness(gravity_sg: Numeric) -> Numeric:
    """Return what the gravity of the boiling wort leaves of utilisation: 1.65 at 1.000."""
    return 1.65 * exp(_LN_BIGNESS * (gravity_sg - 1.0))


def tinseth_time_factor(time_min: Numeric, constant: Numeric = TINSETH_CONSTANT) -> Numeric:
    """Return the share that `time_min` of boil brings, before the gravity's effect; 0 below 0."""
    gained = -expm1(-TINSETH_RATE * largest(time_min, 0.0))
    return gained / largest(constant, _LEAST_CONSTANT)


def tinseth_utilisation(
    gravity_sg: Numeric, time_min: Numeric, constant: Numeric = TINSETH_CONSTANT
) -> Numeric:
    """Return the share (0 to 1) of alpha acid that ends up as bitterness in the beer."""
    return tinseth_bigness(gravity_sg) * tinseth_time_factor(time_min, constant)


def tinseth_utilisation_between(
    gravity_sg: Numeric,
    from_min: Numeric,
    to_min: Numeric,
    constant: Numeric = TINSETH_CONSTANT,
) -> Numeric:
    """Return what a hop gains between two moments of its own clock, at one gravity.

    Summed over stretches it serves wort whose gravity changes; this piecewise form is the project's
    own and is exactly Tinseth's where the gravity stands still.
    """
    gained = tinseth_time_factor(to_min, constant) - tinseth_time_factor(from_min, constant)
    return tinseth_bigness(gravity_sg) * gained


def alpha_added_mg_l(hop_kg: Numeric, alpha_fraction: Numeric, volume_l: Numeric) -> Numeric:
    """Return milligrams of alpha acid added for each litre; 0 if there are no litres."""
    added = 1e6 * hop_kg * alpha_fraction / largest(volume_l, _NOTHING_L)
    return choose(volume_l > 0.0, added, 0.0)


def tinseth_ibu(
    hop_kg: Numeric,
    alpha_fraction: Numeric,
    time_min: Numeric,
    boil_gravity_sg: Numeric,
    volume_l: Numeric,
    constant: Numeric = TINSETH_CONSTANT,
) -> Numeric:
    """Return the bitterness of one addition of whole hops in `volume_l` of finished beer."""
    utilisation = tinseth_utilisation(boil_gravity_sg, time_min, constant)
    return utilisation * alpha_added_mg_l(hop_kg, alpha_fraction, volume_l)


def hopped_kit_ibu(label_ibu: Numeric, label_volume_l: Numeric, volume_l: Numeric) -> Numeric:
    """Return what a hopped kit brings whose label gives the bitterness of the made-up volume."""
    diluted = label_ibu * label_volume_l / largest(volume_l, _NOTHING_L)
    return choose(volume_l > 0.0, diluted, 0.0)


def hopped_kit_ibu_by_mass(
    label_mg_per_kg: Numeric, extract_kg: Numeric, volume_l: Numeric
) -> Numeric:
    """Return what hopped extract brings whose label gives the bitterness of the extract, mg/kg."""
    return hopped_kit_ibu(label_mg_per_kg, extract_kg, volume_l)


def pot_ceiling(
    pot_volume_l: Numeric, final_volume_l: Numeric, ceiling_ibu: Numeric = POT_CEILING_IBU
) -> Numeric:
    """Return the most bitterness in the fermenter that a pot can carry; the ceiling if empty."""
    diluted = ceiling_ibu * pot_volume_l / largest(final_volume_l, _NOTHING_L)
    return choose(final_volume_l > 0.0, diluted, ceiling_ibu)


def dissolved_alpha(added_mg_l: Numeric) -> Numeric:
    """Return the mg/L of alpha acid that dissolve of `added_mg_l`: all below 240, then less."""
    limited = -490.0 * expm1(-0.0028 * largest(added_mg_l, 0.0))
    return choose(added_mg_l < 240.0, largest(added_mg_l, 0.0), smallest(limited, added_mg_l))


def daniels_pellet_utilisation(time_min: Numeric) -> Numeric:
    """Return Daniels' utilisation of pellets (0 to 1), by his classes of boiling time."""
    percent: Numeric = 0.0
    for minutes, printed in DANIELS_PELLET_UTILISATION:
        percent = choose(time_min >= minutes, float(printed), percent)
    return percent / 100.0
