"""The backups of the Recipe box: which there are, whether they read, and bringing one back.

They are read through in the background, one after the other, beside the store's own thread: a large
backup holds up neither the window nor what is being kept.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QShowEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QLabel,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from designer.errors import DesignerError
from designer.library.store.backup_files import DAYS, NEWEST, WEEKS, backups
from designer.library.store.health import Health, check
from designer.translation import message, tr
from designer.window.box.backups_kept import BackupsKept
from designer.window.box.backups_model import BackupRow, BackupsModel, made_text
from designer.window.parts.background import Latest
from designer.window.parts.buttons import button
from designer.window.parts.column_widths import begin_with
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.page_frame import heading
from designer.window.parts.targets import keep_rows_high
from designer.window.parts.under_way import UnderWay
from designer.window.session.autosave import Autosave
from designer.window.session.box_maintenance import BoxMaintenance
from designer.workbench.keys import OPEN_OR_EDIT

if TYPE_CHECKING:
    from designer.window.parts.deeds import Deeds

RULE = message(
    "Made automatically while you work, whenever something has changed. The newest {newest} are "
    "kept, and one for each of {days} days and {weeks} weeks, as long as they fit into the room "
    "below. They are in {folder}."
)


@dataclass(frozen=True, slots=True)
class _Read:
    """A backup's file, and what reading it through told."""

    path: Path
    health: Health


class BackupsTable(QTableView):
    """The list of backups; Return brings the chosen one back."""

    bring_wanted = Signal()

    def __init__(self, model: BackupsModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setModel(model)
        self.setAccessibleName(tr("Backups, the newest first"))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        keep_rows_high(self, 12)
        self.horizontalHeader().setHighlightSections(False)
        self.horizontalHeader().setStretchLastSection(True)
        begin_with(self, (column.width for column in model.columns))

    def deeds(self) -> Deeds:
        """Return what the Edit menu can do here just now: bring the chosen backup back."""
        is_chosen = self.currentIndex().isValid()
        return {OPEN_OR_EDIT: self.bring_wanted.emit} if is_chosen else {}

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.bring_wanted.emit()
        else:
            super().keyPressEvent(event)


class BackupsPanel(QWidget):
    """Takes the place of the list of recipes; Escape goes back to that."""

    closed = Signal()
    copy_wanted = Signal()
    copy_back_wanted = Signal()
    said = Signal(str, bool)

    def __init__(
        self,
        autosave: Autosave,
        maintenance: BoxMaintenance,
        display: DisplayFormat,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._autosave, self._maintenance = autosave, maintenance
        self.model = BackupsModel(display, self)
        self.latest = Latest(self)
        self.latest.answered.connect(self._take)
        self._lay_out()
        autosave.box_replaced.connect(self.look)
        maintenance.backed_up.connect(self.look)
        maintenance.progressed.connect(self.under_way.tell)
        self._enable()

    def _lay_out(self) -> None:
        self.table = BackupsTable(self.model)
        self.table.bring_wanted.connect(self.bring_back)
        self.table.selectionModel().selectionChanged.connect(self._enable)
        self.told = QLabel()
        self.told.setObjectName("soft")
        self.told.setWordWrap(True)
        self.told.setTextFormat(Qt.TextFormat.PlainText)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(self._top())
        layout.addWidget(self.told)
        self.none = QLabel(
            tr("There is no backup yet. The first is made within a quarter of an hour.")
        )
        self.none.hide()
        layout.addWidget(self.none)
        layout.addWidget(self.table, 1)
        self.keeping = BackupsKept(self._autosave)
        self.keeping.said.connect(self.said)
        layout.addWidget(self.keeping)
        layout.addLayout(self._bottom())

    def _top(self) -> QHBoxLayout:
        self.back_button = button(
            tr("Back to the recipes"), tr("Escape does so too"), self.closed.emit
        )
        self.under_way = UnderWay(self._maintenance.stop, tr("Nothing half made is kept"))
        row = QHBoxLayout()
        row.addWidget(heading(tr("Backups")))
        row.addStretch(1)
        row.addWidget(self.under_way)
        row.addWidget(self.back_button)
        return row

    def _bottom(self) -> QHBoxLayout:
        self.bring_button = button(
            tr("Restore this backup"),
            tr("Restore the chosen backup; what the box holds now is backed up first"),
            self.bring_back,
        )
        self.make_button = button(
            tr("Make a backup now"), tr("Back up everything the box holds now"), self.make
        )
        self.copy_button = button(
            tr("Copy everything to a file…"), tr("To keep on another disk"), self.copy_wanted.emit
        )
        self.copy_back_button = button(
            tr("Restore everything from a copy…"),
            tr("Restore from such a file; what the box holds now is backed up first"),
            self.copy_back_wanted.emit,
        )
        row = QHBoxLayout()
        row.addWidget(self.bring_button)
        row.addWidget(self.make_button)
        row.addStretch(1)
        row.addWidget(self.copy_button)
        row.addWidget(self.copy_back_button)
        return row

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.look()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.closed.emit()
        else:
            super().keyPressEvent(event)

    def take_focus(self) -> None:
        """Give the keyboard to the list."""
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    # reading

    def look(self) -> None:
        """Look anew which backups there are, then read those through that are new."""
        folder = self._autosave.backup_folder
        self.told.setText(tr(RULE, newest=NEWEST, days=DAYS, weeks=WEEKS, folder=folder))
        self.keeping.look()
        if self.isVisible():
            self.latest.ask(partial(_found, self._autosave.folder))

    def _take(self, answer: tuple[BackupRow, ...] | _Read | DesignerError) -> None:
        if isinstance(answer, DesignerError):
            self.said.emit(str(answer), True)
            return
        if isinstance(answer, _Read):
            self.model.put_health(answer.path, answer.health)
        else:
            self._show(answer)
        self._enable()
        unread = self.model.next_unread()
        if unread is not None and self.isVisible():
            self.latest.ask(lambda: _Read(unread, check(unread)))

    def _show(self, rows: tuple[BackupRow, ...]) -> None:
        chosen = self.chosen()
        self.none.setVisible(not rows)
        self.model.show_rows(rows)
        paths = [row.backup.path for row in self.model.rows]
        if paths:
            kept = chosen is not None and chosen.backup.path in paths
            self.table.selectRow(paths.index(chosen.backup.path) if kept and chosen else 0)

    def chosen(self) -> BackupRow | None:
        """Return the chosen backup."""
        rows = {index.row() for index in self.table.selectionModel().selectedIndexes()}
        return self.model.rows[rows.pop()] if rows and max(rows) < len(self.model.rows) else None

    def _enable(self) -> None:
        chosen = self.chosen()
        self.bring_button.setEnabled(chosen is not None and chosen.is_sound)

    # doing

    def bring_back(self) -> None:
        """Bring the chosen backup back; nothing is asked, for it can be taken back."""
        chosen = self.chosen()
        if chosen is None or chosen.health is None:
            return
        if not chosen.is_sound:
            self.said.emit(tr("{fault} Choose another backup.", fault=chosen.health.words), False)
            return
        called = tr("The backup of {moment}", moment=made_text(chosen.backup))
        self._maintenance.bring_back_all(chosen.backup.path, called)

    def make(self) -> None:
        """Make a backup of what the box holds now."""
        self._maintenance.make_backup()


def _found(folder: Path) -> tuple[BackupRow, ...] | DesignerError:
    """Return the backups of a folder; one that goes meanwhile is left out."""
    try:
        found = backups(folder)
    except DesignerError as fault:
        return fault
    rows = []
    for each in found:
        try:
            rows.append(BackupRow(each, each.size))
        except OSError:
            continue
    return tuple(rows)
