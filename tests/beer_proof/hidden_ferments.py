"""Hidden fermentations: yeast that grows and eats two sugars, and a brewer who reads and notes.

They know nothing of the curves that the program has: yeast grows on what it eats, the slow sugar is
taken once the quick one is low, and the yeast sinks towards the end. Wort and end are those of the
hidden days of a recipe. Sizes are judgement: most are over within 4 to 12 days. The brewer's errors
are drawn here, not taken from the program: an offset of his hydrometer, his eye, marks of 0.001.

Source of the form: growth and uptake after Monod, as in handbooks of fermentation (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from designer.brewday.day import brew_samples
from designer.brewday.fermenting.course import BeerReading, Fermenting, Warmth
from designer.brewday.fermenting.fermenting import fermenting
from designer.brewday.outlook import look_ahead

STEP_DAYS, LAST_DAY = 0.02, 60.0
HALF_WIDTH_SIGMAS = 1.6448536269514722


@dataclass(frozen=True)
class Errors:
    """Half widths, 5 to 95 %, of what the brewer's readings are off by."""

    offset: float = 0.0017
    eye: float = 0.001
    warmth_c: float = 1.0
    mark: float = 0.001

    @property
    def whole(self) -> float:
        """What the brewer knows of them."""
        return float(np.hypot(self.offset, self.eye))


@dataclass
class Cellar:
    """Some ferments of one recipe, hidden from the program but for what is read of them."""

    recipe: object
    count: int
    seed: int = 17
    stuck: bool = False
    room_c: tuple[float, float] = (17.0, 21.0)
    errors: Errors = field(default_factory=Errors)

    def __post_init__(self) -> None:
        chance = np.random.default_rng(self.seed)
        self.chance = chance
        self.outlook = look_ahead(self.recipe)
        days, _ = brew_samples(self.recipe, 1024)
        drawn = chance.integers(0, 1024, self.count)
        self.original = np.asarray(days.beer.original_gravity)[drawn]
        self.end = np.asarray(days.beer.final_gravity)[drawn]
        self.noted_c = chance.uniform(*self.room_c, self.count)
        self.really_c = self.noted_c + self._normal(self.errors.warmth_c)
        self.offset = self._normal(self.errors.offset)
        self.known_original = self.original + self._normal(0.0015)
        self.left = _left(chance, self.really_c)
        if self.stuck:
            above = chance.uniform(0.006, 0.014, self.count)
            self.can = self.end
            self.end = np.minimum(self.end + above, self.original - 0.012)

    def _normal(self, half_width: float):
        return half_width / HALF_WIDTH_SIGMAS * self.chance.standard_normal(self.count)

    def gravity(self, at: int, day: float) -> float:
        """Return what a beer really is on a day."""
        place = min(round(day / STEP_DAYS), self.left.shape[0] - 1)
        end = self.end[at]
        return float(end + (self.original[at] - end) * self.left[place, at])

    def read(self, at: int, day: float) -> BeerReading:
        """Return what the brewer reads, corrected as far as he can."""
        eye = self.errors.eye / HALF_WIDTH_SIGMAS * self.chance.standard_normal()
        shown = self.gravity(at, day) + self.offset[at] + eye
        return BeerReading(
            day, round(shown / self.errors.mark) * self.errors.mark, self.errors.whole
        )

    def told(self, at: int, readings, now: float) -> Fermenting:
        """Return what the program says after readings."""
        warmths = (Warmth(0.0, float(self.noted_c[at])),)
        original = float(self.known_original[at])
        return fermenting(self.recipe, self.outlook, readings, warmths, now, original, 0.0015)


def _left(chance, temp_c):
    """Return the share of the fall that is left, a row for each step of time."""
    count = len(temp_c)

    def ratio(middle, spread):
        return middle * np.exp(spread / HALF_WIDTH_SIGMAS * chance.standard_normal(count))

    warm = ratio(2.2, 0.25) ** ((temp_c - 20.0) / 10.0)
    eats, grows, lag = ratio(0.45, 0.55) * warm, ratio(1.6, 0.35) * warm, ratio(0.5, 0.5) / warm
    slow_share, eats_slowly = chance.uniform(0.03, 0.15, count), ratio(0.1, 0.6) * warm
    sinks = ratio(0.06, 0.7)
    yeast, quick, slow = np.full(count, 0.25), 1.0 - slow_share, slow_share.copy()
    rows = []
    for step in range(round(LAST_DAY / STEP_DAYS) + 1):
        rows.append(quick + slow)
        awake = 1.0 - np.exp(-((step * STEP_DAYS / lag) ** 2))
        food = quick / (quick + 0.15)
        yeast = yeast + STEP_DAYS * (
            grows * awake * yeast * food * (1.0 - yeast) - sinks * yeast * (1.0 - food) * 0.5
        )
        quick = np.maximum(quick - STEP_DAYS * eats * awake * yeast * food, 0.0)
        taken = eats_slowly * awake * np.maximum(yeast, 0.1) * slow / (slow + 0.12)
        slow = np.maximum(slow - STEP_DAYS * taken * 0.15 / (0.15 + quick), 0.0)
    return np.array(rows)
