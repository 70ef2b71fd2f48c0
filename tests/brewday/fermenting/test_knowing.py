"""What readings tell of a fermentation, against a great many courses drawn blindly.

Bayes' law itself: courses drawn from what is known before any reading, by numpy's own generator,
each counted by how likely it makes the readings, by scipy's normal density. The share of the
reading's error that is the instrument's and the eye's is reckoned anew from the module's figures.
"""

from math import hypot, sqrt

import numpy as np
import pytest
from scipy import stats

from designer.brewday.fermenting.course import BeerReading
from designer.brewday.fermenting.courses import SCORES, Expected, courses_of
from designer.brewday.fermenting.knowing import after_readings, before_readings
from designer.brewday.fermenting.warmths import Stretch

EXPECTED = Expected(
    1.050, 0.002, (1.009, 1.0107, 1.012, 1.0133, 1.015), (Stretch(0.0, 20.0),), 1.0, 1.0
)
DRAWN = 60_000
TO_95 = stats.norm.ppf(0.95)
HYDROMETER_EYE, OFF_EACH, OFF_ANYWAY = 0.001, 0.015, 0.0002


@pytest.fixture(scope="module")
def blind():
    drawn = np.random.default_rng(5).standard_normal((len(SCORES), DRAWN))
    return courses_of(EXPECTED, drawn)


def counted(courses, readings):
    """Return how much each course counts."""
    total = np.zeros(DRAWN)
    for each in readings:
        eye = each.half_width / sqrt(2.0)
        if not each.by_refractometer:
            eye = max(min(HYDROMETER_EYE, eye), each.half_width / 2.0)
        shared = sqrt(each.half_width**2 - eye**2) / TO_95
        score = courses.refractometer if each.by_refractometer else courses.hydrometer
        left = 1.0 - courses.fermented_at([each.day])[:, 0]
        off_curve = OFF_EACH * (courses.original - courses.end) * 4.0 * left * (1.0 - left)
        deviation = np.sqrt((eye / TO_95) ** 2 + OFF_ANYWAY**2 + off_curve**2)
        shown = courses.gravity_at([each.day])[:, 0] + shared * score
        total += stats.norm.logpdf(each.gravity, shown, deviation)
    weights = np.exp(total - total.max())
    return weights / weights.sum()


def hydrometer(day, gravity, half_width=0.002):
    return BeerReading(float(day), gravity, half_width)


READ = {
    "one early": [hydrometer(3, 1.030)],
    "one late": [hydrometer(14, 1.011)],
    "a wide one": [hydrometer(14, 1.014, 0.006)],
    "two that agree": [hydrometer(10, 1.0135), hydrometer(13, 1.0135)],
    "a sharp one": [hydrometer(4, 1.022, 0.0004)],
    "by refractometer": [
        BeerReading(12.0, 1.010, 0.003, True),
        BeerReading(14.0, 1.010, 0.003, True),
    ],
    "far from expected": [hydrometer(6, 1.028), hydrometer(9, 1.019)],
}


@pytest.mark.parametrize("name", READ)
def test_courses_after_readings_are_those_of_bayes_law(blind, name):
    readings = READ[name]
    weights = counted(blind, readings)
    assert 1.0 / (weights**2).sum() > 150.0  # so many courses still count
    found = after_readings(EXPECTED, readings)
    days = [2.0, 5.0, 9.0]
    pairs = [(found.end, blind.end), (found.original, blind.original)]
    pairs += [(found.hydrometer, blind.hydrometer), (found.refractometer, blind.refractometer)]
    pairs += list(zip(found.gravity_at(days).T, blind.gravity_at(days).T, strict=True))
    before = before_readings(EXPECTED)
    widths = [before.end.std(), before.original.std(), 1.0, 1.0]
    widths += list(before.gravity_at(days).std(axis=0))
    for (mine, all_drawn), width in zip(pairs, widths, strict=True):
        mean = float(weights @ all_drawn)
        spread = sqrt(float(weights @ (all_drawn - mean) ** 2))
        assert mine.mean() == pytest.approx(mean, abs=0.12 * width + 0.1 * spread)
        assert mine.std() == pytest.approx(spread, abs=0.12 * width)


def test_before_any_reading_courses_are_those_drawn_blindly(blind):
    found = before_readings(EXPECTED)
    assert after_readings(EXPECTED, []).end == pytest.approx(found.end)
    for name in ("end", "middle", "pace", "shape", "original", "slow_share"):
        mine, drawn = getattr(found, name), getattr(blind, name)
        assert mine.mean() == pytest.approx(drawn.mean(), abs=0.05 * drawn.std())
        assert mine.std() == pytest.approx(drawn.std(), rel=0.06)


def test_a_reading_that_is_known_exactly_is_held_almost_exactly():
    found = after_readings(EXPECTED, [hydrometer(14, 1.0120, 0.0)])
    spread = hypot(OFF_ANYWAY, 1e-4)
    left = found.gravity_at([14.0])[:, 0] - 1.0120
    assert abs(left.mean()) < spread
    assert left.std() < 3.0 * spread
