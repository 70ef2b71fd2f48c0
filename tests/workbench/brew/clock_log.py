"""A log written by clocks that are driven: for tests of timers."""

from __future__ import annotations

from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_ids import next_id
from designer.workbench.brew.passing import clocks_to_note
from designer.workbench.brew.timers import TimerState, timers_of
from tests.driven_clock import DrivenClock


class ClockLog:
    """A log and the clocks of the machine that it is written on."""

    def __init__(self, clock: DrivenClock | None = None) -> None:
        self.clock = clock or DrivenClock()
        self.entries: list[Entry] = []

    def write(self, what: What, said: dict | None = None, /, **more) -> str:
        entry = Entry(next_id(self.entries), self.clock.now(), what, {**(said or {}), **more})
        self.entries.append(entry)
        return entry.id

    def do(self, values: dict) -> str:
        return self.write(What.TIMER, values)

    def look(self) -> None:
        """What a program does each second: both clocks are noted at times, and when one was set."""
        if self.entries and clocks_to_note(self.entries[-1].at, self.clock.now()):
            self.write(What.CLOCK)

    def timers(self) -> tuple[TimerState, ...]:
        return timers_of(self.entries)

    def find_timer(self, timer_id: str = "boil 1") -> TimerState:
        return next(each for each in self.timers() if each.id == timer_id)

    def left(self, timer_id: str = "boil 1") -> float:
        return self.find_timer(timer_id).left_s(self.clock.now())

    def doubtful(self, timer_id: str = "boil 1") -> bool:
        return self.find_timer(timer_id).doubtful(self.clock.now())
