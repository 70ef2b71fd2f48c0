"""Reading the day at an instant."""

import pytest

from designer.brewday.day import brew
from designer.workbench.day_moves import at_boil, moved_edits
from designer.workbench.day_reading import (
    at_time,
    boil_span,
    clock,
    markers,
    start_minutes,
)


@pytest.mark.parametrize(
    ("text", "minutes"), [("09:00", 540), ("23:59", 1439), ("7:05", 425), ("", 540), ("25:00", 540)]
)
def test_a_start_time_is_read(text, minutes):
    assert start_minutes(text) == minutes


def test_clock_times_go_past_midnight():
    assert clock(1380, 90.0) == "00:30"
    assert clock(540, 25.4) == "09:25"


def test_between_two_moments_the_day_runs_straight(porter):
    day = brew(porter)
    first, second = day.moments[0], day.moments[1]
    middle = at_time(day, (first.time_min + second.time_min) / 2)
    assert middle.temperature_c == pytest.approx((first.temperature_c + second.temperature_c) / 2)
    assert at_time(day, 1e9).pot_volume_l == day.moments[-1].pot_volume_l


def test_every_addition_has_one_marker(porter):
    day = brew(porter)
    shown = [each.line_id for marker in markers(day) for each in marker.additions]
    assert sorted(shown) == sorted(each.line_id for each in day.additions)


def test_moving_leaves_locked_lines_alone(porter):
    from dataclasses import replace

    locked = replace(porter, hops=tuple(replace(hop, locked=True) for hop in porter.hops))
    day = brew(locked)
    hop = next(m for m in markers(day) if m.names == "Challenger")
    half = at_boil(30.0, 60.0)
    assert moved_edits(locked, hop.additions, half, "") == []
    moved = moved_edits(porter, hop.additions, half, "")[0].apply(porter)
    assert moved.hops[0].when.minutes == 30.0


def test_the_boil_lasts_as_long_as_the_recipe_says(porter):
    start, end = boil_span(brew(porter))
    assert end - start == pytest.approx(60.0)
