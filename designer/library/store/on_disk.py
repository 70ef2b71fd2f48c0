"""What is kept in the store, for a program that has none open: it is read, and none is made."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

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


def cupboard_on_disk(folder: Path | None = None) -> list[CupboardRecord]:
    """Return what lies in the cupboard; raises DesignerError where that cannot be read."""
    return read_on_disk(lambda store: store.cupboard.all(), list, folder)
