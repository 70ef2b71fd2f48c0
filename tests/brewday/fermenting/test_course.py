"""The band of the gravity in time, and what is told of a beer by its last reading."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from designer.brewday.fermenting.course import BeerReading, Warmth
from designer.brewday.fermenting.courses import SCORES, courses_of, expected_of
from designer.brewday.fermenting.fermenting import course_of, fermenting
from designer.brewday.fermenting.warmths import MOST_STRETCHES, stretches
from designer.brewday.outlook import look_ahead
from designer.recipe.quantity import Quantity
from designer.wort.density import gravity_from_plato


@pytest.fixture
def course(harbour_porter):
    outlook = look_ahead(harbour_porter)

    def known(*read, warmths=(), recipe=harbour_porter, original=1.046):
        readings = [BeerReading(float(day), sg, 0.002) for day, sg in read]
        return course_of(recipe, outlook, readings, warmths, original)

    return known


def on(band, day):
    return next(each.gravity for each in band if each.day == day)


def width(band, day):
    return on(band, day).high - on(band, day).low


def test_the_band_begins_at_the_wort_falls_and_ends_in_the_forecast_of_the_end(
    course, harbour_porter
):
    outlook = look_ahead(harbour_porter)
    wort, end = outlook.forecasts["original_gravity"], outlook.forecasts["final_gravity"]
    band = course(original=wort.value)
    assert on(band, 0.0).value == pytest.approx(wort.value, abs=0.0005)
    for before, after in pairwise(band):
        assert after.gravity.low <= before.gravity.low + 1e-12
        assert after.gravity.high <= before.gravity.high + 1e-12
        assert after.gravity.low <= after.gravity.value <= after.gravity.high
    assert on(band, 21.0).low == pytest.approx(end.low, abs=0.0006)
    assert on(band, 21.0).high == pytest.approx(end.high, abs=0.0008)


def test_a_warm_beer_is_ahead_of_a_cold_one_and_both_end_alike(course):
    warm, cold = course(warmths=(Warmth(0, 22.0),)), course(warmths=(Warmth(0, 14.0),))
    for day in (2.0, 3.0, 5.0):
        assert on(warm, day).value < on(cold, day).value - 0.003
    assert on(warm, 21.0).value == pytest.approx(on(cold, 21.0).value, abs=0.002)


def test_a_warm_week_after_a_cold_one_catches_up(course):
    cold = course(warmths=(Warmth(0, 12.0),))
    then_warm = course(warmths=(Warmth(0, 12.0), Warmth(4.0, 22.0)))
    assert on(then_warm, 3.0) == on(cold, 3.0)
    assert on(then_warm, 8.0).value < on(cold, 8.0).value - 0.003


def test_little_yeast_begins_later(course, harbour_porter):
    little = replace(harbour_porter.yeast, amount=Quantity(1.6, "1.6 g", unit="g"))
    late = course(recipe=replace(harbour_porter, yeast=little))
    assert on(late, 3.0).value > on(course(), 3.0).value + 0.005


def test_each_reading_narrows_the_band_about_it(course):
    one = course((3, 1.027))
    more = course((3, 1.027), (6, 1.017), (9, 1.014))
    assert width(one, 3.0) < 0.4 * width(course(), 3.0)
    assert width(more, 6.0) < width(one, 6.0)
    assert on(one, 3.0).low < 1.027 < on(one, 3.0).high
    assert width(more, 21.0) < 0.8 * width(course(), 21.0)


# By Balling's constants, computed: OG, FG, then alcohol by volume, apparent and real attenuation in
# %, kcal in 100 mL (real: ASBC Beer-6, quoted).
BALLING = [
    (1.036, 1.009, 3.56, 74.4, 62.1, 33.3),
    (1.048, 1.012, 4.78, 74.2, 62.3, 44.6),
    (1.060, 1.015, 6.01, 74.0, 62.5, 55.9),
    (1.090, 1.020, 9.49, 76.4, 65.3, 84.2),
]


@pytest.mark.parametrize(("og", "fg", "abv", "apparent", "real", "kcal"), BALLING)
def test_what_the_last_reading_tells_is_ballings(harbour_porter, og, fg, abv, apparent, real, kcal):
    outlook = look_ahead(harbour_porter, ranges=False)
    found = fermenting(harbour_porter, outlook, [BeerReading(9, fg, 0.002)], (), 9.0, og)
    assert found.abv_percent == pytest.approx(abv, abs=0.012)
    assert 100 * found.apparent_attenuation == pytest.approx(apparent, abs=0.1)
    assert 100 * found.real_attenuation == pytest.approx(real, abs=0.1)
    assert found.kcal_per_100ml == pytest.approx(kcal, abs=0.1)


# Cutaia, Reid, Speers, J. Inst. Brew. 115 (2009) 318, table III, means of measured brews
# (published): extracts in °P before and after, alcohol by weight measured. Balling is 0.11 off.
CUTAIA = [(14.08, 3.11, 4.72), (14.54, 2.53, 5.14), (11.34, 2.01, 3.82), (12.75, 2.79, 4.21)]


@pytest.mark.parametrize(("original", "apparent", "by_weight"), CUTAIA)
def test_alcohol_lies_by_the_means_of_measured_brews(harbour_porter, original, apparent, by_weight):
    outlook = look_ahead(harbour_porter, ranges=False)
    og, fg = gravity_from_plato(original), gravity_from_plato(apparent)
    found = fermenting(harbour_porter, outlook, [BeerReading(9, fg, 0.002)], (), 9.0, og)
    assert found.abv_percent * 0.7907 / fg == pytest.approx(by_weight, abs=0.12)


def test_a_course_of_shape_one_is_the_logistic_of_test_fermentations(harbour_porter):
    # ASBC Methods of Analysis, Yeast-14 (from memory): P = end + fall / (1 + exp(b (t - m)))
    expected = expected_of(harbour_porter, look_ahead(harbour_porter), (Warmth(0, 20.0),), 1.046)
    known = courses_of(expected, np.zeros((len(SCORES), 1)))
    one = replace(known, shape=np.ones(1), slow_share=np.zeros(1), middle=np.full(1, 2.5))
    days = [0.0, 1.0, 2.0, 2.5, 3.0, 5.0, 8.0]

    def logistic(day):
        return 1.0 / (1.0 + np.exp((day - 2.5) / one.pace[0]))

    left = [logistic(day) / logistic(0.0) for day in days]  # all of it is there at the start
    assert 1.0 - one.fermented_at(days)[0] == pytest.approx(left, abs=1e-9)


def test_thousands_of_temperatures_are_drawn_together_and_keep_their_mean():
    logged = [Warmth(at / 144, 18.0 + (at % 288) / 144) for at in range(3000)]
    drawn = stretches(logged, 20.0)
    assert len(drawn) <= MOST_STRETCHES
    lasts = [b.day - a.day for a, b in pairwise(drawn)]
    warmed = sum(each.temp_c * days for each, days in zip(drawn, lasts, strict=False))
    mean = sum(each.temp_c for each in logged) / len(logged)
    assert warmed / sum(lasts) == pytest.approx(mean, abs=0.1)
