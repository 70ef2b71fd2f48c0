"""Bringing the beer of a plan to a wanted figure; held against the plan's own day, no source."""

from dataclasses import replace

import pytest

from designer.brewday.aiming import make_it, means_for
from designer.brewday.outlook import look_ahead
from designer.brewday.stock import Stock, needs
from designer.recipe.document import PlannedFermenter, Yeast
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from tests.recipe.test_plan import BUCKET, HALF, KIT, kilograms, litres, with_plan

FREE = replace(KIT, hops=(replace(KIT.hops[0], alpha=typed(Kind.FRACTION, 0.05)),))
FILLED = PlannedFermenter(BUCKET, top_up_to=litres(20.0))


def planned(*boils, **more):
    return replace(with_plan(boils, [FILLED]), hops=FREE.hops, **more)


def forecast(recipe, key):
    return look_ahead(recipe, ranges=False).forecasts[key].value


def test_extract_brings_the_gravity_of_the_whole_plan_to_what_is_wanted():
    recipe = planned(HALF, HALF)
    means = next(
        each for each in means_for("original_gravity", recipe) if each.name != "Hopped kit"
    )
    aim = make_it(recipe, "original_gravity", 1.050, means)
    after = aim.edit.apply(recipe)
    assert forecast(after, "original_gravity") == pytest.approx(1.050, abs=2e-4)
    assert aim.reached == pytest.approx(forecast(after, "original_gravity"))
    assert after.boils == recipe.boils


def test_lines_of_which_a_boil_has_its_own_are_no_means_and_water_of_a_planned_fermenter_neither():
    recipe = planned(HALF, HALF)
    assert [each.lines for each in means_for("bitterness_ibu", recipe)] == ["hops"]
    own = replace(HALF, hops=(replace(FREE.hops[0], amount=kilograms(0.01)),))
    assert means_for("bitterness_ibu", planned(own, HALF)) == ()
    assert {each.lines for each in means_for("original_gravity", recipe)} == {"fermentables"}
    no_vessels = replace(recipe, fermenters=())
    assert "process" in {each.lines for each in means_for("original_gravity", no_vessels)}


def test_what_is_needed_is_what_all_boils_and_fermenters_take():
    own = replace(HALF, hops=(replace(FREE.hops[0], amount=kilograms(0.025)),))
    sachet = Yeast("Ale", amount=typed(Kind.DOSE, 11.0, unit="g"))
    lager = Yeast("Lager", amount=typed(Kind.DOSE, 5.0, unit="g"))
    recipe = replace(
        planned(own, HALF),
        yeast=sachet,
        fermenters=(FILLED, replace(FILLED), replace(FILLED, yeast=lager)),
    )
    found = {each.name: each for each in needs(recipe, (Stock("Fuggle", 0.03),))}
    assert found["Fuggle"].needed == pytest.approx(0.035)
    assert found["Fuggle"].missing == pytest.approx(0.005)
    assert (found["Ale"].needed, found["Lager"].needed) == (22.0, 5.0)
    assert found["Dry extract"].needed == pytest.approx(1.0)
