"""Backups of the store, made while it is in use, each opened and checked before it counts.

They are copied by SQLite's backup interface (https://www.sqlite.org/backup.html). Which are kept is
said in `backup_files`.
"""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Callable
from contextlib import closing, suppress
from datetime import UTC, datetime
from pathlib import Path

from designer.errors import DesignerError
from designer.library.store.backup_files import Backup, affordable, backups, kept_of, room_for
from designer.library.store.backup_keeping import keeping_of
from designer.library.store.connection import Connection, connected
from designer.library.store.faults import StoreDamagedError, busy, faults_told, shown, system_words
from designer.library.store.files import BESIDE, UNFINISHED, beside_of
from designer.library.store.folder import BACKUP_FOLDER
from designer.library.store.health import NEWER, SOUND, check
from designer.recipe.message import say
from designer.translation import message, tr

COPYING = message("Copying the Recipe box to")
PAGES_AT_ONCE = 2000
Told = Callable[[int, int], bool]
"""Hears how much of a copy is done and of how much; returns False to end it."""
A_DAY_S = 86_400.0


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
    with faults_told(within, tr("Making a backup in")):
        within.mkdir(exist_ok=True)
    _clear_away(folder, within)
    copy_store(connection, target, told)
    made = Backup(target, number, datetime.now(UTC))
    room = room_for(made.size, keeping_of(folder).room_bytes)
    kept = affordable(kept_of([made, *old]), room)
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
    _refuse_own_file(connection.path, target)
    beside = beside_of(target)
    try:
        with faults_told(target, tr(COPYING)):
            with closing(connected(beside)) as conn:
                _copy(connection, conn, told)
                conn.execute("pragma journal_mode=delete")
            health = check(beside)
            if health.state not in (SOUND, NEWER):
                raise StoreDamagedError(
                    say(
                        "copy-unreadable",
                        "The copy {target} could not be read back and was not kept: {health} "
                        "Check the disk; the Recipe box itself is as it was.",
                        target=shown(target),
                        health=health.words,
                    )
                )
            _flush(beside)
            beside.replace(target)
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
        raise system_words(told, target, tr(COPYING)) from fault
    if is_own:
        raise DesignerError(
            say(
                "copy-onto-box",
                "{target} is the Recipe box itself, so no copy of it was written there. Choose "
                "another name, best on another disk.",
                target=shown(target),
            )
        )


def _is_same(own: Path, target: Path) -> bool:
    if os.path.normcase(own.resolve()) == os.path.normcase(target.resolve()):
        return True
    return own.exists() and target.exists() and own.samefile(target)


def _copy(connection: Connection, target: sqlite3.Connection, told: Told | None) -> None:
    source, look = connection.db.conn, patience(connection)
    if told is None:
        source.backup(target, progress=look)
        return

    def tell(code: int, left: int, pages: int) -> None:
        look(code, left, pages)
        if not told(pages - left, pages):
            raise DesignerError(
                say("copy-stopped", "The copy was stopped; nothing of it was kept.")
            )

    # Within one reading the store stays what it was at its beginning: else each save of another
    # connection would have the copy begin anew.
    source.execute("begin")
    try:
        source.execute("select count(*) from sqlite_master").fetchone()
        source.backup(target, pages=PAGES_AT_ONCE, progress=tell)
    finally:
        source.execute("rollback")


def patience(connection: Connection) -> Callable[[int, int, int], None]:
    """Return what ends a copy that waits too long: SQLite's interface would wait for ever."""
    end = time.monotonic() + connection.patience_s

    def look(code: int, _left: int, _pages: int) -> None:
        if code & 0xFF in (5, 6) and time.monotonic() > end:
            raise busy(connection.path)

    return look


def _flush(path: Path) -> None:
    with path.open("r+b") as file:
        os.fsync(file.fileno())


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
