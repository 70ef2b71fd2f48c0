"""Sizes of what goes wrong, drawn by the inverse of their spread.

Second opinion: scipy.stats, whose inverse distributions (`ppf`) are its own.
"""

import numpy as np
import pytest
from scipy import stats

from designer.brewday.explaining.spreads import (
    Even,
    Normal,
    Part,
    Tail,
    normal_scores,
    sizes,
)

SHARES = np.array([1e-9, 1e-4, 0.01, 0.02424, 0.02426, 0.2, 0.5, 0.7, 0.97574, 0.97576, 0.9999])


def test_scores_of_a_normal_are_those_of_the_tables_in_its_middle_and_far_out():
    assert normal_scores(SHARES) == pytest.approx(stats.norm.ppf(SHARES), rel=2e-9, abs=2e-9)


@pytest.mark.parametrize(
    ("spread", "known"),
    [
        (Even(-2.0, 3.0), stats.uniform(-2.0, 5.0)),
        (Tail(1.5, 4.0), stats.expon(1.5, 4.0)),
        (Normal(1.0, 0.3), stats.norm(1.0, 0.3)),
    ],
)
def test_a_share_of_all_sizes_lies_below_its_size(spread, known):
    assert spread.at(SHARES) == pytest.approx(known.ppf(SHARES), rel=1e-8)


def test_a_tail_may_go_downwards():
    assert Tail(-1.0, -2.0).at(SHARES) == pytest.approx(-1.0 - stats.expon(0.0, 2.0).ppf(SHARES))


@pytest.mark.parametrize("bent", [1.0, 2.0, 3.0])
def test_parts_drawn_in_equal_numbers_count_by_their_shares_however_far_out_they_are_drawn(bent):
    parts = (Part(0.7, Even(0.0, 2.0)), Part(0.1, Normal(5.0, 1.0)), Part(0.2, Tail(10.0, 3.0)))
    found, weight = sizes(parts, (np.arange(300_000) + 0.5) / 300_000, bent)
    assert weight.mean() == pytest.approx(1.0, abs=1e-4)
    assert (weight * (found < 2.0)).mean() == pytest.approx(
        0.7 + 0.1 * stats.norm.cdf(-3.0), abs=1e-3
    )
    mean = 0.7 * 1.0 + 0.1 * 5.0 + 0.2 * 13.0
    assert (weight * found).mean() == pytest.approx(mean, rel=2e-3)
    far = 0.2 * stats.expon(10.0, 3.0).sf(25.0)
    assert (weight * (found > 25.0)).mean() == pytest.approx(far, rel=0.01)


def test_bent_draws_lie_further_out():
    even = (np.arange(3000) + 0.5) / 3000
    plain, further = (sizes((Part(1.0, Tail(0.0, 1.0)),), even, bent)[0] for bent in (1.0, 3.0))
    assert (further > 3.0).sum() > 2 * (plain > 3.0).sum()
