"""Strength, density and gravity of wort against printed sucrose tables."""

import numpy as np
import pytest

from designer.wort.density import (
    density_slope,
    extract_fraction_from_density,
    gravity_from_plato,
    plato_from_gravity,
    wort_density,
)
from designer.wort.water import water_density
from tests.proof.comparisons import plato_from_gravity_asbc


def test_ten_percent_sucrose_weighs_what_nbs_circular_440_prints():
    assert wort_density(0.10, 20.0) / 1000 == pytest.approx(1.03814, abs=0.00003)


@pytest.mark.parametrize(
    ("percent", "at_15", "at_20"),
    # Sucrose table of the student physics laboratory of the Nicolaus Copernicus University, itself
    # that of the NBS; kg/m³. The equation is within 0.07 of it.
    [
        (2, 1006.93, 1005.99), (5, 1018.84, 1017.84), (8, 1031.0, 1029.93), (10, 1039.25, 1038.13),
        (12, 1047.62, 1046.46), (15, 1060.41, 1059.16), (20, 1082.33, 1080.94),
        (25, 1105.07, 1103.54),
    ],
)  # fmt: skip
def test_what_the_printed_table_has_at_15_and_at_20_degrees(percent, at_15, at_20):
    assert wort_density(percent / 100, 15.0) == pytest.approx(at_15, abs=0.07)
    assert wort_density(percent / 100, 20.0) == pytest.approx(at_20, abs=0.07)


@pytest.mark.parametrize(
    ("percent", "density"),
    # NBS Circular 440 (1942), 20 °C, kg/m³: from memory, so held to 0.05 % only (largest: 0.035 %).
    [(30, 1127.0), (40, 1176.4), (50, 1229.6), (60, 1286.5), (70, 1347.2), (80, 1411.7)],
)
def test_a_syrup_weighs_what_is_remembered_of_the_tables(percent, density):
    assert wort_density(percent / 100, 20.0) == pytest.approx(density, rel=0.0005)


def icumsa(w, temp_c):
    """The sum of ICUMSA SPS-4 (1998) term by term, copied from two transcriptions anew."""
    t = (temp_c - 20) / 100
    return (
        385.1761 * w + 135.3705 * w**2 + 40.9299 * w**3
        - 3.9643 * w**4 + 13.4853 * w**5 - 17.2890 * w**6
        + t * (-46.2720 * w - 7.1720 * w**2 + 1.1597 * w**3 + 5.1126 * w**4 + 17.5254 * w**5)
        + t**2 * (59.7712 * w + 7.2491 * w**2 + 12.3630 * w**3 - 35.4791 * w**4)
        + t**3 * (-47.2207 * w - 21.6977 * w**2 + 27.6301 * w**3)
        + t**4 * (18.3184 * w + 12.3081 * w**2)
    )  # fmt: skip


@pytest.mark.parametrize("temp_c", [0.0, 20.0, 45.0, 78.0, 100.0])
def test_wort_to_hot_syrup_is_denser_than_water_by_the_sum_of_the_equation(temp_c):
    """Computed; no printed table of hot syrup is at hand."""
    for fraction in np.linspace(0.0, 0.85, 18):
        denser = wort_density(fraction, temp_c) - water_density(temp_c)
        assert denser == pytest.approx(icumsa(fraction, temp_c), abs=1e-9)


@pytest.mark.parametrize(
    ("sg", "plato"),
    # Computed from the density equation; within 0.012 °P of the cubic printed with the ASBC table.
    [
        (1.004, 1.032), (1.010, 2.565), (1.020, 5.085), (1.036, 9.024), (1.048, 11.908),
        (1.060, 14.734), (1.075, 18.187), (1.083, 19.995), (1.100, 23.759),
    ],
)  # fmt: skip
def test_plato_of_a_gravity_is_that_of_the_tables(sg, plato):
    assert plato_from_gravity(sg) == pytest.approx(plato, abs=0.0006)
    assert plato_from_gravity(sg) == pytest.approx(plato_from_gravity_asbc(sg), abs=0.012)


@pytest.mark.parametrize(
    ("plato", "sg"),
    # Computed from the density equation.
    [
        (2, 1.00778), (5, 1.01966), (8, 1.03180), (10, 1.04003), (12, 1.04839), (15, 1.06114),
        (20, 1.08302), (25, 1.10570),
    ],
)  # fmt: skip
def test_gravity_of_a_strength(plato, sg):
    assert gravity_from_plato(plato) == pytest.approx(sg, abs=0.000006)


def test_absurd_gravities_still_answer():
    assert np.isfinite(plato_from_gravity(np.array([0.0, 0.5, 2.0, 10.0]))).all()


def test_plato_and_gravity_undo_each_other_from_minus_2_to_60():
    plato = np.linspace(-2.0, 60.0, 249)
    assert plato_from_gravity(gravity_from_plato(plato)) == pytest.approx(plato, abs=1e-9)


@pytest.mark.parametrize("temp_c", [0.0, 15.0, 20.0, 55.5, 100.0])
def test_extract_is_found_again_from_the_density_at_any_temperature(temp_c):
    fraction = np.linspace(-0.02, 0.6, 63)
    found = extract_fraction_from_density(wort_density(fraction, temp_c), temp_c)
    assert found == pytest.approx(fraction, abs=1e-11)


def test_leaving_out_the_weight_of_air_changes_little():
    in_vacuum = wort_density(0.20, 20.0) / water_density(20.0)
    assert gravity_from_plato(20.0) == pytest.approx(in_vacuum, abs=0.0001)


@pytest.mark.parametrize(
    ("plato", "hot_c", "hot_l", "cold_l"),
    # Computed from the density equation.
    [
        (0, 100, 10, 9.601),
        (12, 100, 10, 9.601),
        (20, 100, 8, 7.681),
        (10, 98, 15, 14.422),
        (15, 65, 6, 5.889),
        (10, 30, 20, 19.943),
    ],
)
def test_hot_wort_shrinks_on_cooling(plato, hot_c, hot_l, cold_l):
    shrunk = hot_l * wort_density(plato / 100, hot_c) / wort_density(plato / 100, 20.0)
    assert shrunk == pytest.approx(cold_l, abs=0.0006)


def test_water_is_nothing_plato_and_gravity_one_exactly():
    assert gravity_from_plato(0.0) == 1.0
    assert plato_from_gravity(1.0) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(("fraction", "temp_c"), [(0.05, 20.0), (0.12, 20.0), (0.4, 75.0)])
def test_the_slope_of_the_density_is_that_of_its_curve(fraction, temp_c):
    step = 1e-5
    rise = wort_density(fraction + step, temp_c) - wort_density(fraction - step, temp_c)
    assert density_slope(fraction, temp_c) == pytest.approx(rise / (2 * step), rel=1e-7)
    assert density_slope(fraction) == density_slope(fraction, 20.0)


@pytest.mark.parametrize("temp_c", [-3.0, 0.0, 4.0, 20.0, 20.0000001, 68.0, 99.7, 112.0])
@pytest.mark.parametrize("strength", [-0.01, 0.0, 1e-9, 0.0832, 0.2, 0.55, 0.8])
def test_one_wort_weighs_to_the_last_digit_what_it_weighs_among_samples(strength, temp_c):
    """For single numbers the polynomials are written out: they are those of arrays."""
    among = wort_density(np.array([0.1, strength]), np.array([50.0, temp_c]))
    assert wort_density(strength, temp_c) == among[1]
    assert water_density(temp_c) == water_density(np.array([50.0, temp_c]))[1]
