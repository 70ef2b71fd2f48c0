"""What the ring says of the boil as it stands."""

from __future__ import annotations

from typing import NamedTuple

from designer.translation import tr
from designer.window.brew.stove_texts import clock_text
from designer.workbench.brew.announcements import as_clock
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.timers import TimerState


class RingWords(NamedTuple):
    """The words in the ring; `said` is all of it for a screen reader, but for the seconds."""

    state: str = ""
    above: str = ""
    time: str = ""
    below: str = ""
    said: str = ""
    ink: str = "ink"
    ink_above: str = "ink_soft"


def boil_name(boil: int) -> str:
    """Return what a boil is called; 0 is the only one."""
    return tr("Boil {number}", number=boil) if boil else tr("Boil")


def state_of(timer: TimerState | None, now: Instant) -> str:
    """Return how a boil stands, in a word of our own."""
    if timer is None:
        return "ahead"
    if timer.ended:
        return "ended"
    if timer.doubtful(now):
        return "doubtful"
    if not timer.running:
        return "stands"
    if timer.left_s(now) > 0:
        return "runs"
    return "heard" if "" in timer.confirmed else "over"


def words_of(timer: TimerState | None, now: Instant, minutes: float, boil: int) -> RingWords:
    """Return the words for a boil; `boil` is its number where there are several, 0 if not."""
    name = boil_name(boil)
    state = state_of(timer, now)
    if timer is None:
        time, below = as_clock(60.0 * minutes), tr("not yet")
        said = tr("{boil}, {minutes:g} min, not yet begun", boil=name, minutes=minutes)
        return RingWords(state, name, time, below, said, "ink_soft")
    left = timer.left_s(now)
    time = as_clock(left)
    if state == "doubtful":
        said = tr("{boil}: what is left of it is not known; tap to tell", boil=name)
        return RingWords(state, name, "?", tr("tap to tell"), said, "brass", "brass")
    if state == "ended":
        ran = as_clock(timer.ran_by(now))
        said = tr("{boil} is over, it took {time}", boil=name, time=ran)
        return RingWords(state, tr("{boil}, took", boil=name), ran, "", said, "ink_soft")
    if state == "stands":
        said = tr("{boil}: the burner is off, {time} left", boil=name, time=time)
        above = tr("burner off")
        return RingWords(state, above, time, tr("tap to go on"), said, "brass", "brass")
    ends = clock_text(timer.ends_wall(now) + 0.5)
    if state == "runs":
        said = tr("{boil}, ends {time}", boil=name, time=ends)
        return RingWords(
            state, tr("{boil}, left", boil=name), time, tr("ends {time}", time=ends), said
        )
    said = tr("{boil} is over since {time}", boil=name, time=ends)
    ink = "ink_soft" if state == "heard" else "brass"
    below = tr("since {time}", time=ends)
    return RingWords(state, tr("{boil}, over", boil=name), time, below, said, ink, ink)
