"""A sample of the proof: what is learned of hidden kitchens holds, narrows, and bears a bad log.

Between 85 and 95 of a hundred next brews are to lie in the bands (the requirement); of so few
kitchens, some 84 statements a row that hang together, chance may make six more or less of it.
"""

import pytest

from designer.brewday.learning.figures import Figure
from tests.learning_proof.counted import counted, moved_by_a_bad_log
from tests.learning_proof.hidden_kitchens import FIGURES

KITCHENS = range(100, 112)


@pytest.fixture(scope="module")
def found():
    return counted(KITCHENS, (3, 8))


@pytest.mark.parametrize("brews", [3, 8])
def test_nine_next_brews_in_ten_lie_in_the_band(found, brews):
    shares, _ = found
    every = [shares[brews, figure] for figure in FIGURES]
    assert 0.80 <= sum(every) / len(every) <= 0.99


def test_within_eight_brews_what_readings_tell_of_is_known_far_better(found):
    _, widths = found
    narrowed = {
        Figure.EVAPORATION: 0.5,
        Figure.COOLING: 0.4,
        Figure.LEFT_IN_POT: 0.65,
        Figure.ATTENUATION: 0.8,
    }
    for figure, most in narrowed.items():
        assert widths[8, figure] < most, figure
        assert widths[8, figure] <= widths[3, figure] * 1.02, figure


def test_a_log_that_says_half_of_it_moves_little():
    middle, most, _ = moved_by_a_bad_log(range(100, 104))
    assert middle < 0.2
    assert most < 0.6
