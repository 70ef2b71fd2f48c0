"""Offers below a field are shown whole: as wide as the longest, and no row cut in half."""

from __future__ import annotations

from typing import cast

from PySide6.QtCore import QEvent, QObject, QPoint, QRect
from PySide6.QtWidgets import QAbstractItemView, QCompleter, QWidget


class WholeOffers(QObject):
    """Keeps the list below a field as wide as its longest offer, and its last row uncut."""

    def __init__(self, completer: QCompleter, field: QWidget) -> None:
        super().__init__(field)
        self._field, self._most = field, completer.maxVisibleItems()
        self._list = cast(QAbstractItemView, completer.popup())
        self._list.setObjectName("offers")
        self._list.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Show, QEvent.Type.Resize):
            self._fit()
        return False

    def _fit(self) -> None:
        wanted = self._wanted()
        if wanted != self._list.geometry():
            self._list.setGeometry(wanted)

    def _wanted(self) -> QRect:
        """Return where the list is to lie: at its field, within the screen, no row cut."""
        rows, frame = self._list.model().rowCount(), 2 * self._list.frameWidth()
        row = self._list.sizeHintForRow(0)
        screen = self._list.screen().availableGeometry()
        field = QRect(self._field.mapToGlobal(QPoint(0, 0)), self._field.size())
        is_below = self._list.y() >= field.top()
        room = (screen.bottom() - field.bottom()) if is_below else (field.top() - screen.top())
        seen = max(min(rows, self._most, (room - frame) // max(row, 1)), 1)
        bar = self._list.verticalScrollBar().sizeHint().width() if seen < rows else 0
        width = max(self._list.sizeHintForColumn(0) + bar + frame, field.width())
        width = min(width, screen.width())
        height = seen * row + frame
        left = max(min(field.left(), screen.right() + 1 - width), screen.left())
        top = field.bottom() + 1 if is_below else field.top() - height
        return QRect(left, top, width, height)
