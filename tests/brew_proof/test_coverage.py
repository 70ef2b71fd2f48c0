"""After measuring, nine days of ten still land in the forecast, and it is narrower.

A sample of what `python -m tests.brew_proof` counts over a thousand days and more; the bounds are
those of so few days: 90 % of 100 has a deviation of 3 %.
"""

from pathlib import Path

import pytest

from designer.brewday.measured.readings import By, Measured
from designer.library.recipe_file import load
from tests.brew_proof.coverage import ITSELF, counted
from tests.brew_proof.hidden_days import ALL_OF_A_DAY, FORECASTS, KINDS, Taken

EXAMPLES = Path(__file__).parents[2] / "resources" / "examples"
DAYS = 100
M, B = Measured, By


def test_whatever_can_be_measured_is_taken_on_hidden_days():
    assert {each.what for each in KINDS} == set(Measured)


@pytest.mark.parametrize(
    ("taken", "narrower"),
    [
        ((Taken(M.ORIGINAL_GRAVITY, B.HYDROMETER),), 0.7),
        ((Taken(M.INTO_FERMENTER, B.MARK),), 0.9),
        ((Taken(M.BOIL_END_VOLUME, B.MARK),), 1.0),
        (ALL_OF_A_DAY, 0.6),
    ],
    ids=("gravity", "into the fermenter", "end of the boil", "all of a day"),
)
def test_measured_days_land_in_the_forecast_and_it_is_narrower(taken, narrower):
    found = counted(load(EXAMPLES / "harbour_lamp_porter.hobwort"), taken, DAYS, seed=5)
    for key in FORECASTS:
        assert 0.81 <= found.held[key] <= 0.99, key
    assert found.width["original_gravity"] < narrower
    if ITSELF in found.width:
        assert 0.81 <= found.held[ITSELF] <= 0.99
        assert found.width[ITSELF] < 0.9
