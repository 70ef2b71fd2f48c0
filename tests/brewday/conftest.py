"""Kitchen things for the brew day: recipes built by hand, without files."""

import pytest

from designer.recipe.document import (
    Extra,
    Fermentable,
    Fermenter,
    Hop,
    Pot,
    Process,
    Recipe,
    Yeast,
)
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Quantity, Stage, When
from tests.brewday.quantities import q as typed


def boil(minutes):
    return When(Stage.BOIL, f"boil {minutes} min", float(minutes))


@pytest.fixture
def kitchen():
    """The makers that tests build recipes with."""

    class Kitchen:
        q = staticmethod(typed)
        boil = staticmethod(boil)

        @staticmethod
        def quiet_process(**changes):
            """A day without evaporation, losses, or time to cool: for published examples."""
            still = {
                "evaporation": typed(0, "L/h"),
                "left_in_pot": typed(0, "L"),
                "hop_absorption": typed(0, "L/kg"),
                "cooling": "ice bath",
                "cooling_constant": typed(5, "/min"),
                "room_temperature": typed(20, "°C"),
                "tap_temperature": typed(20, "°C"),
            }
            return Process(**{**still, **changes})

        @staticmethod
        def recipe(**parts):
            return with_line_ids(Recipe(**parts))

    return Kitchen


@pytest.fixture
def harbour_porter():
    """The porter of the demo kitchen, figures typed in full."""
    return with_line_ids(
        Recipe(
            name="Harbour Lamp Porter",
            pot=Pot(name="Kitchen pot", volume=typed(9, "L")),
            fermenter=Fermenter(name="Small bucket", volume=typed(12, "L")),
            process=Process(
                start_water=typed(6.5, "L"),
                steep_temperature=typed(68, "°C"),
                steep_time=typed(25, "min"),
                boil_time=typed(60, "min"),
                evaporation=typed(0.9, "L/h"),
                left_in_pot=typed(0.3, "L"),
                top_up_to=typed(10, "L"),
                cooling="ice bath",
                frozen_top_up=typed(1.5, "kg"),
                pitch_temperature=typed(19, "°C"),
            ),
            fermentables=(
                Fermentable(
                    "Light liquid malt extract", "liquid extract", typed(1.5, "kg"), boil(60)
                ),
                Fermentable("Light dry malt extract", "dry extract", typed(0.5, "kg"), boil(15)),
                Fermentable(
                    "Medium crystal malt",
                    "steeping grain",
                    typed(0.25, "kg"),
                    When(Stage.STEEP, "steep"),
                    colour=typed(60, "°L"),
                ),
            ),
            hops=(
                Hop("Challenger", "pellets", typed(0.072), typed(0.02, "kg"), boil(60)),
                Hop(
                    "East Kent Golding",
                    "pellets",
                    typed(0.052),
                    typed(0.02, "kg"),
                    When(Stage.FLAME_OUT, "flame-out"),
                ),
            ),
            yeast=Yeast("Dry English ale yeast", "dry", Quantity(11.0, "11 g", unit="g")),
            extras=(Extra("Carrageenan finings", amount=typed(0.5, "tablet"), when=boil(5)),),
        )
    )
