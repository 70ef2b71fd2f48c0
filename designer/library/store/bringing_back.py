"""Bringing a backup back, or a copy of everything: its rows, into a store freshly made.

A file may come from anywhere, so it never becomes the box itself: see `taking_over`.
"""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

from designer.errors import DesignerError
from designer.library.store.backup_files import Backup
from designer.library.store.backups import make_backup, patience
from designer.library.store.connection import Connection, connected
from designer.library.store.faults import StoreDamagedError, faults_told, shown
from designer.library.store.files import beside_of, drop
from designer.library.store.folder import BACKUP_FOLDER
from designer.library.store.health import SOUND, check
from designer.library.store.opening import made_current, make_new
from designer.library.store.taking_over import TakenOver, take_over
from designer.recipe.message import say
from designer.translation import tr


def bring_back(connection: Connection, source: Path) -> Backup | None:
    """Put a backup, or a copy of everything, in place of what the store holds now.

    Its rows are taken over into a store freshly made, never the file. What the store holds now is
    made a backup first; that one is returned. Other windows see the store as changed. Raises
    DesignerError; then the store is as it was.
    """
    if connection.read_only:
        raise DesignerError(connection.read_only)
    refuse_unsound(source)
    before = make_backup(connection, forced=True, spare=source)
    staged = beside_of(connection.path)
    try:
        fill_anew(source, staged, connection.path.parent)
        with faults_told(connection.path, tr("Restoring a backup to")):
            with closing(connected(staged, "mode=ro")) as conn:
                conn.backup(connection.db.conn, progress=patience(connection))
            connection.patiently(connection.prepare)
    finally:
        drop(staged)
    return before


def refuse_unsound(source: Path) -> None:
    """Raise StoreDamagedError for a file that cannot be brought back, with what there is of it."""
    health = check(source)
    if health.state != SOUND:
        raise StoreDamagedError(
            say(
                "backup-cannot-be-brought-back",
                "{source} cannot be restored: {health} Choose another backup.",
                source=shown(source),
                health=health.words,
            )
        )


def fill_anew(source: Path, target: Path, folder: Path) -> TakenOver:
    """Make `target` a store with what a sound file holds, up to date and with a new life.

    `folder` is that of the box. Raises DesignerError.
    """
    drop(target)
    make_new(target)
    with faults_told(source, tr("Reading")):
        is_own = source.resolve().parent == (folder / BACKUP_FOLDER).resolve()
        taken = take_over(source, target, from_elsewhere=not is_own)
    made_current(target)
    return taken
