"""The boils of a plan on one time line."""

from dataclasses import replace

import pytest

from designer.brewday.outlook import look_ahead
from designer.recipe.choices import Turn
from designer.recipe.document import PlannedFermenter
from designer.workbench.day_runs import runs_of, yeast_times
from tests.recipe.test_plan import BUCKET, HALF, KIT, litres, with_plan


def shown(recipe, boil=None):
    found = look_ahead(recipe, ranges=False)
    return runs_of(recipe, found.day, found.plan, boil), found


def two(turn):
    return with_plan(
        [HALF, replace(HALF, turn=turn.value)], [PlannedFermenter(BUCKET), PlannedFermenter(BUCKET)]
    )


def test_a_recipe_without_a_plan_is_one_run_without_a_name():
    (run,), found = shown(KIT)
    assert (run.name, run.recipe, run.day, run.at_min, run.boil) == ("", KIT, found.day, 0.0, None)


def test_a_boil_after_another_stands_behind_it_in_the_same_lane():
    (first, second), found = shown(two(Turn.AFTER))
    assert [first.name, second.name] == ["Boil 1", "Boil 2"]
    assert second.at_min == second.clock_min == pytest.approx(first.day.total_min)
    assert [first.lane, second.lane] == [0, 0]
    assert second.end_min == pytest.approx(found.day.total_min)
    ((ready, day),) = set(yeast_times((first, second), found.plan))
    assert (ready, day) == (pytest.approx(second.end_min), 0)


def test_pots_at_once_have_lanes_of_their_own():
    (first, second), _ = shown(two(Turn.AT_ONCE))
    assert [first.at_min, second.at_min] == [0.0, 0.0]
    assert [first.lane, second.lane] == [0, 1]


def test_a_boil_on_another_day_stands_behind_and_its_clock_starts_anew():
    (first, second), _ = shown(two(Turn.ANOTHER_DAY))
    assert second.name == "Boil 2, a day later"
    assert second.at_min == pytest.approx(first.day.total_min)
    assert (second.clock_min, second.on_day, second.lane) == (0.0, 1, 0)


def test_a_boil_that_is_chosen_stands_alone_with_the_clock_of_the_day():
    (run,), found = shown(two(Turn.AFTER), 2)
    assert (run.name, run.boil, run.alone, run.at_min) == ("Boil 2", 2, True, 0.0)
    assert run.clock_min == found.plan.boils[1].starts_min
    ((ready, _),) = yeast_times((run,), found.plan)
    assert ready == pytest.approx(run.clock_min + run.day.total_min)


def test_one_boil_needs_no_name():
    (run,), _ = shown(with_plan([replace(HALF, share=None, start_water=litres(6.0))]))
    assert (run.name, run.boil) == ("", 1)
