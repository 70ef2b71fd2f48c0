"""The backups that lie beside a store, and which of them are worth their place.

They are numbered: order comes from the number, so that a clock set back neither hides nor drops
one. Worth their place are the newest ones, and some of each older time.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from designer.library.store.faults import faults_told
from designer.library.store.folder import BACKUP_FOLDER
from designer.translation import tr

_NAME = re.compile(r"(\d{6,})-(\d{4}-\d{2}-\d{2})-(\d{6})\.db")
NEWEST, DAYS, WEEKS = 10, 7, 8
ALWAYS = 3
ROOM_BYTES, ROOM_STORES = 1_000_000_000, 2


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup: its file, its number, and when it was made by the clock of that time (UTC)."""

    path: Path
    number: int
    made: datetime

    @property
    def size(self) -> int:
        """Its size in bytes."""
        return self.path.stat().st_size


def backups(folder: Path) -> list[Backup]:
    """Return the backups of the store in a folder, the newest first. Raises DesignerError."""
    within = folder / BACKUP_FOLDER
    with faults_told(within, tr("Looking for backups in")):
        return backups_in(within)


def backups_in(within: Path) -> list[Backup]:
    """Return what is named as backups are in a folder, the newest first. Raises OSError."""
    found = [_backup(path) for path in within.iterdir()] if within.is_dir() else []
    return sorted((each for each in found if each), key=lambda each: each.number, reverse=True)


def _backup(path: Path) -> Backup | None:
    matched = _NAME.fullmatch(path.name)
    if matched is None:
        return None
    try:
        made = datetime.strptime(f"{matched[2]} {matched[3]}", "%Y-%m-%d %H%M%S")
    except ValueError:
        return None
    return Backup(path, int(matched[1]), made.replace(tzinfo=UTC))


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


def room_for(store_bytes: int, chosen_bytes: int = 0) -> int:
    """Return how many bytes all backups of a store of a size may take.

    What was chosen; where nothing was (0), 1 GB, or twice the store.
    """
    return chosen_bytes or max(ROOM_BYTES, ROOM_STORES * store_bytes)


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
