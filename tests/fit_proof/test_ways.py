"""Every way of every recipe in every kitchen: what it says is what comes of what goes in."""

from dataclasses import replace
from functools import cache

import pytest

from designer.library.recipe_file import document_text, read_document
from designer.workbench.fit_text import fit_document
from tests.fit_proof import sentences
from tests.fit_proof.adding_up import faults
from tests.fit_proof.balance import compared, of_boil, stated
from tests.fit_proof.kitchens import HOMES, Pair, pairs
from tests.fit_proof.recipes import recipes
from tests.fit_proof.reckoning import PutIn, Stated, reckoned
from tests.fit_proof.sucrose import gravity, litres, water_kg_l, water_to_fill, wort_kg_l
from tests.proof.water_and_wort import RELATIVE, SUCROSE
from tests.some_cases import some_of


@cache
def answer_of(pair):
    return pair.answer()


@pytest.fixture(params=range(len(HOMES)), ids=lambda place: str(HOMES[place]), scope="module")
def in_this_kitchen(request):
    """A third of the recipes, others in the next; `python -m tests.fit_proof` looks at all."""
    return [Pair(name, HOMES[request.param]) for name in some_of(list(recipes()), 3, request.param)]


def test_there_are_three_hundred_pairs_and_most_of_them_have_several_ways():
    assert len(set(map(str, pairs()))) == len(pairs()) >= 300
    assert len(recipes()) >= 18


def test_volumes_and_gravities_are_those_of_the_mass_balance(in_this_kitchen):
    """Within 0.05 L and a point of gravity, reckoned from what is listed alone."""
    looked_at = 0
    for pair in in_this_kitchen:
        for key, figures in compared(answer_of(pair)).items():
            looked_at += len(figures)
            assert [str(each) for each in figures if not each.agrees] == [], (str(pair), key)
    assert looked_at > 30


def test_what_is_listed_adds_up_to_the_recipe(in_this_kitchen):
    """Weights, doses, packets of yeast, and what is over of the packs that are bought."""
    for pair in in_this_kitchen:
        assert list(faults(pair.recipe, pair.wish, answer_of(pair))) == [], str(pair)


def test_every_sentence_agrees_with_its_numbers(in_this_kitchen):
    for pair in in_this_kitchen:
        assert list(sentences.faults(pair.recipe, answer_of(pair))) == [], str(pair)


@pytest.mark.parametrize("name", recipes())
def test_a_recipe_of_the_proof_is_one_that_a_file_holds(name):
    recipe = recipes()[name]
    assert read_document(document_text(recipe), name) == recipe


SPOILT = {
    "the grain held no water": lambda given: replace(given, grain_absorption_l_kg=0.0),
    "no steam went off": lambda given: replace(given, evaporation_l_h=0.0),
    "a quarter more went off": lambda given: replace(
        given, evaporation_l_h=1.25 * given.evaporation_l_h
    ),
    "nothing stayed in the pot": lambda given: replace(given, left_in_pot_l=0.0),
    "the hops held nothing": lambda given: replace(given, hop_absorption_l_kg=0.0),
    "a tenth of a litre more water": lambda given: replace(
        given, start_water_l=given.start_water_l + 0.1
    ),
    "topped up a tenth of a litre higher": lambda given: replace(
        given, top_up_to_l=given.top_up_to_l + 0.1
    ),
    "a tenth of the extract forgotten": lambda given: replace(
        given, put_in=tuple(replace(each, kg=0.9 * each.kg) for each in given.put_in)
    ),
}


@pytest.mark.parametrize("spoilt", SPOILT)
def test_the_balance_would_tell_what_is_forgotten(spoilt):
    """The reckoning is no copy: with anything left out of it a way no longer agrees."""
    answer = answer_of(Pair("Harbour Lamp Porter", HOMES[4]))
    way, said = answer.ways[0], fit_document(answer)["ways"][0]
    boil, each = way.boils[0], said["boils"][0]
    given = stated(boil, each)
    assert all(figure.agrees for figure in of_boil(each, reckoned(given)))
    wrong = reckoned(SPOILT[spoilt](given))
    assert not all(figure.agrees for figure in of_boil(each, wrong))


@pytest.mark.parametrize(("percent", "at_20", "at_15"), SUCROSE)
def test_the_density_taken_is_the_printed_one(percent, at_20, at_15):
    """NBS Circular 440, table of sucrose, reprinted; kg/m³."""
    for temp_c, printed in ((20.0, at_20), (15.0, at_15)):
        assert 1000.0 * wort_kg_l(percent / 100.0, temp_c) == pytest.approx(printed, abs=0.07)


@pytest.mark.parametrize(("percent", "printed"), RELATIVE)
def test_the_density_over_water_is_the_printed_one(percent, printed):
    """Asadi, Beet-Sugar Handbook, Wiley 2006, table A.1."""
    assert wort_kg_l(percent / 100.0) / water_kg_l(20.0) == pytest.approx(printed, abs=7e-5)


def test_a_plain_boil_is_reckoned_as_on_paper():
    """10 L at 20 °C and 1 kg of sugar, an hour at 1 L/h, 0.5 L left, made up to 12 L.

    By hand: 9.982 kg of water and 1 kg of extract fill 10.62 L (0.62 L/kg, rule of thumb, from
    memory); 9.62 L after the boil, 9.12 of them poured with 0.948 kg of extract; 0.948 kg in 12 L
    are 8.0 L°/kg x 384 points: 1.0304.
    """
    sugar = PutIn("Sugar", "sugar", 1.0, "boil", 60.0)
    came = reckoned(
        Stated(10.0, (sugar,), 60.0, 1.0, left_in_pot_l=0.5, top_up_to_l=12.0, tap_c=20.0)
    )
    assert came.from_pot_l == pytest.approx(9.12, abs=0.01)
    assert came.fermenter.extract_kg == pytest.approx(0.948, abs=0.001)
    assert came.fermenter.gravity == pytest.approx(1.0304, abs=0.0003)
    assert came.top_up_l == pytest.approx(12.0 - 9.12, abs=0.01)
    kept = came.fermenter.water_kg + came.stays_water_kg + came.steam_kg
    assert kept == pytest.approx(10.0 * water_kg_l(20.0) + came.top_up_l * water_kg_l(20.0))


def test_water_made_up_to_a_volume_fills_it():
    water = water_to_fill(2.0, 10.0)
    assert litres(2.0, water) == pytest.approx(10.0, abs=1e-6)
    assert gravity(2.0, water) == pytest.approx(1.0769, abs=0.0005)
