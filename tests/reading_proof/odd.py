"""What lies behind odd readings, counted in brews drawn from the declared priors."""

from __future__ import annotations

import numpy as np

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.asked import Drawn, Stirred
from designer.brewday.explaining.beliefs import beliefs_of, outlook_to_explain
from designer.library.recipe_file import load
from tests.reading_proof.hidden import CODES, SETS, Situation, hidden
from tests.reading_proof.proof import EXAMPLES

RECIPES = ("harbour_lamp_porter", "slipway_bitter", "foghorn_wheat", "breakwater_red")
PLACES = (Drawn.TOP, Drawn.TAP, Drawn.UNKNOWN, Drawn.UNKNOWN)


class OddReadings:
    """First readings of topped up brews, stirred a little, nothing checked yet."""

    def __init__(self, many: int, seed: int = 1):
        dice = np.random.default_rng(seed)
        self.counts = np.zeros((2, len(SETS)))  # low ones, high ones
        for name in RECIPES:
            beliefs = beliefs_of(outlook_to_explain(load(EXAMPLES / f"{name}.hobwort"), ()))
            for place in PLACES:
                situation = Situation(beliefs, ((place, Stirred.LITTLE, None),))
                brews, shown = hidden(situation, many, dice)
                off = 1000.0 * (shown[0] - 1.0) - np.median(beliefs.points)
                for row, odd in enumerate((-off, off)):
                    own = brews.which[odd >= priors.ODD_FROM_POINTS]
                    self.counts[row] += np.bincount(own, minlength=len(SETS))
        self.share = self.counts.sum() / (many * len(RECIPES) * len(PLACES))

    @property
    def with_a_cause(self):
        """Low and high ones by set, of those that something lies behind that has a name."""
        named = self.counts.copy()
        named[:, :2] = 0.0
        return named

    def of_100(self, code) -> tuple[float, float, float]:
        """Return how many of 100, of 100 low, of 100 high have a cause; a pair is half of each."""
        part = np.array([1.0 / max(len(causes), 1) if code in causes else 0.0 for causes in SETS])
        low, high = self.with_a_cause
        return tuple(100.0 * float(each @ part / each.sum()) for each in (low + high, low, high))

    @property
    def pairs(self) -> float:
        """Share of pairs among those with a cause."""
        both = self.with_a_cause.sum(axis=0)
        return float(sum(both[n] for n, causes in enumerate(SETS) if len(causes) == 2) / both.sum())


def lines(odd: OddReadings):
    """Yield the count beside what was judged."""
    yield f"{odd.share:.3f} of all readings are odd; {odd.pairs:.3f} of those are pairs"
    for code in CODES:
        found = ", ".join(f"{each:4.1f}" for each in odd.of_100(code))
        wanted = ", ".join(f"{each:2.0f}" for each in priors.OF_100_ODD[code])
        yield f"  {code:20} of 100, of low, of high: {found}   judged: {wanted}"
