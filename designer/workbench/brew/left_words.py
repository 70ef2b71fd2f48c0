"""Where a brew was left, in a few words, told by its timers: "boil, 17 min left"."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from datetime import datetime

from designer.translation import message, tr
from designer.workbench.brew.entries import Entry
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.timers import TimerState, timers_of

_KINDS = {
    "boil": message("boil"),
    "steep": message("steep"),
    "stand": message("stand"),
    "kept hot": message("kept hot"),
}
_FIRST = ("boil", "kept hot", "stand", "steep")
MINUTE_S = 60.0
DayText = Callable[[datetime], str]
"""Writes the day of a moment."""


def left_words(entries: Sequence[Entry], now: Instant, day_text: DayText) -> str:
    """Return what of the brew runs now, or else when it was left: "left at 10:51"."""
    timers = [each for each in timers_of(entries) if each.kind in _KINDS and not each.ended]
    if not timers:
        return _left_at(last_wall(entries), now, day_text)
    timer = min(timers, key=lambda each: _FIRST.index(each.kind))
    kind = tr(_KINDS[timer.kind])
    if timer.doubtful(now):
        return tr("{timer}, its time is to be set", timer=kind)
    return _of_timer(timer, kind, timer.left_s(now))


def _of_timer(timer: TimerState, kind: str, left_s: float) -> str:
    if left_s <= 0.0:
        return tr("{timer}, its time is over", timer=kind)
    minutes = math.ceil(left_s / MINUTE_S)
    if not timer.running:
        return tr("{timer} paused, {minutes} min left", timer=kind, minutes=minutes)
    return tr("{timer}, {minutes} min left", timer=kind, minutes=minutes)


def last_wall(entries: Sequence[Entry]) -> float:
    """Return when something was logged last, seconds since 1970; 0 for never."""
    return max((each.at.wall for each in entries), default=0.0)


def _left_at(wall: float, now: Instant, day_text: DayText) -> str:
    then, today = (datetime.fromtimestamp(each).astimezone() for each in (wall, now.wall))
    if then.date() == today.date():
        return tr("left at {time}", time=f"{then:%H:%M}")
    return tr("left on {day} at {time}", day=day_text(then), time=f"{then:%H:%M}")
