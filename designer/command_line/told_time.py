"""When something was, as `--on` tells it: a date with a time, a date alone, a time of today."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from designer.recipe.message import refused
from designer.units.clock import is_clock
from designer.units.quoting import quoted
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.warmth_times import TimeForm, is_date_alone

_NOON_S = 12 * 3600.0
_MINUTE_S = 60.0


def told_time(words: Sequence[str] | None, now: Instant) -> Instant | None:
    """Return the instant that words tell; None for no words. Raises RefusedInputError.

    A date alone is noon of it.
    """
    if not words:
        return None
    text = " ".join(words).strip()
    today = datetime.fromtimestamp(now.wall)
    wall = TimeForm().wall_of(f"{today:%Y-%m-%d} {text}" if is_clock(text) else text)
    if wall is None:
        raise refused(
            "on-no-time",
            "--on: {text} is no time; write a date and a time such as 2026-04-08 18:30.",
            text=quoted(text),
        )
    if not is_clock(text) and is_date_alone(text):
        wall = min(wall + _NOON_S, max(now.wall, wall))
    if wall > now.wall + _MINUTE_S:
        raise refused(
            "on-not-yet",
            "--on: {text} is still to come; write when it was, or leave it out for now.",
            text=quoted(text),
        )
    return Instant(wall)
