"""How a recipe is brewed by a plan: what each boil holds, what each fermenter gets of it."""

from dataclasses import replace

import pytest

from designer.recipe.document import (
    Extra,
    Fermentable,
    Fermenter,
    Hop,
    PlannedBoil,
    PlannedFermenter,
    Pot,
    Process,
    Recipe,
    WortShare,
    Yeast,
)
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.plan import (
    AS_WRITTEN,
    as_recipe,
    as_written,
    boils_of,
    is_planned,
    plan_faults,
    pours,
    recipe_of_boil,
    recipe_of_pour,
    whole_recipe,
    wort_share,
)
from designer.recipe.quantity import Kind


def litres(value):
    return typed(Kind.VOLUME, value)


def kilograms(value):
    return typed(Kind.MASS, value)


def share(value):
    return typed(Kind.FRACTION, value)


KIT = with_line_ids(
    Recipe(
        name="Kit",
        pot=Pot("Pot", litres(9.0)),
        fermenter=Fermenter("Bucket", litres(25.0)),
        process=Process(start_water=litres(6.0), top_up_to=litres(20.0)),
        fermentables=(
            Fermentable(
                "Hopped kit", "hopped kit extract", kilograms(1.7), label_volume=litres(20.0)
            ),
            Fermentable("Dry extract", "dry extract", kilograms(1.0)),
        ),
        hops=(Hop("Fuggle", amount=kilograms(0.02)),),
        yeast=Yeast("Ale", amount=typed(Kind.DOSE, 11.0, unit="g")),
    )
)
HALF = PlannedBoil(Pot("Pot", litres(9.0)), share(0.5), start_water=litres(6.0))
BUCKET = Fermenter("Small bucket", litres(12.0))


def with_plan(boils=(), fermenters=()):
    return replace(KIT, boils=tuple(boils), fermenters=tuple(fermenters))


def test_without_a_plan_there_is_one_boil_into_the_recipes_own_fermenter():
    assert not is_planned(KIT)
    assert as_written(KIT) is KIT
    (pour,) = pours(KIT)
    assert (pour.boil, pour.fermenter, pour.share, pour.mark_l) == (1, 1, 1.0, 20.0)
    assert recipe_of_pour(KIT, pour) == KIT


def test_a_share_takes_so_much_of_every_line_and_the_label_stays_that_of_the_tin():
    half = recipe_of_boil(with_plan([HALF, HALF]), 1)
    assert [line.amount.value for line in half.fermentables] == [0.85, 0.5]
    assert half.fermentables[0].label_amount.value == 1.7
    assert half.hops[0].amount.value == 0.01
    assert half.boils == half.fermenters == ()


def test_boils_that_say_no_share_take_an_equal_one():
    third = replace(HALF, share=None)
    made = recipe_of_boil(with_plan([third, third, third]), 2)
    assert made.fermentables[1].amount.value == pytest.approx(1.0 / 3.0, abs=1e-4)


def test_lines_of_its_own_take_the_place_of_the_share():
    own = replace(HALF, hops=(replace(KIT.hops[0], amount=kilograms(0.013)),))
    made = recipe_of_boil(with_plan([own, HALF]), 1)
    assert made.hops[0].amount.value == 0.013
    assert made.fermentables[0].amount.value == 0.85


def test_own_lines_bear_the_number_of_the_written_line_that_they_are():
    own = replace(
        HALF,
        fermentables=(replace(KIT.fermentables[1], amount=kilograms(0.4), line_id=0),),
        hops=(Hop("Harbour hop", amount=kilograms(0.01)),),
    )
    numbered = with_line_ids(with_plan([own]))
    assert numbered.boils[0].fermentables[0].line_id == numbered.fermentables[1].line_id
    written = {line.line_id for line in (*numbered.fermentables, *numbered.hops)}
    assert numbered.boils[0].hops[0].line_id not in written


def test_the_mark_of_a_fermenter_is_shared_by_what_each_boil_brings():
    plan = with_plan(
        [replace(HALF, share=share(0.6)), replace(HALF, share=share(0.4))],
        [PlannedFermenter(Fermenter("Bucket", litres(25.0)), top_up_to=litres(20.0))],
    )
    first, second = pours(plan)
    assert (first.mark_l, second.mark_l) == (pytest.approx(12.0), pytest.approx(8.0))
    assert first.of_fermenter + second.of_fermenter == pytest.approx(1.0)


def test_a_third_is_a_third_though_it_is_typed_to_a_tenth_of_a_percent():
    buckets = [PlannedFermenter(BUCKET, (wort_share(1, 1.0 / 3.0),), litres(6.7)) for _ in range(3)]
    assert buckets[0].wort_from[0].share.text == "33.3 %"
    assert [each.share for each in pours(with_plan((), buckets))] == [pytest.approx(1 / 3)] * 3


def test_a_pour_of_half_the_wort_is_reckoned_as_if_all_went_to_twice_the_mark():
    buckets = [PlannedFermenter(BUCKET, (wort_share(1, 0.5),), litres(10.0)) for _ in range(2)]
    plan = with_plan((), buckets)
    made = recipe_of_pour(plan, pours(plan)[1])
    assert made.process.top_up_to.value == pytest.approx(20.0)
    assert made.fermenter == BUCKET


def test_a_cooling_constant_was_measured_in_the_recipes_own_pot():
    measured = replace(
        with_plan([HALF, replace(HALF, pot=Pot("Other", litres(7.0)))]),
        process=replace(KIT.process, cooling_constant=typed(Kind.RATE, 0.05)),
    )
    assert recipe_of_boil(measured, 1).process.cooling_constant is not None
    assert recipe_of_boil(measured, 2).process.cooling_constant is None


def test_the_whole_of_two_halves_is_what_the_recipe_lists_with_yeast_for_each_vessel():
    buckets = [PlannedFermenter(BUCKET, (WortShare(boil),), litres(10.0)) for boil in (1, 2)]
    whole = whole_recipe(with_plan([HALF, HALF], buckets))
    assert [line.amount.value for line in whole.fermentables] == [1.7, 1.0]
    assert [line.amount.value for line in whole.hops] == [0.02]
    assert whole.yeast.amount.value == 22.0
    assert not is_planned(whole)


def test_a_plan_of_one_boil_and_one_vessel_can_become_the_recipe():
    plan = with_plan([HALF], [PlannedFermenter(BUCKET, top_up_to=litres(10.0))])
    made = as_recipe(plan)
    assert made.fermenter == BUCKET
    assert made.process.top_up_to.value == 10.0
    assert made.fermentables[0].amount.value == 0.85
    assert as_recipe(with_plan([HALF, HALF])) is None


def test_as_written_takes_the_plan_away():
    assert AS_WRITTEN.apply(with_plan([HALF, HALF])) == KIT
    assert len(boils_of(KIT)) == 1


@pytest.mark.parametrize(
    ("boils", "fermenters", "said"),
    [
        ((), [PlannedFermenter(BUCKET, (WortShare(2),))], "there is no boil 2; there are 1"),
        ((), [PlannedFermenter(BUCKET, (WortShare(1, share(0.0)),))], "it gets no wort"),
        ([HALF, HALF], [PlannedFermenter(BUCKET, (WortShare(1),))], "none takes wort of boil 2"),
        (
            (),
            [PlannedFermenter(BUCKET, (WortShare(1, share(0.6)),))] * 2,
            "120 % of the wort of boil 1",
        ),
    ],
)
def test_what_no_plan_can_mean_is_refused(boils, fermenters, said):
    assert any(said in fault.text for fault in plan_faults(with_plan(boils, fermenters)))


def test_what_a_plan_can_mean_is_not():
    buckets = [PlannedFermenter(BUCKET, (wort_share(1, 0.5),), litres(10.0)) for _ in range(2)]
    for plan in (KIT, with_plan([HALF, HALF]), with_plan((), buckets)):
        assert list(plan_faults(plan)) == []


def test_what_is_counted_agrees_with_its_number():
    half = replace(HALF, start_water=None)
    two = replace(KIT, extras=(Extra("Carrageenan finings", amount=dose(2.0, "tablets")),))
    plan = replace(two, boils=(half, half))
    assert recipe_of_boil(plan, 1).extras[0].amount.text == "1 tablet"
    assert whole_recipe(plan).extras[0].amount.text == "2 tablets"
    one = replace(KIT, extras=(Extra("Carrageenan finings", amount=dose(1.0, "tablet")),))
    assert recipe_of_boil(replace(one, boils=(half, half)), 1).extras[0].amount.text == "0.5 tablet"
    grams = replace(KIT, extras=(Extra("Gelatin", amount=dose(2.0, "g")),))
    assert recipe_of_boil(replace(grams, boils=(half, half)), 1).extras[0].amount.text == "1 g"


def dose(value, unit):
    return typed(Kind.DOSE, value, unit=unit)
