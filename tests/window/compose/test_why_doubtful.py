"""What stands behind a number says on which side of its value the beer more likely lies."""

import pytest

from designer.brewday.results import Cause, Range
from designer.recipe.document import Process
from designer.window.compose.forecast_details import why_doubtful
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.settings import Settings


@pytest.mark.parametrize(
    ("middle_half", "said"),
    [
        ((1.038, 1.040, 1.044), "More likely below 1.049 than above it"),
        ((1.050, 1.052, 1.054), "More likely above 1.049 than below it"),
        ((1.047, 1.049, 1.051), None),
    ],
)
def test_a_beer_leans_to_one_side_of_its_value_not_of_its_range(qapp, middle_half, said):
    cause = Cause("wort left in the pot", 0.65, "", 1.038, 1.055)
    found = Range(1.049, 1.038, 1.055, (cause,), *middle_half)
    text = why_doubtful("original_gravity", found, DisplayFormat(Settings(qapp)), Process())
    assert "wort left in the pot (65 %)" in text
    assert ("More likely" in text) == (said is not None)
    assert said is None or said in text
    assert "A hydrometer accurate to 0.002 will read 1.0" in text
    assert "corrected" in text
