"""Brew logs are on the disk within milliseconds of what they tell, and in the Recipe box after it.

An entry goes two ways at once: into a journal beside the store, on a thread for files, and to the
store on its own thread. It is kept as soon as one of the two has it. Neither is waited for here,
and what neither takes is tried again every few seconds; meanwhile the log can be saved elsewhere.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path
from threading import Event
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QTimer, Signal

from designer.errors import DesignerError
from designer.library.file_bytes import write_whole
from designer.library.store.brew_journal import (
    Journal,
    journals,
    log_text,
    remove_journals,
    take_in,
)
from designer.library.store.brews import Brew
from designer.library.store.values import LONGEST_FERMENTING_DAYS
from designer.translation import message, tr
from designer.window.session.box_link import BoxLink
from designer.window.session.disk_thread import DiskThread
from designer.window.session.version_of_brew import keep_left_version
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entries_text import entries_of, plain
from designer.workbench.brew.entry_ids import in_order
from designer.workbench.brew.what_counts import what_counts

if TYPE_CHECKING:
    from designer.library.store import Store

AGAIN_MS, PATIENCE_MS = 3000, 3000
"""What is not kept is tried again so often; after so long the brewer is told."""
KEEPING, NOT_KEPT = message("keeping…"), message("not kept")
NO_ANSWER = message("the disk does not answer")
Lines = Sequence[dict[str, Any]]
Failed = Callable[[str], object]


@dataclass(frozen=True, slots=True)
class BrewLog:
    """A brew with all entries of its log, in the order in which they were written.

    `lines` are those of the store as they stand, with what a later program may have written.
    """

    brew: Brew
    entries: tuple[Entry, ...]
    lines: tuple[dict[str, Any], ...] = ()

    @property
    def is_under_way(self) -> bool:
        """Whether it was begun at the stove and is not finished."""
        return _is_under_way(self.entries)

    @property
    def is_over(self) -> bool:
        """Whether its day at the stove is over."""
        return What.FINISHED in _told(self.entries)

    @property
    def is_fermenting(self) -> bool:
        """Whether its beer is in the fermenter still, as far as anybody has said."""
        told = _told(self.entries)
        return What.FINISHED in told and not told & {What.PACKAGED, What.TASTED}


@dataclass(slots=True, eq=False)
class _Open:
    """A log that is written here: all its lines, and which of them disk and store have by now."""

    brew: Brew
    journal: Journal
    lines: dict[str, dict[str, Any]] = field(default_factory=dict)
    on_disk: set[str] = field(default_factory=set)
    in_store: set[str] = field(default_factory=set)
    fault: str = ""
    has_failed: bool = False
    is_deleted: bool = False

    def not_in(self, *places: set[str]) -> list[dict[str, Any]]:
        """Return the lines that none of these places has."""
        return [line for key, line in self.lines.items() if not any(key in at for at in places)]

    @property
    def is_under_way(self) -> bool:
        """Whether it was begun at the stove and is not finished."""
        return _is_under_way(entries_of(self.lines.values()))

    @property
    def is_kept(self) -> bool:
        """Whether nothing would be lost with this process."""
        return self.is_deleted or all(
            key in self.on_disk or key in self.in_store for key in self.lines
        )


class BrewKeeping(QObject):
    """Keeps the logs of the brews of one window.

    `confirmed` names brew and entry once an entry is on the disk; `state_changed` says in words
    what becomes of what was logged last: "kept 10:51". `trouble` says why nothing can be kept and
    `well_again` ends that. `changed` tells that the store holds more of some brew now.
    """

    confirmed = Signal(str, str)
    state_changed = Signal(str)
    trouble = Signal(str)
    well_again = Signal()
    changed = Signal()

    def __init__(self, link: BoxLink, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._link = link
        self._disk = DiskThread(self)
        self._open: dict[str, _Open] = {}
        self.state, self._said = "", ""
        self._again = QTimer(self, interval=AGAIN_MS)
        self._again.timeout.connect(self.try_again)
        self._waiting: tuple[Callable[[], object], Failed] | None = None
        self._patience = QTimer(self, singleShot=True, interval=PATIENCE_MS)
        self._patience.timeout.connect(self._look_whether_kept)
        link.tried_again.connect(self._owe_store)
        link.opened_anew.connect(self._owe_store)
        link.well_again.connect(self._owe_store)
        link.box_replaced.connect(self._follow_box)

    # what is logged

    def begin(self, brew: Brew) -> None:
        """A brew begins, or is gone on with: its entries are taken from now on."""
        if brew.uid not in self._open:
            self._open[brew.uid] = _Open(brew, Journal(self._link.folder, brew))

    def append(self, uid: str, *entries: Entry) -> None:
        """Keep entries of a brew that was begun here; returns at once."""
        log = self._open[uid]
        lines = [plain(entry) for entry in entries if entry.id not in log.lines]
        if not lines:
            return
        if log.is_deleted:  # it goes on in another place of the window: then all of it is back
            log.is_deleted, lines = False, [*log.lines.values(), *lines]
        log.lines |= {line["id"]: line for line in lines}
        self._keep(log, lines)

    def _keep(self, log: _Open, lines: Lines) -> None:
        self._say(tr(KEEPING))
        if not self._patience.isActive():
            self._patience.start()
        self._write(log, lines)
        self._put(log)

    def belongs_to(self, uid: str, recipe: int, version: int) -> None:
        """The version that is brewed was kept only now: the brew is put to it."""
        log = self._open[uid]
        log.brew = brew = replace(log.brew, recipe=recipe, version=version)
        self._disk.ask(partial(log.journal.tell_head, brew), _nothing, _nothing)
        self._put(log)

    @property
    def settled(self) -> bool:
        """Whether all that was logged is on the disk."""
        return all(log.is_kept for log in self._open.values())

    def unkept(self) -> list[Brew]:
        """Return the brews of which something is in this window only."""
        return [log.brew for log in self._open.values() if not log.is_kept]

    def _write(self, log: _Open, lines: Lines) -> None:
        """Let the journal take lines."""
        journal, log.has_failed = log.journal, False
        self._disk.ask(
            partial(journal.append, lines),
            lambda _: self._note(log, log.on_disk, lines),
            partial(self._note_fault, log),
        )

    def _put(self, log: _Open) -> None:
        """Let the store take all that it does not have."""
        lines, brew, journal = log.not_in(log.in_store), log.brew, log.journal

        def work(store: Store) -> None:
            store.brews.put(brew, lines)
            self._link.window_name()  # others know by it that a brew is in hands
            journal.forget(line["id"] for line in lines)

        def done(_: None) -> None:
            self._note(log, log.in_store, lines)
            self._link.say_well()
            self.changed.emit()

        self._link.store.ask(work, done, self._link.say_broken, key=f"brew {brew.uid}")

    def _note(self, log: _Open, place: set[str], lines: Lines) -> None:
        """Lines are safe in one place."""
        for line in lines:
            is_news = line["id"] not in log.on_disk and line["id"] not in log.in_store
            place.add(line["id"])
            if is_news:
                self.confirmed.emit(log.brew.uid, line["id"])
        in_both = log.on_disk & log.in_store
        if in_both:
            log.on_disk -= in_both
            self._disk.ask(partial(log.journal.forget, in_both), _nothing, _nothing)
        if log.is_kept:
            log.fault, log.has_failed = "", False
        if self.settled:
            self._patience.stop()
            self._again.stop()
            self._say(tr("kept {time}", time=f"{datetime.now():%H:%M}"))
            self._end_trouble()
            if self._waiting is not None:
                then, self._waiting = self._waiting[0], None
                then()

    # what cannot be kept

    def _note_fault(self, log: _Open, fault: DesignerError) -> None:
        """The journal cannot be written; the store may still take it."""
        log.fault, log.has_failed = str(fault), True
        if not self._again.isActive():
            self._again.start()
        if self._link.broken or self._said:
            self._look_whether_kept()

    def _look_whether_kept(self) -> None:
        """Say so where neither disk nor store has taken what was logged."""
        loose = [log for log in self._open.values() if not log.is_kept]
        if not loose:
            return
        if not self._again.isActive():
            self._again.start()
        self._say(tr(NOT_KEPT))
        fault = loose[0].fault or tr(NO_ANSWER)
        words = tr(
            "What you log of “{name}” is in this window only: {fault} It is tried again every few "
            "seconds.",
            name=loose[0].brew.name,
            fault=fault if fault.endswith(".") else f"{fault}.",
        )
        if words != self._said:
            self._said = words
            self.trouble.emit(words)
        if self._waiting is not None:
            failed, self._waiting = self._waiting[1], None
            failed(words)

    def try_again(self) -> None:
        """Try to keep what is in this window only."""
        if self.settled:
            self._again.stop()
            return
        for log in self._open.values():
            lines = log.not_in(log.on_disk, log.in_store)
            if lines and log.has_failed:
                self._write(log, lines)
        self._owe_store()

    def keep_for_closing(self, then: Callable[[], object], failed: Failed) -> None:
        """Before the window closes: `then` once all is kept, `failed` why it is not."""
        if self.settled:
            then()
        else:
            self._waiting = then, failed
            self.try_again()

    def _owe_store(self) -> None:
        """Ask the store once more for what it does not have yet."""
        if not self._link.store.busy:
            for log in self._open.values():
                if log.not_in(log.in_store) and not log.is_deleted:
                    self._put(log)

    def _follow_box(self) -> None:
        """Another box is kept in from now on, which may know nothing of these brews.

        Those under way go on in it, with all of their logs; others are there if it holds them.
        """
        for log in self._open.values():
            goes_on = log.is_under_way or log.not_in(log.in_store)
            log.journal.close()  # what it holds is written beside the other box now
            log.journal = Journal(self._link.folder, log.brew)
            log.on_disk, log.in_store = set(), set()
            log.is_deleted = log.is_deleted or not goes_on
            if log.lines and not log.is_deleted:
                self._write(log, list(log.lines.values()))
                self._put(log)

    def _say(self, state: str) -> None:
        if state != self.state:
            self.state = state
            self.state_changed.emit(state)

    def _end_trouble(self) -> None:
        if self._said:
            self._said = ""
            self.well_again.emit()

    def save_elsewhere(
        self, uid: str, path: Path, then: Callable[[], object], failed: Failed
    ) -> None:
        """Write a log as it is here into a file; `then` once it is on that disk."""
        log = self._open[uid]
        text = log_text(log.brew, list(log.lines.values())).encode()
        disk = DiskThread(self)  # the other may be waiting for a disk that does not answer
        disk.ask(
            partial(write_whole, path, text),
            lambda _: then(),
            lambda fault: failed(str(fault)),
        )
        disk.stop()

    # what was logged before

    def running(self, then: Callable[[list[BrewLog]], object], failed: Failed) -> None:
        """Let the store take in what killed windows left; `then` gets the brews under way.

        The last begun comes first. Where the store cannot be opened, they are those that journals
        tell of.
        """

        def work(store: Store) -> list[BrewLog]:
            take_in(store)
            return [log_in(store, each) for each in store.brews.under_way()]

        def done(found: list[BrewLog]) -> None:
            then([each for each in self._with_mine(found) if each.is_under_way])

        self._link.store.ask(work, done, partial(self._read, done, failed))

    def fermenting(self, then: Callable[[list[BrewLog]], object], failed: Failed) -> None:
        """Tell `then` the brews whose beer is in the fermenter, the last begun first."""
        since = datetime.now(UTC) - timedelta(days=LONGEST_FERMENTING_DAYS)

        def work(store: Store) -> list[BrewLog]:
            found = store.brews.finished_since(since.isoformat(timespec="seconds"))
            return [log_in(store, each) for each in found]

        def done(found: list[BrewLog]) -> None:
            then([each for each in self._with_mine(found) if each.is_fermenting])

        self._link.store.ask(work, done, partial(self._read, done, failed))

    def log_of(self, uid: str, then: Callable[[BrewLog], object], failed: Failed) -> None:
        """Tell all that was logged of a brew, and take its entries from now on."""

        def work(store: Store) -> list[BrewLog]:
            take_in(store)
            return [log_in(store, store.brews.by_uid(uid))]

        def found(logs: list[BrewLog], *, in_store: bool = True) -> None:
            mine = next((each for each in self._with_mine(logs) if each.brew.uid == uid), None)
            if mine is None:
                failed(tr("That brew log is not in the Recipe box any more; it was deleted."))
                return
            self._go_on(mine, in_store=in_store)
            then(mine)

        on_disk = partial(found, in_store=False)
        self._link.store.ask(work, found, partial(self._read, on_disk, failed))

    def _go_on(self, log: BrewLog, *, in_store: bool) -> None:
        is_left = log.brew.uid not in self._open
        self.begin(log.brew)
        mine, lines = self._open[log.brew.uid], [plain(each) for each in log.entries]
        for line in lines:
            if line["id"] not in mine.lines:
                mine.lines[line["id"]] = line
                (mine.in_store if in_store else mine.on_disk).add(line["id"])

        if is_left and in_store and not log.brew.version:
            self._keep_version(log.brew)

    def _keep_version(self, brew: Brew) -> None:
        """Keep what another window began to brew and did not live to keep."""
        self._link.store.ask(
            lambda store: keep_left_version(store, brew),
            lambda kept: self.belongs_to(brew.uid, kept.recipe, kept.id),
            self._link.say_broken,
        )

    def _read(self, then: Callable[[list[BrewLog]], object], failed: Failed, fault: str) -> None:
        """The store does not tell: ask the journals."""
        self._link.say_broken(fault)

        self._disk.ask(partial(_in_journals, self._link.folder), then, lambda _: failed(fault))

    def _with_mine(self, found: Iterable[BrewLog]) -> list[BrewLog]:
        """Return logs with what this window has of them that nobody else has yet."""
        logs = {each.brew.uid: each for each in found}
        for uid, log in self._open.items():
            others = logs[uid].entries if uid in logs else ()
            entries = in_order((*others, *entries_of(log.lines.values())))
            if uid in logs or (log.not_in(log.in_store) and not log.is_deleted):
                brew = logs[uid].brew if uid in logs else log.brew
                logs[uid] = BrewLog(brew, entries)
        return sorted(logs.values(), key=lambda each: each.brew.started, reverse=True)

    def delete(self, uid: str, then: Callable[[BrewLog], object], failed: Failed) -> None:
        """Delete a brew with its log; `then` gets what it was, to `put_back` if it is wanted."""

        def work(store: Store) -> BrewLog:
            take_in(store)
            log = log_in(store, store.brews.by_uid(uid))
            remove_journals(store.folder, uid)
            store.brews.delete(log.brew.id)
            return log

        def done(log: BrewLog) -> None:
            if uid in self._open:
                mine = self._open[uid]
                mine.on_disk, mine.in_store, mine.is_deleted = set(), set(), True
            self.changed.emit()
            then(log)

        self._link.store.ask(work, done, failed)

    def put_back(self, log: BrewLog) -> None:
        """Put back a brew as `delete` told of it."""
        self.begin(log.brew)
        mine, lines = self._open[log.brew.uid], [each for each in log.lines if each.get("id")]
        mine.is_deleted = False
        mine.lines |= {line["id"]: line for line in lines}
        self._keep(mine, lines)

    def close(self, within_s: float) -> None:
        """Wait until the disk has what was logged, but not for ever; then let it go."""
        self._again.stop()
        self._patience.stop()
        if not self.settled:
            over = Event()
            self._disk.ask(over.set, _nothing, _nothing)
            over.wait(within_s)
        self._disk.stop()
        for log in self._open.values():
            log.journal.close()


def _told(entries: Iterable[Entry]) -> set[What]:
    return {entry.what for entry in what_counts(entries).live}


def _is_under_way(entries: Iterable[Entry]) -> bool:
    told = _told(entries)
    return What.BEGAN in told and What.FINISHED not in told


def _nothing(_: object) -> None:
    """What follows where nothing has to."""


def log_in(store: Store, brew: Brew) -> BrewLog:
    """Return a brew of the store with its log."""
    lines = tuple(line.entry for line in store.brews.lines(brew.id))
    return BrewLog(brew, in_order(entries_of(lines)), lines)


def _in_journals(folder: Path) -> list[BrewLog]:
    """Return the logs that lie beside a store, each brew once."""
    logs: dict[str, BrewLog] = {}
    for kept in journals(folder):
        before = logs[kept.brew.uid].entries if kept.brew.uid in logs else ()
        entries = in_order((*before, *entries_of(kept.entries)))
        logs[kept.brew.uid] = BrewLog(kept.brew, entries)
    return list(logs.values())
