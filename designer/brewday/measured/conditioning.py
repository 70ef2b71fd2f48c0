"""What readings tell of the inputs: their scores, moved and drawn closer together.

Readings are linear in the scores of the inputs, but for a little. So the regression of what is to
be read on the inputs' columns tells what a reading is worth for each of them, and the exact result
for normal errors moves their mean and draws their spread together. That is done in two steps, each
with half the weight of the reading, so that the slopes of the second are those where the day was
found to be. What a slope does not explain counts as error of the reading.

Unlike an ensemble's own covariances, the regression gives an input no part in a reading that it has
nothing to do with: slopes that chance would make are none. The plain day is carried along as one
more sample, so that its published figures stand where nothing was read.

Sources: multiple data assimilation, Emerick and Reynolds, Computers & Geosciences 55 (2013) 3 to
15; statistical linear regression, Garcia-Fernandez et al., IEEE Trans. Signal Processing 63 (2015)
5561 to 5573; square root filters, Tippett et al., Monthly Weather Review 131 (2003) 1485 to 1490
(all from memory).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from designer.brewday.measured.scores import within_reach
from designer.brewday.sensitivity import regression

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

STEPS = (2.0, 2.0)
"""How many times its variance a reading's error is taken for in each; their inverses sum to 1."""
CLEAR_SLOPE = 3.0
"""So many times what chance would make of it: then a slope is counted."""
_ROUNDING = 1e-9


class Scores(NamedTuple):
    """Scores of the inputs `keys`: mean + root x column, and those of the plain day."""

    keys: tuple[str, ...]
    mean: Array
    root: Array
    plain: Array

    def columns(self, samples: int) -> Array:
        """Return the scores of each input in each sample, an input a row."""
        found: Array = regression(self.keys, samples)[0].copy()
        rows = self.changed
        if rows.any():
            found[rows] = (
                self.mean[rows, None] + self.root[rows] @ regression(self.keys, samples)[0]
            )
        return found

    @property
    def spreads(self) -> Array:
        """Standard deviation of each input's score, 1 where nothing is told of it."""
        import numpy as np

        found: Array = np.sqrt((self.root * self.root).sum(axis=1))
        return found

    @property
    def changed(self) -> Array:
        """Whether anything was told of each input."""
        import numpy as np

        found: Array = (self.root != np.eye(len(self.keys))).any(axis=1) | (self.mean != 0.0)
        return found


def untold(keys: tuple[str, ...]) -> Scores:
    """Return the scores of inputs of which nothing was read."""
    import numpy as np

    nothing = np.zeros(len(keys))
    return Scores(keys, nothing, np.eye(len(keys)), nothing)


def told(
    scores: Scores, read: Array, shown: Array, shown_plain: Array, variances: Array, *, last: bool
) -> Scores:
    """Return the scores after readings `read`, of errors with these variances.

    `shown` is what the samples of these scores would have shown, a reading a row, and `shown_plain`
    what the plain day would.
    """
    import numpy as np

    slopes, left = _slopes(scores.keys, shown)
    errors = np.diag(variances)
    if last:
        free = max(shown.shape[1] - len(scores.keys) - 1, 1)
        errors = errors + left @ left.T / free
    root = np.linalg.cholesky(slopes @ slopes.T + errors)
    worth = np.linalg.solve(root, slopes)
    gain = scores.root @ np.linalg.solve(root.T, worth).T
    within = np.vectorize(within_reach, otypes=[float])
    return Scores(
        scores.keys,
        within(scores.mean + gain @ (read - shown.mean(axis=1))),
        scores.root @ _root_left(worth),
        within(scores.plain + gain @ (read - shown_plain)),
    )


def _slopes(keys: tuple[str, ...], shown: Array) -> tuple[Array, Array]:
    """Return what an input's column does to each reading, and what the slopes leave of those."""
    import numpy as np

    columns, _, solver = regression(keys, shown.shape[1])
    centred = shown - shown.mean(axis=1, keepdims=True)
    slopes = centred @ solver
    by_chance = (centred - slopes @ columns).std(axis=1) / np.sqrt(shown.shape[1])
    none = np.maximum(CLEAR_SLOPE * by_chance, _ROUNDING * centred.std(axis=1))
    slopes = np.where(np.abs(slopes) > none[:, None], slopes, 0.0)
    return slopes, centred - slopes @ columns


def _root_left(worth: Array) -> Array:
    """Return the symmetric root of 1 - worth' worth: what is left of the spread."""
    import numpy as np

    _, sizes, directions = np.linalg.svd(worth, full_matrices=False)
    left = np.sqrt(np.maximum(1.0 - sizes * sizes, 0.0))
    found: Array = np.eye(worth.shape[1]) - (directions.T * (1.0 - left)) @ directions
    return found
