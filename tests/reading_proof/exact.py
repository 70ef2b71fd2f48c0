"""The exact posterior of a reading: 200,000 brews, each counted as often as it would show it."""

from __future__ import annotations

from math import pi, sqrt

import numpy as np

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.weighed import ALIKE_POINTS
from tests.reading_proof.hidden import SETS, Situation, brew, prior_of_sets

DRAWS = 200_000


class Exact:
    """All that a reading in one situation may come of."""

    def __init__(self, situation: Situation, dice, draws: int = DRAWS):
        self._situation = situation
        prior = prior_of_sets(situation)
        # Half are drawn as they happen, half of all sets alike, so that rare ones are met as well.
        by_half = 0.5 * prior + 0.5 / len(SETS)
        which = dice.choice(len(SETS), size=draws, p=by_half)
        self._brews = brew(situation, which, (prior / by_half)[which], dice)

    def posterior(self, gravities) -> np.ndarray:
        """Return how likely each of SETS is after gravities, as corrected to 20 °C, were read."""
        brews = self._brews
        read = 1000.0 * (np.asarray(gravities) - 1.0)
        counts = np.where(brews.other, 0.0, brews.counts)
        for place, points in enumerate(read):
            own = brews.own[place]
            scores = (points - brews.there[place]) / own
            counts = counts * np.exp(-0.5 * scores**2) / (own * sqrt(2.0 * pi))
        found = np.bincount(brews.which, weights=counts, minlength=len(SETS)) / counts.size
        found[1] = prior_of_sets(self._situation)[1] * self._of_anything(read)
        return found / found.sum()

    def _of_anything(self, read) -> float:
        off = read[0] - self._situation.beliefs.planned_points
        span = priors.OTHER_TO - priors.OTHER_FROM
        found = (1.0 if priors.OTHER_FROM <= off <= priors.OTHER_TO else 0.1) / span
        for later in read[1:]:
            score = (later - read[0]) / ALIKE_POINTS
            found *= np.exp(-0.5 * score**2) / (ALIKE_POINTS * sqrt(2.0 * pi)) + 1e-6
        return found
