"""How likely a course makes readings, and which courses are left of them, worked out by hand.

Densities are scipy's; a half width is 1.645 standard deviations (5 to 95 %). What the eye adds and
what is wrong with the instrument: see `reading_errors`.
"""

from math import log, pi, sqrt

import numpy as np
import pytest
from scipy import stats

from designer.brewday.fermenting.course import BeerReading
from designer.brewday.fermenting.knowing import (
    SAMPLES,
    _columns,
    _error,
    _likelihood,
    _part,
    _taken,
    _weights,
)

TO_95 = stats.norm.ppf(0.95)


@pytest.mark.parametrize(
    ("half_width", "refractometer", "eye"),
    [
        (0.002, False, 0.001),
        (0.001, False, 0.001 / sqrt(2.0)),
        (0.004, False, 0.002),
        (0.010, False, 0.005),
        (0.002, True, 0.002 / sqrt(2.0)),
        (0.010, True, 0.010 / sqrt(2.0)),
    ],
)
def test_what_is_wrong_with_an_instrument_and_what_the_eye_adds_are_all_of_an_error(
    half_width, refractometer, eye
):
    """The eye adds 0.001, not more than an even part nor less than half of the half width."""
    shared, own = _error(BeerReading(3.0, 1.030, half_width, refractometer))
    assert own * TO_95 == pytest.approx(eye)
    assert (shared**2 + own**2) * TO_95**2 == pytest.approx(half_width**2)


def test_no_reading_is_free_of_error():
    shared, own = _error(BeerReading(3.0, 1.030, 0.0))
    assert own * TO_95 == pytest.approx(1e-4 / sqrt(2.0))
    assert shared > 0.0


class Drawn:
    """Three courses whose gravities, shares and scores are known."""

    original = np.array([1.050, 1.050, 1.060])
    end = np.array([1.010, 1.012, 1.010])
    hydrometer = np.array([0.0, 1.0, -2.0])
    refractometer = np.array([0.5, 0.0, 1.0])
    fermented = np.array([[0.5, 1.0], [0.25, 0.9], [0.0, 0.6]])

    def fermented_at(self, days):
        assert list(days) == [3.0, 9.0]
        return self.fermented

    def gravity_at(self, days):
        left = 1.0 - self.fermented_at(days)
        return self.end[:, None] + (self.original - self.end)[:, None] * left


def test_how_likely_readings_are_is_that_of_their_errors_and_of_beers_about_a_curve():
    """Half-way beers are 1.5 % of their fall about any curve, at both ends not at all; 0.0002 any
    time (judgement)."""
    courses = Drawn()
    readings = [BeerReading(3.0, 1.032, 0.002), BeerReading(9.0, 1.013, 0.006, True)]
    expected = courses.gravity_at([3.0, 9.0])
    by_hand = np.zeros(3)
    for at, each in enumerate(readings):
        shared, own = _error(each)
        score = courses.refractometer if each.by_refractometer else courses.hydrometer
        done = courses.fermented[:, at]
        about = 0.015 * (courses.original - courses.end) * 4.0 * done * (1.0 - done)
        deviation = np.sqrt(own**2 + 0.0002**2 + about**2)
        shown = expected[:, at] + shared * score
        by_hand += stats.norm.logpdf(each.gravity, shown, deviation) + 0.5 * log(2.0 * pi)
    assert _likelihood(courses, readings) == pytest.approx(by_hand)


def test_weights_are_shares_of_how_likely_each_is():
    assert _weights(np.log([1.0, 3.0, 4.0])) == pytest.approx([0.125, 0.375, 0.5])
    assert _weights(np.array([-5000.0, -5000.0])) == pytest.approx([0.5, 0.5])


@pytest.mark.parametrize(
    ("weights", "taken"),
    [
        ([0.25, 0.25, 0.25, 0.25], [0, 1, 2, 3]),
        ([0.5, 0.5, 0.0, 0.0], [0, 0, 1, 1]),
        ([0.1, 0.2, 0.3, 0.4], [1, 2, 3, 3]),
        ([0.0, 0.0, 0.0, 1.0], [3, 3, 3, 3]),
        ([1.0, 0.0, 0.0, 0.0], [0, 0, 0, 0]),
    ],
)
def test_each_course_is_left_as_often_as_it_weighs(weights, taken):
    assert list(_taken(np.array(weights))) == taken


def left_of(weights):
    """As many as would count alike, as a share of all (Kish's effective sample size)."""
    return float(weights.sum() ** 2 / (weights**2).sum()) / len(weights)


@pytest.mark.parametrize("sharp", [5.0, 50.0, 500.0])
def test_readings_are_counted_as_far_as_leaves_a_quarter_of_the_courses(sharp):
    likely = -sharp * np.linspace(-1.0, 1.0, 401) ** 2
    ahead = np.zeros(401)
    part = _part(ahead, likely)
    if left_of(np.exp(likely)) >= 0.25:
        assert part == 1.0
        return
    assert 0.25 <= left_of(np.exp(part * likely)) < 0.253
    more = _part(-0.2 * part * sharp * np.linspace(-1.0, 1.0, 401) ** 2, likely)
    assert more == pytest.approx(0.8 * part, rel=0.02)


def test_every_step_draws_anew_and_the_same_every_time():
    first, second = _columns(0), _columns(1)
    assert first.shape == second.shape
    assert first.shape[1] == SAMPLES == 1024
    assert not np.allclose(first, second)
    assert _columns(0) is first
    assert first.mean() == pytest.approx(0.0, abs=0.01)
    assert first.std() == pytest.approx(1.0, abs=0.01)
