"""What readings tell of a fermentation: the courses that it may be on after them.

Courses are drawn from what is known before any reading and weighed by how likely each makes the
readings. Few of them would be left after some sharp readings; so that is done in steps, each with
as much of the readings' weight as leaves a quarter of the courses, and the next courses are drawn
about those. What an instrument is off by is one score for all that it has read.

Sources: adaptive importance sampling, Cappé, Guillin, Marin and Robert, J. Comput. Graph. Stat. 13
(2004) 907 to 929; growing weights, Neal, Statistics and Computing 11 (2001) 125 to 139 (both from
memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import sqrt
from typing import TYPE_CHECKING

from designer.brewday.fermenting.course import BeerReading
from designer.brewday.fermenting.course_doubts import OFF_CURVE_EACH, OFF_CURVE_SG
from designer.brewday.fermenting.courses import SCORES, Courses, Expected, courses_of
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS, standard_normal_column

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

SAMPLES = 1024
_LEFT = 0.25
_STEPS = 12
_WIDER = 1.15
_LEAST_SPREAD = 1e-4
EYE_SG = 0.001
"""Half width of what the eye adds to a hydrometer, another each time; see `reading_errors`."""


def before_readings(expected: Expected) -> Courses:
    """Return the courses that a fermentation may take as far as is known before any reading."""
    return courses_of(expected, _columns(0))


def after_readings(expected: Expected, readings: Sequence[BeerReading]) -> Courses:
    """Return the courses that it may be on after these readings."""
    if not readings:
        return before_readings(expected)
    import numpy as np

    scores = _columns(0)
    drawn_by = -0.5 * (scores * scores).sum(axis=0)
    step, last = 0, False
    while True:
        likely = _likelihood(courses_of(expected, scores), readings)
        before = -0.5 * (scores * scores).sum(axis=0)
        part = 1.0 if last or step == _STEPS else _part(before - drawn_by, likely)
        weights = _weights(before + part * likely - drawn_by)
        if last or step == _STEPS:
            return courses_of(expected, scores[:, _taken(weights)])
        last = part == 1.0
        middle = scores @ weights
        about = scores - middle[:, None]
        spread = _WIDER**2 * (about * weights) @ about.T + _LEAST_SPREAD * np.eye(len(SCORES))
        root = np.linalg.cholesky(spread)
        step += 1
        columns = _columns(step)
        scores = middle[:, None] + root @ columns
        drawn_by = -0.5 * (columns * columns).sum(axis=0)


@lru_cache(maxsize=16)
def _columns(step: int) -> Array:
    import numpy as np

    return np.array([standard_normal_column(f"beer {step} {each}", SAMPLES) for each in SCORES])


def _likelihood(courses: Courses, readings: Sequence[BeerReading]) -> Array:
    """Return the logarithm of how likely each course makes the readings."""
    import numpy as np

    days = [each.day for each in readings]
    left = 1.0 - courses.fermented_at(days)
    fall = (courses.original - courses.end)[:, None]
    expected = courses.gravity_at(days)
    about = 4.0 * OFF_CURVE_EACH * fall * left * (1.0 - left)
    total = np.zeros(len(courses.end))
    for at, each in enumerate(readings):
        shared, own = _error(each)
        offset = courses.refractometer if each.by_refractometer else courses.hydrometer
        off = each.gravity - expected[:, at] - shared * offset
        variance = own**2 + OFF_CURVE_SG**2 + about[:, at] ** 2
        total -= 0.5 * (off * off / variance + np.log(variance))
    return total


def _error(reading: BeerReading) -> tuple[float, float]:
    """Return standard deviations: of what is wrong with the instrument, and what the eye adds."""
    whole = max(reading.half_width, 1e-4)
    own = whole / sqrt(2.0)
    if not reading.by_refractometer:
        own = max(min(EYE_SG, own), whole / 2.0)
    return sqrt(whole**2 - own**2) / HALF_WIDTH_SIGMAS, own / HALF_WIDTH_SIGMAS


def _part(ahead: Array, likely: Array) -> float:
    """Return how much of the readings' weight leaves enough of the courses; 1 for all."""

    def left(part: float) -> float:
        weights = _weights(ahead + part * likely)
        return float(1.0 / (weights @ weights)) / len(weights)

    if left(1.0) >= _LEFT:
        return 1.0
    low, high = 0.0, 1.0
    for _ in range(12):
        part = (low + high) / 2.0
        low, high = (part, high) if left(part) >= _LEFT else (low, part)
    return low


def _weights(logarithms: Array) -> Array:
    import numpy as np

    found = np.exp(logarithms - logarithms.max())
    weights: Array = found / found.sum()
    return weights


def _taken(weights: Array) -> NDArray[np.intp]:
    """Return the places of the courses that are left, each as often as it weighs."""
    import numpy as np

    ends = np.cumsum(weights)
    marks = (np.arange(len(weights)) + 0.5) / len(weights)
    return np.minimum(np.searchsorted(ends, marks), len(weights) - 1)
