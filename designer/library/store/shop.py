"""The pack sizes of one's own shop, kept in the store; the usual ones where none are kept."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from designer.errors import RefusedInputError
from designer.library.packs import PACK_KINDS, PackSize, checked_set, pack_size, packs
from designer.library.store.on_disk import preference_on_disk
from designer.recipe.quantity import Kind
from designer.units import read

if TYPE_CHECKING:
    from designer.library.store.store import Store

OWN = "of your own"


def shop_packs(store: Store, pack_set: str) -> tuple[PackSize, ...]:
    """Return the sizes of a set, "metric" or "us": one's own, else the usual ones.

    What is kept and cannot be read any more counts as not kept.
    """
    return _sizes(store.preferences.get(_key(pack_set)), pack_set)


def _sizes(kept: object, pack_set: str) -> tuple[PackSize, ...]:
    try:
        return packs(pack_set) if not isinstance(kept, list) else _read(kept)
    except (RefusedInputError, TypeError, ValueError):
        return packs(pack_set)


def keep_shop_packs(
    store: Store, pack_set: str, sizes: tuple[PackSize, ...]
) -> tuple[PackSize, ...]:
    """Keep the sizes of a set; the usual ones are kept by forgetting one's own.

    Raises RefusedInputError for sizes that no shop has, DesignerError where nothing can be written.
    """
    checked_set(sizes)
    rows = [[each.kind, each.amount.text, each.label] for each in sizes]
    store.preferences.put(_key(pack_set), None if sizes == packs(pack_set) else rows)
    return sizes


def shop_packs_on_disk(pack_set: str, folder: Path | None = None) -> tuple[PackSize, ...]:
    """Return the sizes of a set for a program that has no store open, which is not made for it.

    Raises DesignerError where there is a store that cannot be read.
    """
    return _sizes(preference_on_disk(_key(pack_set), folder), pack_set)


def _key(pack_set: str) -> str:
    return f"packs {pack_set}"


def _read(rows: list[object]) -> tuple[PackSize, ...]:
    return checked_set(tuple(_size(row) for row in rows))


def _size(row: object) -> PackSize:
    if not isinstance(row, list):
        raise TypeError
    kind, amount, label = (str(each) for each in row)
    if kind not in PACK_KINDS:
        raise ValueError(kind)
    return pack_size(kind, read(Kind.MASS, amount), label, OWN)
