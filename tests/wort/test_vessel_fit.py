"""Room in pot and fermenter against worked values."""

import math

import pytest

from designer.wort.vessel_fit import (
    coil_volume_l,
    fermenter_needed_l,
    foam_limit_l,
    hot_volume_l,
    into_fermenter_l,
    pot_needed_l,
)


@pytest.mark.parametrize(
    ("diameter_mm", "length_m", "litres"),
    # Computed: the volume of a cylinder.
    [
        (9.525, 7.62, 0.543),
        (9.525, 15.24, 1.086),
        (12.7, 7.62, 0.965),
        (12.7, 15.24, 1.931),
        (10, 10, 0.785),
    ],
)
def test_a_coil_takes_its_room(diameter_mm, length_m, litres):
    assert coil_volume_l(diameter_mm / 1000, length_m) == pytest.approx(litres, abs=0.0006)


def test_the_pot_for_a_boil_with_the_coil_in():
    # Computed: 12 L at 20 °C, coil 9.525 mm by 7.62 m, a fifth of the pot free: 16.30 L.
    needed = pot_needed_l(12.0, 0.20, coil_volume_l(9.525e-3, 7.62))
    assert needed == pytest.approx(16.30, abs=0.006)
    assert foam_limit_l(needed, 0.20) == pytest.approx(hot_volume_l(12.0) + 0.543, abs=0.001)


def test_the_most_wort_for_a_small_pot():
    # Computed: 10 L pot, 22 % free, no coil: 7.49 L at 20 °C.
    assert pot_needed_l(7.49, 0.22) == pytest.approx(10.0, abs=0.006)


def test_hot_wort_takes_a_twenty_fourth_more_room():
    # Computed: 1.0416 between 20 and 100 °C for water and wort up to 20 °P.
    for fraction in (0.0, 0.10, 0.20):
        assert hot_volume_l(1.0, fraction) == pytest.approx(1.0416, abs=0.0001)


def test_the_fermenter_for_a_batch():
    # Computed: 20 L at a fifth of the vessel: 25 L.
    assert fermenter_needed_l(20.0, 0.20) == pytest.approx(25.0)


def test_what_leaves_the_pot():
    # Computed: 20 L, 0.7 L of trub, 60 g of hops at 6 L/kg: 18.94 L.
    assert into_fermenter_l(20.0, 0.7, 0.060, 6.0) == pytest.approx(18.94)
    assert into_fermenter_l(0.5, 0.7, 0.060, 6.0) == 0.0
    assert into_fermenter_l(0.0, 0.0, 0.0, 6.0) == 0.0


def test_foam_gets_seven_centimetres_at_least():
    # Common practice: a fifth of the pot and at least 7 cm.
    wide = math.pi / 4 * 0.36**2 * 1000 * 0.07
    assert foam_limit_l(15.0, 0.20, 0.36) == pytest.approx(15.0 - wide)
    assert foam_limit_l(15.0, 0.20, 0.20) == pytest.approx(12.0)
    assert foam_limit_l(1.0, 0.20, 0.50) == 0.0
    assert foam_limit_l(0.0, 0.20) == 0.0


def test_a_vessel_that_must_stay_empty_is_never_large_enough():
    assert pot_needed_l(10.0, 1.0) == math.inf
    assert fermenter_needed_l(10.0, 1.0) == math.inf


def test_a_pot_needs_a_fifth_of_room_unless_said():
    assert pot_needed_l(8.0) == pot_needed_l(8.0, 0.20, 0.0, 0.0)
    of_wort = pot_needed_l(8.0, 0.20, 0.5, 0.20)
    assert of_wort == pytest.approx((hot_volume_l(8.0, 0.20) + 0.5) / 0.8)
    assert fermenter_needed_l(16.0) == pytest.approx(20.0)
