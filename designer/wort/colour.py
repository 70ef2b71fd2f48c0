"""Colour of beer from its fermentables, and what it looks like in a glass.

Colour units of the recipe (kilograms times degrees Lovibond per litre) are bent by Morey's curve
into the colour of beer, SRM. Above 50 SRM the curve was not fitted: it answers, show "50+". Extract
beers come out 1 to 4 SRM darker than this (common practice, no source): a doubt of the brew day.
The colour on screen is in `swatch`.

Sources: Morey, BrewingTechniques (1990s; formula as quoted); Mosher and Daniels (from memory), both
with a false floor for pale beer; SRM = 12.7 A430 and EBC = 25 A430 by definition; malt units after
the same article by Morey.
"""

from __future__ import annotations

from designer.wort.extract import POINTS_L_PER_KG_OF_PPG
from designer.wort.method import Method
from designer.wort.numeric import Numeric, choose, clamp, largest, smallest

EBC_PER_SRM = 1.97
HIGHEST_FITTED_SRM = 50.0
_NOTHING_L = 1e-9
_MOREY_FACTOR, _MOREY_EXPONENT = 1.4922, 0.6859
FULL_EXTRACT_KG_L = 0.10
"""Malt extract in a litre of beer, dry: from here on, 1.039, all is as dark as extract makes it."""
DARKENED_UP_TO_SRM = (10.0, 20.0)
"""Paler beer shows all of it, darker beer none; on average it ends at 15 SRM (judgement)."""


def malt_colour_units(colour_kg_lovibond: Numeric, volume_l: Numeric) -> Numeric:
    """Return malt colour units: pounds times °Lovibond per US gallon; 0 for no volume.

    Takes °Lovibond as printed on the malt, on which Morey's curve was fitted.
    """
    units = POINTS_L_PER_KG_OF_PPG * colour_kg_lovibond / largest(volume_l, _NOTHING_L)
    return choose(volume_l > 0.0, units, 0.0)


def morey(malt_colour_units: Numeric) -> Numeric:
    """Return the colour of beer in SRM by Morey's curve, fitted up to 50 SRM."""
    curve: Numeric = largest(malt_colour_units, 0.0) ** _MOREY_EXPONENT
    return _MOREY_FACTOR * curve


def colour_units_for(colour_srm: Numeric) -> Numeric:
    """Return the malt colour units that Morey's curve makes a colour of, in SRM."""
    units: Numeric = (largest(colour_srm, 0.0) / _MOREY_FACTOR) ** (1.0 / _MOREY_EXPONENT)
    return units


def mosher(malt_colour_units: Numeric) -> Numeric:
    """Return the colour of beer in SRM by Mosher's line, for use above 7 colour units."""
    return 0.3 * malt_colour_units + 4.7


def daniels(malt_colour_units: Numeric) -> Numeric:
    """Return the colour of beer in SRM by Daniels' line, for use above 11 colour units."""
    return 0.2 * malt_colour_units + 8.4


COLOUR_METHODS = {
    "Morey": Method(
        morey,
        "A curve that goes to nothing for water; fitted to 50 SRM.",
        "Morey, BrewingTechniques, 1990s, second-hand",
    ),
    "Mosher": Method(
        mosher,
        "A straight line, never below 4.7 SRM; use above 7 colour units.",
        "Mosher, from memory",
    ),
    "Daniels": Method(
        daniels,
        "A straight line, never below 8.4 SRM; use above 11 colour units.",
        "Daniels, from memory",
    ),
}


def ebc_from_srm(colour_srm: Numeric) -> Numeric:
    """Return the colour of beer in EBC."""
    return EBC_PER_SRM * colour_srm


def srm_from_ebc(colour_ebc: Numeric) -> Numeric:
    """Return the colour of beer in SRM."""
    return colour_ebc / EBC_PER_SRM


def srm_from_lovibond(lovibond: Numeric) -> Numeric:
    """Return the colour of malt in SRM, not below 0."""
    return largest(1.3546 * lovibond - 0.76, 0.0)


def lovibond_from_srm(malt_srm: Numeric) -> Numeric:
    """Return the colour of malt in °Lovibond."""
    return (malt_srm + 0.76) / 1.3546


def ebc_from_lovibond(lovibond: Numeric) -> Numeric:
    """Return the colour of malt in EBC, not below 0."""
    return largest(2.65 * lovibond - 1.2, 0.0)


def lovibond_from_ebc(malt_ebc: Numeric) -> Numeric:
    """Return the colour of malt in °Lovibond."""
    return (malt_ebc + 1.2) / 2.65


def shown_darkening(colour_srm: Numeric, extract_kg_l: Numeric) -> Numeric:
    """Return how much of the darkening of malt extract shows in a beer of that colour, 0 to 1.

    `extract_kg_l` is the extract that malt extract brings to a litre. It fades so slowly with the
    colour that no beer becomes paler by becoming darker, were it darkened by less than 10 SRM.
    """
    first, last = DARKENED_UP_TO_SRM
    pale = clamp((last - colour_srm) / (last - first), 0.0, 1.0)
    return pale * smallest(extract_kg_l / FULL_EXTRACT_KG_L, 1.0)
