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
        return not self.most_bar <= self.never_bar

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
    """Return the bottles of a recipe whose beer was never warmer than that; None for a keg."""
    if process.package == Package.KEG:
        return None
    return judged(process.bottle, number(process, "carbonation"), warmest_c)


def judged(kind: str, volumes: float, warmest_c: float, unfinished: float = 0.0) -> Bottled:
    """Return what a kind of bottle comes to with such bubbles in mind.

    `unfinished` are the volumes that may come on top, of what the beer has still to ferment.
    """
    limits = BOTTLE_LIMITS[kind]
    most_bar = float(warm_bottle_bar(aimed_volumes(volumes, warmest_c), unfinished))
    return Bottled(kind, most_bar, limits.comfortable_bar, limits.never_bar)


def aimed_volumes(volumes: float, warmest_c: float) -> float:
    """Return the volumes that a batch comes to: what is wanted, or what it holds if that is more.

    Beer that holds more keeps it, for it cannot lose gas to the bottle.
    """
    return max(volumes, float(residual_co2(warmest_c)))
