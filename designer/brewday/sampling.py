"""How many samples a recipe's ranges take."""

from __future__ import annotations

from designer.brewday.tolerances import SAMPLES
from designer.recipe.choices import is_grain
from designer.recipe.document import Recipe

INPUTS_OF_THE_DAY, INPUTS_A_HOP, INPUTS_AN_EXTRACT, INPUTS_A_GRAIN = 34, 2, 3, 1
"""About how many inputs with a tolerance a recipe has, of its own and of each line."""


def samples_for(recipe: Recipe) -> int:
    """Return how many samples tell the inputs of the recipe apart: twice as many as inputs."""
    grain = sum(1 for line in recipe.fermentables if is_grain(line.kind))
    inputs = (
        INPUTS_OF_THE_DAY
        + INPUTS_A_HOP * len(recipe.hops)
        + INPUTS_AN_EXTRACT * (len(recipe.fermentables) - grain)
        + INPUTS_A_GRAIN * grain
    )
    samples = SAMPLES
    while samples < 2 * inputs:
        samples *= 2
    return samples
