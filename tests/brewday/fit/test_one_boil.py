"""The whole recipe in one boil: its mark, its gravity, the fermenter it wants."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import mass, with_mark, with_process
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.one_boil import gravity_held, mark_of, one_boil
from designer.brewday.fit.original import original_of
from designer.brewday.fit.pot_limits import as_written
from designer.brewday.fit.wish import wish_for
from designer.recipe.quantity import Kind, Quantity
from tests.brewday.days import with_figures


def q(value, unit="L"):
    return Quantity(float(value), f"{value:g} {unit}".strip())


def kitchen(recipe, pot_l=12.0, fermenters=(25.0,), **changes):
    return Kitchen(replace(wish_for(recipe, pot_l, fermenters), **changes), original_of(recipe))


def gravity(recipe):
    return float(brew(recipe).beer.original_gravity)


@pytest.fixture(scope="module")
def pale(quay_pale):
    """A full boil of 19 L without ice: it ends a little below its mark, or a little above."""
    return with_process(quay_pale, frozen_top_up=None)


def test_the_mark_is_the_recipe_s_own_where_that_is_what_it_makes(porter):
    assert mark_of(kitchen(porter)) == 10.0
    odd = with_process(porter, top_up_to=q(9.876))
    assert mark_of(kitchen(odd)) == 9.876


def test_where_the_pot_gives_more_or_nothing_is_marked_it_is_the_next_tenth_above(porter):
    """No tenth of a litre of the recipe is given up."""
    for changes in ({"top_up_to": None}, {"top_up_to": q(4.0)}):
        here = kitchen(with_process(porter, **changes))
        batch = here.original.batch_l
        assert batch <= mark_of(here) + 1e-3
        assert mark_of(here) < batch + 0.1
        assert mark_of(here) == pytest.approx(round(mark_of(here), 1))
    day = with_figures(original_of(porter).day, batch_l=8.5)
    exact = Kitchen(wish_for(porter), replace(original_of(porter), day=day))
    assert mark_of(exact) == pytest.approx(8.5)


def test_a_recipe_that_fits_is_left_as_it_is_and_is_no_effort(porter):
    own = with_process(porter, frozen_top_up=mass(0.9))
    draft = one_boil(kitchen(own, 40.0))
    assert draft.recipes[0].process == own.process
    assert draft.effort == 0
    assert draft.gist.text == "It fits as it is written"
    assert draft.key == "one boil"


def test_a_recipe_that_fits_only_a_bought_fermenter_takes_some_doing(porter):
    draft = one_boil(kitchen(porter, 40.0, (7.0,)))
    assert draft.bought == 1
    assert draft.effort == 1
    assert "concentrated" in draft.gist.text


def test_a_freezer_is_made_use_of_even_where_the_recipe_fits(porter):
    """No more is frozen than helps."""
    plain = with_process(porter, frozen_top_up=None)
    draft = one_boil(kitchen(plain, 40.0, most_frozen_kg=3.0))
    assert draft.recipes[0].process.frozen_top_up.value == pytest.approx(0.9)
    assert one_boil(kitchen(plain, 40.0)).recipes[0].process.frozen_top_up is None


def test_a_batch_that_no_fermenters_hold_is_told_with_the_one_that_would(pale):
    found = one_boil(kitchen(pale, 40.0, (8.0,), may_buy_fermenter=False))
    assert not isinstance(found, Draft)
    assert (found.key, found.name) == ("one boil", "One boil and top-up")
    litres = mark_of(kitchen(pale))
    assert found.reason.figures == (
        (Kind.VOLUME, litres), (Kind.VOLUME, pytest.approx(litres / 0.85)),
    )  # fmt: skip


def test_a_pot_that_does_not_boil_all_of_it_is_told_with_its_foam_line(pale):
    found = one_boil(kitchen(pale, 6.0))
    assert not isinstance(found, Draft)
    assert found.reason.figures == ((Kind.VOLUME, pytest.approx(4.8)),)
    assert "syrup" in found.reason.text


@pytest.mark.parametrize("pot_l", [10.0, 11.0, 12.0, 14.0, 17.0, 20.0, 24.0])
def test_one_boil_holds_the_gravity_in_as_much_beer_as_it_can(pale, pot_l):
    """Half a point counts as held; a mark a tenth of a litre higher would not hold it."""
    here = kitchen(pale, pot_l)
    draft = one_boil(here)
    if not isinstance(draft, Draft):
        assert pot_l < 11.0
        return
    [made] = draft.recipes
    assert as_written(made)
    assert gravity(made) >= here.original.least_gravity - 5e-4
    mark = made.process.top_up_to.value
    assert mark <= mark_of(here)
    if mark < mark_of(here) - 1e-9:
        assert gravity(with_mark(made, round(mark + 0.2, 3))) < here.original.least_gravity
        assert mark > 0.9 * mark_of(here)


def test_a_beer_that_is_strong_enough_is_topped_up_as_it_was(pale):
    here = kitchen(pale, 40.0)
    assert gravity_held(here, pale) is pale
    stronger = with_mark(pale, 18.0)
    assert gravity_held(here, stronger) is stronger


def test_a_beer_that_more_than_half_less_water_would_not_mend_is_left(pale):
    """A bill of a third of the extract makes no beer of the recipe's gravity."""
    thin = replace(
        with_process(pale, start_water=q(8)),
        fermentables=(replace(pale.fermentables[0], amount=q(1.0, "kg")),),
    )
    here = kitchen(pale, 40.0)
    made = gravity_held(here, thin)
    assert made.process.top_up_to.value >= 9.5 - 0.1
    slightly = replace(
        with_process(pale, start_water=q(8)),
        fermentables=(replace(pale.fermentables[0], amount=q(2.4, "kg")), pale.fermentables[1]),
    )
    held = gravity_held(here, slightly)
    assert 9.5 <= held.process.top_up_to.value < 18.0
    assert gravity(held) >= here.original.least_gravity - 5e-4


@pytest.mark.parametrize("share", [0.97, 0.9, 0.8, 0.6])
def test_a_thin_full_boil_is_made_smaller_in_proportion(pale, share):
    """Nothing is topped up, so that only less water to start makes it stronger: mass balance."""
    here = kitchen(pale, 40.0)
    full = with_process(pale, start_water=q(19.5), hop_absorption=q(0), left_in_pot=q(0))
    thin = replace(
        full,
        fermentables=tuple(
            replace(each, amount=q(share * each.amount.value, "kg")) for each in full.fermentables
        ),
    )
    assert float(brew(thin).fermenter.top_up_l) < 0.05
    held = gravity_held(here, thin)
    wanted = float(here.original.day.beer.original_gravity)
    assert wanted - 0.0011 < gravity(held) < wanted + 0.002
    assert held.process.top_up_to.value == pytest.approx(19.0 * share, rel=0.06)
