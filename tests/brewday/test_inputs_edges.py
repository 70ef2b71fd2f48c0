"""Inputs at their edges: what is cooled how fast, and shares that cannot be more than the whole."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.inputs import gather
from designer.brewday.tolerances import LatinHypercube, Nominal
from designer.recipe.document import COOLING_WAYS, Fermentable, Hop, Process, Recipe, Yeast
from designer.recipe.quantity import Quantity


def cooled(recipe, way, kitchen):
    process = replace(recipe.process, cooling=way, cool_to=kitchen.q(22), cooling_constant=None)
    return brew(replace(recipe, process=process))


@pytest.mark.parametrize(
    ("way", "least", "most"),
    [
        ("ice bath", 20, 40),
        ("coil", 15, 35),
        ("cold water bath", 30, 60),
        ("standing in air", 6 * 60, 14 * 60),
    ],
)
def test_a_kitchen_pot_cools_as_long_as_brewers_wait(way, least, most, harbour_porter, kitchen):
    """Half an hour in ice, overnight on its own; common practice, no source."""
    assert least <= cooled(harbour_porter, way, kitchen).fermenter.cooling_min <= most


def test_ice_is_faster_than_cold_water_and_both_than_air(harbour_porter, kitchen):
    minutes = {
        way: cooled(harbour_porter, way, kitchen).fermenter.cooling_min for way in COOLING_WAYS
    }
    assert minutes["ice bath"] < minutes["cold water bath"] < minutes["standing in air"]
    assert minutes["coil"] < minutes["cold water bath"]


def doubtful(value, give):
    return Quantity(value, str(value), give)


def test_no_share_is_drawn_above_the_whole(kitchen):
    """However doubtful: water does not run hotter than boiling, malt is not more than itself."""
    recipe = Recipe(
        process=Process(tap_temperature=doubtful(99.0, 5.0)),
        fermentables=(
            Fermentable("Dry", "dry extract", kitchen.q(1.0), extract=doubtful(0.98, 0.1)),
            Fermentable("Syrup", "sugar", kitchen.q(1.0), fermentability=doubtful(0.895, 0.1)),
        ),
        hops=(Hop("A", "whole", alpha=doubtful(0.95, 0.2), amount=doubtful(0.1, 0.0)),),
        yeast=Yeast("Hungry", attenuation=doubtful(0.97, 0.2)),
    )
    inputs = gather(recipe, LatinHypercube(64))
    assert inputs.tap_c.max() == 100.0
    assert inputs.attenuation.max() == 1.0
    dry, syrup = inputs.extracts
    assert dry.water_kg.min() == 0.0
    assert syrup.fermentability.max() <= 1.0
    assert inputs.hops[0].alpha_mg.max() == pytest.approx(100_000.0)


def test_only_a_coil_takes_room_in_the_pot(harbour_porter, kitchen):
    pot = replace(harbour_porter.pot, coil=kitchen.q(0.4, "L"))
    for way in COOLING_WAYS:
        recipe = replace(
            harbour_porter, pot=pot, process=replace(harbour_porter.process, cooling=way)
        )
        assert gather(recipe, Nominal()).coil_l == (0.4 if way == "coil" else 0.0)
