"""The inputs of a day by their standard normal scores, moved by what was read.

Every doubtful input is a function of one standard normal column (`sample_columns`). What a reading
tells of the inputs is told of these scores; a day is then run with the moved ones, as plain or as
samples.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import exp, log
from statistics import NormalDist
from typing import TYPE_CHECKING

from designer.brewday.doubts import Doubt, drawn_at, evenly_drawn
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS
from designer.brewday.tolerances import FURTHEST_SIGMAS, LatinHypercube, Tolerance, input_of
from designer.wort.numeric import Numeric, largest

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_NORMAL = NormalDist()
_OUTERMOST = 3.0
"""A published figure at the very end of its draws is taken to lie there."""


@dataclass
class MovedPlain:
    """For the plain run: every number as typed, moved by what was read of it."""

    moved: Mapping[str, float] = field(default_factory=dict)

    def absolute(self, key: str, value: float, half_width: float) -> Numeric:
        """Return the value moved by so many standard deviations."""
        by = self.moved.get(key, 0.0)
        if by == 0.0 or half_width == 0.0:
            return value
        found = value + half_width / HALF_WIDTH_SIGMAS * by
        return max(found, 0.0) if value >= 0.0 else found

    def relative(self, key: str, value: float, half_width: float) -> Numeric:
        """Return the same of a share."""
        return value * exp(half_width / HALF_WIDTH_SIGMAS * self.moved.get(key, 0.0))

    def doubt(self, doubt: Doubt, name: str = "") -> Numeric:
        """Return the published figure moved by as much as its draws are."""
        by = self.moved.get(_key(doubt, name), 0.0)
        if by == 0.0 or doubt.low == doubt.high:
            return doubt.published
        score = score_of(doubt)
        before, after = (_figure(doubt, at) for at in (score, score + by))
        return min(max(doubt.published + after - before, doubt.least), doubt.most)


@dataclass
class MovedSamples(LatinHypercube):
    """For the run of many samples: the scores of some inputs are others, and lie closer together.

    `narrower` tells how wide an input still is for one that nothing was read of.
    """

    moved: Mapping[str, Array] = field(default_factory=dict)
    narrower: Mapping[str, float] = field(default_factory=dict)

    def absolute(self, key: str, value: float, half_width: float) -> Numeric:
        """Return an array of values about `value`."""
        scores = self.moved.get(key)
        if scores is None or half_width == 0.0:
            return super().absolute(key, value, half_width)
        self._note(key, value, half_width, relative=False)
        drawn = value + half_width / HALF_WIDTH_SIGMAS * scores
        return largest(drawn, 0.0) if value >= 0.0 else drawn

    def relative(self, key: str, value: float, half_width: float) -> Numeric:
        """Return an array of values about `value`."""
        import numpy as np

        scores = self.moved.get(key)
        if scores is None or half_width == 0.0 or value == 0.0:
            return super().relative(key, value, half_width)
        self._note(key, value, half_width, relative=True)
        found: Array = value * np.exp(half_width / HALF_WIDTH_SIGMAS * scores)
        return found

    def doubt(self, doubt: Doubt, name: str = "") -> Numeric:
        """Return an array of what the figure may be."""
        scores = self.moved.get(_key(doubt, name))
        if scores is None or doubt.low == doubt.high:
            return super().doubt(doubt, name)
        half_width = (doubt.high - doubt.low) / 2.0
        self._note(_key(doubt, name), doubt.middle, half_width, relative=False)
        return _evenly_at(doubt, scores) if doubt.evenly else drawn_at(doubt, scores)

    def _note(self, key: str, value: float, half_width: float, *, relative: bool) -> None:
        still = half_width * self.narrower.get(key, 1.0)
        self.tolerances[key] = Tolerance(value, still, relative)


def _key(doubt: Doubt, name: str) -> str:
    return input_of(doubt.words, name) if name else doubt.words


def _evenly_at(doubt: Doubt, scores: Array) -> Array:
    import numpy as np

    return evenly_drawn(doubt, np.array([_NORMAL.cdf(each) for each in scores.tolist()]))


def _figure(doubt: Doubt, score: float) -> float:
    import numpy as np

    at = np.array([score])
    return float((_evenly_at(doubt, at) if doubt.evenly else drawn_at(doubt, at))[0])


def score_of(doubt: Doubt) -> float:
    """Return where the published figure lies among the draws of a doubt."""
    published, low, middle, high = doubt.published, doubt.low, doubt.middle, doubt.high
    if doubt.evenly:
        share = min(max((published - low) / (high - low), 1e-6), 1.0 - 1e-6)
        return _held(_NORMAL.inv_cdf(share))
    if low > 0.0 >= published:
        return -_OUTERMOST
    if low > 0.0:
        published, low, middle, high = (log(each) for each in (published, low, middle, high))
    width = high - middle if published > middle else middle - low
    if width <= 0.0:
        return 0.0
    return _held(HALF_WIDTH_SIGMAS * (published - middle) / width)


def _held(score: float) -> float:
    return min(max(score, -_OUTERMOST), _OUTERMOST)


def within_reach(score: float) -> float:
    """Return a score that is held to where any sample may lie."""
    return min(max(score, -FURTHEST_SIGMAS), FURTHEST_SIGMAS)
