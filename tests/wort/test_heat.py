"""Heat content, heating time and evaporation against IAPWS-95 and worked cases."""

import math
import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from designer.wort.density import wort_density
from designer.wort.heat import (
    STOVE_EFFICIENCY,
    boiling_point_rise,
    enthalpy_kj,
    evaporation_kg_h,
    heat_capacity_kj_k,
    heating_time_min,
    temperature_after_heating,
    temperature_for,
)
from designer.wort.water import water_density

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from iapws import IAPWS95


def wort_in(litres, plato):
    mass = litres * wort_density(plato / 100, 20.0) / 1000
    return mass * plato / 100, mass * (1 - plato / 100)


@pytest.mark.parametrize(
    ("plato", "temp_c", "kj"),
    # Computed from Bubník et al., Sugar Technologists Manual (1995).
    [
        (0, 60, 4.187),
        (10, 20, 3.951),
        (10, 60, 3.981),
        (12, 60, 3.940),
        (15, 95, 3.917),
        (20, 60, 3.775),
    ],
)
def test_specific_heat_falls_with_strength(plato, temp_c, kj):
    extract, water = plato / 100, 1 - plato / 100
    assert heat_capacity_kj_k(extract, water, temp_c) == pytest.approx(kj, abs=0.0006)


def test_specific_heat_of_water_is_near_the_standard():
    # IAPWS-95: 4.185 at 60 °C; the equation is 0.6 % off at 95 °C.
    for temp_c in (20.0, 60.0, 95.0):
        standard = IAPWS95(T=temp_c + 273.15, P=0.101325).cp
        assert heat_capacity_kj_k(0.0, 1.0, temp_c) == pytest.approx(standard, rel=0.006)


@pytest.mark.parametrize(
    ("litres", "plato", "from_c", "to_c", "watts", "efficiency", "kj", "minutes"),
    # Computed from the equation, no loss.
    [
        (10, 0, 20, 100, 2000, 0.74, 3343, 37.7),
        (10, 12, 20, 100, 2000, 0.74, 3298, 37.1),
        (5, 0, 15, 70, 1500, 0.74, 1149, 17.3),
        (8, 15, 65, 100, 2200, 0.74, 1158, 11.9),
        (12, 10, 20, 100, 1800, 0.40, 3967, 91.8),
    ],
)
def test_heat_to_reach_a_temperature_and_the_minutes(
    litres, plato, from_c, to_c, watts, efficiency, kj, minutes
):
    wort = wort_in(litres, plato)
    needed = enthalpy_kj(*wort, to_c) - enthalpy_kj(*wort, from_c)
    assert needed == pytest.approx(kj, abs=1.0)
    capacity = heat_capacity_kj_k(*wort, (from_c + to_c) / 2)
    took = heating_time_min(capacity, from_c, to_c, efficiency * watts)
    assert took == pytest.approx(minutes, abs=0.06)


def test_a_pot_that_loses_heat_takes_longer():
    # Computed: 10 L of water, 20 to 100 °C, 2000 W electric, 5 W/K, room 20 °C: 43.9 min.
    capacity = heat_capacity_kj_k(*wort_in(10, 0), 60.0)
    assert heating_time_min(capacity, 20, 100, 1480, 5, 20) == pytest.approx(43.9, abs=0.06)


def test_heating_follows_the_differential_equation():
    # C dT/dt = P - UA (T - room), integrated by scipy.
    capacity, watts, loss, room = 38.0, 900.0, 6.0, 18.0
    solution = solve_ivp(
        lambda _t, temp: (watts - loss * (temp - room)) / (1000 * capacity),
        (0, 45 * 60),
        [30.0],
        rtol=1e-10,
        atol=1e-10,
    )
    end = float(solution.y[0, -1])
    after = temperature_after_heating(capacity, 30.0, 45.0, watts, loss, room)
    assert after == pytest.approx(end, abs=1e-6)
    assert heating_time_min(capacity, 30.0, end, watts, loss, room) == pytest.approx(45.0)


def test_no_loss_is_the_limit_of_a_small_loss():
    plain = heating_time_min(40.0, 20.0, 100.0, 1000.0, 0.0)
    assert plain == pytest.approx(40e3 * 80 / 1000 / 60, rel=1e-12)
    assert heating_time_min(40.0, 20.0, 100.0, 1000.0, 1e-9) == pytest.approx(plain, rel=1e-9)
    after = temperature_after_heating(40.0, 20.0, plain, 1000.0, 0.0)
    assert after == pytest.approx(100.0, rel=1e-10)


@pytest.mark.parametrize(
    ("from_c", "to_c", "watts", "loss", "minutes"),
    [
        (20, 100, 0.0, 0.0, math.inf),
        (20, 100, 400.0, 5.0, math.inf),
        (20, 100, 300.0, 5.0, math.inf),
        (100, 20, 0.0, 5.0, 0.0),
        (60, 60, 0.0, 0.0, 0.0),
    ],
)
def test_what_the_stove_cannot_reach_takes_for_ever(from_c, to_c, watts, loss, minutes):
    assert heating_time_min(40.0, from_c, to_c, watts, loss, 20.0) == minutes
    column = np.array([watts, watts])
    assert (heating_time_min(40.0, from_c, to_c, column, loss, 20.0) == minutes).all()


@pytest.mark.parametrize(
    ("watts", "kg_h", "cold_l_h"),
    # Computed.
    [
        (500, 0.798, 0.799),
        (800, 1.276, 1.279),
        (1000, 1.595, 1.598),
        (1500, 2.393, 2.397),
        (2000, 3.191, 3.197),
    ],
)
def test_power_left_over_boils_water_away(watts, kg_h, cold_l_h):
    assert evaporation_kg_h(watts) == pytest.approx(kg_h, abs=0.0006)
    cold = evaporation_kg_h(watts) * 1000 / water_density(20.0)
    assert cold == pytest.approx(cold_l_h, abs=0.0006)


def test_no_power_left_boils_nothing_away():
    assert evaporation_kg_h(-50.0) == 0.0


@pytest.mark.parametrize(
    ("plato", "kelvin"), [(0, 0.0), (10, 0.17), (12, 0.20), (15, 0.26), (20, 0.37), (25, 0.50)]
)
def test_extract_raises_the_boiling_point(plato, kelvin):
    # Computed, ideal solution of sucrose.
    assert boiling_point_rise(plato) == pytest.approx(kelvin, abs=0.006)


def test_pure_sugar_does_not_divide_by_zero():
    assert math.isfinite(boiling_point_rise(100.0))


def test_stoves_deliver_the_published_shares():
    # Sweeney et al., ACEEE Summer Study 2014 (74 and 40 %); induction 84 % US DOE, quoted.
    assert STOVE_EFFICIENCY == {"electric": 0.74, "gas": 0.40, "induction": 0.84}


def test_an_empty_pot_has_no_heat_and_zero_degrees():
    assert enthalpy_kj(0.0, 0.0, 80.0) == 0.0
    assert temperature_for(0.0, 0.0, 0.0) == 0.0
    assert temperature_for(50.0, 0.0, 0.0) == 0.0
    assert temperature_after_heating(0.0, 20.0, 10.0, 1500.0, 0.0) == 20.0
    assert (temperature_for(np.zeros(3), np.zeros(3), np.zeros(3)) == 0.0).all()


@given(
    extract=st.floats(0.0, 10.0),
    water=st.floats(0.01, 40.0),
    temp_c=st.floats(0.0, 105.0),
)
def test_temperature_comes_back_from_the_heat_content(extract, water, temp_c):
    found = temperature_for(enthalpy_kj(extract, water, temp_c), extract, water)
    assert found == pytest.approx(temp_c, abs=1e-9)


@given(
    first=st.tuples(st.floats(0, 3), st.floats(0.1, 20), st.floats(0, 100)),
    second=st.tuples(st.floats(0, 3), st.floats(0.1, 20), st.floats(0, 100)),
)
def test_mixing_keeps_the_heat_and_lands_between(first, second):
    together = enthalpy_kj(*first) + enthalpy_kj(*second)
    mixed = temperature_for(together, first[0] + second[0], first[1] + second[1])
    assert min(first[2], second[2]) - 1.0 <= mixed <= max(first[2], second[2]) + 1e-6


def test_a_pot_that_loses_nothing_ignores_the_kitchen():
    assert heating_time_min(40.0, 20.0, 60.0, 1000.0) == pytest.approx(40.0 * 40.0 / 60.0)
    assert temperature_after_heating(40.0, 20.0, 10.0, 1000.0) == pytest.approx(35.0)
    assert heating_time_min(40.0, 20.0, 60.0, 1000.0, 4.0) == heating_time_min(
        40.0, 20.0, 60.0, 1000.0, 4.0, 20.0
    )
    assert temperature_after_heating(40.0, 20.0, 5.0, 1000.0, 4.0) == (
        temperature_after_heating(40.0, 20.0, 5.0, 1000.0, 4.0, 20.0)
    )


def test_half_a_degree_that_is_never_reached_takes_for_ever():
    assert heating_time_min(40.0, 80.0, 80.5, 100.0, 4.0) == math.inf
    assert heating_time_min(40.0, 80.0, 80.0, 100.0, 4.0) == 0.0


def test_a_cup_of_wort_warms_too():
    assert temperature_after_heating(0.5, 20.0, 0.1, 100.0) == pytest.approx(21.2)
