"""One ingredient in place of another: what is held, and what is said of the rest."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.substitution import substitute
from designer.errors import RefusedInputError
from designer.library.catalogue import find_fermentable, find_hop, new_fermentable, new_hop
from designer.recipe.document import Fermentable, Hop
from designer.recipe.quantity import Quantity


def new(name):
    return new_fermentable(find_fermentable(name))


def line(recipe, name):
    return next(each for each in (*recipe.fermentables, *recipe.hops) if each.name == name)


def words(found):
    return " ".join(each.text for each in found.words)


def test_dry_for_liquid_extract_takes_the_same_solids(porter):
    """Mass balance of dissolved extract: kilograms times solids stay the same, but for the half
    per cent more that stays in a pot with less water in it."""
    old = line(porter, "Light liquid malt extract")
    found = substitute(porter, old.line_id, new("Light dry malt extract"))
    made = found.recipe.fermentables[0]
    solids = old.amount.value * old.extract.value
    assert made.amount.value * made.extract.value == pytest.approx(solids, rel=0.01)
    assert made.when == old.when
    assert found.held
    assert "dry extract keeps paler" in words(found)
    assert found.edit.apply(porter) == found.recipe


def test_liquid_for_dry_goes_the_other_way(porter):
    old = line(porter, "Light dry malt extract")
    found = substitute(porter, old.line_id, new("Light liquid malt extract"))
    assert line(found.recipe, "Light liquid malt extract").amount
    assert found.recipe.fermentables[1].amount.value > old.amount.value
    assert abs(found.forecasts["original_gravity"].change) < 5e-4
    assert "darkens with age" in words(found)


def test_a_hop_of_twice_the_alpha_takes_about_half_the_weight(porter):
    """IBU = utilisation x alpha x mass / volume (Tinseth): the product stays; less leaf holds less
    wort back."""
    old = line(porter, "Challenger")
    strong = Hop("Harbour hop", alpha=Quantity(2 * old.alpha.value, "14.4 %"))
    found = substitute(porter, old.line_id, strong)
    assert found.recipe.hops[0].amount.value == pytest.approx(old.amount.value / 2, rel=0.05)
    assert found.forecasts["bitterness_ibu"].change == pytest.approx(0.0, abs=0.6)
    assert "few will notice" in words(found)


def test_a_late_hop_is_said_to_bring_its_own_aroma(porter):
    old = line(porter, "East Kent Golding")
    found = substitute(porter, old.line_id, new_hop(find_hop("Cluster")))
    assert found.held
    assert "its own aroma" in words(found)


def test_a_dry_hop_keeps_its_weight(slipway_bitter):
    old = slipway_bitter.hops[-1]
    found = substitute(slipway_bitter, old.line_id, new_hop(find_hop("Cluster")))
    assert found.recipe.hops[-1].amount.value == old.amount.value
    assert found.forecasts["bitterness_ibu"].change == 0.0
    assert "its weight stays" in words(found)


def test_a_paler_extract_gets_its_colour_back_from_steeped_grain(porter):
    old, grain = line(porter, "Light liquid malt extract"), porter.fermentables[2]
    plain = substitute(porter, old.line_id, new("Pilsner dry malt extract"))
    found = substitute(porter, old.line_id, new("Pilsner dry malt extract"), colour_by=grain)
    assert plain.forecasts["colour_srm"].change < -0.5
    assert abs(found.forecasts["colour_srm"].change) < 0.1
    assert abs(found.forecasts["original_gravity"].change) < 5e-4
    assert abs(found.forecasts["bitterness_ibu"].change) < 0.6
    assert line(found.recipe, grain.name).amount.value > grain.amount.value


def test_a_darker_extract_takes_grain_out_as_far_as_there_is_any(porter):
    old, grain = line(porter, "Light liquid malt extract"), porter.fermentables[2]
    found = substitute(porter, old.line_id, new("Dark dry malt extract"), colour_by=grain)
    assert grain.name not in [each.name for each in found.recipe.fermentables]
    assert found.forecasts["colour_srm"].change > 1.0
    assert "Colour: " in words(found)
    assert "toast and body" in words(found)
    assert found.edit.apply(porter) == found.recipe


def test_a_grain_that_is_not_in_the_recipe_can_give_the_colour(slipway_bitter):
    old = line(slipway_bitter, "Pale liquid malt extract")
    grain = new("Crystal malt 120 °L")
    found = substitute(slipway_bitter, old.line_id, new("Pilsner liquid malt extract"),
                       colour_by=grain)  # fmt: skip
    assert abs(found.forecasts["colour_srm"].change) < 0.1
    assert line(found.recipe, grain.name).amount.value > 0.0
    assert found.edit.apply(slipway_bitter) == found.recipe


def test_sugar_for_extract_is_said_to_thin_the_beer(porter):
    old = line(porter, "Light dry malt extract")
    found = substitute(porter, old.line_id, new("Table sugar (sucrose)"))
    assert float(brew(found.recipe).beer.final_gravity) < float(brew(porter).beer.final_gravity)
    assert "thinner" in words(found)


def test_what_cannot_be_put_there_is_refused(porter, breakwater_red):
    hop = new_hop(find_hop("Cluster"))
    with pytest.raises(RefusedInputError, match="no line 99"):
        substitute(porter, 99, hop)
    with pytest.raises(RefusedInputError, match="A hop stands in for a hop"):
        substitute(porter, 1, hop)
    with pytest.raises(RefusedInputError, match="locked"):
        substitute(breakwater_red, 4, hop)
    with pytest.raises(RefusedInputError, match="no grain to steep"):
        substitute(porter, 1, new("Dark dry malt extract"), colour_by=Fermentable("Sugar", "sugar"))


def test_what_cannot_be_held_is_said(porter):
    """No amount of a hop without alpha acid makes a beer bitter."""
    found = substitute(porter, 4, Hop("Old hop", alpha=Quantity(0.0, "0 %")))
    assert not found.held
    assert "Bitterness: " in words(found)
    kept = replace(porter, hops=porter.hops[:1])
    assert substitute(kept, 4, new_hop(find_hop("Cluster"))).held
