"""Cooling against worked heat balances and Newton's law."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from designer.wort.chilling import (
    LID_HALVES,
    LIKE_POT_L,
    bath_constant,
    bath_ice_kg,
    coil_constant,
    ice_enthalpy_kj,
    newton_constant,
    newton_temperature,
    newton_time,
    settled,
    standing_constant,
)
from designer.wort.heat import enthalpy_kj
from tests.proof.comparisons import mixed_with_ice_c


@given(
    extract=st.floats(0, 4), water=st.floats(0.1, 20), temp_c=st.floats(0, 100), ice=st.floats(0, 9)
)
def test_settling_keeps_the_heat_of_wort_by_its_masses(extract, water, temp_c, ice):
    joint = enthalpy_kj(extract, water, temp_c) + ice_enthalpy_kj(ice, -18.0)
    reached, melted = settled(joint, extract, water, ice)
    after = enthalpy_kj(extract, water + melted, reached) + ice_enthalpy_kj(ice - melted, 0.0)
    assert after == pytest.approx(joint, abs=1e-6)
    assert reached == 0.0 or melted == ice


def test_an_empty_pot_settles_at_zero():
    assert settled(0.0, 0.0, 0.0, 0.0) == (0.0, 0.0)


@pytest.mark.parametrize(
    ("first", "second", "apart", "coolant", "constant", "start", "target", "minutes"),
    # Computed from Newton's law.
    [
        (95, 60, 10, 10, 0.05306, 95, 20, 40.3),
        (100, 70, 5, 2, 0.07309, 100, 20, 23.2),
        (80, 50, 8, 15, 0.07738, 80, 22, 28.8),
        (90, 65, 6, 12, 0.06440, 90, 30, 22.8),
        (60, 40, 12, 4, 0.03682, 60, 18, 37.7),
    ],
)
def test_two_readings_foretell_the_cooling(
    first, second, apart, coolant, constant, start, target, minutes
):
    found = newton_constant(first, second, coolant, apart)
    assert found == pytest.approx(constant, abs=0.000006)
    took = newton_time(start, target, coolant, found)
    assert took == pytest.approx(minutes, abs=0.06)
    assert newton_temperature(start, coolant, found, took) == pytest.approx(target)


@pytest.mark.parametrize(
    ("start", "target", "coolant", "constant", "minutes"),
    [
        (90, 20, 20, 0.05, math.inf),
        (90, 15, 20, 0.05, math.inf),
        (90, 30, 20, 0.0, math.inf),
        (20, 30, 10, 0.05, 0.0),
        (30, 30, 40, 0.0, 0.0),
    ],
)
def test_the_coolant_is_the_floor(start, target, coolant, constant, minutes):
    assert newton_time(start, target, coolant, constant) == minutes
    assert (newton_time(start, np.full(2, target), coolant, constant) == minutes).all()


@pytest.mark.parametrize(
    ("first", "second", "coolant", "apart"), [(60, 60, 10, 5), (60, 5, 10, 5), (60, 50, 10, 0)]
)
def test_readings_that_say_nothing_give_no_constant(first, second, coolant, apart):
    assert newton_constant(first, second, coolant, apart) == 0.0


def test_ice_is_never_warmer_than_its_melting_point():
    assert ice_enthalpy_kj(2.0, 0.5) == ice_enthalpy_kj(2.0, 0.0) == -667.10


def test_a_small_fall_is_a_cooling_constant_and_a_rise_is_none():
    found = newton_constant(60.0, 59.5, 10.0, 1.0)
    assert found == pytest.approx(math.log(50.0 / 49.5))
    assert newton_constant(59.5, 60.0, 10.0, 1.0) == 0.0
    assert newton_constant(60.0, 50.0, 10.0, 0.5) == pytest.approx(math.log(50 / 40) / 0.5)


def test_the_last_degrees_take_the_time_that_newton_says():
    assert newton_time(30.0, 25.0, 10.0, 0.05) == pytest.approx(math.log(20 / 15) / 0.05)


def test_a_little_heat_melts_all_the_ice_and_no_more():
    assert settled(0.5, 1.0, 5.0, 0.25)[1] == 0.25


def test_wort_mixed_with_ice_is_as_warm_as_the_handbooks_mixing_rule_says():
    # 9.5 kg of 12 °P at 95 °C and 6.3 kg of ice of -18 °C; one specific heat, 3.95, for wort.
    extract, water, ice = 9.5 * 0.12, 9.5 * 0.88, 6.3
    together_kj = enthalpy_kj(extract, water, 95.0) + ice_enthalpy_kj(ice, -18.0)
    reached, melted = settled(together_kj, extract, water, ice)
    mixed = mixed_with_ice_c((9.5, 3.95, 95.0), (0.0, 0.0), (ice, -18.0))
    assert (reached, melted) == (pytest.approx(mixed, abs=0.5), ice)


@pytest.mark.parametrize("litres", [3.0, LIKE_POT_L, 20.0])
def test_a_bath_cools_by_the_wetted_surface_of_each_litre(litres):
    """Bottom and wall of a cylinder, in units of a pot of 8 L as deep as it is wide."""

    def surface_m2_per_l(volume_l, diameter_m):
        depth_m = volume_l / 1000.0 / (math.pi * diameter_m**2 / 4.0)
        return (math.pi * diameter_m**2 / 4.0 + math.pi * diameter_m * depth_m) / volume_l

    def as_deep_as_wide_m(volume_l):
        return (4.0 * volume_l / 1000.0 / math.pi) ** (1.0 / 3.0)

    like = surface_m2_per_l(LIKE_POT_L, as_deep_as_wide_m(LIKE_POT_L))
    for diameter_m in (0.18, 0.24, 0.36):
        wanted = 0.1 * surface_m2_per_l(litres, diameter_m) / like
        assert bath_constant(0.1, litres, diameter_m) == pytest.approx(wanted)
    unknown = bath_constant(0.1, litres)
    assert unknown == pytest.approx(bath_constant(0.1, litres, as_deep_as_wide_m(litres)))


def test_a_pot_that_stands_is_at_80_when_the_fit_that_it_is_made_of_is():
    """T = 53.70 exp(-b t) + 319.55 K, b = 0.0002925 A + 0.00538 with A in cm2 a litre: Hosom
    (figures as in `designer.wort.chilling`); the lid halves b, and Newton's law has to agree with
    it on the minutes from 100 to 80 °C."""
    litres, across_cm = 15.0, 36.0
    b = LID_HALVES * (0.0002925 * math.pi * across_cm**2 / 4.0 / litres + 0.00538)
    minutes = -math.log((80.0 + 273.15 - 319.55) / 53.70) / b
    constant = standing_constant(litres, across_cm / 100.0)
    assert newton_temperature(100.0, 20.0, constant, minutes) == pytest.approx(80.0)


@pytest.mark.parametrize(
    ("kj_k", "conducts", "watt_k"), [(33.5, 1.0, 150.0), (33.5, 0.5, 75.0), (80.0, 1.5, 225.0)]
)
def test_a_coil_takes_what_it_conducts_out_of_the_pot(kj_k, conducts, watt_k):
    """Heat balance: what goes out in a minute, of what a kelvin is worth. 150 W/K is judgement."""
    assert coil_constant(kj_k, conducts) == pytest.approx(watt_k * 60.0 / 1000.0 / kj_k)


def test_no_coil_conducts_more_than_its_water_carries():
    """280 W/K: 4 L of water a minute that leave as warm as the wort (4 × 4.18 / 60 kJ/s)."""
    assert coil_constant(80.0, 1.9) == coil_constant(80.0, 5.0) == pytest.approx(0.21, rel=0.01)
    assert 80.0 * coil_constant(80.0, 5.0) == pytest.approx(4.0 * 4.18, rel=0.01)
    assert coil_constant(0.0, 1.0) == 5.0


@pytest.mark.parametrize(
    ("heat_kj", "bath_c", "ice_c", "kg"),
    [(3335.5, 0.0, 0.0, 10.0), (3797.0, 2.0, -18.0, 10.0), (0.0, 2.0, -18.0, 0.0),
     (-50.0, 2.0, -18.0, 0.0)],
)  # fmt: skip
def test_the_ice_of_a_bath_takes_up_what_melts_and_warms_it(heat_kj, bath_c, ice_c, kg):
    """333.55 kJ/kg to melt, 2.1 a kelvin of ice, 4.19 of water (handbook values, from memory)."""
    assert bath_ice_kg(heat_kj, bath_c, ice_c) == pytest.approx(kg, abs=0.01)
