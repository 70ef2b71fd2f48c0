"""A smaller batch: how large, of what, and what is said where there is none."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import line_kg, with_process
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.original import apart_day, original_of
from designer.brewday.fit.pot_limits import as_written
from designer.brewday.fit.smaller_batch import (
    full_boil_l,
    most_batch_l,
    smaller_batch,
)
from designer.brewday.fit.wish import wish_for
from designer.recipe.quantity import Kind
from designer.recipe.shares import extras_in_share
from tests.brewday.quantities import q


def kitchen(recipe, pot_l=10.0, fermenters=(12.0,), **changes):
    return Kitchen(replace(wish_for(recipe, pot_l, fermenters), **changes), original_of(recipe))


@pytest.fixture(scope="module")
def pale(quay_pale):
    return with_process(quay_pale, frozen_top_up=None)


def mark(draft):
    return draft.recipes[0].process.top_up_to.value


def test_a_batch_is_as_large_as_the_fermenters_in_hand_hold_in_tenths_of_a_litre(pale):
    """Fifteen hundredths stay free for krausen: common practice, no source."""
    assert most_batch_l(kitchen(pale, fermenters=(12.0,))) == 10.2
    assert most_batch_l(kitchen(pale, fermenters=(12.0, 4.0))) == 13.6
    assert most_batch_l(kitchen(pale, fermenters=(11.9,))) == 10.1
    whole = most_batch_l(kitchen(pale, fermenters=(40.0,)))
    assert whole == pytest.approx(int(10 * original_of(pale).batch_l) / 10)


def test_no_boil_starts_with_three_times_its_batch():
    assert full_boil_l(5.0) == 15.0


def test_fermenters_of_less_than_three_litres_hold_no_batch(pale):
    """Less is not worth the cleaning: a judgement, no source."""
    found = smaller_batch(kitchen(pale, fermenters=(3.5,)), False)
    assert not isinstance(found, Draft)
    assert found.reason.figures == ((Kind.VOLUME, pytest.approx(2.9)),)
    assert "too small" in found.reason.text
    assert mark(smaller_batch(kitchen(pale, fermenters=(3.6,)), False)) == pytest.approx(3.0)


def test_nothing_smaller_is_offered_where_all_of_it_goes(pale):
    large = kitchen(pale, fermenters=(40.0,))
    assert smaller_batch(large, True) is None
    assert smaller_batch(large, False) is not None
    assert smaller_batch(kitchen(pale), True) is not None


def test_a_smaller_batch_leaves_more_than_a_twentieth_of_the_extract(pale):
    """Of less nobody keeps the rest: a judgement, no source."""
    exact = with_process(pale, start_water=q(18, "L"))
    assert original_of(exact).batch_l == pytest.approx(19.0)
    for litres in (18.0, 18.5, 18.96):
        short = kitchen(exact, 40.0, (litres / 0.85,))
        draft = smaller_batch(short, True)
        weighed = line_kg(draft.recipes[0].fermentables[0])
        assert 0.9 * 3.0 < weighed < 0.95 * 3.0
        assert mark(draft) < litres + 1e-9
    assert smaller_batch(kitchen(exact, 40.0, (19.0 / 0.85,)), True) is None


def test_a_smaller_batch_is_boiled_as_full_as_the_pot_takes_with_fewer_hops(pale):
    """A weaker boil draws more from them, and scorches less."""
    strong = with_process(pale, start_water=q(10, "L"))
    here = kitchen(strong, 40.0, (20.0,))
    draft = smaller_batch(here, False)
    [made] = draft.recipes
    assert made.process.start_water.value > 13.0
    share = mark(draft) / here.original.batch_l
    assert line_kg(made.hops[0]) < 0.95 * share * line_kg(strong.hops[0])
    assert float(brew(made).fermenter.top_up_l) < 0.3


@pytest.mark.parametrize(("pot_l", "fermenter"), [(10.0, 12.0), (14.0, 12.0), (8.0, 9.0)])
def test_a_smaller_batch_is_the_same_beer_in_all_the_room_there_is(pale, pot_l, fermenter):
    here = kitchen(pale, pot_l, (fermenter,))
    draft = smaller_batch(here, False)
    [made] = draft.recipes
    day = brew(made)
    assert mark(draft) == pytest.approx(most_batch_l(here))
    assert as_written(made)
    assert (
        abs(float(day.beer.original_gravity) - float(here.original.day.beer.original_gravity))
        < 0.001
    )
    assert abs(float(day.beer.bitterness_ibu) - float(here.original.day.beer.bitterness_ibu)) < 1.0
    assert draft.effort == 1
    assert draft.bought == 0
    assert draft.key == "smaller batch"


def test_where_the_pot_is_what_is_small_the_batch_is_in_half_litres_and_bitter_enough(pale):
    """The fermenter would hold all of it. A shade less bitter is nearer than half a litre less."""
    here = kitchen(pale, 7.0, (40.0,))
    draft = smaller_batch(here, False)
    litres = mark(draft)
    assert 3.0 <= litres < 15.0
    assert 2 * litres == pytest.approx(round(2 * litres))
    assert float(brew(draft.recipes[0]).beer.bitterness_ibu) >= (
        float(here.original.day.beer.bitterness_ibu) - 2.0
    )
    larger = kitchen(pale, 9.0, (40.0,))
    assert mark(smaller_batch(larger, False)) > litres


@pytest.mark.parametrize("pot_l", [5.0, 6.0, 7.0, 8.0, 9.0])
def test_of_batches_in_half_litres_the_nearest_is_found(pale, pot_l):
    """Within a tenth: a fermenter that holds less than the best finds no better one."""
    large = kitchen(pale, pot_l, (40.0,))
    best = smaller_batch(large, False)
    near = apart_day(large.original.day, brew(best.recipes[0]))
    for halves in range(int(2 * mark(best)) - 2, int(2 * mark(best)) + 2):
        here = kitchen(pale, pot_l, ((halves / 2 + 0.01) / 0.85,))
        other = smaller_batch(here, False)
        if isinstance(other, Draft):
            assert near <= apart_day(large.original.day, brew(other.recipes[0])) + 0.11


def test_a_pot_too_small_for_three_litres_is_told(pale):
    found = smaller_batch(kitchen(pale, 1.5, (12.0,)), False)
    assert not isinstance(found, Draft)
    assert found.key == "smaller batch"
    assert found.reason.text.startswith("Not even 3 L of it boils in this pot")
    assert found.reason.figures == ((Kind.VOLUME, pytest.approx(3.0)),)


@pytest.mark.parametrize("lines", [None, "fermentables", "hops"])
def test_of_a_kit_a_part_is_kept_and_a_recipe_of_one_s_own_is_weighed_anew(pale, lines):
    recipe = pale
    if lines is not None:
        first, *rest = getattr(pale, lines)
        recipe = replace(pale, **{lines: (replace(first, locked=True), *rest)})
    here = kitchen(recipe)
    draft = smaller_batch(here, False)
    kit = lines is not None
    assert draft.keeps_rest == kit
    assert ("of the kit" if kit else "of the ingredients") in draft.steps[0].text
    assert ("less of it" if kit else "weighed out anew") in draft.gist.text
    (kind, share), (_, litres) = draft.steps[0].figures
    assert kind is Kind.FRACTION
    assert litres == mark(draft)
    whole, weighed = (line_kg(each.fermentables[0]) for each in (pale, draft.recipes[0]))
    assert share == round(weighed / whole, 2)  # a whole per cent, as one tells it
    if kit:
        for old, new in zip(pale.fermentables, draft.recipes[0].fermentables, strict=True):
            assert line_kg(new) <= line_kg(old)


def test_hops_beyond_what_the_recipe_has_are_not_bought_for_a_smaller_batch(pale):
    for pot_l in (6.0, 7.0, 8.0, 10.0):
        draft = smaller_batch(kitchen(pale, pot_l, (40.0,)), False)
        for old, new in zip(pale.hops, draft.recipes[0].hops, strict=True):
            assert line_kg(new) <= line_kg(old)


def test_amounts_are_as_a_kitchen_weighs_them(pale):
    [made] = smaller_batch(kitchen(pale), False).recipes
    for each in made.fermentables:
        assert line_kg(each) / 0.001 == pytest.approx(round(line_kg(each) / 0.001))
    for each in made.hops:
        assert line_kg(each) / 0.0001 == pytest.approx(round(line_kg(each) / 0.0001))


def test_the_ice_of_a_smaller_batch_is_its_share_or_what_helps(quay_pale):
    here = kitchen(quay_pale)
    [made] = smaller_batch(here, False).recipes
    assert made.process.frozen_top_up.value <= 2.0 * mark_share(here, made) + 0.05
    freezer = kitchen(quay_pale, most_frozen_kg=0.0)
    [bare] = smaller_batch(freezer, False).recipes
    assert bare.process.frozen_top_up.value == 0.0


def mark_share(here, recipe):
    return recipe.process.top_up_to.value / here.original.batch_l


def test_finings_go_in_the_share_of_the_batch_and_what_has_no_dose_stays(porter):
    two = replace(porter, extras=(porter.extras[0], replace(porter.extras[0], amount=None)))
    made = extras_in_share(two.extras, 0.5)
    assert [each.amount and each.amount.value for each in made] == [0.25, None]


def test_a_smaller_batch_in_a_larger_pot_is_never_another_beer(pale, breakwater_red):
    for recipe in (pale, breakwater_red):
        near = []
        for pot_l in (7.0, 14.0, 28.0):
            here = kitchen(recipe, pot_l)
            draft = smaller_batch(here, False)
            near.append(apart_day(here.original.day, brew(draft.recipes[0])))
        assert near == sorted(near, reverse=True)
