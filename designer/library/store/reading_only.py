"""Reading a store that cannot be written: its drive or folder is read-only.

A store with write-ahead logging needs files beside it even to be read. So: ask SQLite; else read a
copy that the log is applied to (what was saved last is only there); else the file alone, which is
whole when there is no log (https://www.sqlite.org/wal.html, "Read-Only Databases").
"""

from __future__ import annotations

import shutil
import sqlite3
import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from designer.library.store.connection import Connection, Waiting, connected
from designer.library.store.faults import faults_told
from designer.library.store.files import BESIDE
from designer.translation import tr


def read_only_connection(
    path: Path,
    why: str,
    *,
    patience_s: float,
    waiting: Waiting | None = None,
    upgrade: Callable[[Path], None] | None = None,
) -> Connection:
    """Return a connection that reads, and says `why` it cannot write.

    `upgrade` brings a copy up to date, which is read then. Raises DesignerError.
    """
    copies = tempfile.TemporaryDirectory(prefix="hobwort-", ignore_cleanup_errors=True)
    with faults_told(path, tr("Reading the Recipe box")):
        try:
            conn = _readable(path, Path(copies.name), upgrade)
        except BaseException:
            copies.cleanup()
            raise
    connection = Connection(
        path,
        conn,
        read_only=why,
        patience_s=patience_s,
        waiting=waiting,
        when_closed=copies.cleanup,
    )
    connection.prepare()
    return connection


def _readable(
    path: Path, folder: Path, upgrade: Callable[[Path], None] | None
) -> sqlite3.Connection:
    if upgrade is None:
        with suppress(sqlite3.OperationalError):
            return _tried(connected(path, "mode=ro"))
    if upgrade is None and not _has_log(path):
        return _tried(connected(path, "immutable=1"))
    copy = _copied(path, folder)
    if upgrade is not None:
        upgrade(copy)
    return _tried(connected(copy))


def _tried(conn: sqlite3.Connection) -> sqlite3.Connection:
    """Return the connection if it can be read, for reading alone; else close it."""
    try:
        conn.execute("pragma query_only=on")
        conn.execute("select count(*) from sqlite_master").fetchone()
    except BaseException:
        conn.close()
        raise
    return conn


def _has_log(path: Path) -> bool:
    log = Path(f"{path}-wal")
    return log.exists() and log.stat().st_size > 0


def _copied(path: Path, folder: Path) -> Path:
    """Return a copy of the file with its log, so that what was saved last is seen."""
    for ending in BESIDE[:3]:
        source = Path(f"{path}{ending}")
        if source.exists():
            shutil.copyfile(source, folder / source.name)
    return folder / path.name
