"""What the Recipe box lists of a recipe."""

from dataclasses import replace

import pytest

from designer.brewday.outlook import look_ahead
from designer.recipe.document import Fermenter, PlannedBoil, PlannedFermenter
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.workbench.recipe_summary import summary_of


def test_a_summary_is_that_of_the_day_whether_ranges_are_known_or_not(porter):
    outlook = look_ahead(porter)
    assert summary_of(porter, outlook) == summary_of(porter)
    assert summary_of(porter).og == pytest.approx(outlook.forecasts["original_gravity"].value)
    assert summary_of(porter).batch_l == pytest.approx(10.0, abs=0.1)  # the porter tops up to 10 L


def test_a_summary_names_style_and_vessels(porter):
    listed = summary_of(porter)
    assert (listed.style, listed.pot, listed.fermenter) == (
        porter.style, porter.pot.name, porter.fermenter.name,
    )  # fmt: skip


def test_a_summary_of_a_plan_is_of_what_is_brewed_and_names_all_its_vessels(porter):
    boil = PlannedBoil(porter.pot, typed(Kind.FRACTION, 0.5))
    bucket = PlannedFermenter(Fermenter("Small bucket", typed(Kind.VOLUME, 12.0)))
    recipe = replace(porter, boils=(boil, boil), fermenters=(bucket, bucket))
    listed = summary_of(recipe)
    outlook = look_ahead(recipe, ranges=False)
    assert listed == summary_of(recipe, outlook)
    assert listed.fermenter == "2 × Small bucket of 12 L"
    assert listed.pot == f"2 × {porter.pot.name} of {porter.pot.volume.text}"
    assert listed.batch_l == pytest.approx(sum(each.total_l for each in outlook.plan.fermenters))
