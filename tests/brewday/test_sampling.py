"""How many samples tell the inputs of a recipe apart: twice as many as there are inputs.

A regression on more inputs than half of its samples tells them badly apart (judgement).
"""

from dataclasses import replace

import numpy as np
import pytest

from designer.brewday.day import brew_samples
from designer.brewday.doubts import Doubt, Sure, evenly_drawn
from designer.brewday.sampling import samples_for
from designer.recipe.edits import with_line_ids


def long(recipe, hops=0, extracts=0, grains=0):
    syrup, grain = recipe.fermentables[0], recipe.fermentables[2]
    lines = (*extracts * (syrup,), *grains * (grain,))
    return with_line_ids(replace(recipe, hops=hops * recipe.hops[:1], fermentables=lines))


@pytest.mark.parametrize(
    ("lines", "samples"),
    [
        ({}, 256),
        ({"hops": 47}, 256),
        ({"hops": 48}, 512),
        ({"extracts": 31}, 256),
        ({"extracts": 32}, 512),
        ({"grains": 94}, 256),
        ({"grains": 95}, 512),
        ({"hops": 20, "extracts": 10, "grains": 24}, 256),
        ({"hops": 20, "extracts": 10, "grains": 25}, 512),
        ({"hops": 112}, 1024),
    ],
)
def test_there_are_twice_as_many_samples_as_inputs(harbour_porter, lines, samples):
    """34 of the day, 2 of a hop, 3 of an extract, 1 of a grain: up to 128 of them for 256."""
    assert samples_for(long(harbour_porter, **lines)) == samples


def test_a_kitchen_recipe_has_about_as_many_inputs_as_are_counted(harbour_porter):
    _, tolerances = brew_samples(harbour_porter, 8)
    assert len(tolerances) <= 34 + 2 * 2 + 3 * 2 + 1


def test_even_draws_go_from_low_to_high_as_their_shares_do():
    doubt = Doubt("even", 1.0, 2.0, 3.0, 6.0, "", Sure.JUDGEMENT, most=5.5, evenly=True)
    found = evenly_drawn(doubt, np.array([0.0, 0.25, 0.5, 1.0]))
    assert list(found) == [2.0, 3.0, 4.0, 5.5]
