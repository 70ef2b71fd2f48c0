"""Preferences that belong to the kitchen's data rather than to one screen."""

from __future__ import annotations

import json
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
        if row is None:
            return usual
        try:
            found: object = json.loads(row["value"])
        except (ValueError, TypeError):
            return usual
        return found

    def put(self, key: str, value: object) -> None:
        """Keep a value under a name; None forgets it. Raises DesignerError."""
        text = json.dumps(value)

        def work(db: Database) -> None:
            if value is None:
                db.table("preferences").delete_where("key = ?", (key,))
            else:
                db.table("preferences").upsert({"key": key, "value": text}, pk="key")
            note(db, "preferences", 0)

        self._connection.write(work)
