"""Small amounts count like large ones, defaults are what they say, and choices are passed on."""

import math
from functools import partial

import numpy as np
import pytest

from designer.wort import (
    bitterness,
    bitterness_methods,
    chilling,
    colour,
    density,
    extract,
    fermentation,
    heat,
    hydrometer,
    isomerisation_rate,
    numeric,
    refractometer,
    steeping,
    vessel_fit,
    water_treatment,
)


@pytest.mark.parametrize(
    ("of_volume", "at_19_l"),
    [
        (partial(bitterness.alpha_added_mg_l, 0.01, 0.05), 26.315789),
        (partial(bitterness.hopped_kit_ibu, 25.0, 23.0), 30.263158),
        (partial(bitterness.pot_ceiling, 6.0), 31.578947),
        (partial(colour.malt_colour_units, 40.0), 17.569263),
        (lambda litres: 1000 * (extract.gravity_by_points(1.0, litres) - 1), 20.296890),
    ],
)
def test_half_a_litre_dilutes_as_nineteen_litres_do(of_volume, at_19_l):
    """Twice the wort, half the strength (mass balance)."""
    assert of_volume(19.0) == pytest.approx(at_19_l, rel=1e-5)
    assert of_volume(0.5) == pytest.approx(38.0 * at_19_l, rel=1e-5)


def test_half_a_litre_of_wort_and_water_mixes_like_more():
    assert hydrometer.mixed_gravity(0.25, 1.060, 0.25) == pytest.approx(1.030)


def test_hops_boiled_for_half_a_minute_count_by_rager():
    by_the_curve = (18.11 + 13.86 * math.tanh((0.5 - 31.32) / 18.27)) / 100
    assert bitterness_methods.rager_utilisation(0.5) == pytest.approx(by_the_curve)


def test_the_utilisation_constant_is_taken_in_every_form():
    """Tinseth's constant stands below the line: a kettle at 3.9 gives 4.15/3.9 as much."""
    more = 4.15 / 3.9
    by_default = bitterness.tinseth_ibu(0.03, 0.05, 60.0, 1.05, 19.0)
    assert bitterness.tinseth_ibu(0.03, 0.05, 60.0, 1.05, 19.0, 3.9) == pytest.approx(
        more * by_default
    )
    between = bitterness.tinseth_utilisation_between(1.05, 10.0, 60.0)
    assert bitterness.tinseth_utilisation_between(1.05, 10.0, 60.0, 3.9) == pytest.approx(
        more * between
    )


def test_alpha_acid_dissolves_wholly_below_the_limit_only():
    """Hosom's fit (blog article): 490 (1 - exp(-0.0028 x)) from 240 mg/L on."""
    assert bitterness.dissolved_alpha(0.5) == 0.5
    assert bitterness.dissolved_alpha(239.9) == 239.9
    for added in (240.0, 240.5):
        fitted = 490.0 * (1.0 - math.exp(-0.0028 * added))
        assert bitterness.dissolved_alpha(added) == pytest.approx(fitted)


def test_pellets_before_the_first_class_give_nothing():
    assert bitterness.daniels_pellet_utilisation(-1.0) == 0.0


def test_ice_is_never_warmer_than_its_melting_point():
    assert chilling.ice_enthalpy_kj(2.0, 0.5) == chilling.ice_enthalpy_kj(2.0, 0.0) == -667.10


def test_ice_alone_is_reckoned_at_zero_degrees():
    assert chilling.ice_for(20.0, 8.0, 3.95, 60.0) == pytest.approx(
        8.0 * 3.95 * 40.0 / (4.186 * 20.0 + 333.55)
    )
    with_water = chilling.ice_for(20.0, 8.0, 3.95, 60.0, 1.0)
    assert with_water == chilling.ice_for(20.0, 8.0, 3.95, 60.0, 1.0, 0.0, 0.0)


def test_a_closed_pot_cools_at_the_rate_of_its_walls():
    """Hosom's measurements (blog article): 0.00538 a minute is left with the lid on."""
    assert chilling.natural_cooling_constants(530.0, 0.0, 8.0)[0] == pytest.approx(0.00538)
    half = chilling.natural_cooling_constants(400.0, 400.0, 0.5)[0]
    assert half == pytest.approx(0.0002925 * 400.0 / 0.5 + 0.00538)


def test_a_small_fall_is_a_cooling_constant_and_a_rise_is_none():
    found = chilling.newton_constant(60.0, 59.5, 10.0, 1.0)
    assert found == pytest.approx(math.log(50.0 / 49.5))
    assert chilling.newton_constant(59.5, 60.0, 10.0, 1.0) == 0.0
    assert chilling.newton_constant(60.0, 50.0, 10.0, 0.5) == pytest.approx(math.log(50 / 40) / 0.5)


def test_the_last_degrees_take_the_time_that_newton_says():
    assert chilling.newton_time(30.0, 25.0, 10.0, 0.05) == pytest.approx(math.log(20 / 15) / 0.05)


def test_a_little_heat_melts_all_the_ice_and_no_more():
    assert chilling.settled(0.5, 1.0, 5.0, 0.25)[1] == 0.25


def test_water_cools_wort_that_is_hardly_warmer_than_wanted():
    needed = chilling.water_for(20.0, 0.001, 3.95, 20.1, 19.5)
    assert needed == pytest.approx(0.001 * 3.95 * 0.1 / (4.186 * 0.5))
    assert chilling.water_for(20.0, 0.001, 3.95, 20.1, 20.0) == math.inf
    assert chilling.water_for(20.0, 8.0, 3.95, 20.0, 25.0) == 0.0


@pytest.mark.parametrize(("fraction", "temp_c"), [(0.05, 20.0), (0.12, 20.0), (0.4, 75.0)])
def test_the_slope_of_the_density_is_that_of_its_curve(fraction, temp_c):
    step = 1e-5
    rise = density.wort_density(fraction + step, temp_c) - density.wort_density(
        fraction - step, temp_c
    )
    assert density.density_slope(fraction, temp_c) == pytest.approx(rise / (2 * step), rel=1e-7)
    assert density.density_slope(fraction) == density.density_slope(fraction, 20.0)


def test_water_for_a_volume_is_exact_for_thin_wort_and_for_syrup():
    for extract_kg in (0.01, 2.0, 6.0):
        water_kg = extract.water_for_volume(extract_kg, 10.0)
        assert extract.volume_l(extract_kg, water_kg) == pytest.approx(10.0, rel=1e-9)


def test_every_fermentable_needs_its_fermentability():
    with pytest.raises(ValueError, match="zip"):
        fermentation.real_fermentability([1.0, 2.0], [0.6], [False, False], 0.75)


def test_gas_of_strong_beer_is_counted_on_the_wort():
    """Balling: 2.0665 g of extract give 1 g of alcohol and 0.9565 g of gas."""
    by_weight = fermentation.alcohol_by_weight(24.0, 6.0)
    per_100g = by_weight / (1.0 + 0.010665 * by_weight)
    kg_m3 = density.wort_density(0.24, 20.0)
    assert fermentation.co2_from_extracts(24.0, 6.0) == pytest.approx(
        0.9565 * per_100g * kg_m3 / 100.0, rel=1e-12
    )


def test_a_pot_that_loses_nothing_ignores_the_kitchen():
    assert heat.heating_time_min(40.0, 20.0, 60.0, 1000.0) == pytest.approx(40.0 * 40.0 / 60.0)
    assert heat.temperature_after_heating(40.0, 20.0, 10.0, 1000.0) == pytest.approx(35.0)
    assert heat.heating_time_min(40.0, 20.0, 60.0, 1000.0, 4.0) == heat.heating_time_min(
        40.0, 20.0, 60.0, 1000.0, 4.0, 20.0
    )
    assert heat.temperature_after_heating(40.0, 20.0, 5.0, 1000.0, 4.0) == (
        heat.temperature_after_heating(40.0, 20.0, 5.0, 1000.0, 4.0, 20.0)
    )


def test_half_a_degree_that_is_never_reached_takes_for_ever():
    assert heat.heating_time_min(40.0, 80.0, 80.5, 100.0, 4.0) == math.inf
    assert heat.heating_time_min(40.0, 80.0, 80.0, 100.0, 4.0) == 0.0


def test_a_cup_of_wort_warms_too():
    assert heat.temperature_after_heating(0.5, 20.0, 0.1, 100.0) == pytest.approx(21.2)


def test_an_instrument_is_made_for_twenty_degrees_unless_said():
    assert hydrometer.extract_from_reading(1.05, 30.0) == hydrometer.extract_from_reading(
        1.05, 30.0, 20.0
    )
    old = hydrometer.reading_for(1.05, 30.0, 15.0)
    assert hydrometer.true_gravity(old, 30.0, 15.0) == pytest.approx(1.05, abs=1e-12)


@pytest.mark.parametrize("form", ["linear", "cubic", "older"])
def test_both_refractometer_readings_are_corrected(form):
    """Dividing both readings by 1.04 beforehand is the same as a correction of 1.04."""
    final = getattr(refractometer, f"final_gravity_{form}")
    beforehand = final(12.5 / 1.04, 6.2 / 1.04, 1.0)
    assert final(12.5, 6.2, 1.04) == pytest.approx(beforehand, rel=1e-12)
    assert final(12.5, 6.2, 1.00) != pytest.approx(beforehand, abs=1e-4)


def test_two_kilograms_of_grain_take_twice_the_heat():
    assert steeping.grain_heat_capacity_kj_k(2.0) == pytest.approx(2 * 4.1868 * 0.40)
    assert steeping.grain_heat_capacity_kj_k(2.0, 0.42) == pytest.approx(2 * 4.1868 * 0.42)


def test_a_very_thick_mash_slakes_more():
    assert steeping.slaking_rise(3.0, 0.5) == pytest.approx(steeping.slaking_rise(3.0) * 2.9 / 0.9)


def test_a_pot_needs_a_fifth_of_room_unless_said():
    assert vessel_fit.pot_needed_l(8.0) == vessel_fit.pot_needed_l(8.0, 0.20, 0.0, 0.0)
    of_wort = vessel_fit.pot_needed_l(8.0, 0.20, 0.5, 0.20)
    assert of_wort == pytest.approx((vessel_fit.hot_volume_l(8.0, 0.20) + 0.5) / 0.8)
    assert vessel_fit.fermenter_needed_l(16.0) == pytest.approx(20.0)


def test_twice_the_chlorine_adds_twice_the_sulfate():
    assert water_treatment.sulfate_added_mg_l(2.0) == pytest.approx(2.71)


def test_wort_held_at_the_stopping_point_counts_by_its_rate():
    stop = isomerisation_rate.STOP_C
    straight = isomerisation_rate.equivalent_minutes_straight(stop, stop, 10.0)
    assert straight == pytest.approx(10.0 * isomerisation_rate.relative_rate(stop))
    assert isomerisation_rate.equivalent_minutes_straight(stop - 1.0, stop - 5.0, 10.0) == 0.0
    mixed = isomerisation_rate.equivalent_minutes_straight(
        np.array([95.0, 50.0]), np.array([95.0, 40.0]), 10.0
    )
    rate = isomerisation_rate.relative_rate(95.0)
    assert mixed == pytest.approx([10.0 * rate, 0.0])
    assert isomerisation_rate.equivalent_minutes_straight(0.0, 0.0, 10.0) == 0.0


@pytest.mark.parametrize("half", [3.0, 3.9, 4.4, 20.0])
def test_a_straight_warming_counts_as_its_integral(half):
    """Source: adaptive quadrature (scipy) of the same rate."""
    from scipy.integrate import quad

    low, high = 100.0 - 2 * half, 100.0
    mean = quad(isomerisation_rate.relative_rate, low, high, epsabs=0, epsrel=1e-12)[0]
    found = isomerisation_rate.equivalent_minutes_straight(low, high, 7.0)
    assert found == pytest.approx(7.0 * mean / (high - low), rel=3e-10)


def test_cooling_that_never_ends_counts_for_ever_however_short():
    never = isomerisation_rate.equivalent_minutes_cooling(80.5, 80.0, 85.0, 0.05)
    assert never == math.inf
    assert isomerisation_rate.equivalent_minutes_cooling(80.0, 80.0, 85.0, 0.05) == 0.0
    both = isomerisation_rate.equivalent_minutes_cooling(
        np.array([90.0, 80.0]), 80.0, np.array([85.0, 85.0]), 0.05
    )
    assert list(both) == [math.inf, 0.0]


@pytest.mark.parametrize(("points", "power"), [(8, 15), (4, 7)])
def test_gauss_points_are_exact_up_to_their_power(points, power):
    """Gauss-Legendre of n points is exact up to the power 2 n - 1."""

    def polynomial(x):
        return x**power + x ** (power - 1) - 3.0 * x

    def integral(x):
        return x ** (power + 1) / (power + 1) + x**power / power - 1.5 * x * x

    for middle, half in ((0.2, 1.0), (-0.4, 0.7)):
        exact = (integral(middle + half) - integral(middle - half)) / (2 * half)
        assert numeric.mean_over(polynomial, middle, half, points) == pytest.approx(
            exact, abs=1e-13
        )
        several = numeric.mean_over(
            polynomial, np.array([[middle, 0.0]]), np.array([[half, 0.0]]), points
        )
        assert several == pytest.approx(np.array([[exact, 0.0]]), abs=1e-13)
    assert numeric.mean_over(math.exp, 0.0, 1.0) == pytest.approx(math.sinh(1.0), rel=1e-14)
