"""Reading what can be read of a damaged store, row by row, into a new one.

It works on a copy. SQLite is asked first, for it knows which rows are the present ones; then the
file's pages are read without it, for rows that it does not come to: behind a torn page, a lost
schema, a first page of zeros. A row counts only if it is what was written: a version's text must
match its fingerprint. Rows are taken from the damaged file first, it is the newer one; a backup
gives those that could not be read.
"""

from __future__ import annotations

import os
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from designer.library.store.connection import as_text, connected
from designer.library.store.contents import Contents, contents_of, counted_versions
from designer.library.store.file_pages import MAGIC, SIZES, page_states
from designer.library.store.files import BESIDE
from designer.library.store.records import rows_on
from designer.library.store.table_shapes import Shape, shapes
from designer.library.store.taking_over import (
    count_on_from,
    guarded,
    make_whole,
    numbers_given,
    put_rows,
    take_rows,
)
from designer.translation import tr

BLOCK = 4096
INSTRUCTIONS = 2_000
"""After so many of SQLite's own instructions it is asked whether to go on."""
RECIPES_AND_VERSIONS = ("recipes", "versions")
MOST_VERSIONS = 100_000
"""A number beyond it is a sign of damage, not of a brewer's patience."""


@dataclass(slots=True)
class Salvaged:
    """What a salvage gave: of the damaged file alone, and with what a backup had besides.

    `lost` counts the versions that are known to have been there and are not in the new store;
    `more_may_be_lost` where parts of the file cannot be read that would tell of others.
    """

    alone: Contents = field(default_factory=Contents)
    whole: Contents = field(default_factory=Contents)
    lost: int = 0
    more_may_be_lost: bool = False

    @property
    def from_backup(self) -> int:
        """How many versions only the backup had."""
        return self.whole.versions - self.alone.versions

    def lost_words(self, *, is_over: bool = False) -> str:
        """Return in a sentence what it does not give; "" where it gives everything.

        `is_over` tells that it was not only tried.
        """
        if not self.lost:
            told = tr("Whether that is everything cannot be told.")
            return told if self.more_may_be_lost else ""
        versions = counted_versions(self.lost)
        if self.more_may_be_lost:
            if is_over:
                return tr("At least {versions} could not be read.", versions=versions)
            return tr("At least {versions} cannot be read.", versions=versions)
        if is_over:
            return tr("{versions} could not be read.", versions=versions)
        return tr("{versions} cannot be read.", versions=versions)


def salvage(
    damaged: Path, backup: Path | None, target: Path, goes_on: Callable[[], bool] | None = None
) -> Salvaged:
    """Fill the fresh store `target` from a damaged one and a sound backup; return what it gave.

    Raises OSError for a file that cannot be read at all, sqlite3.Error for a target that cannot
    be written, and where `goes_on`, asked now and then, says no.
    """
    found = Salvaged()
    with closing(connected(target)) as into, tempfile.TemporaryDirectory() as name:
        if goes_on is not None:
            into.set_progress_handler(lambda: not goes_on(), INSTRUCTIONS)
        into.execute("pragma foreign_keys=off")
        into.execute("begin immediate")
        known = _Known()
        copy = _copied(damaged, Path(name))
        given = _by_sqlite(copy, into, known)
        _by_pages(copy, into, known)
        into.execute("savepoint alone")
        make_whole(into)
        found.alone = found.whole = contents_of(into)
        # each recipe's row says how many versions it has, so where all rows are read all is known
        found.more_may_be_lost = "recipes" in known.torn
        if known.missing_from(into):
            known.torn.update(RECIPES_AND_VERSIONS)
        if backup is not None and known.torn:
            into.execute("rollback to alone")
            take_rows(backup, into, known.torn)
            make_whole(into)
            found.whole = contents_of(into)
        count_on_from(into, given)
        found.lost = known.missing_from(into)
        into.execute("commit")
    return found


class _Known:
    """What is known of what was there.

    The versions of a recipe are numbered from 1 without a gap, so its highest number tells how many
    there were. `torn` are the tables that were not read from end to end.
    """

    def __init__(self) -> None:
        self._highest: dict[int, int] = {}
        self.torn: set[str] = set()

    def note(self, recipe: object, number: object) -> None:
        """Note that a recipe had a version of this number."""
        if isinstance(recipe, int) and isinstance(number, int) and 0 < number < MOST_VERSIONS:
            self._highest[recipe] = max(self._highest.get(recipe, 0), number)

    def refused(self, table: str) -> Callable[[dict[str, Any]], None]:
        """Return what notes a row of a table that is not what was written."""

        def note(row: dict[str, Any]) -> None:
            self.torn.add(table)
            if table == "versions":
                self.note(row.get("recipe"), row.get("number"))

        return note

    def missing_from(self, into: sqlite3.Connection) -> int:
        """Return how many of the versions that were there are not in a store."""
        there = {}
        for recipe, highest, count in into.execute(
            "select recipe, max(number), count(*) from versions group by recipe"
        ):
            self.note(recipe, highest)
            there[recipe] = count
        return sum(highest - there.get(recipe, 0) for recipe, highest in self._highest.items())


def _copied(path: Path, folder: Path) -> Path:
    """Copy the files of a store; blocks that the disk does not give any more become zeros."""
    for ending in BESIDE[:3]:
        source = Path(f"{path}{ending}")
        if source.exists():
            _copy_what_the_disk_gives(source, folder / f"damaged{ending}")
    copy = folder / "damaged"
    copy.touch()
    return copy


def _copy_what_the_disk_gives(source: Path, target: Path) -> None:
    with source.open("rb", buffering=0) as file, target.open("wb") as copy:
        size = os.fstat(file.fileno()).st_size
        for start in range(0, size, 256 * BLOCK):
            try:
                copy.write(_read_at(file.fileno(), start, 256 * BLOCK))
            except OSError:
                for at in range(start, min(start + 256 * BLOCK, size), BLOCK):
                    block = bytes(BLOCK)
                    with suppress(OSError):
                        block = _read_at(file.fileno(), at, BLOCK)
                    copy.write(block)


def _read_at(handle: int, start: int, length: int) -> bytes:
    os.lseek(handle, start, os.SEEK_SET)
    return os.read(handle, length)


# with SQLite


def _by_sqlite(copy: Path, into: sqlite3.Connection, known: _Known) -> dict[str, int]:
    """Put in all rows that SQLite can read; return which numbers were given in each table."""
    mended = _mended(copy)
    try:
        source = connected(mended)
    except sqlite3.Error:
        known.torn.update(shapes())
        return {}
    with closing(source):
        source.text_factory = as_text
        with suppress(sqlite3.Error):
            guarded(source)
            source.execute("pragma writable_schema=on")  # read on where the schema has faults
        for shape in shapes().values():
            put_rows(into, shape, _rows(source, shape, known), known.refused(shape.table))
        _ask_the_index(source, known)
        try:
            return numbers_given(source)
        except (sqlite3.Error, UnicodeDecodeError):
            return {}


def _mended(copy: Path) -> Path:
    """Make a copy for SQLite, with what must stand in its first bytes and in its length.

    (https://www.sqlite.org/fileformat2.html, 1.3)
    """
    mended = copy.with_name("mended")
    for ending in BESIDE[:3]:
        source = Path(f"{copy}{ending}")
        if source.exists():
            _copy_what_the_disk_gives(source, Path(f"{mended}{ending}"))
    with mended.open("r+b") as file:
        head = file.read(100)
        if len(head) == 100:
            file.seek(0)
            file.write(MAGIC)
            size = int.from_bytes(head[16:18], "big")
            size = 65536 if size == 1 else size
            pages = int.from_bytes(head[28:32], "big")
            if size in SIZES and 0 < pages < 10_000_000:
                file.truncate(max(size * pages, file.seek(0, 2)))
    return mended


def _ask_the_index(source: sqlite3.Connection, known: _Known) -> None:
    """Note the versions that the index names: it may be whole where their rows are not."""
    sql = "select recipe, number from versions indexed by versions_of_recipe"
    with suppress(sqlite3.Error):
        for recipe, number in source.execute(sql):
            known.note(recipe, number)


def _rows(source: sqlite3.Connection, shape: Shape, known: _Known) -> Iterator[dict[str, Any]]:
    """Walk a table from its beginning, then from its end; what lies between stands on pages."""
    names = {each.name for each in shape.columns}
    for row in _walked(source, shape.table, known):
        if shape.table == "recipes":
            known.note(row.get("id"), row.get("count"))
        yield {name: value for name, value in row.items() if name in names}


def _walked(source: sqlite3.Connection, table: str, known: _Known) -> Iterator[dict[str, Any]]:
    met: list[int] = []
    whole = yield from _walk(source, f"select rowid as _n, * from {table} order by rowid", met)
    if not whole or met != sorted(set(met)):  # what stands out of order hides other rows
        known.torn.add(table)
        last = met[-1] if met else 0
        sql = f"select rowid as _n, * from {table} order by rowid desc"
        yield from _walk(source, sql, [], last)


def _walk(source: sqlite3.Connection, sql: str, met: list[int], until: int = 0) -> Any:
    """Yield rows until there are no more or one cannot be read; return whether all were read."""
    try:
        cursor = source.execute(sql)
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


# without SQLite


def _by_pages(copy: Path, into: sqlite3.Connection, known: _Known) -> None:
    """Put in the rows that stand on the file's pages and are not there yet."""
    for pages in page_states(copy):
        found = rows_on(pages)
        for shape in shapes().values():
            rows = found.rows.get(shape.table, [])
            if shape.table == "recipes":
                for row in rows:
                    known.note(row.get("id"), row.get("count"))
            put, _ = put_rows(into, shape, rows, known.refused(shape.table))
            if put:  # SQLite did not come to them, though it may have told of no fault
                known.torn.add(shape.table)
