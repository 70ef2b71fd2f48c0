"""Carbonation against printed tables, chart points and stoichiometry."""

import numpy as np
import pytest

from designer.recipe.document import BOTTLES
from designer.wort import carbonation
from designer.wort.carbonation import (
    BAR_PER_PSI,
    CO2_G_L_PER_VOLUME,
    PRIMING_G_L_PER_VOLUME,
    extract_g_l_per_volume,
    keg_pressure_bar,
    priming_sugar_g,
    residual_co2,
    volumes_at,
)
from tests.proof.comparisons import chart_pressure_bar

CO2, GLUCOSE, MONOHYDRATE, SUCROSE = 44.0095, 180.156, 198.171, 342.297


@pytest.mark.parametrize(
    ("temp_c", "printed", "quadratic", "henry"),
    # Published: the second column, Hibberd, "A primer on priming", table 2. Others computed.
    [
        (0, 1.7, 1.71, 1.59),
        (4, 1.5, 1.48, 1.38),
        (8, 1.3, 1.29, 1.21),
        (10, 1.2, 1.20, 1.14),
        (12, 1.12, 1.12, 1.07),
        (16, 0.99, 0.98, 0.94),
        (18, 0.93, 0.92, 0.89),
        (20, 0.88, 0.86, 0.84),
        (22, 0.83, 0.81, 0.79),
    ],
)
def test_gas_left_after_fermentation(temp_c, printed, quadratic, henry):
    assert residual_co2(temp_c) == pytest.approx(quadratic, abs=0.006)
    assert residual_co2(temp_c) == pytest.approx(printed, abs=0.025)
    assert volumes_at(0.0, temp_c) == pytest.approx(henry, abs=0.006)


def test_warmer_beer_keeps_less_gas_and_the_fit_is_not_stretched():
    temps = np.linspace(-10, 60, 71)
    assert (np.diff(residual_co2(temps)) <= 1e-12).all()
    assert residual_co2(60.0) == residual_co2(32.0)


@pytest.mark.parametrize(
    ("sugar", "grams"),
    # Stoichiometry: four CO2 a sucrose, two a glucose; extract by Balling, 62 % real attenuation.
    [
        ("table sugar", SUCROSE / (4 * CO2) * CO2_G_L_PER_VOLUME),
        ("dextrose anhydrous", GLUCOSE / (2 * CO2) * CO2_G_L_PER_VOLUME),
        ("dextrose monohydrate", MONOHYDRATE / (2 * CO2) * CO2_G_L_PER_VOLUME),
        ("dry malt extract", 2.0665 / 0.9565 * CO2_G_L_PER_VOLUME / (0.965 * 0.62)),
    ],
)
def test_priming_factors_follow_from_the_molecules(sugar, grams):
    each = PRIMING_G_L_PER_VOLUME | {"dry malt extract": extract_g_l_per_volume(0.62)}
    assert each[sugar] == pytest.approx(grams, abs=0.006)


def test_extract_that_ferments_less_is_needed_more_of():
    """Source: 4.242/(0.965 x real fermentability), by Balling; 7.09 g at 62 % (computed)."""
    assert extract_g_l_per_volume(0.62) == pytest.approx(7.09, abs=0.005)
    assert extract_g_l_per_volume(0.31) == pytest.approx(2 * 7.09, abs=0.01)
    assert np.isfinite(extract_g_l_per_volume(0.0))


def test_halls_dextrose_factor_is_the_anhydrous_one():
    # Published: 15.195 g a US gallon for one volume, Hall, Zymurgy, Summer 1995 (quoted).
    assert PRIMING_G_L_PER_VOLUME["dextrose anhydrous"] == pytest.approx(
        15.195 / 3.785412, abs=0.01
    )


@pytest.mark.parametrize(
    ("litres", "temp_c", "volumes", "residual", "sucrose", "dextrose", "extract"),
    # Computed.
    [
        (19, 20, 2.4, 0.861, 111.7, 129.2, 207.3),
        (20, 18, 2.5, 0.915, 121.1, 140.1, 224.7),
        (23, 22, 2.2, 0.815, 121.7, 140.8, 225.9),
        (10, 12, 2.6, 1.117, 56.6, 65.5, 105.1),
        (15, 20, 3.0, 0.861, 122.5, 141.8, 227.4),
    ],
)
def test_sugar_to_add(litres, temp_c, volumes, residual, sucrose, dextrose, extract):
    assert residual_co2(temp_c) == pytest.approx(residual, abs=0.0006)
    case = litres, volumes, temp_c
    assert priming_sugar_g(*case) == pytest.approx(sucrose, abs=0.06)
    monohydrate = PRIMING_G_L_PER_VOLUME["dextrose monohydrate"]
    assert priming_sugar_g(*case, monohydrate) == pytest.approx(dextrose, abs=0.06)
    of_extract = extract_g_l_per_volume(0.62)
    assert priming_sugar_g(*case, of_extract) == pytest.approx(extract, abs=0.06)


def test_beer_with_gas_enough_gets_no_sugar():
    assert priming_sugar_g(20.0, 0.8, 18.0) == 0.0
    assert priming_sugar_g(0.0, 2.5, 18.0) == 0.0


@pytest.mark.parametrize(
    ("volumes", "temp_c", "bar", "henry_psi", "polynomial_psi"),
    # Computed.
    [
        (2.5, 4, 0.81, 11.8, 11.9),
        (2.4, 3, 0.68, 9.9, 9.9),
        (2.2, 8, 0.82, 11.9, 12.0),
        (2.7, 5, 1.03, 14.9, 15.0),
        (2.0, 12, 0.88, 12.8, 12.9),
    ],
)
def test_keg_pressure(volumes, temp_c, bar, henry_psi, polynomial_psi):
    pressure = keg_pressure_bar(volumes, temp_c)
    assert pressure == pytest.approx(bar, abs=0.006)
    assert pressure / BAR_PER_PSI == pytest.approx(henry_psi, abs=0.06)
    chart = chart_pressure_bar(volumes, temp_c) / BAR_PER_PSI
    assert chart == pytest.approx(polynomial_psi, abs=0.06)
    assert volumes_at(pressure, temp_c) == pytest.approx(volumes)


@pytest.mark.parametrize(
    ("fahrenheit", "volumes", "psi"),
    # Published chart points (ASBC/Zahm chart as tabulated in a public brewing library).
    [(38, 2.5, 11.2), (40, 2.5, 12.3), (50, 2.5, 17.6), (60, 2.0, 15.9), (70, 3.0, 36.8)],
)
def test_the_polynomial_hits_the_chart(fahrenheit, volumes, psi):
    chart = chart_pressure_bar(volumes, (fahrenheit - 32) / 1.8) / BAR_PER_PSI
    assert chart == pytest.approx(psi, abs=0.1)
    henry = keg_pressure_bar(volumes, (fahrenheit - 32) / 1.8) / BAR_PER_PSI
    assert psi - 0.5 < henry < psi + 2.6


@pytest.mark.parametrize(
    ("volumes", "at_4", "at_20", "at_25", "at_30", "at_35"),
    # Computed, Henry form.
    [
        (2.0, 0.45, 1.40, 1.75, 2.13, 2.52),
        (2.5, 0.81, 2.00, 2.44, 2.91, 3.40),
        (3.0, 1.18, 2.60, 3.13, 3.70, 4.28),
        (3.5, 1.54, 3.20, 3.82, 4.48, 5.16),
        (4.0, 1.91, 3.80, 4.51, 5.27, 6.04),
    ],
)
def test_a_warm_bottle_holds_more_pressure(volumes, at_4, at_20, at_25, at_30, at_35):
    temps = np.array([4.0, 20.0, 25.0, 30.0, 35.0])
    expected = [at_4, at_20, at_25, at_30, at_35]
    assert keg_pressure_bar(volumes, temps) == pytest.approx(expected, abs=0.006)


def test_henry_errs_to_the_high_side_in_warm_bottles():
    for volumes in (2.0, 2.5, 3.0):
        for temp_c in (20.0, 25.0):
            henry = keg_pressure_bar(volumes, temp_c)
            assert henry > chart_pressure_bar(volumes, temp_c) - 0.01


@pytest.mark.parametrize(
    ("kind", "comfortable", "never", "at_ease", "at_most"),
    [
        ("one-way or unknown glass", 2.9, 3.7, 2.5, 3.0),
        ("heavy refillable beer bottles", 3.7, 4.5, 3.0, 3.5),
        ("soft-drink bottles of plastic", 5.3, 6.0, 4.0, 4.5),
        ("sparkling-wine bottles", 6.0, 6.8, 4.5, 5.0),
    ],
)
def test_bottle_limits_are_those_pressures_at_thirty_degrees(
    kind, comfortable, never, at_ease, at_most
):
    """Pressures and the volumes they stand for, both of one table: a judgement, no source."""
    limits = carbonation.BOTTLE_LIMITS[kind]
    assert limits == (comfortable, never)
    assert volumes_at(comfortable, 30.0) == pytest.approx(at_ease, abs=0.06)
    assert volumes_at(never, 30.0) == pytest.approx(at_most, abs=0.06)
    # New beer bottles are proof-tested at 12 bar (GB 4544, quoted): a third of it for old ones.
    assert carbonation.BOTTLE_LIMITS["one-way or unknown glass"].never_bar < 12.0 / 3


def test_what_is_not_made_for_pressure_bears_none():
    assert carbonation.BOTTLE_LIMITS["still-wine bottles, jars, growlers"] == (0.0, 0.0)
    assert set(carbonation.BOTTLE_LIMITS) == set(BOTTLES)


def test_the_fullest_bottle_is_what_is_left_the_batch_and_the_bottle_together():
    """Half widths 0.12, 0.3 and 0.25 volumes of independent causes; 2.5 become 2.91, 3.56 bar."""
    assert carbonation.most_volumes(2.5) - 2.5 == pytest.approx(0.409, abs=0.001)
    assert carbonation.warm_bottle_bar(2.5) == pytest.approx(
        keg_pressure_bar(2.909, 30.0), abs=0.01
    )
    assert carbonation.warm_bottle_bar(2.5) == pytest.approx(3.56, abs=0.02)
    for bar in (2.9, 3.7, 6.0):
        aim = carbonation.volumes_to_aim_at(bar)
        assert carbonation.warm_bottle_bar(aim) == pytest.approx(bar)
