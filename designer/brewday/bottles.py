"""What pressure the bottles may come to, and whether they bear it.

Judged is the fullest bottle in twenty, warm: a batch is never mixed evenly, and no bottle breaks on
average. Limits: `designer.wort.carbonation.BOTTLE_LIMITS`. What is refused has no priming sugar at
all, so no screen, paper or file can tell an amount of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import floor

from designer.recipe.choices import Package
from designer.recipe.document import Process
from designer.recipe.fields import number
from designer.wort.carbonation import (
    BOTTLE_LIMITS,
    residual_co2,
    volumes_to_aim_at,
    warm_bottle_bar,
)

_STEP_VOLUMES = 0.1


@dataclass(frozen=True, slots=True)
class Bottled:
    """The bottles and what they may come to: gauge pressures in bar, warm."""

    kind: str
    most_bar: float
    comfortable_bar: float
    never_bar: float

    @property
    def is_made_for_pressure(self) -> bool:
        """Whether such bottles bear any."""
        return self.never_bar > 0.0

    @property
    def is_refused(self) -> bool:
        """Whether beer with such bubbles never goes into them."""
        return self.most_bar > self.never_bar

    @property
    def is_at_ease(self) -> bool:
        """Whether they bear it without more care than usual."""
        return self.most_bar <= self.comfortable_bar

    @property
    def comfortable_volumes(self) -> float:
        """The most volumes to aim at with ease, to the tenth below."""
        steps = float(volumes_to_aim_at(self.comfortable_bar)) / _STEP_VOLUMES
        return max(round(floor(steps + 1e-9) * _STEP_VOLUMES, 1), 0.0)


def bottled(process: Process, warmest_c: float) -> Bottled | None:
    """Return the bottles of a recipe whose beer was never warmer than that; None for a keg.

    What the beer holds already is in the bottle, even where less is aimed at.
    """
    if process.package == Package.KEG:
        return None
    aimed_at = max(number(process, "carbonation"), float(residual_co2(warmest_c)))
    limits = BOTTLE_LIMITS[process.bottle]
    return Bottled(
        process.bottle, float(warm_bottle_bar(aimed_at)), limits.comfortable_bar, limits.never_bar
    )
