"""The backups of the Recipe box as a Qt table: when each was made, what it holds, how it reads."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QLocale, QObject

from designer.library.store.backup_files import Backup
from designer.library.store.health import (
    DAMAGED,
    EMPTY,
    FOREIGN,
    MISSING,
    NEWER,
    SOUND,
    UNREADABLE,
    Health,
)
from designer.translation import message, tr
from designer.window.parts.columns import Column
from designer.window.parts.dates import day_text
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.plain_text import tip
from designer.window.parts.table_model import TableModel

STATES = {
    SOUND: message("sound"),
    DAMAGED: message("damaged"),
    EMPTY: message("empty"),
    MISSING: message("gone"),
    FOREIGN: message("no Recipe box"),
    NEWER: message("needs a newer Hobwort"),
    UNREADABLE: message("cannot be read"),
}


@dataclass(frozen=True, slots=True)
class BackupRow:
    """A backup, its size in bytes, and what reading it through told; None while it is read."""

    backup: Backup
    size: int
    health: Health | None = None

    @property
    def is_sound(self) -> bool:
        """Whether it was read through and can be brought back."""
        return self.health is not None and self.health.state == SOUND


def made_text(backup: Backup) -> str:
    """Return when a backup was made, as the locale writes it, by the clock of this place."""
    return f"{day_text(backup.made)}, {backup.made.astimezone():%H:%M:%S}"


def _size(row: BackupRow, _: DisplayFormat) -> str:
    return QLocale().formattedDataSize(row.size, 1, QLocale.DataSizeFormat.DataSizeSIFormat)


def _state(row: BackupRow, _: DisplayFormat) -> str:
    if row.health is None:
        return tr("being read …")
    return tr(STATES.get(row.health.state, row.health.state))


def _held(key: str) -> Callable[[BackupRow, DisplayFormat], str]:
    return lambda row, _: str(getattr(row.health, key)) if row.health is not None else ""


COLUMNS = (
    Column("made", message("Made"), text=lambda row, _: made_text(row.backup), width=190),
    Column("recipes", message("Recipes"), text=_held("recipes"), right=True, width=80),
    Column("versions", message("Versions"), text=_held("versions"), right=True, width=80),
    Column("size", message("Size"), text=_size, right=True, width=90),
    Column("state", message("Read through"), text=_state, width=220),
)


class BackupsModel(TableModel):
    """The newest first."""

    if_empty = message("not known yet")

    def __init__(self, display: DisplayFormat, parent: QObject | None = None) -> None:
        super().__init__(COLUMNS, display, parent)
        self.rows: tuple[BackupRow, ...] = ()

    def show_rows(self, rows: tuple[BackupRow, ...]) -> None:
        """Show other backups; those that were read through stay so."""
        known = {row.backup.path: row.health for row in self.rows}
        self.put_rows(
            tuple(BackupRow(row.backup, row.size, known.get(row.backup.path)) for row in rows)
        )

    def next_unread(self) -> Path | None:
        """Return the newest backup that was not read through yet."""
        return next((row.backup.path for row in self.rows if row.health is None), None)

    def put_health(self, path: Path, health: Health) -> None:
        """Show what reading a backup through told."""
        self.rows = tuple(
            BackupRow(row.backup, row.size, health) if row.backup.path == path else row
            for row in self.rows
        )
        for number, row in enumerate(self.rows):
            if row.backup.path == path:
                self.tell_row(number)

    def spoken(self, column: Column, row: BackupRow) -> str:
        said = self.text(column, row) or tr(self.if_empty)
        return tr("{column}: {text}", column=tr(column.heading), text=said)

    def tip(self, column: Column, row: BackupRow) -> str | None:
        unsound = row.health if not row.is_sound else None
        return tip(unsound.words) if unsound is not None else None
