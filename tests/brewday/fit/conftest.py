"""The demo kitchen's recipes, and what is asked of every way whatever the kitchen."""

from dataclasses import replace

import pytest

from designer.brewday.fit.wish import HopInHand, wish_for
from designer.library.recipe_file import load
from designer.recipe.document import Fermentable, Fermenter, Hop, Pot, Process, Recipe, Yeast
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Quantity, Stage, When
from designer.resource_files import resource_path
from tests.brewday.quantities import ONE_GRAIN_PORTER, q


def example(name):
    return load(resource_path(f"examples/{name}.hobwort"))


@pytest.fixture(scope="session")
def breakwater_red():
    """The locked 20 L kit."""
    return example("breakwater_red")


@pytest.fixture(scope="session")
def porter():
    """The small porter whose ways are worked out by hand."""
    return load(ONE_GRAIN_PORTER)


@pytest.fixture(scope="session")
def slipway_bitter():
    return example("slipway_bitter")


def boil(minutes):
    return When(Stage.BOIL, f"boil {minutes} min", float(minutes))


@pytest.fixture(scope="session")
def quay_pale():
    """A recipe of one's own, written for a full boil of 19 L: 3.3 kg of extract, two hops."""
    return with_line_ids(
        Recipe(
            name="Quay Pale",
            pot=Pot(name="Big pot", volume=q(30, "L")),
            fermenter=Fermenter(name="Bucket", volume=q(25, "L")),
            process=Process(
                start_water=q(19, "L"),
                boil_time=q(60, "min"),
                evaporation=q(1.5, "L/h"),
                left_in_pot=q(0.3, "L"),
                top_up_to=q(19, "L"),
                cooling="ice bath",
                frozen_top_up=q(2, "kg"),
            ),
            fermentables=(
                Fermentable("Pale liquid malt extract", "liquid extract", q(3, "kg"), boil(60)),
                Fermentable(
                    "Crystal malt",
                    "steeping grain",
                    q(0.3, "kg"),
                    When(Stage.STEEP, "steep"),
                    colour=q(60, "°L"),
                ),
            ),
            hops=(
                Hop("Challenger", "pellets", q(0.075), q(0.03, "kg"), boil(60)),
                Hop("Fuggle", "pellets", q(0.045), q(0.02, "kg"), boil(10)),
            ),
            yeast=Yeast("Dry ale yeast", "dry", Quantity(11.0, "11 g", unit="g")),
        )
    )


@pytest.fixture(scope="session")
def kitchens(breakwater_red, porter, slipway_bitter, quay_pale):
    """Recipes and kitchens that differ much, by a name for each."""
    weak = replace(
        quay_pale,
        pot=replace(quay_pale.pot, power=q(1500, "W")),
        process=replace(quay_pale.process, evaporation=q(2.5, "L/h")),
    )
    return {
        "kit, small pot, bucket": (breakwater_red, wish_for(breakwater_red, 9.0, (12.0,))),
        "kit, two buckets": (breakwater_red, wish_for(breakwater_red, 9.0, (12.0, 15.0))),
        "kit, large fermenter": (breakwater_red, wish_for(breakwater_red, 9.0, (30.0,))),
        "kit, nothing to buy": (
            breakwater_red,
            replace(wish_for(breakwater_red, 7.0, (12.0,)), may_buy_fermenter=False),
        ),
        "kit, whole packs": (
            breakwater_red,
            replace(wish_for(breakwater_red, 9.0, (23.0,)), whole_packs=True),
        ),
        "kit, second pot": (
            breakwater_red,
            replace(
                wish_for(breakwater_red, 6.0, (12.0, 12.0)), second_pot=Pot("Old pot", q(5, "L"))
            ),
        ),
        "kit, tiny pot, large bucket": (breakwater_red, wish_for(breakwater_red, 5.0, (30.0,))),
        "own, small pot": (quay_pale, wish_for(quay_pale, 10.0, (25.0,))),
        "own, weak stove": (
            weak,
            replace(wish_for(weak, 10.0, (25.0,)), counted_for=weak.pot),
        ),
        "own, frozen water": (
            quay_pale,
            replace(wish_for(quay_pale, 12.0, (25.0,)), most_frozen_kg=4.0),
        ),
        "own, small bucket": (quay_pale, wish_for(quay_pale, 10.0, (12.0,))),
        "porter, whole packs": (
            porter,
            replace(wish_for(porter, 9.0, (8.0,)), whole_packs=True),
        ),
        "bitter, tiny pot": (
            slipway_bitter,
            replace(
                wish_for(slipway_bitter, 5.0, (8.0,)),
                hops_in_hand=(HopInHand("Magnum", q(0.12), 0.05),),
            ),
        ),
        "own, half late": (
            quay_pale,
            replace(wish_for(quay_pale, 11.0, (25.0,)), late_fraction=0.5),
        ),
    }
