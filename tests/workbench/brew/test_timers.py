"""Timers against plain arithmetic: whatever the clocks do, right to a second, or asked."""

from __future__ import annotations

import time
from datetime import datetime

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from designer.workbench.brew import timer_moves
from designer.workbench.brew.clocks import MachineClock
from designer.workbench.brew.entries import What
from designer.workbench.brew.passing import LONGEST_OFF_S
from tests.driven_clock import DrivenClock
from tests.workbench.brew.clock_log import ClockLog

HOUR = 3600.0
BOIL = "boil 1"


def boiling(minutes: float = 60.0) -> ClockLog:
    log = ClockLog()
    log.do(timer_moves.start("boil", minutes))
    return log


def test_a_boil_runs_down_by_the_boot_clock_whatever_the_wall_clock_is_set_to():
    log = boiling()
    log.clock.go_on(10 * 60)
    log.clock.set_wall(-2 * HOUR)
    log.clock.go_on(5 * 60)
    assert log.left() == 45 * 60
    log.clock.set_wall(+7 * HOUR)
    assert log.left() == 45 * 60
    assert not log.doubtful()


@pytest.mark.skipif(not hasattr(time, "tzset"), reason="no zone can be set here")
def test_a_machine_carried_into_another_zone_turns_no_timer(monkeypatch):
    """A zone is how a clock is written; the end of a boil is then told in the new one's hours."""
    try:
        log, told = boiling(), []
        log.clock.go_on(20 * 60)
        for zone in (
            "UTC",
            "Etc/GMT-2",
            "Etc/GMT+7",
        ):  # signs as POSIX has them: 2 h ahead, 7 behind
            monkeypatch.setenv("TZ", zone)
            time.tzset()
            assert log.left() == 40 * 60
            assert not log.doubtful()
            told.append(datetime.fromtimestamp(log.find_timer().ends_wall(log.clock.now())).hour)
        assert [(each - told[0]) % 24 for each in told] == [0, 2, 17]
    finally:
        monkeypatch.undo()
        time.tzset()


def test_a_boil_whose_burner_is_off_stands_still_and_goes_on_from_there():
    log = boiling()
    log.clock.go_on(600)
    log.do(timer_moves.pause(BOIL))
    log.clock.go_on(240)
    assert log.left() == 3000
    log.do(timer_moves.resume(BOIL))
    log.clock.go_on(60)
    now = log.clock.now()
    assert log.left() == 2940
    assert log.find_timer().began_wall(now) == log.entries[0].at.wall
    assert log.find_timer().ends_wall(now) == now.wall + 2940


def test_it_boiled_earlier_than_written_and_the_rest_is_less():
    log = boiling()
    began = log.clock.now().wall
    log.clock.go_on(300)
    left = log.find_timer().left_if_begun_at(began - 180, log.clock.now())
    log.do(timer_moves.move(BOIL, left / 60))
    assert log.left() == 3600 - 480
    assert log.find_timer().began_wall(log.clock.now()) == began - 180


def test_a_wall_clock_set_meanwhile_does_not_matter_to_when_it_boiled():
    log = boiling()
    log.clock.set_wall(HOUR)
    log.clock.go_on(300)
    now = log.clock.now()
    assert log.find_timer().left_if_begun_at(now.wall - 600, now) == 3600 - 600


def test_a_start_corrected_to_another_minute_moves_the_timer_and_what_it_was_is_kept():
    log = boiling()
    start = log.entries[0]
    log.clock.go_on(300)
    log.write(What.CORRECTS, entry=start.id, values={"wall": start.at.wall - 120})
    assert log.left() == 3600 - 420
    assert len(log.entries) == 2


def test_a_minute_more_and_undo_takes_it_back():
    log = boiling()
    added = log.do(timer_moves.add(BOIL, 8))
    assert log.left() == 68 * 60
    taken = log.write(What.TAKES_BACK, entry=added)
    assert log.left() == 60 * 60
    log.write(What.TAKES_BACK, entry=taken)
    assert log.left() == 68 * 60


def test_several_free_timers_run_beside_each_other_and_one_is_taken_away():
    log = ClockLog()
    log.do(timer_moves.start("free", 10, name="Sanitiser in the bucket", timer="a"))
    log.clock.go_on(60)
    log.do(timer_moves.start("free", 3, name="Yeast in water", timer="b"))
    log.clock.go_on(60)
    assert (log.left("a"), log.left("b")) == (480, 120)
    log.do(timer_moves.stop("a"))
    assert [each.name for each in log.timers()] == ["Yeast in water"]


def test_a_reboot_is_bridged_by_the_wall_clock():
    log = boiling()
    log.clock.go_on(600)
    log.clock.reboot(95)
    log.clock.go_on(20)
    assert log.left() == 3600 - 715
    assert not log.doubtful()


def test_a_machine_left_off_too_long_asks_and_takes_the_time_it_is_told():
    log = boiling(90)
    log.clock.go_on(600)
    log.write(What.NOTE, text="foam is falling")
    log.clock.reboot(LONGEST_OFF_S + 60)
    assert log.doubtful()
    log.write(What.CLOCK, timer_moves.it_is(log.clock.now().wall))
    assert not log.doubtful()
    assert log.left() == 5400 - log.clock.true_s


@pytest.mark.parametrize("jump", [-12 * HOUR, -HOUR, HOUR, 2 * HOUR, 30 * HOUR])
def test_a_reboot_with_a_clock_set_wrong_asks_and_takes_the_time_it_is_told(jump):
    log = boiling()
    log.clock.go_on(600)
    log.write(What.NOTE, text="foam is falling")
    true_wall = log.clock.now().wall + 130
    log.clock.reboot(100)
    log.clock.set_wall(jump)
    log.clock.go_on(30)
    assert log.doubtful()
    log.write(What.NOTE, text="where was I?")
    assert log.doubtful()
    log.write(What.CLOCK, timer_moves.it_is(true_wall))
    assert not log.doubtful()
    assert log.left() == pytest.approx(3600 - 730, abs=1)


def test_a_clock_put_right_after_the_reboot_asks_too():
    # A board without a battery wakes at the time it went to sleep, until the network tells it.
    log = boiling()
    log.clock.go_on(600)
    log.write(What.NOTE, text="foam is falling")
    log.clock.reboot(30 * 60)
    log.clock.set_wall(-30 * 60 + 20)
    log.write(What.NOTE, text="up again")
    assert not log.doubtful()
    log.clock.set_wall(30 * 60 - 20)
    assert log.doubtful()
    log.write(What.CLOCK, timer_moves.it_is(log.clock.now().wall))
    assert not log.doubtful()
    assert log.left() == pytest.approx(3600 - 600 - 1800, abs=1)


def test_how_much_is_left_answers_a_doubt_as_well():
    log = boiling()
    log.clock.reboot(30)
    log.clock.set_wall(-3 * HOUR)
    assert log.doubtful()
    log.do(timer_moves.move(BOIL, 41.5))
    log.clock.go_on(30)
    assert not log.doubtful()
    assert log.left() == 41 * 60


def test_a_time_that_cannot_be_leaves_it_in_doubt():
    log = boiling()
    log.clock.go_on(600)
    log.write(What.NOTE)
    log.clock.reboot(30)
    log.clock.set_wall(-3 * HOUR)
    log.write(What.CLOCK, timer_moves.it_is(log.clock.now().wall))
    assert log.doubtful()


def test_a_paused_timer_is_never_in_doubt():
    log = boiling()
    log.clock.go_on(600)
    log.do(timer_moves.pause(BOIL))
    log.clock.reboot(30)
    log.clock.set_wall(-3 * HOUR)
    log.write(What.NOTE)
    assert not log.doubtful()
    assert log.left() == 3000
    log.do(timer_moves.resume(BOIL))
    log.clock.go_on(60)
    assert log.left() == 2940
    assert not log.doubtful()


def test_without_a_boot_clock_the_wall_clock_counts_and_going_back_asks():
    log = ClockLog(DrivenClock(boot="", up=0.0))
    log.do(timer_moves.start("boil", 60))
    log.clock.go_on(1200)
    assert log.left() == 2400
    assert not log.doubtful()
    log.clock.set_wall(-HOUR)
    assert log.doubtful()


def test_damaged_values_of_an_entry_stop_nothing():
    log = boiling()
    log.do({"timer": BOIL, "does": "add", "minutes": "much"})
    log.do({"timer": 7, "does": ["pause"]})
    log.do({"timer": "x", "does": "start", "kind": None, "minutes": float("nan")})
    log.write(What.CLOCK, wall="noon")
    log.clock.go_on(60)
    assert log.left() == 3540


def test_the_machine_tells_both_clocks():
    one, other = MachineClock().now(), MachineClock().now()
    assert other.wall >= one.wall
    assert one.boot == other.boot
    assert other.up >= one.up


class StopWatch:
    """A boil by the program's log, beside what a stop watch says is left of it."""

    def __init__(self) -> None:
        self.log, self.left, self._running = boiling(), 3600.0, True
        self._off_s = 0.0

    def go_on(self, seconds: float) -> None:
        self.log.clock.go_on(seconds)
        self.left -= seconds * self._running
        self.log.look()

    def pause(self, _: float) -> None:
        self.log.do(timer_moves.pause(BOIL))
        self._running = False

    def resume(self, _: float) -> None:
        self.log.do(timer_moves.resume(BOIL))
        self._running = True

    def add(self, minutes: float) -> None:
        self.log.do(timer_moves.add(BOIL, minutes))
        self.left += 60 * minutes

    def set(self, by_s: float) -> None:
        self.log.clock.set_wall(by_s)
        self.log.look()

    def reboot(self, off_s: float) -> None:
        """The machine is off, and on again without the window."""
        self._open_in_time(off_s)
        self._boot(off_s)

    def _open_in_time(self, off_s: float) -> None:
        """Open the window before the machine was off, all in all, for longer than can be told.

        Off for hours and set back by as many looks as if nothing had been; no clock tells.
        """
        if self._off_s + off_s >= LONGEST_OFF_S:
            self.log.look()
            if self.log.doubtful():
                self.say_what_is_left(0.0)  # it asks, and is answered
            self._off_s = 0.0
        self._off_s += off_s

    def _boot(self, off_s: float) -> None:
        self.log.clock.reboot(off_s)
        self.left -= off_s * self._running

    def kill_set_and_reboot(self, by_s: float) -> None:
        """The window is gone, so nobody sees that the clock is set."""
        self._open_in_time(60)
        self.log.clock.set_wall(by_s)
        self._boot(60)

    def note(self, _: float) -> None:
        self.log.write(What.NOTE)

    def say_what_is_left(self, _: float) -> None:
        self.log.do(timer_moves.move(BOIL, self.left / 60))


steps = st.one_of(
    st.tuples(st.just("go_on"), st.floats(0, 2400)),
    st.tuples(st.just("go_on"), st.floats(0, 9000)),
    st.tuples(st.just("pause"), st.just(0.0)),
    st.tuples(st.just("resume"), st.just(0.0)),
    st.tuples(st.just("add"), st.integers(-4, 20)),
    st.tuples(st.just("set"), st.sampled_from([-9, -2, -1, 1, 2, 26]).map(lambda h: h * HOUR)),
    st.tuples(st.just("reboot"), st.floats(0, LONGEST_OFF_S - 1)),
    st.tuples(st.just("note"), st.just(0.0)),
    st.tuples(
        st.just("kill_set_and_reboot"), st.sampled_from([-2, -1, 1, 5]).map(lambda h: h * HOUR)
    ),
    st.tuples(st.just("say_what_is_left"), st.just(0.0)),
)


@settings(max_examples=300)
@given(st.lists(steps, max_size=14))
@example([("reboot", 1741), ("reboot", 2699), ("reboot", 2699), ("kill_set_and_reboot", -2 * HOUR)])
def test_whatever_happens_a_timer_is_right_to_a_second_or_asks(happened):
    watch = StopWatch()
    for what, value in happened:
        getattr(watch, what)(value)
        assert watch.log.doubtful() or watch.log.left() == pytest.approx(watch.left, abs=1.0)
