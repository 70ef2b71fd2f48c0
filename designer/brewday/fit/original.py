"""The beer to be held: what the recipe gives at its own volume, whatever the vessels."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple

from designer.brewday.fit.answer import Compared
from designer.brewday.outlook import look_ahead
from designer.brewday.predictions import BY_KEY, PREDICTIONS
from designer.brewday.results import Day, Range
from designer.recipe.document import Recipe
from designer.wort.bitterness import POT_CEILING_IBU

OG_DEADBAND = BY_KEY["original_gravity"].deadband or 0.0
IBU_DEADBAND = BY_KEY["bitterness_ibu"].deadband or 0.0
VOLUME_DEADBAND = 0.03
"""A share of the volume that nobody misses; common practice, no source."""

VOLUME_WEIGHT = 3.0
"""A third of the volume counts as much as two points of gravity; a judgement, no source."""

SOUGHT_SHARE = 0.5
"""What is solved for is held within this share of the deadband."""

WELL_INSIDE = 0.5
"""A change by no more than this share of the way to the end of the recipe's own range counts as
none where ways are put in order; a judgement, no source."""


class Far(NamedTuple):
    """How far a beer is by what can be told of the recipe's own, and by a kitchen's instruments."""

    told: float
    apart: float


@dataclass(frozen=True, slots=True)
class Original:
    """The recipe, its day and its forecasts."""

    recipe: Recipe
    day: Day
    forecasts: dict[str, Range]

    @property
    def batch_l(self) -> float:
        """Litres in the fermenter."""
        return float(self.day.fermenter.batch_l)

    @property
    def least_gravity(self) -> float:
        """The gravity that still counts as held."""
        return float(self.day.beer.original_gravity) - SOUGHT_SHARE * OG_DEADBAND

    @property
    def most_ibu(self) -> float:
        """The bitterness that still counts as held."""
        return float(self.day.beer.bitterness_ibu) + SOUGHT_SHARE * IBU_DEADBAND

    def far(self, day: Day) -> Far:
        """Return how far the beer of a day is from this one."""
        return Far(apart_day(self.day, day, self.forecasts), apart_day(self.day, day))

    def compared(self, forecasts: Mapping[str, Range]) -> dict[str, Compared]:
        """Return forecasts of another recipe beside those of this one."""
        return {
            key: Compared(found.value, found.low, found.high, self.forecasts[key].value)
            for key, found in forecasts.items()
        }


def original_of(recipe: Recipe) -> Original:
    """Return what the recipe gives as it stands."""
    outlook = look_ahead(recipe)
    return Original(recipe, outlook.day, outlook.forecasts)


def apart(
    original: Day,
    forecasts: Mapping[str, float],
    batch_l: float,
    over_ceiling_ibu: float = 0.0,
    ranges: Mapping[str, Range] = MappingProxyType({}),
) -> float:
    """Return how far a beer is from the original: 0 for the same, about 1 where one notices.

    Each forecast counts by its weight, and a third of the volume, or 25 IBU above what a pot
    carries in practice, count 1 each; what cannot be told apart counts nothing, nor with `ranges`
    what lies well inside the original's own. The weights are a judgement, no source. Rounded to a
    tenth, so that effort decides among equals.
    """
    noticed = 0.0
    for each in PREDICTIONS:
        if each.weight is not None:
            before = float(each.compute(original))
            change = forecasts[each.key] - before
            untold = max(each.deadband or 0.0, _well_inside(ranges.get(each.key), change))
            beyond = abs(change) - untold
            one = max(each.weight.noticed_share * before, each.weight.noticed)
            noticed += max(beyond, 0.0) / one
    return round(
        noticed
        + VOLUME_WEIGHT * missing_share(float(original.fermenter.batch_l), batch_l)
        + max(over_ceiling_ibu, 0.0) / 25.0,
        1,
    )


def _well_inside(own: Range | None, change: float) -> float:
    """Return how large a change in that direction is well inside the range of a forecast."""
    if own is None:
        return 0.0
    return WELL_INSIDE * max(own.high - own.value if change > 0 else own.value - own.low, 0.0)


def missing_share(whole_l: float, batch_l: float) -> float:
    """Return the share of the original's volume that is missing, beyond what counts as held."""
    return max(1.0 - batch_l / max(whole_l, 1e-9) - VOLUME_DEADBAND, 0.0)


def apart_day(original: Day, day: Day, ranges: Mapping[str, Range] = MappingProxyType({})) -> float:
    """Return how far the beer of a day is from the original; see `apart`."""
    return apart(
        original,
        {each.key: float(each.compute(day)) for each in PREDICTIONS if each.weight is not None},
        float(day.fermenter.batch_l),
        over_ceiling_ibu(original, float(day.fermenter.pot_ibu)),
        ranges,
    )


def over_ceiling_ibu(original: Day, pot_ibu: float) -> float:
    """Return the bitterness in a pot beyond what one carries, or beyond what the original's has.

    A recipe that is as strong in hops as it stands is not another beer for being brewed so.
    """
    return pot_ibu - max(POT_CEILING_IBU, float(original.fermenter.pot_ibu))
