"""Forecasts held against ranges: what misses by how much, and which share of brews lies within."""

import pytest

from designer.brewday.asked_ranges import (
    USUAL_WIDTH,
    as_shown,
    how_far_off,
    missed,
    misses,
    share_inside,
)
from designer.brewday.results import Range

ASKED = {"original_gravity": (1.040, 1.048), "bitterness_ibu": (25.0, 35.0)}


def test_what_reads_as_the_limit_is_within_it():
    assert as_shown("original_gravity", 1.04849) == 1.048
    assert as_shown("abv_percent", 4.96) == 5.0
    assert as_shown("bitterness_ibu", 35.4) == 35.0
    assert misses({"original_gravity": 1.0484, "bitterness_ibu": 24.6}, ASKED) == ()
    assert misses({"original_gravity": 1.0396, "bitterness_ibu": 35.4}, ASKED) == ()


def test_a_miss_tells_its_limit_and_by_how_much():
    above, below = misses({"original_gravity": 1.0520, "bitterness_ibu": 19.0}, ASKED)
    assert (above.key, above.value, above.low, above.high) == (
        "original_gravity", 1.052, 1.040, 1.048,
    )  # fmt: skip
    assert (above.is_above, above.limit, above.by) == (True, 1.048, 0.004)
    assert (below.is_above, below.limit, below.by) == (False, 25.0, 6.0)


def test_misses_of_unlike_figures_are_weighed_in_usual_widths_of_ranges():
    above, below = misses({"original_gravity": 1.0520, "bitterness_ibu": 19.0}, ASKED)
    assert above.weight == pytest.approx(0.004 / USUAL_WIDTH["original_gravity"]) == 0.25
    assert below.weight == pytest.approx(6.0 / 18.0)


BREWS = Range(
    1.050, 1.040, 1.060, first_quartile=1.046, middle=1.049, third_quartile=1.053
)  # fmt: skip


@pytest.mark.parametrize(
    ("low", "high", "share"),
    [
        (1.040, 1.060, 0.90),
        (1.046, 1.053, 0.50),
        (1.049, 1.053, 0.25),
        (1.000, 1.049, 0.50),
        (1.040, 1.046, 0.20),
        (1.040, 1.043, 0.10),
        (1.060, 1.100, 0.05),
        (1.034, 1.037, 0.025),
        (1.030, 1.034, 0.00),
        (1.000, 1.100, 1.00),
        (1.067, 1.100, 0.00),
        (1.0635, 1.100, 0.025),
    ],
)
def test_brews_lie_evenly_between_the_hundredths_that_are_known(low, high, share):
    assert share_inside(BREWS, low, high) == pytest.approx(share, abs=1e-9)


def test_a_range_of_which_only_the_ends_are_known_is_halved():
    """A quarter of the brews is taken to lie below halfway from the lower end to the value."""
    plain = Range(1.050, 1.040, 1.060)
    assert share_inside(plain, 1.000, 1.050) == pytest.approx(0.5)
    assert share_inside(plain, 1.045, 1.055) == pytest.approx(0.5)
    assert share_inside(plain, 1.045, 1.050) == pytest.approx(0.25)
    assert share_inside(plain, 1.035, 1.065) == pytest.approx(1.0)
    assert share_inside(plain, 1.0375, 1.0625) == pytest.approx(0.95)


def test_a_forecast_without_doubt_is_inside_or_not():
    sure = Range(30.0, 30.0, 30.0)
    assert share_inside(sure, 30.0, 40.0) == 1.0
    assert share_inside(sure, 20.0, 30.0) == 1.0
    assert share_inside(sure, 31.0, 40.0) == 0.0


def test_a_range_that_leans_so_far_that_a_quartile_is_its_end_is_no_fault():
    heap = Range(0.0, 0.0, 40.0, first_quartile=0.0, middle=0.0, third_quartile=20.0)
    assert share_inside(heap, 0.0, 20.0) == pytest.approx(0.25, abs=0.26)
    assert share_inside(heap, 20.0, 40.0) == pytest.approx(0.20)
    assert share_inside(heap, 10.0, 5.0) == 0.0


@pytest.mark.parametrize(
    ("og", "ibu", "off"),
    [(1.044, 30.0, 0.0), (1.048, 35.0, 0.0), (1.052, 30.0, 0.25), (1.036, 30.0, 0.25),
     (1.052, 19.0, 0.25 + 1 / 3), (1.040, 53.0, 1.0)],
)  # fmt: skip
def test_how_far_off_a_beer_is_in_all_is_what_its_misses_weigh(og, ibu, off):
    shown = {"original_gravity": og, "bitterness_ibu": ibu}
    assert how_far_off(shown, ASKED) == pytest.approx(off)
    assert how_far_off(shown, ASKED) == pytest.approx(
        sum(each.weight for each in missed(shown, ASKED))
    )


def test_what_is_far_enough_off_is_counted_no_further():
    shown = {"original_gravity": 1.052, "bitterness_ibu": 19.0}
    assert how_far_off(shown, ASKED, 0.25) == pytest.approx(0.25)
    assert how_far_off(shown, ASKED, 0.26) == pytest.approx(0.25 + 1 / 3)
