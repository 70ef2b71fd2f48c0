"""A sentence that does not agree with its number is told, whichever of its numbers it is."""

from copy import deepcopy

import pytest

from designer.workbench.fit_text import fit_document
from tests.fit_proof import sentences
from tests.fit_proof.kitchens import Home, Pair

TWO_BUCKETS = Pair("Customs Bitter", Home(12.0, (15.0, 15.0), frozen_kg=2.0))


@pytest.fixture(scope="module")
def answer():
    return TWO_BUCKETS.answer()


@pytest.fixture
def told(answer, monkeypatch):
    """Return what is told if the numbers of the first way were others than the sentences say."""
    document = fit_document(answer)

    def change(changed):
        other = deepcopy(document)
        changed(other)
        monkeypatch.setattr(sentences, "fit_document", lambda answer: other)
        return list(sentences.faults(TWO_BUCKETS.recipe, answer))

    return change


def boil(document):
    return document["ways"][0]["boils"][0]


def test_as_it_is_all_agrees(told):
    assert told(lambda document: None) == []


@pytest.mark.parametrize("name", ["start_water_l", "fullest_l", "rim_l"])
def test_a_pot_that_is_fuller_than_is_said(told, name):
    def more(document):
        boil(document)[name] += 0.3

    assert "the pots are told as" in " ".join(told(more))


@pytest.mark.parametrize("name", ["from_pot_l", "filled_l", "liquid_top_up_l", "frozen_kg"])
def test_a_fermenter_that_is_filled_otherwise_than_is_said(told, name):
    def more(document):
        for each in boil(document)["fermenters"]:
            each[name] += 0.3

    assert told(more)


@pytest.mark.parametrize(
    ("key", "by"),
    [("original_gravity", 0.004), ("final_gravity", 0.002), ("abv_percent", 0.3),
     ("bitterness_ibu", 3.0), ("colour_srm", 2.0), ("kj_per_100ml", 9.0)],
)  # fmt: skip
def test_a_beer_that_differs_from_its_row(told, key, by):
    def more(document):
        document["ways"][0]["forecasts"][key]["value"] += by

    assert any("is not" in each or "was" in each for each in told(more))


def test_a_beer_that_is_told_the_wrong_way_round(told):
    def swapped(document):
        way = document["ways"][0]
        way["judgement"] = "More hops: less bitter, 40 IBU instead of 30 IBU."
        way["forecasts"]["bitterness_ibu"] |= {"value": 40.0, "original": 30.0}

    assert any("is not less bitter" in each for each in told(swapped))


def test_minutes_and_degrees_that_are_not_those_of_the_plan(told):
    for name in ("minutes", "pour_at_c", "mixed_c", "minutes_without_ice"):

        def more(document, name=name):
            document["ways"][0]["cooling"][name] += 7.0

        assert told(more), name


def test_another_count_of_ways_or_another_first(told):
    def dropped(document):
        document["sentence"] = "9 ways work. Nearest to the recipe with the least to do: two boils."

    assert len([each for each in told(dropped) if "ways work" in each]) == 2


def test_one_is_not_many_and_figures_are_not_finer_than_a_kitchen_s():
    for wrong in ("1 fermenters", "2 packet of", "3 way works"):
        assert sentences.ONE_AND_MANY.search(wrong)
    for right in ("12 L fermenter", "1 fermenter", "0.25 tablet", "2 packets", "11 g packet"):
        assert not sentences.ONE_AND_MANY.search(right)
    for wrong in ("596.9 g", "2.1766 kg", "15.1416 L", "50.6 % of the kit"):
        assert sentences.TOO_FINE.search(wrong)
    for right in ("96.9 g", "2.177 kg", "15.1 L", "4.9 %", "1.044"):
        assert not sentences.TOO_FINE.search(right)


def test_what_is_weighed_out_and_put_in_nowhere_or_twice(told):
    def another(document):
        boil(document)["goes_in"][2]["amount"] = "77 g"

    def again(document):
        steps = document["ways"][0]["steps"]
        steps.append(next(said for said in steps if said.startswith("As it boils")))

    assert any("is told 0 times" in each for each in told(another))
    assert any("is told 2 times" in each for each in told(again))


def test_hops_that_are_to_dissolve(told):
    def stirred(document):
        document["ways"][0]["steps"].append("Stir in the Challenger until all is dissolved.")

    assert any("hops do not dissolve" in each for each in told(stirred))
