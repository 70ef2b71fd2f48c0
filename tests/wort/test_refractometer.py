"""Refractometer forms against worked values and the sucrose table."""

import pytest

from designer.wort import refractometer
from designer.wort.density import gravity_from_plato
from designer.wort.refractometer import (
    REFRACTOMETER_METHODS,
    final_gravity_cubic,
    final_gravity_linear,
    final_gravity_older,
    plato_from_brix,
)


@pytest.mark.parametrize(
    ("initial", "final", "original", "linear", "cubic", "older"),
    # Computed from the equations of S. Terrill (2011), readings divided by 1.04.
    [
        (12.5, 6.2, 1.0485, 1.0105, 1.0115, 1.0082),
        (15, 7.5, 1.0587, 1.0128, 1.0131, 1.0098),
        (10.4, 5.2, 1.0400, 1.0089, 1.0103, 1.0074),
        (18, 9.0, 1.0711, 1.0154, 1.0147, 1.0114),
        (12, 6.5, 1.0464, 1.0120, 1.0130, 1.0112),
    ],
)
def test_final_gravity_from_two_readings(initial, final, original, linear, cubic, older):
    within = {"abs": 0.00006}
    assert gravity_from_plato(plato_from_brix(initial)) == pytest.approx(original, **within)
    assert final_gravity_linear(initial, final) == pytest.approx(linear, **within)
    assert final_gravity_cubic(initial, final) == pytest.approx(cubic, **within)
    assert final_gravity_older(initial, final) == pytest.approx(older, **within)


def test_the_correction_is_the_brewers_own():
    assert plato_from_brix(12.48) == pytest.approx(12.0)
    assert plato_from_brix(12.0, 1.0) == 12.0


def test_the_older_form_reads_low():
    # Published: low by 0.0005 to 0.0085 (Terrill).
    for initial, final in ((10, 5), (13, 6.5), (16, 8)):
        low = final_gravity_linear(initial, final) - final_gravity_older(initial, final)
        assert 0.0005 < low < 0.0085


@pytest.mark.parametrize("name", REFRACTOMETER_METHODS)
def test_absurd_readings_still_answer(name):
    function = REFRACTOMETER_METHODS[name].function
    assert function(0.0, 0.0) == pytest.approx(1.0, abs=0.002)
    assert function(90.0, 90.0, 0.0) > -1e9


@pytest.mark.parametrize("form", ["linear", "cubic", "older"])
def test_both_refractometer_readings_are_corrected(form):
    """Dividing both readings by 1.04 beforehand is the same as a correction of 1.04."""
    final = getattr(refractometer, f"final_gravity_{form}")
    beforehand = final(12.5 / 1.04, 6.2 / 1.04, 1.0)
    assert final(12.5, 6.2, 1.04) == pytest.approx(beforehand, rel=1e-12)
    assert final(12.5, 6.2, 1.00) != pytest.approx(beforehand, abs=1e-4)
