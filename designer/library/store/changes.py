"""What has changed since one last looked, whoever changed it: another window, another process.

Each write notes what it touched under a number that only grows. A token names such a number and
the life of the store: after a backup was brought back, everything counts as changed.
"""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from typing import TYPE_CHECKING

from designer.library.store.connection import Connection

if TYPE_CHECKING:
    from sqlite_utils import Database

KEPT = 5000
"""How many notes are kept; who looks later than that must read everything anew."""


@dataclass(frozen=True, slots=True)
class Changes:
    """What changed since a token was given, and the token to ask with next time.

    `about` holds pairs such as ("recipe", 12); `everything` tells to read all anew.
    """

    token: str
    about: frozenset[tuple[str, int]] = frozenset()
    everything: bool = False

    def __bool__(self) -> bool:
        return self.everything or bool(self.about)

    def keys(self, about: str) -> frozenset[int]:
        """Return the numbers of the things of one kind that changed."""
        return frozenset(key for kind, key in self.about if kind == about)


def note(db: Database, about: str, key: int) -> int:
    """Note a change within a transaction; return its number."""
    # by hand: each write comes by here, see rows
    cursor = db.conn.execute("insert into changes (about, key) values (?, ?)", (about, key))
    number = int(cursor.lastrowid or 0)
    db.conn.execute("delete from changes where id <= ?", (number - KEPT,))
    return number


def new_life(db: Database) -> None:
    """Make every token given so far count as old."""
    db.table("about").upsert({"key": "life", "value": secrets.token_hex(8)}, pk="key")
    note(db, "everything", 0)


def changes_since(connection: Connection, token: str) -> Changes:
    """Return what changed since `token` was given; "" for a first look."""
    life = connection.row("select value from about where key = 'life'") or {"value": ""}
    ends = connection.row("select min(id) as first, max(id) as last from changes") or {}
    first, last = ends.get("first") or 1, ends.get("last") or 0
    now = f"{life['value']}:{last}"
    since_life, _, number = token.rpartition(":")
    since = int(number) if number.isdigit() else -1
    if since_life != life["value"] or since < first - 1 or since > last:
        return Changes(now, everything=True)
    found = connection.rows("select about, key from changes where id > ?", (since,))
    return Changes(now, frozenset((row["about"], row["key"]) for row in found))
