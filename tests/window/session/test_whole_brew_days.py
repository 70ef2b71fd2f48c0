"""Whole brew days, from the fill to the closed fermenter: of one boil, of several, into buckets."""

from __future__ import annotations

import pytest

from designer.brewday.measured.readings import Measured
from designer.library.recipe_file import document_text
from designer.library.store.brews import new_brew
from designer.recipe.quantity import Kind
from designer.window.session.open_brew import OpenBrew
from tests.driven_clock import DrivenClock
from tests.kept_in_memory import InMemory
from tests.workbench.planned_red import two_boils, two_buckets


@pytest.fixture(params=["the porter", "one boil into two buckets", "two boils"])
def recipe(request, porter):
    plans = {"one boil into two buckets": lambda: two_buckets(10.0, 10.0), "two boils": two_boils}
    return plans.get(request.param, lambda: porter)()


def settled(qtbot, brew):
    qtbot.waitUntil(lambda: not brew.reckoning, timeout=20_000)


def test_a_day_that_goes_as_planned_stays_as_planned(qtbot, display, recipe):
    clock, disk = DrivenClock(), InMemory()
    brew = OpenBrew(disk, display, clock)
    brew.begin(new_brew(document_text(recipe)), recipe)
    settled(qtbot, brew)
    planned = brew.outlook_planned.forecasts
    keys = [each.key for each in brew.steps]
    assert len(set(keys)) == len(keys)
    seen = []
    while (step := brew.brewing.now) is not None:
        clock.go_on(max(60.0 * step.minutes - clock.true_s, 0.0))
        for blank in step.blanks:
            typed = display.value(blank.kind, blank.value)
            assert brew.measure(blank, typed), (step.key, typed, brew.doubtful.message.text)
        seen.append(step.key)
        brew.done()
    brew.finish()
    settled(qtbot, brew)
    assert seen == keys
    assert [each.title.text for each in brew.proposals] == []
    assert all(each.ended for each in brew.timers)
    for key in ("original_gravity", "bitterness_ibu", "colour_srm"):
        now, plan = brew.outlook.forecasts[key], planned[key]
        assert abs(now.value - plan.value) < 0.25 * (plan.high - plan.low), key
        assert now.high - now.low <= 1.05 * (plan.high - plan.low), key
    again = OpenBrew(InMemory(), display, clock)
    again.show(brew.brew, recipe, disk.entries())
    settled(qtbot, again)
    assert again.brewing == brew.brewing
    assert again.outlook.forecasts == brew.outlook.forecasts
    for each in (brew, again):
        each.close()


def test_a_reading_in_the_second_bucket_is_not_that_of_the_first(qtbot, display):
    brew = OpenBrew(InMemory(), display, DrivenClock())
    recipe = two_buckets(10.0, 10.0)
    brew.begin(new_brew(document_text(recipe)), recipe)
    blanks = [b for step in brew.steps for b in step.blanks if b.kind is Kind.VOLUME]
    first, second = [each for each in blanks if each.what == "volume in the fermenter"]
    brew.measure(first, "10 L")
    brew.measure(second, "10.2 L")
    assert [(e.reading.fermenter, e.typed) for e in brew.brewing.readings] == [
        (1, "10 L"),
        (2, "10.2 L"),
    ]
    brew.close()


def test_what_the_first_boil_taught_of_the_pot_stands_in_the_blanks_of_the_second(qtbot, display):
    brew = OpenBrew(InMemory(), display, DrivenClock())
    recipe = two_boils()
    brew.begin(new_brew(document_text(recipe)), recipe)
    settled(qtbot, brew)

    def end_of(boil):
        blanks = (each for step in brew.steps for each in step.blanks)
        return next(e for e in blanks if e.what is Measured.BOIL_END_VOLUME and e.boil == boil)

    planned = end_of(2).value
    assert planned == end_of(1).value
    assert brew.measure(end_of(1), display.value(Kind.VOLUME, planned - 0.4))
    settled(qtbot, brew)
    known = brew.outlook.expects(end_of(2))
    assert planned - 0.4 < known.value < planned - 0.1
    assert end_of(2).value == pytest.approx(known.value, abs=0.01)
    brew.undo()
    settled(qtbot, brew)
    assert end_of(2).value == planned
    brew.close()
