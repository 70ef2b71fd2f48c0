"""Steeping against worked heat balances and Palmer's equation."""

import numpy as np
import pytest

from designer.wort.steeping import MALT_SPECIFIC_HEAT, strike_temperature


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
    grain_as_water_kg = MALT_SPECIFIC_HEAT * grain_kg
    heat = grain_as_water_kg * grain_c + water_kg * strike
    assert heat / (grain_as_water_kg + water_kg) == pytest.approx(target_c)


def test_nothing_in_the_pot_raises_nothing():
    assert strike_temperature(66.0, 0.0, 0.0, 20.0) == 66.0
    assert np.isfinite(strike_temperature(66.0, 1.0, 0.0, 20.0))
