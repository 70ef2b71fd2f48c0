"""The timers of a brew day: the boil, the steep, the stand, what is kept hot, and free ones.

They are folded from the log and stored nowhere else, so they go on after sleep, a restart or a
killed process as if nothing had been. What time has passed `passing` tells; where it is not sure,
a timer that was running is doubtful until the brewer says what time it is or how much is left.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Any

from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_values import count_in, number_in, text_in
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.passing import passed, same_boot, wall_was_set
from designer.workbench.brew.what_counts import Counting, what_counts

_LONGEST_ANSWER_S = 24 * 3600.0
_MINUTE_S = 60.0


@dataclass(frozen=True, slots=True)
class TimerState:
    """A timer as it stood at `then`, from which it goes on by itself.

    `kind` is one of `timer_moves.KINDS`. `length_s` is its whole length, `ran_s` how much of that
    has run, `age_s` what passed since it began, pauses too. `confirmed` names the additions that
    are in, "" the end that was heard. `unsure` tells that the clocks did not agree before `then`,
    `booted` is the first entry of this boot if it ran through the boot before. `ended` tells that a
    step brought it to an end, such as the flame-out the boil: it tells how long that was.
    """

    id: str
    kind: str
    name: str
    boil: int
    length_s: float
    then: Instant
    running: bool = True
    ran_s: float = 0.0
    age_s: float = 0.0
    confirmed: frozenset[str] = frozenset()
    unsure: bool = False
    booted: Instant | None = None
    ended: bool = False

    def left_s(self, now: Instant) -> float:
        """Return how much is left; below 0 it is over by that."""
        return self.length_s - self.ran_by(now)

    def ran_by(self, now: Instant) -> float:
        """Return how long it has run, without its pauses."""
        return self.ran_s + (passed(self.then, now).seconds if self.running else 0.0)

    def began_wall(self, now: Instant) -> float:
        """Return when it began, by the wall clock as it goes now."""
        return now.wall - self.age_s - passed(self.then, now).seconds

    def ends_wall(self, now: Instant) -> float:
        """Return when it is over if it goes on from now, by the wall clock as it goes now."""
        return now.wall + self.left_s(now)

    def left_if_begun_at(self, wall: float, now: Instant) -> float:
        """Return how much would be left had it begun at an instant of the wall clock."""
        return self.left_s(now) + wall - self.began_wall(now)

    def doubtful(self, now: Instant) -> bool:
        """Return whether the brewer has to say what time it is, or how much is left.

        So it is after another boot where the wall clock cannot be right, or was set since.
        """
        if self.unsure:
            return True
        if not self.running:
            return False
        set_since = self.booted is not None and wall_was_set(self.booted, now)
        return set_since or not passed(self.then, now).sure


@dataclass(frozen=True, slots=True)
class _Doubt:
    """The last entry before another boot, and how much had passed until then and since, so far."""

    before: Instant
    since_s: float = 0.0


def timers_of(entries: Iterable[Entry]) -> tuple[TimerState, ...]:
    """Return the timers of a log that are not stopped, in the order they were started."""
    return timers_counted(what_counts(entries))


def timers_counted(counting: Counting) -> tuple[TimerState, ...]:
    """Return the timers of a log whose entries that count are known.

    What was taken back still tells of the clocks; entries by guess tell nothing of them.
    """
    counted = {each.id: each for each in counting.live}
    folded = _Folded()
    for entry in counting.entries:
        if not entry.by_guess:
            folded.pass_until(entry.at)
            if entry.id in counted:
                folded.take(counted[entry.id], entry.at)
    return tuple(folded.timers.values())


class _Folded:
    """Timers while the log is gone through."""

    def __init__(self) -> None:
        self.timers: dict[str, TimerState] = {}
        self._last: Instant | None = None
        self._doubt: _Doubt | None = None

    def take(self, entry: Entry, written: Instant) -> None:
        """Do what an entry says; it was `written` then, its own instant may be a corrected one."""
        wall = number_in(entry.values, "wall")
        if entry.what is What.CLOCK and wall is not None:
            self._believe(wall, written)
        elif entry.what in (What.DONE, What.LEFT_OUT):
            self._confirm(text_in(entry.values, "step"))
        elif entry.what is What.TIMER:
            self._move(entry.values, written, ago_s=written.wall - entry.at.wall)

    def pass_until(self, at: Instant) -> None:
        """Let the time until an instant of the log pass."""
        last = self._last or at
        seconds, sure = passed(last, at)
        if last.boot != at.boot or not sure:
            unsettled = self._doubt is not None and any(t.unsure for t in self.timers.values())
            if not unsettled:
                self._doubt = _Doubt(last)
        if self._doubt is not None:
            self._doubt = replace(self._doubt, since_s=self._doubt.since_s + seconds)
        for timer in self.timers.values():
            booted = timer.booted
            if timer.running and not same_boot(last, at) and at.boot:
                booted = at
            self.timers[timer.id] = TimerState(
                timer.id,
                timer.kind,
                timer.name,
                timer.boil,
                timer.length_s,
                then=at,
                running=timer.running,
                ran_s=timer.ran_by(at),
                age_s=timer.age_s + seconds,
                confirmed=timer.confirmed,
                unsure=timer.doubtful(at),
                booted=booted,
                ended=timer.ended,
            )
        self._last = at

    def _believe(self, wall: float, at: Instant) -> None:
        """Take what the brewer says the time is, if it can be; otherwise it stays in doubt."""
        if self._doubt is None:
            return
        really = wall - self._doubt.before.wall
        if not (at.up if at.boot else 0.0) - _MINUTE_S <= really <= _LONGEST_ANSWER_S:
            return
        more = really - self._doubt.since_s
        self._doubt = replace(self._doubt, since_s=really)
        for timer in self.timers.values():
            if timer.unsure:
                self.timers[timer.id] = replace(
                    timer,
                    ran_s=timer.ran_s + more,
                    age_s=timer.age_s + more,
                    unsure=False,
                    booted=None,
                )

    def _confirm(self, key: str) -> None:
        """A step that is done is in; to go back to it does not take it out again."""
        for timer in self.timers.values():
            if key not in timer.confirmed:
                self.timers[timer.id] = replace(timer, confirmed=timer.confirmed | {key})

    def _move(self, values: dict[str, Any], at: Instant, ago_s: float) -> None:
        timer_id, does = text_in(values, "timer"), text_in(values, "does")
        if does == "start":
            self.timers.pop(timer_id, None)
            self.timers[timer_id] = _started(timer_id, values, at, ago_s)
        elif timer_id not in self.timers:
            return
        elif does == "stop":
            del self.timers[timer_id]
        elif does in _MOVES:
            self.timers[timer_id] = _MOVES[does](self.timers[timer_id], values, ago_s)


def _started(timer_id: str, values: dict[str, Any], at: Instant, ago_s: float) -> TimerState:
    return TimerState(
        id=timer_id,
        kind=text_in(values, "kind") or "free",
        name=text_in(values, "name"),
        boil=count_in(values, "boil", 1),
        length_s=_seconds(values, "minutes"),
        then=at,
        ran_s=ago_s,
        age_s=ago_s,
    )


def _paused(timer: TimerState, values: dict[str, Any], ago_s: float) -> TimerState:
    return replace(timer, running=False, ran_s=timer.ran_s - ago_s) if timer.running else timer


def _resumed(timer: TimerState, values: dict[str, Any], ago_s: float) -> TimerState:
    if timer.running:
        return timer
    return replace(timer, running=True, ended=False, ran_s=timer.ran_s + ago_s)


def _longer(timer: TimerState, values: dict[str, Any], ago_s: float) -> TimerState:
    length = max(timer.length_s + _seconds(values, "minutes"), 0.0)
    return _heard_no_more(replace(timer, length_s=length))


def _moved(timer: TimerState, values: dict[str, Any], ago_s: float) -> TimerState:
    ran = timer.length_s - _seconds(values, "to_left_min")
    age = timer.age_s + ran - timer.ran_s
    return _heard_no_more(replace(timer, ran_s=ran, age_s=age, unsure=False, booted=None))


def _heard_no_more(timer: TimerState) -> TimerState:
    """An end that lies ahead again has not been heard."""
    if timer.ran_s >= timer.length_s:
        return timer
    return replace(timer, confirmed=timer.confirmed - {""})


def _confirmed(timer: TimerState, values: dict[str, Any], ago_s: float) -> TimerState:
    return replace(timer, confirmed=timer.confirmed | {text_in(values, "addition")})


def _seconds(values: dict[str, Any], key: str) -> float:
    return _MINUTE_S * (number_in(values, key) or 0.0)


def _ended(timer: TimerState, values: dict[str, Any], ago_s: float) -> TimerState:
    return replace(_paused(timer, values, ago_s), ended=True)


_MOVES: dict[str, Callable[[TimerState, dict[str, Any], float], TimerState]] = {
    "pause": _paused,
    "resume": _resumed,
    "add": _longer,
    "move": _moved,
    "confirm": _confirmed,
    "end": _ended,
}
