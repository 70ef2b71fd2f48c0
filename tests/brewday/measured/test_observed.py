"""What a reading tells of nature, and how far its instrument is off there: reckoned anew.

Two independent errors add as squares, and what several readings share is off alike in them (any
textbook on errors). Marks of a bucket within 4 % and 0.15 L by eye: judgement told in the modules.
"""

from dataclasses import replace
from math import exp, hypot, sqrt

import pytest
from scipy import stats

from designer.brewday.measured.observed import Observed, Told, is_observed, observed
from designer.brewday.measured.reading_errors import FERMENTER_MARK, WATER_IN, error_of
from designer.brewday.measured.readings import By, Measured, Reading
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity

M = Measured
TO_95 = stats.norm.ppf(0.95)


def one(recipe, *readings, times=1.0):
    return observed(recipe, [Told(each, times) for each in readings])


def with_process(recipe, **changed):
    return replace(recipe, process=replace(recipe.process, **changed))


def test_a_part_of_a_pour_tells_of_the_whole():
    half = Told(Reading(M.INTO_FERMENTER, 2.5, By.SCALE, half_width=0.1), 0.5).of_the_day
    assert (half.value, half.half_width) == (5.0, 0.2)
    points = Told(Reading(M.ORIGINAL_GRAVITY, 1.040, By.HYDROMETER), 0.8).of_the_day
    assert points.value == pytest.approx(1.050)
    assert points.half_width is None
    whole = Reading(M.INTO_FERMENTER, 2.5, By.SCALE)
    assert Told(whole).of_the_day is whole


def test_an_instrument_is_off_by_a_share_of_litres_and_by_points_and_degrees():
    def shown(what, there, score):
        return Observed(what, None, there, "its key", 0.02, 0.0).shown(there, score)

    assert shown(M.BOIL_END_VOLUME, 6.0, 1.0) == pytest.approx(6.0 * exp(-0.02))
    assert shown(M.BOIL_END_GRAVITY, 1.05, 2.0) == pytest.approx(1.05 - 0.04)
    assert shown(M.STEEP, 68.0, -1.0) == pytest.approx(68.02)
    assert Observed(M.STEEP, None, 68.0, "", 0.5, 0.0).half_width == pytest.approx(0.5 * TO_95)


def test_what_the_brewer_decided_tells_nothing_of_nature_but_for_the_mark():
    told = {what: is_observed(Reading(what, 1.0, By.MARK)) for what in M}
    decided = {M.WATER_IN, M.STRIKE, M.STEEP, M.COOLED, M.ALPHA, M.WEIGHT}
    assert {what for what, nature in told.items() if not nature} == decided


def test_two_errors_are_told_by_their_deviations(harbour_porter):
    reading = Reading(M.BOIL_END_GRAVITY, 1.090, By.HYDROMETER)
    error = error_of(harbour_porter, reading)
    (found,) = one(harbour_porter, reading)
    assert found.value == 1.090
    assert found.rate == pytest.approx(error.shared / TO_95)
    assert found.deviation == pytest.approx(error.own / TO_95)
    (part,) = one(harbour_porter, reading, times=0.5)
    assert part.rate == pytest.approx(2.0 * found.rate)
    assert part.deviation == pytest.approx(2.0 * found.deviation)


def test_litres_are_off_by_a_share_never_by_more_than_all(harbour_porter):
    level = Reading(M.BOIL_END_VOLUME, 6.0, By.DIPSTICK)
    (found,) = one(harbour_porter, level)
    error = error_of(harbour_porter, level)
    assert found.rate == pytest.approx(error.shared / 6.0 / TO_95)
    (wild,) = one(harbour_porter, replace(level, half_width=500.0))
    assert wild.rate == pytest.approx(1.0 / TO_95)
    (sure,) = one(harbour_porter, replace(level, half_width=0.0))
    assert (sure.rate, sure.deviation) == (0.0, pytest.approx(1e-5 / TO_95))


def test_at_the_mark_that_was_filled_up_to_only_the_mark_is_off(harbour_porter):
    """Half a hundredth by eye; the mark as sure as the recipe's, or as its kind is."""
    reading = Reading(M.TOPPED_UP, 10.0, By.MARK)

    def of(recipe):
        (found,) = one(recipe, reading)
        assert found.deviation == pytest.approx(0.005 * 10.0 / TO_95)
        return found.rate * TO_95

    assert of(harbour_porter) == pytest.approx(hypot(0.04, 0.15 / 10.0))
    typed_so = Quantity(8.0, "8 L", spread=0.2)
    assert of(with_process(harbour_porter, top_up_to=typed_so)) == pytest.approx(0.2 / 8.0)
    plain = Quantity(8.0, "8 L")
    assert of(with_process(harbour_porter, top_up_to=plain)) == pytest.approx(
        hypot(0.04, 0.15 / 8.0)
    )
    none = with_process(harbour_porter, top_up_to=None)
    assert of(none) == pytest.approx(error_of(none, reading).whole / 10.0)


def test_marks_that_hold_more_are_told_as_they_hold(harbour_porter):
    fermenter = replace(harbour_porter.fermenter, marks_hold=typed(Kind.NUMBER, 1.05))
    known = replace(harbour_porter, fermenter=fermenter)
    at_mark, weighed = one(
        known, Reading(M.INTO_FERMENTER, 5.0, By.MARK), Reading(M.INTO_FERMENTER, 5.0, By.SCALE)
    )
    assert (at_mark.value, weighed.value) == (pytest.approx(5.25), 5.0)


def test_another_level_at_the_marks_is_off_as_the_filled_one_and_by_the_rest_alone(harbour_porter):
    reading = Reading(M.INTO_FERMENTER, 5.0, By.MARK)
    error = error_of(harbour_porter, reading)
    (found,) = one(harbour_porter, reading)
    assert found.instrument == FERMENTER_MARK
    # Of what the filled mark is off by, 4 % and 0.15 of 10 L by eye, the part that marks are.
    alike = 0.04**2 / hypot(0.04, 0.015) * 5.0
    assert found.rate * 5.0 * TO_95 == pytest.approx(alike)
    own = hypot(error.own, sqrt(error.shared**2 - alike**2))
    assert found.deviation * TO_95 == pytest.approx(own)
    none = with_process(harbour_porter, top_up_to=None)
    (found,) = one(none, reading)
    assert found.rate * 5.0 * TO_95 == pytest.approx(error_of(none, reading).shared)
    sure = with_process(harbour_porter, top_up_to=Quantity(10.0, "10 L", spread=0.1))
    (found,) = one(sure, reading)
    assert found.rate * TO_95 == pytest.approx(0.1 / 10.0)


def test_wort_and_water_at_the_same_marks_of_the_pot_are_off_alike(harbour_porter):
    level = Reading(M.BOIL_END_VOLUME, 6.0, By.MARK)
    water = Reading(M.WATER_IN, 6.5, By.MARK)
    start = with_process(harbour_porter, start_water=Quantity(6.5, "6.5 L", spread=0.325))
    (found,) = one(start, water, level)  # the water itself is the brewer's
    assert found.instrument == WATER_IN
    error, of_level = error_of(start, water), error_of(start, level)
    known = error.shared**2 / error.whole / 6.5
    assert found.rate * 6.0 * TO_95 == pytest.approx(min(of_level.shared, known * 6.0))
