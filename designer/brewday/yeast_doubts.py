"""What is doubtful about yeast: how far it ferments, and what little or cold yeast leaves."""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.doubts import Doubt, Sure
from designer.brewday.tolerances import Sampler
from designer.recipe.choices import YeastForm
from designer.recipe.document import Recipe, Yeast
from designer.recipe.fields import number
from designer.translation import message
from designer.wort.numeric import Numeric
from designer.wort.pitching import PACKET_G, lateness

UNKNOWN_YEAST = Doubt(
    message("attenuation"), 0.75, 0.67, 0.75, 0.82,
    "classes of yeast from 65 to 80 %: Palmer, How to Brew, 1st ed., online, ch. 6; strains above "
    "them in 44 batches (\"Observations on attenuations\", web article, 2017)",
    Sure.ONE_SOURCE, most=1.0,
)  # fmt: skip
LITTLE_YEAST = Doubt(
    message("too little yeast"), 0.0, 0.0, 1.0, 4.0,
    "none found where 0.29e6 and 0.73e6 cells for each mL and °P were pitched into one wort (blog "
    'article "Yeast pitching rate results", 2010); +0 to +4 points under 0.4 of what is wanted, to '
    "+8 of 11 g in 20 L of 1.090: judgement",
    Sure.JUDGEMENT, least=0.0, most=6.0,
)  # fmt: skip
"""Points of final gravity that it leaves; twice as many of a fifth of the dose."""
COLD_YEAST = Doubt(
    message("yeast pitched too cold"), 0.0, 0.0, 1.0, 6.0,
    "below the temperatures that the strain likes; judgement, no source",
    Sure.JUDGEMENT, least=0.0, most=8.0,
)  # fmt: skip
WHOLLY_COLD_C = 2.0
"""So far below the coolest that it works it leaves all of that."""
PACKETS = ("packet", "packets", "sachet", "sachets")
"""What dry yeast is counted in, as it is typed: “1 packet”, “2 packets”."""


@dataclass(frozen=True, slots=True)
class YeastIn:
    """The yeast as the fermenter sees it.

    `dry_g` are the grams pitched, None where it is not dry or nobody said how much; the points are
    those of final gravity that little or cold yeast leaves.
    """

    dry_g: float | None
    little_points: Numeric
    cold_points: Numeric

    def left_points(self, wanted_g: Numeric) -> Numeric:
        """Return the points of final gravity that it leaves where so much is wanted."""
        if self.dry_g is None:
            return self.cold_points
        return self.cold_points + self.little_points * lateness(self.dry_g, wanted_g)


def yeast_in(recipe: Recipe, sampler: Sampler) -> YeastIn:
    """Return the yeast of a recipe."""
    dry_g = pitched_dry_g(recipe.yeast)
    little = 0.0 if dry_g is None else sampler.doubt(LITTLE_YEAST)
    return YeastIn(dry_g, little, _cold(recipe, sampler))


def pitched_dry_g(yeast: Yeast) -> float | None:
    """Return the grams of dry yeast that are pitched; None where that is not known."""
    amount = yeast.amount
    if amount is None or yeast.form != YeastForm.DRY:
        return None
    if amount.unit in PACKETS:
        return PACKET_G * amount.value
    return amount.value if amount.unit == "g" else None


def _cold(recipe: Recipe, sampler: Sampler) -> Numeric:
    lowest = recipe.yeast.lowest
    below = 0.0 if lowest is None else lowest.value - number(recipe.process, "pitch_temperature")
    if below <= 0.0:
        return 0.0
    return min(below / WHOLLY_COLD_C, 1.0) * sampler.doubt(COLD_YEAST)
