"""One thread's connection to the store: short transactions, patience, faults in plain words.

Write-ahead logging lets others read while one writes; SQLite itself waits 200 ms for a lock, and we
try again until our patience ends, so call from a worker, never from the thread that paints. A
commit waits for the disk (`synchronous=FULL`, SQLite's own default): what it confirmed outlives the
process and the power.
"""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar
from urllib.parse import quote

from designer.errors import RefusedInputError
from designer.library.store.faults import StoreReadOnlyError, damaged, gone, in_words, is_busy
from designer.once_asked import put_off
from designer.recipe.message import word
from designer.translation import message, tr

if TYPE_CHECKING:
    from sqlite_utils import Database

BUSY_TIMEOUT_MS = 200
PATIENCE_S = 40.0
CACHE_KIB = 16_000
LARGEST_LOG = 8_000_000
PAUSE_S = 0.02
HALF_A_SIGN = message(
    "The text holds half a character, which no file can store; type that character again."
)
T = TypeVar("T")
Waiting = Callable[[float], bool]


def connected(path: Path, query: str = "") -> sqlite3.Connection:
    """Return a bare connection to a file that exists; `query` is that of SQLite's file URI.

    Its first look at the file is made here. Raises sqlite3.Error.
    """
    place = path.absolute().as_posix()
    slash = "" if place.startswith("/") else "/"  # a drive letter of Windows
    uri = f"file://{slash}{quote(os.fsencode(place))}?{query or 'mode=rw'}"
    connection = sqlite3.connect(
        uri, uri=True, timeout=BUSY_TIMEOUT_MS / 1000.0, isolation_level=None
    )
    try:
        connection.execute(f"pragma busy_timeout={BUSY_TIMEOUT_MS}")
    except BaseException:
        connection.close()
        raise
    return connection


def database(connection: sqlite3.Connection) -> Database:
    """Return a bare connection as sqlite-utils takes it."""
    # Loads numpy where that is installed: the store's own thread waits for it, not the window's.
    put_off("dateutil.parser")  # thirty modules that read dates in texts; the store has none
    # For its own commands, and bars of progress; here it says of what kind an argument would be.
    put_off("click", Group=object)
    from sqlite_utils import Database

    return Database(connection, execute_plugins=False)


def inserted(db: Database, table: str, row: dict[str, Any], *, replace: bool = False) -> int:
    """Put a row into a table, in place of one with the same keys if asked; return its number."""
    # By hand, for drafts are put with every change and recipes by thousands: sqlite-utils looks up
    # how a table is made before each insert, which takes 0.15 ms, five times the insert itself.
    columns, marks = ", ".join(row), ", ".join("?" * len(row))
    way = "insert or replace" if replace else "insert"
    cursor = db.conn.execute(
        f"{way} into {table} ({columns}) values ({marks})", tuple(row.values())
    )
    return int(cursor.lastrowid or 0)


def as_text(raw: bytes) -> str:
    """Return the text of bytes, with a sign of its own for those that are none."""
    return raw.decode("utf-8", "replace")


class Connection:
    """Reads and writes for one thread. `read_only` says why nothing can be written, else ""."""

    def __init__(
        self,
        path: Path,
        connection: sqlite3.Connection,
        *,
        read_only: str = "",
        patience_s: float = PATIENCE_S,
        waiting: Waiting | None = None,
        when_closed: Callable[[], object] | None = None,
    ) -> None:
        self.path = path
        self.read_only = read_only
        self.patience_s = patience_s
        self.waiting = waiting
        self._when_closed = when_closed
        self.db = database(connection)
        self._file = None if read_only else _file_of(path)

    def prepare(self) -> None:
        """Set what SQLite forgets with each connection; write-ahead logging where it works."""
        conn = self.db.conn
        conn.execute("pragma foreign_keys=on")
        conn.execute("pragma trusted_schema=off")
        conn.execute(f"pragma cache_size=-{CACHE_KIB}")
        if not self.read_only:
            conn.execute("pragma journal_mode=wal")  # stays as it was on a drive that cannot
            conn.execute("pragma synchronous=full")
            conn.execute(f"pragma journal_size_limit={LARGEST_LOG}")

    def rows(self, sql: str, values: Sequence[object] = ()) -> list[dict[str, Any]]:
        """Return all rows of a query. Raises DesignerError."""
        return self.patiently(lambda: list(self.db.query(sql, tuple(values))))

    def tuples(self, sql: str, values: Sequence[object] = ()) -> list[Any]:
        """Return all rows of a query, none made a dict: for those of which there may be many.

        Raises DesignerError.
        """
        conn = self.db.conn
        return self.patiently(lambda: conn.execute(sql, tuple(values)).fetchall())

    def row(self, sql: str, values: Sequence[object] = ()) -> dict[str, Any] | None:
        """Return the first row of a query, or None. Raises DesignerError."""
        return next(iter(self.rows(sql, values)), None)

    def write(self, work: Callable[[Database], T]) -> T:
        """Return what `work` returns once all it wrote is safe on the disk.

        All of it is kept or nothing. `work` may be run again while another program holds the
        store. Raises DesignerError.
        """
        if self.read_only:
            raise StoreReadOnlyError(self.read_only)
        if self.db.conn.in_transaction:
            return work(self.db)
        return self.patiently(lambda: self._transaction(work))

    def _transaction(self, work: Callable[[Database], T]) -> T:
        conn = self.db.conn
        self._be_there()
        conn.execute("begin immediate")
        try:
            result = work(self.db)
            conn.execute("commit")
        except BaseException:
            if conn.in_transaction:
                conn.execute("rollback")
            raise
        self._be_there()
        return result

    def _be_there(self) -> None:
        """Refuse to write into a file that was taken away: SQLite would, and say it is fine."""
        if self._file != _file_of(self.path):
            raise gone(self.path)

    @property
    def is_outdated(self) -> bool:
        """Whether the file was taken away or replaced, or one that was only read can be written."""
        if self.read_only:
            return may_write(self.path)
        return self._file != _file_of(self.path)

    def patiently(self, work: Callable[[], T]) -> T:
        """Return what `work` returns, tried again while another program holds the store.

        `waiting` is called with the seconds waited after each try; it ends the wait by returning
        False. Raises DesignerError.
        """
        start = time.monotonic()
        while True:
            try:
                return work()
            except sqlite3.OperationalError as fault:
                waited = time.monotonic() - start
                if not is_busy(fault) or not self._waits_on(waited):
                    raise in_words(fault, self.path) from fault
            except (sqlite3.DatabaseError, sqlite3.InterfaceError) as fault:
                if isinstance(fault, sqlite3.ProgrammingError):
                    raise
                raise in_words(fault, self.path) from fault
            except UnicodeDecodeError as fault:
                raise damaged(self.path, tr("a text in it is not text")) from fault
            except UnicodeEncodeError as fault:
                raise RefusedInputError(word(HALF_A_SIGN)) from fault
            time.sleep(PAUSE_S)

    def _waits_on(self, waited: float) -> bool:
        if waited > self.patience_s:
            return False
        return self.waiting is None or self.waiting(waited)

    def close(self) -> None:
        """Close; what was not committed is dropped."""
        self.db.close()
        if self._when_closed is not None:
            self._when_closed()


def may_write(path: Path) -> bool:
    """Tell whether the system lets a store's file be written, and files be made beside it."""
    return os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)


def _file_of(path: Path) -> tuple[int, int] | None:
    """Return what tells a file from another that takes its name; None if it is not there."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino
