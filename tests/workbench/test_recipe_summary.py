"""What the Recipe box lists of a recipe."""

import pytest

from designer.brewday.outlook import look_ahead
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
