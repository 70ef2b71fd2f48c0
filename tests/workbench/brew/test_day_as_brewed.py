"""The curves of the day go as the day goes: late where one is late, and on the boil's own clock."""

from dataclasses import replace

import pytest

from designer.brewday.outlook import look_ahead
from designer.sheet.stove import stove_steps
from designer.units import ShownUnits
from designer.workbench.brew.brewing import brewing_of
from designer.workbench.brew.day_as_brewed import day_as_brewed, marks_of, planned_marks
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.schedule import schedule_of
from designer.workbench.day_runs import runs_of
from tests.driven_clock import DrivenClock


@pytest.fixture
def outlook(porter):
    return look_ahead(porter, ranges=False)


@pytest.fixture
def steps(porter, outlook):
    return stove_steps(porter, outlook, shown=ShownUnits.METRIC, start=None, brew_date=None)


def line_of(porter, outlook, steps, late_min):
    """The line of a day whose grain goes in so many minutes late, seen right after that."""
    clock = DrivenClock()
    began = clock.now()
    entries = [Entry("000001-a", began, What.BEGAN, {"start_min": 540.0})]
    for number, step in enumerate(steps[:2], 2):
        clock.go_on(60.0 * (step.minutes + (late_min if number == 3 else 0.0)) - clock.true_s)
        entries.append(Entry(f"{number:06d}-a", clock.now(), What.DONE, {"step": step.key}))
    brewing = brewing_of(porter, steps, entries)
    schedule = schedule_of(brewing, brewing.timers, clock.now())
    runs = runs_of(porter, outlook.day, outlook.plan, None)
    return day_as_brewed(runs, runs, schedule, began.wall), schedule, clock


def span(line, key):
    (run,) = line.real
    return next(each for each in run.day.spans if each.key == key)


def test_a_day_on_time_is_drawn_as_planned(porter, outlook, steps):
    line, _, _ = line_of(porter, outlook, steps, 0.0)
    (real,), (planned,) = line.real, line.planned
    for one, other in zip(real.day.moments, planned.day.moments, strict=True):
        assert one.time_min == pytest.approx(other.time_min, abs=0.01)
        assert one.temperature_c == other.temperature_c


def test_twenty_minutes_late_move_what_follows_and_stretch_the_wait(porter, outlook, steps):
    on_time, _, _ = line_of(porter, outlook, steps, 0.0)
    late, _, clock = line_of(porter, outlook, steps, 20.0)
    for key in ("steep", "boil", "cool"):
        assert span(late, key).start_min - span(on_time, key).start_min == pytest.approx(
            20, abs=0.1
        )
        lasts = span(late, key).end_min - span(late, key).start_min
        assert lasts == pytest.approx(span(on_time, key).end_min - span(on_time, key).start_min)
    assert late.at(clock.now().wall) == pytest.approx(steps[1].minutes + 20.0)
    assert late.planned == on_time.planned


def test_each_letter_stands_where_it_went_in_or_will(porter, outlook, steps):
    line, schedule, _ = line_of(porter, outlook, steps, 20.0)
    marks = marks_of(schedule, line)
    assert [each.letter for each in marks] == ["A", "B", "C", "D", "E", "F"]
    assert [each.done for each in marks] == [True] + 5 * [False]
    planned = planned_marks(steps, line.planned)
    for mark, meant in zip(marks, planned, strict=True):
        assert mark.time_min - meant.time_min == pytest.approx(20.0, abs=0.1)


def test_a_place_on_the_line_is_an_instant_of_its_own_day(porter, outlook, steps):
    line, _, clock = line_of(porter, outlook, steps, 0.0)
    now = clock.now().wall
    assert line.wall_at(line.at(now)) == pytest.approx(now, abs=1e-3)
    next_day = now + 20 * 3600.0
    both = replace(line, starts={**line.starts, 1: (next_day, 200.0)})
    assert both.wall_at(215.0) == pytest.approx(next_day + 15 * 60.0, abs=1e-3)
    assert both.wall_at(200.0) == pytest.approx(next_day, abs=1e-3)
    assert both.wall_at(line.at(now)) == pytest.approx(now, abs=1e-3)
