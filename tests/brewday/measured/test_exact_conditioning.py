"""What readings tell of the inputs, beside what is exact.

For inputs and errors that are normal and readings that are linear in them, the exact answer is that
of every textbook of regression (Rasmussen and Williams, Gaussian Processes for Machine Learning,
2006, appendix A.2, from memory). For a brew day it is that of very many days drawn at random, each
counted by how likely the readings were on it: importance sampling, Bayes' law itself.
"""

from pathlib import Path

import numpy as np
import pytest

from designer.brewday.malt_doubts import LEFT_IN_TIN
from designer.brewday.measured.conditioning import STEPS, told, untold
from designer.brewday.measured.known import KnownDay
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.observed import Told
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.measured.scores import MovedPlain
from designer.library.recipe_file import load
from tests.brew_proof.hidden_days import FORECASTS, LEFT_MIN, HiddenDays, Taken

DRAWS = 200_000
SAMPLES = 256
RECIPES = Path(__file__).parents[3] / "resources" / "examples"


def test_linear_readings_with_normal_errors_are_told_exactly():
    keys = tuple("abcdef")
    slopes = np.array([[1.0, 0.5, 0.0, 0.0, -0.3, 0.0], [0.2, 0.0, 0.8, 0.0, 0.4, 0.0]])
    read, variances = np.array([1.3, -0.7]), np.array([0.04, 0.3])
    plain_before = np.array([0.0, -1.0, 0.0, 0.5, 0.0, 0.0])
    scores = untold(keys)._replace(plain=plain_before)
    for step, weight in enumerate(STEPS, 1):
        scores = told(
            scores,
            read,
            slopes @ scores.columns(SAMPLES),
            slopes @ scores.plain,
            weight * variances,
            last=step == len(STEPS),
        )
    gain = slopes.T @ np.linalg.inv(slopes @ slopes.T + np.diag(variances))
    assert scores.mean == pytest.approx(gain @ read, abs=1e-9)
    left = scores.root @ scores.root.T
    assert left == pytest.approx(np.eye(len(keys)) - gain @ slopes, abs=1e-9)
    assert scores.plain == pytest.approx(
        plain_before + gain @ (read - slopes @ plain_before), abs=1e-9
    )
    assert not scores.changed[[3, 5]].any()  # those that no reading depends on


def test_what_no_slope_explains_counts_as_an_error_of_the_reading():
    """A reading of a + (b² - 1)/2, free of error, leaves of a what (b² - 1)/2 hides: a third."""
    keys = ("a", "b")
    scores = untold(keys)
    first, second = scores.columns(SAMPLES)
    shown = (first + (second**2 - 1.0) / 2.0)[np.newaxis]
    after = told(scores, np.zeros(1), shown, np.zeros(1), np.array([1e-9]), last=True)
    assert after.spreads[0] ** 2 == pytest.approx(0.5 / 1.5, abs=0.03)
    assert after.spreads[1] == pytest.approx(1.0, abs=0.02)


def test_a_published_figure_at_the_end_of_its_draws_stands_until_something_is_read_of_it():
    left = LEFT_IN_TIN
    assert (left.published, left.middle) == (0.0, 0.010)
    assert MovedPlain({}).doubt(left) == 0.0
    assert MovedPlain({left.words: 0.01}).doubt(left) == pytest.approx(0.0, abs=5e-5)
    # From three deviations below to the middle: what the draws differ by on the way.
    assert MovedPlain({left.words: 3.0}).doubt(left) == pytest.approx(0.0095, abs=5e-4)


M, B = Measured, By
SOME_DAYS = {
    "a gravity": [(Taken(M.ORIGINAL_GRAVITY, B.HYDROMETER), -0.6)],
    "a level in the fermenter": [(Taken(M.INTO_FERMENTER, B.MARK), 0.8)],
    "the end of the boil": [
        (Taken(M.BOIL_END_VOLUME, B.MARK), -0.7),
        (Taken(M.BOIL_END_GRAVITY, B.HYDROMETER), 0.5),
    ],
    "the whole day": [
        (Taken(M.BOIL_START_VOLUME, B.DIPSTICK), 0.5),
        (Taken(M.BOIL_GRAVITY, B.HYDROMETER), 0.4),
        (Taken(M.BOIL_END_GRAVITY, B.HYDROMETER), 0.3),
        (Taken(M.INTO_FERMENTER, B.MARK), -0.5),
        (Taken(M.ORIGINAL_GRAVITY, B.HYDROMETER), -0.3),
    ],
}


@pytest.mark.parametrize("name", SOME_DAYS)
def test_bands_are_those_of_very_many_days_counted_by_how_likely_they_are(name):
    recipe = load(RECIPES / "harbour_lamp_porter.hobwort")
    read, deviations = zip(*SOME_DAYS[name], strict=True)
    hidden = HiddenDays(recipe, read, DRAWS, seed=3)
    readings, unlikely = [], np.zeros(DRAWS)
    for taken, off in zip(read, deviations, strict=True):
        shown = hidden.shown(taken)
        value = float(shown.mean() + off * shown.std())
        unlikely += ((shown - value) / hidden.eye(taken)) ** 2 / 2.0
        left = LEFT_MIN if taken.what is M.BOIL_GRAVITY else None
        readings.append(Reading(taken.what, value, taken.by, left_min=left))
    weights = np.exp(unlikely.min() - unlikely)
    weights /= weights.sum()
    assert 1.0 / (weights**2).sum() > 1000.0  # so many days still count
    found = day_measured(recipe, readings).forecasts
    (lived, _) = KnownDay(recipe, [Told(each) for each in readings]).sampled
    for key in FORECASTS:
        low, high = weighted(hidden.truth[key], weights, (0.05, 0.95))
        width = high - low
        assert found[key].low == pytest.approx(low, abs=0.07 * width), key
        assert found[key].high == pytest.approx(high, abs=0.07 * width), key
        mean = float((weights * hidden.truth[key]).sum())
        assert float(getattr(lived.day.beer, key).mean()) == pytest.approx(mean, abs=0.03 * width)


def weighted(values, weights, shares):
    order = np.argsort(values)
    return np.interp(shares, np.cumsum(weights[order]), values[order])
