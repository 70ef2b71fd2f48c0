"""What was read of another boil in the same pot, and how far it holds for this one.

What is doubtful of a boil is mostly the same thing in the next one: the pot with its marks, the
stove, the instruments, the malt of one bag. There the two are off alike. What boils away and what
stays behind are a little different each time, so they go together by a correlation; what is weighed
or measured anew each time is another doubt.

Two boils of which each is off by what the pot is off by and, independently, by a scatter have the
correlation 1 - (scatter / width)²: the law of variances that add up.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import sqrt
from typing import TYPE_CHECKING, NamedTuple

from designer.brewday.heat_doubts import EVAPORATION_SCATTER
from designer.brewday.measured.observed import Told
from designer.brewday.measured.reading_errors import FERMENTER_MARK, WATER_IN
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.tolerances import WEIGHT, LineInput, Tolerance
from designer.brewday.vessel_doubts import LEFT_IN_POT, LEFT_IN_POT_SCATTER_L
from designer.recipe.document import Recipe

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

EVAPORATION = "evaporation"
OF_ANOTHER_DAY = ("tap water temperature", "freezer temperature")
"""What is the same all day, and another on the next."""


class OtherBoil(NamedTuple):
    """Another boil in the pot of the one it tells of: its plain recipe, and what was read of it.

    `number` counts from 1. Beside it stands whether it is of the same day, goes into the same
    fermenter, and had its water measured with the same thing.
    """

    number: int
    recipe: Recipe
    told: tuple[Told, ...]
    same_day: bool
    same_fermenter: bool
    same_measure: bool

    def alike(self, key: str, tolerance: Tolerance | None) -> float:
        """Return the correlation of an input of both boils, from 0 to 1.

        `tolerance` is how far off it may be; None for what an instrument is off by.
        """
        if key == FERMENTER_MARK:
            return float(self.same_fermenter)
        if key == WATER_IN:
            return float(self.same_measure)
        if key in OF_ANOTHER_DAY:
            return float(self.same_day)
        if isinstance(key, LineInput) and key.template == WEIGHT:
            return 0.0
        if tolerance is None:
            return 1.0
        if key == EVAPORATION:
            width = tolerance.half_width
            share = width if tolerance.relative else width / max(tolerance.value, 1e-9)
            return _correlation(EVAPORATION_SCATTER, share)
        if key == LEFT_IN_POT.words:
            times = tolerance.value if tolerance.relative else 1.0
            return _correlation(LEFT_IN_POT_SCATTER_L, times * tolerance.half_width)
        return 1.0

    def apart(self, key: str) -> str:
        """Return the key of what an input of that boil is off by alone."""
        return f"{key}, boil {self.number}"


def _correlation(scatter: float, width: float) -> float:
    return max(1.0 - (scatter / max(width, 1e-9)) ** 2, 0.0)


def measured_alike(readings: Sequence[Reading], others: Sequence[Reading]) -> bool:
    """Whether the water of two boils was measured with the same marks or the same stick.

    What was not read is filled by the mark that the plan names. A scale is off by what the eye
    makes of it, another each time.
    """
    ways = {_water_by(readings), _water_by(others)}
    return len(ways) == 1 and By.SCALE not in ways


def _water_by(readings: Sequence[Reading]) -> By:
    return next((each.by for each in readings if each.what is Measured.WATER_IN), By.MARK)


class Alike(NamedTuple):
    """How the scores of another boil's inputs follow from those of this one: by correlation.

    `apart` names what an input of that boil is off by alone, of those that are not quite alike.
    """

    keys: tuple[str, ...]
    correlations: Mapping[str, float]
    apart: Mapping[str, str]

    @classmethod
    def of(cls, other: OtherBoil, tolerances: Mapping[str, Tolerance | None]) -> Alike:
        """Return it of another boil whose inputs and instruments have these tolerances."""
        found = {key: other.alike(key, each) for key, each in tolerances.items()}
        return cls(
            tuple(tolerances),
            {key: each for key, each in found.items() if each < 1.0},
            {key: other.apart(key) for key, each in found.items() if each < 1.0},
        )

    @property
    def needed(self) -> tuple[str, ...]:
        """The keys of all scores that it follows from."""
        return (*(key for key in self.keys if self.shares(key)), *self.apart.values())

    def shares(self, key: str) -> bool:
        """Whether an input has anything to do with that of this boil."""
        return self.correlations.get(key, 1.0) > 0.0

    def followed(self, scores: Mapping[str, Array]) -> dict[str, Array]:
        """Return the scores of the other boil's inputs, from those of all that are needed."""
        return {key: self._followed(key, scores) for key in self.keys}

    def _followed(self, key: str, scores: Mapping[str, Array]) -> Array:
        alike = self.correlations.get(key)
        if alike is None:
            return scores[key]
        own = scores[self.apart[key]]
        return own if alike == 0.0 else alike * scores[key] + sqrt(1.0 - alike * alike) * own
