"""Taking over what a file from outside holds: row by row, into a store that was freshly made.

A copy of everything may come from anywhere, and SQLite runs what a file's schema says: triggers,
expressions of indexes and checks (https://www.sqlite.org/security.html). So the file itself never
becomes the box. Its schema is compared with what the program makes; then plain rows of known
tables and columns are read, and each counts only if it is what was written.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Collection, Iterable, Mapping
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from designer.errors import DesignerError
from designer.library.store import recipe_rows
from designer.library.store.connection import connected, database
from designer.library.store.documents import accepted, is_whole
from designer.library.store.faults import is_busy
from designer.library.store.table_shapes import KEPT, LARGEST_NUMBER, Shape, shapes

if TYPE_CHECKING:
    from sqlite_utils import Database

LONGEST_VALUE = 100_000_000
PLACE_OF_A_FILE = "path "
"""How the preferences begin that say which file a draft was written to."""
LAST_OPEN = "last open"
"""The preference that says what the next start shows, and from which file."""


@dataclass(slots=True)
class TakenOver:
    """How many rows were put in, by table, and how many were not what was written."""

    rows: dict[str, int]
    left_out: dict[str, int]


def guarded(conn: sqlite3.Connection) -> sqlite3.Connection:
    """Set a connection so that it only reads, and believes nothing that the file says of itself."""
    for pragma in ("query_only=on", "trusted_schema=off", "cell_size_check=on", "mmap_size=0"):
        conn.execute(f"pragma {pragma}")
    for limit, most in (
        (sqlite3.SQLITE_LIMIT_LENGTH, LONGEST_VALUE),
        (sqlite3.SQLITE_LIMIT_ATTACHED, 0),
        (sqlite3.SQLITE_LIMIT_TRIGGER_DEPTH, 0),
    ):
        conn.setlimit(limit, most)
    return conn


def take_over(source: Path, target: Path, *, from_elsewhere: bool) -> TakenOver:
    """Fill the fresh store `target` with the rows of a store that passed its check.

    What comes `from_elsewhere` does not say which files drafts belong to: they are another
    machine's. Raises sqlite3.Error.
    """
    with closing(connected(target)) as into:
        into.execute("pragma foreign_keys=off")
        into.execute("begin immediate")
        taken, given = take_rows(source, into)
        if from_elsewhere:
            into.execute(
                "delete from preferences where key = ? or substr(key, 1, ?) = ?",
                (LAST_OPEN, len(PLACE_OF_A_FILE), PLACE_OF_A_FILE),
            )
        make_whole(into)
        count_on_from(into, given)
        into.execute("commit")
    return taken


def take_rows(
    source: Path, into: sqlite3.Connection, tables: Collection[str] = KEPT
) -> tuple[TakenOver, dict[str, int]]:
    """Put the rows of a sound store in that are not there yet, within the caller's transaction.

    Of these tables only. Returns what was put in, and the numbers given in each table. Raises
    sqlite3.Error.
    """
    taken = TakenOver({}, {})
    with closing(readable(source)) as conn:
        _read_only_plainly(conn)
        for shape in (shapes()[table] for table in KEPT if table in tables):
            put, refused = put_rows(into, shape, _rows(conn, shape))
            taken.rows[shape.table], taken.left_out[shape.table] = put, refused
        return taken, numbers_given(conn)


def readable(path: Path) -> sqlite3.Connection:
    """Return a guarded connection for reading; one that needs no files beside it, if need be.

    Raises sqlite3.Error.
    """
    conn = connected(path, "mode=ro")
    try:
        guarded(conn).execute("select count(*) from sqlite_master").fetchone()
    except sqlite3.Error as fault:
        conn.close()
        if is_busy(fault) or not isinstance(fault, sqlite3.OperationalError):
            raise
        conn = guarded(connected(path, "immutable=1"))
    return conn


def _read_only_plainly(conn: sqlite3.Connection) -> None:
    """Let SQLite do nothing with this connection but read columns and tell of tables."""
    allowed = (sqlite3.SQLITE_SELECT, sqlite3.SQLITE_READ, sqlite3.SQLITE_PRAGMA)

    def decide(action: int, first: str | None, *_: object) -> int:
        if action not in allowed or (action == sqlite3.SQLITE_PRAGMA and first != "table_info"):
            return sqlite3.SQLITE_DENY
        return sqlite3.SQLITE_OK

    conn.set_authorizer(decide)


def _rows(conn: sqlite3.Connection, shape: Shape) -> Iterable[dict[str, Any]]:
    """Yield the rows of a table, with those of its known columns that the file has."""
    there = {row[1] for row in conn.execute(f"pragma table_info({shape.table})")}
    names = [each.name for each in shape.columns if each.name in there]
    if not names:
        return
    order = "id" if shape.numbered else "rowid"
    for row in conn.execute(f"select {', '.join(names)} from {shape.table} order by {order}"):
        yield dict(zip(names, row, strict=True))


def put_rows(
    into: sqlite3.Connection,
    shape: Shape,
    found: Iterable[dict[str, Any]],
    refused: Callable[[dict[str, Any]], None] | None = None,
) -> tuple[int, int]:
    """Put rows that are not there yet into a table; return how many, and how many were no rows.

    `refused` is told of each of those.
    """
    put = left_out = 0
    for row in found:
        if shape.takes(row) and is_what_was_written(shape.table, row):
            put += _inserted(into, shape.table, row)
        else:
            left_out += 1
            if refused is not None:
                refused(row)
    return put, left_out


def _inserted(into: sqlite3.Connection, table: str, row: Mapping[str, Any]) -> int:
    """Put a row in if it is not there yet; a version whose number a damaged one took, as well."""
    names, marks = ", ".join(row), ", ".join("?" * len(row))
    sql = f"insert or ignore into {table} ({names}) values ({marks})"
    done = into.execute(sql, tuple(row.values())).rowcount
    if not done and table == "versions" and "id" in row:
        return _inserted(into, table, {key: row[key] for key in row if key != "id"})
    return done


def is_what_was_written(table: str, row: Mapping[str, Any]) -> bool:
    """Tell whether a row is what was written, as far as that can be told by reading it."""
    if table == "versions":
        return is_whole(row) and _is_recipe(row.get("document"))
    if table == "drafts":
        return _is_recipe(row.get("document"))
    if table == "brews":
        return _is_json(row.get("document"))
    if table == "brew_lines":
        return _is_json(row.get("entry"))
    return _is_json(row.get("value")) if table == "preferences" else True


def _is_recipe(text: object) -> bool:
    try:
        accepted(str(text))
    except (DesignerError, UnicodeError):
        return False
    return True


def _is_json(text: object) -> bool:
    try:
        json.loads(str(text))
    except (ValueError, RecursionError):
        return False
    return True


def numbers_given(source: sqlite3.Connection) -> dict[str, int]:
    """Return the last number that was given in each table. Raises sqlite3.Error."""
    given: dict[str, int] = {}
    for name, number in source.execute("select name, seq from sqlite_sequence"):
        if isinstance(number, int) and 0 < number < LARGEST_NUMBER:
            given[str(name)] = number
    return given


def count_on_from(into: sqlite3.Connection, given: Mapping[str, int]) -> None:
    """Let each table count on behind the numbers that were given, and those that it holds.

    So none is given again that was a recipe's, since deleted perhaps.
    """
    for table in ("changes", *KEPT):
        if table != "changes" and not shapes()[table].numbered:
            continue
        last = "touched) from recipes" if table == "changes" else f"id) from {table}"
        held = into.execute(f"select max({last}").fetchone()[0] or 0
        number = max(given.get(table, 0), held)
        into.execute("delete from sqlite_sequence where name = ?", (table,))
        into.execute("insert into sqlite_sequence (name, seq) values (?, ?)", (table, number))


def make_whole(into: sqlite3.Connection) -> None:
    """Make parents of orphans, let each recipe follow its newest version, and index its words."""
    into.execute(
        "insert or ignore into recipes (id, name, name_key, made, changed, touched)"
        " select recipe, '', '', min(saved), max(saved), 0 from versions group by recipe"
    )
    into.execute("delete from recipes where id not in (select recipe from versions)")
    into.execute("delete from tags where recipe not in (select id from recipes)")
    into.execute(
        "insert or ignore into brews (id, name, document, started)"
        " select brew, 'Brew log without its head', '{}', min(at) from brew_lines group by brew"
    )
    into.execute("update brews set uid = lower(hex(randomblob(16))) where uid = ''")
    db = database(into)
    for row in into.execute(
        "select id, newest, count from recipes order by touched, id"
    ).fetchall():
        _follow_newest(db, *row)


def _follow_newest(db: Database, recipe: int, newest: int, count: int) -> None:
    version, number, document = db.conn.execute(
        "select id, number, document from versions where recipe = ? order by number desc limit 1",
        (recipe,),
    ).fetchone()
    if (version, number) == (newest, count):
        recipe_rows.put_words(db, recipe, accepted(document)[1])
    else:
        recipe_rows.refresh(db, recipe)
