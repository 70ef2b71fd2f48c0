"""The published methods side by side, of one and the same day."""

import json
from dataclasses import replace
from functools import partial

import pytest

from designer.brewday.day import brew
from designer.brewday.other_methods import methods_document, other_methods
from designer.brewday.predictions import PREDICTIONS
from designer.recipe.document import Fermentable, Fermenter, Hop, Pot
from designer.recipe.quantity import Stage, When
from designer.wort.extract import extract_for, water_for_volume

ORDER = {
    "bitterness_ibu": ["Tinseth", "Rager", "Garetz"],
    "colour_srm": ["Morey", "Mosher", "Daniels"],
    "abv_percent": ["Balling", "Cutaia", "Hall", "linear"],
}


def said_of(recipe):
    return {(each.number, each.method): each for each in other_methods(recipe, brew(recipe))}


def test_every_number_has_its_methods_the_default_first(harbour_porter):
    said = other_methods(harbour_porter, brew(harbour_porter))
    for number, names in ORDER.items():
        rows = [each for each in said if each.number == number]
        assert [each.method for each in rows] == names
        assert [each.default for each in rows] == [True] + [False] * (len(names) - 1)
        assert [each.chosen for each in rows] == [True] + [False] * (len(names) - 1)
    assert len(said) == 10
    assert set(ORDER) <= {each.key for each in PREDICTIONS}


def test_each_says_its_source_and_why_it_differs_in_one_sentence(harbour_porter):
    said = other_methods(harbour_porter, brew(harbour_porter))
    assert all(each.source for each in said)
    assert all(each.why.endswith(".") and each.why.count(". ") == 0 for each in said)
    assert len({each.why for each in said}) == len(said)


@pytest.mark.parametrize(
    ("field", "number"),
    [("bitterness", "bitterness_ibu"), ("colour", "colour_srm"), ("alcohol", "abv_percent")],
)
def test_a_method_says_what_a_recipe_that_chooses_it_forecasts(field, number, harbour_porter):
    before = said_of(harbour_porter)
    for method in ORDER[number]:
        chosen = replace(harbour_porter, methods=replace(harbour_porter.methods, **{field: method}))
        forecast = float(getattr(brew(chosen).beer, number))
        assert before[number, method].value == pytest.approx(forecast, rel=1e-9)
        after = said_of(chosen)
        assert [name for (key, name), each in after.items() if each.chosen and key == number] == [
            method
        ]
        assert after[number, ORDER[number][0]].default
        for name in ORDER[number]:
            expected = before[number, name].value
            assert after[number, name].value == pytest.approx(expected, rel=1e-9)


def one_hop_in_19_l(kitchen, gravity_sg):
    extract_kg = float(extract_for(gravity_sg, 19.0))
    water_l = float(water_for_volume(extract_kg, 19.0)) / 0.998203
    return kitchen.recipe(
        pot=Pot(volume=kitchen.q(60, "L"), power=kitchen.q(1e5, "W")),
        fermenter=Fermenter(volume=kitchen.q(60, "L")),
        process=kitchen.quiet_process(start_water=kitchen.q(water_l, "L")),
        fermentables=(
            Fermentable("Extract", "sugar", kitchen.q(extract_kg, "kg"), kitchen.boil(60),
                        extract=kitchen.q(1.0)),
        ),
        hops=(Hop("A", "whole", kitchen.q(0.064), kitchen.q(0.02835, "kg"), kitchen.boil(60)),),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("gravity_sg", "tinseth", "rager"), [(1.050, 22.03, 29.43), (1.090, 15.38, 24.53)]
)
def test_one_ounce_for_an_hour_in_five_gallons(gravity_sg, tinseth, rager, kitchen):
    """Tinseth's (1995 to 1997) and Rager's (Zymurgy special issue 1990) equations worked by hand:
    28.35 g of 6.4 % for 60 min in 19 L."""
    said = said_of(one_hop_in_19_l(kitchen, gravity_sg))
    # the minute of cooling in the model's kitchen counts a little
    assert said["bitterness_ibu", "Tinseth"].value == pytest.approx(tinseth, rel=0.01)
    assert said["bitterness_ibu", "Rager"].value == pytest.approx(rager, rel=0.002)


def test_garetz_for_a_full_boil(kitchen):
    """Garetz, Using Hops (1994, second-hand, table from memory): 17.87 IBU in 19 L at 1.050."""
    said = said_of(one_hop_in_19_l(kitchen, 1.050))
    assert said["bitterness_ibu", "Garetz"].value == pytest.approx(17.87, rel=0.002)


def outside(recipe, number, method):
    return said_of(recipe)[number, method].outside


def test_within_its_range_a_method_says_nothing(kitchen):
    recipe = one_hop_in_19_l(kitchen, 1.050)
    for method in ORDER["bitterness_ibu"]:
        assert outside(recipe, "bitterness_ibu", method) == ""
    for method in ORDER["abv_percent"]:
        assert outside(recipe, "abv_percent", method) == ""


@pytest.mark.parametrize("gravity_sg", [1.020, 1.140])
def test_tinseth_says_that_the_boil_is_weaker_or_stronger_than_measured(gravity_sg, kitchen):
    text = outside(one_hop_in_19_l(kitchen, gravity_sg), "bitterness_ibu", "Tinseth")
    assert f"{gravity_sg:.3f}" in text
    assert "1.030 to 1.130" in text


def boiled(kitchen, minutes):
    recipe = one_hop_in_19_l(kitchen, 1.050)
    return replace(recipe, process=replace(recipe.process, boil_time=kitchen.q(minutes, "min")))


def test_a_boil_longer_than_the_published_table_is_said(kitchen):
    said = partial(outside, boiled(kitchen, 100), "bitterness_ibu")
    assert said("Tinseth") == ""
    assert said("Rager") == "The boil lasts 100 min; the published table ends at 90 min."
    assert said("Garetz") == "The boil lasts 100 min; the published table ends at 90 min."
    longer = outside(boiled(kitchen, 130), "bitterness_ibu", "Tinseth")
    assert longer == "The boil lasts 130 min; the published table ends at 120 min."


def test_methods_for_the_boil_say_so_of_hops_below_it(harbour_porter):
    words = "Made for hops that boil; below the boil the day's own clock is used."
    assert outside(harbour_porter, "bitterness_ibu", "Rager") == words
    assert outside(harbour_porter, "bitterness_ibu", "Garetz") == words
    assert outside(harbour_porter, "bitterness_ibu", "Tinseth") == ""


def test_without_hops_in_the_pot_no_method_of_bitterness_is_outside(harbour_porter):
    dry = replace(harbour_porter.hops[0], when=When(Stage.DRY_HOP, "dry hop 3 days", days=3.0))
    for hops in ((), (dry,)):
        recipe = replace(harbour_porter, hops=hops)
        for method in ORDER["bitterness_ibu"]:
            assert outside(recipe, "bitterness_ibu", method) == ""
            assert said_of(recipe)["bitterness_ibu", method].value == 0.0


def coloured(recipe, kitchen, lovibond):
    lines = tuple(replace(line, colour=kitchen.q(lovibond, "°L")) for line in recipe.fermentables)
    return replace(recipe, fermentables=lines)


@pytest.mark.parametrize(
    ("lovibond", "method", "words"),
    [
        (2, "Mosher", "above 7 malt colour units"),
        (2, "Daniels", "above 11 malt colour units"),
        (5, "Daniels", "above 11 malt colour units"),
        (200, "Morey", "up to 50 SRM"),
    ],
)
def test_a_colour_outside_the_range_is_said(lovibond, method, words, harbour_porter, kitchen):
    assert words in outside(coloured(harbour_porter, kitchen, lovibond), "colour_srm", method)


def test_a_colour_within_the_range_is_not(harbour_porter, kitchen):
    amber = coloured(harbour_porter, kitchen, 10)
    assert [outside(amber, "colour_srm", method) for method in ORDER["colour_srm"]] == ["", "", ""]
    assert outside(coloured(harbour_porter, kitchen, 5), "colour_srm", "Mosher") == ""


@pytest.mark.parametrize(
    ("gravity_sg", "method", "words"),
    [
        (1.080, "Hall", "Runs high above 1.070; this is 1.080."),
        (1.080, "linear", "Runs low above 1.070; this is 1.080."),
        (1.080, "Cutaia", "1.046 to 1.073"),
        (1.035, "Cutaia", "1.046 to 1.073"),
        (1.080, "Balling", ""),
    ],
)
def test_an_alcohol_outside_the_range_is_said(gravity_sg, method, words, kitchen):
    text = outside(one_hop_in_19_l(kitchen, gravity_sg), "abv_percent", method)
    assert words in text
    assert bool(text) == bool(words)


def test_as_json_there_is_a_list_for_each_number(harbour_porter):
    said = other_methods(harbour_porter, brew(harbour_porter))
    document = json.loads(json.dumps(methods_document(said)))
    assert list(document) == list(ORDER)
    first = document["bitterness_ibu"][0]
    assert first["method"] == "Tinseth"
    assert first["default"] is True
    assert first["value"] == pytest.approx(float(brew(harbour_porter).beer.bitterness_ibu))
    assert set(first) == {"method", "value", "default", "chosen", "source", "why", "outside"}
