"""The mass balance of extract against handbook figures and worked cases."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from designer.wort.density import plato_from_gravity, wort_density
from designer.wort.extract import (
    POINTS_L_PER_KG_OF_PPG,
    SUCROSE_PPG,
    extract_for,
    gravity,
    plato,
    volume_l,
    water_for_volume,
    yield_from_ppg,
)
from designer.wort.water import water_density

LITRE_KG = water_density(20.0) / 1000
POUND, GALLON = 0.45359237, 3.785412


def poured(materials, water_l):
    """Return extract and water in kg for (kg, extract fraction) pairs in litres of cold water."""
    extract = sum(mass * fraction for mass, fraction in materials)
    return extract, water_l * LITRE_KG + sum(mass * (1 - fraction) for mass, fraction in materials)


@pytest.mark.parametrize(
    ("materials", "water_l", "at_plato", "at_gravity", "litres"),
    # Computed from the mass balance and the ICUMSA density.
    [
        ([(1.5, 0.80)], 5.0, 18.487, 1.0763, 6.042),
        ([(3.0, 0.80), (1.0, 0.965)], 15.0, 17.736, 1.0730, 17.715),
        ([(1.0, 0.909)], 10.0, 8.277, 1.0329, 10.651),
        ([(2.0, 0.965)], 8.0, 19.328, 1.0800, 9.263),
        ([(0.4536, 1.0)], 3.7854, 10.718, 1.0430, 4.065),
    ],
)
def test_what_is_weighed_in_gives_gravity_and_volume(
    materials, water_l, at_plato, at_gravity, litres
):
    wort = poured(materials, water_l)
    assert plato(*wort) == pytest.approx(at_plato, abs=0.0006)
    assert gravity(*wort) == pytest.approx(at_gravity, abs=0.00006)
    assert volume_l(*wort) == pytest.approx(litres, abs=0.0006)


@pytest.mark.parametrize(
    ("wort_l", "at_gravity", "water_l", "at_plato", "mixed", "litres"),
    # Computed from the mass balance.
    [
        (10, 1.090, 10, 11.242, 1.0452, 19.996),
        (9, 1.080, 10, 9.522, 1.0381, 18.997),
        (12, 1.070, 7, 11.031, 1.0443, 18.998),
    ],
)
def test_topping_up_contracts_a_little(wort_l, at_gravity, water_l, at_plato, mixed, litres):
    extract = extract_for(at_gravity, wort_l)
    water = water_for_volume(extract, wort_l) + water_l * LITRE_KG
    assert plato(extract, water) == pytest.approx(at_plato, abs=0.0006)
    assert gravity(extract, water) == pytest.approx(mixed, abs=0.00006)
    assert volume_l(extract, water) == pytest.approx(litres, abs=0.0006)
    by_points = 1.0 + (at_gravity - 1.0) * wort_l / (wort_l + water_l)
    assert by_points == pytest.approx(mixed, abs=0.0003)


@pytest.mark.parametrize(
    ("final", "kg_per_l", "coefficient", "in_ppg"),
    # Computed: the true points of a kilogram of sucrose in a litre fall with strength.
    [
        (1.010, 0.02586, 386.68, 46.33),
        (1.020, 0.05177, 386.33, 46.29),
        (1.040, 0.10373, 385.62, 46.21),
        (1.060, 0.15589, 384.89, 46.12),
        (1.090, 0.23453, 383.75, 45.98),
        (1.110, 0.28724, 382.96, 45.89),
    ],
)
def test_the_points_of_sucrose_fall_with_strength(final, kg_per_l, coefficient, in_ppg):
    extract = extract_for(final, 1.0)
    assert extract == pytest.approx(kg_per_l, abs=0.000006)
    assert 1000 * (final - 1) / extract == pytest.approx(coefficient, abs=0.03)
    in_pounds = 1000 * (final - 1) / extract / POINTS_L_PER_KG_OF_PPG
    assert in_pounds == pytest.approx(in_ppg, abs=0.006)


def test_a_pound_of_sugar_made_up_to_a_gallon_has_46_points():
    # Handbooks print 46 or 46.21 (Palmer, table 9); made up, not added to, a US gallon.
    water = water_for_volume(POUND, GALLON)
    assert 1000 * (gravity(POUND, water) - 1) == pytest.approx(SUCROSE_PPG, abs=0.03)


def test_points_convert_by_palmers_factor():
    # Published: 8.3454, Palmer, How to Brew; and the size of gallon and pound by definition.
    assert POINTS_L_PER_KG_OF_PPG == 8.3454
    assert pytest.approx(GALLON / POUND, abs=0.0001) == POINTS_L_PER_KG_OF_PPG
    assert pytest.approx(385.6, abs=0.05) == POINTS_L_PER_KG_OF_PPG * SUCROSE_PPG
    assert yield_from_ppg(36.0) == pytest.approx(0.779, abs=0.0005)


@pytest.mark.parametrize(
    ("fraction", "litres_per_kg"),
    # Sucrose, liquid and dry malt extract, dextrose monohydrate; computed from the equation.
    [(1.00, 0.617), (0.80, 0.694), (0.965, 0.631), (0.909, 0.652)],
)
def test_a_dissolved_kilogram_takes_its_room(fraction, litres_per_kg):
    before = volume_l(0.0, 10 * LITRE_KG)
    after = volume_l(fraction, 10 * LITRE_KG + 1 - fraction)
    assert after - before == pytest.approx(litres_per_kg, abs=0.003)


def test_an_empty_pot_is_water_without_volume():
    assert plato(0.0, 0.0) == 0.0
    assert gravity(0.0, 0.0) == 1.0
    assert volume_l(0.0, 0.0) == 0.0
    assert water_for_volume(0.0, 0.0) == 0.0


def test_too_much_extract_for_the_volume_needs_no_water():
    assert water_for_volume(30.0, 10.0) == 0.0


@given(extract=st.floats(0.0, 8.0), litres=st.floats(6.0, 60.0))
def test_water_for_a_volume_fills_it(extract, litres):
    water = water_for_volume(extract, litres)
    assert volume_l(extract, water) == pytest.approx(litres, abs=1e-9 * litres)


@given(at=st.floats(1.0, 1.25), litres=st.floats(0.0, 100.0))
def test_extract_for_a_gravity_gives_that_gravity_back(at, litres):
    extract = extract_for(at, litres)
    fraction = plato_from_gravity(at) / 100
    mass = litres * wort_density(fraction, 20.0) / 1000
    assert extract == pytest.approx(mass * fraction)
    if litres > 0.01:
        assert gravity(extract, mass - extract) == pytest.approx(at, abs=1e-10)


def test_arrays_give_the_same_water_as_single_numbers():
    extract = np.array([0.0, 0.5, 2.0, 9.0])
    together = water_for_volume(extract, 20.0)
    assert together == pytest.approx([water_for_volume(float(kg), 20.0) for kg in extract])


def test_water_for_a_volume_is_exact_for_thin_wort_and_for_syrup():
    for extract_kg in (0.01, 2.0, 6.0):
        water_kg = water_for_volume(extract_kg, 10.0)
        assert volume_l(extract_kg, water_kg) == pytest.approx(10.0, rel=1e-9)
