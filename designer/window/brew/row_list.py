"""A list of painted rows that leaves letters to the page: they are keys of the step, no search."""

from __future__ import annotations

from PySide6.QtCore import QAbstractListModel, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QListView, QStyledItemDelegate

from designer.window.parts.scrolling import own_viewport


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
