"""Figures of an ingredient whose label says nothing, by its kind.

They stand in only where the recipe's own copy has no figure, and carry wide ranges.
"""

from __future__ import annotations

from typing import NamedTuple

from designer.recipe.choices import FermentableKind
from designer.recipe.document import Fermentable, Hop


class KindFigures(NamedTuple):
    """Extract as a share of the mass as it is, real fermentability, colour in °L, and the ground.

    How wide they are taken is said in `designer.brewday.malt_doubts`.
    """

    extract: float
    fermentability: float
    colour: float
    source: str


FERMENTABLE_DEFAULTS: dict[str, KindFigures] = {
    FermentableKind.LIQUID_EXTRACT: KindFigures(
        0.80, 0.61, 5.0, "76 to 82 % solids; common practice, no source"
    ),
    FermentableKind.DRY_EXTRACT: KindFigures(
        0.965, 0.61, 5.0, "97 % solids; common practice, no source"
    ),
    FermentableKind.HOPPED_KIT: KindFigures(
        0.80, 0.59, 10.0, "76 to 82 % solids; common practice, no source"
    ),
    FermentableKind.SUGAR: KindFigures(1.0, 1.0, 0.0, "dry sugar is all extract"),
    FermentableKind.STEEPING_GRAIN: KindFigures(
        0.39,
        0.38,
        60.0,
        "medium crystal, 18 ppg steeped: Palmer, How to Brew, 1st ed., online, table 9",
    ),
    FermentableKind.MASH_GRAIN: KindFigures(
        0.0, 0.63, 4.0, "starch needs a mash: a steep gives next to nothing"
    ),
}
DEFAULT_ALPHA = 0.06
"""Alpha acid of a hop with no figure, from 3 to 13 %; judgement."""

WHOLE_HOP_ABSORPTION_L_PER_KG = 5.0
"""Wort held by whole hops, hung to drip; 4.9 weighed (home record, second-hand)."""

PELLET_ABSORPTION_L_PER_KG = 6.0
"""Wort held by pellets: 4 to 6 alone (from memory), 10 with the trub (home record, second-hand)."""


def figures(line: Fermentable) -> KindFigures:
    """Return the default figures for the line's kind."""
    return FERMENTABLE_DEFAULTS[line.kind]


def extract_fraction(line: Fermentable) -> float:
    """Return the share of the line's mass that becomes extract in the wort.

    For grain it is what a steep gives, for all else the dissolved solids.
    """
    return line.extract.value if line.extract is not None else figures(line).extract


def real_fermentability(line: Fermentable) -> float:
    """Return the share of the line's extract that a 75 % yeast ferments, real."""
    typed = line.fermentability
    return typed.value if typed is not None else figures(line).fermentability


def colour_lovibond(line: Fermentable) -> float:
    """Return the line's colour in degrees Lovibond."""
    return line.colour.value if line.colour is not None else figures(line).colour


def alpha_acid(hop: Hop) -> float:
    """Return the hop's alpha acid as a share of its mass."""
    return hop.alpha.value if hop.alpha is not None else DEFAULT_ALPHA
