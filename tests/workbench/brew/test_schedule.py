"""Planned against real: what is late or early moves what follows, and the boil keeps its clock."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from designer.brewday.outlook import look_ahead
from designer.sheet.stove import stove_steps
from designer.units import ShownUnits
from designer.workbench.brew import timer_moves
from designer.workbench.brew.brewing import Status, brewing_of
from designer.workbench.brew.entries import What
from designer.workbench.brew.schedule import schedule_of
from tests.sheet import plans
from tests.sheet.conftest import recipes
from tests.sheet.test_any_plan import planned_recipes
from tests.workbench.brew.clock_log import ClockLog

RECIPES = {
    "porter": lambda: plans.example("harbour_lamp_porter"),
    "red": lambda: plans.example("breakwater_red"),
    **plans.ALL,
}


class Brewer:
    """Someone who brews a recipe, on clocks that are driven; it begins at nine, wall time."""

    def __init__(self, recipe) -> None:
        self.recipe = RECIPES[recipe]() if isinstance(recipe, str) else recipe
        self.steps = stove_steps(
            self.recipe,
            look_ahead(self.recipe, ranges=False),
            shown=ShownUnits.METRIC,
            start="09:00",
            brew_date=None,
        )
        self.log = ClockLog()
        self.log.write(What.BEGAN, start_min=540.0)

    def step(self, key):
        return next(each for each in self.steps if each.key == key)

    def pass_min(self, minutes):
        self.log.clock.go_on(60.0 * minutes)

    def do(self, key):
        """Do a step, which starts its timer."""
        self.log.write(What.DONE, step=key)
        starts = self.step(key).starts
        if starts is not None:
            self.log.do(timer_moves.start(starts.name, starts.minutes, boil=starts.boil))

    def do_until(self, key, *, late_min=0.0):
        """Do all before a step, each when the plan says, `late_min` late."""
        for each in self.steps:
            if each.key == key:
                return
            self.go_to(each.minutes + late_min)
            self.do(each.key)

    def go_to(self, minute):
        self.pass_min(minute - self.log.clock.true_s / 60.0)

    @property
    def schedule(self):
        brewing = brewing_of(self.recipe, self.steps, self.log.entries)
        return schedule_of(brewing, self.log.timers(), self.log.clock.now())

    def at(self, key):
        """When a step is expected or was done, in true minutes from when the day began."""
        schedule, now = self.schedule, self.log.clock.now()
        return (schedule.of(key).at - now.wall + self.log.clock.true_s) / 60.0


@pytest.fixture(params=RECIPES)
def brewer(request):
    return Brewer(request.param)


@pytest.fixture
def porter_brewer():
    return Brewer("porter")


def test_a_day_that_has_begun_is_expected_as_it_is_planned(brewer):
    for each in brewer.steps:
        assert brewer.at(each.key) == pytest.approx(each.minutes, abs=1e-3)
    assert brewer.schedule.behind.text == "on time"


def test_a_day_done_as_planned_is_never_behind_and_each_step_is_expected_when_it_is_done(brewer):
    for each in brewer.steps:
        assert brewer.at(each.key) == pytest.approx(each.minutes, abs=1e-3)
        brewer.go_to(each.minutes)
        assert brewer.schedule.behind_s == pytest.approx(0.0, abs=0.1)
        brewer.do(each.key)


def test_who_does_all_late_is_behind_by_as_much_to_the_end(brewer):
    brewer.do_until(brewer.steps[-1].key, late_min=7.0)
    last = brewer.steps[-1]
    if last.on_day == 0:
        assert brewer.at(last.key) == pytest.approx(last.minutes + 7.0, abs=1e-3)
        assert brewer.schedule.behind.text == "7 min behind"
    else:  # a new day begins when its first step is done
        assert brewer.at(last.key) == pytest.approx(last.minutes + 7.0, abs=1e-3)
        assert brewer.schedule.behind.text == "on time"


def test_a_step_that_waits_moves_the_rest(porter_brewer):
    brewer = porter_brewer
    brewer.do_until("boil 1/heat")
    heat, boils = brewer.step("boil 1/heat"), brewer.step("boil 1/boils")
    brewer.go_to(heat.minutes + 12.0)
    assert brewer.at("boil 1/boils") == pytest.approx(boils.minutes + 12.0, abs=1e-3)
    assert brewer.schedule.behind.text == "12 min behind"
    ends = brewer.schedule.ends
    brewer.pass_min(3.0)
    assert brewer.schedule.ends == pytest.approx(ends + 180.0, abs=0.1)


def test_who_is_early_is_early_with_what_follows_too(porter_brewer):
    brewer = porter_brewer
    brewer.do_until("boil 1/lift")
    lift = brewer.step("boil 1/lift")
    brewer.go_to(lift.minutes - 4.0)
    brewer.do("boil 1/lift")
    heat = brewer.step("boil 1/heat")
    assert brewer.at(heat.key) == pytest.approx(heat.minutes - 4.0, abs=1e-3)
    assert brewer.schedule.behind.text == "4 min ahead"


def test_a_late_addition_moves_neither_the_others_nor_the_end_of_the_boil(porter_brewer):
    brewer = porter_brewer
    dry, finings, off = "boil 1/fermentables 2", "boil 1/extras 7", "boil 1/flame-out"
    brewer.do_until(dry)
    planned = {key: brewer.step(key).minutes for key in (dry, finings, off)}
    brewer.go_to(planned[dry] + 6.0)
    brewer.do(dry)
    assert brewer.at(finings) == pytest.approx(planned[finings], abs=1e-3)
    assert brewer.at(off) == pytest.approx(planned[off], abs=1e-3)


def test_a_boil_that_is_paused_holds_its_additions_and_all_that_follows(porter_brewer):
    brewer = porter_brewer
    dry = "boil 1/fermentables 2"
    brewer.do_until(dry)
    later = ("boil 1/extras 7", "boil 1/flame-out", "boil 1/cool", "fermenter 1/pitch")
    before = {key: brewer.at(key) for key in (dry, *later)}
    brewer.log.do(timer_moves.pause("boil 1"))
    brewer.pass_min(9.0)
    brewer.log.do(timer_moves.resume("boil 1"))
    for key, minute in before.items():
        assert brewer.at(key) == pytest.approx(minute + 9.0, abs=1e-3)


def test_a_boil_that_is_made_longer_has_its_additions_later(porter_brewer):
    brewer = porter_brewer
    brewer.do_until("boil 1/extras 7")
    before = {key: brewer.at(key) for key in ("boil 1/extras 7", "fermenter 1/close")}
    brewer.log.do(timer_moves.add("boil 1", 8.0))
    for key, minute in before.items():
        assert brewer.at(key) == pytest.approx(minute + 8.0, abs=1e-3)


def test_the_boil_runs_from_when_it_boiled(porter_brewer):
    """ "It boiled at ...": said five minutes after."""
    brewer = porter_brewer
    brewer.do_until("boil 1/hops 5")
    brewer.pass_min(5.0)
    off = brewer.at("boil 1/flame-out")
    brewer.log.do(timer_moves.move("boil 1", to_left_min=52.0))
    assert brewer.at("boil 1/flame-out") == pytest.approx(off - 3.0, abs=1e-3)


def test_a_steep_lasts_as_long_as_its_timer_says(porter_brewer):
    brewer = porter_brewer
    brewer.do_until("boil 1/lift")
    brewer.log.do(timer_moves.add("steep 1", 5.0))
    lift = brewer.step("boil 1/lift")
    assert brewer.at(lift.key) == pytest.approx(lift.minutes + 5.0, abs=1e-3)


def test_sanitising_late_does_not_hold_the_boil(porter_brewer):
    brewer = porter_brewer
    brewer.do_until("boil 1/sanitise")
    off = brewer.step("boil 1/flame-out")
    brewer.go_to(brewer.step("boil 1/sanitise").minutes + 4.0)
    assert brewer.at(off.key) == pytest.approx(off.minutes, abs=1e-3)


def test_what_is_left_out_takes_its_place_in_the_plan_and_waits_for_nobody(porter_brewer):
    brewer = porter_brewer
    brewer.do_until("boil 1/fermentables 2")
    out = brewer.log.write(What.LEFT_OUT, step="fermenter 1/top-up after boil 1")
    pitch = brewer.step("fermenter 1/pitch")
    assert out
    assert brewer.schedule.of("fermenter 1/top-up after boil 1").state.status is Status.LEFT_OUT
    assert brewer.at(pitch.key) == pytest.approx(pitch.minutes, abs=1e-3)


def test_another_boil_in_turn_waits_until_the_first_is_over():
    brewer = Brewer("two boils")
    brewer.do_until("boil 1/cool")
    fill = brewer.step("boil 2/fill")
    brewer.go_to(brewer.step("boil 1/cool").minutes + 10.0)
    assert brewer.at(fill.key) == pytest.approx(fill.minutes + 10.0, abs=1e-3)


def test_pots_at_once_keep_clocks_of_their_own_and_the_fermenter_waits_for_both():
    brewer = Brewer("two pots at once")
    small = next(each.boil for each in brewer.steps if each.kind == "cover")
    boils = next(each for each in brewer.steps if each.kind == "boils" and each.boil == small)
    now = boils.minutes + 20.0
    for each in brewer.steps:  # the small pot will not boil; the other is brewed as planned
        if each.minutes <= now and (each.boil != small or each.minutes < boils.minutes):
            brewer.go_to(each.minutes)
            brewer.do(each.key)
    brewer.go_to(now)
    for each in brewer.steps:
        late = 20.0 if each.boil == small and each.minutes >= boils.minutes else 0.0
        if each.minutes > now and each.fermenter == 0:
            assert brewer.at(each.key) == pytest.approx(each.minutes + late, abs=1e-3), each.key
    cover, top_up = f"fermenter 1/cover after boil {small}", "fermenter 1/top-up after boil 1"
    assert brewer.at(cover) == pytest.approx(brewer.step(cover).minutes + 20.0, abs=1e-3)
    assert brewer.at(top_up) == pytest.approx(brewer.at(cover), abs=1e-3)
    assert brewer.at(top_up) > brewer.step(top_up).minutes + 1.0


def test_a_boil_of_another_day_begins_when_it_is_begun():
    brewer = Brewer("two days into one")
    brewer.do_until("boil 2/fill", late_min=30.0)
    fill = brewer.step("boil 2/fill")
    brewer.go_to(fill.minutes + 95.0)
    assert brewer.schedule.behind.text == "on time"
    brewer.do(fill.key)
    close = brewer.step("fermenter 1/close")
    assert brewer.at(close.key) == pytest.approx(close.minutes + 95.0, abs=1e-3)


@settings(max_examples=10, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_any_plan_may_be_done_in_any_way_and_nothing_is_expected_before_now(data):
    recipe = data.draw(planned_recipes(recipes(most=3)))
    brewer = Brewer(recipe)
    for each in brewer.steps:
        brewer.pass_min(data.draw(st.sampled_from([0.0, 0.5, 7.0, 90.0])))
        how = data.draw(st.sampled_from(["do", "leave out", "wait", "do and pause"]))
        if how == "leave out":
            brewer.log.write(What.LEFT_OUT, step=each.key)
        elif how != "wait":
            brewer.do(each.key)
        if how == "do and pause":
            brewer.log.do(timer_moves.pause("boil 1"))
    schedule, now = brewer.schedule, brewer.log.clock.now().wall
    for each in schedule.steps:
        waits = each.state.status not in (Status.DONE, Status.LEFT_OUT)
        assert each.at >= now - 1e-3 if waits else each.at <= now + 1e-3


def test_a_wall_clock_that_is_set_moves_no_gap(porter_brewer):
    brewer = porter_brewer
    brewer.do_until("boil 1/fermentables 2", late_min=2.0)
    before = {each.key: brewer.at(each.key) for each in brewer.steps}
    brewer.log.clock.set_wall(3 * 3600.0)
    after = {each.key: brewer.at(each.key) for each in brewer.steps}
    assert after == pytest.approx(before, abs=1e-3)


def test_the_line_of_the_day_goes_from_step_to_step(porter_brewer):
    brewer = porter_brewer
    brewer.do_until("boil 1/fermentables 2", late_min=5.0)
    schedule = brewer.schedule
    minutes = [each.step.minutes for each in schedule.steps]
    at = [each.at for each in schedule.steps]
    assert schedule.walls_of_plan(minutes, 1) == pytest.approx(at, abs=1.0)
