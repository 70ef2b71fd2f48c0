"""A list of painted rows that leaves letters to the page: they are keys of the step, no search."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QListView, QStyledItemDelegate

from designer.window.parts.plain_text import long_tip
from designer.window.parts.scrolling import own_viewport

Index = QModelIndex | QPersistentModelIndex
ROW = int(Qt.ItemDataRole.UserRole)
"""The role of the row itself."""


class RowsModel(QAbstractListModel):
    """Rows that are painted whole: each has words, and is `said` in one sentence."""

    rows: tuple[Any, ...] = ()

    def rowCount(self, parent: Index = QModelIndex()) -> int:
        return 0 if parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        row = self.rows[index.row()]
        if role == ROW:
            return row
        if role == Qt.ItemDataRole.DisplayRole:
            return self.words_of(row)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return row.said
        return long_tip(row.said) if role == Qt.ItemDataRole.ToolTipRole else None

    def words_of(self, row: Any) -> str:
        """Return the words by which a row is known."""
        found: str = row.title
        return found


class RowList(QListView):
    """Arrows go from row to row, Return and Space choose one."""

    def __init__(self, model: QAbstractListModel, delegate: QStyledItemDelegate, name: str) -> None:
        super().__init__()
        own_viewport(self)
        self.setObjectName("plain")
        self.setModel(model)
        delegate.setParent(self)
        self.setItemDelegate(delegate)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.viewport().setAutoFillBackground(False)
        self.setAccessibleName(name)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if key in (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.activated.emit(self.currentIndex())
        elif event.text().isprintable() and event.text():
            event.ignore()
        else:
            super().keyPressEvent(event)
