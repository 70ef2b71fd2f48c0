"""Ranges of the forecasts, and which input causes how much of each, from one and the same sample.

A forecast's range is the 5th to 95th percentile of its samples. Its causes are first-order shares
of variance: the forecast is regressed on the standard scores of all inputs at once, and an input's
share is what its own term explains. The terms left over (curvature, inputs acting together) belong
to no single input; where the curve of one is clear, it steadies the percentiles. What a better
measurement would leave is read off the same samples with that input's term shrunk, so no further
day has to be brewed.

The regression's matrix depends on the inputs' keys alone and is kept from one keystroke to the
next.

Source: standardised regression coefficients, Saltelli et al., Global Sensitivity Analysis (2008),
section 1.2 (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from designer.brewday.measuring_better import better_half_width
from designer.brewday.percentiles import low_and_high, middle_half
from designer.brewday.results import Cause, Range
from designer.brewday.sample_columns import standard_normal_column
from designer.brewday.tolerances import Tolerance
from designer.wort.numeric import Numeric

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Matrix = NDArray[np.float64]

LEAST_GONE = 0.08
"""Share of the variance that goes, where a range becomes a little less than 5 % narrower."""
LEAST_SHARE = 0.01
MOST_CAUSES = 6
WORTH_MEASURING = 0.95
"""Share of its width that a range is left with at most, where a better measurement is advised."""
CLEAR_BEND = 3.0
"""So many times what chance would make of it: then a bend is counted."""
_CERTAIN = 1e-18
"""Variance, relative to the square of the value, below which a forecast has no tolerance at all."""


class _Fit(NamedTuple):
    """Forecasts as straight lines in the inputs: coefficients (a row a forecast) and the lines.

    `bends` tells how much of z² - 1 of each input is in what the lines leave; 0 where chance would.
    """

    columns: Matrix
    bent: Matrix
    coefficients: Matrix
    linear: Matrix
    bends: Matrix

    @property
    def known(self) -> Matrix:
        """The lines with their bends, about 0."""
        return self.linear + self.bends @ self.bent


class _Effect(NamedTuple):
    """An input that matters to a forecast (`row`), and the part of its term that may be left."""

    row: int
    place: int
    share: float
    advice: str
    left: float

    @property
    def may_narrow(self) -> bool:
        """Whether so much of the variance may go that the range is worth working out anew."""
        return self.share * (1.0 - self.left * self.left) >= LEAST_GONE


def ranges_and_causes(
    values: dict[str, float],
    sampled: dict[str, Numeric],
    tolerances: dict[str, Tolerance],
    samples: int,
) -> dict[str, Range]:
    """Return the range and its causes for each forecast.

    `values` holds the plain day's figures and `sampled` the same ones as arrays of `samples`.
    """
    import numpy as np

    outputs = np.empty((len(values), samples))
    for row, key in enumerate(values):
        outputs[row] = sampled[key]
    fit = _fit(outputs, tuple(tolerances))
    shares = _shares(outputs, fit, np.array(list(values.values())))
    effects = tuple(_what_matters(shares, tolerances))
    limits = _limits(outputs, fit, [effect for effect in effects if effect.may_narrow])
    left = iter(limits[len(values) :])
    causes: list[list[Cause]] = [[] for _ in values]
    keys = tuple(tolerances)
    for effect in effects:
        whole = limits[effect.row]
        low, high = next(left) if effect.may_narrow else whole
        helps = high - low <= WORTH_MEASURING * (whole[1] - whole[0])
        found = (effect.advice, low, high) if helps else ("", *whole)
        causes[effect.row].append(Cause(keys[effect.place], effect.share, *found))
    return {
        key: Range(value, min(low, value), max(high, value), tuple(caused), *quartiles)
        for (key, value), (low, high), caused, quartiles in zip(
            values.items(),
            limits[: len(values)],
            causes,
            middle_half(outputs).tolist(),
            strict=True,
        )
    }


def _fit(outputs: Matrix, keys: tuple[str, ...]) -> _Fit:
    """Return the regression of each row of `outputs` on the inputs."""
    columns, bent, solver = regression(keys, outputs.shape[1])
    centred = outputs - outputs.mean(axis=1, keepdims=True)
    coefficients = centred @ solver
    linear = coefficients @ columns
    return _Fit(columns, bent, coefficients, linear, _bends(centred - linear, bent))


def _bends(left: Matrix, bent: Matrix) -> Matrix:
    """Return what z² - 1 of each input does to each row that the lines have left."""
    import numpy as np

    squares = (bent * bent).sum(axis=1)
    found = left @ bent.T / squares
    by_chance = left.std(axis=1)[:, np.newaxis] / np.sqrt(squares)
    clear: Matrix = np.where(np.abs(found) > CLEAR_BEND * by_chance, found, 0.0)
    return clear


@lru_cache(maxsize=16)
def regression(keys: tuple[str, ...], samples: int) -> tuple[Matrix, Matrix, Matrix]:
    """Return the inputs' columns z, one a row, and z² - 1; what turns outputs into coefficients."""
    import numpy as np

    columns = np.array([standard_normal_column(key, samples) for key in keys])
    columns = columns.reshape(len(keys), samples)
    solver: Matrix = columns.T @ np.linalg.pinv(columns @ columns.T, hermitian=True)
    return columns, columns * columns - 1.0, solver


def _shares(outputs: Matrix, fit: _Fit, values: Matrix) -> Matrix:
    """Return what each input causes of the variance of each forecast; 0 where there is none.

    The variance is put together of the terms and what they leave, as independent inputs make it:
    a sample's own variance holds chance likenesses between its columns.
    """
    import numpy as np

    of_inputs = fit.coefficients * fit.coefficients
    variances = of_inputs.sum(axis=1) + (outputs - fit.linear).var(axis=1)
    varies = variances > _CERTAIN * np.maximum(1.0, values * values)
    shares: Matrix = of_inputs / np.where(varies, variances, np.inf)[:, np.newaxis]
    return shares


def _what_matters(shares: Matrix, tolerances: dict[str, Tolerance]) -> Iterator[_Effect]:
    """Yield the inputs that matter to each forecast, the largest share first."""
    keys = tuple(tolerances)
    largest_first = (-shares).argsort(axis=1, kind="stable")[:, :MOST_CAUSES].tolist()
    for row, places in enumerate(largest_first):
        for place in places:
            share = float(shares[row, place])
            if share < LEAST_SHARE:
                break
            advice, left = better_half_width(keys[place], tolerances[keys[place]])
            yield _Effect(row, place, share, advice, left)


def _limits(outputs: Matrix, fit: _Fit, effects: Sequence[_Effect]) -> list[tuple[float, float]]:
    """Return low and high of each forecast, then of each with the term of one effect shrunk."""
    import numpy as np

    rows = np.array([effect.row for effect in effects], dtype=int)
    places = np.array([effect.place for effect in effects], dtype=int)
    left = np.array([effect.left for effect in effects])
    line, bend = fit.coefficients[rows, places], fit.bends[rows, places]
    columns, squared = fit.columns[places], left * left
    gone = ((1.0 - left) * line)[:, np.newaxis] * columns
    bent = ((1.0 - squared) * bend)[:, np.newaxis]
    gone += bent * fit.bent[places]
    whole = _cumulants(fit.coefficients, fit.bends)
    changed = _cumulants(left * line, squared * bend) - _cumulants(line, bend)
    sums = whole.sum(axis=2)
    known = fit.known
    found: list[tuple[float, float]] = low_and_high(
        # A curve moves the mean off what the middle of its input makes; that goes with it.
        np.concatenate((outputs, outputs[rows] - gone - bent)),
        np.concatenate((known, known[rows] - gone)),
        *np.concatenate((sums, sums[:, rows] + changed), axis=1),
    ).tolist()
    return found


def _cumulants(line: Matrix, bend: Matrix) -> Matrix:
    """Return the second to fourth cumulant of line x z + bend x (z² - 1), as a new first axis."""
    import numpy as np

    lines, bends = line * line, bend * bend
    return np.array(
        (
            lines + 2.0 * bends,
            (6.0 * lines + 8.0 * bends) * bend,
            48.0 * bends * (lines + bends),
        )
    )
