"""How much time passed between two instants, and whether the clocks can be believed.

Within one boot the boot clock tells: it counts sleep, and no setting of the wall clock, time zone
or summer time moves it. After another boot the wall clock tells, if what it says can be: the
machine was off for what passed less the time since it was switched on, and that is neither less
than nothing nor longer than `LONGEST_OFF_S`. A wall clock set wrong by an hour or more meanwhile is
so always found out, unless the machine was really off for about as long. Where there is no boot
clock, the wall clock is believed for a day.
"""

from __future__ import annotations

from typing import NamedTuple

from designer.workbench.brew.instants import Instant

LONGEST_OFF_S = 45 * 60.0
NOTED_EVERY_S = 600.0
LONGEST_BY_WALL_S = 24 * 3600.0
_ROUNDING_S = 1.0
_SET_S = 5.0


class Passed(NamedTuple):
    """Seconds that passed, and whether that is sure."""

    seconds: float
    sure: bool


def same_boot(one: Instant, other: Instant) -> bool:
    """Return whether the boot clock tells the time between two instants."""
    return bool(one.boot) and one.boot == other.boot


def passed(before: Instant, now: Instant) -> Passed:
    """Return how much time passed; where that is not sure it is the best that can be said."""
    if same_boot(before, now):
        return Passed(now.up - before.up, True)
    seconds = now.wall - before.wall
    if now.boot:
        sure = -_ROUNDING_S <= seconds - now.up <= LONGEST_OFF_S
        return Passed(max(seconds, now.up), sure)
    return Passed(max(seconds, 0.0), -_ROUNDING_S <= seconds <= LONGEST_BY_WALL_S)


def wall_was_set(before: Instant, now: Instant) -> bool:
    """Return whether the wall clock was set between two instants of one boot."""
    if not same_boot(before, now):
        return False
    return abs((now.wall - before.wall) - (now.up - before.up)) > _SET_S


def clocks_to_note(last: Instant, now: Instant) -> bool:
    """Return whether both clocks should be noted in the log (a CLOCK entry), seen from its last.

    After another boot the wall clock is compared with the last entry, so that must be of late, and
    know how the wall clock was set. Asked every second while a timer runs.
    """
    return wall_was_set(last, now) or abs(passed(last, now).seconds) > NOTED_EVERY_S
