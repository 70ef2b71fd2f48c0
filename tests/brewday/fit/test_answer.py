"""What an answer says: sentences with figures apart, names safe, differences signed."""

from dataclasses import replace

from designer.brewday.fit.answer import Compared, ToBuy, named
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import wish_for
from designer.recipe.message import say
from designer.recipe.quantity import Kind, Quantity


def test_a_sentence_is_read_in_any_unit_but_in_metric_by_itself():
    said = say("take", "Take {1} in {0}.", (Kind.VOLUME, 2.0), (Kind.MASS, 0.5))
    assert said.text == "Take 500 g in 2 L."
    assert said.said(lambda kind, value: f"<{kind.name} {value}>") == (
        "Take <MASS 0.5> in <VOLUME 2.0>."
    )
    assert say("nothing", "Nothing to tell.").text == "Nothing to tell."


def test_a_brewer_s_braces_do_not_spoil_a_sentence():
    assert say("add", "Add {name}.", name=named("Hop {0} {name}")).text == "Add Hop {0} {name}."
    assert named("Fuggle") == "Fuggle"
    assert str(named("")) == "a line without a name"


def test_yeast_weighs_what_it_says_in_grams_and_packets_weigh_nothing_known():
    grams, packets = Quantity(11.0, "11 g", unit="g"), Quantity(2.0, "2 packets", unit="packet")
    assert ToBuy("yeast", grams, "yeast").mass_kg == 0.011
    assert ToBuy("yeast", packets, "yeast").mass_kg is None
    assert ToBuy("Fuggle", Quantity(0.03, "30 g"), "hops").mass_kg == 0.03
    assert ToBuy("a fermenter").mass_kg is None


def shown(kind, value):
    return f"<{kind.name} {value:g}>"


def test_what_is_to_be_bought_is_said_with_its_amount_and_its_packs():
    hops = ToBuy("Fuggle", Quantity(0.03, "30 g"), "hops")
    assert hops.words.said(shown) == "Fuggle, <MASS 0.03>"
    bags = replace(hops, packs=((1, "25 g bag"), (2, "10 g bag")), over_kg=0.015)
    assert bags.words.said(shown) == (
        "Fuggle, <MASS 0.03>: 1 × 25 g bag and 2 × 10 g bag, <MASS 0.015> of it left over "
        "(freezer, airtight: a year)"
    )
    assert ToBuy("a fermenter").words.said(shown) == "a fermenter"


def test_less_than_a_tenth_of_a_gram_is_not_said_to_be_left_over():
    """No kitchen scale shows it: common practice, no source."""
    hops = ToBuy("Fuggle", Quantity(0.03, "30 g"), "hops", packs=((1, "30 g bag"),))
    assert "left over" not in replace(hops, over_kg=0.00004).words.said(shown)
    assert "left over" in replace(hops, over_kg=0.0001).words.said(shown)


def test_a_change_is_the_way_s_less_the_original_s():
    assert Compared(5.0, 4.0, 6.0, 7.0).change == -2.0


def test_a_way_has_a_recipe_for_each_boil_and_what_goes_in_when(porter):
    two = {way.key: way for way in ways(porter, wish_for(porter, 5.0, (12.0,))).every_way}[
        "two boils"
    ]
    assert two.recipes == tuple(boil.recipe for boil in two.boils)
    assert len(two.recipes) == 2
    for boil in two.boils:
        assert boil.goes_in == boil.day.additions
        assert {each.name for each in boil.goes_in} >= {"Challenger", "Light dry malt extract"}
