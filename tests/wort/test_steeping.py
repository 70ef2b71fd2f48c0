"""Steeping against worked heat balances and Palmer's experiment."""

import numpy as np
import pytest

from designer.wort.extract import points_per_kg_l
from designer.wort.steeping import (
    MALT_SPECIFIC_HEAT,
    grain_heat_capacity_kj_k,
    held_water_l,
    malt_specific_heat,
    slaking_rise,
    steep_extract_fraction,
    strike_temperature,
    temperature_after_grain_in,
)


@pytest.mark.parametrize(
    ("grain_kg", "grain_c", "water_kg", "water_c", "mixed_c"),
    # Computed from the heat balance.
    [
        (0.5, 20, 5, 70, 68.08),
        (0.45, 21, 3.8, 71, 68.74),
        (1, 18, 8, 72, 69.43),
        (0.2, 20, 10, 70, 69.60),
    ],
)
def test_grain_cools_the_water(grain_kg, grain_c, water_kg, water_c, mixed_c):
    reached = temperature_after_grain_in(grain_kg, grain_c, water_kg, water_c)
    assert reached == pytest.approx(mixed_c, abs=0.006)


def test_dry_malt_in_a_thick_mash_warms_it_by_slaking():
    # Inputs: the worked example of Pauls & Whites, Brewing Room Book; its answer was not seen.
    specific = malt_specific_heat(2.0)
    mixed = temperature_after_grain_in(1.0, 27.0, 2.68, 69.0, specific)
    assert mixed == pytest.approx(63.66, abs=0.006)
    assert mixed + slaking_rise(2.0) == pytest.approx(65.96, abs=0.006)


@pytest.mark.parametrize(
    ("grain_kg", "grain_c", "water_kg", "target_c", "strike_c"),
    # Computed from the heat balance.
    [
        (0.5, 20, 5, 68, 69.92),
        (0.45, 21, 3.8, 67, 69.18),
        (1, 18, 4, 66, 70.80),
        (0.25, 22, 2, 70, 72.40),
        (0.75, 19, 6, 68, 70.45),
    ],
)
def test_the_strike_temperature_makes_up_for_the_grain(
    grain_kg, grain_c, water_kg, target_c, strike_c
):
    strike = strike_temperature(target_c, grain_kg, water_kg, grain_c)
    assert strike == pytest.approx(strike_c, abs=0.006)
    reached = temperature_after_grain_in(grain_kg, grain_c, water_kg, strike)
    assert reached == pytest.approx(target_c)


def test_palmers_infusion_equation_is_this_one_with_another_specific_heat():
    # Published: Tw = (0.2/r)(T2 - T1) + T2, r in US quarts a pound; 1 qt/lb = 2.086 L/kg.
    quarts_per_pound = 2.0
    palmer = 0.2 / quarts_per_pound * (152 - 70) + 152
    litres = quarts_per_pound * 0.946353 / 0.45359237
    ours = strike_temperature((152 - 32) / 1.8, 1.0, litres, (70 - 32) / 1.8, 0.2 * 2.0864)
    assert 1.8 * ours + 32 == pytest.approx(palmer, abs=0.01)


@pytest.mark.parametrize(
    ("moisture", "specific"), [(0, 0.38), (2, 0.39), (3, 0.40), (4, 0.40), (6, 0.41), (8, 0.42)]
)
def test_specific_heat_of_malt_as_printed(moisture, specific):
    # Published: Pauls & Whites, Brewing Room Book (1984/85).
    assert malt_specific_heat(moisture) == pytest.approx(specific)


@pytest.mark.parametrize(
    ("moisture", "kelvin"), [(0, 3.0), (1, 2.8), (2, 2.3), (4, 1.5), (6, 1.3), (8, 1.0)]
)
def test_slaking_as_printed(moisture, kelvin):
    # Published: Pauls & Whites, Brewing Room Book (1984/85).
    assert slaking_rise(moisture) == pytest.approx(kelvin)


def test_slaking_hardly_matters_in_a_steep():
    # Scaled from that table: 0.2 to 0.5 °C at 3 to 8 % moisture, 1 °C for bone-dry malt.
    thickness = np.array([8.0, 10.0, 12.0])
    for moisture in (3.0, 4.0, 6.0, 8.0):
        assert (slaking_rise(moisture, thickness) > 0.15).all()
        assert (slaking_rise(moisture, thickness) < 0.7).all()
    assert slaking_rise(0.0, 8.0) == pytest.approx(1.0, abs=0.1)


@pytest.mark.parametrize(
    ("most_ppg", "steeped_ppg", "percent_of_most", "kg_per_kg", "points"),
    # Published: the first two columns, Palmer, How to Brew, table 9; the others computed.
    [
        (35, 14, 40, 0.30, 117),
        (34, 22, 65, 0.48, 184),
        (34, 18, 53, 0.39, 150),
        (33, 16, 48, 0.35, 134),
        (31, 16, 52, 0.35, 134),
        (28, 15, 54, 0.32, 125),
        (25, 21, 84, 0.45, 175),
        (32, 8, 25, 0.17, 67),
        (32, 4, 12, 0.09, 33),
    ],
)
def test_a_steep_draws_what_the_experiment_found(
    most_ppg, steeped_ppg, percent_of_most, kg_per_kg, points
):
    fraction = steep_extract_fraction(steeped_ppg)
    assert fraction == pytest.approx(kg_per_kg, abs=0.006)
    assert points_per_kg_l(steeped_ppg) == pytest.approx(points, abs=0.6)
    assert 100 * fraction / steep_extract_fraction(most_ppg) == pytest.approx(
        percent_of_most, abs=0.6
    )


def test_drained_grain_holds_its_weight_in_water():
    # Oxford Companion to Beer, "spent grain": 0.75 to 1.04 L/kg; squeezed common practice.
    assert 0.75 <= held_water_l(1.0) <= 1.04
    assert held_water_l(2.0, 0.7) == pytest.approx(1.4)


def test_grain_takes_four_tenths_of_the_heat_of_water():
    assert grain_heat_capacity_kj_k(1.0) == pytest.approx(4.1868 * MALT_SPECIFIC_HEAT)


def test_nothing_in_the_pot_raises_nothing():
    assert temperature_after_grain_in(0.0, 20.0, 0.0, 65.0) == 65.0
    assert strike_temperature(66.0, 0.0, 0.0, 20.0) == 66.0
    assert np.isfinite(strike_temperature(66.0, 1.0, 0.0, 20.0))


def test_two_kilograms_of_grain_take_twice_the_heat():
    assert grain_heat_capacity_kj_k(2.0) == pytest.approx(2 * 4.1868 * 0.40)
    assert grain_heat_capacity_kj_k(2.0, 0.42) == pytest.approx(2 * 4.1868 * 0.42)


def test_a_very_thick_mash_slakes_more():
    assert slaking_rise(3.0, 0.5) == pytest.approx(slaking_rise(3.0) * 2.9 / 0.9)
