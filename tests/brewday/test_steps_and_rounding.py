"""Numerical care: finer steps and longer numbers change no forecast."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from designer.brewday.day import run_day
from designer.brewday.predictions import PREDICTIONS
from designer.brewday.tolerances import Nominal
from designer.library.recipe_file import load
from designer.recipe.document import Fermentable, Hop
from designer.recipe.quantity import Stage, When

EXAMPLES = sorted((Path(__file__).parents[2] / "resources" / "examples").glob("*.hobwort"))


def hard_boil(recipe, kitchen):
    """Three hours, half the water gone, hops and cold extract all along."""
    process = replace(
        recipe.process, boil_time=kitchen.q(180, "min"), evaporation=kitchen.q(1.6, "L/h")
    )
    late = tuple(
        Fermentable(f"Late {left}", "liquid extract", kitchen.q(0.4, "kg"), kitchen.boil(left))
        for left in (120, 45, 7)
    )
    hops = (
        Hop("First", "whole", kitchen.q(0.09), kitchen.q(0.02, "kg"), When(Stage.FIRST_WORT, "f")),
        Hop("Last", "whole", kitchen.q(0.09), kitchen.q(0.02, "kg"),
            When(Stage.STAND, "stand 30 min at 75 °C", 30.0, 75.0)),
    )  # fmt: skip
    return replace(
        recipe,
        process=process,
        fermentables=(*recipe.fermentables, *late),
        hops=(*recipe.hops, *hops),
    )


def weak_stove(recipe, kitchen):
    """A stove that only just overcomes the losses of the pot."""
    return replace(recipe, pot=replace(recipe.pot, power=kitchen.q(480, "W")))


def nearly_water(recipe, kitchen):
    """A gram of sugar and a gram of hops in a pot of water, gone a little while boiling."""
    return replace(
        recipe,
        process=replace(recipe.process, evaporation=kitchen.q(1e-6, "L/h"), top_up_to=None),
        fermentables=(Fermentable("Sugar", "sugar", kitchen.q(0.001, "kg"), kitchen.boil(60)),),
        hops=(Hop("A", "whole", kitchen.q(0.05), kitchen.q(0.001, "kg"), kitchen.boil(0.001)),),
    )


CASES = [hard_boil, weak_stove, nearly_water]


def readings(day):
    """The forecasts, gravities as points: a tenth of a per cent of 1.050 would be a whole point."""
    found = {each.key: each.compute(day) for each in PREDICTIONS}
    for key in ("original_gravity", "final_gravity"):
        found[key] = 1000.0 * (found[key] - 1.0)
    return {**found, "mixed_c": day.fermenter.mixed_c, "boil_end_l": day.pot.boil_end_l,
            "total_min": day.total_min, "cooling_min": day.fermenter.cooling_min}  # fmt: skip


def assert_halving_changes_nothing(recipe):
    whole, _ = run_day(recipe, Nominal(), noting=False)
    for parts in (2, 4):
        finer, _ = run_day(recipe, Nominal(), noting=False, parts=parts)
        for key, value in readings(finer).items():
            assert value == pytest.approx(readings(whole)[key], rel=1e-3, abs=1e-9), key


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_halving_every_step_changes_no_forecast_of_the_examples(path):
    assert_halving_changes_nothing(load(path))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.__name__)
def test_halving_every_step_changes_no_forecast_of_a_hard_day(case, harbour_porter, kitchen):
    assert_halving_changes_nothing(case(harbour_porter, kitchen))


def test_finer_steps_really_are_taken(harbour_porter):
    whole, halved = (
        run_day(harbour_porter, Nominal(), noting=False, parts=parts)[1] for parts in (1, 2)
    )
    assert len(halved.clock.stretches) > 1.5 * len(whole.clock.stretches)


class LongNumbers(Nominal):
    """A draw of numbers with more digits than a float has."""

    def absolute(self, key, value, half_width):
        return np.array([value], dtype=np.longdouble)

    relative = absolute


@pytest.mark.skipif(
    np.finfo(np.longdouble).eps > 1e-18, reason="this machine has no numbers longer than a float"
)
@pytest.mark.parametrize("case", [lambda recipe, kitchen: recipe, *CASES])
def test_longer_numbers_give_the_same_day(case, harbour_porter, kitchen):
    """Where large numbers nearly cancel, eleven more bits would show it."""
    recipe = case(harbour_porter, kitchen)
    floats, _ = run_day(recipe, Nominal(), noting=False)
    longer, _ = run_day(recipe, LongNumbers(), noting=False)
    assert longer.beer.original_gravity.dtype == np.longdouble
    for key, value in readings(longer).items():
        exact = float(np.asarray(value).reshape(-1)[0])
        assert readings(floats)[key] == pytest.approx(exact, rel=1e-9, abs=1e-12), key
