"""How a brewer can know an input better, and how well it is known then.

Half widths that a careful kitchen reaches; common practice, no source. An input that no kitchen
can measure (the bitterness model, the colour fit) has no entry.
"""

from __future__ import annotations

from typing import NamedTuple

from designer.brewday.heat_doubts import COOLING, STAND, STOVES
from designer.brewday.instrument import CHECKED_WITHIN_SG
from designer.brewday.malt_doubts import FERMENTABILITY, YIELD
from designer.brewday.tolerances import (
    ALPHA_ACID,
    COLOUR,
    LABEL_BITTERNESS,
    SOLIDS,
    WEIGHT,
    LineInput,
    Tolerance,
)
from designer.recipe.choices import Stove
from designer.translation import message


class Better(NamedTuple):
    """What to do, and the half width reached: in the unit of the input, or relative to it."""

    advice: str
    half_width: float
    relative: bool


_TIMED = message("time how long a known volume takes to heat")

_BY_KEY = {
    "fermenter mark": Better(
        message("weigh the full fermenter instead of reading its mark"),
        0.2,
        relative=False,
    ),
    "water measured in": Better(message("weigh the water to 50 g"), 0.05, relative=False),
    "evaporation": Better(
        message("measure your evaporation once with plain water"), 0.12, relative=True
    ),
    "wort left in the pot": Better(message("measure what stays in the pot"), 0.05, relative=False),
    "water held by grain": Better(message("weigh the wet bag"), 0.1, relative=False),
    "wort held by hops": Better(message("weigh the wet hops"), 1.0, relative=False),
    "kitchen scale": Better(message("check the scale with a litre of water"), 0.003, relative=True),
    "attenuation": Better(
        message("use what this yeast did in your own last beers"), 0.02, relative=False
    ),
    "tap water temperature": Better(message("measure the tap water"), 1.0, relative=False),
    "freezer temperature": Better(message("measure the freezer"), 1.0, relative=False),
    "steep yield": Better(message("measure the gravity of the steep once"), 0.08, relative=True),
    COOLING.words: Better(
        message("take two readings of the wort while it cools"), 0.15, relative=True
    ),
    "age of the hops": Better(
        message("type how old the hops are and how they were kept"), 0.03, relative=False
    ),
    "too little yeast": Better(
        message("pitch as much yeast as the wort wants"), 0.1, relative=False
    ),
    "yeast pitched too cold": Better(
        message("pitch as warm as the yeast works"), 0.1, relative=False
    ),
    "syrup left in the tin": Better(
        message("rinse the tin with hot wort, or weigh it empty"), 0.002, relative=False
    ),
    "extract held in the bag": Better(
        message("rinse the bag with some of the water"), 0.15, relative=False
    ),
    "base malt that converts in the steep": Better(
        message("measure the gravity of the steep once"), 0.08, relative=False
    ),
    STAND.words: Better(message("try the thermometer in ice and at the boil"), 0.5, relative=False),
    STOVES[Stove.ELECTRIC].words: Better(_TIMED, 0.05, relative=True),
    "hydrometer": Better(
        message("float the hydrometer in water and type what it shows"),
        CHECKED_WITHIN_SG,
        relative=False,
    ),
    "stove power": Better(_TIMED, 0.05, relative=True),
}
_OF_LINES = {
    ALPHA_ACID: Better(
        message("use the alpha acid printed for this lot, fresh"), 0.04, relative=True
    ),
    WEIGHT: Better(message("weigh the hops to 0.2 g"), 0.0002, relative=False),
    SOLIDS: Better(message("use the solids on the data sheet"), 0.005, relative=False),
    YIELD: Better(message("use the steep yield of a handbook"), 0.1, relative=True),
    FERMENTABILITY: Better(
        message("ferment a glass of it warm with much yeast, 2 days, and read its end"),
        0.015,
        relative=False,
    ),
    COLOUR: Better(message("use the colour on the data sheet"), 0.06, relative=True),
    LABEL_BITTERNESS: Better(message("ask the supplier for the lot's figure"), 0.06, relative=True),
}


def better_half_width(key: str, tolerance: Tolerance) -> tuple[str, float]:
    """Return what would make the input surer, and the share of its half width then left.

    ("", 1.0) where nothing would, or it is known as well already.
    """
    better = _OF_LINES.get(key.template) if isinstance(key, LineInput) else _BY_KEY.get(key)
    if better is None:
        return "", 1.0
    size = abs(tolerance.value)
    now = tolerance.half_width * (size if tolerance.relative else 1.0)
    then = better.half_width * (size if better.relative else 1.0)
    return (better.advice, then / now) if then < 0.9 * now else ("", 1.0)
