"""How much of each priming sugar makes one volume of gas: one table for the day and for packaging.

Extract ferments as far as the yeast takes it; the others wholly.
"""

from __future__ import annotations

from designer.recipe.choices import FermentableKind, PrimingSugar
from designer.recipe.kind_defaults import FERMENTABLE_DEFAULTS
from designer.wort.carbonation import PRIMING_G_L_PER_VOLUME, extract_g_l_per_volume
from designer.wort.fermentation import REFERENCE_ATTENUATION
from designer.wort.numeric import Numeric, smallest


def extract_ferments(attenuation: Numeric = REFERENCE_ATTENUATION) -> Numeric:
    """Return the share of dry extract that a yeast of such an apparent attenuation ferments."""
    usual = FERMENTABLE_DEFAULTS[FermentableKind.DRY_EXTRACT].fermentability
    return smallest(usual * attenuation / REFERENCE_ATTENUATION, 1.0)


def each_sugar(ferments: Numeric) -> dict[str, Numeric]:
    """Return grams a litre for one volume of each sugar; `ferments` is extract's real share."""
    extract = {PrimingSugar.DRY_EXTRACT.value: extract_g_l_per_volume(ferments)}
    factors: dict[str, Numeric] = {**PRIMING_G_L_PER_VOLUME, **extract}
    return {each.value: factors[each.value] for each in PrimingSugar}
