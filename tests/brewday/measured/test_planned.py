"""A brew of several boils and fermenters as it is known after readings.

That masses add up and that what is mixed is a mean by volume are laws of physics.
"""

from dataclasses import replace

import pytest

from designer.brewday.measured.expecting import expected
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.reading_errors import usual_half_width
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.outlook import look_ahead
from designer.recipe.document import Fermenter, PlannedBoil, PlannedFermenter, WortShare
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind


def litres(value):
    return typed(Kind.VOLUME, value)


@pytest.fixture
def in_two(harbour_porter):
    """The porter in two boils, each into a bucket of its own."""
    half = PlannedBoil(
        harbour_porter.pot,
        typed(Kind.FRACTION, 0.5),
        start_water=litres(4.5),
    )
    buckets = tuple(
        PlannedFermenter(
            Fermenter("Bucket", litres(8.0)), (WortShare(boil),), top_up_to=litres(5.0)
        )
        for boil in (1, 2)
    )
    return replace(harbour_porter, boils=(half, half), fermenters=buckets)


@pytest.fixture
def into_one(in_two):
    """The same, both boils into one bucket."""
    bucket = PlannedFermenter(
        Fermenter("Bucket", litres(15.0)),
        (WortShare(1), WortShare(2)),
        top_up_to=litres(10.0),
    )
    return replace(in_two, fermenters=(bucket,))


def gravity_of(plan):
    return [each.forecasts["original_gravity"] for each in plan.fermenters]


def test_boils_that_were_measured_differently_are_no_longer_alike(in_two):
    first, second = in_two.boils
    second = replace(
        second, pot=replace(second.pot, name="Other pot")
    )  # of the first it tells none
    in_two = replace(in_two, boils=(first, second))
    before = gravity_of(look_ahead(in_two).plan)
    assert before[0] == before[1]
    level = Reading(Measured.INTO_FERMENTER, 3.5, By.SCALE, boil=2, fermenter=2)
    gravity = Reading(Measured.ORIGINAL_GRAVITY, before[1].low, By.HYDROMETER, boil=2, fermenter=2)
    outlook = day_measured(in_two, [level, gravity])
    first, second = gravity_of(outlook.plan)
    assert first == before[0]
    assert second.high - second.low < 0.6 * (first.high - first.low)
    assert second.value < first.value
    moved = [float(each.poured[0].from_pot_l) for each in outlook.plan.fermenters]
    assert abs(moved[1] - 3.5) < abs(moved[0] - 3.5)
    assert outlook.forecasts["original_gravity"].value == pytest.approx(
        (first.value + second.value) / 2.0, abs=2e-4
    )


def test_water_measured_into_one_boil_is_that_boils_water(in_two):
    read = Reading(Measured.WATER_IN, 4.0, By.SCALE, boil=1)
    outlook = day_measured(in_two, [read])
    water = [float(each.day.pot.start_water_l) for each in outlook.plan.boils]
    assert water == pytest.approx([4.0, 4.5], abs=0.02)
    assert outlook.plan.boils[0].recipe.process.start_water.value == 4.0


def test_what_comes_into_one_fermenter_is_told_of_the_boil_that_is_named(into_one):
    outlook = look_ahead(into_one)
    first = expected(outlook, Reading(Measured.INTO_FERMENTER, 0.0, By.MARK, boil=1))
    second = expected(outlook, Reading(Measured.INTO_FERMENTER, 0.0, By.MARK, boil=2))
    poured = [each.from_pot_l for each in outlook.plan.fermenters[0].poured]
    assert first.value == pytest.approx(poured[0], rel=0.01)  # it is read warm
    assert second.value == pytest.approx(poured[1], rel=0.01)


def test_the_mark_after_each_boil_is_of_all_that_is_in_the_fermenter_then(into_one):
    outlook = look_ahead(into_one)
    (bucket,) = outlook.plan.fermenters
    marks = [
        expected(outlook, Reading(Measured.TOPPED_UP, 0.0, By.MARK, boil=boil)).value
        for boil in (1, 2)
    ]
    assert marks == pytest.approx([bucket.poured[0].filled_l, bucket.total_l], rel=1e-6)


def test_what_came_from_the_second_boil_alone_is_read_as_its_own(into_one):
    poured = look_ahead(into_one).plan.fermenters[0].poured
    read = [
        Reading(Measured.INTO_FERMENTER, each.from_pot_l, By.SCALE, boil=each.boil)
        for each in poured
    ]
    (bucket,) = day_measured(into_one, read).plan.fermenters
    found = [each.from_pot_l for each in bucket.poured]
    assert found == pytest.approx([each.from_pot_l for each in poured], rel=0.01)


def test_a_mark_that_both_boils_were_topped_up_to_is_shared_by_them(into_one):
    read = Reading(Measured.TOPPED_UP, 11.0, By.MARK, boil=2)
    outlook = day_measured(into_one, [read])
    (bucket,) = outlook.plan.fermenters
    assert bucket.total_l == pytest.approx(11.0, rel=1e-3)
    planned = look_ahead(into_one).plan.fermenters[0]
    points = [1000.0 * (each.day.beer.original_gravity - 1.0) for each in (planned, bucket)]
    # Water neither makes nor removes extract.
    assert points[1] * bucket.total_l == pytest.approx(points[0] * planned.total_l, rel=0.01)


def test_a_gravity_of_what_two_boils_filled_is_told_of_both(into_one):
    before = look_ahead(into_one).forecasts["original_gravity"]
    read = Reading(Measured.ORIGINAL_GRAVITY, before.high, By.HYDROMETER)
    after = day_measured(into_one, [read]).forecasts["original_gravity"]
    assert before.value < after.value < before.high
    assert after.high - after.low < 0.75 * (before.high - before.low)


def test_a_packet_whose_alpha_acid_was_read_is_that_of_both_boils(in_two):
    line = in_two.hops[0].line_id
    read = Reading(Measured.ALPHA, 0.12, By.PACKET, lines="hops", line_id=line)
    before, after = (
        [each.forecasts["bitterness_ibu"].value for each in outlook.plan.fermenters]
        for outlook in (look_ahead(in_two), day_measured(in_two, [read]))
    )
    assert after[0] == after[1] > before[0]


def test_a_level_in_the_wider_pot_of_one_boil_is_off_by_more_litres(in_two):
    wide, narrow = (
        replace(in_two.boils[0].pot, diameter=typed(Kind.LENGTH, across)) for across in (0.40, 0.20)
    )
    boils = tuple(
        replace(boil, pot=pot) for boil, pot in zip(in_two.boils, (wide, narrow), strict=True)
    )
    plan = replace(in_two, boils=boils)
    first, second = (
        usual_half_width(plan, Reading(Measured.BOIL_END_VOLUME, 4.0, By.DIPSTICK, boil=boil))
        for boil in (1, 2)
    )
    assert first > 1.5 * second


def test_one_boil_shared_between_two_buckets_is_measured_as_the_whole(harbour_porter):
    """Half of what goes into one bucket, read in each, is what the whole brew reads in one."""
    plain = replace(harbour_porter, process=replace(harbour_porter.process, frozen_top_up=None))
    half = tuple(
        PlannedFermenter(
            Fermenter("Bucket", litres(8.0), marks=plain.fermenter.marks),
            (WortShare(1, typed(Kind.FRACTION, 0.5)),),
            top_up_to=litres(5.0),
        )
        for _ in (1, 2)
    )
    shared = replace(plain, fermenters=half)
    end = Reading(Measured.BOIL_END_VOLUME, 5.6, By.DIPSTICK)
    whole = Reading(Measured.INTO_FERMENTER, 5.0, By.SCALE, half_width=0.2)
    parts = [replace(whole, value=2.5, half_width=0.1, fermenter=fermenter) for fermenter in (1, 2)]
    one, two = day_measured(plain, [end, whole]), day_measured(shared, [end, *parts])
    for key, found in one.forecasts.items():
        assert two.forecasts[key].value == pytest.approx(found.value, rel=1e-3), key
        assert two.forecasts[key].low == pytest.approx(found.low, rel=1e-3), key
        assert two.forecasts[key].high == pytest.approx(found.high, rel=1e-3), key
    assert sum(each.from_pot_l for each in two.plan.fermenters) == pytest.approx(
        float(one.day.fermenter.from_pot_l), rel=1e-3
    )


def test_how_warm_a_mix_of_two_boils_is_tells_of_neither_alone(into_one):
    read = Reading(Measured.MIXED, 25.0, By.THERMOMETER)
    assert day_measured(into_one, [read]).forecasts == look_ahead(into_one).forecasts


def test_the_gravity_of_a_mix_leaves_the_stronger_boil_stronger(into_one):
    strong, other = into_one.boils
    thin = replace(into_one.fermentables[0], amount=typed(Kind.MASS, 0.6))
    plan = replace(into_one, boils=(strong, replace(other, fermentables=(thin,))))
    before = look_ahead(plan)
    mixed = before.forecasts["original_gravity"].value
    read = Reading(Measured.ORIGINAL_GRAVITY, mixed, By.HYDROMETER)
    after = day_measured(plan, [read])
    assert after.forecasts["original_gravity"].value == pytest.approx(mixed, abs=2e-4)
    first, second = (each.forecasts["original_gravity"].value for each in before.plan.boils)
    assert first > second + 0.01
    for boil, planned in zip(after.plan.boils, before.plan.boils, strict=True):
        was = planned.forecasts["original_gravity"].value
        assert boil.forecasts["original_gravity"].value == pytest.approx(was, abs=3e-4)
