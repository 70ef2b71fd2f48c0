"""A sample of `python -m tests.beer_proof`: hidden ferments, and what is said of them.

Bounds are those asked of the program: bands hold 85 to 95 % of what comes (a sample of this size
may be 5 off), fewer than 2 in 100 beers that have more than two points to fall are called done,
and nine stuck beers in ten are told by their second reading.
"""

import pytest

from designer.library.recipe_file import load
from designer.resource_files import resource_path
from tests.beer_proof.counted import bands_that_hold, called_done, told_stuck
from tests.beer_proof.hidden_ferments import Cellar


@pytest.fixture(scope="module")
def porter():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


def test_bands_hold_what_comes_and_narrow(porter):
    found = bands_that_hold(Cellar(porter, 24))
    held = sum(each.held for each in found.values())
    assert 0.80 <= held / sum(each.of for each in found.values()) <= 0.98
    widths = [found[f"{read} readings, 3 days ahead"].width for read in range(5)]
    assert widths[1] < 0.6 * widths[0]
    assert widths[4] < 0.7 * widths[1]
    assert found["4 readings, the end"].width < 0.75 * found["0 readings, the end"].width


def test_a_beer_that_falls_is_hardly_ever_called_done_and_one_that_is_over_mostly_soon(porter):
    cold = called_done(Cellar(porter, 20, 18, room_c=(12.0, 15.0)))
    warm = called_done(Cellar(porter, 20, 18))
    assert cold["said while it falls"] + warm["said while it falls"] >= 8
    assert cold["done too soon"] + warm["done too soon"] == 0
    assert warm["second reading, over, done"] >= 0.6 * warm["second reading, over"]
    assert warm["done"] + cold["done"] >= 38
    assert warm["fell by more than may fall"] + cold["fell by more than may fall"] <= 5


def test_stuck_beers_are_told_by_their_second_reading(porter):
    assert told_stuck(Cellar(porter, 40, 19, stuck=True)).share >= 0.9
