"""Hydrometer readings against the printed correction table."""

import numpy as np
import pytest

from designer.wort.density import gravity_from_plato, wort_density
from designer.wort.hydrometer import (
    extract_from_reading,
    on_its_scale,
    reading_for,
    true_gravity,
)
from designer.wort.water import water_density


@pytest.mark.parametrize(
    ("sample_c", "printed", "at_1000", "at_1040", "at_1080"),
    # Published: the second column, Palmer, How to Brew, appendix A (59 °F; the signs below 15 °C,
    # lost in one reprint, restored). The others computed.
    [
        (0, -0.0007, -0.0004, -0.0013, -0.0022),
        (5, -0.0009, -0.0006, -0.0012, -0.0018),
        (10, -0.0006, -0.0005, -0.0007, -0.0010),
        (20, 0.0009, 0.0008, 0.0010, 0.0013),
        (25, 0.0021, 0.0018, 0.0023, 0.0027),
        (30, 0.0035, 0.0031, 0.0038, 0.0044),
        (40, 0.0069, 0.0064, 0.0074, 0.0083),
        (45, 0.0089, 0.0084, 0.0095, 0.0105),
        (49, 0.0106, 0.0101, 0.0113, 0.0124),
    ],
)
def test_an_instrument_of_15_degrees(sample_c, printed, at_1000, at_1040, at_1080):
    for reading, correction in ((1.0, at_1000), (1.040, at_1040), (1.080, at_1080)):
        found = true_gravity(reading, sample_c, 15.0) - reading
        assert found == pytest.approx(correction, abs=0.00006)
    assert true_gravity(1.0, sample_c, 15.0) - 1.0 == pytest.approx(printed, abs=0.0006)
    # The printed table is the density of pure water, without the glass.
    water_only = water_density(15.0) / water_density(sample_c) - 1.0
    assert water_only == pytest.approx(printed, abs=0.00025)


@pytest.mark.parametrize(
    ("sample_c", "at_1010", "at_1040", "at_1060", "at_1080"),
    # Computed, ISO 1768 glass and ICUMSA density.
    [
        (5, -0.0016, -0.0022, -0.0026, -0.0030),
        (10, -0.0014, -0.0018, -0.0020, -0.0023),
        (15, -0.0008, -0.0010, -0.0011, -0.0012),
        (25, 0.0011, 0.0013, 0.0014, 0.0015),
        (30, 0.0024, 0.0027, 0.0029, 0.0031),
        (40, 0.0058, 0.0063, 0.0067, 0.0070),
        (50, 0.0099, 0.0106, 0.0111, 0.0116),
    ],
)
def test_an_instrument_of_20_degrees(sample_c, at_1010, at_1040, at_1060, at_1080):
    for reading, correction in (
        (1.010, at_1010),
        (1.040, at_1040),
        (1.060, at_1060),
        (1.080, at_1080),
    ):
        found = true_gravity(reading, sample_c) - reading
        assert found == pytest.approx(correction, abs=0.00006)


def test_the_reading_is_found_back_from_the_gravity():
    gravity = np.linspace(0.995, 1.170, 36)
    for sample_c in (0.0, 20.0, 60.0):
        reading = reading_for(gravity, sample_c)
        assert true_gravity(reading, sample_c) == pytest.approx(gravity, abs=1e-11)
    assert reading_for(1.05, 20.0) == pytest.approx(1.05, abs=1e-12)


@pytest.mark.parametrize(("plato", "above"), [(12.0, 0.0002), (20.0, 0.0003)])
def test_gravity_by_an_old_instrument_is_a_little_above(plato, above):
    # Computed: a 15/15 °C reading against 20/20 °C.
    old = reading_for_plato(plato)
    assert old - gravity_from_plato(plato) == pytest.approx(above, abs=0.00008)
    assert extract_from_reading(old, 15.0, 15.0) == pytest.approx(plato, abs=1e-9)


@pytest.mark.parametrize(("plato", "above"), [(0.0, 0.0), (12.0, 0.0002)])
def test_a_gravity_is_told_on_the_scale_of_an_old_instrument(plato, above):
    # Computed: a 15/15 °C reading against 20/20 °C.
    of_20_degrees = wort_density(plato / 100.0, 20.0) / water_density(20.0)
    told = on_its_scale(of_20_degrees, 15.0)
    assert told - of_20_degrees == pytest.approx(above, abs=0.0001)
    assert told == pytest.approx(reading_for_plato(plato), abs=1e-12)
    assert on_its_scale(1.05, 20.0) == pytest.approx(1.05, abs=1e-12)


def reading_for_plato(plato):
    return wort_density(plato / 100, 15.0) / water_density(15.0)


def test_an_instrument_is_made_for_twenty_degrees_unless_said():
    assert extract_from_reading(1.05, 30.0) == extract_from_reading(1.05, 30.0, 20.0)
    old = reading_for(1.05, 30.0, 15.0)
    assert true_gravity(old, 30.0, 15.0) == pytest.approx(1.05, abs=1e-12)
