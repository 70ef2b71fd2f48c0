"""The wort as one explanation says it is: litres, points and steps, by mass balance.

Points times litres stay what they are (handbooks); the plain day is the program's own simulation.
"""

from dataclasses import replace

import pytest

from designer.brewday.explaining.asked import Answer, Asked, GravitySample, Taken, TestCode
from designer.brewday.explaining.cure_wort import balanced, own_of, wort_of
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.posterior import Weighed
from designer.recipe.choices import Bottle
from designer.wort.extract import extract_for

C = CauseCode
LOW = GravitySample(1.040, sample_c=20.0)


def with_process(recipe, **changed):
    return replace(recipe, process=replace(recipe.process, **changed))


@pytest.fixture
def wort(porter, beliefs):
    def of(*causes, recipe=porter, points=40.0, sample=LOW, asked=None, **part):
        found = Weighed(causes, 0.9, points, **part)
        asked = Asked((sample,), **(asked or {}))
        return wort_of(found, asked, beliefs, own_of(asked, recipe))

    return of


def test_a_wort_of_no_recipe_is_that_of_a_mass_balance(wort, beliefs):
    found = wort(C.VOLUME, recipe=None, volume_factor=1.1)
    assert (found.own, found.room_l, found.has_mark) == (None, None, True)
    assert found.litres == pytest.approx(1.1 * beliefs.planned_l)
    assert found.gravity == pytest.approx(1.040)
    assert not found.is_worse_with((), 2.0 * found.litres)
    assert found.as_meant["original_gravity"].value == pytest.approx(beliefs.expected.value)
    assert found.as_meant["bitterness_ibu"].value == beliefs.bitterness_ibu
    thinner = found.cure("a code", *3 * ("",), (), 2.0 * found.litres, 1.020).after
    assert thinner["original_gravity"].value == pytest.approx(1.020)
    ibu = beliefs.bitterness_ibu / 1.1 / 2.0  # in what is there, then in twice that
    assert thinner["bitterness_ibu"].value == pytest.approx(ibu)
    half = balanced(beliefs, beliefs.planned_points / 2.0)
    assert half["final_gravity"] - 1.0 == pytest.approx((beliefs.final_gravity - 1.0) / 2.0)


def test_where_no_mark_says_how_full_it_is_another_volume_is_only_told(wort, porter):
    unmarked = with_process(porter, top_up_to=None)
    found = wort(C.VOLUME, recipe=unmarked, volume_factor=1.1)
    assert found.own is None
    assert found.room_l == pytest.approx(wort(C.BUBBLES, recipe=unmarked).room_l)
    assert found.room_l > 0.0
    known = wort(C.MISSING_EXTRACT, recipe=unmarked, line=0, line_share=-0.5)
    assert known.own is not None
    assert not known.has_mark


def test_how_full_it_is_is_told_by_its_level_or_else_by_its_gravity(wort):
    planned = wort(C.HYDROMETER)
    assert planned.litres == pytest.approx(planned.planned_l)
    level = wort(C.VOLUME, volume_factor=1.1, asked={"mark_l": 11.0})
    assert level.litres == pytest.approx(1.1 * planned.planned_l, abs=0.01)
    assert level.read_l == 11.0
    weighed = wort(
        C.VOLUME, volume_factor=1.2, asked={"answers": (Answer(TestCode.WEIGH, value=12.0),)}
    )
    assert weighed.litres == pytest.approx(1.2 * planned.planned_l, abs=0.01)
    unread = {"answers": (Answer(TestCode.WEIGH),)}
    by_gravity = wort(C.VOLUME, volume_factor=1.9, points=40.0, asked=unread)
    # The same extract in more litres: those at which it has 40 points.
    extract = extract_for(planned.gravity, planned.planned_l)
    assert extract_for(1.040, by_gravity.litres) == pytest.approx(extract, rel=2e-3)
    assert by_gravity.gravity == pytest.approx(1.040, abs=2e-4)


def test_another_volume_is_a_step_from_half_a_hundredth_on(wort):
    found = wort(C.HYDROMETER)
    near, far = (
        found.steps_with(found.own, (), times * found.planned_l) for times in (1.004, 1.006)
    )
    assert near == ()
    (step,) = far
    assert step.change["field"] == "top_up_to"
    assert replace(found, has_mark=False).steps_with(found.own, (), 2.0 * found.planned_l) == ()


def test_in_the_pot_no_mark_counts(wort):
    found = wort(C.MISREAD, sample=replace(LOW, shown=1.09, taken=Taken.POT))
    assert not found.has_mark
    assert found.litres == pytest.approx(found.planned_l)


@pytest.mark.parametrize(
    ("cause", "share", "went_in"),
    [(C.MISSING_EXTRACT, -1.0, 0.0), (C.MISWEIGHED, -0.5, 0.5), (C.MISWEIGHED, 1.0, 2.0)],
)
def test_a_line_went_in_as_it_was_weighed(wort, porter, cause, share, went_in):
    found = wort(cause, line=0, line_share=share)
    own = porter.fermentables[0]
    assert {step.change["line_id"] for step in found.as_is} == {own.line_id}
    amount = found.own.with_steps(found.as_is).fermentables[0].amount.value
    assert amount == pytest.approx(went_in * own.amount.value, abs=0.006)
    weaker = found.gravity < found.wanted
    assert weaker == (share < 0.0)
    assert wort(cause, line=0, line_share=0.0).as_is == ()
    assert wort(C.BUBBLES).as_is == ()


def test_bottles_that_bear_nothing_are_told(wort, porter):
    jars = with_process(porter, bottle=Bottle.NOT_FOR_PRESSURE)
    assert wort(C.BUBBLES, recipe=jars).bears_no_pressure
    assert not wort(C.BUBBLES).bears_no_pressure
    in_keg = with_process(jars, package="keg")
    assert not wort(C.BUBBLES, recipe=in_keg).bears_no_pressure
