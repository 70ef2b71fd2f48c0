"""What an answer says: sentences with figures apart, names safe, differences signed."""

from designer.brewday.fit.answer import Compared, Said, named, say
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import wish_for
from designer.recipe.quantity import Kind


def test_a_sentence_is_read_in_any_unit_but_in_metric_by_itself():
    said = say("Take {1} in {0}.", (Kind.VOLUME, 2.0), (Kind.MASS, 0.5))
    assert said.text == "Take 500 g in 2.0 L."
    assert said.said(lambda kind, value: f"<{kind.name} {value}>") == (
        "Take <MASS 0.5> in <VOLUME 2.0>."
    )
    assert Said("Nothing to tell.").text == "Nothing to tell."


def test_a_brewer_s_braces_do_not_spoil_a_sentence():
    assert say(f"Add {named('Hop {0}')}.").text == "Add Hop (0)."
    assert named("Fuggle") == "Fuggle"
    assert named("") == "a line without a name"


def test_a_change_is_the_way_s_less_the_original_s():
    assert Compared(5.0, 4.0, 6.0, 7.0).change == -2.0


def test_a_way_has_a_recipe_for_each_boil_and_what_goes_in_when(porter):
    two = {way.key: way for way in ways(porter, wish_for(porter, 5.0, (12.0,))).ways}["two boils"]
    assert two.recipes == tuple(boil.recipe for boil in two.boils)
    assert len(two.recipes) == 2
    for boil in two.boils:
        assert boil.goes_in == boil.day.additions
        assert {each.name for each in boil.goes_in} >= {"Challenger", "Light dry malt extract"}
