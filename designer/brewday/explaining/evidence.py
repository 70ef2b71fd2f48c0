"""What is known beside gravity: levels that were read, and how tests came out."""

from __future__ import annotations

from math import log, pi, sqrt
from typing import TYPE_CHECKING

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.asked import Answer, Asked, Stirred, TestCode
from designer.brewday.explaining.at_work import AtWork
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.drawn import Brews
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.test_likelihoods import (
    DIFFERS_FROM_POINTS,
    WATER_EYE_POINTS,
    likelihood,
)
from designer.brewday.measured.reading_errors import MARK_SHARE, WEIGHED_L
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS

if TYPE_CHECKING:
    from collections.abc import Collection

    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

LEVEL_EYE = 0.01
"""Standard deviation of a level by eye, a share of the litres, beside what marks are off by."""
SCALE_SHARE = 0.001
"""The same of litres by weight beside the scale: the gravity by which they are divided."""
SLIP, SLIP_SPAN = 0.01, 1.4
"""How often a level is misread altogether, and over what span of its logarithm (judgement)."""
WATER_SPAN_POINTS = 40.0
"""The same span of what is read in water."""
_BY_FIGURE = (TestCode.WEIGH, TestCode.WATER_CHECK)


def of_volumes(asked: Asked, beliefs: Beliefs, brews: Brews, work: AtWork) -> Array | float:
    """Return how likely the volumes are that were read and weighed."""
    found: Array | float = 1.0
    if asked.mark_l is not None and asked.mark_l > 0.0:
        found = found * _of_mark(asked.mark_l * beliefs.marks_hold, beliefs, brews, work)
    if asked.pot_l is not None and asked.pot_l > 0.0 and not brews.is_topped_up:
        eye = sqrt((MARK_SHARE / HALF_WIDTH_SIGMAS) ** 2 + LEVEL_EYE**2)
        found = found * _level(asked.pot_l, _moved(brews.pot_l, brews, work), eye)
    for answer in asked.answers:
        if answer.test is TestCode.WEIGH and answer.value is not None and answer.value > 0.0:
            eye = sqrt((WEIGHED_L / HALF_WIDTH_SIGMAS / answer.value) ** 2 + SCALE_SHARE**2)
            found = found * _level(answer.value, _moved(brews.batch_l, brews, work), eye)
    return found


def _of_mark(mark_l: float, beliefs: Beliefs, brews: Brews, work: AtWork) -> Array | float:
    """Return how likely a level in the fermenter is.

    What is filled to a mark stands at it, whatever the mark is off by; it is another volume if the
    mark itself lies, or if it was not filled to it.
    """
    eye = beliefs.mark_anyway_l / HALF_WIDTH_SIGMAS / mark_l
    if not brews.is_topped_up:
        eye = sqrt(eye**2 + (beliefs.mark_share / HALF_WIDTH_SIGMAS) ** 2)
    eye = sqrt(eye**2 + LEVEL_EYE**2)
    planned = beliefs.planned_l if brews.is_topped_up else brews.batch_l
    there = _level(mark_l, _moved(planned, brews, work), eye)
    if not work.has(CauseCode.VOLUME):
        return there
    at_the_mark = _level(mark_l, _log_of(planned), eye)
    return priors.MARK_LIES * at_the_mark + (1.0 - priors.MARK_LIES) * there


def _log_of(litres: Array | float) -> Array | float:
    import numpy as np

    found: Array | float = np.log(np.maximum(litres, 1e-6))
    return found


def _moved(litres: Array | float, brews: Brews, work: AtWork) -> Array | float:
    """Return the logarithm of litres, moved where the volume is another."""
    found = _log_of(litres)
    return found + brews.volume.of if work.has(CauseCode.VOLUME) else found


def _level(read_l: float, there: Array | float, eye: float) -> Array | float:
    """Return the density of a level's logarithm; now and then one is misread altogether."""
    import numpy as np

    scores = (log(read_l) - there) / eye
    by_eye = np.exp(-0.5 * scores * scores) / (eye * sqrt(2.0 * pi))
    found: Array | float = (1.0 - SLIP) * by_eye + SLIP / SLIP_SPAN
    return found


def of_water(asked: Asked, shared: float, brews: Brews, work: AtWork) -> Array | float:
    """Return how likely what the hydrometer shows in water is, where that was told as a figure.

    `shared` is the standard deviation of what it is off within its trust, points.
    """
    import numpy as np

    found: Array | float = 1.0
    for answer in asked.answers:
        if answer.test is TestCode.WATER_CHECK and answer.value is not None:
            shows = shared * brews.off + work.off
            scores = (1000.0 * (answer.value - 1.0) - shows) / WATER_EYE_POINTS
            by_eye = np.exp(-0.5 * scores * scores) / (WATER_EYE_POINTS * sqrt(2.0 * pi))
            found = found * ((1.0 - SLIP) * by_eye + SLIP / WATER_SPAN_POINTS)
    return found


def of_answers(asked: Asked, causes: Collection[CauseCode]) -> float:
    """Return how likely the tests came out as they did, of those that told no figure."""
    found = 1.0
    for answer in asked.answers:
        finds = finding(answer)
        if finds is not None and not is_told_by_sample(answer, asked):
            found *= likelihood(answer.test, finds, causes)
    return found


def finding(answer: Answer) -> bool | None:
    """Return whether a test found something; None where it told a figure that counts by itself."""
    if answer.test in _BY_FIGURE and answer.value is not None:
        return None
    if answer.changed is not None or answer.value is None:
        return answer.changed
    if answer.test is TestCode.TOP_AND_BOTTOM:
        return abs(answer.value) > DIFFERS_FROM_POINTS
    return None


def is_told_by_sample(answer: Answer, asked: Asked) -> bool:
    """Whether a later sample shows what came of a test, so that it must not count twice."""
    later = asked.samples[1:]
    if answer.test is TestCode.STIR:
        return any(each.stirred in (Stirred.HARD, Stirred.POURED) for each in later)
    if answer.test is TestCode.COOL:
        return any(each.sample_c is not None for each in later)
    return False
