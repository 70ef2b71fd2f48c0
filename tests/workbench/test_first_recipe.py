"""A first recipe out of the catalogue."""

import pytest

from designer.brewday.day import brew
from designer.brewday.first_bill import Wish
from designer.recipe.quantity import Kind
from designer.units import read
from designer.workbench.first_recipe import first_recipe, larder

POT, FERMENTER = read(Kind.VOLUME, "2 gal"), read(Kind.VOLUME, "12 L")
WISH = Wish(1.045, 28.0, 12.0, POT.value, FERMENTER.value)


def test_the_wish_is_met_in_the_vessels_as_they_were_typed():
    recipe = first_recipe(WISH, POT, FERMENTER)
    day = brew(recipe)
    assert day.beer.original_gravity == pytest.approx(1.045, abs=0.001)
    assert day.beer.bitterness_ibu == pytest.approx(28.0, abs=1.5)
    assert (recipe.pot.volume.text, recipe.fermenter.volume.text) == ("2 gal", "12 L")
    assert (recipe.name, recipe.style) == ("My first bill", "")


def test_a_style_names_it_and_one_that_nobody_knows_is_left_out():
    assert first_recipe(WISH, POT, FERMENTER, "english porter").style == "English Porter"
    assert first_recipe(WISH, POT, FERMENTER, "english porter").name == "My English Porter"
    assert first_recipe(WISH, POT, FERMENTER, "Harbour wall").style == ""


def test_all_of_the_larder_stands_in_the_catalogue_with_its_figures():
    kept = larder()
    grains = (kept.extract, kept.late_extract, kept.crystal, kept.roast)
    assert all(each.colour is not None and each.extract is not None for each in grains)
    assert all(each.alpha is not None for each in (kept.bittering, kept.aroma))
    assert kept.yeast.amount.text == "11 g"
