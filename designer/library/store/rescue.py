"""A damaged or missing store: what can be offered, and going on with it.

The damaged files are never overwritten: they are moved aside, whole, under the time. Then there is
the newest sound backup, or a salvage: every row that can still be read, with what the backup holds
where it cannot. Both end in a new store that passed its check.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from designer.errors import DesignerError
from designer.library.store.backups import Backup, backups, fill_anew, newest_sound, refuse_unsound
from designer.library.store.faults import StoreDamagedError, in_words, shown, system_words
from designer.library.store.folder import drop, set_aside, store_path
from designer.library.store.health import DAMAGED, EMPTY, MISSING, SOUND, Health, check
from designer.library.store.opening import beside_of, made_current, make_new, move_into_place
from designer.library.store.salvage import Salvaged, salvage

BEYOND_USE = (MISSING, EMPTY, DAMAGED)


@dataclass(frozen=True, slots=True)
class Offer:
    """What can be done about a store: its health, the newest sound backup, what can be read.

    `readable` counts the rows of each table that a salvage would save from the file itself.
    """

    health: Health
    backup: Backup | None
    readable: dict[str, int]

    @property
    def recipes(self) -> int:
        """Recipes that can still be read from the damaged file."""
        return self.readable.get("recipes", 0)


@dataclass(frozen=True, slots=True)
class Rescue:
    """What was done: where the old files lie now, what the new store holds, in words to show."""

    words: str
    aside: Path | None
    recipes: int
    versions: int
    lost: int = 0


def offer(folder: Path) -> Offer:
    """Return what can be done about the store in a folder. Raises DesignerError."""
    path = store_path(folder)
    health = check(path, deep=True)
    readable: dict[str, int] = {}
    if health.state != SOUND and path.exists():
        beside = beside_of(path)
        try:
            readable = _salvaged(path, None, beside).readable
        finally:
            drop(beside)
    return Offer(health, newest_sound(folder), readable)


def go_on_with_backup(folder: Path, backup: Backup) -> Rescue:
    """Set the store aside and go on with what a backup holds.

    Raises DesignerError; then nothing changed.
    """
    path = store_path(folder)
    refuse_unsound(backup.path)
    beside = beside_of(path)
    try:
        fill_anew(backup.path, beside, folder)
        return _put_in_place(
            beside, path, f"The backup of {backup.made:%Y-%m-%d %H:%M} UTC is in its place"
        )
    finally:
        drop(beside)


def go_on_with_copy(folder: Path, source: Path) -> Rescue:
    """Set a store that is beyond use aside and go on with a backup or a copy of everything.

    Raises DesignerError, for a store that may still be in use as well; then nothing changed.
    """
    health = check(store_path(folder))
    if health.state not in BEYOND_USE:
        raise DesignerError(
            f"{shown(source)} was not brought back: {health.words} Close other windows of the "
            "program and try again."
        )
    made = datetime.fromtimestamp(source.stat().st_mtime, UTC) if source.exists() else None
    found = next((each for each in backups(folder) if each.path == source), None)
    return go_on_with_backup(folder, found or Backup(source, 0, made or datetime.now(UTC)))


def go_on_with_salvage(folder: Path, backup: Backup | None = None) -> Rescue:
    """Set the store aside and go on with what can be read of it, the rest from a backup.

    Raises DesignerError; then nothing changed.
    """
    path = store_path(folder)
    beside = beside_of(path)
    try:
        found = _salvaged(path, backup.path if backup else None, beside)
        words = f"{sum(found.readable.values())} rows were read from it"
        if found.from_backup:
            words += f", {found.from_backup} came from the backup"
        return _put_in_place(beside, path, words, lost=found.unreadable)
    finally:
        drop(beside)


def begin_empty(folder: Path) -> Rescue:
    """Set the store aside and begin an empty one. Raises DesignerError."""
    path = store_path(folder)
    beside = beside_of(path)
    drop(beside)
    make_new(beside)
    try:
        return _put_in_place(beside, path, "An empty one is in its place")
    finally:
        drop(beside)


def _salvaged(path: Path, backup: Path | None, target: Path) -> Salvaged:
    import sqlite3

    drop(target)
    make_new(target)
    try:
        return salvage(path, backup, target)
    except sqlite3.Error as fault:
        raise in_words(fault, target) from fault
    except OSError as fault:
        raise system_words(fault, path, "Reading the damaged Recipe box") from fault


def _put_in_place(beside: Path, path: Path, words: str, *, lost: int = 0) -> Rescue:
    made_current(beside)
    health = check(beside)
    if health.state != SOUND:
        raise StoreDamagedError(f"{health.words} Nothing was changed; choose another backup.")
    try:
        aside = set_aside(path)
        if not move_into_place(beside, path):
            raise StoreDamagedError(
                f"Another window began a new Recipe box meanwhile. The damaged one was set aside "
                f"as {shown(aside or path)}; nothing was lost. Bring a backup back in that window."
            )
    except OSError as fault:
        raise system_words(fault, path, "Setting the damaged Recipe box aside") from fault
    moved = f"The damaged Recipe box was set aside as {shown(aside)}. " if aside else ""
    missing = f" At least {lost} rows could not be read." if lost else ""
    return Rescue(
        f"{moved}{words}: {health.recipes} recipes with {health.versions} versions.{missing}",
        aside,
        health.recipes,
        health.versions,
        lost,
    )
