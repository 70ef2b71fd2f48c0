"""Preferences that belong to the kitchen's data rather than to one screen."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import TYPE_CHECKING

from designer.library.store.changes import note
from designer.library.store.connection import Connection

if TYPE_CHECKING:
    from sqlite_utils import Database


class Preferences:
    """Plain values (text, numbers, lists of them) under names."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def get(self, key: str, usual: object = None) -> object:
        """Return the value kept under a name, or the usual one."""
        row = self._connection.row("select value from preferences where key = ?", (key,))
        return usual if row is None else _said(row["value"], usual)

    def put(self, key: str, value: object) -> None:
        """Keep a value under a name; None forgets it. Raises DesignerError."""
        self.change(key, lambda _before: value)

    def change(self, key: str, become: Callable[[object], object]) -> None:
        """Keep what a value becomes; nothing comes between, whoever else writes.

        `become` is given None where there is none, and may raise. Raises DesignerError.
        """

        def work(db: Database) -> None:
            found = db.conn.execute(
                "select value from preferences where key = ?", (key,)
            ).fetchone()
            value = become(None if found is None else _said(found[0], None))
            if value is None:
                db.table("preferences").delete_where("key = ?", (key,))
            else:
                db.table("preferences").upsert({"key": key, "value": json.dumps(value)}, pk="key")
            note(db, "preferences", 0)

        self._connection.write(work)


def _said(text: str, usual: object) -> object:
    try:
        found: object = json.loads(text)
    except (ValueError, TypeError):
        return usual
    return found
