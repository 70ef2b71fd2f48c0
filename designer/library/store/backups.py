"""Backups of the store, made while it is in use, each opened and checked before it counts.

They are copied by SQLite's backup interface (https://www.sqlite.org/backup.html) and numbered:
order comes from the number, so that a clock set back neither hides nor drops one. Which are kept is
said in `backup_choice`.
"""

from __future__ import annotations

import os
import re
import time
from collections.abc import Callable
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from designer.errors import DesignerError
from designer.library.store.backup_choice import affordable, kept_of, room_for
from designer.library.store.connection import Connection, connected
from designer.library.store.faults import (
    StoreDamagedError,
    busy,
    in_words,
    shown,
    system_words,
)
from designer.library.store.folder import BACKUP_FOLDER, BESIDE, drop
from designer.library.store.health import NEWER, SOUND, check
from designer.library.store.opening import UNFINISHED, beside_of, made_current, make_new
from designer.library.store.taking_over import TakenOver, take_over

if TYPE_CHECKING:
    import sqlite3

PAGES_AT_ONCE = 2000
Told = Callable[[int, int], bool]
"""Hears how much of a copy is done and of how much; returns False to end it."""
A_DAY_S = 86_400.0
_NAME = re.compile(r"(\d{6,})-(\d{4}-\d{2}-\d{2})-(\d{6})\.db")


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup: its file, its number, and when it was made by the clock of that time (UTC)."""

    path: Path
    number: int
    made: datetime

    @property
    def size(self) -> int:
        """Its size in bytes."""
        return self.path.stat().st_size


def backups(folder: Path) -> list[Backup]:
    """Return the backups of the store in a folder, the newest first. Raises DesignerError."""
    within = folder / BACKUP_FOLDER
    try:
        found = [_backup(path) for path in within.iterdir()] if within.is_dir() else []
    except OSError as fault:
        raise system_words(fault, within, "Looking for backups in") from fault
    return sorted((each for each in found if each), key=lambda each: each.number, reverse=True)


def _backup(path: Path) -> Backup | None:
    matched = _NAME.fullmatch(path.name)
    if matched is None:
        return None
    try:
        made = datetime.strptime(f"{matched[2]} {matched[3]}", "%Y-%m-%d %H%M%S")
    except ValueError:
        return None
    return Backup(path, int(matched[1]), made.replace(tzinfo=UTC))


def make_backup(
    connection: Connection,
    *,
    forced: bool = False,
    spare: Path | None = None,
    told: Told | None = None,
) -> Backup | None:
    """Make a backup, check it, and drop those no longer needed; None if nothing changed since.

    `spare` is the file of one that is not dropped now, for it is about to be read; `told` hears
    how far it is. Raises DesignerError; a backup that could not be finished leaves nothing behind,
    and no older one is dropped.
    """
    folder = connection.path.parent
    old = backups(folder)
    if old and not forced and _same(connection, old[0]):
        return None
    within = folder / BACKUP_FOLDER
    number = old[0].number + 1 if old else 1
    target = within / f"{number:06d}-{datetime.now(UTC):%Y-%m-%d-%H%M%S}.db"
    try:
        within.mkdir(exist_ok=True)
    except OSError as fault:
        raise system_words(fault, within, "Making a backup in") from fault
    _clear_away(folder, within)
    copy_store(connection, target, told)
    made = Backup(target, number, datetime.now(UTC))
    kept = affordable(kept_of([made, *old]), room_for(made.size))
    for each in old:
        if each not in kept and each.path != spare:
            with suppress(OSError):
                each.path.unlink()
    return made


def _clear_away(*folders: Path) -> None:
    """Delete what processes that were killed left half written, more than a day ago."""
    for folder in folders:
        for path in folder.glob(f"{UNFINISHED}*"):
            with suppress(OSError):
                if time.time() - path.stat().st_mtime > A_DAY_S:
                    path.unlink()


def _same(connection: Connection, backup: Backup) -> bool:
    """Tell whether nothing was written since a backup was made."""
    import sqlite3

    mark = "select (select value from about where key = 'life'), (select max(id) from changes)"
    try:
        with closing(connected(backup.path, "mode=ro")) as conn:
            theirs = conn.execute(mark).fetchone()
    except sqlite3.Error:
        return False
    mine = connection.row(f"{mark} as last")
    return mine is not None and tuple(mine.values()) == tuple(theirs)


def copy_store(connection: Connection, target: Path, told: Told | None = None) -> None:
    """Write all that a store holds into one file, checked before it takes its name.

    An older file of that name is replaced only then; `told` hears how far it is. Raises
    DesignerError, for one of the store's own files as well, by whatever name.
    """
    import sqlite3

    _refuse_own_file(connection.path, target)
    beside = beside_of(target)
    try:
        with closing(connected(beside)) as conn:
            _copy(connection, conn, told)
            conn.execute("pragma journal_mode=delete")
        health = check(beside)
        if health.state not in (SOUND, NEWER):
            raise StoreDamagedError(
                f"The copy {shown(target)} could not be read back and was not kept: "
                f"{health.words} Check the disk; the Recipe box itself is as it was."
            )
        _flush(beside)
        beside.replace(target)
    except sqlite3.Error as fault:
        raise in_words(fault, target) from fault
    except OSError as fault:
        raise system_words(fault, target, "Copying the Recipe box to") from fault
    finally:
        with suppress(OSError):
            beside.unlink(missing_ok=True)


def _refuse_own_file(path: Path, target: Path) -> None:
    """Do not let a copy take the place of what it is a copy of, or of its log."""
    own = [Path(f"{path}{ending}") for ending in BESIDE]
    try:
        is_own = any(_is_same(each, target) for each in own)
    except (OSError, RuntimeError) as fault:
        told = fault if isinstance(fault, OSError) else OSError(str(fault))
        raise system_words(told, target, "Copying the Recipe box to") from fault
    if is_own:
        raise DesignerError(
            f"{shown(target)} is the Recipe box itself, so no copy of it was written there. "
            "Choose another name, best on another disk."
        )


def _is_same(own: Path, target: Path) -> bool:
    if os.path.normcase(own.resolve()) == os.path.normcase(target.resolve()):
        return True
    return own.exists() and target.exists() and own.samefile(target)


def _copy(connection: Connection, target: sqlite3.Connection, told: Told | None) -> None:
    source, look = connection.db.conn, _patience(connection)
    if told is None:
        source.backup(target, progress=look)
        return

    def tell(code: int, left: int, pages: int) -> None:
        look(code, left, pages)
        if not told(pages - left, pages):
            raise DesignerError("The copy was stopped; nothing of it was kept.")

    # Within one reading the store stays what it was at its beginning: else each save of another
    # connection would have the copy begin anew.
    source.execute("begin")
    try:
        source.execute("select count(*) from sqlite_master").fetchone()
        source.backup(target, pages=PAGES_AT_ONCE, progress=tell)
    finally:
        source.execute("rollback")


def _patience(connection: Connection) -> Callable[[int, int, int], None]:
    """Return what ends a copy that waits too long: SQLite's interface would wait for ever."""
    end = time.monotonic() + connection.patience_s

    def look(code: int, _left: int, _pages: int) -> None:
        if code & 0xFF in (5, 6) and time.monotonic() > end:
            raise busy(connection.path)

    return look


def _flush(path: Path) -> None:
    with path.open("r+b") as file:
        os.fsync(file.fileno())


def bring_back(connection: Connection, source: Path) -> Backup | None:
    """Put a backup, or a copy of everything, in place of what the store holds now.

    Its rows are taken over into a store freshly made, never the file. What the store holds now is
    made a backup first; that one is returned. Other windows see the store as changed. Raises
    DesignerError; then the store is as it was.
    """
    import sqlite3

    if connection.read_only:
        raise DesignerError(connection.read_only)
    refuse_unsound(source)
    before = make_backup(connection, forced=True, spare=source)
    staged = beside_of(connection.path)
    try:
        fill_anew(source, staged, connection.path.parent)
        with closing(connected(staged, "mode=ro")) as conn:
            conn.backup(connection.db.conn, progress=_patience(connection))
        connection.patiently(connection.prepare)
    except sqlite3.Error as fault:
        raise in_words(fault, connection.path) from fault
    finally:
        drop(staged)
    return before


def refuse_unsound(source: Path) -> None:
    """Raise StoreDamagedError for a file that cannot be brought back, with what there is of it."""
    health = check(source)
    if health.state != SOUND:
        raise StoreDamagedError(
            f"{shown(source)} cannot be brought back: {health.words} Choose another backup."
        )


def fill_anew(source: Path, target: Path, folder: Path) -> TakenOver:
    """Make `target` a store with what a sound file holds, up to date and with a new life.

    `folder` is that of the box. Raises DesignerError.
    """
    import sqlite3

    drop(target)
    make_new(target)
    try:
        is_own = source.resolve().parent == (folder / BACKUP_FOLDER).resolve()
        taken = take_over(source, target, from_elsewhere=not is_own)
    except sqlite3.Error as fault:
        raise in_words(fault, source) from fault
    except OSError as fault:
        raise system_words(fault, source, "Reading") from fault
    made_current(target)
    return taken


def newest_sound(folder: Path) -> Backup | None:
    """Return the newest backup whose every text is whole, else the newest that can be opened.

    None if there is none. Raises DesignerError.
    """
    openable = None
    for each in backups(folder):
        if check(each.path, deep=True).state == SOUND:
            return each
        if openable is None and check(each.path).state == SOUND:
            openable = each
    return openable
