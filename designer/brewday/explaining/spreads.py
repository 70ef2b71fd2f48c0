"""Spreads of sizes, each told by its inverse: an even draw from 0 to 1 becomes a size.

A spread of several parts is drawn from in equal numbers of each part, every draw with a weight, so
that a rare part, or the far tail of one, is met as often as a common one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple, Protocol

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


class Spread(Protocol):
    """How a size is spread."""

    def at(self, even: Array) -> Array:
        """Return the sizes below which these shares of all lie."""


@dataclass(frozen=True, slots=True)
class Even:
    """Anything from `low` to `high` alike."""

    low: float
    high: float

    def at(self, even: Array) -> Array:
        """Return the sizes below which these shares of all lie."""
        return self.low + (self.high - self.low) * even


@dataclass(frozen=True, slots=True)
class Tail:
    """From `start` on, fewer and fewer: further by `mean` on average; below nothing, downwards."""

    start: float
    mean: float

    def at(self, even: Array) -> Array:
        """Return the sizes below which these shares of all lie."""
        import numpy as np

        return self.start - self.mean * np.log1p(-even)


@dataclass(frozen=True, slots=True)
class Normal:
    """About `middle`, with a standard deviation."""

    middle: float
    deviation: float

    def at(self, even: Array) -> Array:
        """Return the sizes below which these shares of all lie."""
        return self.middle + self.deviation * normal_scores(even)


class Part(NamedTuple):
    """A part of all that is spread so."""

    share: float
    spread: Spread


def sizes(parts: Sequence[Part], even: Array, bent: float = 1.0) -> tuple[Array, Array]:
    """Return a size for each even draw and its weight; the weights have a mean of the shares' sum.

    Each part gets as many draws. `bent` above 1 takes more of them from its far end.
    """
    import numpy as np

    part = np.minimum((even * len(parts)).astype(int), len(parts) - 1)
    within = even * len(parts) - part
    left = (1.0 - within) ** bent  # what is beyond the size
    slope = bent * (1.0 - within) ** (bent - 1.0)
    found, weight = np.empty_like(even), np.empty_like(even)
    for place, each in enumerate(parts):
        own = part == place
        found[own] = each.spread.at(1.0 - left[own])
        weight[own] = each.share * len(parts) * slope[own]
    return found, weight


def normal_scores(even: Array) -> Array:
    """Return the scores of a standard normal below which these shares of all lie.

    Source: Acklam's rational approximation, good to 1e-9 of the score (from memory).
    """
    import numpy as np

    centred = even - 0.5
    near = np.abs(centred) <= 0.47575
    squared = centred**2
    middle = np.polyval(_NEAR, squared) * centred / np.polyval((*_NEAR_UNDER, 1.0), squared)
    far = np.sqrt(-2.0 * np.log(np.clip(np.minimum(even, 1.0 - even), 1e-300, None)))
    tail = np.polyval(_FAR, far) / np.polyval((*_FAR_UNDER, 1.0), far)
    found: Array = np.where(near, middle, np.where(centred < 0.0, tail, -tail))
    return found


_NEAR = (
    -3.969683028665376e01,
    2.209460984245205e02,
    -2.759285104469687e02,
    1.383577518672690e02,
    -3.066479806614716e01,
    2.506628277459239e00,
)
_NEAR_UNDER = (
    -5.447609879822406e01,
    1.615858368580409e02,
    -1.556989798598866e02,
    6.680131188771972e01,
    -1.328068155288572e01,
)
_FAR = (
    -7.784894002430293e-03,
    -3.223964580411365e-01,
    -2.400758277161838e00,
    -2.549732539343734e00,
    4.374664141464968e00,
    2.938163982698783e00,
)
_FAR_UNDER = (
    7.784695709041462e-03,
    3.224671290700398e-01,
    2.445134137142996e00,
    3.754408661907416e00,
)
