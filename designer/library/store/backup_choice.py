"""Which backups are worth their place: the newest ones, and some of each older time."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from designer.library.store.backups import Backup

NEWEST, DAYS, WEEKS = 10, 7, 8
ALWAYS = 3
ROOM_BYTES, ROOM_STORES = 1_000_000_000, 2


def kept_of(found: Sequence[Backup]) -> list[Backup]:
    """Return which of the backups (newest first) are worth their place, the worthiest first.

    The ten newest, and the newest of each of seven days and of eight weeks. After the three newest
    come those of days and weeks: ten of one afternoon help less against a mistake that is seen
    late.
    """
    days = _first_of_each(found, lambda each: each.made.date(), DAYS)
    weeks = _first_of_each(found, lambda each: each.made.isocalendar()[:2], WEEKS)
    return list(dict.fromkeys([*found[:ALWAYS], *days, *weeks, *found[:NEWEST]]))


def _first_of_each(
    found: Iterable[Backup], span: Callable[[Backup], object], most: int
) -> list[Backup]:
    first: dict[object, Backup] = {}
    for each in found:
        first.setdefault(span(each), each)
    return list(first.values())[:most]


def room_for(store_bytes: int) -> int:
    """Return how many bytes all backups of a store of a size may take: 1 GB, or twice the store."""
    return max(ROOM_BYTES, ROOM_STORES * store_bytes)


def affordable(kept: Sequence[Backup], room_bytes: int) -> set[Backup]:
    """Return those of the backups (the worthiest first) that there is room for; one at least."""
    chosen: set[Backup] = set()
    taken = 0
    for each in kept:
        size = _size(each)
        if chosen and taken + size > room_bytes:
            continue
        chosen.add(each)
        taken += size
    return chosen


def _size(backup: Backup) -> int:
    try:
        return backup.size
    except OSError:
        return 0  # it went meanwhile
