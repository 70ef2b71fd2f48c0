"""The reactions of alpha acid against the published constants and numerical integration."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from designer.wort.bitterness import tinseth_utilisation
from designer.wort.chilling import natural_cooling_constants, newton_temperature
from designer.wort.isomerisation_rate import (
    STOP_C,
    degradation_rate,
    equivalent_minutes_cooling,
    equivalent_minutes_held,
    equivalent_minutes_straight,
    isomerisation_rate,
    peak_time,
    relative_rate,
    relative_rate_hosom,
    shares,
)

# Malowicki & Shellhammer, J. Agric. Food Chem. 53 (2005) 4434, and the fit to measured beers by
# Hosom (blog article): °C, rate made, rate lost, relative rate, half-life, Hosom. All computed
# from the published constants.
RATES = [
    (100, 0.012490, 0.003087, 1.0000, 55, 1.009),
    (99, 0.011468, 0.002812, 0.9182, 60, 0.941),
    (98, 0.010525, 0.002559, 0.8426, 66, 0.876),
    (97, 0.009654, 0.002328, 0.7729, 72, 0.816),
    (96, 0.008852, 0.002117, 0.7087, 78, 0.760),
    (95, 0.008112, 0.001924, 0.6495, 85, 0.707),
    (94, 0.007431, 0.001748, 0.5949, 93, 0.658),
    (93, 0.006803, 0.001587, 0.5447, 102, 0.612),
    (92, 0.006226, 0.001440, 0.4985, 111, 0.569),
    (90, 0.005206, 0.001183, 0.4168, 133, 0.491),
    (85, 0.003300, 0.000718, 0.2642, 210, 0.337),
    (80, 0.002065, 0.000430, 0.1653, 336, 0.229),
    (75, 0.001275, 0.000253, 0.1021, 544, 0.154),
    (70, 0.000776, 0.000147, 0.0621, 893, 0.102),
    (65, 0.000466, 0.000084, 0.0373, 1488, 0.067),
    (60, 0.000275, 0.000047, 0.0220, 2519, 0.043),
    (50, 0.000091, 0.000014, 0.0073, 7580, 0.018),
]


@pytest.mark.parametrize(("temp_c", "made", "lost", "r", "half_life", "upper"), RATES)
def test_rates_are_those_of_the_published_constants(temp_c, made, lost, r, half_life, upper):
    assert isomerisation_rate(temp_c) == pytest.approx(made, abs=1e-6)
    assert degradation_rate(temp_c) == pytest.approx(lost, abs=1e-6)
    assert relative_rate(temp_c) == pytest.approx(r, abs=6e-5)
    assert math.log(2) / isomerisation_rate(temp_c) == pytest.approx(half_life, rel=0.01)
    assert relative_rate_hosom(temp_c) == pytest.approx(upper, abs=6e-4)


@pytest.mark.parametrize(
    ("temp_c", "time_min", "left", "bitter", "lost"),
    # Computed from the published equations.
    [
        (100, 15, 0.8292, 0.1668, 0.0040),
        (100, 30, 0.6875, 0.2976, 0.0149),
        (100, 60, 0.4726, 0.4759, 0.0515),
        (100, 90, 0.3249, 0.5745, 0.1006),
        (90, 60, 0.7317, 0.2585, 0.0098),
        (80, 30, 0.9399, 0.0597, 0.0004),
        (110, 30, 0.4237, 0.5066, 0.0698),
    ],
)
def test_alpha_acid_is_left_made_bitter_or_lost_again(temp_c, time_min, left, bitter, lost):
    assert shares(temp_c, time_min) == pytest.approx((left, bitter, lost), abs=6e-5)


@pytest.mark.parametrize(("temp_c", "time_min"), [(100, 60), (92, 200), (110, 45), (70, 600)])
def test_the_closed_form_solves_the_two_rate_equations(temp_c, time_min):
    made, lost = isomerisation_rate(temp_c), degradation_rate(temp_c)

    def change(_time, acids):
        return [-made * acids[0], made * acids[0] - lost * acids[1]]

    end = solve_ivp(change, (0, time_min), [1, 0], rtol=1e-10, atol=1e-12).y[:, -1]
    assert shares(temp_c, time_min)[:2] == pytest.approx(tuple(end), abs=1e-8)


@given(temp_c=st.floats(20, 130), time_min=st.floats(-10, 2000))
def test_no_alpha_acid_is_lost_from_the_books(temp_c, time_min):
    parts = shares(temp_c, time_min)
    assert sum(parts) == pytest.approx(1)
    assert min(parts) >= -1e-12


@pytest.mark.parametrize("temp_c", [60.0, 90.0, 100.0, 110.0])
def test_bitterness_is_at_its_most_at_the_peak(temp_c):
    peak = peak_time(temp_c)
    at_peak = shares(temp_c, peak)[1]
    assert at_peak > shares(temp_c, 0.97 * peak)[1]
    assert at_peak > shares(temp_c, 1.03 * peak)[1]


def test_the_peak_at_the_boil_comes_after_two_and_a_half_hours():
    # Computed from the published constants.
    assert peak_time(100.0) == pytest.approx(148.6, abs=0.06)
    at_peak = shares(100.0, peak_time(100.0))
    assert at_peak == pytest.approx((0.1562, 0.6320, 0.2118), abs=6e-5)


@pytest.mark.parametrize(
    ("boil_min", "kinetic", "tinseth", "ratio"),
    # Why no single factor turns the reaction into Tinseth's curve; computed.
    [
        (5, 0.060, 0.046, 0.77),
        (15, 0.167, 0.114, 0.69),
        (30, 0.298, 0.177, 0.60),
        (60, 0.476, 0.231, 0.48),
        (90, 0.574, 0.247, 0.43),
    ],
)
def test_reaction_and_tinseth_drift_apart(boil_min, kinetic, tinseth, ratio):
    bitter = shares(100.0, boil_min)[1]
    assert bitter == pytest.approx(kinetic, abs=6e-4)
    assert tinseth_utilisation(1.050, boil_min) == pytest.approx(tinseth, abs=6e-4)
    assert tinseth_utilisation(1.050, boil_min) / bitter == pytest.approx(ratio, abs=6e-3)


@pytest.mark.parametrize(
    ("temp_c", "time_min", "minutes", "utilisation"),
    # Held at a temperature; computed with the project's proposed clock.
    [
        (97, 20, 15.46, 0.1170),
        (90, 20, 8.34, 0.0719),
        (80, 30, 4.96, 0.0457),
        (75, 30, 3.06, 0.0292),
        (70, 30, 1.86, 0.0182),
        (60, 30, 0.66, 0.0066),
    ],
)
def test_a_stand_counts_less_the_cooler_it_is(temp_c, time_min, minutes, utilisation):
    counted = equivalent_minutes_held(temp_c, time_min)
    assert counted == pytest.approx(minutes, abs=0.006)
    assert tinseth_utilisation(1.050, counted) == pytest.approx(utilisation, abs=6e-5)


@pytest.mark.parametrize(
    ("to_c", "time_min", "minutes", "utilisation"),
    [(60, 15, 4.08, 0.0382), (80, 10, 4.71, 0.0436)],
)
def test_an_even_fall_from_the_boil_counts(to_c, time_min, minutes, utilisation):
    # Computed with the project's proposed clock.
    counted = equivalent_minutes_straight(100.0, to_c, time_min)
    assert counted == pytest.approx(minutes, abs=0.006)
    assert tinseth_utilisation(1.050, counted) == pytest.approx(utilisation, abs=6e-5)


@pytest.mark.parametrize(
    ("from_c", "coolant_c", "constant", "minutes", "utilisation"),
    # 20 minutes, computed with the project's proposed clock: standing with the lid on; natural
    # cooling of 10 L in an open pot of 26 cm by Hosom's fit, which starts from 100.1 °C.
    [
        (100.0, 20.0, 1 / 150, 13.26, 0.1044),
        (100.1, *natural_cooling_constants(531.0, 531.0, 10.0)[::-1], 9.50, 0.0802),
    ],
)
def test_slow_cooling_goes_on_making_bitterness(from_c, coolant_c, constant, minutes, utilisation):
    end = newton_temperature(from_c, coolant_c, constant, 20.0)
    counted = equivalent_minutes_cooling(from_c, end, coolant_c, constant)
    assert counted == pytest.approx(minutes, abs=0.006)
    assert tinseth_utilisation(1.050, counted) == pytest.approx(utilisation, abs=6e-5)


def test_an_ice_bath_leaves_two_and_a_half_minutes_of_boil():
    # 100 to 20 °C, Newton's law with 15 min: 2.46 if counted to the end, computed. What lies below
    # 60 °C, where the clock is stopped, is 0.09 of it at most.
    counted = equivalent_minutes_cooling(100.0, 30.83, 20.0, 1 / 15)
    everything = equivalent_minutes_cooling(100.0, 30.83, 20.0, 1 / 15, stop_c=0.0)
    assert everything == pytest.approx(2.46, abs=0.006)
    assert everything - 0.1 < counted < everything
    assert tinseth_utilisation(1.050, everything) == pytest.approx(0.0238, abs=1e-4)


def summed(temp_at, minutes):
    """Return the boil-equivalent minutes of a temperature curve, by adaptive quadrature."""
    return quad(lambda t: relative_rate(temp_at(t)), 0, minutes, epsabs=1e-13, epsrel=1e-12)[0]


@given(
    from_c=st.floats(61, 101),
    to_c=st.floats(0, 101),
    coolant_c=st.floats(0, 45),
    constant=st.floats(0.004, 0.5),
)
def test_cooling_in_closed_nodes_equals_adaptive_quadrature(from_c, to_c, coolant_c, constant):
    end = max(to_c, STOP_C)
    counted = equivalent_minutes_cooling(from_c, to_c, coolant_c, constant)
    if end >= from_c:
        assert counted == 0
    else:
        minutes = math.log((from_c - coolant_c) / (end - coolant_c)) / constant
        direct = summed(lambda t: newton_temperature(from_c, coolant_c, constant, t), minutes)
        assert counted == pytest.approx(direct, rel=1e-6)


def test_cooling_to_a_degree_above_the_coolant_is_good_to_a_hundredth():
    minutes = math.log(40 / 1) / 0.02
    direct = summed(lambda t: newton_temperature(100.0, 60.0, 0.02, t), minutes)
    assert equivalent_minutes_cooling(100.0, 61.0, 60.0, 0.02) == pytest.approx(direct, rel=0.01)


@given(from_c=st.floats(20, 101), to_c=st.floats(20, 101), time_min=st.floats(0, 300))
def test_an_even_change_equals_adaptive_quadrature(from_c, to_c, time_min):
    def counted_rate(share):
        temp_c = from_c + (to_c - from_c) * share
        return relative_rate(temp_c) if temp_c >= STOP_C else 0.0

    crossing = [(STOP_C - from_c) / (to_c - from_c)] if abs(to_c - from_c) > 1e-6 else []
    breaks = [share for share in crossing if 0 < share < 1]
    direct = time_min * quad(counted_rate, 0, 1, points=breaks or None)[0]
    assert equivalent_minutes_straight(from_c, to_c, time_min) == pytest.approx(
        direct, rel=1e-6, abs=1e-6
    )


def test_the_clock_is_stopped_below_60_degrees():
    assert equivalent_minutes_held(59.9, 30.0) == 0
    assert equivalent_minutes_straight(59.0, 20.0, 30.0) == 0
    assert equivalent_minutes_cooling(59.0, 20.0, 5.0, 0.05) == 0
    assert equivalent_minutes_cooling(100.0, 20.0, 5.0, 0.05) == equivalent_minutes_cooling(
        100.0, 60.0, 5.0, 0.05
    )


def test_wort_that_never_cools_counts_without_end():
    assert equivalent_minutes_cooling(100.0, 60.0, 60.0, 0.05) == math.inf
    assert equivalent_minutes_cooling(100.0, 60.0, 20.0, 0.0) == math.inf
    assert equivalent_minutes_cooling(90.0, 95.0, 99.0, 0.0) == 0
    assert np.isinf(equivalent_minutes_cooling(np.array([100.0]), 60.0, 60.0, 0.05)).all()


def test_no_time_counts_nothing():
    assert equivalent_minutes_held(100.0, 0.0) == 0
    assert equivalent_minutes_held(100.0, -5.0) == 0
    assert equivalent_minutes_straight(100.0, 60.0, 0.0) == 0
    assert shares(100.0, 0.0) == (1.0, 0.0, 0.0)


def test_wort_held_at_the_stopping_point_counts_by_its_rate():
    stop = STOP_C
    straight = equivalent_minutes_straight(stop, stop, 10.0)
    assert straight == pytest.approx(10.0 * relative_rate(stop))
    assert equivalent_minutes_straight(stop - 1.0, stop - 5.0, 10.0) == 0.0
    mixed = equivalent_minutes_straight(np.array([95.0, 50.0]), np.array([95.0, 40.0]), 10.0)
    rate = relative_rate(95.0)
    assert mixed == pytest.approx([10.0 * rate, 0.0])
    assert equivalent_minutes_straight(0.0, 0.0, 10.0) == 0.0


@pytest.mark.parametrize("half", [3.0, 3.9, 4.4, 20.0])
def test_a_straight_warming_counts_as_its_integral(half):
    """Source: adaptive quadrature (scipy) of the same rate."""
    from scipy.integrate import quad

    low, high = 100.0 - 2 * half, 100.0
    mean = quad(relative_rate, low, high, epsabs=0, epsrel=1e-12)[0]
    found = equivalent_minutes_straight(low, high, 7.0)
    assert found == pytest.approx(7.0 * mean / (high - low), rel=3e-10)


def test_cooling_that_never_ends_counts_for_ever_however_short():
    never = equivalent_minutes_cooling(80.5, 80.0, 85.0, 0.05)
    assert never == math.inf
    assert equivalent_minutes_cooling(80.0, 80.0, 85.0, 0.05) == 0.0
    both = equivalent_minutes_cooling(np.array([90.0, 80.0]), 80.0, np.array([85.0, 85.0]), 0.05)
    assert list(both) == [math.inf, 0.0]
