"""Extract and water that bring wort to a gravity: mass balance, and the sums of handbooks."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from designer.brewday.explaining.cure_amounts import (
    extract_to_add_kg,
    gravity_with,
    litres_with,
    mass_kg,
    water_to_add_l,
    wort_to_boil_l,
)
from designer.wort.extract import extract_for, gravity, volume_l, water_for_volume
from designer.wort.water import WATER_KG_PER_L

KG_PER_LB, L_PER_GAL = 0.45359237, 3.785411784
gravities = some.floats(1.010, 1.110)
volumes = some.floats(2.0, 60.0)


@given(gravities, volumes, some.floats(0.001, 0.04), some.sampled_from([0.79, 0.965, 1.0]))
def test_what_is_added_makes_up_the_extract_that_was_missing(low, litres, more, solids):
    wanted = low + more
    kg = extract_to_add_kg(low, litres, wanted, solids)
    # By the masses that `wort.extract` makes of volumes, not by the mixing rule.
    have = extract_for(low, litres)
    water = water_for_volume(have, litres)
    made = gravity(have + solids * kg, water + (1.0 - solids) * kg)
    assert made == pytest.approx(wanted, abs=2e-6)
    assert litres_with(low, litres, kg, solids) == pytest.approx(
        volume_l(have + solids * kg, water + (1.0 - solids) * kg), rel=1e-6
    )
    assert extract_for(wanted, litres_with(low, litres, kg, solids)) == pytest.approx(
        have + solids * kg, rel=1e-5
    )


@given(gravities, volumes, some.floats(0.001, 0.04))
def test_water_neither_makes_nor_takes_extract(wanted, litres, more):
    strong = wanted + more
    water_l = water_to_add_l(strong, litres, wanted)
    kg = water_l * WATER_KG_PER_L
    assert gravity_with(strong, litres, kg, 0.0) == pytest.approx(wanted, abs=2e-6)
    after_l = litres_with(strong, litres, kg, 0.0)
    assert extract_for(wanted, after_l) == pytest.approx(extract_for(strong, litres), rel=1e-5)
    assert mass_kg(wanted, after_l) == pytest.approx(mass_kg(strong, litres) + kg, rel=1e-5)


def test_extract_agrees_with_the_points_of_handbooks():
    # Gravity points: Palmer, How to Brew, 1st ed., online (points by the pound, table 9): dry
    # extract brings 42 to 45 points in a US gallon. 5 gal at 1.035 lack 50 points of 1.045.
    kg = extract_to_add_kg(1.035, 5.0 * L_PER_GAL, 1.045, 0.965)
    made_up_l = litres_with(1.035, 5.0 * L_PER_GAL, kg, 0.965)
    missing = 45.0 * made_up_l / L_PER_GAL - 35.0 * 5.0
    assert 50.0 / 45.0 < kg / KG_PER_LB < 1.05 * missing / 42.0
    assert missing / (kg / KG_PER_LB) == pytest.approx(44.5, abs=1.0)


def test_water_agrees_with_points_times_volume():
    # C1 V1 = C2 V2 of gravity points, as handbooks dilute (common practice, no source).
    assert water_to_add_l(1.055, 8.5, 1.045) == pytest.approx(8.5 * (55.0 / 45.0 - 1.0), rel=0.02)


def test_nothing_is_added_to_what_is_as_it_should_be():
    assert extract_to_add_kg(1.050, 10.0, 1.045, 0.965) == 0.0
    assert water_to_add_l(1.040, 10.0, 1.045) == 0.0
    with pytest.raises(ValueError, match="no stronger"):
        extract_to_add_kg(1.040, 10.0, 1.045, 0.1)


@pytest.mark.parametrize(("kg", "litres"), [(0.1, 0.5), (0.25, 0.5), (0.28, 1.0), (1.0, 2.0)])
def test_extract_is_boiled_in_wort_that_a_small_pan_takes(kg, litres):
    assert wort_to_boil_l(kg) == litres
