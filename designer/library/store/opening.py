"""Opening the store: made whole or not at all, brought up to date, or read-only with the reason.

A new store is built beside its place and moved there when it is complete. So a file of no bytes is
never a store in the making, and is not taken for one (SQLite would take it for a new database).
"""

from __future__ import annotations

import os
from collections.abc import Callable
from contextlib import closing, suppress
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from designer.library.store import steps
from designer.library.store.backups import make_backup
from designer.library.store.changes import new_life
from designer.library.store.connection import Connection, Waiting, connected, may_write
from designer.library.store.faults import (
    NOT_AS_MADE,
    StoreDamagedError,
    StoreReadOnlyError,
    damaged,
    faults_told,
    shown,
)
from designer.library.store.files import beside_of, move_into_place, set_aside
from designer.library.store.folder import store_path
from designer.library.store.folder_check import refuse_unfit
from designer.library.store.reading_only import read_only_connection
from designer.recipe.message import say
from designer.translation import message, tr, trn

if TYPE_CHECKING:
    from sqlite_utils import Database

OPENING = message("Opening the Recipe box in")
READ_ONLY = message(
    "The Recipe box {where} is opened for reading only: {reason}. You can look at everything and "
    "export it, but nothing is kept there. To change recipes, allow writing there and try again, "
    "or choose another folder: everything is copied to it."
)


def opened(
    folder: Path, *, fresh: bool, expected: bool = False, patience_s: float, waiting: Waiting | None
) -> Connection:
    """Return a connection to the store in a folder: see `Store.open`. Raises DesignerError."""
    path = store_path(folder)
    with faults_told(folder, tr(OPENING)):
        refuse_unfit(folder, fresh=fresh, expected=expected)
        if not path.exists():
            make_new(path)
        if path.stat().st_size == 0:
            raise StoreDamagedError(
                say(
                    "box-empty",
                    "The Recipe box {path} is empty: its content was lost, perhaps with the "
                    "disk's power. Set it aside and go on with the newest backup.",
                    path=shown(path),
                )
            )
        connection = _for_writing(path, patience_s, waiting) if may_write(path) else None
        return connection or _for_reading(path, patience_s, waiting)


def make_new(path: Path) -> None:
    """Build an empty store and move it into place, unless another process was quicker."""
    with faults_told(path, tr("Making the Recipe box")):
        set_aside(path)  # a log without its file would be taken for a part of the new one
        beside = beside_of(path)
        try:
            _in_one_go(beside, _upgrade)
            move_into_place(beside, path)
        finally:
            beside.unlink(missing_ok=True)


def made_current(path: Path) -> None:
    """Bring a copy of a store up to date and give it a new life. Raises DesignerError."""

    def work(db: Database) -> None:
        _upgrade(db)
        new_life(db)

    _in_one_go(path, work)


def _in_one_go(path: Path, work: Callable[[Database], None]) -> None:
    """Change a file that no one else has open; afterwards there is no log beside it."""
    with faults_told(path, tr(OPENING)), closing(Connection(path, connected(path))) as connection:
        connection.db.conn.execute("pragma journal_mode=delete")
        connection.write(work)


def _upgrade(db: Database) -> None:
    is_new = not steps.is_store(db)
    steps.migrations().apply(db)
    steps.mark_tables(db)
    if is_new:
        new_life(db)


def _for_writing(path: Path, patience_s: float, waiting: Waiting | None) -> Connection | None:
    """Return a connection, brought up to date; None if the store cannot be written after all."""
    with faults_told(path, tr(OPENING)):
        conn = connected(path)
    connection = Connection(path, conn, patience_s=patience_s, waiting=waiting)
    try:
        connection.patiently(connection.prepare)
        _look_who_wrote_it(connection)
        pending = steps.migrations().pending
        if not connection.read_only and connection.patiently(lambda: pending(connection.db)):
            _back_up_first(connection)
            connection.write(_upgrade)
    except StoreReadOnlyError:
        connection.close()
        return None
    except BaseException:
        connection.close()
        raise
    return connection


def _why_not_written(path: Path) -> str:
    """Return what does not allow writing: the disk, the file, or the folder."""
    with suppress(OSError, AttributeError):  # only POSIX tells it of a disk
        if os.statvfs(path).f_flag & os.ST_RDONLY:
            return tr("the disk is read-only")
    if not os.access(path, os.W_OK):
        return tr("the program has no permission to write that file")
    if not os.access(path.parent, os.W_OK):
        return tr("the program has no permission to write in that folder")
    return tr("the disk does not allow writing")


def _for_reading(path: Path, patience_s: float, waiting: Waiting | None) -> Connection:
    """Return a connection that reads; an older store is read from a copy brought up to date."""
    opener = partial(
        read_only_connection,
        path,
        tr(READ_ONLY, where=shown(path), reason=_why_not_written(path)),
        patience_s=patience_s,
        waiting=waiting,
    )
    connection = opener()
    try:
        _look_who_wrote_it(connection)
        is_old = bool(steps.migrations().pending(connection.db))
    except BaseException:
        connection.close()
        raise
    if not is_old:
        return connection
    connection.close()
    return opener(upgrade=lambda copy: _in_one_go(copy, _upgrade))


def _back_up_first(connection: Connection) -> None:
    """Keep the store as the older program left it."""
    make_backup(connection, forced=True)


def _look_who_wrote_it(connection: Connection) -> None:
    """Leave a newer program's store unchanged. Raises StoreDamagedError for no store of ours."""
    if not connection.patiently(lambda: steps.is_store(connection.db)):
        raise StoreDamagedError(
            say(
                "other-database",
                "{path} is a database, but not a Recipe box. It was left as it is. Move it "
                "elsewhere, or name another folder.",
                path=shown(connection.path),
            )
        )
    newer = connection.patiently(lambda: steps.unknown_steps(connection.db))
    if newer:
        connection.read_only = _newer(len(newer))
        connection.db.conn.execute("pragma query_only=on")
    elif not connection.patiently(lambda: steps.has_its_tables(connection.db.conn)):
        raise damaged(connection.path, tr(NOT_AS_MADE))
    else:
        strange = connection.patiently(lambda: steps.runs_by_itself(connection.db.conn))
        if strange:
            reason = tr("it holds {strange}, which no Recipe box has", strange=strange)
            raise damaged(connection.path, reason)


def _newer(steps: int) -> str:
    return trn(
        "This Recipe box was last used by a newer Hobwort (a change it does not know here). You "
        "can look at everything and export it, but not change it. Update the program to go on "
        "with it.",
        "This Recipe box was last used by a newer Hobwort ({number} changes it does not know "
        "here). You can look at everything and export it, but not change it. Update the program "
        "to go on with it.",
        steps,
    )
