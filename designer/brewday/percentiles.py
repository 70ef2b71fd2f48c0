"""The 5th and 95th percentile of a few hundred samples, steadied so that a few hundred are enough.

A sample's own percentile rests on the one or two values that happen to lie there. Two things steady
it. Its place is shared among its neighbours with the weights of the Bernstein polynomial. And the
part of the forecast that is a line or a parabola in each input, whose percentiles are known, tells
how far this very sample is off; the forecast is moved by as much, where it goes along with that
part. What is left to chance is the small rest. The result never leaves the samples.

Where it does not go along, as on a stove that may or may not reach the boil, the days lie in two
heaps, each far narrower than the straight line through both: a step that is small for the line
would leave the heap. So the step is scaled by how much closer the forecast's own samples lie at the
percentile than those of the line, and by how well the line tells the forecast at all.

Sources: Cheng, The Bernstein polynomial estimator of a smooth quantile function, Statistics &
Probability Letters 24 (1995) 321 to 330; Hsu and Nelson, Control variates for quantile estimation,
Management Science 36 (1990) 835 to 851; percentiles from cumulants: Cornish and Fisher, Revue de
l'Institut International de Statistique 5 (1938) 307 to 320 (all from memory).
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
_LEAST_SIGMA = 1e-60
"""What spreads less is as good as sharp, and its fourth power is no number any more."""


@lru_cache(maxsize=8)
def weights(samples: int, shares: tuple[float, ...] = LOW_AND_HIGH) -> Matrix:
    """Return what each of the sorted samples counts for in the percentile of each of the shares.

    Shape samples x shares; each column adds up to 1.
    """
    import numpy as np

    return np.array(
        [[_binomial(i, samples - 1, share) for share in shares] for i in range(samples)]
    )


def _binomial(successes: int, trials: int, share: float) -> float:
    ways = lgamma(trials + 1) - lgamma(successes + 1) - lgamma(trials - successes + 1)
    return exp(ways + successes * log(share) + (trials - successes) * log(1.0 - share))


@lru_cache(maxsize=8)
def _weights_and_slopes(samples: int) -> Matrix:
    """Return the weights of low and high, and what they change by as the share grows: x 4."""
    import numpy as np

    within = weights(samples - 1) * (samples - 1)
    none = np.zeros((1, 2))
    slopes = np.concatenate((none, within)) - np.concatenate((within, none))
    return np.concatenate((weights(samples), slopes), axis=1)


def low_and_high(
    outputs: Matrix,
    known: Matrix,
    variances: Matrix,
    third: Matrix | float = 0.0,
    fourth: Matrix | float = 0.0,
) -> Matrix:
    """Return the 5th and 95th percentile of each row of `outputs` (shape rows x 2).

    `known` holds, for the same samples, the part of each row that is a sum of lines or parabolas in
    standard normal inputs, about 0; `variances`, `third` and `fourth` its exact cumulants.
    """
    import numpy as np

    ordered = np.sort(outputs, axis=-1)
    shares = _weights_and_slopes(outputs.shape[-1])
    own, of_known = ordered @ shares, np.sort(known, axis=-1) @ shares
    off = _exact_ends(variances, third, fourth) - of_known[:, :2]
    follows = _ratio(own[:, 2:], of_known[:, 2:])
    told = _ratio(known.std(axis=-1), outputs.std(axis=-1))
    found: Matrix = own[:, :2] + follows * told[:, np.newaxis] * off
    return np.clip(found, ordered[:, :1], ordered[:, -1:])


def _exact_ends(variances: Matrix, third: Matrix | float, fourth: Matrix | float) -> Matrix:
    """Return the 5th and 95th percentile of sums with these cumulants, about 0."""
    import numpy as np

    sigma = np.sqrt(np.maximum(variances, 0.0))
    one = np.where(sigma > _LEAST_SIGMA, sigma, np.inf)
    skew = (third / one**3)[:, np.newaxis]
    tails = (fourth / one**4)[:, np.newaxis]
    z = HALF_WIDTH_SIGMAS * np.array([-1.0, 1.0])
    bent = z + (z**2 - 1.0) * skew / 6.0 + (z**3 - 3.0 * z) * tails / 24.0
    found: Matrix = sigma[:, np.newaxis] * (bent - (2.0 * z**3 - 5.0 * z) * skew**2 / 36.0)
    return found


def _ratio(part: Matrix, whole: Matrix) -> Matrix:
    """Return how much of the whole the part is, 1 at the most; 0 of nothing."""
    import numpy as np

    found: Matrix = np.minimum(part, whole) / np.where(whole > 0.0, whole, np.inf)
    return found


def middle_half(outputs: Matrix) -> Matrix:
    """Return the 25th, 50th and 75th percentile of each row of `outputs` (shape rows x 3).

    There are samples enough about the middle to need no steadying by what is linear.
    """
    import numpy as np

    found: Matrix = np.sort(outputs, axis=-1) @ weights(outputs.shape[-1], MIDDLE_HALF)
    return found
