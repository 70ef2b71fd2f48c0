"""Ranges: the same on every run, wider for less sure inputs, and no numpy for the plain day."""

import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest

from designer.brewday.day import brew, brew_samples
from designer.brewday.outlook import look_ahead
from designer.brewday.sample_columns import standard_normal_column
from designer.recipe.quantity import Quantity


def test_the_same_recipe_gives_the_same_range(harbour_porter):
    standard_normal_column.cache_clear()
    first = look_ahead(harbour_porter).forecasts
    standard_normal_column.cache_clear()
    assert look_ahead(harbour_porter).forecasts == first


def test_a_column_takes_every_slice_of_the_normal_once():
    column = standard_normal_column("kitchen scale", 1024)
    assert abs(column.mean()) < 1e-12
    assert column.std() == pytest.approx(1.0, abs=0.01)
    assert len(set(column)) == 1024


def test_columns_of_different_inputs_are_unrelated():
    columns = np.array([standard_normal_column(f"input {i}", 1024) for i in range(40)])
    off_diagonal = np.corrcoef(columns) - np.eye(40)
    assert np.abs(off_diagonal).max() < 0.15


def test_columns_do_not_change_between_releases():
    """A released range must not move: these values are part of it."""
    column = standard_normal_column("bitterness model", 8)
    assert sorted(column) == pytest.approx(
        [-1.534, -0.887, -0.489, -0.157, 0.157, 0.489, 0.887, 1.534], abs=1e-3
    )


def test_an_alpha_acid_known_better_narrows_the_bitterness(harbour_porter):
    def width(give):
        alpha = Quantity(0.072, "7.2 %", give)
        first, *rest = harbour_porter.hops
        sure = replace(harbour_porter, hops=(replace(first, alpha=alpha), *rest))
        forecast = look_ahead(sure).forecasts["bitterness_ibu"]
        return forecast.high - forecast.low

    assert width(0.0) < width(0.007) < width(0.03)


def test_every_forecast_lies_within_its_range(harbour_porter):
    for forecast in look_ahead(harbour_porter).forecasts.values():
        assert forecast.low < forecast.value < forecast.high


def test_the_middle_of_the_samples_is_the_plain_day(harbour_porter):
    """Of powder: syrup and grain leave some of themselves behind, which the plain day does not."""
    powder = harbour_porter.fermentables[1]
    harbour_porter = replace(harbour_porter, fermentables=(powder,))
    plain, (sampled, tolerances) = brew(harbour_porter), brew_samples(harbour_porter, 1024)
    middle = float(np.median(sampled.beer.original_gravity))
    assert middle == pytest.approx(float(plain.beer.original_gravity), abs=2e-4)
    assert "alpha acid of Challenger" in tolerances


def test_the_plain_day_needs_no_numpy():
    code = (
        "import sys\n"
        "from designer.brewday.outlook import look_ahead\n"
        "from designer.recipe.document import Recipe\n"
        "look_ahead(Recipe(), ranges=False)\n"
        "assert not {'numpy', 'pint', 'sqlite_utils', 'PySide6'} & set(sys.modules)\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_without_ranges_every_forecast_is_its_value_alone(harbour_porter):
    plain = look_ahead(harbour_porter, ranges=False).forecasts
    for key, forecast in look_ahead(harbour_porter).forecasts.items():
        value = plain[key].value
        assert value == forecast.value
        assert (plain[key].low, plain[key].high, plain[key].causes) == (value, value, ())
