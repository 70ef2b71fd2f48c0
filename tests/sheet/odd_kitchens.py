"""Kitchens and habits that no example has, for sheets that are read like code."""

from __future__ import annotations

from dataclasses import replace

from designer.recipe.choices import GrainBag, SyrupTin
from designer.recipe.document import Extra, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity
from designer.units import ShownUnits, read_when

from . import plans

METRIC, US, BOTH = ShownUnits.METRIC, ShownUnits.US, ShownUnits.BOTH


def changed(name: str, *, process=None, fermenter=None, pot=None, when=None) -> Recipe:
    """Return an example in another kitchen; `when` moves its first fermentable."""
    recipe = plans.example(name)
    first, *others = recipe.fermentables
    if when is not None:
        first = replace(first, when=read_when(when))
    return with_line_ids(
        replace(
            recipe,
            pot=replace(recipe.pot, **(pot or {})),
            process=replace(recipe.process, **(process or {})),
            fermenter=replace(recipe.fermenter, **(fermenter or {})),
            fermentables=(first, *others),
        )
    )


def q(value: float, unit: str) -> Quantity:
    """Return a figure as it is typed."""
    return Quantity(value, f"{value:g} {unit}")


def lager_in_glass() -> Recipe:
    """Return the porter pitched cold in a glass carboy, with a coil, from 22:30 on."""
    return changed(
        "harbour_lamp_porter",
        process={
            "pitch_temperature": q(10.0, "°C"),
            "cooling": "coil",
            "start_time": "22:30",
            "chlorine": q(1.0, "mg/L"),
            "syrup_tin": SyrupTin.RINSED.value,
            "grain_bag": GrainBag.RINSED.value,
        },
        fermenter={"kind": "glass carboy"},
    )


def wheat_in_a_keg() -> Recipe:
    """Return the wheat in a keg, of water with chloramine, its syrup stirred in at flame-out."""
    return changed(
        "foghorn_wheat",
        process={
            "package": "keg",
            "chlorine": q(2.0, "mg/L"),
            "disinfectant": "chloramine, as Cl2",
            "metabisulfite": "sodium metabisulfite",
        },
        when="flame-out",
    )


def strained_bottles() -> Recipe:
    """Return the bitter in bottles near their limit, its pot filled higher than it holds."""
    return changed(
        "slipway_bitter",
        process={
            "bottle": "one-way or unknown glass",
            "priming_sugar": "dry malt extract",
            "start_water": q(12.0, "L"),
        },
        when="stand 20 min at 80 °C",
    )


def burst_bottles() -> Recipe:
    """Return the porter for bottles that would burst, into a fermenter that is too small."""
    return changed(
        "harbour_lamp_porter",
        process={
            "bottle": "still-wine bottles, jars, growlers",
            "top_up_to": q(20.0, "L"),
            "priming_sugar": "dextrose monohydrate",
        },
        when="fermenter",
    )


def kit_on_a_flame() -> Recipe:
    """Return the kit over gas, more than one can lift, with what its leaflet promises."""
    kit = changed(
        "breakwater_red",
        pot={"stove": "gas", "volume": q(40.0, "L")},
        process={"start_water": q(25.0, "L"), "top_up_to": q(38.0, "L")},
        fermenter={"volume": q(60.0, "L")},
    )
    leaflet = replace(
        kit.leaflet, makes=None, original_gravity=typed(Kind.GRAVITY, 1.041), final_gravity=None
    )
    return replace(kit, leaflet=leaflet)


def syrup_into_glass() -> Recipe:
    """Return the porter with syrup, a hop and an enzyme in the carboy, all with the yeast."""
    recipe = changed("harbour_lamp_porter", fermenter={"kind": "glass carboy"}, when="fermenter")
    with_yeast = read_when("fermenter")
    enzyme = Extra("Clarity enzyme", "no chill haze after fermentation", when=with_yeast)
    late = replace(recipe.hops[-1], when=with_yeast)
    return with_line_ids(
        replace(recipe, hops=(*recipe.hops[:-1], late), extras=(*recipe.extras, enzyme))
    )


ALL = {
    "nothing typed": (lambda: with_line_ids(Recipe()), METRIC),
    "lager in glass": (lager_in_glass, METRIC),
    "wheat in a keg": (wheat_in_a_keg, US),
    "strained bottles": (strained_bottles, BOTH),
    "bottles that burst": (burst_bottles, METRIC),
    "syrup into glass": (syrup_into_glass, METRIC),
    "kit on a flame": (kit_on_a_flame, METRIC),
}
