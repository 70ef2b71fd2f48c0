"""How the draws of a doubt are spread, against quantiles that are known."""

import math

import numpy as np
import pytest

from designer.brewday.doubts import Doubt, Sure, draws, ratio
from designer.brewday.tolerances import LatinHypercube, LineInput, Nominal, Tolerance

SKEWED = Doubt("syrup left in the tin", 0.0, 0.2, 1.0, 2.5, "judgement", Sure.JUDGEMENT)
EVEN = Doubt("effect of gravity", 1.0, 0.0, 0.5, 1.0, "none", Sure.ONE_SOURCE, evenly=True)


FACTOR = ratio("m", 0.25, "", Sure.JUDGEMENT)


@pytest.mark.parametrize("doubt", [SKEWED, SKEWED._replace(low=-1.0), FACTOR])
def test_five_fifty_and_ninety_five_of_a_hundred_draws_lie_where_they_are_said_to(doubt):
    found = np.percentile(draws(doubt, doubt.words, 4000), (5, 50, 95))
    assert found == pytest.approx([doubt.low, doubt.middle, doubt.high], abs=4e-3)


def test_a_ratio_is_as_far_off_upwards_as_downwards():
    """Source: x times or divided by e to the half width."""
    found = ratio("m", 0.25, "", Sure.JUDGEMENT)
    assert (found.low, found.high) == pytest.approx((math.exp(-0.25), math.exp(0.25)))
    assert found.published == 1.0


def test_even_draws_lie_alike_between_their_ends():
    """Source: moments of the uniform distribution, 1/2 and 1/12."""
    drawn = draws(EVEN, EVEN.words, 512)
    assert (drawn.min(), drawn.max()) == pytest.approx((0.5 / 512, 511.5 / 512))
    assert drawn.mean() == pytest.approx(0.5)
    assert drawn.var() == pytest.approx(1.0 / 12.0, rel=1e-3)


def test_no_draw_leaves_the_ends():
    drawn = draws(SKEWED._replace(least=0.3, most=2.0), "tin", 512)
    assert (drawn.min(), drawn.max()) == (0.3, 2.0)


def test_draws_rise_with_the_score_of_their_key():
    normal = LatinHypercube(256).absolute(SKEWED.words, 100.0, 1.0)
    order = np.argsort(normal)
    for doubt in (SKEWED, EVEN):
        assert np.all(np.diff(draws(doubt, SKEWED.words, 256)[order]) > 0.0)


def test_the_plain_day_takes_the_published_figure():
    assert Nominal().doubt(EVEN) == 1.0
    assert Nominal().doubt(SKEWED, "Light extract") == 0.0


def test_a_line_has_a_draw_of_its_own():
    of_lines = SKEWED._replace(words="{name} left in the tin")
    sampler = LatinHypercube(64)
    first, second = sampler.doubt(of_lines, "honey"), sampler.doubt(of_lines, "syrup")
    assert not np.array_equal(first, second)
    assert np.array_equal(np.sort(first), np.sort(second))
    key = next(iter(sampler.tolerances))
    assert isinstance(key, LineInput)
    assert sampler.tolerances[key] == Tolerance(1.0, 1.15, relative=False)
    assert key == "honey left in the tin"


def test_what_is_certain_is_no_doubt():
    sampler = LatinHypercube(64)
    assert sampler.doubt(SKEWED._replace(published=1.0, low=1.0, middle=1.0, high=1.0)) == 1.0
    assert sampler.tolerances == {}
