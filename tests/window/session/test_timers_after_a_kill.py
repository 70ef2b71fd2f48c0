"""Timers of a program that was killed without warning are right when it is started again."""

from __future__ import annotations

from tests.benchmarks.timer_soak import MOST_OFF_S, soak


def test_timers_go_on_to_the_second_after_the_program_was_killed(tmp_path):
    tally = soak(tmp_path / "kitchen", kills=2)
    assert tally.faults == []
    assert tally.compared > 0
    assert tally.furthest_s <= MOST_OFF_S
