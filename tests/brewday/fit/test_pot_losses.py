"""Losses are those of the pot that is used, not of the one that the recipe was written for."""

from dataclasses import replace

import pytest

from designer.brewday.fit.answer import NoWay
from designer.brewday.fit.changed_recipe import with_process
from designer.brewday.fit.draft_way import Kitchen
from designer.brewday.fit.original import original_of
from designer.brewday.fit.pot_losses import losses_said, with_losses_of
from designer.brewday.fit.two_boils import second_pot
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import sized_pot, wish_for
from designer.recipe.document import Pot
from designer.recipe.quantity import Quantity


def q(value, unit):
    return Quantity(float(value), f"{value:g} {unit}")


@pytest.fixture
def large(breakwater_red):
    """Written for a pot of 60 L, of which 2 L stay behind and 4 L boil off in an hour."""
    recipe = replace(
        breakwater_red, pot=Pot("Large pot", q(60, "L"), q(0.45, "m"), heat_loss=q(9, "W/K"))
    )
    return with_process(
        recipe,
        start_water=q(18, "L"),
        evaporation=q(4, "L/h"),
        left_in_pot=q(2, "L"),
        cooling_constant=q(0.02, "1/min"),
    )


def in_pot(recipe, litres):
    return with_losses_of(recipe, sized_pot(recipe.pot, litres)).process


def test_a_quarter_of_the_volume_has_four_tenths_of_the_surface(large):
    """0.25 to the power of two thirds is 0.397, by geometry."""
    process = in_pot(large, 15.0)
    assert process.left_in_pot == Quantity(0.79, "0.79 L")
    assert process.evaporation == Quantity(1.6, "1.6 L/h")
    assert process.cooling_constant is None


@pytest.mark.parametrize("litres", [55.0, 60.0, 100.0])
def test_a_pot_of_that_size_or_a_larger_one_loses_what_is_typed(large, litres):
    assert in_pot(large, litres) == large.process
    assert losses_said(large, sized_pot(large.pot, litres)) == ()


def test_what_nobody_typed_and_pots_of_unknown_size_are_left_alone(large):
    untyped = with_process(large, evaporation=None, left_in_pot=None)
    process = in_pot(untyped, 15.0)
    assert (process.evaporation, process.left_in_pot) == (None, None)
    assert losses_said(untyped, sized_pot(untyped.pot, 15.0)) == ()
    assert with_losses_of(large, Pot("Some pot")) is large


def test_a_pot_of_another_size_has_neither_diameter_nor_heat_loss_of_the_old(large):
    pot = sized_pot(large.pot, 15.0)
    assert (pot.diameter, pot.heat_loss) == (None, None)
    assert (pot.stove, pot.power) == (large.pot.stove, large.pot.power)


def test_every_way_loses_what_the_small_pot_loses_and_says_so(large):
    found = ways(large, wish_for(large, 15.0, (12.0, 12.0)))
    assert len(found.ways) >= 2
    for way in found.every_way:
        said = " ".join(each.text for each in way.steps)
        assert "0.79 L left in it instead of 2 L" in said
        assert "1.6 L/h boiling off instead of 4 L/h" in said
        for made in way.recipes:
            assert made.process.left_in_pot.value == 0.79
            assert made.pot.volume.value == 15.0
            assert made.process.evaporation.value <= 1.6


def test_a_second_pot_has_losses_of_its_own(large):
    wish = replace(wish_for(large, 20.0, (25.0,)), second_pot=sized_pot(large.pot, 10.0))
    draft = second_pot(Kitchen(wish, original_of(large)))
    assert not isinstance(draft, NoWay), draft.reason.text
    left = [made.process.left_in_pot.value for made in draft.recipes]
    assert left == [pytest.approx(0.96), pytest.approx(0.61)]


def test_a_pot_counted_as_smaller_keeps_the_losses_of_the_pot_there_is(large):
    wish = wish_for(large, 30.0, (12.0,))
    for way in ways(large, wish).ways:
        for made in way.recipes:
            assert made.process.left_in_pot.value == pytest.approx(1.3)


def test_what_was_measured_with_a_pot_of_the_kitchen_is_taken_for_it_alone(large):
    """The second pot has measurements of its own; of the first nothing is guessed that is known."""
    small = replace(sized_pot(large.pot, 10.0), name="Jam kettle")
    wish = replace(
        wish_for(large, 20.0, (25.0,)),
        second_pot=small,
        measured=(("evaporation", q(2.5, "L/h")),),
        measured_second=(("evaporation", q(0.7, "L/h")), ("left_in_pot", q(0.4, "L"))),
    )
    draft = second_pot(Kitchen(wish, original_of(large)))
    assert not isinstance(draft, NoWay), draft.reason.text
    one, two = (made.process for made in draft.recipes)
    assert (one.evaporation.value, one.left_in_pot.value) == (2.5, pytest.approx(0.96))
    assert (two.evaporation.value, two.left_in_pot.value) == (0.7, 0.4)
    way = next(way for way in ways(large, wish).every_way if way.key == "second pot")
    said = [each.text for each in way.steps if each.id == "pot-losses"]
    assert said == [
        "Counted with what a pot of this size loses: 0.96 L left in it instead of 2 L; measure "
        "yours."
    ]


@pytest.mark.parametrize("key", ["one boil", "off the boil", "two boils", "smaller batch"])
def test_every_way_in_a_measured_pot_boils_off_what_was_measured(large, key):
    wish = replace(
        wish_for(large, 15.0, (12.0, 12.0)),
        measured=(("evaporation", q(1.1, "L/h")), ("left_in_pot", q(0.5, "L"))),
    )
    [way] = [each for each in ways(large, wish).every_way if each.key == key]
    for made in way.recipes:
        assert (made.process.evaporation.value, made.process.left_in_pot.value) == (1.1, 0.5)
    assert not [each for each in way.steps if each.id == "pot-losses"]
