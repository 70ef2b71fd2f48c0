"""What the tables of a store look like, release by release, found by making them.

So nothing is said twice: a row from a file that is not trusted, or that is damaged, is measured by
what the steps make. A record may be shorter than its table, by columns that a later step added
(https://www.sqlite.org/lang_altertable.html).
"""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass
from functools import cache
from typing import Any

from designer.library.store import steps
from designer.library.store.connection import database
from designer.translation import tr

KEPT = tuple(each for each in steps.TABLES if each not in ("about", "changes", "words"))
"""The tables with what a brewer made, parents before what belongs to them."""
LARGEST_NUMBER = 2**53
"""No row gets that far; one that says so would leave no number for the next."""
NOTES_OF_STEPS = "_sqlite_migrations"
OF_SQLITE = re.compile(r"sqlite_(sequence|stat\d|autoindex_\w+)")
_PLAIN_TABLE = re.compile(
    r'create table "?_sqlite_migrations"? \((?:[\s,]|"\w+"|\[\w+\]|primary key|not null|unique|'
    r"text|integer|\(|\))*\)",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its kind is "integer", "text" or "real"."""

    name: str
    kind: str
    may_be_null: bool

    def takes(self, value: object) -> bool:
        """Tell whether a value is of this column's kind."""
        if value is None:
            return self.may_be_null
        if self.kind == "text":
            return isinstance(value, str)
        if isinstance(value, int):
            return abs(value) < LARGEST_NUMBER
        return self.kind == "real" and isinstance(value, float)


@dataclass(frozen=True, slots=True)
class Shape:
    """A table: its columns and the fewest that a record of it has.

    `numbered` tells that the first column is the row's number, for which a record holds nothing.
    """

    table: str
    columns: tuple[Column, ...]
    fewest: int
    numbered: bool

    def row(self, values: Sequence[object], number: int) -> dict[str, Any] | None:
        """Return the record with this row number as a row; None if it is no record of this table.

        Columns it is too short for are left out: they take what they usually hold.
        """
        if not self.fewest <= len(values) <= len(self.columns):
            return None
        if self.numbered:
            values = (number, *values[1:]) if values[0] is None else ()
        found = dict(zip((each.name for each in self.columns), values, strict=False))
        return found if found and self.takes(found) else None

    def takes(self, row: dict[str, Any]) -> bool:
        """Tell whether each value is of its column's kind."""
        return all(each.takes(row[each.name]) for each in self.columns if each.name in row)


@cache
def shapes() -> dict[str, Shape]:
    """Return the shapes of the kept tables, by name."""
    made: dict[str, list[tuple[Column, ...]]] = {}
    numbered = {}
    for conn in _every_release():
        for table in KEPT:
            found = conn.execute(f"pragma table_info({table})").fetchall()
            if found:
                made.setdefault(table, []).append(tuple(map(_column, found)))
                key = [(each[1], each[2].lower()) for each in found if each[5]]
                numbered[table] = key == [(found[0][1], "integer")]
    return {
        table: Shape(table, kinds[-1], min(map(len, kinds)), numbered[table])
        for table, kinds in made.items()
    }


def _column(info: tuple[Any, ...]) -> Column:
    _, name, kind, not_null, _, key = info
    return Column(name, kind.lower(), not not_null and not key)


@cache
def _made_by_releases() -> frozenset[tuple[str, str, str]]:
    """Return all that ever stood in a store's schema: kind, name and how it was made."""
    return frozenset(
        (kind, name, _plain(sql))
        for conn in _every_release()
        for kind, name, sql in conn.execute("select type, name, sql from sqlite_master")
    )


def _every_release() -> Iterator[sqlite3.Connection]:
    """Give a store in memory after each step: one and the same, which is to be read at once."""
    with closing(sqlite3.connect(":memory:")) as conn:
        for step in steps.STEPS:
            step(database(conn))
            yield conn


def _plain(sql: object) -> str:
    """Return SQL without what differs between versions of SQLite: spaces, and quotes of names."""
    return re.sub(r"[\s\"'\[\]]+", " ", _words(sql)).strip().lower().replace(" (", "(")


def _words(text: object) -> str:
    """Return a text of the schema; in a damaged file it may be of any type."""
    if isinstance(text, bytes):
        return text.decode(errors="replace")
    return "" if text is None else str(text)


def strange_parts(conn: sqlite3.Connection) -> list[str]:
    """Return what a file's schema holds that no release of the program makes, in words.

    Only the schema's own table is read: nothing in it is run.
    """
    made = _made_by_releases()
    names = {name for _, name, _ in made}
    found = []
    for kind, name, sql in conn.execute("select type, name, sql from sqlite_master"):
        if OF_SQLITE.fullmatch(_words(name)) and kind in ("table", "index"):
            continue
        if (kind, name, _plain(sql)) in made or _notes_steps(kind, _words(name), _words(sql)):
            continue
        part = steps.part_words(_shown(kind), _shown(name))
        if name in names:
            part = tr("{part}, made otherwise than the program does", part=part)
        found.append(part)
    return found


def _notes_steps(kind: str, name: str, sql: str) -> bool:
    """Tell whether a part is the table in which sqlite-utils notes the steps, or its index."""
    if kind == "table" and name == NOTES_OF_STEPS:
        return _PLAIN_TABLE.fullmatch(" ".join(sql.split())) is not None
    plain = _plain(sql)
    wanted = rf"create unique index {name.lower()} on {NOTES_OF_STEPS} ?\([\w ,]+\)"
    return kind == "index" and re.fullmatch(wanted, plain) is not None


def _shown(text: object) -> str:
    return " ".join("".join(sign for sign in _words(text) if sign.isprintable()).split())[:60]
