"""What a hydrometer shows beside what the wort is."""

import math
from dataclasses import replace

import numpy as np
import pytest

from designer.brewday.instrument import (
    reading_range,
    reads_high_by,
    true_gravity,
    trusted_within,
)
from designer.brewday.outlook import look_ahead
from designer.brewday.results import Range
from designer.recipe.document import Process
from designer.recipe.quantity import Kind
from designer.units import read

SURE = Range(1.050, 1.050, 1.050)


def in_water(text):
    return Process(hydrometer_in_water=read(Kind.GRAVITY, text))


def test_an_unchecked_hydrometer_is_trusted_to_two_marks():
    """Common practice, no source: home instruments ± 0.002; one checked in water ± 0.001."""
    assert trusted_within(Process()) == 0.002
    assert trusted_within(in_water("1.001")) == 0.001
    assert trusted_within(in_water("1.001 ± 0.0005")) == pytest.approx(0.0005)
    assert reading_range(SURE, Process()) == (1.048, 1.052)
    assert reading_range(SURE, in_water("1.002")) == (1.049, 1.051)


def test_what_it_shows_too_much_in_water_is_known():
    assert reads_high_by(Process()) == 0.0
    assert reads_high_by(in_water("1.002")) == pytest.approx(0.002)
    assert reads_high_by(in_water("0.999")) == pytest.approx(-0.001)


def test_two_doubts_that_have_nothing_to_do_with_each_other_add_as_squares():
    """Source: the sum of two normals is normal; 3 and 4 make 5."""
    found = reading_range(Range(1.050, 1.047, 1.053, middle=1.050), in_water("1.000 ± 0.004"))
    assert found == (1.045, 1.055)


def test_nine_readings_in_ten_lie_in_the_range_of_a_leaning_forecast():
    """Source: draws of both, made here with numpy."""
    drawn = np.random.default_rng(1)
    wort = 1.050 + np.abs(drawn.normal(0.0, 0.003, 200_000))
    read_off = wort + drawn.normal(0.0, 0.002 / 1.6449, wort.size)
    low, middle, high = np.percentile(wort, (5, 50, 95))
    first, last = reading_range(Range(1.050, 1.050, high, middle=middle), Process())
    inside = np.mean((read_off >= first) & (read_off <= last))
    assert 0.89 < inside < 0.97
    assert low > 1.0500


@pytest.mark.parametrize("key", ["original_gravity", "final_gravity"])
def test_a_reading_is_less_sure_than_the_wort(harbour_porter, key):
    found = look_ahead(harbour_porter).forecasts[key]
    low, high = reading_range(found, harbour_porter.process)
    assert low < found.low <= found.value <= found.high < high
    marks = [1000.0 * low, 1000.0 * high]
    assert marks == pytest.approx([round(each) for each in marks], abs=1e-6)


def test_a_checked_hydrometer_narrows_what_is_read(harbour_porter):
    found = look_ahead(harbour_porter).forecasts["final_gravity"]
    checked = replace(
        harbour_porter.process, hydrometer_in_water=read(Kind.GRAVITY, "1.000 ± 0.0003")
    )
    low, high = reading_range(found, harbour_porter.process)
    first, last = reading_range(found, checked)
    assert last - first < high - low
    assert math.isclose(first, found.low, abs_tol=0.0012)


def test_what_is_shown_in_a_sample_is_put_right_for_the_instrument_and_its_warmth():
    """Water of 40 °C is 0.9922 kg/L, of 20 °C 0.9982 (Kell 1975, from memory): it shows 0.994 on a
    hydrometer that is made for 20 °C, and a little more for the glass that has grown."""
    assert true_gravity(1.050, 20.0, Process()) == pytest.approx(1.050, abs=1e-5)
    assert true_gravity(1.052, 20.0, in_water("1.002")) == pytest.approx(1.050, abs=1e-5)
    assert true_gravity(1.049, 20.0, in_water("0.999")) == pytest.approx(1.050, abs=1e-5)
    assert true_gravity(0.9922 / 0.9982, 40.0, Process()) == pytest.approx(1.000, abs=0.0007)
    assert true_gravity(0.9942, 40.0, Process()) > true_gravity(0.9942, 30.0, Process())
