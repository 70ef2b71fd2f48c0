"""What is said not to work does not: every water, share and weight is tried, one by one."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.answer import NoWay
from designer.brewday.fit.changed_recipe import line_kg, with_amounts, with_mark, with_water
from designer.brewday.fit.draft_way import Kitchen, in_kitchen
from designer.brewday.fit.fermenters import cellar_for
from designer.brewday.fit.original import IBU_DEADBAND, original_of
from designer.brewday.fit.pot_limits import STRONGEST_BOIL_SG, fullest_at_the_boil_l
from designer.brewday.fit.two_boils import divided
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import HopInHand, room_l, wish_for
from designer.recipe.edits import next_line_id
from designer.wort.vessel_fit import foam_limit_l
from tests.brewday.fit.kitchens import pairs
from tests.brewday.quantities import q

POTS = (3.0, 5.0, 7.0, 8.0, 15.0)
SHARES = (0.3, 0.55, 1.05)
MANY = pairs(POTS, SHARES, 3)


@pytest.fixture(scope="module")
def refused():
    """Every refusal of every pair, by the id of what is said."""
    found = {}
    for name, (recipe, wish) in MANY.items():
        for each in ways(recipe, wish).no_ways:
            found.setdefault(each.reason.id, []).append((name, each))
    return found


def waters_that_boil(recipe, original):
    """Yield each water in tenths of a litre with which a recipe boils below the foam line, comes to
    no more than its mark, and ends no stronger than a syrup or the recipe itself."""
    pot = recipe.pot
    foam_room = 0.2 if pot.foam_room is None else pot.foam_room.value
    limit = foam_limit_l(pot.volume.value, foam_room)
    strongest = max(STRONGEST_BOIL_SG, float(original.day.pot.boil_gravity_end) + 0.001)
    mark = recipe.process.top_up_to.value
    for tenths in range(5, int(12 * pot.volume.value)):
        made = with_water(recipe, tenths / 10)
        day = brew(made)
        if (
            float(day.pot.fullest_l) <= pot.volume.value
            and fullest_at_the_boil_l(made, day) <= limit
            and float(day.fermenter.batch_l) <= mark + 0.01
            and float(day.pot.boil_gravity_end) <= strongest
        ):
            yield tenths / 10


def test_enough_is_refused_for_these_sentences_to_be_tried(refused):
    assert len(MANY) >= 12 * len(POTS)
    for said in ("not-at-once", "not-even-half", "not-even", "hop-not-enough"):
        assert refused[said], said


def test_what_a_pot_is_said_not_to_boil_at_once_it_does_not(refused):
    for name, each in refused["not-at-once"]:
        recipe, wish = MANY[name]
        here = Kitchen(wish, original_of(recipe))
        batch_l = here.original.batch_l
        whole = in_kitchen(here, cellar_for(wish, batch_l + 0.05), batch_l)
        assert list(waters_that_boil(whole, here.original)) == [], (name, each.reason.text)


def test_not_even_the_half_means_not_even_the_half(refused):
    for name, each in refused["not-even-half"]:
        recipe, wish = MANY[name]
        original = original_of(recipe)
        half_l = each.reason.figures[0][1]
        assert 0.9 * original.batch_l / 2.0 - 0.1 < half_l < original.batch_l / 2.0 + 0.11
        half = with_mark(replace(divided(recipe, 0.5)[0], pot=wish.pot), round(half_l, 1))
        assert list(waters_that_boil(half, original)) == [], (name, each.reason.text)


def test_not_even_three_litres_means_not_even_three_litres(refused):
    """Whatever its bitterness: a batch that is only not bitter enough is offered."""
    for name, each in refused["not-even"]:
        recipe, wish = MANY[name]
        here = Kitchen(wish, original_of(recipe))
        batch_l = each.reason.figures[0][1]
        assert batch_l == 3.0
        share = batch_l / here.original.batch_l
        start = in_kitchen(here, cellar_for(wish, batch_l), batch_l)
        lines = (*recipe.fermentables, *recipe.hops)
        part = with_amounts(start, {line.line_id: share * line_kg(line) for line in lines})
        assert list(waters_that_boil(part, here.original)) == [], (name, each.reason.text)


def test_a_kit_whose_bitterness_is_in_the_tin_is_brewed_in_a_small_pot_too():
    """No batch is quite as bitter at first, but three litres and more of it boil."""
    for name, (recipe, wish) in MANY.items():
        if name.startswith("kit and sugar, 3 L pot"):
            found = {way.key: way for way in ways(recipe, wish).every_way}
            assert found["smaller batch"].batch_l >= 3.0


def test_hops_that_are_said_not_to_be_enough_are_not(refused):
    """All of them in, and as many times fewer, in the one boil they were to help."""
    for name, each in refused["hop-not-enough"]:
        recipe, wish = MANY[name]
        answer = ways(recipe, wish)
        [base] = [way for way in answer.every_way if way.key == "one boil"]
        [made] = base.recipes
        most_kg = each.reason.figures[0][1]
        wanted = answer.forecasts["bitterness_ibu"].value
        for hop in made.hops:
            for tenths in range(1, 11):
                tried = with_amounts(made, {hop.line_id: most_kg * tenths / 10})
                short = wanted - float(brew(tried).beer.bitterness_ibu)
                assert short > IBU_DEADBAND, (name, each.reason.text)


def test_hops_in_hand_that_are_not_enough_are_not(quay_pale):
    few = (HopInHand("Magnum", q(0.12), 0.002), HopInHand("Fuggle", q(0.04), 0.005))
    wish = replace(wish_for(quay_pale, 12.0, (25.0,)), hops_in_hand=few)
    answer = ways(quay_pale, wish)
    [said] = [each for each in answer.no_ways if each.key == "other hops"]
    assert isinstance(said, NoWay)
    [base] = [way for way in answer.every_way if way.key == "one boil"]
    [made] = base.recipes
    for hand in few:
        first = made.hops[0]
        hop = replace(first, name=hand.name, alpha=hand.alpha, amount=q(hand.mass_kg, "kg"))
        made = replace(made, hops=(*made.hops, replace(hop, line_id=next_line_id(made))))
    short = answer.forecasts["bitterness_ibu"].value - float(brew(made).beer.bitterness_ibu)
    assert short > IBU_DEADBAND


def test_fermenters_that_are_said_to_be_too_small_are(refused):
    for name, each in refused["fermenters-too-small"]:
        batch_l, brim_l = (figure[1] for figure in each.reason.figures)
        assert 3.0 * room_l(MANY[name][1].fermenters[0]) < batch_l
        assert brim_l >= batch_l
    for name, each in refused["two-fermenters-too-small"]:
        batch_l, room = (figure[1] for figure in each.reason.figures)
        assert room == pytest.approx(room_l(MANY[name][1].fermenters[0]))
        assert 2.0 * room < batch_l


def test_where_two_would_do_and_none_may_be_bought_that_is_said(breakwater_red):
    wish = replace(wish_for(breakwater_red, 9.0, (12.0,)), may_buy_fermenter=False)
    [said] = [each for each in ways(breakwater_red, wish).no_ways if each.key == "two boils"]
    assert said.reason.text == (
        "No two fermenters in hand hold 20 L together, and none is to be bought."
    )
