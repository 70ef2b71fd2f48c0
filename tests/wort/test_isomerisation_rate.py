"""The rate of isomerisation against the published constants and numerical integration."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from designer.wort.bitterness import tinseth_utilisation
from designer.wort.chilling import newton_temperature
from designer.wort.isomerisation_rate import (
    STOP_C,
    equivalent_minutes_cooling,
    equivalent_minutes_straight,
    relative_rate,
)


@pytest.mark.parametrize(
    ("temp_c", "rate"),
    # Malowicki & Shellhammer, J. Agric. Food Chem. 53 (2005) 4434: the rate of isomerisation over
    # that at 100 °C, computed from the published constants.
    [
        (100, 1.0000), (99, 0.9182), (98, 0.8426), (97, 0.7729), (96, 0.7087), (95, 0.6495),
        (94, 0.5949), (93, 0.5447), (92, 0.4985), (90, 0.4168), (85, 0.2642), (80, 0.1653),
        (75, 0.1021), (70, 0.0621), (65, 0.0373), (60, 0.0220), (50, 0.0073),
    ],
)  # fmt: skip
def test_rates_are_those_of_the_published_constants(temp_c, rate):
    assert relative_rate(temp_c) == pytest.approx(rate, abs=6e-5)


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
        (100.1, 46.40, 0.0002925 * 531.0 / 10.0 + 0.00538, 9.50, 0.0802),
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
    assert equivalent_minutes_straight(100.0, 60.0, 0.0) == 0
    assert equivalent_minutes_straight(100.0, 100.0, -5.0) == 0


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
