"""Fermentation against measured brews and worked values."""

import numpy as np
import pytest

from designer.wort.density import plato_from_gravity
from designer.wort.fermentation import (
    ALCOHOL_METHODS,
    alcohol_by_volume,
    alcohol_by_weight,
    final_gravity,
    kcal_from_extracts,
    real_extract,
    real_fermentability,
)
from tests.proof.comparisons import plato_from_gravity_asbc

# Computed from the published equations, °P by the ASBC cubic: OG, FG, real extract, alcohol by
# weight, by volume (Balling, Cutaia, Hall, linear), apparent and real attenuation in %, kcal.
WORKED = [
    (1.036, 1.009, 3.52, 2.79, 3.56, 3.47, 3.53, 3.54, 33.3),
    (1.040, 1.010, 3.90, 3.11, 3.97, 3.87, 3.95, 3.94, 37.0),
    (1.048, 1.012, 4.67, 3.74, 4.78, 4.69, 4.80, 4.73, 44.6),
    (1.050, 1.010, 4.34, 4.16, 5.32, 5.22, 5.34, 5.25, 46.1),
    (1.060, 1.015, 5.80, 4.68, 6.01, 5.95, 6.12, 5.91, 55.9),
    (1.075, 1.018, 7.04, 5.96, 7.67, 7.66, 7.94, 7.48, 70.1),
    (1.090, 1.020, 8.06, 7.35, 9.49, 9.55, 9.99, 9.19, 84.2),
]


@pytest.mark.parametrize(
    ("og", "fg", "left", "weight", "balling", "cutaia", "hall", "linear", "kcal"), WORKED
)
def test_what_becomes_of_the_extract(og, fg, left, weight, balling, cutaia, hall, linear, kcal):
    extracts = plato_from_gravity_asbc(og), plato_from_gravity_asbc(fg)
    assert real_extract(*extracts) == pytest.approx(left, abs=0.006)
    assert alcohol_by_weight(*extracts) == pytest.approx(weight, abs=0.006)
    # These take the gravities, so the ICUMSA °P: 0.012 °P apart from the cubic.
    assert alcohol_by_volume(og, fg) == pytest.approx(balling, abs=0.012)
    assert alcohol_by_volume(og, fg, "Cutaia") == pytest.approx(cutaia, abs=0.012)
    assert alcohol_by_volume(og, fg, "Hall") == pytest.approx(hall, abs=0.006)
    assert alcohol_by_volume(og, fg, "linear") == pytest.approx(linear, abs=0.006)
    assert kcal_from_extracts(*extracts, fg) == pytest.approx(kcal, abs=0.1)


@pytest.mark.parametrize("method", list(ALCOHOL_METHODS))
def test_extracts_that_are_known_give_the_same_alcohol(method):
    extracts = plato_from_gravity(1.062), plato_from_gravity(1.014)
    alcohol = alcohol_by_volume(1.062, 1.014, method)
    assert alcohol_by_volume(1.062, 1.014, method, extracts) == pytest.approx(alcohol, rel=1e-12)


PALE, DARK, CRYSTAL_40, CRYSTAL_60, ROAST = 0.61, 0.55, 0.40, 0.38, 0.35
SUGAR, LACTOSE = 1.0, 0.0


@pytest.mark.parametrize(
    ("parts", "yeast", "attenuation", "final"),
    # Computed by the project's additive rule; points, real fermentability, simple sugar.
    [
        ([(50, PALE, False)], 0.75, 75.3, 1.0123),
        ([(50, PALE, False)], 0.80, 80.3, 1.0098),
        ([(40, PALE, False), (10, SUGAR, True)], 0.75, 84.9, 1.0075),
        ([(45, PALE, False), (5, LACTOSE, False)], 0.75, 67.8, 1.0161),
        ([(46, PALE, False), (4, CRYSTAL_40, False)], 0.75, 73.2, 1.0134),
        ([(42, DARK, False), (5, CRYSTAL_60, False), (3, ROAST, False)], 0.72, 61.7, 1.0191),
    ],
)
def test_where_fermentation_stops(parts, yeast, attenuation, final):
    points, shares, simple = zip(*parts, strict=True)
    fermentable = real_fermentability(points, shares, simple, yeast)
    original = 1 + sum(points) / 1000
    assert 100 * fermentable / 0.81 == pytest.approx(attenuation, abs=0.06)
    assert final_gravity(original, fermentable) == pytest.approx(final, abs=0.00006)
    gone = original - final_gravity(original, fermentable)
    assert gone / (original - 1) == pytest.approx(fermentable / 0.81)


def test_a_very_dextrinous_extract_stops_half_way():
    # Palmer, How to Brew, 1st ed., online, ch. 3: a dry extract of 1.040 that stopped at 1.020.
    fermentable = real_fermentability([1.0], [0.405], [False], 0.75)
    assert final_gravity(1.040, fermentable) == pytest.approx(1.020, abs=0.0001)


def test_pure_sugar_ends_below_water_and_no_yeast_ferments_more_than_all():
    assert final_gravity(1.050, real_fermentability([1.0], [1.0], [True], 0.70)) < 1.0
    assert real_fermentability([1.0], [0.9], [False], 1.2) == 1.0
    assert real_fermentability([1.0], [0.95], [True], 0.60) == 0.95


def test_water_ferments_to_nothing():
    assert alcohol_by_volume(1.0, 1.0) == pytest.approx(0.0, abs=1e-9)
    assert real_fermentability([], [], [], 0.75) == 0.0
    assert real_fermentability([0.0], [0.6], [False], 0.75) == 0.0
    assert kcal_from_extracts(0.0, 0.0, 1.0) == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("method", ALCOHOL_METHODS)
def test_every_method_takes_arrays_and_absurd_gravities(method):
    og = np.array([1.0, 1.05, 1.3, 1.775, 2.0])
    assert np.isfinite(alcohol_by_volume(og, 1.01, method)).all()


def test_an_unknown_method_is_an_error():
    with pytest.raises(KeyError):
        alcohol_by_volume(1.05, 1.01, "guess")


def test_every_fermentable_needs_its_fermentability():
    with pytest.raises(ValueError, match="zip"):
        real_fermentability([1.0, 2.0], [0.6], [False, False], 0.75)
