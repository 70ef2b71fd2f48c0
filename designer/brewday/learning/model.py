"""How figures of one kitchen hang together, and what observations of them tell of the next brew.

A figure of a subject (one pot) is what is usual, and what all subjects of this kitchen have in
common, and what is its own, which wanders from brew to brew; a brew scatters about that,
and what is read of it has an error of its own and one that all readings of the subject share. All
of these are normal, so their covariances say everything: the prediction of the next brew is the
regression of that on the observations.

Sources: the normal model of several groups, Gelman, Carlin, Stern, Dunson, Vehtari and Rubin,
Bayesian Data Analysis, 3rd ed., ch. 2.5 and 5.4; a mean that wanders about the usual, Uhlenbeck and
Ornstein, Physical Review 36 (1930) 823 to 841; the form by covariances, Rasmussen and Williams,
Gaussian Processes for Machine Learning, ch. 2 and 5.4.2 for leaving one out (all from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


_TINY = 1e-12


class Widths(NamedTuple):
    """Standard deviations between brews, and of the step from one brew to the next.

    A kitchen that `leaves` wanders as far as its steps take it, another about what is usual.
    """

    scatter: float
    drift: float
    leaves: bool = False


@dataclass(frozen=True, slots=True)
class Observations:
    """What was seen, away from what each subject starts from; an observation a place.

    `shared` has a row for each observation and a column for each thing that puts several off.
    `subject` are places in `priors`, the standard deviation of each subject's start; `turn` counts
    the brews of the subject from 0. `alike` is the correlation between subjects.
    """

    value: Array
    spread: Array
    shared: Array
    subject: NDArray[np.intp]
    turn: Array
    priors: Array
    alike: float

    def covariance(self, widths: Widths) -> Array:
        """Return the covariance of all that was seen, errors included."""
        import numpy as np

        own = self.spread**2 + widths.scatter**2
        found: Array = self._figures(self.subject, self.turn, widths)
        found += self.shared @ self.shared.T + np.diag(own)
        return found

    def with_next(self, subject: int, turn: float, widths: Widths) -> tuple[Array, float]:
        """Return the covariances of a brew of a subject with what was seen, and its variance."""
        import numpy as np

        at, when = np.full(1, subject, dtype=np.intp), np.full(1, turn)
        along = self._figures(at, when, widths)[0]
        gone = turn * widths.drift**2 if widths.leaves else 0.0
        own = float(self.priors[subject] ** 2 + gone + widths.scatter**2)
        return along, own

    def _figures(self, subject: NDArray[np.intp], turn: Array, widths: Widths) -> Array:
        """Return the covariances of figures of some subjects at some turn with those seen.

        What is a subject's own wanders from brew to brew, so what was seen long ago tells less.
        """
        import numpy as np

        same = subject[:, None] == self.subject[None, :]
        starts = np.outer(self.priors[subject], self.priors[self.subject])
        own = (1.0 - self.alike) * starts
        if widths.leaves:
            own = own + widths.drift**2 * np.minimum(turn[:, None], self.turn[None, :])
        else:
            ago = np.abs(turn[:, None] - self.turn[None, :])
            own = own * np.exp(-0.5 * widths.drift**2 * ago / np.maximum(own, _TINY))
        found: Array = self.alike * starts + same * own
        return found


class Fit(NamedTuple):
    """Observations that count under some widths: how likely they are, and what each is worth.

    `log_without` is the logarithm of how likely each is after all the others.
    """

    log_likelihood: float
    log_after_others: Array
    inverse: Array
    weighted: Array


def fit(seen: Observations, counting: NDArray[np.bool_], widths: Widths) -> Fit:
    """Return how well the observations that count go together."""
    import numpy as np

    value = seen.value[counting]
    covariance = seen.covariance(widths)[np.ix_(counting, counting)]
    inverse = np.asarray(np.linalg.inv(covariance) if value.size else covariance, dtype=float)
    weighted: Array = inverse @ value
    _, size = np.linalg.slogdet(covariance) if value.size else (1.0, 0.0)
    likelihood = -0.5 * (value @ weighted + size + value.size * np.log(2.0 * np.pi))
    precision = np.diag(inverse)
    off = weighted / np.where(precision > 0.0, precision, 1.0)
    after: Array = 0.5 * (np.log(precision / (2.0 * np.pi)) - off**2 * precision)
    return Fit(float(likelihood), after, inverse, weighted)


def prediction(
    seen: Observations, counting: NDArray[np.bool_], fitted: Fit, at: tuple[int, float], w: Widths
) -> tuple[float, float]:
    """Return mean and variance of the figure in a brew of a subject at a turn, no error in it."""
    along, own = seen.with_next(at[0], at[1], w)
    along = along[counting]
    left = own - float(along @ fitted.inverse @ along)
    return float(along @ fitted.weighted), max(left, 0.0)


def log_normal_density(value: Array, deviation: Array) -> Array:
    """Return the logarithm of the density of a normal about 0."""
    import numpy as np

    found: Array = -0.5 * (value / deviation) ** 2 - np.log(deviation * np.sqrt(2.0 * np.pi))
    return found
