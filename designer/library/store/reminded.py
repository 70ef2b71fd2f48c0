"""Which window has told of a reminder, so that of several open ones only one does."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import TYPE_CHECKING

from designer.library.store.windows import open_windows

if TYPE_CHECKING:
    from sqlite_utils import Database

    from designer.library.store.store import Store

TOLD = "reminders told"
"""The preference that names the window by each reminder."""


def claim(store: Store, keys: Iterable[str], window: str) -> frozenset[str]:
    """Return those of these reminders that `window` is to tell of: no other open window has.

    What windows told of that are closed by now counts no more. Raises DesignerError.
    """
    wanted, are_open = tuple(keys), open_windows(store.folder) | {window}

    def work(db: Database) -> frozenset[str]:
        row = db.conn.execute("select value from preferences where key = ?", (TOLD,)).fetchone()
        told = {key: by for key, by in _told(row[0] if row else "").items() if by in are_open}
        mine = frozenset(key for key in wanted if told.get(key, window) == window)
        told |= dict.fromkeys(mine, window)
        db.table("preferences").upsert({"key": TOLD, "value": json.dumps(told)}, pk="key")
        return mine

    return store.connection.write(work)


def _told(text: str) -> dict[str, str]:
    """Return what a preference holds; nothing where it cannot be read."""
    try:
        found = json.loads(text or "{}")
    except ValueError:
        return {}
    return {str(k): str(v) for k, v in found.items()} if isinstance(found, dict) else {}
