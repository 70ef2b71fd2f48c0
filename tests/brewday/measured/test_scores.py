"""Inputs moved by their scores: as normal and log-normal draws move, reckoned by scipy."""

from math import exp, log

import numpy as np
import pytest
from scipy import stats

from designer.brewday.doubts import Doubt, Sure
from designer.brewday.measured.scores import MovedPlain, MovedSamples, score_of, within_reach

TO_95 = stats.norm.ppf(0.95)


def doubt(published, low, middle, high, **more):
    return Doubt("something", published, low, middle, high, "", Sure.JUDGEMENT, **more)


@pytest.mark.parametrize("published", [1.2, 2.0, 2.7])
def test_a_published_figure_lies_among_even_draws_by_its_share(published):
    expected = stats.norm.ppf((published - 1.0) / 2.0)
    assert score_of(doubt(published, 1.0, 2.0, 3.0, evenly=True)) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("published", "expected"),
    [
        (2.0, 0.0),
        (4.0, TO_95),
        (1.5, -TO_95),
        (3.0, TO_95 * log(1.5) / log(2.0)),
        (1.7, -TO_95 * log(2.0 / 1.7) / log(2.0 / 1.5)),
        (9.0, 3.0),
        (0.9, -3.0),
        (0.0, -3.0),
    ],
)
def test_among_draws_above_nothing_it_lies_by_its_logarithm_on_its_side(published, expected):
    assert score_of(doubt(published, 1.5, 2.0, 4.0)) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("published", "expected"), [(0.5, TO_95 / 4.0), (-0.5, -TO_95 / 2.0), (0.0, 0.0)]
)
def test_among_draws_that_may_be_below_nothing_it_lies_as_far_as_it_is(published, expected):
    assert score_of(doubt(published, -1.0, 0.0, 2.0)) == pytest.approx(expected)


def test_a_doubt_of_no_width_on_that_side_tells_nothing():
    assert score_of(doubt(3.0, 1.0, 2.0, 2.0)) == 0.0
    assert score_of(doubt(1.0, 0.0, 0.0, 2.0)) == pytest.approx(TO_95 / 2.0)
    assert score_of(doubt(-1.0, 0.0, 0.0, 2.0)) == 0.0


def test_a_plain_input_moves_by_its_deviations():
    moved = MovedPlain({"a": 2.0, "b": -9.0})
    assert moved.absolute("a", 5.0, 0.5) == pytest.approx(5.0 + 2.0 * 0.5 / TO_95)
    assert moved.absolute("b", 1.0, 0.5) == 0.0  # no mass is less than nothing
    assert moved.absolute("b", -1.0, 0.5) == pytest.approx(-1.0 - 9.0 * 0.5 / TO_95)
    assert moved.absolute("c", 5.0, 0.5) == 5.0
    assert moved.absolute("a", 5.0, 0.0) == 5.0
    assert moved.relative("a", 5.0, 0.1) == pytest.approx(5.0 * exp(0.2 / TO_95))
    assert moved.relative("c", 5.0, 0.1) == 5.0


def test_a_plain_doubt_moves_as_its_draws_do_and_stays_within_its_bounds():
    known = doubt(2.0, 1.0, 2.0, 4.0, most=4.5)
    assert MovedPlain({"something": TO_95}).doubt(known) == pytest.approx(4.0)
    assert MovedPlain({"something": -TO_95}).doubt(known) == pytest.approx(1.0)
    assert MovedPlain({"something": 3.0}).doubt(known) == 4.5
    assert MovedPlain({}).doubt(known) == 2.0
    even = doubt(2.0, 1.0, 2.0, 3.0, evenly=True)
    assert MovedPlain({"something": 1.0}).doubt(even) == pytest.approx(1.0 + 2 * stats.norm.cdf(1))


def test_samples_are_at_their_moved_scores_and_tell_how_wide_they_still_are():
    scores = np.array([-5.0, -1.0, 0.0, 2.0])
    moved = MovedSamples(4, moved={"a": scores, "something": scores}, narrower={"a": 0.5})
    found = moved.absolute("a", 1.0, 0.5)
    assert found == pytest.approx(np.maximum(1.0 + 0.5 / TO_95 * scores, 0.0))
    assert moved.tolerances["a"].half_width == pytest.approx(0.25)
    below = moved.absolute("a", -1.0, 0.5)
    assert below == pytest.approx(-1.0 + 0.5 / TO_95 * scores)
    shares = moved.relative("a", 2.0, 0.1)
    assert shares == pytest.approx(2.0 * np.exp(0.1 / TO_95 * scores))
    assert moved.tolerances["a"].half_width == pytest.approx(0.05)
    even = moved.doubt(doubt(2.0, 1.0, 2.0, 3.0, evenly=True))
    assert even == pytest.approx(1.0 + 2.0 * stats.norm.cdf(scores))
    assert moved.tolerances["something"].half_width == pytest.approx(1.0)


def test_a_score_is_held_to_where_a_sample_may_lie():
    assert within_reach(0.3) == 0.3
    assert within_reach(99.0) == -within_reach(-99.0)
    assert 3.0 < within_reach(99.0) <= 6.0
