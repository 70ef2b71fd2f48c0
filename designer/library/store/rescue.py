"""A damaged or missing store: what can be offered, and going on with it.

The damaged files are never overwritten: they are moved aside, whole, under the time. Then there is
the newest sound backup, or a salvage: every row that can still be read, with what the backup holds
where it cannot. Both end in a new store that passed its check.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

from designer.errors import DesignerError
from designer.library.store.backup_files import Backup, backups
from designer.library.store.backups import newest_sound
from designer.library.store.bringing_back import fill_anew, refuse_unsound
from designer.library.store.contents import Contents, contents_of, counted_versions
from designer.library.store.faults import StoreDamagedError, faults_told, shown
from designer.library.store.files import beside_of, drop, move_into_place, set_aside
from designer.library.store.folder import store_path
from designer.library.store.folder_check import folder_fault, refuse_unfit
from designer.library.store.health import DAMAGED, EMPTY, FOREIGN, MISSING, SOUND, Health, check
from designer.library.store.opening import made_current, make_new
from designer.library.store.salvage import Salvaged, salvage
from designer.library.store.taking_over import readable
from designer.recipe.message import say
from designer.translation import tr

BEYOND_USE = (MISSING, EMPTY, DAMAGED)


@dataclass(frozen=True, slots=True)
class Offer:
    """What can be done about a store: its health, the newest sound backup, what can be saved.

    `backup_holds` is what that backup would give, `salvaged` what a salvage gave when it was tried:
    going on with it gives the same. `fault` says why nothing can be opened in its folder, if so.
    """

    health: Health
    backup: Backup | None = None
    backup_holds: Contents = field(default_factory=Contents)
    salvaged: Salvaged = field(default_factory=Salvaged)
    fault: DesignerError | None = None
    has_folder: bool = True

    @property
    def may_begin_empty(self) -> bool:
        """Whether an empty box can be begun where this one is missing."""
        return self.health.state == MISSING and self.has_folder

    @property
    def is_beyond_use(self) -> bool:
        """Whether the store is to be set aside, for it cannot be gone on with as it is."""
        return self.health.state in BEYOND_USE or bool(self.salvaged.alone)


@dataclass(frozen=True, slots=True)
class Rescue:
    """What was done: where the old files lie now, what the new store holds, in words to show.

    `lost` counts the versions that are known to have been there and could not be read.
    """

    words: str
    aside: Path | None
    holds: Contents
    lost: int = 0


def offer(folder: Path, goes_on: Callable[[], bool] | None = None) -> Offer:
    """Return what can be done about the store in a folder; a salvage is tried. It takes a while.

    Nothing is changed. Raises DesignerError, also where `goes_on`, asked now and then, says no.
    """
    with faults_told(folder, tr("Looking into the Recipe box in")):
        fault = folder_fault(folder, expected=True)
        health = check(store_path(folder), deep=True)
        if fault is not None and health.state != MISSING:
            return Offer(health, fault=fault)
        if health.state in (*BEYOND_USE, FOREIGN):
            return _offer(folder, health, fault, goes_on)
    return Offer(health)


def _offer(
    folder: Path, health: Health, fault: DesignerError | None, goes_on: Callable[[], bool] | None
) -> Offer:
    backup = newest_sound(folder)
    holds = _holdings_of(backup.path) if backup else Contents()
    with tempfile.TemporaryDirectory(prefix="hobwort-", ignore_cleanup_errors=True) as name:
        tried = Path(name) / "tried.db"
        second = backup.path if backup else None
        salvaged = _salvaged(store_path(folder), second, tried, goes_on)
    if not salvaged.alone and health.state == FOREIGN:
        return Offer(health)
    return Offer(health, backup, holds, salvaged, fault, folder.is_dir())


def _holdings_of(path: Path) -> Contents:
    with faults_told(path, tr("Reading")), closing(readable(path)) as conn:
        return contents_of(conn)


def go_on_with_backup(folder: Path, backup: Backup) -> Rescue:
    """Set the store aside and go on with what a backup holds.

    Raises DesignerError; then nothing changed.
    """
    path = store_path(folder)
    refuse_unfit(folder, fresh=True, expected=False)
    refuse_unsound(backup.path)
    beside = beside_of(path)
    try:
        fill_anew(backup.path, beside, folder)
        return _put_in_place(
            beside,
            path,
            lambda holds: tr(
                "The backup of {time} UTC is in its place: {holds}.",
                time=f"{backup.made:%Y-%m-%d %H:%M}",
                holds=holds,
            ),
        )
    finally:
        drop(beside)


def go_on_with_copy(folder: Path, source: Path) -> Rescue:
    """Set a store that is beyond use aside and go on with a backup or a copy of everything.

    Raises DesignerError, for a store that may still be in use as well; then nothing changed.
    """
    refuse_unfit(folder, fresh=True, expected=False)
    health = check(store_path(folder))
    if health.state not in BEYOND_USE:
        raise DesignerError(
            say(
                "not-brought-back",
                "{source} was not restored: {health} Close other windows of the program and try "
                "again.",
                source=shown(source),
                health=health.words,
            )
        )
    with faults_told(source, tr("Reading")):
        made = datetime.fromtimestamp(source.stat().st_mtime, UTC) if source.exists() else None
    found = next((each for each in backups(folder) if each.path == source), None)
    return go_on_with_backup(folder, found or Backup(source, 0, made or datetime.now(UTC)))


def go_on_with_salvage(folder: Path, backup: Backup | None = None) -> Rescue:
    """Set the store aside and go on with what can be read of it, the rest from a backup.

    Raises DesignerError; then nothing changed.
    """
    path = store_path(folder)
    refuse_unfit(folder, fresh=True, expected=False)
    beside = beside_of(path)
    try:
        found = _salvaged(path, backup.path if backup else None, beside)

        def words(holds: Contents) -> str:
            if not found.from_backup:
                return tr("What could be read of it is in its place: {holds}.", holds=holds)
            return tr(
                "What could be read of it is in its place, with {versions} from the backup: "
                "{holds}.",
                versions=counted_versions(found.from_backup),
                holds=holds,
            )

        return _put_in_place(beside, path, words, found)
    finally:
        drop(beside)


def begin_empty(folder: Path) -> Rescue:
    """Set the store aside and begin an empty one. Raises DesignerError."""
    path = store_path(folder)
    refuse_unfit(folder, fresh=True, expected=False)
    beside = beside_of(path)
    drop(beside)
    make_new(beside)
    try:
        return _put_in_place(
            beside, path, lambda holds: tr("An empty one is in its place: {holds}.", holds=holds)
        )
    finally:
        drop(beside)


def _salvaged(
    path: Path, backup: Path | None, target: Path, goes_on: Callable[[], bool] | None = None
) -> Salvaged:
    drop(target)
    make_new(target)
    with faults_told(path, tr("Reading the damaged Recipe box"), database=target):
        return salvage(path, backup, target, goes_on)


def _put_in_place(
    beside: Path, path: Path, words: Callable[[Contents], str], salvaged: Salvaged | None = None
) -> Rescue:
    """Set the damaged store aside and put the new one there; `words` tell what it holds."""
    made_current(beside)
    health = check(beside)
    if health.state != SOUND:
        raise StoreDamagedError(
            say(
                "backup-unfit",
                "{health} Nothing was changed; choose another backup.",
                health=health.words,
            )
        )
    holds = _holdings_of(beside)
    with faults_told(path, tr("Setting the damaged Recipe box aside")):
        aside = set_aside(path)
        if not move_into_place(beside, path):
            raise StoreDamagedError(
                say(
                    "other-window-began",
                    "Another window began a new Recipe box meanwhile. The damaged one was set "
                    "aside as {aside}; nothing was lost. Restore a backup in that window.",
                    aside=shown(aside or path),
                )
            )
    moved = tr("The damaged Recipe box was set aside as {aside}.", aside=shown(aside or path))
    missing = salvaged.lost_words(is_over=True) if salvaged else ""
    return Rescue(
        " ".join(filter(None, (moved if aside else "", words(holds), missing))),
        aside,
        holds,
        salvaged.lost if salvaged else 0,
    )
