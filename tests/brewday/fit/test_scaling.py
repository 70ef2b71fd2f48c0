"""A recipe scaled to another batch: what it gives is read off its day."""

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.scaling import scale
from designer.errors import RefusedInputError
from designer.library.packs import packs


@pytest.fixture(params=["porter", "slipway_bitter", "quay_pale"])
def recipe(request):
    return request.getfixturevalue(request.param)


@pytest.mark.parametrize("batch", [5.0, 8.0, 14.0, 23.0])
def test_gravity_bitterness_and_colour_are_held_within_rounding(recipe, batch):
    scaled = scale(recipe, batch)
    before, after = brew(recipe), brew(scaled.recipe)
    assert after.fermenter.batch_l == pytest.approx(batch, abs=0.02)
    assert after.beer.original_gravity == pytest.approx(before.beer.original_gravity, abs=5e-4)
    assert after.beer.bitterness_ibu == pytest.approx(before.beer.bitterness_ibu, abs=1.0)
    assert after.beer.colour_srm == pytest.approx(before.beer.colour_srm, abs=0.2)


def test_the_error_of_rounding_is_the_forecast_less_that_before_rounding(recipe):
    scaled = scale(recipe, 6.5)
    after = brew(scaled.recipe)
    exact = scaled.exact["bitterness_ibu"]
    assert scaled.rounding_error("bitterness_ibu") == pytest.approx(
        after.beer.bitterness_ibu - exact
    )
    assert abs(exact - float(brew(recipe).beer.bitterness_ibu)) < 0.3


def test_hops_do_not_scale_like_the_volume(quay_pale):
    """What stays in the pot and the evaporation do not shrink with the batch."""
    scaled = scale(quay_pale, 5.0)
    ratio = 5.0 / float(brew(quay_pale).fermenter.batch_l)
    assert scaled.shares.extract > 1.01 * ratio
    assert abs(scaled.shares.hops / scaled.shares.extract - 1.0) > 0.005


def test_the_bill_keeps_its_proportions(porter):
    made = scale(porter, 17.0).recipe
    before = [line.amount.value for line in porter.fermentables[:2]]
    after = [line.amount.value for line in made.fermentables[:2]]
    assert after[0] / after[1] == pytest.approx(before[0] / before[1], rel=0.01)


def test_the_edit_makes_the_scaled_recipe(recipe):
    scaled = scale(recipe, 7.0)
    assert scaled.edit.apply(recipe) == scaled.recipe


def test_to_its_own_batch_hardly_anything_changes(slipway_bitter):
    scaled = scale(slipway_bitter, float(brew(slipway_bitter).fermenter.batch_l))
    for old, new in zip(slipway_bitter.fermentables, scaled.recipe.fermentables, strict=True):
        assert new.amount.value == pytest.approx(old.amount.value, rel=0.01)


def test_yeast_goes_in_whole_packets(porter):
    """11 g are for some 10 L: 5 L take one packet all the same, 23 L three."""
    grams = {batch: scale(porter, batch).recipe.yeast.amount.value for batch in (5, 11, 23)}
    assert grams == {5: 11.0, 11: 11.0, 23: 33.0}


def test_whole_packs_are_whole_and_the_hops_follow(porter):
    scaled = scale(porter, 20.0, whole_packs=packs("metric"))
    sizes = {each.mass_kg for each in packs("metric")}
    assert set(scaled.packs) == {1, 2}
    for line in scaled.recipe.fermentables[:2]:
        chosen = scaled.packs[line.line_id]
        assert line.amount.value == pytest.approx(chosen.total_kg)
        assert set(chosen.sizes_kg) <= sizes
    assert scaled.forecasts["bitterness_ibu"].change == pytest.approx(0.0, abs=1.0)
    error = scaled.rounding_error("original_gravity")
    assert error == pytest.approx(scaled.forecasts["original_gravity"].change, abs=3e-4)


def test_a_locked_kit_is_made_smaller_but_never_larger(breakwater_red):
    half = scale(breakwater_red, 10.0).recipe
    assert all(
        new.amount.value < old.amount.value
        for old, new in zip(breakwater_red.fermentables, half.fermentables, strict=True)
    )
    with pytest.raises(RefusedInputError, match="locked kit"):
        scale(breakwater_red, 25.0)


def test_a_kits_label_is_for_the_part_of_it_that_goes_in(breakwater_red):
    """24 IBU in 20 L is 24 IBU in 10 L of half the kit."""
    half = scale(breakwater_red, 10.0)
    assert half.forecasts["bitterness_ibu"].change == pytest.approx(0.0, abs=0.5)


@pytest.mark.parametrize("batch", [0.0, -3.0, 5000.0, float("nan")])
def test_a_batch_of_no_sense_is_refused(porter, batch):
    with pytest.raises(RefusedInputError):
        scale(porter, batch)
