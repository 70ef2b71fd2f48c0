"""Tells what is to be done for beers: at the start what today brings, later each at its time.

Logs are read at the start and when the store holds more of a brew, never in between: what waits is
known here. Of several open windows one tells of a reminder, which the store settles; where it does
not answer it is told all the same, rather twice than never.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date, datetime
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from designer.library.store.reminded import claim
from designer.window.parts.background import Latest
from designer.window.session.brew_keeping import BrewKeeping, BrewLog, log_in
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_ids import next_id
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reminders import Expected, Reminder, may_expect, reminders_of

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.window.session.autosave import Autosave
    from designer.window.session.open_brew import OpenBrew

LOOK_MS, PATIENCE_MS, LONGEST_MS = 1500, 5000, 60_000
"""How soon logs are read again, how long the store may take to say whose it is to tell, and how
long the clock is not looked at: a machine that slept wakes up later than its timers know."""
_Key = tuple[str, tuple[str, ...]]
_ByLog = dict[_Key, tuple[Expected, ...]]
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
        self._told_on = date.min
        self._answered: set[str] = set()  # what the store may not have heard of yet
        self.due: tuple[Reminder, ...] = ()
        self._later = QTimer(self, singleShot=True, interval=LOOK_MS)
        self._later.timeout.connect(self.look)
        self._clock = QTimer(self, singleShot=True)
        self._clock.timeout.connect(self.look_at_clock)
        self._patience = QTimer(self, singleShot=True, interval=PATIENCE_MS)
        self._patience.timeout.connect(self._tell_unasked)
        self._expected: _ByLog = {}
        self._beers = Latest(self)
        self._beers.answered.connect(self._note_expected)
        brews.changed.connect(self._look_soon)
        autosave.box_replaced.connect(self._look_soon)
        autosave.opened_anew.connect(self._look_soon)

    def _look_soon(self) -> None:
        if not self._later.isActive():
            self._later.start()

    def look(self) -> None:
        """Read what beers are to be remembered for."""

        now = self._now()

        def work(store: Store) -> tuple[list[Reminder], list[BrewLog]]:
            logs = [log_in(store, each) for each in store.brews.afterwards(MOST_BEERS)]
            found = [each for log in logs for each in _of_beer(log)]
            return found, [each for each in logs if may_expect(each.entries, now)]

        self._autosave.store.ask(work, self._note, None, key="reminders")

    def _note(self, found: tuple[list[Reminder], list[BrewLog]]) -> None:
        """Tell what was set; what follows from how beers stand is reckoned beside the window."""
        reminders, fermenting = found
        by_itself = {log.brew.uid for log in fermenting if _key(log) in self._expected}
        kept = [each for each in reminders if each.brew not in by_itself]
        for log in fermenting:
            if log.brew.uid in by_itself:
                kept += _of_beer(log, self._expected[_key(log)])
        self._answered &= {each.key for each in kept}
        kept = [each for each in kept if each.key not in self._answered]
        self._waiting = tuple(sorted(kept, key=lambda each: each.wall))
        self.look_at_clock()
        unknown = [each for each in fermenting if _key(each) not in self._expected]
        if unknown:
            self._beers.ask(partial(_all_expected, unknown, self._now()))

    def _note_expected(self, expected: _ByLog) -> None:
        self._expected = {**self._expected, **expected}
        self.look()  # the logs may say more by now

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
        at = self._now().wall
        ahead = [each.wall - at for each in self._waiting if each.wall > at]
        if self._waiting:  # what is due already is told otherwise from the next day on
            wait_ms = 1000.0 * min(ahead, default=LONGEST_MS)
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
        today = datetime.fromtimestamp(self._now().wall).date()
        # By its key it is another at its time than before; each day it is told of anew.
        if due != self._due or (due and today != self._told_on):
            self._due, self.due, self._told_on = due, tuple(due.values()), today
            self.due_changed.emit(self.due)

    # what is done about it

    def seen_to(self, reminder: Reminder) -> None:
        """It was done."""
        self._write(reminder, reminder.wall, is_done=True)

    def put_off(self, reminder: Reminder) -> None:
        """Tomorrow will do, at the same time of day."""
        self._write(reminder, reminder.day_after(self._now().wall), is_done=False)

    def _write(self, reminder: Reminder, wall: float, *, is_done: bool) -> None:
        self._answered.add(reminder.key)
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

        def fail(fault: str) -> None:
            self._answered.discard(reminder.key)
            self.failed.emit(fault)
            self.look()

        self._brews.log_of(reminder.brew, add, fail)

    def close(self) -> None:
        """Tell of nothing any more: the window closes."""
        for each in (self._later, self._clock, self._patience):
            each.stop()
        self._beers.wait()


def _of_beer(log: BrewLog, expected: Iterable[Expected] = ()) -> tuple[Reminder, ...]:
    return reminders_of(log.brew.uid, log.brew.name, log.entries, expected)


def _key(log: BrewLog) -> _Key:
    """Return what a log is known by as long as it does not grow."""
    return log.brew.uid, tuple(each.id for each in log.entries)


def _all_expected(logs: list[BrewLog], now: Instant) -> _ByLog:
    """Reckon what is to be done next with beers; numpy is loaded with the first of them."""
    from designer.workbench.brew.beer_reminders import expected_of

    return {_key(log): expected_of(log.brew, log.entries, now) for log in logs}
