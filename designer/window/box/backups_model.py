"""The backups of the Recipe box as a Qt table: when each was made, what it holds, how it reads."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QLocale,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
)

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
from designer.window.parts.dates import day_text
from designer.window.parts.plain_text import tip

Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()
_Role = Qt.ItemDataRole
HEADINGS = ("Made", "Recipes", "Versions", "Size", "Read through")
WIDTHS = (190, 80, 80, 90, 220)
STATES = {
    SOUND: "sound",
    DAMAGED: "damaged",
    EMPTY: "empty",
    MISSING: "gone",
    FOREIGN: "no Recipe box",
    NEWER: "needs a newer Hobwort",
    UNREADABLE: "cannot be read",
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


class BackupsModel(QAbstractTableModel):
    """The newest first."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.rows: tuple[BackupRow, ...] = ()

    def show_rows(self, rows: tuple[BackupRow, ...]) -> None:
        """Show other backups; those that were read through stay so."""
        known = {row.backup.path: row.health for row in self.rows}
        self.beginResetModel()
        self.rows = tuple(
            BackupRow(row.backup, row.size, known.get(row.backup.path)) for row in rows
        )
        self.endResetModel()

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
                last = self.index(number, self.columnCount() - 1)
                self.dataChanged.emit(self.index(number, 0), last)

    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(HEADINGS)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = _Role.DisplayRole
    ) -> Any:
        if orientation is not Qt.Orientation.Horizontal or not 0 <= section < len(HEADINGS):
            return None
        if role == _Role.DisplayRole:
            return HEADINGS[section]
        return _alignment(section) if role == _Role.TextAlignmentRole else None

    def data(self, index: Index, role: int = _Role.DisplayRole) -> Any:
        if not index.isValid() or index.row() >= len(self.rows):
            return None
        row, column = self.rows[index.row()], index.column()
        if role == _Role.DisplayRole:
            return _text(row, column)
        if role == _Role.TextAlignmentRole:
            return _alignment(column)
        if role == _Role.AccessibleTextRole:
            return f"{HEADINGS[column]}: {_text(row, column) or 'not known yet'}"
        if role == _Role.ToolTipRole and row.health is not None and not row.is_sound:
            return tip(row.health.words)
        return None


def _text(row: BackupRow, column: int) -> str:
    health = row.health
    if column == 0:
        return made_text(row.backup)
    if column == 3:
        return QLocale().formattedDataSize(row.size, 1, QLocale.DataSizeFormat.DataSizeSIFormat)
    if health is None:
        return "being read …" if column == 4 else ""
    if column == 4:
        return STATES.get(health.state, health.state)
    return str((health.recipes, health.versions)[column - 1])


def _alignment(column: int) -> Qt.AlignmentFlag:
    is_number = 0 < column < 4
    across = Qt.AlignmentFlag.AlignRight if is_number else Qt.AlignmentFlag.AlignLeft
    return across | Qt.AlignmentFlag.AlignVCenter
