"""Less water than a pot takes, against every tenth of a litre."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import with_process, with_water
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.less_start_water import nearest_water
from designer.brewday.fit.original import apart_day, original_of
from designer.brewday.fit.pot_limits import filled, is_syrup, least_water_l
from designer.brewday.fit.smaller_batch import smaller_batch
from designer.brewday.fit.wish import FitWish, wish_for
from designer.recipe.document import Fermentable, Fermenter, Pot, Process, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Stage, When
from tests.brewday.days import with_figures
from tests.brewday.quantities import q


def far(original, recipe, *, gravity_follows=False):
    day = brew(recipe)
    if is_syrup(day, original):
        return float("inf")
    if gravity_follows:
        day = with_figures(day, original_gravity=original.day.beer.original_gravity)
    return apart_day(original.day, day, original.forecasts)  # what ways are put in order by


def all_waters(recipe):
    least = round(10 * least_water_l(recipe) + 0.4999)
    return [n / 10 for n in range(least, round(10 * recipe.process.start_water.value) + 1)]


@pytest.fixture(scope="module")
def original(quay_pale):
    """A boil of 9 L topped up to 19: strong, so that more water would draw more from the hops."""
    return original_of(
        with_process(quay_pale, start_water=q(9, "L"), frozen_top_up=None, top_up_to=q(19, "L"))
    )


@pytest.mark.parametrize("litres", [12.0, 16.0])
@pytest.mark.parametrize("follows", [True, False])
def test_no_tenth_of_a_litre_comes_nearer_by_more_than_a_tenth(original, litres, follows):
    fuller = with_process(
        original.recipe, start_water=q(litres, "L"), top_up_to=q(litres if litres > 17 else 18, "L")
    )
    made = nearest_water(fuller, original, gravity_follows=follows)
    found = far(original, made, gravity_follows=follows)
    tried = [
        far(original, with_water(fuller, each), gravity_follows=follows)
        for each in all_waters(fuller)
    ]
    assert found <= min(tried) + 0.1
    assert found <= far(original, fuller, gravity_follows=follows)


def test_a_boil_that_gives_the_beer_is_left_as_it_is(original):
    assert nearest_water(original.recipe, original) is original.recipe


def test_a_beer_that_only_lacks_volume_is_left_as_it_is(original):
    """Water in the pot does not mend that: three tenths of the volume are 0.8 away."""
    recipe = original.recipe

    def part(lines, share):
        return tuple(replace(each, amount=q(share * each.amount.value, "kg")) for each in lines)

    less = with_process(
        replace(recipe, fermentables=part(recipe.fermentables, 0.715), hops=part(recipe.hops, 0.7)),
        start_water=q(6.6, "L"), top_up_to=q(13.3, "L"),
    )  # fmt: skip
    assert far(original, less) == 0.8
    assert nearest_water(less, original) is less


def test_a_fuller_boil_that_is_too_bitter_is_started_with_less(original):
    fuller = with_process(original.recipe, start_water=q(16, "L"))
    assert float(brew(fuller).beer.bitterness_ibu) > original.most_ibu + 2.0
    made = nearest_water(fuller, original)
    assert 8.0 < made.process.start_water.value < 12.0
    assert far(original, made) == 0.0
    assert made.process.top_up_to == fuller.process.top_up_to


def test_among_waters_as_near_the_fullest_pot_is_taken(original):
    """More water scorches less."""
    fuller = with_process(original.recipe, start_water=q(11.5, "L"))
    made = nearest_water(fuller, original)
    best = original.far(brew(made))
    assert best.told == far(original, made)
    ties = [
        each for each in all_waters(fuller) if original.far(brew(with_water(fuller, each))) == best
    ]
    assert made.process.start_water.value >= max(ties) - 0.7


def test_no_syrup_is_boiled_and_grain_keeps_its_water(original):
    grain = replace(original.recipe.fermentables[1], amount=q(1.5, "kg"))
    heavy = replace(original.recipe, fermentables=(original.recipe.fermentables[0], grain))
    made = nearest_water(with_water(heavy, 9.0), original)
    assert made.process.start_water.value >= 4.5
    assert not is_syrup(brew(made), original)


def kit_beside(start_l):
    """A little extract in much water, and beside it a hopped kit of which no amount is given."""
    steep = When(Stage.STEEP, "steep")
    return with_line_ids(
        Recipe(
            pot=Pot(),
            process=Process(start_water=q(start_l, "L"), boil_time=q(30, "min")),
            fermentables=(
                Fermentable("Extract", "liquid extract", q(0.065, "kg"), when=steep),
                Fermentable("Kit", "hopped kit extract", when=steep,
                            label_bitterness=q(24, "IBU"), label_volume=q(20, "L")),
            ),
        )
    )  # fmt: skip


@pytest.mark.parametrize("start_l", [16.0, 17.5, 19.0])
@pytest.mark.parametrize("pot_l", [8.0, 16.0])
def test_a_smaller_batch_is_boiled_in_the_water_that_comes_nearest(start_l, pot_l):
    """The kit's bitterness cannot be weighed out: a fuller pot would make it too bitter."""
    kit = kit_beside(start_l)
    here = Kitchen(wish_for(kit, pot_l, (6.0,)), original_of(kit))
    draft = smaller_batch(here, False)
    assert isinstance(draft, Draft)
    [made] = draft.recipes
    found = far(here.original, made)
    fullest = filled(made, here.original, 60.0, hold_bitterness=False)
    waters = [with_water(made, each) for each in all_waters(fullest)]
    assert found <= min(far(here.original, each) for each in waters) + 0.1


def test_amounts_are_weighed_anew_in_the_water_that_came_nearest():
    """Of a locked bill: a pot of no given size would take a full boil, far too bitter."""
    kit = kit_beside(6.0)
    recipe = with_line_ids(
        replace(
            kit,
            process=replace(
                kit.process, top_up_to=q(18, "L"), evaporation=q(0.7, "L/h"), cooling="coil",
                boil_time=q(40, "min"),
            ),
            fermentables=(
                replace(kit.fermentables[0], amount=q(0.037, "kg")),
                replace(kit.fermentables[1], when=When(Stage.BOIL, "boil 65 min", 65.0)),
                Fermentable("Grain", "steeping grain", q(0.555, "kg"), locked=True,
                            when=When(Stage.STAND, "stand 20 min at 80 °C", 20.0, 80.0)),
                Fermentable("Dry", "dry extract", q(0.111, "kg"), locked=True,
                            when=When(Stage.FLAME_OUT, "flame-out")),
            ),
        )
    )  # fmt: skip
    here = Kitchen(FitWish(Pot(), (Fermenter(),)), original_of(recipe))
    [made] = smaller_batch(here, False).recipes
    found = far(here.original, made)
    waters = [n / 5 for n in range(15, 100)]
    assert found <= min(far(here.original, with_water(made, each)) for each in waters) + 0.1
    assert (
        abs(
            float(brew(made).beer.original_gravity) - float(here.original.day.beer.original_gravity)
        )
        < 0.001
    )
