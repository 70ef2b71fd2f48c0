"""The declared priors, counted: what lies behind odd readings if brews go as they say."""

import pytest

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.explained import CauseCode
from tests.reading_proof.hidden import CODES
from tests.reading_proof.odd import OddReadings


@pytest.fixture(scope="module")
def odd():
    return OddReadings(20_000)


@pytest.mark.parametrize("code", CODES)
def test_causes_have_the_shares_of_odd_readings_that_were_judged(odd, code):
    # Judgement, of 100 odd readings: the table stands in the priors themselves.
    judged = priors.OF_100_ODD[code]
    of_all, of_low, of_high = odd.of_100(code)
    assert of_all == pytest.approx(judged.of_all, abs=2.0)
    assert of_low == pytest.approx(judged.of_low, abs=5.0)
    assert of_high == pytest.approx(judged.of_high, abs=6.0)


def test_as_many_readings_are_odd_and_have_two_causes_as_was_judged(odd):
    assert odd.share == pytest.approx(priors.ODD_SHARE, abs=0.02)
    assert odd.pairs == pytest.approx(1.0 / 6.0, abs=0.04)


def test_low_ones_are_somewhat_more_than_half(odd):
    low, high = odd.with_a_cause.sum(axis=1)
    assert low / (low + high) == pytest.approx(0.59, abs=0.05)


def test_spreads_of_sizes_are_whole():
    for parts in (
        priors.VOLUME_LOG,
        priors.WARM_ABOVE_C,
        priors.WARMER_THAN_TYPED_C,
        priors.FORGOTTEN,
        priors.MISWEIGHED_BY,
        priors.HYDROMETER_OFF,
        priors.BUBBLES_ON_BULB,
        priors.FALLEN_UNPITCHED,
    ):
        assert sum(each.share for each in parts) == pytest.approx(1.0)
    slips = sum(each.share for each in priors.READ_WRONG)
    assert slips + priors.WRONG_SCALE == pytest.approx(1.0)


def test_every_cause_that_has_a_code_has_a_prior():
    named = set(CauseCode) - {CauseCode.NOTHING_WRONG}
    assert named == set(priors.OF_100_BREWS)
