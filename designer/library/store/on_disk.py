"""What is kept in the store, for a program that has none open: it is read, and none is made."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from designer.errors import DesignerError
from designer.library.store.folder import store_folder, store_path
from designer.library.store.folder_check import folder_fault

if TYPE_CHECKING:
    from designer.library.store.kitchen import CupboardRecord
    from designer.library.store.store import Store

Kept = TypeVar("Kept")


def read_on_disk(
    take: Callable[[Store], Kept], otherwise: Callable[[], Kept], folder: Path | None = None
) -> Kept:
    """Return what is taken from the store, or something else where there is none.

    Raises DesignerError where there is a store that cannot be read.
    """
    place = folder or store_folder()
    fault = folder_fault(place)
    if fault is not None:
        raise fault
    if not store_path(place).exists():
        return otherwise()
    from designer.library.store.store import Store

    with Store.open(place) as store:
        return take(store)


def preference_on_disk(key: str, folder: Path | None = None) -> object:
    """Return what is kept under a name, None for nothing; raises DesignerError as above.

    It is read without the store, which takes longer to load than a sheet to be set.
    """
    place = folder or store_folder()
    if folder_fault(place) is None and store_path(place).exists():
        from designer.library.store.connection import connected  # where there is a box

        try:
            with closing(connected(store_path(place), "mode=ro")) as conn:
                row = conn.execute("select value from preferences where key = ?", (key,)).fetchone()
            return None if row is None else json.loads(row[0])
        except (sqlite3.Error, DesignerError, ValueError, TypeError):
            pass  # the store knows what is the matter, and what can be done
    return read_on_disk(lambda store: store.preferences.get(key), lambda: None, folder)


def cupboard_on_disk(folder: Path | None = None) -> list[CupboardRecord]:
    """Return what lies in the cupboard; raises DesignerError where that cannot be read."""
    return read_on_disk(lambda store: store.cupboard.all(), list, folder)
