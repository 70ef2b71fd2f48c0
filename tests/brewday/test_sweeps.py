"""More of anything never turns a forecast round: as typed, at both ends, and in each draw."""

from dataclasses import replace

import numpy as np
import pytest

from designer.brewday.day import brew_samples
from designer.brewday.outlook import look_ahead
from designer.recipe.document import Fermentable, Yeast
from designer.recipe.quantity import Quantity, Stage, When
from tests.brewday.quantities import q

STEEP = When(Stage.STEEP, "steep")
ADDED = {
    "dark grain": lambda kg: Fermentable("Roast", "steeping grain", q(kg), STEEP, q(500), q(0.45)),
    "pale grain": lambda kg: Fermentable("Pale", "mash grain", q(kg), STEEP, q(1.8)),
    "unnamed grain": lambda kg: Fermentable("Some", "steeping grain", q(kg), STEEP),
    "syrup": lambda kg: Fermentable("Syrup", "liquid extract", q(kg), colour=q(4)),
    "late powder": lambda kg: Fermentable(
        "Powder", "dry extract", q(kg), When(Stage.BOIL, "boil 5 min", 5.0), q(4)
    ),
    "sugar": lambda kg: Fermentable("Sugar", "sugar", q(kg), colour=q(0.5), extract=q(1.0)),
}


def with_more(recipe, what, kg):
    line = replace(ADDED[what](kg), line_id=99)
    return replace(recipe, fermentables=(*recipe.fermentables, line))


@pytest.mark.parametrize("what", ADDED)
def test_more_of_any_fermentable_is_never_weaker_nor_paler(what, harbour_porter):
    """Source: mass balance of extract; colour units add up.

    Nothing stays in the pot here: grain holds water, so what stays of a smaller pot is stronger.
    Where base malt gives nothing, its bag still holds a little of what the other grain gave.
    """
    process = replace(harbour_porter.process, left_in_pot=Quantity(0.0, "0 L", 0.0))
    harbour_porter = replace(harbour_porter, process=process, hops=())
    steps = np.linspace(0.01, 1.0, 8)
    for read in ("original_gravity", "colour_srm"):
        drawn, ranges = [], []
        for kg in steps:
            recipe = with_more(harbour_porter, what, kg)
            day, _ = brew_samples(recipe, 256)
            drawn.append(np.broadcast_to(getattr(day.beer, read), 256))
            found = look_ahead(recipe).forecasts[read]
            ranges.append((found.value, found.low, found.high))
            assert found.low <= found.value <= found.high
        held = 5e-5 if what == "pale grain" else 0.0
        assert np.diff(drawn, axis=0).min() >= -held - 1e-12, read
        assert np.diff(ranges, axis=0).min() >= -2e-4, read


def test_more_yeast_never_leaves_more_behind(harbour_porter):
    ends, drawn = [], []
    for grams in (1.0, 2.0, 4.0, 5.0, 8.0, 11.0, 22.0):
        yeast = Yeast("A", amount=Quantity(grams, f"{grams:g} g", None, "g"))
        recipe = replace(harbour_porter, yeast=yeast)
        drawn.append(brew_samples(recipe, 256)[0].beer.final_gravity)
        found = look_ahead(recipe).forecasts["final_gravity"]
        ends.append((found.value, found.low, found.high))
    assert np.diff(drawn, axis=0).max() <= 1e-12
    assert np.diff(ends, axis=0).max() <= 1e-4
