"""What yeast makes of wort: alcohol, attenuation, gas, and where it stops.

Balling's constants split the extract that ferments into alcohol, carbon dioxide and yeast. Alcohol
formulas in use spread by 0.1 % at 1.040 and 0.8 % at 1.090; Balling is the default, show one
decimal. Against 532 measured brews it is within 0.11 % alcohol by weight.

Where fermentation stops takes two things: the share of the extract that can ferment, and the yeast.
The shares are for a yeast of 75 % apparent attenuation; real attenuation is 0.81 of apparent. Plus
or minus 3 points of attenuation is normal (a final gravity of ± 0.002).

Sources: Balling's constants as in ASBC Beer-6 and Speers, "Brewing calculations" (quoted); Cutaia,
Reid, Speers, J. Inst. Brew. 115 (2009) 318 to 327; Hall, Zymurgy, Summer 1995 (from memory);
calories after ASBC in the Oxford Companion to Beer; 0.81: MEBAK. The additive rule for
fermentability is this project's proposal.
"""

from __future__ import annotations

from collections.abc import Sequence

from designer.wort.density import plato_from_gravity
from designer.wort.method import Method
from designer.wort.numeric import Numeric, choose, largest, smallest

ETHANOL_GRAVITY = 0.7907
REAL_PER_APPARENT = 0.81
REFERENCE_ATTENUATION = 0.75
"""Apparent attenuation of the yeast for which fermentabilities are given."""

KJ_PER_KCAL = 4.184
"""Definition of the thermochemical calorie."""

_TINY = 1e-9


def _over(part: Numeric, whole: Numeric) -> Numeric:
    """Return part over whole, 0 where there is no whole."""
    return choose(whole > _TINY, part / largest(whole, _TINY), 0.0)


def real_extract(original_extract: Numeric, apparent_extract: Numeric) -> Numeric:
    """Return the extract in °P that is truly left, from what the hydrometer shows."""
    return 0.1808 * original_extract + 0.8192 * apparent_extract


def alcohol_by_weight(original_extract: Numeric, apparent_extract: Numeric) -> Numeric:
    """Return alcohol in per cent by weight after Balling; both extracts in °P."""
    left = real_extract(original_extract, apparent_extract)
    return (original_extract - left) / (2.0665 - 0.010665 * original_extract)


def _by_volume(by_weight: Numeric, final_gravity: Numeric) -> Numeric:
    return by_weight * final_gravity / ETHANOL_GRAVITY


def alcohol_balling(original_gravity: Numeric, final_gravity: Numeric) -> Numeric:
    """Return alcohol in per cent by volume after Balling."""
    extracts = plato_from_gravity(original_gravity), plato_from_gravity(final_gravity)
    return _by_volume(alcohol_by_weight(*extracts), final_gravity)


def alcohol_by_weight_cutaia(original_extract: Numeric, apparent_extract: Numeric) -> Numeric:
    """Return alcohol in per cent by weight after the fit to 532 brews."""
    return (0.372 + 0.00357 * original_extract) * (original_extract - apparent_extract)


def alcohol_cutaia(original_gravity: Numeric, final_gravity: Numeric) -> Numeric:
    """Return alcohol in per cent by volume after Cutaia, Reid and Speers."""
    extracts = plato_from_gravity(original_gravity), plato_from_gravity(final_gravity)
    return _by_volume(alcohol_by_weight_cutaia(*extracts), final_gravity)


def alcohol_hall(original_gravity: Numeric, final_gravity: Numeric) -> Numeric:
    """Return alcohol in per cent by volume after Hall."""
    by_weight = 76.08 * (original_gravity - final_gravity) / largest(1.775 - original_gravity, 0.1)
    return by_weight * final_gravity / 0.794


def alcohol_linear(original_gravity: Numeric, final_gravity: Numeric) -> Numeric:
    """Return alcohol in per cent by volume as 131.25 times the fall in gravity."""
    return 131.25 * (original_gravity - final_gravity)


ALCOHOL_METHODS = {
    "Balling": Method(
        alcohol_balling,
        "The mass balance of fermentation; the default.",
        "Balling, as in ASBC Beer-6",
    ),
    "Cutaia": Method(
        alcohol_cutaia,
        "A fit to 532 measured brews.",
        "Cutaia, Reid, Speers, J. Inst. Brew. 115 (2009) 318",
    ),
    "Hall": Method(
        alcohol_hall,
        "Runs high for beers above 1.070.",
        "Hall, Zymurgy, Summer 1995 (attribution from memory)",
    ),
    "linear": Method(
        alcohol_linear,
        "The fall in gravity times a constant; low for strong beers.",
        "common practice, no source",
    ),
}


_BY_WEIGHT = {"Balling": alcohol_by_weight, "Cutaia": alcohol_by_weight_cutaia}
"""Methods that go by the extracts."""


def alcohol_by_volume(
    original_gravity: Numeric,
    final_gravity: Numeric,
    method: str = "Balling",
    extracts: tuple[Numeric, Numeric] | None = None,
) -> Numeric:
    """Return alcohol in per cent by volume by one of `ALCOHOL_METHODS`; else a KeyError.

    `extracts` are the same gravities in °P, where they are known already.
    """
    if extracts is not None and method in _BY_WEIGHT:
        return _by_volume(_BY_WEIGHT[method](*extracts), final_gravity)
    return ALCOHOL_METHODS[method].function(original_gravity, final_gravity)


def kcal_from_extracts(
    original_extract: Numeric, apparent_extract: Numeric, final_gravity: Numeric
) -> Numeric:
    """Return the food value in kilocalories per 100 mL of beer, extracts in °P; not below 0."""
    solids = largest(real_extract(original_extract, apparent_extract) - 0.1, 0.0)
    by_weight = alcohol_by_weight(original_extract, apparent_extract)
    return (6.9 * by_weight + 4.0 * solids) * final_gravity


def real_fermentability(
    extract_kgs: Sequence[Numeric],
    fermentabilities: Sequence[Numeric],
    is_simple_sugar: Sequence[bool],
    yeast_attenuation: Numeric,
) -> Numeric:
    """Return the share of all extract that this yeast ferments, 0 to 1; 0 if there is none.

    `fermentabilities` are real shares with a yeast of 75 % apparent attenuation. The yeast scales
    them for malt, grain and starch syrups; simple sugars ferment the same with every yeast.
    """
    fermented: Numeric = 0.0
    total: Numeric = 0.0
    scale = yeast_attenuation / REFERENCE_ATTENUATION
    for extract_kg, share, simple in zip(
        extract_kgs, fermentabilities, is_simple_sugar, strict=True
    ):
        scaled = share if simple else share * scale
        fermented = fermented + extract_kg * smallest(scaled, 1.0)
        total = total + extract_kg
    return _over(fermented, total)


def final_gravity(original_gravity: Numeric, real_fermentability: Numeric) -> Numeric:
    """Return the gravity at which fermentation stops; below 1.000 for pure sugar."""
    apparent = real_fermentability / REAL_PER_APPARENT
    return 1.0 + (original_gravity - 1.0) * (1.0 - apparent)
