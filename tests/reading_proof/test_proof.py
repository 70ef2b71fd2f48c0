"""A sample of the proof: hidden brews of known priors, against the posterior by brute force."""

import numpy as np
import pytest

from designer.brewday.explaining.advised import test_to_do
from tests.reading_proof import cured
from tests.reading_proof.proof import played


@pytest.fixture(scope="module")
def tally():
    return played(110, seed=3, draws=50_000, advise=test_to_do)


def test_the_true_cause_is_ranked_first_where_anyone_could_be_sure_of_it(tally):
    assert len(tally.sure) > 20
    assert np.mean(tally.sure) >= 0.9


def test_probabilities_are_those_of_brute_force(tally):
    # 50,000 draws are themselves off by some hundredths in the tails.
    assert np.percentile(tally.apart, 50) < 0.01
    assert np.percentile(tally.apart, 95) < 0.06


def test_what_is_stated_often_enough_comes_true_as_often(tally):
    assert not tally.faults()


def test_cannot_tell_is_said_where_the_leading_two_are_alike_and_not_elsewhere(tally):
    near = [said for ratio, said in tally.close if ratio < 1.2]
    far = [said for ratio, said in tally.close if ratio > 2.0]
    assert near
    assert np.mean(near) >= 0.5  # the others are fine: a reading as forecast
    assert not any(far)


def test_the_advised_test_makes_more_answers_right(tally):
    assert len(tally.right_after) >= 15
    assert np.mean(tally.right_after) > np.mean(tally.right_before)


def test_errors_of_another_size_leave_the_ranks_right():
    larger = played(40, seed=5, draws=30_000, times=1.5)
    assert len(larger.sure) >= 5
    assert np.mean(larger.sure) >= 0.9


def test_what_is_offered_and_added_brings_hidden_brews_back():
    counted = cured.played(5, seed=6, causes=cured.CAUSES[:2])
    off_by = [pair for each in counted.off_by.values() for pair in each]
    in_band = [pair for each in counted.in_band.values() for pair in each]
    assert len(off_by) >= 4
    before, after = np.array(off_by).T
    assert after.mean() < before.mean() / 2.5
    assert np.mean(in_band) >= 0.7
    assert not any(after > before + 1.0)
