"""The 5th and 95th percentile of a few hundred samples, steadied so that a few hundred are enough.

A sample's own percentile rests on the one or two values that happen to lie there. Two things steady
it. Its place is shared among its neighbours with the weights of the Bernstein polynomial. And the
part of the forecast that is linear in the inputs, whose percentiles are known exactly, tells how
far this very sample is off; the forecast is moved by as much. What is left to chance is the small
part that is not linear. The result never leaves the samples.

Sources: Cheng, The Bernstein polynomial estimator of a smooth quantile function, Statistics &
Probability Letters 24 (1995) 321 to 330; Hsu and Nelson, Control variates for quantile estimation,
Management Science 36 (1990) 835 to 851 (both from memory).
"""

from __future__ import annotations

from functools import lru_cache
from math import exp, lgamma, log
from typing import TYPE_CHECKING

from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Matrix = NDArray[np.float64]

LOW_AND_HIGH = (0.05, 0.95)
MIDDLE_HALF = (0.25, 0.5, 0.75)
"""The middle of the draws, and the ends of the half of them about it."""


@lru_cache(maxsize=8)
def weights(samples: int, shares: tuple[float, ...] = LOW_AND_HIGH) -> Matrix:
    """Return what each of the sorted samples counts for in the percentile of each of the shares.

    Shape samples x shares; each column adds up to 1.
    """
    import numpy as np

    last = samples - 1

    def binomial(share: float, i: int) -> float:
        ways = lgamma(samples) - lgamma(i + 1) - lgamma(samples - i)
        return exp(ways + i * log(share) + (last - i) * log(1.0 - share))

    return np.array([[binomial(share, i) for share in shares] for i in range(samples)])


def low_and_high(outputs: Matrix, linear: Matrix, variances: Matrix) -> Matrix:
    """Return the 5th and 95th percentile of each row of `outputs` (shape rows x 2).

    `linear` holds, for the same samples, the part of each row that is linear in standard normal
    inputs, about 0, and `variances` the exact variance of that part.
    """
    import numpy as np

    ordered = np.sort(outputs, axis=-1)
    shares = weights(outputs.shape[-1])
    half = HALF_WIDTH_SIGMAS * np.sqrt(np.maximum(variances, 0.0))
    exact = half[:, np.newaxis] * np.array([-1.0, 1.0])
    found: Matrix = ordered @ shares + exact - np.sort(linear, axis=-1) @ shares
    return np.clip(found, ordered[:, :1], ordered[:, -1:])


def middle_half(outputs: Matrix) -> Matrix:
    """Return the 25th, 50th and 75th percentile of each row of `outputs` (shape rows x 3).

    There are samples enough about the middle to need no steadying by what is linear.
    """
    import numpy as np

    found: Matrix = np.sort(outputs, axis=-1) @ weights(outputs.shape[-1], MIDDLE_HALF)
    return found
