"""The best way, against trying everything on a small grid; and against pots of other sizes."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import room_l, wish_for
from designer.recipe.quantity import Quantity
from designer.wort.vessel_fit import foam_limit_l

POTS = [3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 12.0, 15.0, 20.0, 30.0]


@pytest.fixture(params=["breakwater_red", "porter", "slipway_bitter", "quay_pale"])
def recipe(request):
    return request.getfixturevalue(request.param)


def by_key(answer):
    return {way.key: way for way in answer.every_way}


def place_of_best(answer):
    """Whether the best way asks for a purchase, and how far its beer is; the least is the best."""
    best = answer.ways[0] if answer.ways else None
    return (True, float("inf")) if best is None else (not best.in_hand, best.closeness)


@pytest.mark.parametrize("fermenter", [12.0, 25.0])
def test_a_larger_pot_never_makes_the_best_way_worse(recipe, fermenter):
    answers = [ways(recipe, wish_for(recipe, pot, (fermenter,))) for pot in POTS]
    for best in ([place_of_best(each) for each in answers], [nearest(each) for each in answers]):
        assert best == sorted(best, reverse=True)
    assert nearest(answers[-1]) == 0.0


def nearest(answer):
    """How far the nearest beer is, whatever has to be bought for it."""
    return min((way.closeness for way in answer.every_way), default=float("inf"))


def test_more_fermenters_never_make_the_best_way_worse(recipe):
    for may_buy in (False, True):
        best = []
        for fermenters in ((8.0,), (8.0, 8.0), (8.0, 8.0, 12.0), (8.0, 8.0, 12.0, 30.0)):
            wish = replace(wish_for(recipe, 9.0, fermenters), may_buy_fermenter=may_buy)
            best.append(place_of_best(ways(recipe, wish)))
        assert best == sorted(best, reverse=True)


def test_what_is_in_hand_comes_first_then_the_nearest_beer_then_the_least_to_do(recipe):
    found = ways(recipe, wish_for(recipe, 7.0, (12.0,))).ways
    order = [(not way.in_hand, way.closeness, way.effort) for way in found]
    assert order == sorted(order)


def test_a_kit_s_way_in_the_one_bucket_comes_before_those_that_ask_for_another(breakwater_red):
    found = ways(breakwater_red, wish_for(breakwater_red, 9.0, (12.0,))).ways
    assert found[0].key == "smaller batch"
    assert found[0].in_hand
    assert found[0].closeness > 1.0
    assert found[1].key == "two brews"
    assert [way.in_hand for way in found[1:]] == [True] + [False] * (len(found) - 2)
    assert found[2].closeness == 0.0


def test_what_lies_well_inside_the_recipe_s_own_range_is_no_reason_for_a_long_day(slipway_bitter):
    """Bitterness is known to some eight IBU: three fewer cost no second boil."""
    found = ways(slipway_bitter, wish_for(slipway_bitter, 6.0, (25.0,))).ways
    one, two = (next(way for way in found if way.key == key) for key in ("one boil", "two boils"))
    ibu = one.forecasts["bitterness_ibu"]
    assert -4.0 < ibu.change < -2.0
    assert one.closeness == two.closeness == 0.0
    assert one.rank < two.rank


def with_water(recipe, litres):
    process = replace(recipe.process, start_water=Quantity(litres, f"{litres:g} L"))
    return replace(recipe, process=process)


@pytest.mark.parametrize("pot", [7.0, 9.0, 11.0, 14.0])
def test_no_other_amount_of_water_fills_the_pot_better(recipe, pot):
    """Every tenth of a litre is brewed: more water than the one boil takes would not fit."""
    answer = ways(recipe, wish_for(recipe, pot, (40.0,)))
    way = by_key(answer).get("one boil")
    if way is None:
        assert "one boil" in {each.key for each in answer.no_ways}
        return
    [made] = way.recipes
    own = recipe.process.start_water.value
    limit = foam_limit_l(pot, 0.2)
    fits = []
    for tenths in range(10, round(10 * own) + 1):
        day = brew(with_water(made, tenths / 10))
        if (
            day.pot.fullest_boiling_l <= limit
            and day.pot.fullest_l <= pot
            and day.fermenter.batch_l <= made.process.top_up_to.value + 0.01
            and day.beer.bitterness_ibu <= way.forecasts["bitterness_ibu"].original + 0.5
        ):
            fits.append(tenths / 10)
    assert made.process.start_water.value == max(fits)


def test_the_smaller_batch_holds_all_the_fermenters_do(breakwater_red):
    for fermenter in (8.0, 10.0, 12.0, 15.0):
        wish = wish_for(breakwater_red, 9.0, (fermenter,))
        way = by_key(ways(breakwater_red, wish))["smaller batch"]
        room = room_l(wish.fermenters[0])
        assert room - 0.1 < way.batch_l <= room + 0.01


def test_more_late_extract_than_the_way_takes_would_be_too_bitter(quay_pale):
    """All twentieths are tried: the way takes the most that is not more bitter than the recipe."""
    from designer.brewday.fit.changed_recipe import boil_left
    from designer.brewday.fit.late_extract import early_lines, put_off
    from designer.brewday.fit.original import original_of
    from designer.brewday.fit.pot_limits import filled

    original = original_of(quay_pale)
    bitterness = []
    for share in range(1, 21):
        later = put_off(quay_pale, share / 20, boil_left(15.0), early_lines(quay_pale, 15.0))
        made = filled(later, original, 19.0, hold_bitterness=False)
        bitterness.append(float(brew(made).beer.bitterness_ibu))
    assert bitterness == sorted(bitterness)
    assert bitterness[-1] > bitterness[0] + 1.0


def test_a_recipe_that_fits_is_left_as_it_is(recipe):
    answer = ways(recipe, wish_for(recipe, 40.0, (40.0,)))
    best = answer.ways[0]
    assert (best.key, best.effort, best.closeness) == ("one boil", 0, 0.0)
    assert best.recipes[0].process == recipe.process
    assert "as it is written" in answer.sentence.text
    assert not answer.would_work


def test_where_nothing_works_it_says_so_and_what_would(breakwater_red):
    wish = replace(wish_for(breakwater_red, 2.0, (2.0,)), may_buy_fermenter=False)
    answer = ways(breakwater_red, wish)
    assert answer.ways == ()
    assert answer.sentence.text.startswith("Nothing works")
    assert {each.key for each in answer.no_ways} >= {"one boil", "smaller batch", "two boils"}
    said = " ".join(each.text for each in answer.would_work)
    assert "A fermenter of" in said
    pots = [each.figures[0][1] for each in answer.would_work if "A pot of" in each.text]
    assert pots == sorted(pots, reverse=True)
    for pot in pots:
        helped = by_key(ways(breakwater_red, wish_for(breakwater_red, pot, (25.0,))))
        assert helped["one boil"].closeness == 0.0
    smaller = wish_for(breakwater_red, pots[-1] - 1.0, (25.0,))
    assert "one boil" not in by_key(ways(breakwater_red, smaller))


def test_no_water_and_no_extract_are_said_and_not_computed(porter):
    dry = replace(porter, process=replace(porter.process, start_water=None, top_up_to=None))
    assert ways(dry, wish_for(dry, 9.0)).ways == ()
    thin = replace(porter, fermentables=())
    answer = ways(thin, wish_for(thin, 9.0))
    assert answer.ways == ()
    assert "nothing to ferment" in answer.sentence.text
