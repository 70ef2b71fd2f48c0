"""What one boil taught of the pot is known in the next one of the same pot.

Bands are held against very many days drawn at random, each counted by how likely the readings of
the first boil were on it: importance sampling, Bayes' law itself. How much two boils differ is
judgement (8 % of what boils away, 0.1 L of what stays behind); the rest is arithmetic of variances.
"""

from dataclasses import replace
from math import hypot

import numpy as np
import pytest

from designer.brewday.measured.expecting import expected
from designer.brewday.measured.known_plan import KnownPlan
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.outlook import look_ahead
from designer.recipe.choices import Turn
from designer.recipe.kinds import typed
from designer.recipe.plan import pours
from designer.recipe.quantity import Kind
from tests.brew_proof.hidden_days import FORECASTS, Taken
from tests.brew_proof.second_boil import HiddenBoil, counted, found_of, truth_of
from tests.workbench.planned_red import two_boils

M, B = Measured, By
DRAWS = 200_000
BY_CHANCE = 0.12
"""Share of its width that the 5th percentile of 256 samples is off by, three standard errors: the
root of 0.05 x 0.95 / 256 over the normal density there, 0.103, and 3.29 deviations of width."""


def litres(outlook, what, boil):
    return expected(outlook, Reading(what, 0.0, B.SCALE, boil=boil, fermenter=boil))


def width(found):
    return found.high - found.low


def end_of(boil, plan, off_l):
    there = litres(look_ahead(plan), M.BOIL_END_VOLUME, boil).value
    return Reading(M.BOIL_END_VOLUME, there + off_l, B.DIPSTICK, boil=boil, fermenter=boil)


READ_OF_THE_FIRST = {
    "a level at the end of the boil": [(Taken(M.BOIL_END_VOLUME, B.DIPSTICK), -0.8)],
    "levels at its start and end by the pot's marks": [
        (Taken(M.BOIL_START_VOLUME, B.MARK), 0.5),
        (Taken(M.BOIL_END_VOLUME, B.MARK), -0.6),
    ],
    "what came out of the pot": [
        (Taken(M.BOIL_END_VOLUME, B.DIPSTICK), 0.4),
        (Taken(M.INTO_FERMENTER, B.SCALE), -0.5),
    ],
}


@pytest.mark.parametrize("name", READ_OF_THE_FIRST)
def test_the_second_boil_is_known_as_very_many_days_tell_it(name):
    plan = two_boils()
    taken, deviations = zip(*READ_OF_THE_FIRST[name], strict=True)
    first = HiddenBoil(plan, 1, taken, DRAWS, seed=5)
    truth = truth_of(HiddenBoil(plan, 2, (), DRAWS, seed=5))
    readings, unlikely = [], np.zeros(DRAWS)
    for each, off in zip(taken, deviations, strict=True):
        shown = first.shown(each)
        value = float(shown.mean() + off * shown.std())
        unlikely += ((shown - value) / first.eye(each)) ** 2 / 2.0
        readings.append(Reading(each.what, value, each.by))
    weights = np.exp(unlikely.min() - unlikely)
    weights /= weights.sum()
    assert 1.0 / (weights**2).sum() > 1000.0  # so many days still count
    found = found_of(day_measured(plan, readings))
    for key, true in truth.items():
        order = np.argsort(true)
        low, high = np.interp((0.05, 0.95), np.cumsum(weights[order]), true[order])
        within = (0.07 if key in FORECASTS else BY_CHANCE) * (high - low)
        assert found[key].low == pytest.approx(low, abs=within), key
        assert found[key].high == pytest.approx(high, abs=within), key


def test_a_pot_that_boiled_away_more_is_expected_to_do_so_again():
    plan = two_boils()
    before = litres(look_ahead(plan), M.BOIL_END_VOLUME, 2)
    after = litres(day_measured(plan, [end_of(1, plan, -0.5)]), M.BOIL_END_VOLUME, 2)
    assert before.value - 0.5 < after.value < before.value - 0.25
    assert width(after) < 0.7 * width(before)


@pytest.mark.parametrize("off_l", [-0.3, -0.1, 0.1])
def test_each_boil_still_differs_by_what_flames_differ_by(off_l):
    """To what the scales leave open come 8 % of what boils away: variances add up."""
    plan = two_boils()
    start = litres(look_ahead(plan), M.BOIL_START_VOLUME, 1).value
    read = [
        replace(end_of(1, plan, off_l), by=B.SCALE, half_width=0.05),
        Reading(M.BOIL_START_VOLUME, start, B.SCALE, half_width=0.05),
    ]
    outlook = day_measured(plan, read)
    gone = float(outlook.plan.boils[1].day.pot.evaporated_l)
    first, second = (width(litres(outlook, M.BOIL_END_VOLUME, n)) / 2.0 for n in (1, 2))
    assert second == pytest.approx(hypot(first, 0.08 * gone), rel=0.12)


def test_the_second_boil_tells_of_the_first_too():
    plan = two_boils()
    there = litres(look_ahead(plan), M.BOIL_END_VOLUME, 1)
    after = litres(day_measured(plan, [end_of(2, plan, -0.5)]), M.BOIL_END_VOLUME, 1)
    assert after.value < there.value - 0.2
    assert width(after) < 0.7 * width(there)


def test_two_boils_that_were_read_tell_a_third_more_than_one():
    third = replace(two_boils().boils[1], share=typed(Kind.FRACTION, 1.0 / 3.0))
    bucket = two_boils().fermenters[0]
    plan = replace(
        two_boils(),
        boils=(third, third, third),
        fermenters=tuple(
            replace(bucket, wort_from=(replace(bucket.wort_from[0], boil=n),)) for n in (1, 2, 3)
        ),
    )
    one, both = (
        width(litres(day_measured(plan, read), M.BOIL_END_VOLUME, 3))
        for read in ([end_of(1, plan, -0.4)], [end_of(1, plan, -0.4), end_of(2, plan, -0.4)])
    )
    assert both < 0.97 * one


@pytest.mark.parametrize("what", ["another pot", "another pot at the same time"])
def test_another_pot_is_not_known_by_this_one(what):
    turn = Turn.AT_ONCE if "same time" in what else Turn.AFTER
    plan = two_boils(turn)
    if turn is Turn.AFTER:
        first, second = plan.boils
        wider = replace(second.pot, name="Other pot")
        plan = replace(plan, boils=(first, replace(second, pot=wider)))
    after = day_measured(plan, [end_of(1, plan, -0.5)])
    before = look_ahead(plan)
    for each in (M.BOIL_END_VOLUME, M.INTO_FERMENTER):
        assert litres(after, each, 2) == litres(before, each, 2)
    assert after.plan.fermenters[1].forecasts == before.plan.fermenters[1].forecasts


def test_the_pot_is_the_same_on_another_day():
    plan = two_boils(Turn.ANOTHER_DAY)
    before = litres(look_ahead(plan), M.BOIL_END_VOLUME, 2)
    after = litres(day_measured(plan, [end_of(1, plan, -0.5)]), M.BOIL_END_VOLUME, 2)
    assert after.value < before.value - 0.25
    assert width(after) < 0.7 * width(before)


def test_water_that_was_poured_into_one_boil_tells_nothing_of_another():
    plan = two_boils()
    outlook = day_measured(plan, [Reading(M.WATER_IN, 5.9, B.MARK)])
    assert litres(outlook, M.WATER_IN, 2) == litres(look_ahead(plan), M.WATER_IN, 2)


def test_a_level_of_wort_that_was_shared_tells_as_much_of_the_sharing():
    plan = two_boils()
    half = typed(Kind.FRACTION, 0.5)
    buckets = tuple(
        replace(
            each,
            wort_from=tuple(replace(each.wort_from[0], boil=n, share=half) for n in (1, 2)),
        )
        for each in plan.fermenters
    )
    shared = replace(plan, fermenters=buckets)
    level = Reading(M.INTO_FERMENTER, 2.0, B.SCALE, boil=1, fermenter=1)
    known = KnownPlan(shared, [level])
    of_second = next(each for each in pours(shared) if each.boil == 2)
    assert known.of(of_second) == ()


def test_a_mark_of_one_bucket_tells_what_both_boils_bring_into_it():
    """Both boils go into one bucket: its mark puts both levels off, and in the same way."""
    plan = two_boils()
    bucket = replace(
        plan.fermenters[0],
        wort_from=tuple(replace(plan.fermenters[0].wort_from[0], boil=n) for n in (1, 2)),
    )
    into_one = replace(plan, fermenters=(bucket,))
    first = expected(look_ahead(into_one), Reading(M.INTO_FERMENTER, 0.0, B.MARK, boil=1))
    read = [
        Reading(M.INTO_FERMENTER, first.value - 0.4, B.MARK, boil=1),
        Reading(M.INTO_FERMENTER, first.value - 0.4, B.SCALE, 0.01, boil=1),
    ]
    by_mark, by_both = (
        expected(day_measured(into_one, told), Reading(M.INTO_FERMENTER, 0.0, B.MARK, boil=2))
        for told in (read[:1], read)
    )
    assert width(by_both) < width(by_mark)


def test_over_hidden_days_what_the_first_boil_taught_holds_and_narrows():
    """Forty days: a share of 0.9 lies within 0.75 and 1 in 998 of 1,000 counts (binomial)."""
    for key, (held, wide) in counted(40, seed=2).items():
        assert held >= 0.75, key
        assert wide < (1.02 if key in FORECASTS else 0.7), key
