"""Bitterness from hops: how much of the alpha acid ends up in the finished beer.

Tinseth's curve is the default: a share that grows with the minutes of boil and shrinks with the
gravity of the wort boiled. It was fitted to finished beer, so extraction, isomerisation and losses
are all in it. Below the boil and up a hill its clock runs slower, see `isomerisation_rate`.

The published table spans 1.030 to 1.130 and 0 to 120 minutes; good to about 25 % at best,
laboratories and methods differ by more. Sources disagree about gravity: Malowicki found no effect
of sugar on the reaction, so the gain that a late extract seems to bring is "up to". Dry hops count
0.

Sources: Tinseth, web page (1995 to 1997), constants as quoted on several pages that agree, and
reprinted by Palmer, How to Brew, 1st ed., online, table 7; pellet factor: common practice, no
source; alpha acid that dissolves: Hosom, web article, fit to measured beers. Other methods:
`bitterness_methods`.
"""

from __future__ import annotations

import math

from designer.wort.numeric import Numeric, choose, clamp, exp, expm1, largest, smallest

TINSETH_RATE = 0.04
"""Share of what is yet to be gained that one minute of boil brings."""

TINSETH_CONSTANT = 4.15
"""Fits the curve to a kettle. That handbooks allow 3.9 to 4.35 could not be verified."""

TABLE_SG = (1.030, 1.130)
"""The first and the last column of the published table."""
TABLE_MIN = 120.0
"""Its last row."""
AGREED_SG = 1.050
"""A usual boil, of which all sources say the same: what gravity does is counted from here."""

POT_CEILING_IBU = 100.0
"""A pot with more before it is diluted may disappoint (common practice, no source)."""


_DISSOLVES_MG_L, _DISSOLVING_L_MG = 490.0, 0.0028
_NOTHING_L = 1e-9
_LEAST_CONSTANT = 1e-3
_LN_BIGNESS = math.log(0.000125)
_AGREED_BIGNESS = 1.65 * math.exp(_LN_BIGNESS * (AGREED_SG - 1.0))


def tinseth_bigness(gravity_sg: Numeric) -> Numeric:
    """Return what the gravity of the boiling wort leaves of utilisation: 1.65 at 1.000."""
    return 1.65 * exp(_LN_BIGNESS * (gravity_sg - 1.0))


def bigness(gravity_sg: Numeric, effect: Numeric = 1.0) -> Numeric:
    """Return the same where gravity has only a share (0 to 1) of the published `effect`.

    With the whole effect it is the published formula, be the wort thinner or stronger than its
    table. Beyond the table nothing is printed: there the effect goes on with its share of the
    share, so that in water, and in syrup, what its two ends say goes ever further apart.
    """
    printed = clamp(gravity_sg, *TABLE_SG)
    counted = printed - AGREED_SG + effect * (gravity_sg - printed)
    return _AGREED_BIGNESS * exp(_LN_BIGNESS * effect * counted)


def dissolved_alpha_mg_l(added_mg_l: Numeric) -> Numeric:
    """Return how much of the alpha acid added to a litre of pot dissolves, by the fit to beers.

    All of it up to 240 mg/L, never above 490.
    """
    by_fit = -_DISSOLVES_MG_L * expm1(-_DISSOLVING_L_MG * added_mg_l)
    return smallest(added_mg_l, by_fit)


def tinseth_time_factor(time_min: Numeric, constant: Numeric = TINSETH_CONSTANT) -> Numeric:
    """Return the share that `time_min` of boil brings, before the gravity's effect; 0 below 0."""
    gained = -expm1(-TINSETH_RATE * largest(time_min, 0.0))
    return gained / largest(constant, _LEAST_CONSTANT)


def tinseth_utilisation(
    gravity_sg: Numeric, time_min: Numeric, constant: Numeric = TINSETH_CONSTANT
) -> Numeric:
    """Return the share (0 to 1) of alpha acid that ends up as bitterness in the beer."""
    return tinseth_bigness(gravity_sg) * tinseth_time_factor(time_min, constant)


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
