"""A brew day as it is known after readings."""

from __future__ import annotations

import pytest

from designer.brewday.measured.expecting import expected
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.reading_errors import usual_half_width
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.outlook import look_ahead


def test_a_day_of_which_nothing_was_read_is_the_forecast(harbour_porter):
    assert day_measured(harbour_porter, ()) == look_ahead(harbour_porter)


def test_a_gravity_read_in_the_fermenter_draws_the_forecasts_to_it(harbour_porter):
    before = look_ahead(harbour_porter).forecasts
    read = before["original_gravity"].low
    after = day_measured(
        harbour_porter, [Reading(Measured.ORIGINAL_GRAVITY, read, By.HYDROMETER)]
    ).forecasts
    gravity = after["original_gravity"]
    assert read < gravity.value < before["original_gravity"].value
    assert gravity.low < read < gravity.high
    assert gravity.high - gravity.low < 0.7 * (
        before["original_gravity"].high - before["original_gravity"].low
    )
    assert after["abv_percent"].value < before["abv_percent"].value


def test_what_is_expected_of_a_blank_is_what_the_time_line_says(harbour_porter):
    outlook = look_ahead(harbour_porter)
    hot = expected(outlook, Reading(Measured.BOIL_END_VOLUME, 0.0, By.MARK))
    assert hot.value == pytest.approx(outlook.day.boil_end_hot_l)
    assert hot.low < hot.value < hot.high
    assert expected(outlook, Reading(Measured.ORIGINAL_GRAVITY, 0.0, By.HYDROMETER)).value == (
        outlook.forecasts["original_gravity"].value
    )


def test_a_hydrometer_is_trusted_as_the_recipe_says(harbour_porter):
    reading = Reading(Measured.BOIL_END_GRAVITY, 1.086, By.HYDROMETER)
    assert usual_half_width(harbour_porter, reading) == pytest.approx(0.002)
