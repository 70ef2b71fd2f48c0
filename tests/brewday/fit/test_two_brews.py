"""The half batch brewed twice: where it is offered, what it takes, what waits for the next day."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import line_kg
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.original import original_of
from designer.brewday.fit.two_brews import two_brews
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import room_l, wish_for
from designer.brewday.outlook import look_ahead
from designer.recipe.quantity import Quantity
from designer.workbench.fit_text import fit_document, fit_lines
from tests.brewday.fit.kitchens import pairs

MANY = pairs((6.0, 9.0, 15.0), (0.46, 0.52, 0.8), 3)


def fit(recipe, fermenters=(12.0,), pot_l=9.0, **changes):
    return ways(recipe, replace(wish_for(recipe, pot_l, fermenters), **changes))


def brewed_twice(answer):
    return {way.key: way for way in answer.every_way}.get("two brews")


@pytest.fixture(scope="module")
def twice(breakwater_red):
    """The 20 L kit in the one bucket of 12 L."""
    return brewed_twice(fit(breakwater_red))


def test_the_same_half_is_brewed_on_two_days_in_the_one_bucket(twice, breakwater_red):
    one, two = twice.recipes
    assert one == two
    assert (twice.batch_l, twice.brew_days) == (pytest.approx(20.0), 2)
    for old, new in zip(breakwater_red.fermentables, one.fermentables, strict=True):
        assert line_kg(new) == pytest.approx(line_kg(old) / 2.0)
    assert [each.turn for each in twice.planned.boils] == ["after the one before", "another day"]
    assert [each.on_day for each in twice.plan.boils] == [0, 1]
    assert {each.fermenter.volume.value for each in twice.planned.fermenters} == {12.0}
    assert twice.total_min == pytest.approx(2.0 * float(brew(one).total_min), abs=1.0)


def test_it_is_the_beer_of_the_recipe(twice):
    for key, within in (("original_gravity", 0.001), ("bitterness_ibu", 1.0), ("colour_srm", 0.5)):
        assert abs(twice.forecasts[key].change) <= within


def test_it_is_begun_with_what_is_there_and_the_second_packet_is_bought_later(twice):
    [packet] = twice.must_buy
    assert packet.kind == "yeast"
    assert packet.later
    assert twice.in_hand
    assert packet.words.text.endswith("for the second brew")
    assert "each time" in twice.steps[-1].text


def test_two_packets_in_the_recipe_are_one_for_each_brew(breakwater_red):
    two = Quantity(22.0, "22 g", unit="g")
    kit = replace(breakwater_red, yeast=replace(breakwater_red.yeast, amount=two))
    way = brewed_twice(fit(kit))
    assert way.must_buy == ()
    assert [each.yeast.amount.value for each in way.plan.fermenters] == [11.0, 11.0]


def test_the_other_half_waits_and_it_is_said_how_and_for_how_long(twice, breakwater_red):
    """An opened tin keeps for three weeks: common practice, no source."""
    waits = {each.name: each.amount.value for each in twice.kept_meanwhile}
    for line in (*breakwater_red.fermentables, *breakwater_red.hops):
        assert waits[line.name] == pytest.approx(line_kg(line) / 2.0)
    assert all(each.keep.text for each in twice.kept_meanwhile)
    assert twice.left_over == ()
    assert "keeps for 3 weeks" in twice.steps[1].text


def test_it_stands_behind_the_smaller_batch_and_before_what_has_to_be_bought(breakwater_red):
    """For weeks there is but the half of it, as of a smaller batch."""
    answer = fit(breakwater_red)
    assert [way.key for way in answer.ways[:2]] == ["smaller batch", "two brews"]
    assert all(not way.in_hand for way in answer.ways[2:])
    assert answer.ways[1].closeness == pytest.approx(3.0 * 0.47, abs=0.06)


def test_text_and_json_tell_the_two_days(breakwater_red, twice):
    answer = fit(breakwater_red)
    text = " ".join(" ".join(fit_lines(breakwater_red, answer)).split())
    assert "Two brews, in turn" in text
    assert "at the stove and sink on each of 2 days." in text
    assert "Keep for the second brew: 850 g of" in text
    said = next(way for way in fit_document(answer)["ways"] if way["key"] == "two brews")
    assert said["brew_days"] == 2
    assert [each["later"] for each in said["must_buy"]] == [True]
    assert {each["name"] for each in said["kept_meanwhile"]} == {
        each.name for each in twice.kept_meanwhile
    }


def test_where_one_fermenter_takes_it_all_or_but_a_little_less_nothing_is_brewed_twice(
    breakwater_red,
):
    for brim in (30.0, 23.0, 22.0):
        assert brewed_twice(fit(breakwater_red, (brim,))) is None
    assert brewed_twice(fit(breakwater_red, (12.0, 13.0))) is None


def test_half_of_it_may_be_topped_up_a_little_less_too_and_no_more_than_that(breakwater_red):
    """A bucket of 11 L takes 9.3 L, a tenth less than half is too little."""
    way = brewed_twice(fit(breakwater_red, (11.0,)))
    assert way.batch_l == pytest.approx(18.6)
    assert way.forecasts["original_gravity"].value == pytest.approx(
        1.0 + 0.0426 * 20 / 18.6, abs=8e-4
    )
    assert brewed_twice(fit(breakwater_red, (10.5,))) is None


def test_no_pack_is_divided_where_none_may_be(breakwater_red):
    assert brewed_twice(fit(breakwater_red, whole_packs=True)) is None


def test_a_half_that_does_not_boil_is_no_way(breakwater_red):
    here = Kitchen(wish_for(breakwater_red, 2.5, (12.0,)), original_of(breakwater_red))
    assert two_brews(here) is None


@pytest.mark.parametrize("name", MANY)
def test_both_brews_fit_and_use_the_recipe_up_but_for_bittering_hops(name):
    recipe, wish = MANY[name]
    draft = two_brews(Kitchen(wish, original_of(recipe)))
    if draft is None:
        return
    assert isinstance(draft, Draft)
    one, two = draft.recipes
    assert one == two
    day = brew(one)
    assert float(day.fermenter.batch_l) <= sum(room_l(each) for each in wish.fermenters) + 0.011
    assert day.pot.fullest_boiling_l <= 0.8 * wish.pot.volume.value + 1e-9
    for old, new in zip(recipe.fermentables, one.fermentables, strict=True):
        assert 2.0 * line_kg(new) == pytest.approx(line_kg(old), abs=2e-4)
    assert not {each.severity for each in look_ahead(one, ranges=False).findings} & {"stop"}
