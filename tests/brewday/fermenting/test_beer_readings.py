"""What a sample of fermenting beer says.

The fits of a refractometer are Terrill's (2011, quoted in `designer.wort.refractometer`), written
out here once more; 40 °C of warmth and plain water are left to the tests of the hydrometer.
"""

from dataclasses import replace
from math import hypot

import pytest

from designer.brewday.explaining.asked import GravitySample, Scale, Taken
from designer.brewday.fermenting.beer_readings import (
    ByRefractometer,
    hydrometer_gravity,
    is_refractometer,
    refractometer_gravity,
    wort_by_refractometer,
)
from designer.brewday.measured.readings import By
from designer.recipe.document import Process
from designer.recipe.quantity import Quantity
from designer.wort.density import gravity_from_plato, plato_from_gravity

AT_20 = {"sample_c": 20.0, "taken": Taken.FERMENTING}


def linear(first, last):
    return 1.0 - 0.00085683 * first + 0.0034941 * last


def brix(shown, **more):
    return GravitySample(shown, scale=Scale.BRIX, by=By.REFRACTOMETER, **{**AT_20, **more})


@pytest.mark.parametrize(
    ("sample", "gravity", "half_width"),
    [
        (GravitySample(1.0120, **AT_20), 1.0120, 0.002),
        (GravitySample(1.0120, in_water=1.001, **AT_20), 1.0110, 0.001),
        (GravitySample(1.0120, in_water=0.998, **AT_20), 1.0140, 0.001),
        (GravitySample(3.0, scale=Scale.PLATO, **AT_20), gravity_from_plato(3.0), 0.002),
        (GravitySample(1.0120, taken=Taken.FERMENTING), 1.0120, hypot(0.002, 0.001)),
    ],
)
def test_a_hydrometer_tells_the_gravity_less_what_it_shows_too_much(sample, gravity, half_width):
    found, error = hydrometer_gravity(sample, Process())
    assert found == pytest.approx(gravity, abs=5e-5)
    assert error == pytest.approx(half_width)


def test_a_hydrometer_that_is_known_in_water_counts_unless_the_sample_says_otherwise():
    known = Process(hydrometer_in_water=Quantity(1.002, "1.002", spread=0.0005))
    found, error = hydrometer_gravity(GravitySample(1.0120, **AT_20), known)
    assert (found, error) == pytest.approx((1.0100, 0.0005), abs=5e-5)
    own = GravitySample(1.0120, in_water=1.0, **AT_20)
    assert hydrometer_gravity(own, known) == pytest.approx((1.0120, 0.0005), abs=5e-5)


def test_warm_beer_is_heavier_than_it_reads():
    warm, _ = hydrometer_gravity(replace(GravitySample(1.0120, **AT_20), sample_c=30.0), Process())
    # Tables printed with hydrometers (from memory): about 0.002 at 30 °C for one made for 20 °C.
    assert 1.0140 < warm < 1.0155


def test_a_refractometer_tells_beer_by_what_it_showed_in_the_wort():
    found = refractometer_gravity(brix(6.5), 1.050, brix(12.9, taken=Taken.TOPPED_UP))
    assert found.linear == pytest.approx(linear(12.9 / 1.04, 6.5 / 1.04), abs=1e-6)
    assert found.half_width == max(0.002, abs(found.cubic - found.linear))
    assert found.older < found.linear


def test_without_a_sample_of_the_wort_its_gravity_tells_what_it_showed():
    plato = plato_from_gravity(1.050)
    found = refractometer_gravity(brix(6.5), 1.050)
    assert found.linear == pytest.approx(linear(plato, 6.5 / 1.04), abs=1e-6)
    own_factor = refractometer_gravity(brix(6.5, correction=1.0), 1.050)
    assert own_factor.linear == pytest.approx(linear(plato, 6.5), abs=1e-6)


def test_a_wort_read_with_another_factor_is_brought_to_that_of_the_beer():
    wort = brix(12.4, correction=1.0, taken=Taken.TOPPED_UP)
    found = refractometer_gravity(brix(6.5), 1.050, wort)
    assert found.linear == pytest.approx(linear(12.4, 6.5 / 1.04), abs=1e-6)


def test_a_scale_in_gravity_is_read_as_its_extract():
    shown = GravitySample(gravity_from_plato(6.5), by=By.REFRACTOMETER, **AT_20)
    assert refractometer_gravity(shown, 1.05).linear == pytest.approx(
        refractometer_gravity(brix(6.5), 1.05).linear, abs=1e-6
    )


def test_until_three_fifths_are_eaten_no_fit_holds():
    original = plato_from_gravity(1.050)
    for shown in (5.5, 6.5, 7.0, 7.5, 8.0, 9.0):
        found = refractometer_gravity(brix(shown), 1.050)
        eaten = 1.0 - plato_from_gravity(linear(original, shown / 1.04)) / original
        assert found.holds is (eaten >= 0.61)
    assert not refractometer_gravity(brix(0.5), 1.0).holds


def test_the_words_tell_the_error_and_the_other_formulas():
    told = ByRefractometer(1.012, 1.011, 1.008, 0.002, holds=True).words.text
    for each in ("1.012 by refractometer, 0.002 either way", "1.011 and 1.008", "never tells"):
        assert each in told
    early = ByRefractometer(1.02, 1.02, 1.02, 0.002, holds=False).words.text
    assert early.startswith("Too early for a refractometer: until about 61 %")


def test_the_last_wort_that_a_refractometer_read_is_the_one():
    first, second = (brix(each, taken=Taken.TOPPED_UP) for each in (12.0, 12.9))
    beer, jar = brix(6.5), GravitySample(1.050, sample_c=20.0)
    assert wort_by_refractometer([first, second, beer, jar]) is second
    assert wort_by_refractometer([beer, jar]) is None
    assert not is_refractometer(jar)
    assert is_refractometer(GravitySample(12.0, scale=Scale.BRIX))
    assert is_refractometer(GravitySample(1.050, by=By.REFRACTOMETER))
