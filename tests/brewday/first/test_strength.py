"""How strong a wort has to be: for the alcohol that is wanted, or to be within ranges.

61 % of the extract ferments, 0.81 of the apparent fall (Balling, from MEBAK): of each point that a
wort begins with 0.247 are left.
"""

import pytest

from designer.brewday.first.strength import _both, alcohol, extract_kg_l, gravity_wanted
from tests.brewday.first.larders import aim

FERMENTS = 0.61


def wanted(ferments=FERMENTS, near=1.045, **bands):
    return gravity_wanted(aim(og=near, original_gravity=None, bands=bands), ferments)


def test_a_gravity_that_was_asked_for_is_the_gravity():
    assert gravity_wanted(aim(og=1.0612, abv_percent=9.0), FERMENTS) == 1.0612


@pytest.mark.parametrize("abv", [3.5, 5.0, 9.0])
@pytest.mark.parametrize("ferments", [0.55, 0.61, 0.72])
def test_alcohol_that_was_asked_for_takes_the_gravity_that_gives_it(abv, ferments):
    """Per cent by volume are about 131 times the fall of the gravity (from memory), within 4 %."""
    found = gravity_wanted(aim(original_gravity=None, abv_percent=abv), ferments)
    final = 1.0 + (found - 1.0) * (1.0 - ferments / 0.81)
    assert 131.25 * (found - final) == pytest.approx(abv, rel=0.04)
    assert alcohol(found, final) == pytest.approx(abv, abs=0.02)


def test_a_litre_holds_the_extract_of_its_gravity():
    """1.040 is 9.99 °P (table of the ASBC): 0.0998 of 1.0382 kg."""
    assert extract_kg_l(1.040) == pytest.approx(0.1037, abs=0.0002)
    assert extract_kg_l(1.0) == pytest.approx(0.0, abs=1e-5)


def test_without_ranges_a_beer_is_as_strong_as_is_near():
    assert wanted(near=1.045) == 1.045
    assert wanted(near=1.120) == 1.120


def test_within_a_range_a_little_off_its_ends_is_aimed_at():
    """0.15 of the width, as wide as 0.020 at the most."""
    band = (1.040, 1.050)
    assert wanted(near=1.060, original_gravity=band) == pytest.approx(1.0485)
    assert wanted(near=1.030, original_gravity=band) == pytest.approx(1.0415)
    assert wanted(near=1.0443, original_gravity=band) == 1.0443
    assert wanted(near=1.200, original_gravity=(1.030, 1.130)) == pytest.approx(1.127)


def test_a_range_of_the_end_is_one_of_the_beginning():
    band = (1.010, 1.012)
    assert wanted(near=1.100, final_gravity=band) == pytest.approx(1.0474, abs=2e-4)
    assert wanted(near=1.020, final_gravity=band) == pytest.approx(1.0417, abs=2e-4)
    assert wanted(near=1.044, final_gravity=band) == 1.044


def test_a_range_of_alcohol_is_one_of_the_beginning():
    low = gravity_wanted(aim(original_gravity=None, abv_percent=4.0), FERMENTS)
    high = gravity_wanted(aim(original_gravity=None, abv_percent=5.0), FERMENTS)
    inset = 0.15 * (high - low)
    assert wanted(near=1.100, abv_percent=(4.0, 5.0)) == pytest.approx(high - inset)
    assert wanted(near=1.010, abv_percent=(4.0, 5.0)) == pytest.approx(low + inset)


def test_where_ranges_do_not_meet_the_gravity_is_at_its_end_next_to_the_other():
    assert wanted(original_gravity=(1.030, 1.036), final_gravity=(1.010, 1.012)) == 1.036
    assert wanted(original_gravity=(1.060, 1.070), final_gravity=(1.010, 1.012)) == 1.060
    assert _both((1.0, 2.0), (1.5, 3.0)) == (1.5, 2.0)
    assert _both((1.0, 4.0), (1.5, 3.0)) == (1.5, 3.0)
    assert _both((1.0, 2.0), (2.0, 3.0)) == (2.0, 2.0)


def test_a_yeast_that_leaves_nothing_asks_for_no_end():
    assert wanted(0.81, near=1.050, final_gravity=(1.000, 1.002)) == pytest.approx(1.050)
