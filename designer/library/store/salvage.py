"""Reading what can be read of a damaged store, row by row, into a new one.

It works on a copy, whose first page is mended where it is known what must stand there: the name of
the format and the number of pages (https://www.sqlite.org/fileformat.html, 1.3). A row counts only
if it is what was written: a version's text must match its fingerprint. Rows are taken from the
damaged file first, it is the newer one; a backup gives those that could not be read.
"""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from designer.library.store.connection import as_text, connected
from designer.library.store.folder import BESIDE
from designer.library.store.shapes import KEPT, shapes
from designer.library.store.taking_over import make_whole, put_rows

if TYPE_CHECKING:
    import sqlite3

MAGIC = b"SQLite format 3\0"
FARTHEST = 5000
"""How many numbers without a row are tried where it is not known which is the last."""


@dataclass(slots=True)
class Salvaged:
    """How many rows of each table were read, came from the backup, or could not be read."""

    readable: dict[str, int] = field(default_factory=dict)
    from_backup: int = 0
    unreadable: int = 0


def salvage(damaged: Path, backup: Path | None, target: Path) -> Salvaged:
    """Fill the empty store `target` from a damaged one and a backup; return what was found.

    Raises OSError for a file that cannot be read at all, sqlite3.Error for a target that cannot
    be written.
    """
    found = Salvaged()
    with closing(connected(target)) as into, tempfile.TemporaryDirectory() as name:
        into.execute("pragma foreign_keys=off")
        into.execute("begin immediate")
        source = _mended_copy(damaged, Path(name))
        with closing(source):
            for table in KEPT:
                found.readable[table] = _copied(source, into, table, found)
        if backup is not None:
            with closing(connected(backup, "mode=ro")) as second:
                found.from_backup = sum(_copied(second, into, each, None) for each in KEPT)
        make_whole(into)
        into.execute("commit")
    return found


def _mended_copy(path: Path, folder: Path) -> sqlite3.Connection:
    """Return a connection to a copy that SQLite reads in spite of a wrong length or first bytes."""
    for ending in BESIDE[:3]:
        source = Path(f"{path}{ending}")
        if source.exists():
            shutil.copyfile(source, folder / f"damaged{ending}")
    copy = folder / "damaged"
    copy.touch()
    with copy.open("r+b") as file:
        head = file.read(100)
        if len(head) == 100:
            file.seek(0)
            file.write(MAGIC)
            size = int.from_bytes(head[16:18], "big")
            size = 65536 if size == 1 else size
            pages = int.from_bytes(head[28:32], "big")
            if 512 <= size <= 65536 and 0 < pages < 10_000_000:
                file.truncate(max(size * pages, file.seek(0, 2)))
    conn = connected(copy)
    conn.text_factory = as_text
    conn.execute("pragma writable_schema=on")  # read on where the schema has faults
    return conn


def _copied(
    source: sqlite3.Connection, into: sqlite3.Connection, table: str, found: Salvaged | None
) -> int:
    """Copy the rows of a table that can be read and are not there yet; return how many."""
    shape = shapes()[table]
    names = {each.name for each in shape.columns}
    read = (
        {name: row[name] for name in row if name in names} for row in _rows(source, table, found)
    )
    put, left_out = put_rows(into, shape, read)
    if found is not None:
        found.unreadable += left_out
    return put


def _rows(
    source: sqlite3.Connection, table: str, found: Salvaged | None
) -> Iterator[dict[str, Any]]:
    """Walk a table from its beginning, then from its end, then try the numbers in between."""
    met: list[int] = []
    whole = yield from _walk(source, f"select rowid as _n, * from {table} order by rowid", met)
    if whole:
        return
    first = met[-1] if met else 0
    met.clear()
    yield from _walk(source, f"select rowid as _n, * from {table} order by rowid desc", met, first)
    lost = yield from _one_by_one(source, table, first + 1, met[-1] if met else None)
    if found is not None:  # where the table's end is not known, neither is how many are lost
        found.unreadable += lost if met else min(lost, 1)


def _one_by_one(source: sqlite3.Connection, table: str, first: int, last: int | None) -> Any:
    """Yield the rows of single numbers; without a last one until none is met for long.

    Returns how many could not be read.
    """
    one = f"select rowid as _n, * from {table} where rowid = ?"
    lost, latest, number = 0, first, first
    while number < last if last is not None else number < latest + FARTHEST:
        met: list[int] = []
        lost += not (yield from _walk(source, one, met, values=(number,)))
        latest = number if met else latest
        number += 1
    return lost


def _walk(
    source: sqlite3.Connection,
    sql: str,
    met: list[int],
    until: int = 0,
    values: tuple[object, ...] = (),
) -> Any:
    """Yield rows until there are no more or one cannot be read; return whether all were read."""
    import sqlite3

    try:
        cursor = source.execute(sql, values)
        names = [each[0] for each in cursor.description]
        for row in cursor:
            found = dict(zip(names, row, strict=True))
            number = found.pop("_n", 0)
            if until and number <= until:
                return True
            met.append(number)
            yield found
    except (sqlite3.DatabaseError, OverflowError, UnicodeDecodeError):
        return False
    return True
