"""Reading a store that cannot be written: its drive or folder is read-only.

A store with write-ahead logging needs files beside it even to be read. So: ask SQLite; else read a
copy that the log is applied to (what was saved last is only there); else the file alone, which is
whole when there is no log (https://www.sqlite.org/wal.html, "Read-Only Databases").
"""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from designer.library.store.connection import Connection, Waiting, connected
from designer.library.store.faults import gone, in_words, system_words
from designer.library.store.folder import BESIDE

if TYPE_CHECKING:
    import sqlite3


def read_only_connection(
    path: Path, why: str, *, patience_s: float, waiting: Waiting | None = None
) -> Connection:
    """Return a connection that reads, and says `why` it cannot write. Raises DesignerError."""
    import sqlite3

    folder: tempfile.TemporaryDirectory[str] | None = None
    try:
        conn = _asked(path)
        if conn is None and _has_log(path):
            folder = tempfile.TemporaryDirectory(prefix="hobwort-", ignore_cleanup_errors=True)
            conn = _of_copy(path, Path(folder.name))
        if conn is None:
            conn = connected(path, "immutable=1")
            _try(conn)
    except sqlite3.Error as fault:
        raise in_words(fault, path) from fault
    except OSError as fault:
        raise system_words(fault, path, "Reading the Recipe box") from fault
    connection = Connection(
        path,
        conn,
        read_only=why,
        patience_s=patience_s,
        waiting=waiting,
        when_closed=None if folder is None else folder.cleanup,
    )
    connection.patiently(connection.prepare)
    return connection


def _try(conn: sqlite3.Connection) -> None:
    conn.execute("select count(*) from sqlite_master").fetchone()


def _asked(path: Path) -> sqlite3.Connection | None:
    """Return a reading connection if SQLite can make one as things are."""
    import sqlite3

    conn = None
    try:
        conn = connected(path, "mode=ro")
        _try(conn)
    except sqlite3.OperationalError:
        if conn is not None:
            conn.close()
        return None
    return conn


def _has_log(path: Path) -> bool:
    log = Path(f"{path}-wal")
    return log.exists() and log.stat().st_size > 0


def _of_copy(path: Path, folder: Path) -> sqlite3.Connection:
    """Return a connection to a copy with its log, so that what was saved last is seen."""
    for ending in BESIDE[:3]:
        source = Path(f"{path}{ending}")
        if source.exists():
            shutil.copyfile(source, folder / source.name)
    if not (folder / path.name).exists():
        raise gone(path)
    conn = connected(folder / path.name)
    conn.execute("pragma query_only=on")
    _try(conn)
    return conn
