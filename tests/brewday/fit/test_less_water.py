"""All of it in a little less water: where, how fuller the beer gets, and that it comes first."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.less_water import MOST_MISSING, in_less_water, less_water
from designer.brewday.fit.original import original_of
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import room_l, wish_for
from tests.brewday.fit.kitchens import pairs


def fit(recipe, fermenters, pot_l=9.0, **changes):
    return ways(recipe, replace(wish_for(recipe, pot_l, fermenters), **changes))


def kitchen(recipe, fermenters, pot_l=9.0):
    return Kitchen(wish_for(recipe, pot_l, fermenters), original_of(recipe))


@pytest.mark.parametrize("whole_packs", [True, False])
@pytest.mark.parametrize("may_buy_fermenter", [True, False])
def test_a_kit_of_20_litres_in_a_bucket_of_23_is_brewed_whole_at_19_and_a_half(
    breakwater_red, whole_packs, may_buy_fermenter
):
    answer = fit(
        breakwater_red, (23.0,), whole_packs=whole_packs, may_buy_fermenter=may_buy_fermenter
    )
    best = answer.ways[0]
    assert (best.key, best.name) == ("less water", "All of it in less water")
    assert best.batch_l == pytest.approx(19.5)
    assert (best.must_buy, best.left_over) == ((), ())
    gravity = best.forecasts["original_gravity"]
    assert (f"{gravity.value:.3f}", f"{gravity.original:.3f}") == ("1.044", "1.043")
    said = best.steps[0].text
    assert (
        said
        == "All of it goes in and is topped up to 19.5 L instead of 20 L: 1.044 instead of 1.043."
    )
    assert answer.sentence.text.endswith("all of it in less water.")


def test_all_that_was_bought_goes_in_as_it_was_written(breakwater_red):
    [recipe] = fit(breakwater_red, (23.0,)).ways[0].recipes
    assert recipe.fermentables == breakwater_red.fermentables
    assert recipe.hops == breakwater_red.hops
    assert recipe.extras == breakwater_red.extras


def test_the_beer_is_fuller_in_proportion_and_no_other(breakwater_red):
    """Extract is neither made nor lost, so its points times the litres stay: mass balance."""
    for brim in (21.5, 22.0, 22.5, 23.0):
        best = fit(breakwater_red, (brim,)).ways[0]
        assert best.key == "less water"
        for key, zero, within in (("original_gravity", 1.0, 0.0006), ("bitterness_ibu", 0.0, 0.7)):
            found = best.forecasts[key]
            fuller = (found.original - zero) * best.original_batch_l / best.batch_l
            assert found.value - zero == pytest.approx(fuller, abs=within)


def test_beyond_a_tenth_it_is_no_longer_that_beer(breakwater_red):
    """With a tenth less water a beer of 1.043 becomes one of 1.048: a judgement, no source."""
    assert MOST_MISSING == 0.10
    for litres, little in ((18.0, True), (17.8, False), (19.9, True), (20.0, False)):
        here = kitchen(breakwater_red, (litres / 0.85 + 0.001,))
        assert (in_less_water(here) is not None) == little, litres
    assert "less water" not in {way.key for way in fit(breakwater_red, (20.5,)).every_way}


def test_several_fermenters_together_may_miss_by_little_too(breakwater_red):
    """Each wants a packet of yeast; no third bucket is asked for."""
    [way] = [each for each in fit(breakwater_red, (12.0, 11.0)).ways if each.key == "less water"]
    assert [each.in_hand for each in way.boils[0].fillings] == [True, True]
    assert [each.kind for each in way.must_buy] == ["yeast"]
    assert way.batch_l == pytest.approx(19.5)


def test_other_ways_that_divide_nothing_take_less_water_rather_than_a_bucket(porter):
    answer = fit(porter, (11.4,), pot_l=5.0)
    brewed = {way.key: way for way in answer.every_way}
    assert "less water" not in brewed  # the pot does not boil all of it at once
    two = brewed["two boils"]
    assert two.must_buy == ()
    assert two.batch_l <= room_l(wish_for(porter, 5.0, (11.4,)).fermenters[0]) + 1e-9
    assert "goes in and is topped up to" in " ".join(each.text for each in two.steps)


def test_where_the_pot_does_not_boil_it_at_once_there_is_no_such_way(breakwater_red):
    here = kitchen(breakwater_red, (23.0,), pot_l=5.0)
    assert less_water(here, in_less_water(here)) is None


@pytest.mark.parametrize("name", list(pairs((15.0,), (0.93, 0.98))))
def test_a_way_in_less_water_divides_nothing_buys_nothing_and_fits(name):
    recipe, wish = pairs((15.0,), (0.93, 0.98))[name]
    here = Kitchen(wish, original_of(recipe))
    fuller = in_less_water(here)
    if fuller is None:
        pytest.skip("this fermenter has more or less room than is usual")
    draft = less_water(here, fuller)
    if draft is None:
        assert float(brew(recipe).pot.fullest_l) > 12.0
        return
    assert isinstance(draft, Draft)
    assert (draft.bought, draft.must_buy) == (0, ())
    [made] = draft.recipes
    assert made.fermentables == recipe.fermentables
    assert made.hops == recipe.hops
    day = brew(made)
    assert float(day.fermenter.batch_l) <= sum(room_l(each) for each in wish.fermenters) + 1e-6
    assert float(day.beer.original_gravity) >= here.original.least_gravity
