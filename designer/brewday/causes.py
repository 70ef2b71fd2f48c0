"""Ranges of the forecasts, and which input causes how much of each, from one and the same sample.

A forecast's range is the 5th to 95th percentile of its samples. Its causes are first-order shares
of variance: the forecast is regressed on the standard scores of all inputs at once, and an input's
share is what its own term explains. The terms left over (curvature, inputs acting together) belong
to no single input. What a better measurement would leave is read off the same samples with that
input's term shrunk, so no further day has to be brewed.

The regression's matrix depends on the inputs' keys alone and is kept from one keystroke to the
next.

Source: standardised regression coefficients, Saltelli et al., Global Sensitivity Analysis (2008),
section 1.2 (from memory).
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from designer.brewday.doubts import Doubt, standard_normal_column
from designer.brewday.measuring_better import better_half_width
from designer.brewday.results import Cause, Range
from designer.wort.numeric import Numeric

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Matrix = NDArray[np.float64]

LOW_PERCENT, HIGH_PERCENT = 5.0, 95.0
LEAST_SHARE = 0.01
MOST_CAUSES = 6


def ranges_and_causes(
    values: dict[str, float],
    sampled: dict[str, Numeric],
    doubts: dict[str, Doubt],
    samples: int,
) -> dict[str, Range]:
    """Return the range and its causes for each forecast.

    `values` holds the plain day's figures and `sampled` the same ones as arrays of `samples`.
    """
    import numpy as np

    outputs = np.empty((len(values), samples))
    for row, key in enumerate(values):
        outputs[row] = sampled[key]
    effects, columns = _effects(outputs, tuple(doubts), samples)
    lows, highs = _percentiles(outputs)
    return {
        key: Range(
            value,
            min(float(lows[row]), value),
            max(float(highs[row]), value),
            _causes(value, outputs[row], effects[row], columns, doubts),
        )
        for row, (key, value) in enumerate(values.items())
    }


def _effects(outputs: Matrix, keys: tuple[str, ...], samples: int) -> tuple[Matrix, Matrix]:
    """Return the regression coefficients (outputs x inputs) and the inputs' columns."""
    columns, solver = _regression(keys, samples)
    centred = outputs - outputs.mean(axis=1, keepdims=True)
    return centred @ columns.T @ solver, columns


@lru_cache(maxsize=16)
def _regression(keys: tuple[str, ...], samples: int) -> tuple[Matrix, Matrix]:
    """Return the inputs' columns, one a row, and the inverse of their products."""
    import numpy as np

    columns = np.array([standard_normal_column(key, samples) for key in keys])
    columns = columns.reshape(len(keys), samples)
    solver: Matrix = np.linalg.pinv(columns @ columns.T, hermitian=True)
    return columns, solver


def _percentiles(outputs: Matrix) -> tuple[Matrix, Matrix]:
    import numpy as np

    low, high = np.percentile(outputs, (LOW_PERCENT, HIGH_PERCENT), axis=-1)
    return low, high


def _causes(
    value: float, output: Matrix, effects: Matrix, columns: Matrix, doubts: dict[str, Doubt]
) -> tuple[Cause, ...]:
    variance = float(output.var())
    if variance <= 1e-18 * max(1.0, value * value):
        return ()
    keys = tuple(doubts)
    shares = effects * effects / variance
    ranked = sorted(range(len(keys)), key=lambda i: -float(shares[i]))[:MOST_CAUSES]
    causes = []
    for i in ranked:
        if shares[i] < LEAST_SHARE:
            break
        advice, shrunk = better_half_width(keys[i], doubts[keys[i]])
        left = output - (1.0 - shrunk) * effects[i] * columns[i]
        low, high = _percentiles(left)
        causes.append(Cause(keys[i], min(float(shares[i]), 1.0), advice, float(low), float(high)))
    return tuple(causes)
