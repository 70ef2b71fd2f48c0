"""A boil that the stove cannot hold, an evaporation that was guessed and one that was measured."""

from dataclasses import replace
from itertools import pairwise

import pytest

from designer.brewday.day import brew, brew_samples
from designer.brewday.findings import findings
from designer.brewday.outlook import look_ahead
from designer.recipe.quantity import Quantity

STEAM = 2256.5


def on_stove(porter, kitchen, watts, litres_h=2.0, spread=None):
    """The porter boiled full, with nothing late, for an hour on a stove of so many watts."""
    early = tuple(replace(each, when=porter.fermentables[0].when) for each in porter.fermentables)
    process = replace(
        porter.process,
        evaporation=Quantity(litres_h, f"{litres_h} L/h", spread),
        top_up_to=None,
        frozen_top_up=None,
    )
    pot = replace(porter.pot, power=kitchen.q(watts, "W"))
    return replace(porter, process=process, pot=pot, fermentables=early)


def gone(recipe):
    return float(brew(recipe).pot.evaporated_l)


@pytest.mark.parametrize("watts", [500, 800, 1200, 1500])
def test_no_more_boils_away_than_the_stove_drives_off(watts, harbour_porter, kitchen):
    """Physics: power x 0.74 less 4 W/K x 80 K, by 2256.5 kJ/kg: 1.595 kg/h for each kW left."""
    recipe = on_stove(harbour_porter, kitchen, watts)
    most_kg_h = 3.6 * (0.74 * watts - 4 * (100.2 - 20)) / STEAM
    assert gone(recipe) == pytest.approx(most_kg_h, rel=0.02)
    assert gone(recipe) < gone(on_stove(harbour_porter, kitchen, watts + 100))


def test_a_strong_stove_takes_off_what_was_typed(harbour_porter, kitchen):
    assert gone(on_stove(harbour_porter, kitchen, 3000)) == pytest.approx(2.0, rel=0.01)


def test_what_was_measured_tells_more_than_the_rating_of_a_stove(harbour_porter, kitchen):
    """Typed with its ±; so it is where nobody told the power of the stove."""
    assert gone(on_stove(harbour_porter, kitchen, 1500, 2.0, 0.24)) == pytest.approx(2.0, rel=0.01)
    untold = on_stove(harbour_porter, kitchen, 1500, 3.0)
    untold = replace(untold, pot=replace(untold.pot, power=None))
    assert gone(untold) == pytest.approx(3.0, rel=0.01)


def test_counting_on_what_the_stove_drives_off_settles_it(harbour_porter, kitchen):
    recipe = on_stove(harbour_porter, kitchen, 1500)
    (found,) = [each for each in findings(recipe, brew(recipe)) if each.code == "evaporation-held"]
    cured = found.fix.apply(recipe)
    assert cured.process.evaporation.text == "1.26 L/h"
    assert gone(cured) == pytest.approx(gone(recipe), rel=0.01)
    assert "evaporation-held" not in {each.code for each in findings(cured, brew(cured))}


def test_no_day_of_the_range_evaporates_more_than_its_stove_can(harbour_porter, kitchen):
    """Heads from 0.60 to 0.80, rating ±15 %, losses 3 to 5 W/K: no heap of boils apart."""
    day, _ = brew_samples(on_stove(harbour_porter, kitchen, 600, 3.0), 2048)
    litres = sorted(day.pot.evaporated_l)
    steps = [after - before for before, after in pairwise(litres)]
    assert litres[0] == 0.0
    assert max(steps) < 0.1


def test_a_boil_off_that_was_measured_once_narrows_the_gravity_of_a_full_boil(
    harbour_porter, kitchen
):
    """R 0.35 guessed, R 0.12 measured once (judgement)."""
    guess, sure = (
        look_ahead(on_stove(harbour_porter, kitchen, 3000, 2.0, each)).forecasts["original_gravity"]
        for each in (None, 0.24)
    )
    assert sure.high - sure.low < 0.75 * (guess.high - guess.low)
    cause = next(each for each in guess.causes if each.key == "evaporation")
    assert cause.high - cause.low == pytest.approx(sure.high - sure.low, rel=0.2)
