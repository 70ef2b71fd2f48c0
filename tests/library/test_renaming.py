"""A line given another name takes over what the catalogue says of it."""

from dataclasses import replace

import pytest

from designer.library import catalogue
from designer.library.recipe_file import load
from designer.library.renaming import (
    renamed_extra,
    renamed_fermentable,
    renamed_hop,
    renamed_yeast,
)
from designer.recipe.document import Extra
from designer.recipe.quantity import Stage
from designer.resource_files import resource_path


@pytest.fixture
def brewed():
    """Harbour Lamp Porter, the example."""
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


def test_a_name_that_nobody_knows_changes_the_name_alone(brewed):
    for line, renamed in (
        (brewed.fermentables[0], renamed_fermentable),
        (brewed.hops[0], renamed_hop),
        (Extra("Finings"), renamed_extra),
    ):
        assert renamed(line, "Harbour wall") == (("name", "Harbour wall"),)
    assert renamed_yeast(brewed.yeast, "Quay") == replace(brewed.yeast, name="Quay")


def test_the_same_name_again_keeps_figures_that_were_typed(brewed):
    hop = brewed.hops[0]
    assert renamed_hop(hop, hop.name) == (("name", hop.name),)


def test_a_hop_brings_its_alpha_acid_and_keeps_its_weight(brewed):
    changed = dict(renamed_hop(brewed.hops[0], "fuggle"))
    assert changed["name"] == "Fuggle"
    assert changed["alpha"].value == catalogue.find_hop("Fuggle").alpha
    assert changed.keys() == {"name", "alpha"}


def test_extract_that_becomes_grain_is_steeped_and_grain_stays_in_the_steep(brewed):
    extract = next(each for each in brewed.fermentables if "extract" in each.kind)
    changed = dict(renamed_fermentable(extract, "Chocolate malt"))
    assert changed["when"].stage is Stage.STEEP
    assert changed["kind"] == "steeping grain"
    grain = replace(extract, **changed)
    assert "when" not in dict(renamed_fermentable(grain, "Crystal malt 60 °L"))
    assert dict(renamed_fermentable(grain, "Light dry malt extract"))["when"].stage is Stage.BOIL


def test_an_extra_brings_its_purpose_and_time_and_keeps_its_dose():
    aid = catalogue.aids()[0]
    assert {key for key, _ in renamed_extra(Extra("Something"), aid.name)} == {
        "name", "purpose", "when",
    }  # fmt: skip


def test_a_yeast_brings_its_figures_and_keeps_amount_and_price(brewed):
    entry = next(each for each in catalogue.yeasts() if each.form == brewed.yeast.form)
    changed = renamed_yeast(brewed.yeast, entry.name)
    assert changed.name == entry.name
    assert changed.amount == brewed.yeast.amount
    assert changed.lowest.value == entry.lowest_c
