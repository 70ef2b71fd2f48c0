"""Tells what is to be done for beers: at the start what today brings, later each at its time.

Logs are read at the start and when the store holds more of a brew, never in between: what waits is
known here. Of several open windows one tells of a reminder, which the store settles; where it does
not answer it is told all the same, rather twice than never.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from designer.library.store.reminded import claim
from designer.window.session.brew_keeping import BrewKeeping, BrewLog, log_in
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_ids import next_id
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reminders import Reminder, reminders_of

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.window.session.autosave import Autosave
    from designer.window.session.open_brew import OpenBrew

LOOK_MS, PATIENCE_MS, LONGEST_MS = 1500, 5000, 60_000
"""How soon logs are read again, how long the store may take to say whose it is to tell, and how
long the clock is not looked at: a machine that slept wakes up later than its timers know."""
MOST_BEERS = 30
"""So many of the latest beers are looked after."""


class Reminding(QObject):
    """For one window. `due_changed` carries all that is to be told now, the longest due first."""

    due_changed = Signal(object)
    failed = Signal(str)

    def __init__(
        self,
        autosave: Autosave,
        brews: BrewKeeping,
        now: Callable[[], Instant],
        shown: Callable[[], OpenBrew | None],
        parent: QObject | None = None,
    ) -> None:
        """`shown` tells which brew the page of the brew day has, if it was put together."""
        super().__init__(parent)
        self._autosave, self._brews, self._now = autosave, brews, now
        self._shown = shown
        self._waiting: tuple[Reminder, ...] = ()
        self._mine: frozenset[str] = frozenset()
        self._asked: frozenset[str] = frozenset()
        self._due: dict[str, Reminder] = {}
        self.due: tuple[Reminder, ...] = ()
        self._later = QTimer(self, singleShot=True, interval=LOOK_MS)
        self._later.timeout.connect(self.look)
        self._clock = QTimer(self, singleShot=True)
        self._clock.timeout.connect(self.look_at_clock)
        self._patience = QTimer(self, singleShot=True, interval=PATIENCE_MS)
        self._patience.timeout.connect(self._tell_unasked)
        brews.changed.connect(self._look_soon)
        autosave.box_replaced.connect(self._look_soon)
        autosave.opened_anew.connect(self._look_soon)

    def _look_soon(self) -> None:
        if not self._later.isActive():
            self._later.start()

    def look(self) -> None:
        """Read what beers are to be remembered for."""

        def work(store: Store) -> list[Reminder]:
            logs = [log_in(store, each) for each in store.brews.afterwards(MOST_BEERS)]
            return [each for log in logs for each in _of_beer(log)]

        self._autosave.store.ask(work, self._note, None, key="reminders")

    def _note(self, found: list[Reminder]) -> None:
        self._waiting = tuple(sorted(found, key=lambda each: each.wall))
        self.look_at_clock()

    # in time

    def look_at_clock(self) -> None:
        """Tell of what is due by now, and be back when the next is."""
        told = self._told_now()
        new = frozenset(told) - self._mine - self._asked
        if new:
            self._asked |= new
            self._patience.start()
            self._autosave.store.ask(
                lambda store: claim(store, new, self._autosave.window_name()),
                partial(self._take, new),
                lambda _: self._take(new, new),
            )
        self._tell()
        ahead = [each.wall for each in self._waiting if each.wall > self._now().wall]
        if ahead:
            wait_ms = 1000.0 * (min(ahead) - self._now().wall)
            self._clock.start(max(min(round(wait_ms) + 1, LONGEST_MS), 1))

    def _told_now(self) -> dict[str, Reminder]:
        """Return what is to be told by now: what is due, and what today brings later on.

        That is told once more at its time, so it goes by another key until then.
        """
        at = self._now().wall
        today = datetime.fromtimestamp(at).date()
        due = {each.key: each for each in self._waiting if each.wall <= at}
        later = {
            f"{each.key} (today)": each
            for each in self._waiting
            if each.wall > at and each.day == today
        }
        return due | later

    def _take(self, asked: frozenset[str], mine: frozenset[str]) -> None:
        self._mine |= mine
        if self._asked <= asked | self._mine:
            self._patience.stop()
        self._tell()

    def _tell_unasked(self) -> None:
        """The store does not say whose it is."""
        self._take(self._asked, self._asked)

    def _tell(self) -> None:
        due = {key: each for key, each in self._told_now().items() if key in self._mine}
        if due != self._due:  # by its key it is another at its time than before
            self._due, self.due = due, tuple(due.values())
            self.due_changed.emit(self.due)

    # what is done about it

    def seen_to(self, reminder: Reminder) -> None:
        """It was done."""
        self._write(reminder, reminder.wall, is_done=True)

    def put_off(self, reminder: Reminder) -> None:
        """Tomorrow will do, at the same time of day."""
        self._write(reminder, reminder.day_after(self._now().wall), is_done=False)

    def _write(self, reminder: Reminder, wall: float, *, is_done: bool) -> None:
        self._waiting = tuple(each for each in self._waiting if each != reminder)
        self._tell()
        shown = self._shown()
        if shown is not None and shown.brew is not None and shown.brew.uid == reminder.brew:
            shown.remind(wall, reminder.text, done=is_done)
            return
        does = "done" if is_done else "set"
        values = {"wall": wall, "text": reminder.text, "does": does}

        def add(log: BrewLog) -> None:
            entry = Entry(next_id(log.entries), self._now(), What.REMINDER, values)
            self._brews.append(log.brew.uid, entry)

        self._brews.log_of(reminder.brew, add, self.failed.emit)

    def close(self) -> None:
        """Tell of nothing any more: the window closes."""
        for each in (self._later, self._clock, self._patience):
            each.stop()


def _of_beer(log: BrewLog) -> tuple[Reminder, ...]:
    return reminders_of(log.brew.uid, log.brew.name, log.entries)
