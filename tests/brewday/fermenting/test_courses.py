"""Courses of a fermentation, each of its figures reckoned anew.

That warmth makes it faster by a factor for ten degrees is the usual rule of reactions (the module
names it); draws of a doubt have their 5, 50 and 95 % points where it says, by scipy's normal.
"""

from dataclasses import replace
from math import exp, log

import numpy as np
import pytest
from scipy import stats

from designer.brewday.fermenting import course_doubts as doubts
from designer.brewday.fermenting.courses import (
    SCORES,
    Expected,
    as_it_should_go,
    courses_of,
    expected_of,
    forecast_end,
)
from designer.brewday.fermenting.warmths import Stretch
from designer.brewday.outlook import look_ahead
from designer.brewday.results import Range
from designer.recipe.quantity import Quantity

ENDS = (1.009, 1.0105, 1.012, 1.0125, 1.014)
PLAIN = Expected(1.050, 0.002, ENDS, (Stretch(0.0, 20.0),), 1.0, 1.0)
TO_95, TO_75 = stats.norm.ppf(0.95), stats.norm.ppf(0.75)


def courses(expected=PLAIN, many=1, **scores):
    rows = [np.broadcast_to(float(scores.get(each, 0.0)), many) for each in SCORES]
    return courses_of(expected, np.array(rows))


def first(column):
    return float(column[0])


@pytest.mark.parametrize(
    ("name", "figure", "doubt"),
    [
        ("middle", "middle", doubts.MIDDLE_DAY),
        ("pace", "pace", doubts.PACE_DAYS),
        ("shape", "shape", doubts.SHAPE),
        ("slow share", "slow_share", doubts.SLOW_SHARE),
        ("slow times", "slow_times", doubts.SLOW_TIMES),
    ],
)
def test_figures_of_a_course_lie_where_their_doubt_says(name, figure, doubt):
    for score, wanted in ((-TO_95, doubt.low), (0.0, doubt.middle), (TO_95, doubt.high)):
        found = first(getattr(courses(**{name: score}), figure))
        assert found == pytest.approx(wanted)


def test_a_lively_yeast_is_sooner_and_faster_alike():
    plain, slow = courses(), courses(speed=TO_95)
    for figure in ("middle", "pace"):
        times = first(getattr(slow, figure)) / first(getattr(plain, figure))
        assert times == pytest.approx(exp(0.40))


def test_little_yeast_is_later_and_slower_by_its_powers():
    plain, quarter = courses(), courses(replace(PLAIN, pitched=0.25))
    assert first(quarter.middle) / first(plain.middle) == pytest.approx(4.0**0.4)
    assert first(quarter.pace) / first(plain.pace) == pytest.approx(4.0**0.2)


@pytest.mark.parametrize(
    ("score", "end"),
    [
        (-TO_95, 1.009),
        (-TO_75, 1.0105),
        (-TO_75 / 2.0, 1.01125),
        (0.0, 1.012),
        (TO_75, 1.0125),
        (TO_95, 1.014),
        (TO_95 + 1.0, 1.014 + 0.0015 / (TO_95 - TO_75)),
        (-TO_95 - 1.0, 1.009 - 0.0015 / (TO_95 - TO_75)),
    ],
)
def test_ends_lie_between_the_points_of_the_forecast_and_go_on_beyond(score, end):
    assert first(courses(end=score).end) == pytest.approx(end, abs=1e-9)


def test_no_beer_ends_above_its_wort_and_the_wort_is_doubted_too():
    assert first(courses(end=60.0).end) == 1.050
    assert first(courses(original=TO_95).original) == pytest.approx(1.052)


def test_a_cold_day_counts_for_less_by_the_factor_of_ten_degrees():
    factor = doubts.TEN_DEGREES.middle
    cold = courses(replace(PLAIN, warmth=(Stretch(0.0, 10.0),)))
    plain = courses()
    days = np.array([1.0, 3.0, 6.0])
    assert cold.fermented_at(factor * days) == pytest.approx(plain.fermented_at(days))
    turned = courses(replace(PLAIN, warmth=(Stretch(0.0, 20.0), Stretch(2.0, 10.0))))
    assert turned.fermented_at(2.0 + factor * days) == pytest.approx(plain.fermented_at(2.0 + days))
    warmer = courses(thermometer=TO_95)  # a degree more than noted
    assert warmer.fermented_at(days * factor**-0.1) == pytest.approx(plain.fermented_at(days))
    livelier = courses(replace(PLAIN, warmth=(Stretch(0.0, 30.0),)), **{"ten degrees": TO_95})
    assert livelier.fermented_at(days / 3.0) == pytest.approx(plain.fermented_at(days))


def curve(day, middle, pace, shape):
    return (1.0 + shape * exp(-(day - middle) / pace)) ** (-1.0 / shape)


def past(day, *figures):
    return (curve(day, *figures) - curve(0.0, *figures)) / (1.0 - curve(0.0, *figures))


def test_the_share_that_has_fermented_is_the_curve_and_a_part_that_lags():
    found = courses()
    middle, pace, shape = (first(each) for each in (found.middle, found.pace, found.shape))
    share, times = first(found.slow_share), first(found.slow_times)
    for day in (0.0, 0.7, 2.2, 4.0, 9.0, 30.0):
        fast = past(day, middle, pace, shape)
        slow = past(day, middle + pace * times / 2.0, pace * times, shape)
        wanted = (1.0 - share) * fast + share * slow
        assert found.fermented_at([day])[0, 0] == pytest.approx(wanted, abs=1e-12)
        gravity = 1.050 - (1.050 - 1.012) * wanted
        assert found.gravity_at([day])[0, 0] == pytest.approx(gravity, abs=1e-12)


def test_a_beer_may_be_off_the_curve_half_way_and_never_at_its_ends():
    plain, off = courses(), courses(bump=1.0)
    days = [0.0, 2.0, 3.0, 60.0]
    left = 1.0 - plain.fermented_at(days)[0]
    above = (off.gravity_at(days) - plain.gravity_at(days))[0] / (1.050 - 1.012)
    assert above == pytest.approx(4.0 * 0.025 * left * (1.0 - left), abs=1e-12)


@pytest.fixture
def porter(harbour_porter):
    return harbour_porter, look_ahead(harbour_porter)


def test_what_a_fermentation_is_expected_from_is_that_of_the_forecast(porter):
    recipe, outlook = porter
    wort, end = outlook.forecasts["original_gravity"], outlook.forecasts["final_gravity"]
    found = expected_of(recipe, outlook, (), wort.value)
    quartiles = end.first_quartile, end.middle, end.third_quartile
    assert found.ends == pytest.approx((end.low, *quartiles, end.high))
    assert found.original_half_width == pytest.approx(min((wort.high - wort.low) / 2.0, 0.006))
    assert expected_of(recipe, outlook, (), 1.05, 0.05).original_half_width == 0.006
    assert expected_of(recipe, outlook, (), 1.05, 0.001).original_half_width == 0.001
    assert found.warmth == (Stretch(0.0, 19.0),)
    assert found.warmth_half_width_c == 2.5


def test_a_wort_of_another_gravity_ends_at_the_same_attenuation(porter):
    recipe, outlook = porter
    wort, end = outlook.forecasts["original_gravity"], outlook.forecasts["final_gravity"]
    found = expected_of(recipe, outlook, (), 1.060)
    times = 0.060 / (wort.middle - 1.0)
    assert found.ends[0] == pytest.approx(1.0 + times * (end.low - 1.0))
    assert found.ends[4] == pytest.approx(1.0 + times * (end.high - 1.0))
    shown = forecast_end(outlook, 1.060)
    by_value = 1.0 + 0.060 / (wort.value - 1.0) * (end.value - 1.0)
    assert shown.value == pytest.approx(by_value)
    assert (shown.low, shown.high) == pytest.approx((found.ends[0], found.ends[4]))
    assert (shown.first_quartile, shown.middle, shown.third_quartile) == pytest.approx(
        found.ends[1:4]
    )


def test_without_a_range_the_end_is_doubted_by_judgement(porter):
    recipe, outlook = porter
    bare = replace(
        outlook,
        forecasts={
            "original_gravity": Range(1.050, 1.050, 1.050),
            "final_gravity": Range(1.012, 1.012, 1.012),
        },
    )
    low, first_quarter, middle, third, high = expected_of(recipe, bare, (), 1.050).ends
    assert (low, middle, high) == pytest.approx((1.009, 1.012, 1.016))
    part = TO_75 / TO_95
    assert (first_quarter, third) == pytest.approx((1.012 - 0.003 * part, 1.012 + 0.004 * part))
    assert expected_of(recipe, bare, (), 1.0).ends[2] == pytest.approx(1.0)


def test_yeast_counts_by_what_is_wanted_within_reason(porter):
    recipe, outlook = porter
    wanted = float(outlook.day.beer.yeast_wanted_g)

    def pitched(grams):
        yeast = replace(recipe.yeast, amount=Quantity(grams, f"{grams} g", unit="g"))
        return expected_of(replace(recipe, yeast=yeast), outlook, (), 1.046).pitched

    assert pitched(0.7 * wanted) == pytest.approx(0.7)
    assert pitched(0.01 * wanted) == 0.2
    assert pitched(9.0 * wanted) == 2.0
    unknown = replace(recipe, yeast=replace(recipe.yeast, amount=None))
    assert expected_of(unknown, outlook, (), 1.046).pitched == 1.0


def test_as_it_should_go_is_warm_enough_with_enough_yeast(porter):
    recipe, _ = porter
    cold = replace(PLAIN, warmth=(Stretch(0.0, 12.0), Stretch(3.0, 14.0)), pitched=0.4)
    should = as_it_should_go(cold, recipe)
    assert should.warmth == (Stretch(0.0, 19.0),)
    assert should.pitched == 1.0
    assert as_it_should_go(replace(cold, pitched=1.6), recipe).pitched == 1.6
    warm = replace(recipe.yeast, lowest=Quantity(22.0, "22 °C", unit="°C"))
    assert as_it_should_go(cold, replace(recipe, yeast=warm)).warmth[0].temp_c == 22.0


def test_scores_of_instruments_are_kept_as_they_are():
    found = courses(hydrometer=0.4, refractometer=-0.7)
    assert (first(found.hydrometer), first(found.refractometer)) == (0.4, -0.7)
    assert first(found.slopes) == pytest.approx(log(2.2) / 10.0)
