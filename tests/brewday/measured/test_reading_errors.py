"""How far off a reading may be, reckoned anew by geometry and by squares.

Household measures ±5 % of every mark (ANSI Z61.1, quoted in the module), lines of a hydrometer
every 0.002 and a kitchen thermometer: common practice, no source. Two independent errors add as
squares (any textbook); a level of so many mm holds pi/4 times the width squared.
"""

from dataclasses import replace
from math import hypot, pi, sqrt

import pytest

from designer.brewday.measured.reading_errors import (
    GRAVITIES,
    TEMPERATURES,
    VOLUMES_IN_FERMENTER,
    VOLUMES_IN_POT,
    ReadingError,
    error_of,
    off_by_wort,
    usual_half_width,
)
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.measured.slip import KIND_OF
from designer.recipe.quantity import Kind, Quantity
from tests.brewday.quantities import q

M = Measured
WIDE_M, USUAL_M = 0.30, 0.26


@pytest.fixture
def recipe(harbour_porter):
    """The porter in a pot 30 cm across."""
    return replace(harbour_porter, pot=replace(harbour_porter.pot, diameter=q(0.30, "m")))


def litres(across_m, high_mm):
    return pi / 4.0 * (100.0 * across_m) ** 2 * high_mm / 10.0 / 1000.0


def test_whatever_is_measured_has_the_error_of_its_kind():
    volumes = {M.WATER_IN, *VOLUMES_IN_POT, *VOLUMES_IN_FERMENTER}
    kinds = ((Kind.VOLUME, volumes), (Kind.GRAVITY, GRAVITIES), (Kind.TEMPERATURE, TEMPERATURES))
    for kind, told in kinds:
        assert {what for what in M if KIND_OF[what] is kind} == set(told)
    assert {M.ALPHA, M.WEIGHT} == {what for what in M if KIND_OF[what] not in dict(kinds)}


@pytest.mark.parametrize(
    ("reading", "shared", "own"),
    [
        (Reading(M.BOIL_START_VOLUME, 6.0, By.MARK), 0.24, litres(WIDE_M, 5.0)),
        (Reading(M.BOIL_VOLUME, 6.0, By.DIPSTICK), 0.12, litres(WIDE_M, 5.0)),
        (Reading(M.BOIL_END_VOLUME, 6.0, By.MARK), 0.24, litres(WIDE_M, 3.0)),
        (Reading(M.BOIL_END_VOLUME, 6.0, By.DIPSTICK), 0.12, litres(WIDE_M, 2.0)),
        (Reading(M.BOIL_END_VOLUME, 6.0, By.SCALE), 0.0, 0.2),
        (Reading(M.INTO_FERMENTER, 5.0, By.DIPSTICK), 0.10, litres(USUAL_M, 2.0)),
        (Reading(M.INTO_FERMENTER, 5.0, By.MARK), 0.20, 0.15),
        (Reading(M.TOPPED_UP, 10.0, By.MARK), 0.40, 0.15),
        (Reading(M.WATER_IN, 6.5, By.SCALE), 0.0, 0.05),
        (Reading(M.WATER_IN, 6.5, By.DIPSTICK), 0.13, litres(WIDE_M, 2.0)),
        (Reading(M.STEEP, 68.0, By.THERMOMETER), sqrt(4.0 - 0.25), 0.5),
    ],
)
def test_an_error_is_that_of_the_instrument_and_of_the_eye(recipe, reading, shared, own):
    found = error_of(recipe, reading)
    assert found.shared == pytest.approx(shared, rel=1e-6)
    assert found.own == pytest.approx(own, rel=1e-6)
    assert usual_half_width(recipe, reading) == pytest.approx(hypot(shared, own), rel=1e-6)


def test_water_by_the_jug_is_off_by_its_share(recipe):
    once, twice = (error_of(recipe, Reading(M.WATER_IN, each, By.MARK)) for each in (3.0, 6.0))
    assert twice.shared == pytest.approx(2.0 * once.shared)
    assert 0.02 * 3.0 <= once.shared <= 0.06 * 3.0  # household measures
    assert once.own == twice.own == 0.0


def test_a_pot_that_nobody_measured_is_of_usual_width(harbour_porter):
    found = error_of(harbour_porter, Reading(M.BOIL_END_VOLUME, 6.0, By.MARK))
    assert found.own == pytest.approx(litres(USUAL_M, 3.0))


def test_a_hydrometer_is_trusted_to_its_line_and_better_once_it_floated_in_water(recipe):
    in_pot = Reading(M.BOIL_END_GRAVITY, 1.090, By.HYDROMETER)
    found = error_of(recipe, in_pot)
    assert found.whole == pytest.approx(0.002)
    assert found.own == pytest.approx(0.001)
    mixed = error_of(recipe, Reading(M.ORIGINAL_GRAVITY, 1.046, By.HYDROMETER))
    assert mixed.own == pytest.approx(hypot(0.001, 0.0005))
    assert mixed.shared == pytest.approx(found.shared)
    floated = replace(recipe.process, hydrometer_in_water=Quantity(1.001, "1.001", spread=0.001))
    better = error_of(replace(recipe, process=floated), in_pot)
    assert better.whole == pytest.approx(0.001)
    assert better.own == pytest.approx(0.001 / sqrt(2.0))


def test_a_refractometer_is_off_by_a_share_of_the_points(recipe):
    found = error_of(recipe, Reading(M.BOIL_END_GRAVITY, 1.090, By.REFRACTOMETER))
    assert found == pytest.approx((0.03 * 0.090, 0.0008))
    mixed = error_of(recipe, Reading(M.ORIGINAL_GRAVITY, 1.050, By.REFRACTOMETER))
    assert mixed == pytest.approx((0.03 * 0.050, hypot(0.0008, 0.0005)))
    known = replace(recipe.process, wort_correction=Quantity(1.05, "1.05", spread=0.021))
    assert off_by_wort(replace(recipe, process=known)) == pytest.approx(0.02)
    bare = replace(recipe.process, wort_correction=Quantity(1.05, "1.05"))
    assert off_by_wort(replace(recipe, process=bare)) == pytest.approx(0.03)


def test_what_is_weighed_or_printed_on_a_packet_is_off_as_that_line_says(recipe):
    hop, syrup = recipe.hops[0], recipe.fermentables[0]
    doubted = replace(hop, alpha=replace(hop.alpha, spread=0.004))
    own = replace(recipe, hops=(doubted, *recipe.hops[1:]))
    packet = Reading(M.ALPHA, 0.080, By.PACKET, lines="hops", line_id=hop.line_id)
    assert error_of(own, packet) == pytest.approx((0.004, 0.0))
    usual, double = (error_of(recipe, replace(packet, value=each)) for each in (0.05, 0.10))
    assert double.shared == pytest.approx(2.0 * usual.shared)
    assert usual.shared > 0.0
    tin = Reading(M.WEIGHT, 1.4, By.SCALE, lines="fermentables", line_id=syrup.line_id)
    exact = replace(syrup, amount=replace(syrup.amount, spread=0.02))
    weighed = replace(recipe, fermentables=(exact, *recipe.fermentables[1:]))
    assert error_of(weighed, tin) == pytest.approx((0.02, 0.0))
    assert error_of(recipe, tin).whole > 0.0
    assert error_of(recipe, replace(tin, line_id=999)) == (0.0, 0.0)


def test_a_width_that_was_told_is_shared_out_as_the_usual_one():
    found = ReadingError(3.0, 4.0).as_wide_as(10.0)
    assert found == pytest.approx((6.0, 8.0))
    assert ReadingError(3.0, 4.0).as_wide_as(None) == (3.0, 4.0)
    assert ReadingError(0.0, 0.0).as_wide_as(2.0) == (0.0, 0.0)
