"""More of a thing never gives less of what it is there for, on no day of the range.

The kitchens are those of the coverage of the ranges. What hops and base malt keep in the bag is no
fault of a formula: a weak hop at flame-out can hold back more bitter wort than it embitters, where
the batch is topped up. So every draw is held to it where they hold nothing, and what is printed
where they do.
"""

from dataclasses import replace

import numpy as np
import pytest

from designer.brewday.day import brew, brew_samples
from designer.brewday.outlook import look_ahead
from designer.recipe.quantity import Quantity
from tests.benchmarks.coverage_recipes import recipes

RECIPES = recipes()
TIMES = (0.5, 0.8, 1.0, 1.1, 1.5, 2.0, 3.0)


def more_and_more(recipe, lines, place):
    """Yield the recipe with more and more of one line."""
    all_of_them = getattr(recipe, lines)
    line = all_of_them[place]
    for times in TIMES:
        amount = replace(line.amount, value=times * line.amount.value)
        changed = (*all_of_them[:place], replace(line, amount=amount), *all_of_them[place + 1 :])
        yield replace(recipe, **{lines: changed})


def days(recipe, forecast):
    """The day as typed and those of its draws."""
    drawn, _ = brew_samples(recipe, 256)
    return np.append(
        np.broadcast_to(getattr(drawn.beer, forecast), 256), getattr(brew(recipe).beer, forecast)
    )


@pytest.mark.parametrize("name", [name for name, recipe in RECIPES.items() if recipe.hops])
def test_more_hops_never_give_fewer_bitterness_units_on_any_day(name):
    nothing = Quantity(0.0, "0 L/kg")
    recipe = RECIPES[name]
    recipe = replace(recipe, process=replace(recipe.process, hop_absorption=nothing))
    for place in range(len(recipe.hops)):
        swept = [days(each, "bitterness_ibu") for each in more_and_more(recipe, "hops", place)]
        assert all(np.diff(swept, axis=0).ravel() >= -1e-9), recipe.hops[place].name


@pytest.mark.parametrize("name", [name for name, recipe in RECIPES.items() if recipe.hops])
def test_more_hops_never_print_fewer_bitterness_units(name):
    recipe = RECIPES[name]
    for place in range(len(recipe.hops)):
        printed = [
            look_ahead(each).forecasts["bitterness_ibu"]
            for each in more_and_more(recipe, "hops", place)
        ]
        for figure in ("low", "value", "middle", "high"):
            steps = np.diff([getattr(each, figure) for each in printed])
            assert all(steps >= -0.1), (recipe.hops[place].name, figure)


@pytest.mark.parametrize("name", RECIPES)
def test_more_extract_sugar_or_grain_never_makes_a_weaker_wort_on_any_day(name):
    recipe = RECIPES[name]
    for place, line in enumerate(recipe.fermentables):
        if line.kind == "mash grain":  # where it does not convert, its bag but holds some wort
            nothing = Quantity(0.0, "0 L/kg", 0.0)
            recipe = replace(recipe, process=replace(recipe.process, grain_absorption=nothing))
        swept = [
            days(each, "original_gravity") for each in more_and_more(recipe, "fermentables", place)
        ]
        assert all(np.diff(swept, axis=0).ravel() >= -1e-9), line.name
