"""What the timers have to say: two minutes before, at the minute, and until it is confirmed."""

from __future__ import annotations

import pytest

from designer.workbench.brew import timer_moves
from designer.workbench.brew.announcements import (
    Addition,
    When,
    as_clock,
    goes_in_after_s,
    what_to_say,
)
from designer.workbench.brew.entries import What
from tests.workbench.brew.clock_log import ClockLog

BOIL = "boil 1"
EXTRACT = Addition("D", "400 g Light dry malt extract", 15)
FININGS = Addition("E", "½ tablet finings", 5)
HOPS = Addition("F", "20 g East Kent Golding", 0)
ADDITIONS = (EXTRACT, FININGS, HOPS)


def boiled_for(minutes: float) -> ClockLog:
    log = ClockLog()
    log.do(timer_moves.start("boil", 60))
    log.clock.go_on(minutes * 60)
    return log


def said(log: ClockLog, additions=ADDITIONS) -> list[tuple[str, str]]:
    found = what_to_say(log.timers(), additions, log.clock.now())
    return [(each.when.value, each.words.text) for each in found]


def test_an_addition_is_announced_two_minutes_before_at_its_minute_and_until_it_is_in():
    log = boiled_for(42.9)
    assert said(log) == []
    log.clock.go_on(6)
    assert said(log) == [("soon", "In 2:00: 400 g Light dry malt extract.")]
    log.clock.go_on(18)
    assert said(log) == [("soon", "In 1:42: 400 g Light dry malt extract.")]
    log.clock.go_on(102)
    assert said(log) == [("now", "Now: 400 g Light dry malt extract.")]
    log.clock.go_on(70)
    assert said(log) == [("late", "400 g Light dry malt extract: 1:10 late. Put it in now.")]
    log.do(timer_moves.confirm(BOIL, "D"))
    assert said(log) == []


def test_the_step_done_confirms_its_addition_and_undo_says_it_again():
    log = boiled_for(45)
    done = log.write(What.DONE, step="D")
    assert said(log) == []
    log.write(What.TAKES_BACK, entry=done)
    assert [when for when, _ in said(log)] == ["now"]


def test_after_a_sleep_past_several_all_that_are_due_are_said_the_latest_first():
    log = boiled_for(62)
    assert [words for _, words in said(log)] == [
        "20 g East Kent Golding: 2:00 late. Put it in now.",
        "The boil is over. Burner off.",
        "½ tablet finings: 7:00 late. Put it in now.",
        "400 g Light dry malt extract: 17:00 late. Put it in now.",
    ]


def test_what_is_due_comes_before_what_is_due_soon():
    log = boiled_for(53.5)
    assert [when for when, _ in said(log)] == ["late", "soon"]


def test_what_was_said_at_its_minute_is_known_when_it_is_late():
    log = boiled_for(45)
    now = what_to_say(log.timers(), ADDITIONS, log.clock.now())[0]
    log.clock.go_on(60)
    late = what_to_say(log.timers(), ADDITIONS, log.clock.now())[0]
    assert (now.when, late.when) == (When.NOW, When.LATE)
    assert now.said_once == late.said_once
    assert late.until_confirmed


def test_a_burner_that_is_off_announces_nothing_that_is_still_ahead():
    log = boiled_for(44)
    log.do(timer_moves.pause(BOIL))
    assert said(log) == []
    log.do(timer_moves.resume(BOIL))
    assert [when for when, _ in said(log)] == ["soon"]


def test_the_end_of_every_kind_is_said_until_it_is_heard():
    log = ClockLog()
    log.do(timer_moves.start("steep", 20))
    log.do(timer_moves.start("stand", 20))
    log.do(timer_moves.start("kept hot", 20))
    log.do(timer_moves.start("free", 20, name="Sanitiser in the bucket", timer="a"))
    log.do(timer_moves.start("free", 20, timer="b"))
    log.clock.go_on(1200)
    assert [words for _, words in said(log)] == [
        "The steep is over. Lift the grain out.",
        "The stand is over.",
        "It was kept hot long enough.",
        "Sanitiser in the bucket: time is up.",
        "Timer: time is up.",
    ]
    for each in log.timers():
        log.do(timer_moves.confirm(each.id))
    assert said(log) == []
    log.do(timer_moves.add("a", 1))
    log.clock.go_on(60)
    assert [words for _, words in said(log)] == ["Sanitiser in the bucket: time is up."]


def test_additions_belong_to_their_boil():
    log = boiled_for(45)
    assert said(log, [Addition("D2", "Hops", 15, boil=2)]) == []


def test_what_goes_in_at_the_start_is_due_when_it_boils_even_in_a_shorter_boil():
    log = boiled_for(0)
    first = Addition("C", "18 g Challenger", 75)
    assert said(log, [first]) == [("now", "Now: 18 g Challenger.")]
    assert goes_in_after_s(log.find_timer(), first, log.clock.now()) == 0


def test_a_timer_in_doubt_says_nothing_but_that_it_has_to_be_asked_about():
    log = boiled_for(50)
    log.clock.reboot(60)
    log.clock.set_wall(-7200)
    words = "Boil: how much is left? The computer was off, and its clock may be wrong."
    assert said(log) == [("ask", words)]


def test_to_go_back_to_a_step_says_nothing_again_that_is_done():
    log = boiled_for(45)
    log.write(What.DONE, step="D")
    log.write(What.BACK, step="D")
    assert said(log) == []
    log.clock.go_on(15 * 60)
    log.do(timer_moves.confirm(BOIL))
    log.write(What.BACK, step="")
    assert "The boil is over. Burner off." not in [words for _, words in said(log)]


@pytest.mark.parametrize(
    ("left", "shown"),
    [(162, "2:42"), (161.2, "2:42"), (0.1, "0:01"), (0, "0:00"), (-0.9, "0:00"), (-70.9, "1:10"),
     (3600, "60:00"), (3599.5, "60:00"), (6000, "1:40:00")],
)  # fmt: skip
def test_what_is_left_reads_as_on_a_clock(left, shown):
    assert as_clock(left) == shown
