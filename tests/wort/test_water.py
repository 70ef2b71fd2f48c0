"""Water against the international standard equation of state and the standard atmosphere."""

import warnings

import pytest

from designer.wort.water import (
    air_pressure,
    boiling_point,
    water_density,
)

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from iapws import IAPWS95


@pytest.mark.parametrize(
    ("temp_c", "kg_m3"),
    [
        (0.01, 999.840),
        (4, 999.972),
        (20, 998.203),
        (40, 992.212),
        (65, 980.546),
        (80, 971.785),
        (99.97, 958.367),
    ],
)
def test_water_density_matches_kells_equation(temp_c, kg_m3):
    # Kell, J. Chem. Eng. Data 20 (1975) 97, 1990 temperature scale; computed from the equation.
    assert water_density(temp_c) == pytest.approx(kg_m3, abs=0.0006)


@pytest.mark.parametrize(
    ("altitude_m", "kpa"),
    [
        (0, 101.325),
        (300, 97.77),
        (500, 95.46),
        (1000, 89.87),
        (1500, 84.56),
        (1600, 83.52),
        (2000, 79.50),
        (3000, 70.11),
    ],
)
def test_air_thins_with_height(altitude_m, kpa):
    # ICAO standard atmosphere.
    assert air_pressure(altitude_m) / 1000 == pytest.approx(kpa, abs=0.006)


@pytest.mark.parametrize(
    ("altitude_m", "celsius"),
    [
        (0, 100.00),
        (300, 99.00),
        (500, 98.34),
        (1000, 96.68),
        (1600, 94.69),
        (2000, 93.36),
        (3000, 90.03),
    ],
)
def test_water_boils_cooler_up_a_hill(altitude_m, celsius):
    # Antoine equation, computed; and saturation by IAPWS-95, within 0.07 °C.
    assert boiling_point(altitude_m) == pytest.approx(celsius, abs=0.006)
    saturated = IAPWS95(P=air_pressure(altitude_m) / 1e6, x=0).T - 273.15
    assert boiling_point(altitude_m) == pytest.approx(saturated, abs=0.07)


def test_a_degree_is_lost_every_300_metres():
    # Common practice: 1 °C for 300 m, here within 0.04 °C up to 3000 m.
    for altitude_m in range(0, 3001, 300):
        assert boiling_point(altitude_m) == pytest.approx(100 - altitude_m / 300, abs=0.04)


@pytest.mark.parametrize("altitude_m", [-430.0, 9000.0, 44331.0, 1e6])
def test_a_height_beyond_the_atmosphere_still_answers(altitude_m):
    assert 0 < boiling_point(altitude_m) < 103 or altitude_m > 30000
    assert air_pressure(altitude_m) > 0
