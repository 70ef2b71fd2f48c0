"""Cooling against worked heat balances and Newton's law."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from designer.wort.chilling import (
    COLD_WATER_SPECIFIC_HEAT,
    ice_enthalpy_kj,
    ice_for,
    mixed_with_ice,
    natural_cooling_constants,
    newton_constant,
    newton_temperature,
    newton_time,
    settled,
    water_for,
)
from designer.wort.heat import enthalpy_kj


@pytest.mark.parametrize(
    ("wort", "water", "ice", "temp_c", "melted"),
    # Computed from the heat balance.
    [
        ((10, 3.97, 100), (10, 10), (0, 0), 53.81, 0.0),
        ((9.5, 3.92, 95), (0, 0), (4, -18), 38.02, 4.0),
        ((6, 3.9, 98), (6, 8), (4, -18), 15.46, 4.0),
        ((5, 3.95, 30), (0, 0), (4, -18), 0.0, 1.32),
        ((4, 4.0, 25), (1, 5), (5, -15), 0.0, 0.79),
    ],
)
def test_wort_water_and_ice_share_their_heat(wort, water, ice, temp_c, melted):
    reached, gone = mixed_with_ice(*wort, *water, *ice)
    assert reached == pytest.approx(temp_c, abs=0.006)
    assert gone == pytest.approx(melted, abs=0.006)


@pytest.mark.parametrize(
    ("target", "wort", "water", "ice_c", "ice_kg"),
    # Computed from the heat balance.
    [
        (20, (9.5, 3.92, 95), (0, 0), -18, 6.138),
        (20, (8, 3.95, 60), (5, 12), -18, 2.410),
        (18, (10, 3.9, 40), (0, 0), 0, 2.098),
    ],
)
def test_ice_for_a_target_reaches_it(target, wort, water, ice_c, ice_kg):
    needed = ice_for(target, *wort, *water, ice_c)
    assert needed == pytest.approx(ice_kg, abs=0.0006)
    assert mixed_with_ice(*wort, *water, needed, ice_c)[0] == pytest.approx(target, abs=1e-9)


def test_wort_that_is_cold_already_needs_no_ice_and_no_water():
    assert ice_for(20.0, 10.0, 3.95, 15.0) == 0.0
    assert water_for(20.0, 10.0, 3.95, 15.0, 10.0) == 0.0


def test_water_for_a_target_reaches_it_if_it_is_colder():
    needed = water_for(30.0, 10.0, 3.95, 90.0, 10.0)
    assert mixed_with_ice(10.0, 3.95, 90.0, needed, 10.0, 0.0, 0.0)[0] == pytest.approx(30.0)
    assert water_for(10.0, 10.0, 3.95, 90.0, 10.0) == math.inf
    assert water_for(5.0, 10.0, 3.95, 90.0, 10.0) == math.inf


def test_too_much_cold_ice_would_freeze_water():
    temp_c, melted = mixed_with_ice(0.0, 3.95, 0.0, 1.0, 0.0, 5.0, -18.0)
    assert temp_c == 0.0
    assert melted == pytest.approx(-5 * 2.1 * 18 / 333.55)


@given(
    wort_c=st.floats(0, 100),
    water_kg=st.floats(0, 20),
    water_c=st.floats(0, 30),
    ice_kg=st.floats(0, 20),
    ice_c=st.floats(-30, 0),
)
def test_no_heat_is_made_or_lost_by_mixing(wort_c, water_kg, water_c, ice_kg, ice_c):
    temp_c, melted = mixed_with_ice(8.0, 3.95, wort_c, water_kg, water_c, ice_kg, ice_c)
    before = 8 * 3.95 * wort_c + water_kg * COLD_WATER_SPECIFIC_HEAT * water_c
    before += ice_enthalpy_kj(ice_kg, ice_c)
    liquid = 8 * 3.95 + (water_kg + melted) * COLD_WATER_SPECIFIC_HEAT
    after = liquid * temp_c + ice_enthalpy_kj(ice_kg - melted, 0.0)
    assert after == pytest.approx(before, abs=1e-6)


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
    assert mixed_with_ice(0.0, 3.95, 0.0, 0.0, 0.0, 0.0, 0.0) == (0.0, 0.0)
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


def test_an_open_pot_left_standing_cools_as_measured():
    # Hosom (published blog article): b = 0.0002925 Aeff / V + 0.00538, floor 319.55 K.
    constant, floor_c = natural_cooling_constants(531.0, 531.0, 10.0)
    assert constant == pytest.approx(0.0002925 * 531 / 10 + 0.00538)
    assert floor_c == pytest.approx(46.40)
    # The law starts at 53.70 + 319.55 K, the boil at sea level.
    assert newton_temperature(100.1, floor_c, constant, 0.0) == pytest.approx(100.1)


def test_an_empty_or_covered_pot_still_answers():
    assert natural_cooling_constants(0.0, 500.0, 0.0)[0] == pytest.approx(0.00538)


def test_ice_is_never_warmer_than_its_melting_point():
    assert ice_enthalpy_kj(2.0, 0.5) == ice_enthalpy_kj(2.0, 0.0) == -667.10


def test_ice_alone_is_reckoned_at_zero_degrees():
    assert ice_for(20.0, 8.0, 3.95, 60.0) == pytest.approx(
        8.0 * 3.95 * 40.0 / (4.186 * 20.0 + 333.55)
    )
    with_water = ice_for(20.0, 8.0, 3.95, 60.0, 1.0)
    assert with_water == ice_for(20.0, 8.0, 3.95, 60.0, 1.0, 0.0, 0.0)


def test_a_closed_pot_cools_at_the_rate_of_its_walls():
    """Hosom's measurements (blog article): 0.00538 a minute is left with the lid on."""
    assert natural_cooling_constants(530.0, 0.0, 8.0)[0] == pytest.approx(0.00538)
    half = natural_cooling_constants(400.0, 400.0, 0.5)[0]
    assert half == pytest.approx(0.0002925 * 400.0 / 0.5 + 0.00538)


def test_a_small_fall_is_a_cooling_constant_and_a_rise_is_none():
    found = newton_constant(60.0, 59.5, 10.0, 1.0)
    assert found == pytest.approx(math.log(50.0 / 49.5))
    assert newton_constant(59.5, 60.0, 10.0, 1.0) == 0.0
    assert newton_constant(60.0, 50.0, 10.0, 0.5) == pytest.approx(math.log(50 / 40) / 0.5)


def test_the_last_degrees_take_the_time_that_newton_says():
    assert newton_time(30.0, 25.0, 10.0, 0.05) == pytest.approx(math.log(20 / 15) / 0.05)


def test_a_little_heat_melts_all_the_ice_and_no_more():
    assert settled(0.5, 1.0, 5.0, 0.25)[1] == 0.25


def test_water_cools_wort_that_is_hardly_warmer_than_wanted():
    needed = water_for(20.0, 0.001, 3.95, 20.1, 19.5)
    assert needed == pytest.approx(0.001 * 3.95 * 0.1 / (4.186 * 0.5))
    assert water_for(20.0, 0.001, 3.95, 20.1, 20.0) == math.inf
    assert water_for(20.0, 8.0, 3.95, 20.0, 25.0) == 0.0
