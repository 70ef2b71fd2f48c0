"""Sharing a recipe between two boils: parts that add up, pots and fermenters that hold them."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import boil_left, line_kg, with_process
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.original import original_of
from designer.brewday.fit.two_boils import divided, second_pot, two_boils
from designer.brewday.fit.wish import wish_for
from designer.recipe.document import Extra, Fermentable, Hop, Pot, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Kind, Quantity, Stage, When


def q(value, unit=""):
    return Quantity(
        float(value), f"{value:g} {unit}".strip(), unit=unit if unit == "tablet" else ""
    )


@pytest.fixture
def bill():
    return with_line_ids(
        Recipe(
            fermentables=(
                Fermentable("syrup", "liquid extract", q(1.7, "kg")),
                Fermentable("crystal", "steeping grain", q(0.333, "kg")),
                Fermentable("mash malt", "mash grain", q(0.333, "kg")),
            ),
            hops=(Hop("Fuggle", amount=q(0.0333, "kg")), Hop("untyped")),
            extras=(Extra("finings", amount=q(1, "tablet")), Extra("untyped")),
        )
    )


def kilograms(recipe):
    return [line_kg(each) for each in (*recipe.fermentables, *recipe.hops)]


@pytest.mark.parametrize("first", [0.3, 0.41, 0.5, 0.6180339, 0.9])
def test_the_two_parts_add_up_to_the_recipe_to_a_tenth_of_a_gram(bill, first):
    one, two = divided(bill, first)
    for a, b, whole in zip(kilograms(one), kilograms(two), kilograms(bill), strict=True):
        assert a + b == pytest.approx(whole, abs=1e-9)
        assert a == pytest.approx(first * whole, abs=0.0025)
    assert one.yeast == two.yeast == bill.yeast


def test_the_first_part_is_weighed_as_a_kitchen_weighs(bill):
    """Extract in fives of grams, grain in grams, hops in halves: common practice, no source."""
    one, two = divided(bill, 0.41)
    assert kilograms(one) == [pytest.approx(n) for n in (0.695, 0.137, 0.137, 0.0135, 0.0)]
    assert kilograms(two) == [pytest.approx(n) for n in (1.005, 0.196, 0.196, 0.0198, 0.0)]


def test_halves_are_halves_without_rounding(bill):
    one, two = divided(bill, 0.5)
    assert kilograms(one)[0] == kilograms(two)[0] == 0.85
    assert kilograms(one)[1] == 0.1665
    assert [each.amount and each.amount.value for each in one.extras] == [0.5, None]


def test_finings_are_shared_in_quarters_of_a_tablet(bill):
    one, two = divided(bill, 0.3)
    assert [each.extras[0].amount.value for each in (one, two)] == [0.25, 0.75]


def kitchen(recipe, pot_l, fermenters, **changes):
    return Kitchen(replace(wish_for(recipe, pot_l, fermenters), **changes), original_of(recipe))


@pytest.fixture(scope="module")
def lossless(quay_pale):
    """Nothing stays in the pot, so that no mark need come down to hold the gravity."""
    return with_process(
        quay_pale,
        start_water=q(18, "L"),
        left_in_pot=q(0, "L"),
        hop_absorption=q(0, "L/kg"),
        grain_absorption=q(0),
    )


def marks(draft):
    return [each.process.top_up_to.value for each in draft.recipes]


def test_in_one_fermenter_that_holds_all_two_halves_are_boiled_one_after_the_other(lossless):
    draft = two_boils(kitchen(lossless, 12.0, (25.0, 25.0)))
    assert marks(draft) == [9.5, 9.5]
    assert draft.one_fermenter
    assert not draft.at_once
    assert len(draft.fermenters) == 1
    assert draft.recipes[0] == draft.recipes[1]
    assert draft.effort == 4
    assert draft.bought == 0
    assert [said.figures for said in draft.steps] == [
        ((Kind.VOLUME, 9.5), (Kind.VOLUME, 9.5)), (),
    ]  # fmt: skip
    assert "the same day" in draft.steps[1].text


def test_an_odd_batch_is_shared_in_marks_of_a_tenth_that_add_up(lossless):
    odd = with_process(lossless, top_up_to=q(18.9, "L"))
    here = kitchen(odd, 12.0, (13.0, 13.0))
    one, two = marks(two_boils(here))
    assert one + two == pytest.approx(18.9)
    assert abs(one - two) == pytest.approx(0.1)
    assert one == pytest.approx(round(one, 1))


def test_an_odd_batch_in_one_fermenter_is_of_two_boils_alike(lossless):
    odd = with_process(lossless, top_up_to=q(18.9, "L"))
    draft = two_boils(kitchen(odd, 12.0, (25.0,)))
    assert draft.recipes[0] == draft.recipes[1]
    assert sum(marks(draft)) == pytest.approx(18.9)


def test_each_of_two_fermenters_takes_a_boil_of_its_own(lossless):
    draft = two_boils(kitchen(lossless, 12.0, (12.0, 13.0)))
    assert not draft.one_fermenter
    assert [each.volume.value for each in draft.fermenters] == [13.0, 12.0]
    assert [recipe.fermenter.volume.value for recipe in draft.recipes] == [13.0, 12.0]
    assert sum(marks(draft)) == pytest.approx(19.0)
    assert "of its own" in draft.steps[1].text
    assert draft.effort == 4


def test_fermenters_of_two_sizes_are_filled_by_their_room(lossless):
    draft = two_boils(kitchen(lossless, 12.0, (16.0, 8.0)))
    large, small = marks(draft)
    assert (large, small) == (pytest.approx(12.7), pytest.approx(6.3))
    extract = [line_kg(recipe.fermentables[0]) for recipe in draft.recipes]
    assert extract[0] / extract[1] == pytest.approx(2.0, rel=0.01)


def test_a_second_fermenter_is_bought_for_the_second_boil_and_is_one_thing_more(lossless):
    draft = two_boils(kitchen(lossless, 12.0, (12.0,)))
    assert [cellar.bought for cellar in draft.cellars] == [0, 1]
    assert draft.effort == 5
    refused = two_boils(kitchen(lossless, 12.0, (12.0,), may_buy_fermenter=False))
    assert not isinstance(refused, Draft)
    assert refused.reason.figures == ((Kind.VOLUME, 19.0),)


def test_less_than_four_litres_are_not_boiled_twice(lossless):
    """Half of it would not be worth the pot: a judgement, no source."""
    for litres, divided_ in ((4.0, True), (3.9, False)):
        little = with_process(
            lossless, top_up_to=q(litres, "L"), start_water=q(3, "L"), evaporation=q(0.5, "L/h")
        )
        little = replace(
            little,
            fermentables=(replace(little.fermentables[0], amount=q(0.6, "kg")),),
            hops=(replace(little.hops[0], amount=q(0.006, "kg")),),
        )
        assert float(brew(little).fermenter.batch_l) == pytest.approx(litres)
        found = two_boils(kitchen(little, 9.0, (12.0,)))
        assert isinstance(found, Draft) == divided_


def test_where_not_even_half_of_it_boils_that_is_said(lossless):
    found = two_boils(kitchen(lossless, 4.0, (25.0,)))
    assert not isinstance(found, Draft)
    said = "Not even the share for 9.5 L of the 19 L boils in the 4 L pot at once"
    assert found.reason.text.startswith(said)


def test_a_smaller_share_than_half_is_not_called_half(lossless):
    found = two_boils(kitchen(lossless, 4.0, (16.0, 8.0)))
    assert "12.7 L of the 19 L" in found.reason.text
    assert "half" not in found.reason.text


def test_a_share_that_boils_but_is_too_bitter_is_not_said_not_to_boil(lossless):
    """The late hops are many times those of the beer that is held, and late hops stay."""
    here = kitchen(lossless, 12.0, (25.0,))
    bitter = replace(
        lossless,
        hops=tuple(
            replace(each, amount=q(0.2, "kg"), when=boil_left(10)) for each in lossless.hops
        ),
    )
    found = two_boils(Kitchen(here.wish, replace(here.original, recipe=bitter)))
    assert "boils in the 12 L pot, but too bitter" in found.reason.text
    assert "Not even" not in found.reason.text


def test_each_boil_gives_the_beer_of_the_recipe(lossless):
    here = kitchen(lossless, 14.0, (25.0,))
    for recipe in two_boils(here).recipes:
        day = brew(recipe)
        assert (
            abs(float(day.beer.original_gravity) - float(here.original.day.beer.original_gravity))
            < 0.001
        )
        assert float(day.beer.bitterness_ibu) <= here.original.most_ibu
        assert day.pot.fullest_boiling_l <= 0.8 * 14.0
        assert day.pot.evaporated_l > 0.0


# Two pots at once.


def old_pot(litres, **changes):
    return Pot("Old pot", q(litres, "L"), **changes)


def test_there_is_no_second_pot_where_none_is_in_hand(lossless):
    assert second_pot(kitchen(lossless, 12.0, (25.0,))) is None


def test_two_pots_share_the_batch_by_what_they_boil(lossless):
    """16 L and 8 L to the rim, a fifth of each for foam: two thirds and a third."""
    draft = second_pot(kitchen(lossless, 16.0, (25.0,), second_pot=old_pot(8.0)))
    assert draft.at_once
    assert draft.one_fermenter
    assert draft.effort == 3
    assert marks(draft) == [pytest.approx(12.7), pytest.approx(6.3)]
    assert [recipe.pot.volume.value for recipe in draft.recipes] == [16.0, 8.0]
    assert draft.recipes[1].pot.name == "Old pot"
    hops = [line_kg(recipe.hops[0]) for recipe in draft.recipes]
    assert hops == [0.020, 0.010]


def test_a_pot_that_foams_more_takes_less_of_the_batch(lossless):
    roomy = old_pot(16.0, foam_room=q(0.4))
    draft = second_pot(kitchen(lossless, 16.0, (25.0,), second_pot=roomy))
    assert marks(draft)[0] == pytest.approx(19.0 * 0.8 / 1.4, abs=0.06)


def test_a_pot_of_unknown_size_takes_half(lossless):
    draft = second_pot(kitchen(lossless, 16.0, (25.0,), second_pot=Pot("Some pot")))
    assert marks(draft) == [9.5, 9.5]


def test_two_fermenters_decide_the_shares_of_two_pots(lossless):
    draft = second_pot(kitchen(lossless, 16.0, (12.0, 12.0), second_pot=old_pot(11.0)))
    assert marks(draft) == [9.5, 9.5]
    assert draft.at_once


def test_two_pots_of_one_sort_boil_the_same(lossless):
    here = kitchen(lossless, 12.0, (25.0,))
    twin = replace(here.wish, second_pot=here.wish.pot)
    draft = second_pot(Kitchen(twin, here.original))
    assert draft.recipes[0] == draft.recipes[1]
    other = replace(here.wish.pot, stove="gas", power=q(1000, "W"))
    mixed = second_pot(Kitchen(replace(here.wish, second_pot=other), here.original))
    assert mixed.recipes[1].pot == other


def test_a_hop_of_a_short_boil_keeps_its_time_in_both(lossless):
    draft = two_boils(kitchen(lossless, 12.0, (25.0,)))
    for recipe in draft.recipes:
        assert [each.when for each in recipe.hops] == [boil_left(60), boil_left(10)]
        assert recipe.fermentables[1].when == When(Stage.STEEP, "steep")
