"""Which ways are tried where, what is said of them, and what would make the recipe fit."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import with_process
from designer.brewday.fit.original import apart, apart_day, original_of
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import FitWish, wish_for
from designer.recipe.document import Pot, Recipe
from designer.recipe.quantity import Kind
from designer.wort.bitterness import POT_CEILING_IBU
from tests.brewday.quantities import q


@pytest.fixture(scope="module")
def pale(quay_pale):
    """19 L of a nearly full boil without ice."""
    made = with_process(quay_pale, frozen_top_up=None, start_water=q(18, "L"))
    assert float(brew(made).fermenter.batch_l) == pytest.approx(19.0)
    return made


def keys(answer):
    return {way.key for way in answer.every_way}


def named_keys(answer):
    return keys(answer) | {each.key for each in answer.no_ways}


def fit(recipe, pot_l, fermenters=(25.0,), **changes):
    return ways(recipe, replace(wish_for(recipe, pot_l, fermenters), **changes))


# What cannot be fitted yet.


def test_without_water_nothing_is_tried(pale):
    for recipe in (with_process(pale, start_water=None), with_process(pale, start_water=q(0))):
        answer = fit(recipe, 12.0)
        assert (answer.ways, answer.no_ways, answer.would_work) == ((), (), ())
        assert answer.sentence.text.startswith("There is no water yet")
        assert answer.original.fermenter.batch_l == brew(recipe).fermenter.batch_l
        assert set(answer.forecasts) == set(original_of(recipe).forecasts)


def test_less_than_half_a_litre_is_no_batch(pale):
    """A glass is not brewed: a judgement, no source."""
    drop = replace(
        with_process(pale, top_up_to=None, evaporation=q(0, "L/h"), left_in_pot=q(0.3, "L")),
        fermentables=(replace(pale.fermentables[0], amount=q(0.1, "kg")),),
        hops=(),
    )
    for litres, told in ((0.65, True), (0.85, False)):
        little = with_process(drop, start_water=q(litres, "L"))
        assert (float(brew(little).fermenter.batch_l) < 0.5) == told
        assert ("too little to divide" in fit(little, 12.0).sentence.text) == told


def test_less_than_a_point_of_gravity_is_nothing_to_ferment(pale):
    water = replace(pale, fermentables=(), hops=())
    assert fit(water, 40.0).sentence.text.startswith("There is nothing to ferment yet")
    for kg, told in ((0.04, True), (0.1, False)):
        thin = replace(water, fermentables=(replace(pale.fermentables[0], amount=q(kg, "kg")),))
        assert (float(brew(thin).beer.original_gravity) < 1.001) == told
        assert ("next to nothing to ferment" in fit(thin, 40.0).sentence.text) == told


def test_an_empty_recipe_is_answered_too():
    assert ways(Recipe(), FitWish(Pot(), (Recipe().fermenter,))).ways == ()


# Which ways are tried.


def test_where_it_fits_as_written_nothing_else_is_tried(pale):
    answer = fit(pale, 40.0)
    assert named_keys(answer) == {"one boil"}
    assert answer.sentence.text == "The recipe fits this kitchen as it is written."
    assert answer.would_work == ()


def test_where_one_boil_loses_bitterness_all_that_makes_up_for_it_is_tried(pale):
    answer = fit(pale, 12.0, (12.0,))
    assert named_keys(answer) == {
        "one boil", "late extract", "off the boil", "more hops", "smaller batch", "two boils",
        "two brews",
    }  # fmt: skip
    assert [way.rank for way in answer.ways] == list(range(1, len(answer.ways) + 1))


def test_ways_of_one_boil_are_not_tried_where_one_boil_does_not_go(pale):
    answer = fit(pale, 7.0, (12.0,))
    assert "one boil" in {each.key for each in answer.no_ways}
    assert not named_keys(answer) & {"late extract", "more hops", "shorter boil"}
    assert {"smaller batch", "two boils"} <= named_keys(answer)


def test_a_weak_boil_that_holds_the_beer_is_not_divided(pale):
    """Beyond 1.090 a boil is worth dividing: common practice, no source."""
    holds = fit(replace(pale, hops=()), 14.0)
    weak = next(way for way in holds.ways if way.key == "one boil")
    assert weak.closeness == 0.0
    assert float(weak.boils[0].day.pot.boil_gravity_end) > 1.090
    assert "two boils" in named_keys(holds)
    calm = fit(replace(pale, hops=()), 20.0)
    best = next(way for way in calm.ways if way.key == "one boil")
    assert best.closeness == 0.0
    assert float(best.boils[0].day.pot.boil_gravity_end) < 1.090
    assert "two boils" not in named_keys(calm)
    assert "smaller batch" not in named_keys(calm)


def test_a_way_that_wants_a_fermenter_bought_is_no_reason_not_to_divide(pale):
    answer = fit(replace(pale, hops=()), 20.0, (12.0,))
    assert "two boils" in named_keys(answer)
    assert "smaller batch" in named_keys(answer)


def test_whole_packs_take_the_place_of_a_smaller_batch_where_no_pack_may_be_divided(porter):
    plain, packed = fit(porter, 5.0, (12.0,)), fit(porter, 5.0, (12.0,), whole_packs=True)
    assert "smaller batch" in named_keys(plain)
    assert "whole packs" not in named_keys(plain)
    assert "smaller batch" not in named_keys(packed)
    assert "whole packs" in named_keys(packed)


def test_whole_packs_are_not_tried_where_all_packs_go_into_one_boil(pale):
    """Nothing is divided then."""
    calm = replace(pale, hops=())
    assert "whole packs" not in named_keys(fit(calm, 20.0, whole_packs=True))
    assert "whole packs" in named_keys(fit(calm, 20.0, (12.0,), whole_packs=True))


def test_a_second_pot_and_hops_in_hand_are_tried_where_there_are_any(pale):
    assert "second pot" not in named_keys(fit(pale, 12.0))
    assert "second pot" in named_keys(fit(pale, 12.0, second_pot=Pot("Old pot", q(8, "L"))))


# What is said.


def test_the_best_way_is_named_and_the_ways_are_counted(pale):
    answer = fit(pale, 12.0)
    best, text = answer.ways[0], answer.sentence.text
    assert best.in_hand
    assert text.startswith(f"{len(answer.ways)} ways work. With what you have, nearest")
    assert text.endswith(f"{best.name[:1].lower()}{best.name[1:]}.")
    only = fit(pale, 12.0, (2.0,), may_buy_fermenter=False)
    assert only.ways == ()
    assert only.sentence.text == "Nothing works in this kitchen as it is."


def test_one_way_alone_is_said_to_be_one(pale):
    """No second pot, no fermenter bought, nothing that may change: a smaller batch is left."""
    answer = fit(pale, 7.0, (9.0,), may_buy_fermenter=False, lid_may_be_used=False)
    assert keys(answer) == {"smaller batch"}
    assert answer.sentence.text == "One way works: a smaller batch."


def test_where_each_way_asks_for_a_purchase_it_is_said(breakwater_red):
    """Whole packs of a kit whose bucket holds nothing near it."""
    answer = fit(breakwater_red, 9.0, (14.0,), whole_packs=True)
    assert not answer.ways[0].in_hand
    assert "each with something to buy or borrow. Nearest" in answer.sentence.text


def test_closeness_is_that_of_the_beers_and_effort_counts_what_is_to_do(pale):
    answer = fit(pale, 12.0, (12.0,))
    found = {way.key: way for way in answer.every_way}
    for key in ("one boil", "late extract", "more hops"):
        forecasts = {each: one.value for each, one in found[key].forecasts.items()}
        over = found[key].pot_bitterness_ibu - POT_CEILING_IBU
        by_range = apart(answer.original, forecasts, found[key].batch_l, over, answer.forecasts)
        assert found[key].closeness == by_range
        # An instrument tells more than the recipe's own range leaves open.
        assert by_range <= apart_day(answer.original, brew(found[key].recipes[0])) + 0.11
    assert found["one boil"].effort == 1 + 2  # topping up, and a fermenter to be bought
    assert found["more hops"].effort == 1 + 1 + 2
    assert found["smaller batch"].effort == 1
    assert found["two boils"].effort == 4 + 1 + 2


def test_the_day_of_two_boils_is_both_together_unless_they_boil_at_once(pale):
    old = Pot("Old pot", q(11, "L"))
    found = {way.key: way for way in fit(pale, 12.0, second_pot=old).every_way}
    for key, total in (("two boils", sum), ("second pot", max)):
        minutes = [float(boil.day.total_min) for boil in found[key].boils]
        assert found[key].total_min == pytest.approx(total(minutes))
    assert found["one boil"].total_min == float(found["one boil"].boils[0].day.total_min)


def test_a_boil_into_one_fermenter_takes_the_packet_there_is_and_says_nothing_of_it(pale):
    [plain] = fit(pale, 40.0).ways
    steps = " ".join(each.text for each in plain.steps)
    assert "Pitch the yeast (" in steps
    assert "packet" not in steps
    assert plain.must_buy == ()
    two = {way.key: way for way in fit(pale, 12.0, (12.0, 13.0)).every_way}["one boil"]
    assert "into each fermenter" in " ".join(each.text for each in two.steps)
    assert [str(each.what) for each in two.must_buy] == ["another packet of yeast: Dry ale yeast"]


def test_the_step_of_undoing_is_named_after_the_way(pale):
    found = {way.key: way for way in fit(pale, 12.0).every_way}
    assert found["one boil"].edit.text.text == "fit: one boil and top-up"
    assert found["late extract"].edit.text.text == "fit: one boil, extract late"


def test_each_boil_tells_how_full_its_pot_is(pale):
    [boil] = next(way for way in fit(pale, 12.0).ways if way.key == "one boil").boils
    day = brew(boil.recipe)
    assert (boil.rim_l, boil.foam_limit_l) == (12.0, pytest.approx(9.6))
    assert boil.start_water_l == boil.recipe.process.start_water.value
    assert (boil.fullest_l, boil.fullest_at) == (float(day.pot.fullest_l), day.pot.fullest_at)
    assert 0.0 <= boil.foam_room_l < 0.2
    assert boil.top_up_l == pytest.approx(float(day.fermenter.top_up_l))
    assert boil.frozen_kg == 0.0
    assert boil.pot_bitterness_ibu == pytest.approx(float(day.fermenter.pot_ibu))


def test_bitterness_in_the_pot_is_that_of_the_fuller_of_two(pale):
    odd = fit(pale, 16.0, second_pot=Pot("Old pot", q(6, "L")))
    two = next(way for way in odd.ways if way.key == "second pot")
    each = [boil.pot_bitterness_ibu for boil in two.boils]
    assert two.pot_bitterness_ibu == max(each)


# What would work.


def figures(answer, word):
    return [each.figures for each in answer.would_work if each.text.startswith(word)]


def test_a_fermenter_that_holds_all_of_it_is_named_where_those_in_hand_do_not(pale):
    litres = float(brew(pale).fermenter.batch_l)
    answer = fit(pale, 12.0, (12.0, 5.0))
    assert figures(answer, "A fermenter of") == [
        ((Kind.VOLUME, pytest.approx(litres / 0.85)), (Kind.VOLUME, pytest.approx(litres)))
    ]
    assert figures(fit(pale, 12.0, (25.0,)), "A fermenter of") == []


@pytest.mark.parametrize("pot_l", [7.0, 12.0])
def test_the_pots_that_are_named_are_the_smallest_whole_litres_that_do_it(pale, pot_l):
    answer = fit(pale, pot_l, (25.0,))
    pots = [each[0][1] for each in figures(answer, "A pot of")]
    written = pots[0]
    assert fit(pale, written, (40.0,)).ways[0].effort == 0
    assert fit(pale, written - 1.0, (40.0,)).ways[0].effort > 0
    if "one boil" in keys(answer) and next(
        way.closeness for way in answer.ways if way.key == "one boil"
    ) == 0.0:  # fmt: skip
        assert len(pots) == 1
    elif len(pots) == 2:
        assert "one boil" in keys(fit(pale, pots[1], (25.0,)))
        if pots[1] > pot_l + 1:
            assert "one boil" not in keys(fit(pale, pots[1] - 1.0, (25.0,)))


def test_where_one_boil_holds_the_beer_only_the_pot_for_it_as_written_is_named(pale):
    answer = fit(replace(pale, hops=()), 20.0, (25.0,))
    assert len(figures(answer, "A pot of")) == 1


def test_no_pot_is_named_where_its_size_is_not_known_or_large_enough(pale):
    unknown = ways(
        pale, FitWish(Pot("Some pot"), wish_for(pale, 9.0, (12.0,)).fermenters)
    )  # fmt: skip
    assert figures(unknown, "A pot of") == []
    roomy = fit(pale, 40.0, (12.0,))
    assert figures(roomy, "A pot of") == []
    assert len(figures(roomy, "A fermenter of")) == 1
